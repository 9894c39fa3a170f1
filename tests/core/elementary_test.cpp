// Errors of exp, ln, sin and cos, in units in the last place of the true value, against the C library in the
// next wider type. The bounds are what was measured, rounded up; they must not be loosened.
#include "podrate/math/elementary.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "podrate/math/square_root.hpp"

using namespace podrate;

namespace {

template <class T>
struct Wider;
template <>
struct Wider<float> {
    using Type = double;
};
template <>
struct Wider<double> {
    using Type = long double;
};

template <class T>
double ulps(T value, typename Wider<T>::Type truth) {
    using Wide = typename Wider<T>::Type;
    const T nearest = std::abs(static_cast<T>(truth));
    const Wide ulp = static_cast<Wide>(std::nextafter(nearest, std::numeric_limits<T>::infinity())) -
                     static_cast<Wide>(nearest);
    return static_cast<double>(std::abs(static_cast<Wide>(value) - truth) / ulp);
}

// Largest error over `count` arguments spread evenly over [low, high].
template <class T, class Ours, class Truth>
double worst_ulps(T low, T high, int count, Ours ours, Truth truth) {
    using Wide = typename Wider<T>::Type;
    double worst = 0.0;
    for (int i = 0; i <= count; ++i) {
        const T x = low + (high - low) * (static_cast<T>(i) / static_cast<T>(count));
        worst = std::max(worst, ulps<T>(ours(x), truth(static_cast<Wide>(x))));
    }
    return worst;
}

template <class T, class Ours, class Truth>
double worst_absolute(T low, T high, int count, Ours ours, Truth truth) {
    using Wide = typename Wider<T>::Type;
    double worst = 0.0;
    for (int i = 0; i <= count; ++i) {
        const T x = low + (high - low) * (static_cast<T>(i) / static_cast<T>(count));
        const Wide error = static_cast<Wide>(ours(x)) - truth(static_cast<Wide>(x));
        worst = std::max(worst, static_cast<double>(std::abs(error)));
    }
    return worst;
}

constexpr int kDense = 400000;

template <class T>
double worst_exp(T low, T high) {
    return worst_ulps<T>(
        low, high, kDense, [](T x) { return math::exp(x); }, [](auto x) { return std::exp(x); });
}

template <class T>
double worst_ln(T low, T high) {
    return worst_ulps<T>(
        low, high, kDense, [](T x) { return math::ln(x); }, [](auto x) { return std::log(x); });
}

template <class T>
double worst_sine(T reach) {
    return worst_absolute<T>(
        -reach, reach, kDense, [](T x) { return math::sin_cos(x).sin; }, [](auto x) { return std::sin(x); });
}

template <class T>
double worst_cosine(T reach) {
    return worst_absolute<T>(
        -reach, reach, kDense, [](T x) { return math::sin_cos(x).cos; }, [](auto x) { return std::cos(x); });
}

}  // namespace

TEST_CASE("exp is right to 1.25 units in the last place where the estimator uses it") {
    CHECK(worst_exp<float>(-10.0F, 3.0F) < 1.25);
    CHECK(worst_exp<double>(-10.0, 3.0) < 1.25);
}

TEST_CASE("exp over its whole range is right to 1.25 units in the last place") {
    CHECK(worst_exp<float>(-87.0F, 88.0F) < 1.25);
    CHECK(worst_exp<double>(-708.0, 709.0) < 1.25);
}

TEST_CASE("exp is clamped to the normal range") {
    CHECK(math::exp(-1000.0F) == math::exp(-87.0F));
    CHECK(math::exp(-1000.0F) >= std::numeric_limits<float>::min());
    CHECK(math::exp(1000.0F) == math::exp(88.0F));
    CHECK(std::isfinite(math::exp(1e30F)));
    CHECK(math::exp(-1e4) == math::exp(-708.0));
    CHECK(math::exp(-1e4) >= std::numeric_limits<double>::min());
    CHECK(std::isfinite(math::exp(1e300)));
    CHECK(math::exp(0.0F) == 1.0F);
    CHECK(math::exp(0.0) == 1.0);
}

TEST_CASE("exp never falls") {
    float last = 0.0F;
    for (int i = -200000; i <= 200000; ++i) {
        const float value = math::exp(static_cast<float>(i) * 1e-4F);
        REQUIRE(value >= last);
        last = value;
    }
}

TEST_CASE("ln is right to 1.4 units in the last place away from 1") {
    CHECK(worst_ln<float>(1e-4F, 0.5F) < 1.4);
    CHECK(worst_ln<double>(1e-4, 0.5) < 1.4);
    CHECK(worst_ln<float>(2.0F, 1e6F) < 0.75);
    CHECK(worst_ln<double>(2.0, 1e6) < 0.75);
}

TEST_CASE("ln is right to 2 units in the last place near 1") {
    CHECK(worst_ln<float>(0.5F, 2.0F) < 2.0);
    CHECK(worst_ln<double>(0.5, 2.0) < 2.0);
}

TEST_CASE("ln of 1 is zero and of powers of two is exact to rounding") {
    CHECK(math::ln(1.0F) == 0.0F);
    CHECK(math::ln(1.0) == 0.0);
    for (int k = -100; k <= 100; ++k) {
        CHECK(math::ln(std::ldexp(1.0F, k)) == static_cast<float>(k * 0.693147180559945309));
        CHECK(math::ln(std::ldexp(1.0, k)) == static_cast<double>(k * 0.693147180559945309417L));
    }
}

TEST_CASE("ln undoes exp") {
    for (int i = -800; i <= 800; ++i) {
        const float x = static_cast<float>(i) * 0.01F;
        CHECK(math::ln(math::exp(x)) == Approx(x).margin(3e-7).epsilon(1e-6));
    }
}

TEST_CASE("sin and cos are right for tilts and headings") {
    CHECK(worst_sine<float>(7.0F) < 1.1e-7);
    CHECK(worst_cosine<float>(7.0F) < 1.1e-7);
    CHECK(worst_sine<double>(7.0) < 1.7e-16);
    CHECK(worst_cosine<double>(7.0) < 1.7e-16);
}

TEST_CASE("sin and cos hold up to 10000 rad") {
    CHECK(worst_sine<float>(10000.0F) < 2e-7);
    CHECK(worst_cosine<float>(10000.0F) < 2e-7);
    CHECK(worst_sine<double>(10000.0) < 1.7e-16);
    CHECK(worst_cosine<double>(10000.0) < 1.7e-16);
}

TEST_CASE("sin and cos know their quadrants") {
    const double pi = 3.14159265358979323846;
    CHECK(math::sin_cos(0.0).sin == 0.0);
    CHECK(math::sin_cos(0.0).cos == 1.0);
    CHECK(math::sin_cos(pi / 2).sin == Approx(1.0).margin(4.5e-16));
    CHECK(math::sin_cos(pi).cos == Approx(-1.0).margin(2.3e-16));
    CHECK(math::sin_cos(-pi / 2).sin == Approx(-1.0).margin(2.3e-16));
    CHECK(math::sin_cos(3 * pi / 4).cos == Approx(-std::sqrt(0.5)).margin(2.3e-16));
    CHECK(math::sin_cos(-3 * pi / 4).sin == Approx(-std::sqrt(0.5)).margin(2.3e-16));
}

TEST_CASE("sin squared and cos squared add up to one") {
    for (int i = -3600; i <= 3600; ++i) {
        const auto both = math::sin_cos(math::deg_to_rad(static_cast<double>(i) * 0.1));
        REQUIRE(both.sin * both.sin + both.cos * both.cos == Approx(1.0).margin(4.5e-16));
    }
}

TEST_CASE("The square root of a rounding error below zero is zero") {
    CHECK(math::sqrt(-1e-20F) == 0.0F);
    CHECK(math::sqrt(-1e-20) == 0.0);
    CHECK(math::sqrt(2.0) == std::sqrt(2.0));
    CHECK(math::sqrt(2.0F) == std::sqrt(2.0F));
}
