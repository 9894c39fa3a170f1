#include "podrate/advice/advisor.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <set>
#include <string>

#include "core/normals.hpp"

using namespace podrate;

namespace {

// Loss and crop known closely enough to advise.
Parameters sure() {
    Parameters p;
    p.drum_loss_ln_sd = Real(0.05);
    p.crop_ln_sd = Real(0.05);
    p.picking_loss_low_share = Real(0.038);
    p.picking_loss_high_share = Real(0.042);
    p.speed_least_mps = Real(0.1);
    p.speed_most_mps = Real(5);
    return p;
}

// A filter that has just begun to cut such a crop, at about the speed that would be advised in it.
FlowFilter filter_of(Parameters p, double crop_kgpm2 = 0.5) {
    p.crop_kgpm2 = static_cast<Real>(crop_kgpm2);
    FlowFilter filter(p);
    Intake intake;
    intake.dt_s = Real(0.1);
    intake.distance_m = static_cast<Real>(0.05 / crop_kgpm2);
    intake.area_m2 = intake.distance_m * p.width_m;
    filter.predict(intake);
    return filter;
}

// Looks once a second, `for_s` times; returns the advice then.
class Looker {
  public:
    explicit Looker(const Parameters& parameters) : advisor(parameters) {}
    const Advice& look(const FlowFilter& filter, int for_s = 1, double speed_mps = 0.8) {
        for (int i = 0; i < for_s; ++i) {
            now_us += kSecondUs;
            advisor.look(now_us, filter, static_cast<Real>(speed_mps));
        }
        return advisor.advice();
    }
    Advisor advisor;
    TimeUs now_us = 1000 * kSecondUs;
};

double advised(const Advice& advice) {
    REQUIRE(advice.speed.known);
    return static_cast<double>(advice.speed.speed_mps);
}

}  // namespace

TEST_CASE("Each binding has a name of its own") {
    std::set<std::string> names;
    for (const Binding binding :
         {Binding::unsure, Binding::loss_limit, Binding::wanted_rate, Binding::machine_limits}) {
        names.insert(name_of(binding));
    }
    CHECK(names.size() == 4);
    CHECK(names.count("") == 0);
}

TEST_CASE("Where the loss is not known closely nothing is advised") {
    Parameters parameters;
    parameters.drum_loss_ln_sd = Real(1.5);
    Looker looker(parameters);
    const Advice& advice = looker.look(FlowFilter(parameters), 10);
    CHECK(advice.binding == Binding::unsure);
    CHECK_FALSE(advice.speed.known);
    // The limit's speed is told all the same, with its wide interval.
    CHECK(advice.under_limit.known);
    CHECK(advice.under_limit.high_mps > Real(1.25) * advice.under_limit.speed_mps);
}

TEST_CASE("Where picking alone loses more than the limit nothing is advised") {
    Parameters parameters = sure();
    parameters.loss_limit_share = Real(0.03);
    Looker looker(parameters);
    const Advice& advice = looker.look(filter_of(parameters), 10);
    CHECK(advice.binding == Binding::unsure);
    CHECK_FALSE(advice.speed.known);
    CHECK_FALSE(advice.under_limit.known);
}

TEST_CASE("The speed advised is the highest under the limit where nothing else binds") {
    const Parameters parameters = sure();
    Looker looker(parameters);
    const Advice& advice = looker.look(filter_of(parameters));
    CHECK(advice.binding == Binding::loss_limit);
    CHECK(advice.speed.speed_mps == advice.under_limit.speed_mps);
    CHECK(advice.speed.low_mps == advice.under_limit.low_mps);
    CHECK(advice.speed.high_mps == advice.under_limit.high_mps);
}

TEST_CASE("A wanted load rate binds where it is met below the limit, and only there") {
    Parameters parameters = sure();
    const FlowFilter filter = filter_of(parameters);
    parameters.wanted_rate_kgps = Real(0.8);
    Looker slower(parameters);
    const Advice& met = slower.look(filter);
    CHECK(met.binding == Binding::wanted_rate);
    CHECK(met.speed.speed_mps == met.for_rate.speed_mps);
    CHECK(met.speed.low_mps == met.for_rate.low_mps);
    CHECK(met.speed.high_mps == met.for_rate.high_mps);
    CHECK(met.speed.speed_mps < met.under_limit.speed_mps);
    parameters.wanted_rate_kgps = Real(1.9);
    Looker faster(parameters);
    const Advice& beyond = faster.look(filter);
    REQUIRE(beyond.for_rate.known);
    CHECK(beyond.binding == Binding::loss_limit);
    CHECK(beyond.speed.speed_mps == beyond.under_limit.speed_mps);
    parameters.wanted_rate_kgps = Real(20);
    Looker never(parameters);
    CHECK(never.look(filter).binding == Binding::loss_limit);
    CHECK_FALSE(never.look(filter).for_rate.known);
}

TEST_CASE("The advice stays within the machine's limits") {
    test::Normals normals(80);
    int bound = 0;
    for (int i = 0; i < 300; ++i) {
        Parameters parameters = sure();
        parameters.speed_least_mps = static_cast<Real>(normals.between(0.1, 1.5));
        parameters.speed_most_mps = static_cast<Real>(normals.between(0.2, 2.0));
        parameters.drum_loss_share = static_cast<Real>(normals.between(0.005, 0.08));
        parameters.wanted_rate_kgps = static_cast<Real>(normals.between(0.0, 2.0));
        Looker looker(parameters);
        for (int k = 0; k < 5; ++k) {
            const Advice& advice = looker.look(filter_of(parameters, normals.between(0.2, 1.0)), 40);
            if (!advice.speed.known) continue;
            CHECK(advice.speed.speed_mps >= parameters.speed_least_mps);
            CHECK(advice.speed.speed_mps <= std::max(parameters.speed_least_mps, parameters.speed_most_mps));
            if (advice.binding == Binding::machine_limits) ++bound;
        }
    }
    CHECK(bound > 100);
}

TEST_CASE("A machine that may go no faster is told so") {
    Parameters parameters = sure();
    parameters.speed_most_mps = Real(0.6);
    Looker looker(parameters);
    const Advice& advice = looker.look(filter_of(parameters));
    CHECK(advice.binding == Binding::machine_limits);
    CHECK(advice.speed.speed_mps == Real(0.6));
}

TEST_CASE("What is advised changes by a centimetre a second each second and no more") {
    const Parameters parameters = sure();
    Looker looker(parameters);
    const double before_mps = advised(looker.look(filter_of(parameters, 0.4)));
    const FlowFilter richer = filter_of(parameters, 0.7);
    double last_mps = before_mps;
    for (int i = 0; i < 10; ++i) {
        const double now_mps = advised(looker.look(richer));
        CHECK(last_mps - now_mps == Approx(0.01).epsilon(1e-3));
        last_mps = now_mps;
    }
    // A gap counts as half a minute at most.
    looker.now_us += 600 * kSecondUs;
    CHECK(last_mps - advised(looker.look(richer)) == Approx(0.3).epsilon(1e-3));
    const Advice& at_last = looker.look(richer, 300);
    CHECK(advised(at_last) == Approx(static_cast<double>(at_last.under_limit.speed_mps)).margin(0.02));
}

TEST_CASE("Within a second a second look changes nothing") {
    const Parameters parameters = sure();
    Looker looker(parameters);
    const Real gained_kgps = looker.look(filter_of(parameters), 1, 0.5).faster.gained_kgps;
    looker.advisor.look(looker.now_us + kSecondUs - 1, filter_of(parameters), Real(1));
    CHECK(looker.advisor.advice().faster.gained_kgps == gained_kgps);
    looker.advisor.look(looker.now_us + kSecondUs, filter_of(parameters), Real(1));
    CHECK(looker.advisor.advice().faster.gained_kgps != gained_kgps);
}

TEST_CASE("Looking more than once a second does not hurry it") {
    const Parameters parameters = sure();
    Looker looker(parameters);
    const double before_mps = advised(looker.look(filter_of(parameters, 0.4)));
    const FlowFilter richer = filter_of(parameters, 0.7);
    for (int i = 0; i < 100; ++i) {
        looker.now_us += kSecondUs / 10;
        looker.advisor.look(looker.now_us, richer, Real(0.8));
    }
    CHECK(before_mps - advised(looker.advisor.advice()) == Approx(0.1).epsilon(0.01));
}

TEST_CASE("For less than anybody could steer the advice does not move") {
    const Parameters parameters = sure();
    Looker looker(parameters);
    const double before_mps = advised(looker.look(filter_of(parameters, 0.5)));
    const FlowFilter hardly = filter_of(parameters, 0.5 * (1.0 + 0.015 / before_mps));
    CHECK(advised(looker.look(hardly, 100)) == before_mps);
    const FlowFilter more = filter_of(parameters, 0.5 * (1.0 + 0.06 / before_mps));
    CHECK(advised(looker.look(more, 100)) < before_mps - 0.02);
}

TEST_CASE("Once unsure, the advice falls silent, and begins where it should be when sure again") {
    const Parameters parameters = sure();
    Looker looker(parameters);
    REQUIRE(looker.look(filter_of(parameters, 0.4)).speed.known);
    Parameters unsure = parameters;
    unsure.drum_loss_ln_sd = Real(2);
    CHECK_FALSE(looker.look(filter_of(unsure, 0.4)).speed.known);
    const Advice& again = looker.look(filter_of(parameters, 0.8));
    CHECK(again.speed.speed_mps == again.under_limit.speed_mps);
}

TEST_CASE("A step faster or slower is the difference between two speeds") {
    const Parameters parameters = sure();
    const FlowFilter filter = filter_of(parameters);
    const SpeedOutlook outlook(filter, parameters.width_m);
    for (const double speed_mps : {0.05, 0.5, 0.9, 1.4}) {
        INFO("at " << speed_mps << " m/s");
        Looker looker(parameters);
        const Advice& advice = looker.look(filter, 1, speed_mps);
        const auto here = static_cast<Real>(speed_mps);
        const auto to = [&](double step_mps) {
            return static_cast<Real>(std::max(0.0, speed_mps + step_mps));
        };
        const double step_mps = 0.5 / 3.6;
        const auto difference = [&](Real a, Real b) {
            return Approx(static_cast<double>(a - b)).margin(1e-5);
        };
        CHECK(static_cast<double>(advice.faster.gained_kgps) ==
              difference(outlook.rate_kgps(to(step_mps)), outlook.rate_kgps(here)));
        CHECK(static_cast<double>(advice.slower.gained_kgps) ==
              difference(outlook.rate_kgps(to(-step_mps)), outlook.rate_kgps(here)));
        CHECK(static_cast<double>(advice.faster.ground_kgpm2) ==
              difference(outlook.ground_kgpm2(to(step_mps)), outlook.ground_kgpm2(here)));
        CHECK(static_cast<double>(advice.slower.ground_kgpm2) ==
              difference(outlook.ground_kgpm2(to(-step_mps)), outlook.ground_kgpm2(here)));
        CHECK(advice.slower.gained_kgps < Real(0));
        CHECK(advice.faster.ground_kgpm2 > Real(0));
    }
}

TEST_CASE("Past the fold is told of the present speed") {
    const Parameters parameters = sure();
    const FlowFilter filter = filter_of(parameters);
    const auto fold_mps = static_cast<double>(SpeedOutlook(filter, parameters.width_m).fold_mps());
    for (const double share : {0.5, 0.99, 1.01, 2.0}) {
        Looker looker(parameters);
        const Advice& advice = looker.look(filter, 1, share * fold_mps);
        CHECK(advice.past_fold == (share > 1.0));
    }
}
