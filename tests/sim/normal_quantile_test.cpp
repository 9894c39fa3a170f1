// The normal distribution and the random numbers of the forecast's paths.
#include "plan/normal_quantile.hpp"

#include <catch2/catch.hpp>

#include "plan/path_random.hpp"

using namespace podrate::sim;

TEST_CASE("Quantiles of the normal are those of the C library's error function") {
    for (const double p :
         {1e-12, 1e-6, 1e-3, 0.01, 0.05, 0.074, 0.076, 0.25, 0.4, 0.5, 0.77, 0.95, 0.999, 1.0 - 1e-9}) {
        INFO("p = " << p);
        const double z = normal_quantile(p);
        CHECK(0.5 * std::erfc(-z / std::sqrt(2.0)) == Approx(p).epsilon(1e-11));
        CHECK(normal_below(z) == Approx(p).epsilon(1e-10));
    }
    CHECK(normal_quantile(0.5) == 0.0);
    // The test values that Wichura (1988) gives for PPND16; from memory.
    CHECK(normal_quantile(0.25) == Approx(-0.6744897501960817).epsilon(1e-15));
    CHECK(normal_quantile(0.001) == Approx(-3.090232306167814).epsilon(1e-15));
    CHECK(normal_quantile(1e-20) == Approx(-9.262340089798408).epsilon(1e-15));
    // Ends stay finite.
    CHECK(normal_quantile(0.0) < -30.0);
    CHECK(normal_quantile(1.0) > 8.0);
}

TEST_CASE("A path's numbers have the moments of their distributions") {
    constexpr int kDraws = 200000;
    const double n = kDraws;
    for (const double shape : {1.0, 1.5, 12.0}) {
        PathRandom random(7, 3, static_cast<std::uint64_t>(shape));
        double sum = 0.0;
        double squares = 0.0;
        for (int i = 0; i < kDraws; ++i) {
            const double x = random.gamma(shape);
            sum += x;
            squares += (x - shape) * (x - shape);
        }
        INFO("shape " << shape);
        // Mean and variance of a gamma are its shape; four standard errors, the variance's by its kurtosis.
        CHECK(sum / n == Approx(shape).margin(4.0 * std::sqrt(shape / n)));
        CHECK(squares / n == Approx(shape).margin(4.0 * std::sqrt((2.0 * shape * shape + 6.0 * shape) / n)));
    }
    PathRandom random(7, 4, 1);
    double sum = 0.0;
    double squares = 0.0;
    double exponential = 0.0;
    for (int i = 0; i < kDraws; ++i) {
        const double z = random.normal();
        sum += z;
        squares += z * z;
        exponential += random.exponential(3.0);
        REQUIRE(random.below(5) < 5);
    }
    CHECK(sum / n == Approx(0.0).margin(4.0 / std::sqrt(n)));
    CHECK(squares / n == Approx(1.0).margin(4.0 * std::sqrt(2.0 / n)));
    CHECK(exponential / n == Approx(3.0).margin(4.0 * 3.0 / std::sqrt(n)));
}

TEST_CASE("Neighbouring paths have streams of their own") {
    PathRandom one(1, 5, 2);
    PathRandom again(1, 5, 2);
    PathRandom next(1, 6, 2);
    PathRandom other(2, 5, 2);
    double apart = 0.0;
    for (int i = 0; i < 1000; ++i) {
        const double u = one.uniform();
        CHECK(u == again.uniform());
        CHECK(u != other.uniform());
        apart += (u - 0.5) * (next.uniform() - 0.5);
    }
    // The covariance of independent uniforms: 0 with sd 1/12 over the root of their number.
    CHECK(apart / 1000 == Approx(0.0).margin(4.0 / 12.0 / std::sqrt(1000.0)));
}
