// What a day's work costs the flash. The figures stand in DEVELOPERS.md.
#include <catch2/catch.hpp>
#include <cmath>

#include "retained/made_state.hpp"
#include "retained/sim_flash.hpp"

using namespace podrate;
using test::SimFlash;

namespace {

struct Wear {
    double erases_a_day;    // of each bank
    double years_at_10000;  // cycles, working 24 h on every day of the year
    double years_at_100000;
};

// A day at one record each `every_s`, with a load each twenty minutes: three whole records each, for its
// first cut, its tip and its end.
Wear wear_of(std::uint32_t bank_bytes, std::uint32_t every_s) {
    SimFlash flash(bank_bytes, 8);
    Journal journal(flash.face());
    RetainedState state = test::filled_state(1);
    journal.start(state);
    state = test::filled_state(1);
    for (std::uint32_t second = 0; second < 86400; second += every_s) {
        const std::uint32_t of_load = second % 1200;
        state.now.time_us = TimeUs{second} * kSecondUs;
        state.loads.pauses = second / 1200 * 3 + (of_load >= 20 ? 1 : 0) + (of_load >= 1150 ? 1 : 0);
        REQUIRE(journal.append(state) == JournalResult::good);
    }
    const double a_day = static_cast<double>(journal.erases()) / 2.0;
    return {a_day, 10000.0 / a_day / 365.0, 100000.0 / a_day / 365.0};
}

}  // namespace

TEST_CASE("Flash wears as told") {
    struct Row {
        std::uint32_t bank_bytes;
        std::uint32_t every_s;
        double erases_a_day;
        double years_at_10000;
    };
    const Row rows[] = {{128U << 10U, 1, 26.0, 1.05},
                        {128U << 10U, 10, 7.0, 3.9},
                        {4U << 10U, 1, 864.0, 0.03},
                        {4U << 10U, 10, 252.0, 0.11}};
    for (const Row& row : rows) {
        INFO(row.bank_bytes << " bytes, each " << row.every_s << " s");
        const Wear wear = wear_of(row.bank_bytes, row.every_s);
        CHECK(wear.erases_a_day == Approx(row.erases_a_day).epsilon(0.02));
        CHECK(wear.years_at_10000 == Approx(row.years_at_10000).epsilon(0.08));
        CHECK(wear.years_at_100000 == Approx(10.0 * row.years_at_10000).epsilon(0.08));
    }
}
