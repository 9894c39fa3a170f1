// A machine's power cut in the middle of its work, against the run that was never interrupted.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/machine.hpp"
#include "podrate/estimator.hpp"
#include "retained/sim_flash.hpp"

using namespace podrate;
using test::SimFlash;

namespace {

struct Keep {
    std::vector<Sample>* samples;
    void operator()(const Sample& sample) const { samples->push_back(sample); }
};

constexpr TimeUs kStartUs = test::Machine<Keep>::kStartUs;

// Two loads and part of a third: 5 s standing, three bouts of 200 s with turns of 25 s, stand at 680 s, tip
// at 720 s for 30 s, on from 765 s, stand at 1065 s, tip at 1095 s for 30 s, on from 1140 s to 1340 s.
std::vector<Sample> the_work(std::uint64_t seed) {
    std::vector<Sample> samples;
    test::Machine<Keep> machine(Keep{&samples}, seed);
    machine.stand(5.0);
    for (int bout = 0; bout < 3; ++bout) {
        machine.drive(200.0, 0.8);
        machine.drive(25.0, 1.2, false);
    }
    machine.stand(40.0);
    machine.tip();
    machine.stand(15.0);
    machine.drive(300.0, 0.8);
    machine.stand(30.0);
    machine.tip();
    machine.stand(15.0);
    machine.drive(200.0, 0.8);
    machine.stand(60.0);
    return samples;
}

struct Cut {
    double at_s;
    double off_s;
};

struct Outcome {
    Estimate end;
    std::vector<Load> loads;
    LossSoFar lost;
};

void keep_load(std::vector<Load>& loads, const Load& load) {
    if (load.number > loads.size()) loads.push_back(load);
    if (load.number > 0 && load.number == loads.size()) loads.back() = load;
}

Outcome work_through(const std::vector<Sample>& samples, const std::vector<Cut>& cuts) {
    SimFlash flash(8192, 8);
    Journal journal(flash.face());
    RetainedState kept;
    journal.start(kept);
    Estimator estimator{Parameters{}};
    Outcome outcome;
    TimeUs kept_us = 0;
    std::size_t next = 0;
    for (const Sample& sample : samples) {
        const double at_s = static_cast<double>(sample.time_us - kStartUs) / 1e6;
        if (next < cuts.size() && at_s >= cuts[next].at_s) {
            if (at_s < cuts[next].at_s + cuts[next].off_s) continue;
            ++next;
            // All that was in memory is gone.
            estimator = Estimator{Parameters{}};
            journal = Journal(flash.face());
            kept = RetainedState();
            REQUIRE(journal.start(kept) == JournalResult::good);
            REQUIRE(estimator.resume(kept, sample.time_us) == ResumeResult::resumed);
        }
        REQUIRE(estimator.feed(sample) == FeedResult::taken);
        keep_load(outcome.loads, estimator.last_load());
        if (sample.time_us - kept_us < kSecondUs || !estimator.save(kept)) continue;
        kept_us = sample.time_us;
        REQUIRE(journal.append(kept) == JournalResult::good);
    }
    REQUIRE(next == cuts.size());
    outcome.end = estimator.read();
    outcome.lost = estimator.loss_so_far();
    return outcome;
}

double kg(Real value) {
    return static_cast<double>(value);
}

// The area of a second at full speed: what may be missing beside what was cut while the power was off.
constexpr double kSecondOfAreaM2 = 0.8 * 3.3;

struct Case {
    const char* name;
    std::vector<Cut> cuts;
    double off_in_crop_s;  // of the time without power, in crop
    double within_kg;      // total and each load; what came into an emptied hopper unseen included
};

}  // namespace

TEST_CASE("After a power cut the totals are those of the run that was never cut") {
    const std::vector<Case> cases = {
        {"in a bout, a moment", {{300.0, 2.0}}, 2.0, 1.5},
        {"in a bout, ten seconds", {{300.0, 10.0}}, 10.0, 1.5},
        {"in a bout, a minute and a half", {{250.0, 90.0}}, 90.0, 1.5},
        {"as a bout begins", {{230.5, 3.0}}, 3.0, 1.5},
        {"turning", {{440.0, 10.0}}, 0.0, 1.5},
        {"standing full", {{690.0, 20.0}}, 0.0, 1.5},
        {"just before a tip, back after it", {{718.0, 60.0}}, 13.0, 10.0},
        {"as peas begin to pour", {{720.7, 2.0}}, 0.0, 4.0},
        {"while they pour, back while they still do", {{735.0, 4.0}}, 0.0, 4.0},
        {"while they pour, back after it", {{735.0, 20.0}}, 0.0, 4.0},
        {"while they pour, back in the next bout", {{735.0, 60.0}}, 30.0, 35.0},
        {"poured out, not weighed yet", {{752.0, 5.0}}, 0.0, 4.0},
        {"as the load is closed", {{756.5, 3.0}}, 0.0, 4.0},
        {"again and again",
         {{100.0, 5.0}, {108.0, 3.0}, {400.0, 5.0}, {725.0, 3.0}, {745.0, 3.0}, {900.0, 40.0}},
         53.0,
         5.0},
    };
    for (const std::uint64_t seed : {1U, 2U, 3U}) {
        const std::vector<Sample> samples = the_work(seed);
        const Outcome whole = work_through(samples, {});
        REQUIRE(whole.loads.size() == 2);
        for (const Case& c : cases) {
            const Outcome cut = work_through(samples, c.cuts);
            INFO(c.name << ", seed " << seed << ": harvested " << cut.end.harvested_kg << " kg, uncut "
                        << whole.end.harvested_kg << " kg; area " << cut.end.area_m2 << " and "
                        << whole.end.area_m2 << " m2; loads " << cut.loads.size());
            CHECK(std::abs(kg(cut.end.harvested_kg) - kg(whole.end.harvested_kg)) < c.within_kg);
            REQUIRE(cut.loads.size() == 2);
            for (std::size_t i = 0; i < 2; ++i) {
                INFO("load " << i + 1 << ": " << cut.loads[i].net_kg << ", uncut " << whole.loads[i].net_kg);
                CHECK(std::abs(kg(cut.loads[i].net_kg) - kg(whole.loads[i].net_kg)) < c.within_kg);
            }
            const double missing_m2 = kg(whole.end.area_m2) - kg(cut.end.area_m2);
            CHECK(missing_m2 > -0.1);
            CHECK(missing_m2 <
                  (c.off_in_crop_s + static_cast<double>(c.cuts.size())) * kSecondOfAreaM2 + 0.1);
            CHECK(kg(cut.end.harvested_sd_kg) < 2.0 * kg(whole.end.harvested_sd_kg) + 5.0);
        }
    }
}
