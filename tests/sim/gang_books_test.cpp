// The gang's books as of a moment, and a day's parts read from them.
#include "plan/gang_books.hpp"

#include <catch2/catch.hpp>

#include "plan/day_parts.hpp"
#include "plan/forecast.hpp"
#include "plan/trailer_waits.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

const std::filesystem::path kShippedDay =
    std::filesystem::path(PODRATE_SOURCE_DIR) / "demo_logs" / "harrowmere";
constexpr TimeUs kMinUs = 60 * kSecondUs;
constexpr TimeUs kStartUs = 1751032800 * kSecondUs;

Stretch stretch(TimeKind kind, double from_min, double to_min, double north_m = 0.0) {
    Stretch s;
    s.kind = kind;
    s.start_us = kStartUs + static_cast<TimeUs>(from_min * 60e6);
    s.end_us = kStartUs + static_cast<TimeUs>(to_min * 60e6);
    s.place_known = true;
    s.place = {52.6 + north_m / 111000.0, 2.9};
    return s;
}

// Works an hour at 60 kg a minute, waits 4 min for a trailer, tips 2 min; then stands, works, moves, works.
MachineResult birch() {
    MachineResult m;
    m.id = "birch";
    m.usable = true;
    m.parameters.hopper_capacity_kg = Real(4000);
    m.first_us = kStartUs;
    m.last_us = kStartUs + 120 * kMinUs;
    m.stretches = {stretch(TimeKind::stopped, 0, 2),
                   stretch(TimeKind::harvesting, 2, 40),
                   stretch(TimeKind::turning, 40, 42),
                   stretch(TimeKind::harvesting, 42, 62),
                   stretch(TimeKind::waiting, 62, 64),
                   stretch(TimeKind::stopped, 64, 66),
                   stretch(TimeKind::tipping, 66, 68),
                   stretch(TimeKind::harvesting, 68, 70),
                   stretch(TimeKind::paused_in_crop, 70, 71),
                   stretch(TimeKind::stopped, 71, 85),
                   stretch(TimeKind::harvesting, 85, 90),
                   stretch(TimeKind::stopped, 90, 90.5),
                   stretch(TimeKind::harvesting, 90.5, 100),
                   stretch(TimeKind::travelling, 100, 106),
                   stretch(TimeKind::harvesting, 106, 120, 900)};
    for (int i = 0; i < 120; ++i) {
        Minute minute;
        minute.minute = kStartUs / kMinUs + i;
        const double end_min = i + 1.0;
        minute.harvested_kg =
            60.0 * std::min(end_min, 62.0) + (end_min > 106.0 ? 60.0 * (end_min - 106.0) : 0.0);
        minute.mass_kg = end_min <= 67.0 ? minute.harvested_kg : minute.harvested_kg - 3720.0;
        m.minutes.push_back(minute);
    }
    m.last.harvested_kg = Real(60 * 76);
    return m;
}

DayResult birch_day() {
    DayResult result;
    result.machines = {birch()};
    result.first_us = kStartUs;
    result.last_us = result.machines[0].last_us;
    return result;
}

}  // namespace

TEST_CASE("A day's parts are read from its stretches as worked by hand") {
    const GangBooks books = books_until(birch_day(), kStartUs + 120 * kMinUs);
    REQUIRE(books.machines.size() == 1);
    const DayParts parts = parts_of(books.machines[0]);
    REQUIRE(parts.tips.size() == 1);
    CHECK(parts.tips[0].wait_s == Approx(240.0));  // the halt between wait and tip was a wait too
    CHECK(parts.tips[0].tip_s == Approx(120.0));
    CHECK(parts.tips[0].load_kg == Approx(3720.0));
    // The halt of two names is one; that of half a minute and standing before the first harvest are none.
    REQUIRE(parts.stops.size() == 1);
    CHECK(parts.stops[0].seconds == Approx(15.0 * 60.0));
    REQUIRE(parts.moves.size() == 1);
    CHECK(parts.moves[0].seconds == Approx(6.0 * 60.0));
    CHECK(parts.working_s == Approx((60.0 + 2.0 + 15.0 + 14.0) * 60.0));
    CHECK(parts.harvesting_s == Approx((58.0 + 2.0 + 5.0 + 9.5 + 14.0) * 60.0));
    CHECK(parts.working_s_between(kStartUs + 41 * kMinUs, kStartUs + 69 * kMinUs) == Approx(22.0 * 60.0));
    CHECK(parts.doing == Doing::work);
    CHECK(books.delivered_t() == Approx(3.72));
    CHECK(books.in_hoppers_t() == Approx(0.84));
}

TEST_CASE("A machine is taken as what it does at the moment, for so long") {
    const struct {
        double at_min;
        Doing doing;
        double for_s;
    } cases[] = {{1, Doing::stopped, 60},   {50, Doing::work, 480},   {63, Doing::waiting, 60},
                 {65, Doing::waiting, 180}, {67, Doing::tipping, 60}, {80, Doing::stopped, 600},
                 {95, Doing::work, 270},    {103, Doing::moving, 180}};
    for (const auto& c : cases) {
        INFO("minute " << c.at_min);
        const GangBooks books = books_until(birch_day(), kStartUs + static_cast<TimeUs>(c.at_min) * kMinUs);
        const DayParts parts = parts_of(books.machines.at(0));
        CHECK(parts.doing == c.doing);
        CHECK(parts.doing_s == Approx(c.for_s));
    }
}

TEST_CASE("A log that ends before the others leaves its machine standing without log") {
    DayResult result = birch_day();
    MachineResult alder = birch();
    alder.id = "alder";
    alder.stretches.erase(alder.stretches.begin() + 3, alder.stretches.end());
    alder.minutes.resize(42);
    result.machines.push_back(alder);
    const GangBooks books = books_until(result, kStartUs + 120 * kMinUs);
    REQUIRE(books.machines.size() == 2);
    CHECK(books.machines[0].log_ended_us == 0);
    CHECK(books.machines[1].log_ended_us == kStartUs + 42 * kMinUs);
    const DayParts parts = parts_of(books.machines[1]);
    CHECK(parts.doing == Doing::stopped);
    CHECK(parts.doing_s == Approx(78.0 * 60.0));
}

TEST_CASE("Waits for a trailer are summed with what they cost") {
    const std::vector<TrailerWaits> waits = trailer_waits(birch_day());
    REQUIRE(waits.size() == 1);
    CHECK(waits[0].tips == 1);
    CHECK(waits[0].waited_s == Approx(240.0));
    CHECK(waits[0].longest_s == Approx(240.0));
    CHECK(waits[0].cycle_s == 0.0);
    const std::vector<HourWaits> hours = waits_by_hour(birch_day());
    REQUIRE(hours.size() == 1);
    CHECK(hours[0].start_us == kStartUs + 60 * kMinUs);
    CHECK(hours[0].waited_s.at(0) == Approx(240.0));
}

TEST_CASE("The books up to a moment are those of logs that end there, and so is the forecast") {
    const TimeUs at_us = 1751038200 * kSecondUs;  // 16:30 in London
    Day day = read_day(kShippedDay);
    day.intake_plan.push_back({1751058000.0, 90.0});
    const DayResult whole = replay_day(day, {});
    const GangBooks cut = books_until(whole, at_us);
    const std::optional<Forecast> looked_back = forecast_of(day, whole, at_us);
    end_day_at(day, at_us);
    const DayResult ended = replay_day(day, {});
    CHECK(end_of_books_us(ended) == at_us);
    const GangBooks books = books_until(ended, end_of_books_us(ended));
    REQUIRE(books.machines.size() == cut.machines.size());
    for (std::size_t i = 0; i < books.machines.size(); ++i) {
        INFO(books.machines[i].id);
        const std::vector<Minute>& minutes = books.machines[i].minutes;
        REQUIRE(minutes.size() == cut.machines[i].minutes.size());
        for (std::size_t k = 0; k < minutes.size(); ++k) {
            CHECK(minutes[k].harvested_kg == cut.machines[i].minutes[k].harvested_kg);
            CHECK(minutes[k].mass_kg == cut.machines[i].minutes[k].mass_kg);
        }
        const std::vector<Stretch>& stretches = books.machines[i].stretches;
        REQUIRE(stretches.size() == cut.machines[i].stretches.size());
        for (std::size_t k = 0; k < stretches.size(); ++k) {
            CHECK(stretches[k].start_us == cut.machines[i].stretches[k].start_us);
            CHECK(stretches[k].end_us == cut.machines[i].stretches[k].end_us);
            CHECK(stretches[k].kind == cut.machines[i].stretches[k].kind);
        }
    }
    const std::optional<Forecast> then = forecast_of(day, ended, at_us);
    REQUIRE(looked_back.has_value());
    REQUIRE(then.has_value());
    // Of the case that no loss curve is asked for.
    const std::vector<Quantiles>& a = looked_back->cases[0].delivered_t;
    const std::vector<Quantiles>& b = then->cases[0].delivered_t;
    REQUIRE(a.size() == b.size());
    for (std::size_t k = 0; k < a.size(); ++k) {
        CHECK(a[k].low90 == b[k].low90);
        CHECK(a[k].median == b[k].median);
        CHECK(a[k].high90 == b[k].high90);
    }
}
