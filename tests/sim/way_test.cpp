#include "synth/land/way.hpp"

#include <catch2/catch.hpp>

#include "synth/machine/gang.hpp"
#include "synth/machine/viner.hpp"

using namespace podrate::sim;

TEST_CASE("Without an obstacle a way is the plain turn") {
    const Pose from{{0.0, 0.0}, 90.0};
    const Pose to{{0.0, 10.0}, 270.0};
    const Path plain(from, to, 14.0);
    const Path way = clear_way(from, to, 14.0, 1.65, {});
    CHECK(way.length_m() == plain.length_m());
    CHECK(way.at(7.0).place.east_m == plain.at(7.0).place.east_m);
}

TEST_CASE("A way goes round what stands between") {
    const Pose from{{0.0, 0.0}, 90.0};
    const Pose to{{60.0, 0.0}, 90.0};
    for (const double radius_m : {0.5, 4.0, 12.0}) {
        const std::vector<ScenarioObstacle> obstacles = {{{30.0, 0.5}, radius_m}};
        const Path way = clear_way(from, to, 14.0, 1.65, obstacles);
        INFO("radius " << radius_m << " m");
        CHECK(distance_between_m(way.at(0.0).place, from.place) < 1e-9);
        CHECK(distance_between_m(way.at(way.length_m()).place, to.place) < 1e-9);
        for (double along_m = 0.0; along_m < way.length_m(); along_m += 0.25)
            REQUIRE(distance_between_m(way.at(along_m).place, obstacles[0].place) > radius_m);
    }
}

TEST_CASE("A machine that works a field round its obstacles never drives through one") {
    Scenario scenario;
    scenario.hours = 3.0;
    ScenarioField field;
    field.name = "Test Piece";
    field.corners = {{0, 0}, {160, 0}, {160, 80}, {0, 80}};
    field.obstacles = {{{80.0, 40.0}, 10.0}, {{120.0, 20.0}, 2.0}};
    field.bout_heading_deg = 90.0;
    scenario.fields = {field};
    scenario.machines.resize(2);
    for (std::size_t i = 0; i < 2; ++i) scenario.machines[i].id = "viner_" + std::to_string(i + 1);
    Gang gang(scenario);
    std::vector<Viner> viners;
    for (std::size_t i = 0; i < 2; ++i) viners.emplace_back(scenario, scenario.machines[i], i, 0.1, gang);
    double nearest_m = 1e9;  // to an obstacle's edge
    for (int step = 0; step < 3 * 36000; ++step) {
        gang.update(0.1 * step);
        for (Viner& viner : viners) {
            viner.step(0.1 * step, gang);
            for (const ScenarioObstacle& obstacle : field.obstacles) {
                nearest_m = std::min(nearest_m, distance_between_m(viner.truth().pose.place, obstacle.place) -
                                                    obstacle.radius_m);
            }
        }
    }
    CHECK(viners[0].truth().area_m2 > 2000.0);
    CHECK(nearest_m > 0.0);
}
