// Peas or seeds counted on the ground, as kg/ha.
#include <catch2/catch.hpp>
#include <cmath>

#include "day/day.hpp"

using podrate::sim::ground_kg_per_ha;

namespace {

constexpr double kFt2_m2 = 0.3048 * 0.3048;  // international foot
// kg/ha in 1 bu/ac, from 0.45359237 kg a pound and 0.40468564224 ha an acre.
double kg_per_ha_of_bushel(double pounds) {
    return pounds * 0.45359237 / 0.40468564224;
}

}  // namespace

TEST_CASE("Canola seeds a square foot that equal a bushel an acre agree with the published table") {
    // Canola Council of Canada, combine losses: 1000-seed mass in g and seeds per ft2 at 1 bu/ac of 50 lb.
    const struct {
        double thousand_g;
        double seeds_per_ft2;
    } table[] = {{2, 261}, {2.5, 208}, {3, 174}, {3.5, 149}, {4, 130}, {4.5, 116}, {5, 104}};
    const double bushel = kg_per_ha_of_bushel(50.0);
    CHECK(bushel == Approx(56.04).margin(0.005));
    for (const auto& row : table) {
        INFO("1000 seeds weigh " << row.thousand_g << " g");
        // One seed more or less of the table must hold the bushel between them.
        CHECK(ground_kg_per_ha(row.seeds_per_ft2 - 1.0, kFt2_m2, row.thousand_g) < bushel);
        CHECK(ground_kg_per_ha(row.seeds_per_ft2 + 1.0, kFt2_m2, row.thousand_g) > bushel);
    }
}

TEST_CASE("Three grams in a pan of a square foot at a concentration of six are 53.8 kg a hectare") {
    // Canola Council of Canada: 30 ft cut, 5 ft discharge, 3 g/ft2 -> 0.5 g/ft2 -> 0.96 bu/ac.
    const double grams_per_ft2 = 3.0 / (30.0 / 5.0);
    // As a count: a thousand seeds of 1 g each weigh 1000 g.
    const double kg_per_ha = ground_kg_per_ha(grams_per_ft2, kFt2_m2, 1000.0);
    CHECK(kg_per_ha == Approx(53.8).margin(0.05));
    CHECK(kg_per_ha / kg_per_ha_of_bushel(50.0) == Approx(0.96).margin(0.005));
}

TEST_CASE("Seeds in a quadrat of a tenth of a square metre agree with the published rule") {
    // Western Australia's agriculture department: seeds per 0.1 m2 that equal 100 kg/ha. The rule's 1000-seed
    // masses follow from it: 5 peas are 200 g a thousand, 7 lupins 143 g, 267 canola seeds 3.75 g.
    CHECK(ground_kg_per_ha(5, 0.1, 200.0) == Approx(100.0));
    CHECK(ground_kg_per_ha(7, 0.1, 1000.0 / 7.0) == Approx(100.0));
    CHECK(ground_kg_per_ha(267, 0.1, 1000.0 / 267.0) == Approx(100.0));
    CHECK(ground_kg_per_ha(5, 0.1, 1000.0 / 7.0) == Approx(500.0 / 7.0));
}

TEST_CASE("Twenty-five vining peas a square metre at 400 g a thousand are 100 kg a hectare") {
    CHECK(ground_kg_per_ha(25, 1.0, 400.0) == Approx(100.0));
    // Half as many are 1 % of 5 t/ha.
    CHECK(ground_kg_per_ha(12.5, 1.0, 400.0) == Approx(0.01 * 5000.0));
}

TEST_CASE("Soybeans left by the header come out as the example works them") {
    // Staton, Michigan State University, 2012: counts a square foot behind and in standing beans.
    const double behind[] = {10, 9, 11, 11};
    const double standing[] = {2, 1, 2, 2};
    double sum = 0.0;
    for (int i = 0; i < 4; ++i) sum += behind[i] - standing[i];
    CHECK(sum / 4.0 == 8.5);
    // At four beans a square foot for 1 bu/ac of 60 lb a thousand weigh so much:
    const double bushel = kg_per_ha_of_bushel(60.0);
    const double thousand_g = bushel * 100.0 / (4.0 / kFt2_m2);
    CHECK(ground_kg_per_ha(8.5, kFt2_m2, thousand_g) / bushel == Approx(2.125));
}

TEST_CASE("Kilograms a hectare in a bushel an acre agree with bushel weights") {
    // Bushel weights from memory: soybean and wheat 60 lb, corn 56, canola 50, barley 48.
    CHECK(kg_per_ha_of_bushel(60) == Approx(67.25).margin(0.005));
    CHECK(kg_per_ha_of_bushel(56) == Approx(62.77).margin(0.005));
    CHECK(kg_per_ha_of_bushel(48) == Approx(53.80).margin(0.005));
}
