#include "synth/sense/scale.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "sim/weighing.hpp"

using namespace podrate;
using namespace podrate::sim;
using namespace podrate::test;

namespace {

ScenarioFault fault_of(FaultKind kind, double size, int cell) {
    return {kind, "viner_1", 10.0, 20.0, size, cell};
}

}  // namespace

TEST_CASE("A scale without errors shows the load, however many its cells") {
    for (const double cells : {1.0, 2.0, 3.0, 4.0}) {
        Weighing weighing(perfect(cells));
        CHECK(weighing.scale().cells() == static_cast<int>(cells));
        CHECK(weighing.read(1234.5) == Approx(1234.5));
        for (int cell = 0; cell < weighing.scale().cells(); ++cell)
            CHECK(weighing.scale().cell_kg(cell) == Approx(1234.5 / cells));
    }
}

TEST_CASE("The cells' gains and zeros add up to those of the sum") {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        ScenarioScale told = perfect(4.0);
        told.gain_sd = 0.02;
        told.cell_zero_sd_kg = 8.0;
        told.zero_kg = 6.0;
        Weighing weighing(told, seed);
        double zeros[4];
        double gains = 0.0;
        const double empty_kg = weighing.read(0.0);
        for (int cell = 0; cell < 4; ++cell) zeros[cell] = weighing.scale().cell_kg(cell);
        CHECK(empty_kg == Approx(zeros[0] + zeros[1] + zeros[2] + zeros[3]));
        const double full_kg = weighing.read(2000.0);
        for (int cell = 0; cell < 4; ++cell) gains += (weighing.scale().cell_kg(cell) - zeros[cell]) / 2000.0;
        CHECK(full_kg == Approx(empty_kg + gains * 2000.0));
        CHECK(weighing.read(1000.0) == Approx((empty_kg + full_kg) / 2.0));
    }
}

TEST_CASE("Gains and zeros spread from cell to cell as told and are not alike") {
    std::vector<double> gains;
    std::vector<double> zeros;
    ScenarioScale told = perfect(4.0);
    told.gain_sd = 0.02;
    told.cell_zero_sd_kg = 8.0;
    constexpr int kSeeds = 500;
    for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
        Weighing weighing(told, seed);
        (void)weighing.read(0.0);
        for (int cell = 0; cell < 4; ++cell) zeros.push_back(weighing.scale().cell_kg(cell));
        (void)weighing.read(4000.0);
        for (int cell = 0; cell < 4; ++cell)
            gains.push_back(
                (weighing.scale().cell_kg(cell) - zeros[zeros.size() - 4 + static_cast<std::size_t>(cell)]) /
                1000.0);
    }
    const double count = 4.0 * kSeeds;
    const Spread gain = spread_of(gains, 1);
    const Spread zero = spread_of(zeros, 1);
    CHECK(gain.mean == Approx(1.0).margin(kSigmas * 0.02 / std::sqrt(count)));
    CHECK(gain.sd == Approx(0.02).epsilon(kSigmas / std::sqrt(2.0 * count)));
    CHECK(zero.mean == Approx(0.0).margin(kSigmas * 8.0 / std::sqrt(count)));
    CHECK(zero.sd == Approx(8.0).epsilon(kSigmas / std::sqrt(2.0 * count)));
    CHECK(std::abs(gain.likeness[0]) < kSigmas / std::sqrt(count));
    CHECK(std::abs(zero.likeness[0]) < kSigmas / std::sqrt(count));
}

TEST_CASE("A tilt takes its cosines from the load and moves it between the cells, not from their sum") {
    Weighing weighing(perfect(4.0));
    const double level_kg = weighing.read(2000.0);
    const double upright = std::cos(6.0 * kPi / 180.0) * std::cos(4.0 * kPi / 180.0);
    CHECK(weighing.read(2000.0, 0.0, 6.0, 4.0) == Approx(level_kg * upright));
    double least_kg = 1e9;
    double most_kg = 0.0;
    for (int cell = 0; cell < 4; ++cell) {
        least_kg = std::min(least_kg, weighing.scale().cell_kg(cell));
        most_kg = std::max(most_kg, weighing.scale().cell_kg(cell));
    }
    CHECK(most_kg > 1.1 * least_kg);
    // Tipped the other way, the other cells bear it.
    const double first_kg = weighing.scale().cell_kg(0);
    (void)weighing.read(2000.0, 0.0, -6.0, -4.0);
    CHECK(weighing.scale().cell_kg(3) == Approx(first_kg));
    weighing.weigh_under(1.0005);
    CHECK(weighing.read(2000.0) == Approx(2001.0));
}

TEST_CASE("Cells with hysteresis lag by it on both ways and stand still where the load turns round") {
    ScenarioScale told = perfect();
    told.hysteresis_kg = 3.0;
    Weighing weighing(told);
    for (int kg = 0; kg <= 1000; ++kg) (void)weighing.read(kg);
    CHECK(weighing.read(1000.0) == Approx(997.0));
    for (double kg = 1000.0; kg > 994.5; kg -= 0.5) CHECK(weighing.read(kg) == Approx(997.0));
    CHECK(weighing.read(990.0) == Approx(993.0));
    for (int kg = 990; kg >= 500; --kg) (void)weighing.read(kg);
    CHECK(weighing.read(500.0) == Approx(503.0));
    // A shake within the width is not seen at all.
    for (int i = 0; i < 20; ++i) CHECK(weighing.read(503.0 + 2.9 * std::sin(i)) == Approx(503.0));
}

TEST_CASE("The zero drifts with the day's warmth, most at three in the afternoon") {
    ScenarioScale told = perfect(4.0);
    told.zero_kg_per_k = 0.5;
    told.temperature_swing_k = 8.0;
    Weighing weighing(told, 1, {}, 3.0);
    CHECK(weighing.read(0.0) == Approx(0.0).margin(1e-9));
    double warmest_kg = 0.0;
    double at_h = 0.0;
    for (int quarter = 0; quarter <= 96; ++quarter) {
        weighing.go_to(900.0 * quarter);
        const double kg = weighing.read(0.0);
        if (kg > warmest_kg) {
            warmest_kg = kg;
            at_h = 3.0 + 0.25 * quarter;
        }
    }
    CHECK(at_h == Approx(15.0));
    CHECK(warmest_kg == Approx(2.0 * 8.0 * 0.5));
    CHECK(weighing.read(0.0) == Approx(0.0).margin(1e-2));
    // Six hours on, half of the swing.
    weighing.go_to(6.0 * 3600.0);
    CHECK(weighing.read(0.0) == Approx(8.0 * 0.5));
}

TEST_CASE("The zero wanders by the told amount in an hour and twice as far in four") {
    ScenarioScale told = perfect();
    told.zero_drift_kg = 3.0;
    told.zero_kg = 5.0;
    constexpr int kSeeds = 800;
    std::vector<double> hour;
    std::vector<double> four;
    for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
        Weighing weighing(told, seed, {}, 6.0, 60.0);
        for (int minute = 1; minute <= 240; ++minute) {
            const double kg = weighing.read(0.0);
            if (minute == 60) hour.push_back(kg);
            if (minute == 240) four.push_back(kg);
        }
    }
    CHECK(spread_of(hour).mean == Approx(5.0).margin(kSigmas * 3.0 / std::sqrt(kSeeds)));
    CHECK(spread_of(hour).sd == Approx(3.0).epsilon(kSigmas / std::sqrt(2.0 * kSeeds)));
    CHECK(spread_of(four).sd == Approx(6.0).epsilon(kSigmas / std::sqrt(2.0 * kSeeds)));
}

TEST_CASE("A scale shows no more than its end and no finer than its step") {
    ScenarioScale told = perfect(4.0);
    told.clip_kg = 1600.0;
    Weighing clipped(told);
    CHECK(clipped.read(1500.0) == Approx(1500.0));
    CHECK(clipped.read(1700.0) == Approx(1600.0));
    // The cell that bears most comes to its end first.
    CHECK(clipped.read(1580.0, 0.0, 8.0, 0.0) < 1580.0 * std::cos(8.0 * kPi / 180.0) - 1.0);

    told = perfect();
    told.quantum_kg = 0.5;
    Weighing stepped(told);
    for (int i = 0; i < 200; ++i) {
        const double load_kg = 100.0 + 0.137 * i;
        const double kg = stepped.read(load_kg);
        CHECK(kg == 0.5 * std::round(kg / 0.5));
        CHECK(std::abs(kg - load_kg) <= 0.25 + 1e-9);
    }
}

TEST_CASE("A weight fault on one cell touches that cell alone") {
    ScenarioScale told;
    told.cells = 4.0;
    told.gain_sd = 0.01;
    told.cell_zero_sd_kg = 5.0;
    for (const FaultKind kind : {FaultKind::weight_stuck, FaultKind::weight_drift, FaultKind::weight_clipped,
                                 FaultKind::weight_dropout, FaultKind::weight_open}) {
        for (int faulty = 1; faulty <= 4; ++faulty) {
            Weighing sound(told, 6);
            Weighing hurt(told, 6, {fault_of(kind, 100.0, faulty)});
            double last_kg = 0.0;
            int differs = 0;
            for (int i = 0; i < 400; ++i) {
                const double time_s = i * kStepS;
                const double load_kg = 800.0 + i;
                (void)sound.read(load_kg, 0.8);
                (void)hurt.read(load_kg, 0.8);
                const bool holds = time_s >= 10.0 && time_s < 30.0;
                for (int cell = 0; cell < 4; ++cell) {
                    const double sound_kg = sound.scale().cell_kg(cell);
                    const double kg = hurt.scale().cell_kg(cell);
                    if (cell + 1 != faulty || !holds) {
                        REQUIRE(kg == sound_kg);
                        continue;
                    }
                    differs += kg != sound_kg ? 1 : 0;
                    switch (kind) {
                        case FaultKind::weight_stuck: REQUIRE(kg == last_kg); break;
                        case FaultKind::weight_drift:
                            REQUIRE(kg == Approx(sound_kg + 100.0 * (time_s - 10.0) / 3600.0).margin(0.501));
                            break;
                        case FaultKind::weight_clipped: REQUIRE(kg == std::min(sound_kg, 100.0)); break;
                        case FaultKind::weight_dropout: REQUIRE(kg == 0.0); break;
                        default: REQUIRE(kg == 100.0);
                    }
                }
                last_kg = hurt.scale().cell_kg(faulty - 1);
            }
            INFO(name_of(kind));
            // A drift of 100 kg in an hour takes as long to show in steps of half a kilogram.
            CHECK(differs >= (kind == FaultKind::weight_drift ? 100 : 190));
        }
    }
}

TEST_CASE("A weight fault of all cells is told for the whole scale, however many its cells") {
    for (const double cells : {1.0, 4.0}) {
        const auto at_20_s = [&](FaultKind kind, double size) {
            Weighing weighing(perfect(cells), 1, {fault_of(kind, size, 0)});
            (void)weighing.read(1000.0);
            weighing.go_to(20.0);
            return weighing.read(1200.0);
        };
        INFO(cells << " cells");
        CHECK(at_20_s(FaultKind::weight_stuck, 0.0) == Approx(1000.0));
        CHECK(at_20_s(FaultKind::weight_clipped, 900.0) == Approx(900.0));
        CHECK(at_20_s(FaultKind::weight_dropout, 0.0) == 0.0);
        CHECK(at_20_s(FaultKind::weight_open, 5000.0) == Approx(5000.0));
        // 10 s at 360 kg/h.
        CHECK(at_20_s(FaultKind::weight_drift, 360.0) == Approx(1201.0));
    }
}
