#include "synth/machine/trailers.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "synth/machine/gang.hpp"
#include "synth/machine/viner.hpp"

using namespace podrate::sim;

namespace {

constexpr double kTipS = 47.0;

ScenarioTrailers trailers_of(double count) {
    ScenarioTrailers told;
    told.count = count;
    return told;
}

// A tip that takes its time, where a trailer stands free for it.
bool tip(Trailers& trailers, double load_kg, double time_s) {
    const int trailer = trailers.take(load_kg, time_s, kTipS);
    trailers.fill(trailer, load_kg);
    return trailer >= 0;
}

double sum_kg(const std::vector<Delivery>& deliveries) {
    double sum = 0.0;
    for (const Delivery& delivery : deliveries) sum += delivery.peas_kg;
    return sum;
}

struct Tipped {
    std::size_t loads = 0;
    double loads_kg = 0.0;
    std::size_t deliveries = 0;
    double delivered_kg = 0.0;
};

// Two machines' afternoon with trailers so small that each load is a delivery of its own.
Tipped tipped_by_two(const std::vector<ScenarioFault>& faults) {
    Scenario scenario;
    scenario.seed = 5;
    scenario.hours = 4.0;
    scenario.faults = faults;
    ScenarioField field;
    field.name = "Long Acre";
    field.corners = {{0, 0}, {600, 0}, {600, 500}, {0, 500}};
    field.bout_heading_deg = 90.0;
    scenario.fields = {field};
    for (const char* id : {"viner_1", "viner_2"}) {
        ScenarioMachine machine;
        machine.id = id;
        scenario.machines.push_back(machine);
    }
    scenario.trailers.count = 6.0;
    scenario.trailers.capacity_kg = 1000.0;
    scenario.trailers.round_s = 600.0;
    Gang gang(scenario);
    std::vector<Viner> viners;
    for (std::size_t i = 0; i < 2; ++i) viners.emplace_back(scenario, scenario.machines[i], i, 0.1, gang);
    const long steps = std::lround(scenario.hours * 36000.0);
    for (long step = 0; step < steps; ++step) {
        const double time_s = static_cast<double>(step) / 10.0;
        gang.update(time_s);
        for (Viner& viner : viners) viner.step(time_s, gang);
    }
    Tipped tipped;
    for (const Viner& viner : viners) {
        CHECK(viner.truth().state != podrate::WorkState::tipping);
        for (const TrueLoad& load : viner.loads()) tipped.loads_kg += load.net_kg;
        tipped.loads += viner.loads().size();
    }
    tipped.deliveries = gang.trailers().deliveries().size();
    tipped.delivered_kg = sum_kg(gang.trailers().deliveries());
    return tipped;
}

}  // namespace

TEST_CASE("Without trailers none is asked for and none takes a load") {
    Trailers trailers(trailers_of(0.0), 1);
    CHECK_FALSE(trailers.any());
    CHECK_FALSE(tip(trailers, 1500.0, 0.0));
    CHECK(trailers.deliveries().empty());
}

TEST_CASE("While each trailer stands under a tip there is no other tip") {
    Trailers trailers(trailers_of(2.0), 1);
    REQUIRE(trailers.any());
    CHECK(tip(trailers, 1500.0, 0.0));
    CHECK(tip(trailers, 1500.0, 10.0));
    CHECK_FALSE(tip(trailers, 1500.0, 20.0));
    CHECK_FALSE(tip(trailers, 1500.0, kTipS - 0.1));
    CHECK(tip(trailers, 1500.0, kTipS));
    CHECK(trailers.deliveries().empty());
}

TEST_CASE("A full trailer is away for its round and unloads halfway") {
    const ScenarioTrailers told = trailers_of(1.0);
    double shortest_s = 1e9;
    double longest_s = 0.0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        Trailers trailers(told, seed);
        REQUIRE(tip(trailers, 8000.0, 100.0));
        REQUIRE(trailers.deliveries().size() == 1);
        CHECK(trailers.deliveries()[0].peas_kg == 8000.0);
        const double half_s = trailers.deliveries()[0].at_s - 100.0 - kTipS;
        const double back_s = 100.0 + kTipS + 2.0 * half_s;
        CHECK_FALSE(tip(trailers, 100.0, back_s - 0.01));
        CHECK(tip(trailers, 100.0, back_s + 0.01));
        shortest_s = std::min(shortest_s, 2.0 * half_s);
        longest_s = std::max(longest_s, 2.0 * half_s);
    }
    // Roads differ, but not without end.
    CHECK(shortest_s > 0.8 * told.round_s);
    CHECK(longest_s < 1.35 * told.round_s);
    CHECK(longest_s > 1.2 * shortest_s);
}

TEST_CASE("A trailer without room for the load leaves for the factory and another takes it") {
    Trailers trailers(trailers_of(2.0), 3);
    REQUIRE(tip(trailers, 7000.0, 0.0));
    REQUIRE(tip(trailers, 2500.0, 100.0));
    REQUIRE(trailers.deliveries().size() == 1);
    CHECK(trailers.deliveries()[0].peas_kg == 7000.0);
    // The other has room still.
    CHECK(tip(trailers, 2500.0, 200.0));
    CHECK(trailers.deliveries().size() == 1);
}

TEST_CASE("No trailer is loaded beyond its capacity and the deliveries hold all that was tipped") {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const ScenarioTrailers told = trailers_of(1.0 + static_cast<double>(seed % 5));
        Trailers trailers(told, seed);
        Random random(seed, "loads");
        double tipped_kg = 0.0;
        double time_s = 0.0;
        int refused = 0;
        for (int i = 0; i < 400; ++i) {
            time_s += random.exponential(200.0);
            const double load_kg = random.uniform(300.0, 2600.0);
            const bool taken = tip(trailers, load_kg, time_s);
            if (taken) tipped_kg += load_kg;
            refused += taken ? 0 : 1;
        }
        if (told.count < 2.0) CHECK(refused > 0);
        // Loads as big as a trailer send all the others off.
        double filled_kg = 0.0;
        time_s += 1e5;
        for (int i = 0; i < static_cast<int>(told.count); ++i) {
            if (tip(trailers, told.capacity_kg, time_s)) filled_kg += told.capacity_kg;
        }
        for (const Delivery& delivery : trailers.deliveries()) {
            CHECK(delivery.peas_kg <= told.capacity_kg);
            CHECK(delivery.peas_kg > 0.0);
        }
        CHECK(sum_kg(trailers.deliveries()) == Approx(tipped_kg + filled_kg).epsilon(1e-12));
    }
}

TEST_CASE("Machines that tip into trailers deliver what their loads held") {
    const Tipped tipped = tipped_by_two({});
    REQUIRE(tipped.loads >= 8);
    CHECK(tipped.deliveries == tipped.loads);
    CHECK(tipped.delivered_kg == Approx(tipped.loads_kg).epsilon(1e-12));
}

TEST_CASE("What a tip in part leaves in the hopper is not delivered") {
    const Tipped tipped = tipped_by_two({{FaultKind::tip_in_part, "viner_1", 3000.0, 0.0, 400.0}});
    REQUIRE(tipped.loads >= 8);
    CHECK(tipped.delivered_kg == Approx(tipped.loads_kg).epsilon(1e-12));
}
