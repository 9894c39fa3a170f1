// What is swept, as it is told.
#include "tune/sweep.hpp"

#include <catch2/catch.hpp>

#include "log/problem.hpp"

using namespace podrate;
using namespace podrate::sim;
using Catch::Contains;

TEST_CASE("A range gives evenly spaced values with both ends, a list its own") {
    const Swept range = parse_swept("loss_high_share=0.05:0.25:5");
    CHECK(std::string(range.parameter->name) == "loss_high_share");
    REQUIRE(range.values.size() == 5);
    CHECK(range.values.front() == 0.05);
    CHECK(range.values[2] == Approx(0.15));
    CHECK(range.values.back() == 0.25);
    CHECK(parse_swept("loss_high_on_s=0,12,6").values == std::vector<double>{0.0, 12.0, 6.0});
    CHECK(parse_swept("loss_high_on_s=30").values == std::vector<double>{30.0});
}

TEST_CASE("What is no sweep is refused with its reason") {
    CHECK_THROWS_WITH(parse_swept("loss_hi=1"),
                      Contains("names no parameter") && Contains("podrate parameters"));
    CHECK_THROWS_WITH(parse_swept("loss_high_share"), Contains("tells no values"));
    CHECK_THROWS_WITH(parse_swept("loss_high_share="), Contains("no number"));
    CHECK_THROWS_WITH(parse_swept("loss_high_share=0.1:0.2"), Contains("neither a range nor a list"));
    CHECK_THROWS_WITH(parse_swept("loss_high_share=0.1:0.2:1"), Contains("count"));
    CHECK_THROWS_WITH(parse_swept("loss_high_share=0.1:0.2:2.5"), Contains("count"));
    CHECK_THROWS_WITH(parse_swept("loss_high_share=0.2:0.1:3"), Contains("does not rise"));
    CHECK_THROWS_WITH(parse_swept("loss_high_share=0.1,15"), Contains("out of range") && Contains("0.900"));
    CHECK_THROWS_WITH(parse_swept("loss_high_share=nan"), Contains("no number"));
    CHECK_THROWS_WITH(parse_swept("loss_high_share=0.1,0.1"), Contains("twice"));
    CHECK_THROWS_WITH(parse_swept("loss_high_share=0.1,0.1000000001"), Contains("twice"));
    CHECK_THROWS_WITH(parse_swept("loss_high_priority=0:2:5"), Contains("no whole number"));
    CHECK(parse_swept("loss_high_priority=0,2").values.size() == 2);
    CHECK_THROWS_WITH(parse_sweep({"loss_high_on_s=1,2", "loss_high_on_s=3"}), Contains("again"));
}

TEST_CASE("A grid is every combination, the last parameter fastest, and refused where it is too large") {
    const auto grid = grid_of(parse_sweep({"loss_high_share=0.1,0.2", "loss_high_on_s=0,6,12"}));
    REQUIRE(grid.size() == 6);
    CHECK(grid[0].values == std::vector<double>{0.1, 0.0});
    CHECK(grid[1].values == std::vector<double>{0.1, 6.0});
    CHECK(grid[5].values == std::vector<double>{0.2, 12.0});
    CHECK(grid_of(parse_sweep({"loss_high_share=0.1:0.2:100", "loss_high_on_s=0:99:100"})).size() == 10000);
    CHECK_THROWS_WITH(grid_of(parse_sweep({"loss_high_share=0.1:0.2:101", "loss_high_on_s=0:99:100"})),
                      Contains("more than 10000") && Contains("--search"));
}

TEST_CASE(
    "A setting is laid over a machine's own parameters, and one replay serves what differs in alarms alone") {
    const auto sweep = parse_sweep({"loss_high_share=0.1,0.2", "drum_loss_share=0.03,0.05"});
    Parameters own;
    own.width_m = Real(4);
    const Parameters tried = with_setting(own, sweep, {{0.2, 0.05}});
    CHECK(tried.width_m == Real(4));
    CHECK(tried.loss_high_share == Real(0.2));
    CHECK(tried.drum_loss_share == Real(0.05));
    CHECK(estimator_key(sweep, {{0.1, 0.05}}) == estimator_key(sweep, {{0.2, 0.05}}));
    CHECK(estimator_key(sweep, {{0.1, 0.05}}) != estimator_key(sweep, {{0.1, 0.03}}));
}

TEST_CASE("A value that is swept equals the one that a machine has") {
    CHECK(decimal_of(Real(0.8)) == 0.8);
    CHECK(decimal_of(Real(0)) == 0.0);
    CHECK(decimal_of(Real(-12.5)) == -12.5);
    for (const double value : parse_swept("rate_low_share=0.5:0.9:9").values)
        CHECK(value == decimal_of(static_cast<Real>(value)));
}
