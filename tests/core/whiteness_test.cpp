#include "podrate/filter/whiteness.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "podrate/filter/flow_filter.hpp"

using namespace podrate;

namespace {

constexpr int kSeconds = 20000;

// Mean score of a sequence whose next value keeps `likeness` of the one before, 10 readings a second.
double mean_score(double likeness_per_s) {
    std::mt19937 bits(7);
    std::normal_distribution<double> normal;
    const double keep = std::pow(std::abs(likeness_per_s), 0.1);
    Whiteness whiteness;
    double state = 0.0;
    double sum = 0.0;
    int words = 0;
    for (int i = 0; i < kSeconds * 10; ++i) {
        state = keep * state + std::sqrt(1.0 - keep * keep) * normal(bits);
        const double sign = likeness_per_s < 0.0 && (i / 20) % 2 == 1 ? -1.0 : 1.0;
        const double value = likeness_per_s == 0.0 ? normal(bits) : sign * state;
        Real score = Real(0);
        if (!whiteness.add(Real(0.1), static_cast<Real>(value), Real(0.5), Real(0.5), score)) continue;
        sum += static_cast<double>(score);
        ++words;
    }
    REQUIRE(words > kSeconds * 9 / 20);
    return sum / words;
}

// What the filter makes of the spread of a crop whose true spread is `cv`, after four hours of work with told
// 0.12.
double learnt_cv(double cv, unsigned seed) {
    std::mt19937 bits(seed);
    std::normal_distribution<double> normal;
    Parameters parameters;
    parameters.crop_patch_m = Real(0);  // this crop has no patches
    FlowFilter filter(parameters);
    filter.start(Real(0), Real(36));
    double mass_kg = 0.0;
    double flow_kgps = 0.0;
    double ln_crop = 0.0;
    constexpr double kStepS = 0.1;
    const double lag_share = 1.0 - std::exp(-kStepS / static_cast<double>(parameters.drum_lag_s));
    for (int i = 0; i < 4 * 36000; ++i) {
        Intake intake;
        intake.dt_s = Real(kStepS);
        intake.distance_m = Real(0.08);
        intake.area_m2 = Real(0.08 * 3.3);
        const double likeness = std::exp(-0.08 / static_cast<double>(parameters.crop_length_m));
        ln_crop = likeness * ln_crop + cv * std::sqrt(1.0 - likeness * likeness) * normal(bits);
        flow_kgps += lag_share * (0.45 * std::exp(ln_crop) * 3.3 * 0.8 - flow_kgps);
        mass_kg += flow_kgps * kStepS;
        filter.predict(intake);
        filter.update(static_cast<Real>(mass_kg + 6.0 * normal(bits)), Real(36), Real(36));
        if (mass_kg < 1800.0) continue;
        mass_kg = 0.0;
        filter.retell_mass(Real(0), Real(36));
    }
    return static_cast<double>(filter.crop_cv());
}

}  // namespace

TEST_CASE("White innovations score nothing on average, like ones above and swinging ones below") {
    // 10,000 words of variance about 1: the mean of a white sequence stays within 4 / sqrt(10,000).
    CHECK(std::abs(mean_score(0.0)) < 0.04);
    CHECK(mean_score(0.5) > 0.3);
    CHECK(mean_score(-0.9) < -0.3);
}

TEST_CASE("The crop's spread is learnt from below and from above") {
    CHECK(learnt_cv(0.24, 1) == Approx(0.24).epsilon(0.25));
    CHECK(learnt_cv(0.12, 2) == Approx(0.12).epsilon(0.25));
    CHECK(learnt_cv(0.06, 3) == Approx(0.06).epsilon(0.35));
}
