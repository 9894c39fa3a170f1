// All that shakes a scale: noise, the drum's tone, the chassis, shocks.
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

// Share of the readings' power between two frequencies, by Fourier's sums.
double power_share(const std::vector<double>& readings, double rate_hz, double from_hz, double to_hz) {
    const auto count = static_cast<double>(readings.size());
    double all = 0.0;
    for (const double reading : readings) all += reading * reading;
    double power = 0.0;
    const auto first = static_cast<int>(std::ceil(from_hz / rate_hz * count));
    const auto last = static_cast<int>(std::floor(to_hz / rate_hz * count));
    for (int k = std::max(first, 1); k <= last && 2 * k < static_cast<int>(count); ++k) {
        double real = 0.0;
        double imaginary = 0.0;
        for (std::size_t i = 0; i < readings.size(); ++i) {
            const double angle = 2.0 * kPi * k * static_cast<double>(i) / count;
            real += readings[i] * std::cos(angle);
            imaginary += readings[i] * std::sin(angle);
        }
        power += 2.0 * (real * real + imaginary * imaginary) / count;
    }
    return power / all;
}

// Where a tone seems to stand in readings of that rate.
double alias_hz(double tone_hz, double rate_hz) {
    return std::abs(tone_hz - rate_hz * std::round(tone_hz / rate_hz));
}

struct Shocks {
    long count = 0;
    double sum_kg = 0.0;
    double least_kg = 1e9;
    double most_kg = 0.0;
};

// The blows behind a swaying scale's readings: what each row holds beyond the sway's going on by itself.
Shocks shocks_in(const std::vector<double>& readings, double bounce_hz, double step_s) {
    const double turn = 2.0 * kPi * bounce_hz * step_s;
    const double fades = std::exp(-0.12 * turn);
    const double cosine = fades * std::cos(turn);
    Shocks shocks;
    double blow_kg = 0.0;
    for (std::size_t i = 2; i < readings.size(); ++i) {
        const double alone =
            2.0 * cosine * readings[i - 1] - fades * fades * readings[i - 2] - cosine * blow_kg;
        blow_kg = readings[i] - alone;
        if (blow_kg < 1.0) {
            blow_kg = 0.0;
            continue;
        }
        ++shocks.count;
        shocks.sum_kg += blow_kg;
        shocks.least_kg = std::min(shocks.least_kg, blow_kg);
        shocks.most_kg = std::max(shocks.most_kg, blow_kg);
    }
    return shocks;
}

}  // namespace

TEST_CASE("A reading's noise is white and of the told spread, moving and still") {
    constexpr int kRows = 40000;
    for (const double cells : {1.0, 4.0}) {
        ScenarioScale told = perfect(cells);
        told.noise_moving_kg = 6.0;
        told.noise_still_kg = 1.2;
        Weighing weighing(told, 3);
        const Spread moving = spread_of(readings_of(weighing, kRows, 0.8, 500.0), 10);
        const Spread still = spread_of(readings_of(weighing, kRows, 0.0, 500.0), 10);
        INFO(cells << " cells");
        CHECK(moving.mean == Approx(500.0).margin(kSigmas * 6.0 / std::sqrt(kRows)));
        CHECK(moving.sd == Approx(6.0).epsilon(kSigmas / std::sqrt(2.0 * kRows)));
        CHECK(still.sd == Approx(1.2).epsilon(kSigmas / std::sqrt(2.0 * kRows)));
        for (const double likeness : moving.likeness) CHECK(std::abs(likeness) < kSigmas / std::sqrt(kRows));
        for (const double likeness : still.likeness) CHECK(std::abs(likeness) < kSigmas / std::sqrt(kRows));
    }
}

TEST_CASE("The cells' noises are independent of each other") {
    constexpr int kRows = 40000;
    ScenarioScale told = perfect(4.0);
    told.noise_moving_kg = 6.0;
    Weighing weighing(told, 3);
    double products[4][4] = {};
    for (int i = 0; i < kRows; ++i) {
        (void)weighing.read(0.0, 0.8);
        for (int a = 0; a < 4; ++a) {
            for (int b = 0; b < 4; ++b)
                products[a][b] += weighing.scale().cell_kg(a) * weighing.scale().cell_kg(b) / 9.0 / kRows;
        }
    }
    for (int a = 0; a < 4; ++a) {
        for (int b = 0; b < 4; ++b) {
            INFO("cells " << a + 1 << " and " << b + 1);
            CHECK(products[a][b] == Approx(a == b ? 1.0 : 0.0).margin(kSigmas * std::sqrt(2.0 / kRows)));
        }
    }
}

TEST_CASE("The drum's tone and its octave alias to where the rate of the rows puts them") {
    constexpr int kRows = 3000;
    for (const double rate_hz : {10.0, 7.5, 50.0}) {
        for (const double tone_hz : {3.4, 13.4, 21.7}) {
            ScenarioScale told = perfect();
            told.tone_kg = 4.0;
            told.tone_hz = tone_hz;
            Weighing weighing(told, 2, {}, 6.0, 1.0 / rate_hz);
            weighing.truth().drum_load = 1.0;
            weighing.truth().reel_on = true;
            const std::vector<double> readings = readings_of(weighing, kRows, 0.8);
            // At the rated feed the drum turns 4 per cent slower, and its speed wanders by 0.6 per cent.
            const double first_hz = 0.96 * tone_hz;
            INFO(tone_hz << " Hz at " << rate_hz << " Hz");
            CHECK(spread_of(readings).sd == Approx(4.0 * std::sqrt((1.0 + 0.35 * 0.35) / 2.0)).epsilon(0.05));
            const auto share_near = [&](double hz) {
                const double reach_hz = 0.1 + 4.0 * 0.006 * hz;
                const double seen_hz = alias_hz(hz, rate_hz);
                // What is smeared beyond either end is folded back into the same band.
                return power_share(readings, rate_hz, seen_hz - reach_hz, seen_hz + reach_hz);
            };
            CHECK(share_near(first_hz) > 0.85);
            CHECK(share_near(2.0 * first_hz) > 0.095);
        }
    }
}

TEST_CASE("The tone is the drum's: half of it when the drum runs empty, none when all stands") {
    ScenarioScale told = perfect();
    told.tone_kg = 4.0;
    Weighing weighing(told, 2);
    const double full = 4.0 * std::sqrt((1.0 + 0.35 * 0.35) / 2.0);
    weighing.truth().reel_on = true;
    CHECK(spread_of(readings_of(weighing, 20000, 0.8)).sd == Approx(0.5 * full).epsilon(0.02));
    weighing.truth().drum_load = 1.0;
    CHECK(spread_of(readings_of(weighing, 20000, 0.0)).sd == Approx(full).epsilon(0.02));
    weighing.truth().reel_on = false;
    CHECK(spread_of(readings_of(weighing, 100, 0.0)).sd == 0.0);
    VinerTruth truth;
    CHECK(drum_speed_share(truth, 0.01) == Approx(1.01));
    truth.drum_load = 1.5;
    CHECK(drum_speed_share(truth, 0.0) < drum_speed_share(VinerTruth(), 0.0));
}

TEST_CASE("The chassis sways by the told spread at 1 m/s, in proportion to the speed, at its own frequency") {
    constexpr int kRows = 60000;
    for (const double step_s : {0.1, 0.02}) {
        ScenarioScale told = perfect();
        told.bounce_kg = 5.0;
        Weighing weighing(told, 5, {}, 6.0, step_s);
        const Spread walking = spread_of(readings_of(weighing, kRows, 1.0), 40);
        // A sway lasts about 1/(2 pi f damping) = 0.7 s: so many independent values.
        const double independent = kRows * step_s / 0.74;
        CHECK(walking.mean == Approx(0.0).margin(0.2));
        CHECK(walking.sd == Approx(5.0).epsilon(kSigmas / std::sqrt(2.0 * independent)));
        CHECK(spread_of(readings_of(weighing, kRows, 0.5)).sd ==
              Approx(2.5).epsilon(kSigmas / std::sqrt(2.0 * independent)));
        for (std::size_t lag = 1; lag <= 40; ++lag) {
            const double turn = 2.0 * kPi * 1.8 * step_s * static_cast<double>(lag);
            CHECK(walking.likeness[lag - 1] ==
                  Approx(std::exp(-0.12 * turn) * std::cos(turn)).margin(kSigmas / std::sqrt(independent)));
        }
        // At a stand it dies away.
        (void)readings_of(weighing, static_cast<int>(10.0 / step_s), 0.0);
        CHECK(spread_of(readings_of(weighing, 100, 0.0)).sd < 0.01);
    }
}

TEST_CASE("Shocks come as often per kilometre as told, whatever the speed, and as hard") {
    const struct {
        double per_km;
        double speed_mps;
        double step_s;
    } cases[] = {{4.0, 0.8, 0.1}, {20.0, 0.8, 0.1}, {20.0, 1.6, 0.1}, {100.0, 1.0, 0.1}, {100.0, 1.0, 1.0}};
    for (const auto& c : cases) {
        INFO(c.per_km << " a kilometre at " << c.speed_mps << " m/s, rows each " << c.step_s << " s");
        ScenarioScale told = perfect();
        told.shocks_per_km = c.per_km;
        told.shock_kg = 60.0;
        Weighing weighing(told, 8, {}, 6.0, c.step_s);
        const double expected = 1000.0;
        const double km = expected / c.per_km;
        const auto rows = static_cast<int>(km * 1000.0 / c.speed_mps / c.step_s);
        const Shocks shocks = shocks_in(readings_of(weighing, rows, c.speed_mps), told.bounce_hz, c.step_s);
        const auto count = static_cast<double>(shocks.count);
        CHECK(count == Approx(expected).margin(kSigmas * std::sqrt(expected)));
        CHECK(shocks.sum_kg / count == Approx(60.0).epsilon(kSigmas * std::sqrt(1.0 / 12.0 / expected)));
        CHECK(shocks.least_kg > 29.9);
        CHECK(shocks.most_kg < 90.1);
    }
}
