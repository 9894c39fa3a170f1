// The forecast's cases, what speed costs, and the keys behind them.
#include "plan/forecast.hpp"

#include <catch2/catch.hpp>
#include <fstream>

#include "day/local_time.hpp"
#include "plan/speed_cost.hpp"
#include "podrate/math/elementary.hpp"
#include "support/temp_folder.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

constexpr TimeUs kMinUs = 60 * kSecondUs;
constexpr TimeUs kNoonUs = 1751025600 * kSecondUs;
constexpr int kPastMin = 240;

// Four hours of 80 kg/min, loads of 1600 kg every 22 min, of which two are for the tip.
MachineResult worker(const std::string& id) {
    MachineResult m;
    m.id = id;
    m.usable = true;
    m.parameters.width_m = Real(3.3);
    m.first_us = kNoonUs - kPastMin * kMinUs;
    m.last_us = kNoonUs;
    double harvested_kg = 0.0;
    double hopper_kg = 0.0;
    for (int i = 0; i < kPastMin; ++i) {
        const TimeUs from_us = m.first_us + i * kMinUs;
        const int in_cycle = i % 22;
        Stretch s;
        s.start_us = from_us;
        s.end_us = from_us + kMinUs;
        s.kind = in_cycle < 20    ? TimeKind::harvesting
                 : in_cycle == 20 ? TimeKind::waiting
                                  : TimeKind::tipping;
        if (in_cycle < 20) {
            harvested_kg += 80.0;
            hopper_kg += 80.0;
        } else if (in_cycle == 21) {
            hopper_kg = 0.0;
        }
        if (!m.stretches.empty() && m.stretches.back().kind == s.kind) {
            m.stretches.back().end_us = s.end_us;
        } else {
            m.stretches.push_back(s);
        }
        Minute minute;
        minute.minute = from_us / kMinUs;
        minute.harvested_kg = harvested_kg;
        minute.mass_kg = hopper_kg;
        m.minutes.push_back(minute);
    }
    m.last.harvested_kg = static_cast<Real>(harvested_kg);
    m.seconds_by_state[static_cast<std::size_t>(WorkState::harvesting)] = harvested_kg / 80.0 * 60.0;
    m.last.area_m2 = static_cast<Real>(harvested_kg / 80.0 * 60.0 * 0.7 * 3.3);  // at 0.7 m/s
    m.feed_per_pea = Real(5);
    m.curve.rated_feed_kgps = Real(9);
    m.parameters.rated_feed_kgps = Real(9);
    return m;
}

DayResult gang_of(int machines) {
    DayResult result;
    for (int i = 1; i <= machines; ++i) result.machines.push_back(worker("viner_" + std::to_string(i)));
    result.first_us = result.machines[0].first_us;
    result.last_us = kNoonUs;
    return result;
}

// A plan that ends six hours later.
Day day_with_plan(double end_t) {
    Day day;
    day.time_zone = "Europe/London";
    day.intake_plan = {{static_cast<double>(kNoonUs / kSecondUs) - 14400.0, 0.0},
                       {static_cast<double>(kNoonUs / kSecondUs) + 21600.0, end_t}};
    return day;
}

const PlanCase& named(const Forecast& f, PlanCase::Kind kind, const std::string& machine) {
    for (const PlanCase& c : f.cases) {
        if (c.kind == kind && c.machine == machine) return c;
    }
    throw std::logic_error("no such case");
}

}  // namespace

TEST_CASE("A gang's forecast goes on as the day went and its cases stand in order") {
    const DayResult result = gang_of(3);
    const Day day = day_with_plan(120.0);
    const std::optional<Forecast> f = forecast_of(day, result, kNoonUs);
    REQUIRE(f.has_value());
    REQUIRE(f->cases.size() == 7);
    CHECK(f->planned_now_t == Approx(48.0));
    CHECK(f->needed_tph == Approx((120.0 - f->delivered_t) / 6.0));
    const PlanCase& all = f->cases[0];
    const auto end = [](const PlanCase& c) { return c.delivered_t.back(); };
    // 3 machines at 80 kg/min for 20 of 22 min give 78.5 t in six hours; stops that are still to come take
    // from it.
    CHECK(end(all).median < f->delivered_t + 79.0);
    CHECK(end(all).median > f->delivered_t + 60.0);
    for (const PlanCase& c : f->cases) {
        REQUIRE(c.delivered_t.size() == f->grid.points());
        CHECK(c.chance >= 0.0);
        CHECK(c.chance <= 1.0);
        double before_t = 0.0;
        for (const Quantiles& q : c.delivered_t) {
            CHECK(q.low90 <= q.low50);
            CHECK(q.low50 <= q.median);
            CHECK(q.median <= q.high50);
            CHECK(q.high50 <= q.high90);
            CHECK(q.low90 >= before_t);
            before_t = q.low90;
        }
        CHECK(c.delivered_t.front().low90 == Approx(f->delivered_t));
        CHECK(c.delivered_t.front().high90 == Approx(f->delivered_t));
    }
    const PlanCase& without = named(*f, PlanCase::Kind::without, "viner_2");
    const PlanCase& repair = named(*f, PlanCase::Kind::repair, "viner_2");
    CHECK(end(without).median < end(repair).median);
    CHECK(end(repair).median < end(all).median);
    // A third of the pace is missing; an hour of six of one machine.
    CHECK(end(all).median - end(without).median ==
          Approx((end(all).median - f->delivered_t) / 3.0).epsilon(0.1));
    CHECK(end(all).median - end(repair).median == Approx(4.36).epsilon(0.3));
    CHECK(without.chance <= repair.chance);
    CHECK(repair.chance <= all.chance);
}

TEST_CASE("A plan far below or above leaves no question") {
    const DayResult result = gang_of(2);
    const std::optional<Forecast> low = forecast_of(day_with_plan(40.0), result, kNoonUs);
    REQUIRE(low.has_value());
    CHECK(low->cases[0].chance > 0.99);
    CHECK(low->cases[0].need.verdict == SpeedNeed::Verdict::slower_will_do);
    CHECK(low->cases[0].need.more_lost_points <= 0.0);
    CHECK(low->back[0].even.verdict == BackBy::Verdict::not_needed);
    const std::optional<Forecast> high = forecast_of(day_with_plan(300.0), result, kNoonUs);
    REQUIRE(high.has_value());
    CHECK(high->cases[0].chance == 0.0);
    CHECK(high->cases[0].need.verdict == SpeedNeed::Verdict::out_of_reach);
    CHECK(high->cases[0].need.limit == Approx(SpeedCost(result.machines[0]).held(9.0)));
    CHECK(high->back[0].even.verdict == BackBy::Verdict::too_late);
}

TEST_CASE("A plan just out of reach asks for more speed and a time to be back") {
    const DayResult result = gang_of(2);
    const std::optional<Forecast> now = forecast_of(day_with_plan(200.0), result, kNoonUs);
    REQUIRE(now.has_value());
    const double median_t = now->cases[0].delivered_t.back().median;
    const std::optional<Forecast> f = forecast_of(day_with_plan(median_t + 2.0), result, kNoonUs);
    REQUIRE(f.has_value());
    const SpeedNeed& need = f->cases[0].need;
    REQUIRE(need.verdict == SpeedNeed::Verdict::faster);
    // 2 t of some 48: 4 % and a little more, since tips take their time and more is lost.
    CHECK(need.factor > 1.03);
    CHECK(need.factor < 1.09);
    CHECK(need.more_lost_points > 0.0);
    CHECK(need.more_lost_low < need.more_lost_points);
    CHECK(need.more_lost_points < need.more_lost_high);
    CHECK(need.more_lost_t > 0.0);
    const std::optional<Forecast> easier = forecast_of(day_with_plan(median_t - 4.0), result, kNoonUs);
    REQUIRE(easier.has_value());
    const MachineBack& back = easier->back[0];
    REQUIRE(back.even.verdict == BackBy::Verdict::by);
    CHECK_FALSE(back.stopped_now);
    // 4 t are worth about an hour of a machine.
    CHECK(static_cast<double>(back.even.time_us - kNoonUs) / 3.6e9 == Approx(1.0).margin(0.35));
    if (back.nine_in_ten.verdict == BackBy::Verdict::by) CHECK(back.nine_in_ten.time_us < back.even.time_us);
}

TEST_CASE("The same seed gives the same forecast and another one nearly the same") {
    const DayResult result = gang_of(2);
    Day day = day_with_plan(80.0);
    const std::optional<Forecast> one = forecast_of(day, result, kNoonUs);
    const std::optional<Forecast> again = forecast_of(day, result, kNoonUs);
    day.forecast.seed = 2;
    const std::optional<Forecast> other = forecast_of(day, result, kNoonUs);
    const Quantiles& a = one->cases[0].delivered_t.back();
    CHECK(a.median == again->cases[0].delivered_t.back().median);
    CHECK(a.low90 == again->cases[0].delivered_t.back().low90);
    CHECK(a.median != other->cases[0].delivered_t.back().median);
    CHECK(a.median == Approx(other->cases[0].delivered_t.back().median).epsilon(0.03));
}

TEST_CASE("There is no forecast without a plan ahead or without books") {
    const DayResult result = gang_of(1);
    CHECK_FALSE(forecast_of(Day{}, result, kNoonUs).has_value());
    Day day = day_with_plan(40.0);
    CHECK(forecast_of(day, result, kNoonUs).has_value());
    CHECK_FALSE(forecast_of(day, result, kNoonUs + 6 * 60 * kMinUs).has_value());
    Day far_off = day;
    far_off.intake_plan.back().unix_s = 9e9;
    CHECK_FALSE(forecast_of(far_off, result, kNoonUs).has_value());
    DayResult long_ago = result;
    long_ago.first_us -= 40LL * 86400 * kSecondUs;
    CHECK_FALSE(forecast_of(day, long_ago, kNoonUs).has_value());
    CHECK_FALSE(forecast_of(day, result, result.first_us).has_value());
    DayResult refused = result;
    refused.machines[0].usable = false;
    CHECK_FALSE(forecast_of(day, refused, kNoonUs).has_value());
}

TEST_CASE("What speed brings and costs follows the loss curve and stops at the machine's limits") {
    const MachineResult m = worker("alder");
    const SpeedCost cost(m);
    // 4/3 kg/s pass; the feed F is what makes F (1 - loss(F)) = 5 * 4/3.
    const auto loss = [&m](double feed_kgps) {
        return static_cast<double>(m.curve.loss_share(static_cast<Real>(feed_kgps)));
    };
    double feed_kgps = 7.0;
    for (int i = 0; i < 100; ++i) feed_kgps = 20.0 / 3.0 / (1.0 - loss(feed_kgps));
    CHECK(cost.rate_kgps() == Approx(4.0 / 3.0));
    CHECK(cost.lost(1.0).share == Approx(loss(feed_kgps)).epsilon(1e-4));
    CHECK(cost.lost(1.1).share == Approx(loss(1.1 * feed_kgps)).epsilon(1e-4));
    CHECK(cost.pace(1.1) ==
          Approx(1.1 * (1.0 - loss(1.1 * feed_kgps)) / (1.0 - loss(feed_kgps))).epsilon(1e-4));
    CHECK(cost.lost(1.0).low < cost.lost(1.0).share);
    CHECK(cost.lost(1.0).share < cost.lost(1.0).high);
    // The rated feed of 9 kg/s comes first; a machine beyond it is held where it is.
    CHECK(cost.held(1.8) == Approx(9.0 / feed_kgps).epsilon(1e-4));
    CHECK(cost.held(0.8) == 0.8);
    MachineResult slow = m;
    slow.parameters.speed_most_mps = Real(0.77);
    CHECK(SpeedCost(slow).held(1.8) == Approx(1.1).epsilon(1e-4));
    slow.curve.rated_feed_kgps = Real(5);
    slow.parameters.rated_feed_kgps = Real(5);
    CHECK(SpeedCost(slow).held(1.8) == 1.0);
}

TEST_CASE("Keys of the forecast are read and checked") {
    const podrate::test::TempFolder folder;
    const auto day_of = [&folder](const std::string& table, const std::string& first = "") {
        std::ofstream(folder.path() / "day.toml")
            << first << "[[machine]]\nid = \"a\"\nlog = \"a.csv\"\nwidth_m = 3.3\n"
            << table;
        return read_day(folder.path());
    };
    CHECK(day_of("").forecast.repair_min == 60.0);
    CHECK(day_of("[forecast]\nseed = 9\nrepair_min = 25\nfield_ln_sd = 0.3\n").forecast.repair_min == 25.0);
    CHECK(day_of("[forecast]\nseed = 9\n").forecast.seed == 9.0);
    CHECK(day_of("[forecast]\nseed = 9\n").problems.count() == 0);
    CHECK_THROWS_AS(day_of("[forecast]\npaths = 10\n"), RefusedInput);
    CHECK_THROWS_AS(day_of("[forecast]\nluck = 1\n"), RefusedInput);
    CHECK_THROWS_AS(day_of("", "forecast = 3\n"), RefusedInput);
}

TEST_CASE("A clock of a dated day is a moment, also about the change of the clocks") {
    const auto utc_s = [](const char* date, const char* at) {
        const std::optional<TimeUs> moment = local_moment(date, at, "Europe/London");
        return moment ? *moment / kSecondUs : -1;
    };
    CHECK(utc_s("2025-06-27", "14:05") == 1751029500);  // 13:05 UTC
    CHECK(utc_s("2025-01-10", "00:00") == 1736467200);
    CHECK(utc_s("2025-03-30", "01:30") == -1);          // left out
    CHECK(utc_s("2025-10-26", "01:30") == 1761438600);  // the first of two: 00:30 UTC
    for (const char* wrong : {"24:00", "9:05", "12:60", "ab:cd", "", "12:30 "}) {
        INFO(wrong);
        CHECK(utc_s("2025-06-27", wrong) == -1);
    }
    CHECK(utc_s("", "12:00") == -1);
    CHECK(utc_s("2025-02-30", "12:00") == -1);
}
