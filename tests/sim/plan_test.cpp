#include <catch2/catch.hpp>

#include "replay/day_replay.hpp"

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
