#include "synth/random.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <vector>

using podrate::sim::Random;

namespace {

constexpr int kMany = 200000;
// Five standard deviations of chance: with fixed seeds the outcome is fixed too, so these hold or do not.
constexpr double kSigmas = 5.0;

struct Moments {
    double mean;
    double variance;
    double skewness;
    double kurtosis;
};

template <class Draw>
Moments moments_of(Draw draw) {
    std::vector<double> values(kMany);
    double sum = 0.0;
    for (double& value : values) sum += value = draw();
    const double mean = sum / kMany;
    double m2 = 0.0;
    double m3 = 0.0;
    double m4 = 0.0;
    for (const double value : values) {
        const double d = value - mean;
        m2 += d * d;
        m3 += d * d * d;
        m4 += d * d * d * d;
    }
    m2 /= kMany;
    return {mean, m2, m3 / kMany / std::pow(m2, 1.5), m4 / kMany / (m2 * m2)};
}

double correlation(Random& a, Random& b) {
    double sum = 0.0;
    for (int i = 0; i < kMany; ++i) sum += a.normal() * b.normal();
    return sum / kMany;
}

}  // namespace

TEST_CASE("Uniform numbers have the moments of uniform numbers") {
    Random random(1, "uniform");
    const Moments m = moments_of([&random] { return random.uniform(); });
    const double root_n = std::sqrt(static_cast<double>(kMany));
    CHECK(m.mean == Approx(0.5).margin(kSigmas * std::sqrt(1.0 / 12.0) / root_n));
    // Variance of a square: 1/80 - 1/144.
    CHECK(m.variance == Approx(1.0 / 12.0).margin(kSigmas * std::sqrt(1.0 / 80.0 - 1.0 / 144.0) / root_n));
    CHECK(m.kurtosis == Approx(1.8).margin(0.05));
}

TEST_CASE("Uniform numbers stay in their range") {
    Random random(2, "range");
    for (int i = 0; i < kMany; ++i) {
        const double u = random.uniform();
        REQUIRE(u >= 0.0);
        REQUIRE(u < 1.0);
        const double v = random.uniform(-3.0, -1.0);
        REQUIRE(v >= -3.0);
        REQUIRE(v < -1.0);
    }
}

TEST_CASE("Normal numbers have the moments of normal numbers") {
    Random random(3, "normal");
    const Moments m = moments_of([&random] { return random.normal(); });
    const double n = kMany;
    CHECK(m.mean == Approx(0.0).margin(kSigmas / std::sqrt(n)));
    CHECK(m.variance == Approx(1.0).margin(kSigmas * std::sqrt(2.0 / n)));
    CHECK(m.skewness == Approx(0.0).margin(kSigmas * std::sqrt(6.0 / n)));
    CHECK(m.kurtosis == Approx(3.0).margin(kSigmas * std::sqrt(24.0 / n)));
}

TEST_CASE("Normal numbers reach as far as they should") {
    Random random(4, "tails");
    int beyond2 = 0;
    for (int i = 0; i < kMany; ++i) beyond2 += std::abs(random.normal()) > 2.0 ? 1 : 0;
    const double p = std::erfc(2.0 / std::sqrt(2.0));
    CHECK(beyond2 == Approx(kMany * p).margin(kSigmas * std::sqrt(kMany * p * (1.0 - p))));
}

TEST_CASE("Exponential numbers have their mean and variance") {
    Random random(5, "exponential");
    const Moments m = moments_of([&random] { return random.exponential(4.0); });
    const double n = kMany;
    CHECK(m.mean == Approx(4.0).margin(kSigmas * 4.0 / std::sqrt(n)));
    CHECK(m.variance == Approx(16.0).margin(kSigmas * 16.0 * std::sqrt(8.0 / n)));
}

TEST_CASE("The same seed and purpose give the same numbers") {
    Random a(42, "weight viner_1");
    Random b(42, "weight viner_1");
    for (int i = 0; i < 1000; ++i) {
        REQUIRE(a.normal() == b.normal());
        REQUIRE(a.uniform() == b.uniform());
    }
}

TEST_CASE("Streams of other purposes and other seeds are independent") {
    Random weight(42, "weight viner_1");
    Random tilt(42, "tilt viner_1");
    CHECK(std::abs(correlation(weight, tilt)) < kSigmas / std::sqrt(static_cast<double>(kMany)));
    Random other(43, "weight viner_1");
    Random again(42, "weight viner_1");
    CHECK(std::abs(correlation(again, other)) < kSigmas / std::sqrt(static_cast<double>(kMany)));
}

TEST_CASE("Numbers are those of the standard's generator started from the published hash") {
    // FNV-1a, 64 bits, of "a": af63dc4c8601ec8c (the hash's authors' test vectors, from memory). The
    // generator's bits are fixed by the C++ standard.
    std::mt19937_64 bits(0xAF63DC4C8601EC8CULL);
    Random random(0, "a");
    for (int i = 0; i < 100; ++i) REQUIRE(random.uniform() == static_cast<double>(bits() >> 11) * 0x1.0p-53);
}
