#include "score/loss_alarms.hpp"

#include <catch2/catch.hpp>

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
