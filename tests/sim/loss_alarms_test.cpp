#include "score/loss_alarms.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using namespace podrate::sim;

namespace {

constexpr double kLimit = 0.15;
constexpr double kDeadband = 0.02;

// An hour cut at 5 % of loss, from second 1000 on.
TrueLoss calm_hour() {
    TrueLoss truth;
    for (int i = 0; i < 3600; ++i) {
        truth.unix_s.push_back(1000.0 + i);
        truth.total.push_back(0.05);
    }
    return truth;
}

void raise(TrueLoss& truth, int from_s, int for_s, double share) {
    for (int i = from_s; i < from_s + for_s; ++i) truth.total[static_cast<std::size_t>(i - 1000)] = share;
}

LossAlarmScore score(const TrueLoss& truth, const std::vector<AlarmSpan>& alarms) {
    return score_loss_alarms(truth, alarms, kLimit, kDeadband);
}

}  // namespace

TEST_CASE("An alarm during an episode tells it after its delay") {
    TrueLoss truth = calm_hour();
    raise(truth, 2000, 60, 0.2);
    const LossAlarmScore s = score(truth, {{2012.0, 2070.0}});
    CHECK(s.episodes == 1);
    CHECK(s.told == 1);
    CHECK(s.median_delay_s() == Approx(12.0));
    CHECK(s.alarms == 1);
    CHECK(s.false_alarms == 0);
    CHECK(s.harvest_h == Approx(1.0));
}

TEST_CASE("Half a minute is no episode yet, and one that lasts to the end counts") {
    TrueLoss truth = calm_hour();
    raise(truth, 2000, 30, 0.2);
    CHECK(score(truth, {}).episodes == 0);
    raise(truth, 2000, 31, 0.2);
    CHECK(score(truth, {}).episodes == 1);
    CHECK(score(truth, {}).told == 0);
    CHECK(score(truth, {}).median_delay_s() < 0.0);
    raise(truth, 4500, 100, 0.2);
    CHECK(score(truth, {}).episodes == 2);
}

TEST_CASE("An alarm that stood before tells at once, one that comes too late does not tell") {
    TrueLoss truth = calm_hour();
    raise(truth, 2000, 60, 0.2);
    CHECK(score(truth, {{1990.0, 2005.0}}).median_delay_s() == 0.0);
    CHECK(score(truth, {{2080.0, 2085.0}}).told == 1);
    CHECK(score(truth, {{2081.0, 2085.0}}).told == 0);
    CHECK(score(truth, {{1950.0, 1999.0}}).told == 0);
}

TEST_CASE("An alarm that stood without a reason tells nothing of what it meets") {
    TrueLoss truth = calm_hour();
    raise(truth, 2000, 60, 0.2);
    // 20 s before is shortly before; a second more and it stood idle.
    CHECK(score(truth, {{1980.0, 2070.0}}).told == 1);
    CHECK(score(truth, {{1980.0, 2070.0}}).false_alarms == 0);
    CHECK(score(truth, {{1979.0, 2070.0}}).told == 0);
    CHECK(score(truth, {{1979.0, 2070.0}}).false_alarms == 1);
    // One that comes anew after it does.
    const LossAlarmScore anew = score(truth, {{1979.0, 2010.0}, {2025.0, 2070.0}});
    CHECK(anew.told == 1);
    CHECK(anew.median_delay_s() == Approx(25.0));
    // From one episode to the next it may stand for as long as both are near.
    raise(truth, 2099, 60, 0.2);
    CHECK(score(truth, {{2005.0, 2165.0}}).told == 2);
    raise(truth, 2099, 2, 0.05);
    CHECK(score(truth, {{2005.0, 2165.0}}).told == 1);
}

TEST_CASE("How long an alarm stood without a reason is as counted second by second") {
    std::mt19937 random(3);
    double idle_s = 0.0;
    for (int trial = 0; trial < 200; ++trial) {
        const auto spans = [&random](int count, int longest_s) {
            std::vector<AlarmSpan> made;
            int at = 0;
            for (int i = 0; i < count; ++i) {
                const int from = at + static_cast<int>(random() % 200);
                at = from + 1 + static_cast<int>(random() % static_cast<unsigned>(longest_s));
                made.push_back({static_cast<double>(from), static_cast<double>(at)});
                ++at;
            }
            return made;
        };
        const std::vector<AlarmSpan> alarms = spans(6, 300);
        const std::vector<AlarmSpan> reasons = spans(5, 60);
        const std::vector<AlarmSpan> looked_at = trial % 2 == 0 ? std::vector<AlarmSpan>{} : spans(4, 300);
        const SpanOutcomes outcomes = span_outcomes(alarms, {}, reasons, 20.0, looked_at);
        const auto near = [](const std::vector<AlarmSpan>& within, double at_s, double near_s) {
            return std::any_of(within.begin(), within.end(), [&](const AlarmSpan& span) {
                return at_s >= span.start_unix_s - near_s && at_s <= span.end_unix_s + near_s;
            });
        };
        for (std::size_t a = 0; a < alarms.size(); ++a) {
            double counted_s = 0.0;
            for (double s = alarms[a].start_unix_s + 0.5; s < alarms[a].end_unix_s; s += 1.0) {
                const bool seen = looked_at.empty() || near(looked_at, s, 0.0);
                counted_s += seen && !near(reasons, s, 20.0) ? 1.0 : 0.0;
            }
            CHECK(outcomes.idle_s[a] == Approx(counted_s));
            idle_s += counted_s;
        }
    }
    CHECK(idle_s > 1000.0);
}

TEST_CASE("While the drum blocks neither a loss nor an alarm of it counts") {
    TrueLoss truth = calm_hour();
    raise(truth, 2000, 60, 0.2);
    raise(truth, 3000, 60, 0.2);
    const std::vector<AlarmSpan> alarms = {{2010.0, 2070.0}, {4000.0, 4010.0}};
    CHECK(score(truth, alarms).episodes == 2);
    CHECK(score(truth, alarms).false_alarms == 1);
    const LossAlarmScore s =
        score_loss_alarms(truth, alarms, kLimit, kDeadband, {{2990.0, 3055.0}, {3950.0, 4020.0}});
    CHECK(s.episodes == 1);
    CHECK(s.told == 1);
    CHECK(s.false_alarms == 0);
}

TEST_CASE("An alarm is false without one second above limit less deadband near it") {
    TrueLoss truth = calm_hour();
    raise(truth, 2000, 5, 0.14);
    CHECK(score(truth, {{2010.0, 2030.0}}).false_alarms == 0);
    CHECK(score(truth, {{2024.0, 2030.0}}).false_alarms == 0);
    CHECK(score(truth, {{2025.0, 2030.0}}).false_alarms == 1);
    CHECK(score(truth, {{1970.0, 1979.0}}).false_alarms == 1);
    raise(truth, 2000, 5, 0.12);
    CHECK(score(truth, {{2000.0, 2005.0}}).false_alarms == 1);
    CHECK(score(truth, {{2000.0, 2005.0}}).false_per_h() == Approx(1.0));
}

TEST_CASE("Seconds without crop count for no harvest and end an episode") {
    TrueLoss truth = calm_hour();
    raise(truth, 2000, 60, 0.2);
    raise(truth, 2029, 3, -1.0);
    const LossAlarmScore s = score(truth, {});
    CHECK(s.episodes == 0);
    CHECK(s.harvest_h == Approx(3597.0 / 3600.0));
}

TEST_CASE("The third alarm within a minute chatters, and tallies of machines add up") {
    TrueLoss truth = calm_hour();
    raise(truth, 2000, 100, 0.2);
    LossAlarmScore all = score(truth, {{2010.0, 2015.0}, {2030.0, 2035.0}, {2070.0, 2075.0}});
    CHECK(all.chattered == 1);
    all.add(score(truth, {{2020.0, 2090.0}}));
    CHECK(all.episodes == 2);
    CHECK(all.told == 2);
    CHECK(all.alarms == 4);
    CHECK(all.median_delay_s() == Approx(15.0));
    CHECK(all.harvest_h == Approx(2.0));
    CHECK(all.alarms_per_h() == Approx(2.0));
}
