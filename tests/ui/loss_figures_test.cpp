#include "model/loss_figures.hpp"

#include <catch2/catch.hpp>

using namespace podrate;
using namespace podrate::ui;

namespace {

constexpr Speech kSay;

Estimate losing(double share, double low, double high) {
    Estimate e;
    e.started = true;
    e.state = WorkState::harvesting;
    e.area_m2 = Real(5000);
    e.yield_kgpm2 = Real(0.5);
    e.loss_share = Real(share);
    e.loss_low = Real(low);
    e.loss_high = Real(high);
    e.drum_loss_share = Real(0.04);
    e.drum_loss_low = Real(0.03);
    e.drum_loss_high = Real(0.06);
    e.picking_loss_share = Real(0.03);
    e.picking_loss_low = Real(0.02);
    e.picking_loss_high = Real(0.04);
    e.loss_learnt = Real(0.6);
    e.tray_checks = 2;
    return e;
}

}  // namespace

TEST_CASE("A loss that is known is a figure with its interval") {
    const LossFigures f = loss_figures(losing(0.07, 0.05, 0.09), Parameters{}, kSay);
    REQUIRE(f.known);
    CHECK(f.now);
    CHECK(f.figure == "7 %");
    CHECK(f.interval == "5 to 9 %");
    CHECK(f.sure == "roughly known");
    CHECK(f.source == "2 trays counted");
    CHECK(f.apart == "drum 4 %, picking 3 %");
    CHECK(f.ground == "about 380 kg/ha on the ground");  // 5000 kg/ha x 0.07 / 0.93
    CHECK(f.limit_words == "limit 10 %");
    CHECK(f.scale == Approx(0.2));
    CHECK(f.scale_words == "20 %");
}

TEST_CASE("A wide interval is the figure itself, and is called a guess") {
    Estimate e = losing(0.07, 0.03, 0.14);
    e.drum_loss_low = Real(0.01);
    e.tray_checks = 0;
    e.loss_learnt = Real(0);
    const LossFigures f = loss_figures(e, Parameters{}, kSay);
    CHECK(f.figure == "3 to 14 %");
    CHECK(f.interval.empty());
    CHECK(f.sure == "only a guess");
    CHECK(f.source == "no tray counted yet: mostly what is common");
    CHECK(f.apart == "drum 1 to 6 %, picking 3 %");
    CHECK(f.ground == "150 to 810 kg/ha on the ground");
}

TEST_CASE("How sure is said in words") {
    CHECK(sureness_of(0.06, 0.08) == Sureness::close);
    CHECK(sureness_of(0.05, 0.09) == Sureness::rough);
    CHECK(sureness_of(0.03, 0.12) == Sureness::guess);
    CHECK(sureness_of(0.0, 0.02) == Sureness::guess);
    CHECK(loss_figures(losing(0.07, 0.06, 0.08), Parameters{}, kSay).sure == "closely known");
}

TEST_CASE("What the loss is judged from is said in words") {
    CHECK(loss_source_words({0, false, 0.0}, kSay) == "no tray counted yet: mostly what is common");
    CHECK(loss_source_words({0, false, 0.5}, kSay) == "no tray counted yet: from weight and speed");
    CHECK(loss_source_words({0, true, 0.0}, kSay) == "no tray counted yet, loss sensor");
    CHECK(loss_source_words({1, false, 0.5}, kSay) == "1 tray counted");
    CHECK(loss_source_words({2, false, 0.5}, kSay) == "2 trays counted");
    CHECK(loss_source_words({3, true, 0.5}, kSay) == "3 trays counted, loss sensor");
}

TEST_CASE("Before anything was cut nothing is said of the loss") {
    Estimate e = losing(0.07, 0.05, 0.09);
    e.area_m2 = Real(0);
    const LossFigures f = loss_figures(e, Parameters{}, kSay);
    CHECK_FALSE(f.known);
    CHECK(f.figure.empty());
    CHECK(f.ground.empty());
}

TEST_CASE("Away from the crop the loss is that of the usual speed") {
    Estimate e = losing(0.07, 0.05, 0.09);
    for (const WorkState state : {WorkState::turning, WorkState::tipping, WorkState::stopped}) {
        e.state = state;
        CHECK_FALSE(loss_figures(e, Parameters{}, kSay).now);
    }
}

TEST_CASE("The bar's scale reaches beyond interval and limit") {
    CHECK(loss_figures(losing(0.3, 0.2, 0.45), Parameters{}, kSay).scale == Approx(0.5));
    Parameters p;
    p.loss_limit_share = Real(0.32);
    CHECK(loss_figures(losing(0.07, 0.05, 0.09), p, kSay).scale == Approx(0.4));
}
