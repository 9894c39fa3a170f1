#include <catch2/catch.hpp>

#include "replay/day_replay.hpp"
#include "synth/write/day_files.hpp"

using namespace podrate::sim;

TEST_CASE("Without a plan nothing is planned") {
    CHECK_FALSE(planned_t_at({}, 1000.0).has_value());
}

TEST_CASE("The plan is linear between its points and held at its end") {
    const std::vector<PlanPoint> plan = {{1000, 0}, {2000, 10}, {4000, 12}};
    CHECK(*planned_t_at(plan, 999.0) == 0.0);
    CHECK(*planned_t_at(plan, 1000.0) == 0.0);
    CHECK(*planned_t_at(plan, 1250.0) == Approx(2.5));
    CHECK(*planned_t_at(plan, 2000.0) == Approx(10.0));
    CHECK(*planned_t_at(plan, 3000.0) == Approx(11.0));
    CHECK(*planned_t_at(plan, 4000.0) == Approx(12.0));
    CHECK(*planned_t_at(plan, 9000.0) == Approx(12.0));
}

TEST_CASE("A plan may step at one moment and begin above zero") {
    const std::vector<PlanPoint> plan = {{1000, 5}, {2000, 10}, {2000, 20}, {3000, 30}};
    CHECK(*planned_t_at(plan, 500.0) == 0.0);
    CHECK(*planned_t_at(plan, 1000.0) == Approx(5.0));
    CHECK(*planned_t_at(plan, 2001.0) == Approx(20.01));
    CHECK(*planned_t_at({{1000, 7}}, 1000.0) == Approx(7.0));
}

TEST_CASE("A scenario's plan ends with its logs or goes on at another rate") {
    Scenario scenario;
    scenario.hours = 0.6;
    scenario.plan_tph = 12.0;
    scenario.plan_from_s = 600.0;
    CHECK(intake_plan_text(scenario) == "unix_s,planned_t\n600,0.00\n900,1.00\n1800,4.00\n2160,5.20\n");
    scenario.plan_until_s = 3000.0;
    CHECK(intake_plan_text(scenario) ==
          "unix_s,planned_t\n600,0.00\n900,1.00\n1800,4.00\n2160,5.20\n2700,7.00\n3000,8.00\n");
    scenario.plan_later_tph = 6.0;
    CHECK(intake_plan_text(scenario) ==
          "unix_s,planned_t\n600,0.00\n900,1.00\n1800,4.00\n2160,5.20\n2700,6.10\n3000,6.60\n");
}
