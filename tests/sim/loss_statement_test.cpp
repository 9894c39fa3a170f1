#include "report/loss_statement.hpp"

#include <catch2/catch.hpp>

#include "report/loss_figures.hpp"

using namespace podrate;
using podrate::sim::loss_statement;
using podrate::sim::MachineResult;

namespace {

// A run of 10 t on 2 ha that lost 7 %.
MachineResult worked() {
    MachineResult m;
    m.usable = true;
    m.last.harvested_kg = Real(10000);
    m.last.area_m2 = Real(20000);
    m.last.speed_spread = Real(0.14);
    m.last.loss_learnt = Real(0.1);
    m.lost.collected_kg = Real(10000);
    m.lost.lost_kg = Real(753);
    m.lost.shares.total = {Real(0.07), Real(0.03), Real(0.14)};
    m.lost.shares.drum = {Real(0.03), Real(0.01), Real(0.06)};
    m.lost.shares.picking = {Real(0.04), Real(0.02), Real(0.1)};
    return m;
}

}  // namespace

TEST_CASE("Weight and speed alone: the statement tells the drum's range and that picking is not known") {
    MachineResult m = worked();
    CHECK(loss_statement(m) ==
          "From weight and speed alone, which varied by 14 %: drum loss between 1 and 6 %, hardly narrower "
          "than what is common. Picking loss is not known: only peas counted on the ground tell it.");
    m.last.loss_learnt = Real(0);
    CHECK(loss_statement(m).find("no narrower than") != std::string::npos);
    m.last.loss_learnt = Real(0.3);
    CHECK(loss_statement(m).find("somewhat narrower than") != std::string::npos);
    m.last.loss_learnt = Real(0.7);
    CHECK(loss_statement(m).find("much narrower than") != std::string::npos);
}

TEST_CASE("A speed that hardly varied: the statement claims nothing beyond what is common") {
    MachineResult m = worked();
    m.last.speed_spread = Real(0.02);
    CHECK(loss_statement(m) ==
          "Speed hardly varied and no peas were counted on the ground: loss unknown between 3 and 14 %.");
}

TEST_CASE("Tray checks: the statement counts them and tells drum and reel apart") {
    MachineResult m = worked();
    m.last.tray_checks = 6;
    m.lost.shares.total = {Real(0.072), Real(0.061), Real(0.083)};
    CHECK(loss_statement(m) ==
          "Six tray checks: 6.1 to 8.3 % of the crop lost, 1 to 6 % in the drum and 2 to 10 % by the reel.");
    m.last.tray_checks = 1;
    CHECK(loss_statement(m).find("One tray check: ") == 0);
    CHECK(loss_statement(m).find("More checks narrow that.") != std::string::npos);
    m.last.tray_checks = 40;
    CHECK(loss_statement(m).find("40 tray checks: ") == 0);
    m.last.loss_sensor = true;
    CHECK(loss_statement(m).find("40 tray checks and the loss sensor: ") == 0);
}

TEST_CASE("A loss sensor without a count tells where, not how much") {
    MachineResult m = worked();
    CHECK(loss_statement(m).find("sensor") == std::string::npos);
    m.last.loss_sensor = true;
    CHECK(loss_statement(m).find("The loss sensor tells where the drum lost more or less, not how much") !=
          std::string::npos);
}

TEST_CASE("Nothing cut or no speed: the statement says so and no tonnes are claimed") {
    MachineResult m = worked();
    m.lost = {};
    m.last.area_m2 = Real(0);
    m.last.loss_share = Real(0.08);
    m.last.loss_low = Real(0.04);
    m.last.loss_high = Real(0.15);
    CHECK(loss_statement(m) ==
          "Peas came, but no speed was logged with the reel on: the loss can't be told from that.");
    CHECK(static_cast<double>(sim::loss_parts(m).total.high) == Approx(0.15));
    CHECK_FALSE(sim::lost_kg(m));
    CHECK_FALSE(sim::ground_kg_per_ha(m));
    m.last.harvested_kg = Real(3);
    CHECK(loss_statement(m) == "Nothing was cut, so nothing was lost.");
    m.usable = false;
    CHECK(loss_statement(m).empty());
}

TEST_CASE("Past the fold at the end is said, and only there") {
    MachineResult m = worked();
    m.last.fold = Real(0.9);
    CHECK(loss_statement(m).find("fewer peas") == std::string::npos);
    m.last.fold = Real(1.1);
    CHECK(loss_statement(m).find("more speed brought fewer peas") != std::string::npos);
}

TEST_CASE("Kilograms lost follow from the share and what was collected") {
    const MachineResult m = worked();
    const auto lost = sim::lost_kg(m);
    REQUIRE(lost);
    CHECK(lost->value == Approx(753.0));
    CHECK(lost->low == Approx(10000.0 * 0.03 / 0.97));
    CHECK(lost->high == Approx(10000.0 * 0.14 / 0.86));
    CHECK(sim::ground_kg_per_ha(m)->value == Approx(376.5));
    CHECK(static_cast<double>(sim::loss_parts(m).drum.high) == Approx(0.06));
}
