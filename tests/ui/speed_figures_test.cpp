#include "model/speed_figures.hpp"

#include <catch2/catch.hpp>

using namespace podrate;
using namespace podrate::ui;

namespace {

constexpr Speech kSay;

Real mps(double kmph) {
    return Real(kmph / 3.6);
}

Estimate advised(Binding binding) {
    Estimate e;
    e.started = true;
    e.state = WorkState::harvesting;
    e.speed_mps = mps(3.2);
    e.loss_learnt = Real(0.5);
    e.tray_checks = 1;
    e.advice.binding = binding;
    e.advice.speed = {true, mps(2.9), mps(2.5), mps(3.4)};
    e.advice.under_limit = e.advice.speed;
    e.advice.faster = {Real(0.6 / 3.6), Real(0.0083)};
    e.advice.slower = {Real(-0.7 / 3.6), Real(-0.0058)};
    return e;
}

}  // namespace

TEST_CASE("The right speed stands beside the present one, with why") {
    const SpeedFigures f = speed_figures(advised(Binding::loss_limit), Parameters{}, kSay);
    CHECK(f.now == "3.2");
    REQUIRE(f.advised);
    CHECK_FALSE(f.later);
    CHECK(f.right == "2.9");
    CHECK(f.right_interval == "2.5 to 3.4");
    CHECK(f.why == "faster would lose more than 10 %");
    CHECK(f.reason == "2.9 km/h is right: faster would lose more than 10 %");
}

TEST_CASE("Each binding has its own words") {
    Parameters p;
    p.loss_limit_share = Real(0.08);
    CHECK(speed_figures(advised(Binding::loss_limit), p, kSay).why == "faster would lose more than 8 %");
    CHECK(speed_figures(advised(Binding::wanted_rate), p, kSay).why == "enough for the wanted rate");
    CHECK(speed_figures(advised(Binding::machine_limits), p, kSay).why == "the machine's limit");
    CHECK(speed_figures(advised(Binding::unsure), p, kSay).why == "not known closely enough to say");
    Estimate slowest = advised(Binding::machine_limits);
    slowest.advice.under_limit.speed_mps = Real(0.1);
    CHECK(speed_figures(slowest, p, kSay).why == "even the slowest may lose more than 8 %");
    CHECK(speed_figures(slowest, p, kSay).reason == "Even the slowest may lose more than 8 %");
}

TEST_CASE("Nothing is advised where too little is known") {
    const SpeedFigures f = speed_figures(advised(Binding::unsure), Parameters{}, kSay);
    CHECK_FALSE(f.advised);
    CHECK(f.right.empty());
    CHECK(f.right_interval.empty());
    CHECK(f.reason.empty());
    CHECK_FALSE(speed_figures(Estimate{}, Parameters{}, kSay).advised);
    CHECK_FALSE(speed_figures(Estimate{}, Parameters{}, kSay).steps);
}

TEST_CASE("A limit of the machine has no interval: nobody estimated it") {
    CHECK(speed_figures(advised(Binding::machine_limits), Parameters{}, kSay).right_interval.empty());
}

TEST_CASE("The interval always holds the speed that is shown") {
    Estimate e = advised(Binding::loss_limit);
    e.advice.speed.speed_mps = mps(3.9);  // still on its way from where it was
    CHECK(speed_figures(e, Parameters{}, kSay).right_interval == "2.5 to 3.9");
}

TEST_CASE("Half a kilometre an hour more or less is told in whole figures") {
    const SpeedFigures f = speed_figures(advised(Binding::loss_limit), Parameters{}, kSay);
    REQUIRE(f.steps);
    CHECK(f.faster.speed == "0.5 km/h faster");
    CHECK(f.faster.rate == "+0.6 t/h");
    CHECK(f.faster.ground == "+80 kg/ha lost");
    CHECK(f.slower.speed == "0.5 km/h slower");
    CHECK(f.slower.rate ==
          "\xE2\x88\x92"
          "0.7 t/h");
    CHECK(f.slower.ground ==
          "\xE2\x88\x92"
          "60 kg/ha lost");
}

TEST_CASE("What nothing was learnt of is only said perhaps") {
    Estimate e = advised(Binding::loss_limit);
    e.loss_learnt = Real(0);
    e.tray_checks = 0;
    CHECK(speed_figures(e, Parameters{}, kSay).faster.ground == "perhaps +80 kg/ha lost");
}

TEST_CASE("Past the fold slower is said to bring more") {
    Estimate e = advised(Binding::loss_limit);
    e.advice.past_fold = true;
    const SpeedFigures f = speed_figures(e, Parameters{}, kSay);
    CHECK(f.past_fold);
    CHECK(f.reason.find("Slower brings more") == 0);
    e.state = WorkState::turning;
    CHECK_FALSE(speed_figures(e, Parameters{}, kSay).past_fold);
}

TEST_CASE("Away from the crop the advice is for later and steps are not told") {
    Estimate e = advised(Binding::loss_limit);
    for (const WorkState state : {WorkState::turning, WorkState::waiting, WorkState::stopped}) {
        e.state = state;
        const SpeedFigures f = speed_figures(e, Parameters{}, kSay);
        CHECK(f.later);
        CHECK(f.right == "2.9");
        CHECK_FALSE(f.steps);
    }
}

TEST_CASE("Without a speed signal nothing is said of the present speed") {
    Estimate e = advised(Binding::loss_limit);
    e.faults = kSpeedMissing;
    const SpeedFigures f = speed_figures(e, Parameters{}, kSay);
    CHECK(f.now.empty());
    CHECK_FALSE(f.steps);
    CHECK_FALSE(f.past_fold);
}
