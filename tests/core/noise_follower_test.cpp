#include "podrate/weight/noise_follower.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>

using namespace podrate;

namespace {

// A fixed stream of near-normal numbers.
class Normals {
  public:
    double next() {
        double sum = -6.0;
        for (int i = 0; i < 12; ++i) {
            state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
            sum += static_cast<double>(state_ >> 11) * 0x1.0p-53;
        }
        return sum;
    }

  private:
    std::uint64_t state_ = 77;
};

// Readings at 10 Hz.
class Scale {
  public:
    explicit Scale(const Parameters& parameters = Parameters{}) : noise(parameters) {}
    void read(double noise_kg, double level_kg = 500.0, bool moving = true, double flow_kgps = 0.0) {
        now_us_ += 100000;
        noise.learn(now_us_, moving, static_cast<Real>(level_kg + noise_kg), static_cast<Real>(flow_kgps));
    }
    void wait(double s) { now_us_ += static_cast<TimeUs>(s * 1e6); }
    NoiseFollower noise;

  private:
    TimeUs now_us_ = 1751032800 * kSecondUs;
};

Parameters moving_noise(float kg) {
    Parameters parameters;
    parameters.weight_noise_moving_kg = kg;
    return parameters;
}

double spread(const Scale& scale, bool moving = true) {
    return static_cast<double>(scale.noise.spread_kg2(moving));
}

double white(const Scale& scale, bool moving = true) {
    return static_cast<double>(scale.noise.variance_kg2(moving));
}

}  // namespace

TEST_CASE("The spread of readings is found from twice and from half of it") {
    for (const float start_kg : {3.0F, 6.0F, 12.0F}) {
        Scale scale(moving_noise(start_kg));
        Normals normals;
        double sum = 0.0;
        for (int i = 0; i < 6000; ++i) {
            scale.read(6.0 * normals.next());
            if (i >= 3000) sum += spread(scale);
        }
        // 3,000 differences, their squares correlated by 1/4: good to 1.6 %; clipping at 3 sd costs 1 %.
        INFO("from " << start_kg << " kg");
        CHECK(std::sqrt(sum / 3000.0) == Approx(6.0).epsilon(0.05));
    }
}

TEST_CASE("White noise is found alike by its spread and by the means over seconds") {
    Scale scale(moving_noise(9.0F));
    Normals normals;
    double sum = 0.0;
    for (int i = 0; i < 40000; ++i) {
        scale.read(6.0 * normals.next(), 0.13 * i, true, 1.3);
        if (i >= 10000) sum += white(scale);
    }
    // 3,000 second differences, correlated by -2/3 and 1/6: four times sqrt(2 * 1.94 / 3000).
    CHECK(sum / 30000.0 == Approx(36.0).epsilon(0.15));
}

TEST_CASE("A drum's tone fills the spread and hardly the means over seconds") {
    Scale scale(moving_noise(4.0F));
    Normals normals;
    for (int i = 0; i < 20000; ++i) {
        const double tone_kg = 8.0 * std::sin(6.283185307179586 * 3.4 * 0.1 * i);
        scale.read(tone_kg + 1.0 * normals.next());
    }
    // From one reading to the next: 8^2 / 2 * (1 - cos(2 pi 0.34)) of the tone, and 1.
    CHECK(spread(scale) == Approx(32.0 * (1.0 - std::cos(6.283185307179586 * 0.34)) + 1.0).epsilon(0.1));
    CHECK(white(scale) < 0.3 * spread(scale));
}

TEST_CASE("Steady filling is no noise") {
    Scale scale;
    for (int i = 0; i < 40000; ++i) scale.read(0.0, 0.13 * (i % 15000), true, 1.3);
    CHECK(white(scale) < 0.05);
    CHECK(spread(scale) < 0.05);
}

TEST_CASE("One outlier never counts for more than three standard deviations") {
    Scale scale(moving_noise(8.0F));
    scale.read(0.0);
    CHECK(spread(scale) == Approx(64.0));
    scale.read(5000.0);
    // Level + 0.1/30 * (9 * level - level).
    CHECK(spread(scale) == Approx(64.0 * (1.0 + 8.0 * 0.1 / 30.0)));
    for (int i = 0; i < 100; ++i) scale.read(0.0);
    // It sits in three second differences, each clipped at nine times the level, over a memory of 120.
    CHECK(white(scale) < 64.0 * std::pow(1.0 + 8.0 / 120.0, 3.0));
}

TEST_CASE("Moving and standing are followed apart") {
    Scale scale;
    const double still_spread = spread(scale, false);
    const double still_white = white(scale, false);
    Normals normals;
    for (int i = 0; i < 3000; ++i) scale.read(20.0 * normals.next());
    CHECK(spread(scale, false) == still_spread);
    CHECK(white(scale, false) == still_white);
    CHECK(spread(scale, true) > 200.0);
}

TEST_CASE("A scale that never moves is not believed to be perfect") {
    Scale scale;
    for (int i = 0; i < 200000; ++i) scale.read(0.0, 500.0, false);
    CHECK(spread(scale, false) == Approx(0.01));
    CHECK(white(scale, false) == Approx(0.01));
}

TEST_CASE("A step across a gap or a start is no noise") {
    Scale gap(moving_noise(1.0F));
    Scale start(moving_noise(1.0F));
    for (int round = 0; round < 40; ++round) {
        const double level_kg = 500.0 + 300.0 * (round % 2);
        for (int i = 0; i < 50; ++i) gap.read(0.0, level_kg);
        gap.wait(3.0);
        for (int i = 0; i < 50; ++i) start.read(0.0, level_kg, round % 2 == 0);
    }
    CHECK(white(gap) < 1.0);
    CHECK(white(start) < 1.0);
}
