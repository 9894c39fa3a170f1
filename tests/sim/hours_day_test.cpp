// The books of the shipped synthetic day against its truth.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "hours/freshness.hpp"
#include "hours/stretch_track.hpp"
#include "log/column_reader.hpp"
#include "replay/day_replay.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

namespace fs = std::filesystem;

const fs::path kShipped = fs::path(PODRATE_SOURCE_DIR) / "demo_logs" / "harrowmere";

TimeKind kind_named(std::string_view name) {
    for (std::size_t i = 0; i < kTimeKinds; ++i) {
        if (name == name_of(static_cast<TimeKind>(i))) return static_cast<TimeKind>(i);
    }
    throw std::logic_error("no such kind of time");
}

// What had been cut (and would not be lost) and what had reached the hopper by the end of each second.
struct TrueRun {
    std::vector<double> unix_s;
    std::vector<double> cut_kg;
    std::vector<double> came_kg;

    // When as much had been cut as had come to the hopper between two moments, up to a share of it.
    [[nodiscard]] double cut_s(double from_s, double to_s, double share) const {
        const double before_kg = came_kg[second(from_s)];
        const double kg = before_kg + share * (came_kg[second(to_s)] - before_kg);
        const auto at = std::lower_bound(cut_kg.begin(), cut_kg.end(), kg);
        return unix_s[static_cast<std::size_t>(at - cut_kg.begin())];
    }
    [[nodiscard]] std::size_t second(double at_s) const {
        return static_cast<std::size_t>(std::lower_bound(unix_s.begin(), unix_s.end(), at_s) -
                                        unix_s.begin());
    }
};

TrueRun true_run(const std::string& machine) {
    ColumnReader truth(kShipped / "truth" / (machine + ".csv"),
                       {"unix_s", "area_rate_m2ps", "standing_kgpm2", "loss_share", "flow_kgps"});
    TrueRun run;
    double cut_kg = 0.0;
    double came_kg = 0.0;
    while (truth.next()) {
        cut_kg += truth.number(1) * truth.number(2) * (1.0 - truth.number(3));
        came_kg += truth.number(4);
        run.unix_s.push_back(truth.number(0) + 1.0);
        run.cut_kg.push_back(cut_kg);
        run.came_kg.push_back(came_kg);
    }
    return run;
}

}  // namespace

TEST_CASE("In the shipped day each machine's seconds are its span and agree with the truth's states") {
    const Day day = read_day(kShipped);
    const DayResult result = replay_day(day, {});
    REQUIRE(result.machines.size() == 3);
    for (const MachineResult& machine : result.machines) {
        INFO(machine.id);
        REQUIRE_FALSE(machine.stretches.empty());
        CHECK(machine.stretches.front().start_us == machine.first_us);
        CHECK(machine.stretches.back().end_us == machine.last_us);
        for (std::size_t i = 1; i < machine.stretches.size(); ++i) {
            CHECK(machine.stretches[i].start_us == machine.stretches[i - 1].end_us);
            CHECK(machine.stretches[i].kind != machine.stretches[i - 1].kind);
        }
        const KindSeconds seconds = seconds_by_kind(machine.stretches);
        const double span_s = static_cast<double>(machine.last_us - machine.first_us) / 1e6;
        CHECK(std::accumulate(seconds.begin(), seconds.end(), 0.0) == Approx(span_s).epsilon(1e-12));
        for (int i = 0; i < kWorkStates; ++i) {
            CHECK(seconds[static_cast<std::size_t>(i)] ==
                  Approx(machine.seconds(static_cast<WorkState>(i))).margin(1e-6));
        }

        // A second of the truth is judged by the ledger at its middle.
        ColumnReader truth(kShipped / "truth" / (machine.id + ".csv"), {"unix_s", "state"});
        KindSeconds true_s{};
        double wrong_s = 0.0;
        std::size_t at = 0;
        while (truth.next()) {
            const auto middle_us = static_cast<TimeUs>((truth.number(0) + 0.5) * 1e6);
            if (middle_us < machine.first_us) continue;
            if (middle_us >= machine.last_us) break;
            while (machine.stretches[at].end_us <= middle_us) ++at;
            const TimeKind kind = kind_named(truth.text(1));
            true_s[static_cast<std::size_t>(kind)] += 1.0;
            if (machine.stretches[at].kind != kind) wrong_s += 1.0;
        }
        // The bound that `podrate score` is held to: states right 97 % of the time.
        CHECK(wrong_s <= 0.03 * span_s);
        for (std::size_t i = 0; i < kTimeKinds; ++i) {
            INFO(words_of(static_cast<TimeKind>(i)) << ": " << seconds[i] << " s, in truth " << true_s[i]);
            CHECK(std::abs(seconds[i] - true_s[i]) <= wrong_s + 2.0);
        }
    }
}

TEST_CASE("In the shipped day the median pea of each load was cut when the truth says") {
    const Day day = read_day(kShipped);
    const DayResult result = replay_day(day, {});
    for (const MachineResult& machine : result.machines) {
        const TrueRun truth = true_run(machine.id);
        // The two books of the truth agree but for what is in the drum.
        CHECK(truth.cut_kg.back() == Approx(truth.came_kg.back()).margin(40.0));
        double emptied_s = truth.unix_s.front();
        for (const Freshness& fresh : freshness_of(machine, day.hours)) {
            INFO(machine.id << ", load " << fresh.load);
            const Load& load = machine.loads[fresh.load - 1];
            const double closed_s = static_cast<double>(load.closed_us) / 1e6;
            const double tipped_s = static_cast<double>(load.end_us) / 1e6;
            REQUIRE(fresh.median_min.has_value());
            CHECK(fresh.traced_kg == Approx(static_cast<double>(load.net_kg)).epsilon(0.02));
            const double true_min = (tipped_s - truth.cut_s(emptied_s, closed_s, 0.5)) / 60.0;
            CHECK(*fresh.median_min == Approx(true_min).margin(0.25));
            CHECK(*fresh.median_min < fresh.oldest_min);
            emptied_s = closed_s;
        }
    }
}
