#include "synth/crop_field.hpp"

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
        // Chance: sqrt((1 + rho^2)/n). Waves under 4 m are left out: 1/sqrt(1 + (1.6 * 30)^2), 2 % of the
        // power.
        const double chance = 5.0 * std::sqrt((1.0 + wanted * wanted) / kFields);
        CHECK(pairs.covariance / (cv * cv) == Approx(wanted).margin(chance + 0.021));
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
