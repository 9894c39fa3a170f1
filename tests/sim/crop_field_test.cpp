#include "synth/land/crop_field.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace podrate::sim;

namespace {

constexpr int kFields = 6000;

ScenarioField field_of(double cv, double length_m) {
    ScenarioField field;
    field.name = "Test Piece";
    field.crop_kgpm2 = 0.5;
    field.crop_cv = cv;
    field.patch_cv = 0.0;
    field.haulm_cv = 0.0;
    field.crop_length_m = length_m;
    return field;
}

// ln of the crop at one place and `lag_m` from it, over many seeds.
struct Pairs {
    double mean_crop = 0.0;
    double variance = 0.0;
    double covariance = 0.0;
};

Pairs pairs_over_seeds(const ScenarioField& field, EastNorth lag) {
    std::vector<double> here(kFields);
    std::vector<double> there(kFields);
    Pairs pairs;
    double mean = 0.0;
    for (int i = 0; i < kFields; ++i) {
        const CropField crop(field, static_cast<std::uint64_t>(i + 1));
        const auto k = static_cast<std::size_t>(i);
        const double kgpm2 = crop.standing_kgpm2({100.0, 50.0});
        pairs.mean_crop += kgpm2 / kFields;
        here[k] = std::log(kgpm2);
        there[k] = std::log(crop.standing_kgpm2({100.0 + lag.east_m, 50.0 + lag.north_m}));
        mean += (here[k] + there[k]) / (2.0 * kFields);
    }
    for (std::size_t k = 0; k < here.size(); ++k) {
        pairs.variance += (here[k] - mean) * (here[k] - mean) / kFields;
        pairs.covariance += (here[k] - mean) * (there[k] - mean) / kFields;
    }
    return pairs;
}

}  // namespace

TEST_CASE("The crop has its mean and its spread") {
    for (const double cv : {0.05, 0.15}) {
        const Pairs pairs = pairs_over_seeds(field_of(cv, 30.0), {0.0, 0.0});
        const double root_n = std::sqrt(static_cast<double>(kFields));
        INFO("cv " << cv);
        // Five standard deviations of chance; the mean's is cv/sqrt n, the variance's sqrt(2/n).
        CHECK(pairs.mean_crop == Approx(0.5).epsilon(5.0 * cv / root_n));
        CHECK(pairs.variance == Approx(cv * cv).epsilon(5.0 * std::sqrt(2.0) / root_n));
    }
}

TEST_CASE("The crop's likeness fades as an exponential of the distance in each direction") {
    const double length_m = 30.0;
    const double cv = 0.12;
    const EastNorth lags[] = {{10.0, 0.0}, {0.0, 30.0}, {21.2132, 21.2132}, {-60.0, 0.0}};
    for (const EastNorth& lag : lags) {
        const double distance_m = std::hypot(lag.east_m, lag.north_m);
        const double wanted = std::exp(-distance_m / length_m);
        const Pairs pairs = pairs_over_seeds(field_of(cv, length_m), lag);
        INFO("lag of " << distance_m << " m");
        // Chance: sqrt((1 + rho^2)/n). Waves under half a metre are left out: 1/sqrt(1 + (12 * 30)^2), 0.3 %
        // of the power.
        const double chance = 5.0 * std::sqrt((1.0 + wanted * wanted) / kFields);
        CHECK(pairs.covariance / (cv * cv) == Approx(wanted).margin(chance + 0.003));
    }
}

TEST_CASE("The crop is the same for the same seed and another for another field") {
    ScenarioField field = field_of(0.12, 30.0);
    const CropField one(field, 7);
    const CropField same(field, 7);
    const CropField other_seed(field, 8);
    field.name = "Other Piece";
    const CropField other_name(field, 7);
    const EastNorth place{12.0, 34.0};
    CHECK(one.standing_kgpm2(place) == same.standing_kgpm2(place));
    CHECK(one.standing_kgpm2(place) != other_seed.standing_kgpm2(place));
    CHECK(one.standing_kgpm2(place) != other_name.standing_kgpm2(place));
}

TEST_CASE("Without a spread the crop is even") {
    const CropField even(field_of(0.0, 30.0), 1);
    for (double east = 0.0; east < 300.0; east += 37.0) {
        CHECK(even.standing_kgpm2({east, 2.0 * east}) == Approx(0.5).epsilon(1e-14));
    }
}

TEST_CASE("Patches add their own spread and likeness to that of the parts") {
    ScenarioField field = field_of(0.2, 30.0);
    field.patch_cv = 0.3;
    field.patch_length_m = 2.0;
    const double n = kFields;
    const Pairs here = pairs_over_seeds(field, {0.0, 0.0});
    CHECK(here.variance == Approx(0.2 * 0.2 + 0.3 * 0.3).epsilon(5.0 * std::sqrt(2.0 / n)));
    const Pairs apart = pairs_over_seeds(field, {3.0, 0.0});
    const double wanted = 0.04 * std::exp(-3.0 / 30.0) + 0.09 * std::exp(-3.0 / 2.0);
    CHECK(apart.covariance == Approx(wanted).margin(5.0 * 0.13 * std::sqrt(2.0 / n) + 0.09 * 0.045));
}

TEST_CASE("A swath meets the mean over its width") {
    ScenarioField field = field_of(0.3, 30.0);
    field.patch_cv = 0.3;
    field.patch_length_m = 2.0;
    const CropField crop(field, 3);
    SwathCrop swath(crop, 3.3);
    const EastNorth place{40.0, 60.0};
    // Heading north the swath lies east to west. Means of ln over many points of it, held against each other
    // at two places, so that the mean's correction falls out.
    const auto mean_ln = [&](EastNorth centre) {
        double sum = 0.0;
        for (int i = 0; i < 660; ++i)
            sum += std::log(crop.standing_kgpm2({centre.east_m - 1.65 + 0.005 * (i + 0.5), centre.north_m}));
        return sum / 660;
    };
    const EastNorth other{40.0, 90.0};
    const double met =
        std::log(swath.at(place, 0.0, 0.0).standing_kgpm2 / swath.at(other, 0.0, 0.0).standing_kgpm2);
    CHECK(met == Approx(mean_ln(place) - mean_ln(other)).epsilon(1e-3));
}

TEST_CASE("Lodged patches cover about their share and haulm follows the crop") {
    ScenarioField field = field_of(0.3, 20.0);
    field.lodged_share = 0.2;
    field.lodged_loss_share = 0.25;
    field.haulm_follows_crop = -0.5;
    double lodged = 0.0;
    int seen = 0;
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        const CropField crop(field, seed);
        SwathCrop swath(crop, 3.3);
        for (double east = 0.0; east < 600.0; east += 15.0) {
            for (double north = 0.0; north < 300.0; north += 15.0, ++seen) {
                const CropHere here = swath.at({east, north}, 0.0, 0.0);
                lodged += here.lodged;
                REQUIRE(here.lodged_loss_share == Approx(0.25 * here.lodged));
            }
        }
    }
    CHECK(lodged / seen == Approx(0.2).margin(0.02));
    const CropField crop(field, 1);
    SwathCrop swath(crop, 3.3);
    const CropHere a = swath.at({10.0, 20.0}, 0.0, 0.0);
    const CropHere b = swath.at({200.0, 20.0}, 0.0, 0.0);
    CHECK(std::log(a.haulm_factor / b.haulm_factor) ==
          Approx(-0.5 * std::log(a.standing_kgpm2 / b.standing_kgpm2)).epsilon(1e-9));
}

TEST_CASE("A riper crop has grown, by the told share a point") {
    ScenarioField field = field_of(0.2, 30.0);
    field.tenderometer = 96.0;
    field.tenderometer_per_day = 6.0;
    field.yield_per_point = 0.02;
    const CropField crop(field, 1);
    CHECK(crop.tenderometer(43200.0) == Approx(99.0));
    SwathCrop swath(crop, 3.3);
    const double morning = swath.at({5.0, 5.0}, 0.0, 0.0).standing_kgpm2;
    CHECK(swath.at({5.0, 5.0}, 0.0, 43200.0).standing_kgpm2 == Approx(morning * 1.06).epsilon(1e-12));
}
