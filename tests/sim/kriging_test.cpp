// Figures marked gstat were printed by tests/reference/kriging.R.
#include "analysis/kriging.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <string>

using namespace podrate::sim;

namespace {

// Ten of the Meuse samples (P. A. Burrough & R. A. McDonnell, Principles of Geographical Information Systems,
// 1998), with their logarithm of zinc.
const std::vector<KrigingPoint> kTen = {
    {181072, 333611, 6.92951677076, 0.0}, {180763, 333104, 6.40687998607, 0.0},
    {180829, 332450, 5.52146091786, 0.0}, {180270, 331707, 5.64190707094, 0.0},
    {179334, 331366, 6.68586094707, 0.0}, {179076, 331005, 7.0570369817, 0.0},
    {179462, 330766, 5.42053499927, 0.0}, {179731, 331245, 4.85203026392, 0.0},
    {180862, 333116, 6.02827852023, 0.0}, {179337, 329870, 6.15485809402, 0.0}};
const VariogramModel kExponential{0.1, 0.5, 400.0, VariogramShape::exponential};

void check(const std::vector<KrigingPoint>& points, double east_m, double north_m, double value,
           double variance) {
    const KrigedValue told = krige(points, kExponential, east_m, north_m);
    CHECK(told.value == Approx(value).epsilon(1e-9));
    CHECK(told.variance == Approx(variance).epsilon(1e-9));
}

}  // namespace

TEST_CASE("Ordinary kriging from ten samples is that of gstat") {
    // gstat.
    check(kTen, 181180, 333740, 6.5408136119, 0.437619249427);
    check(kTen, 180300, 332100, 5.86695642453, 0.553567695442);
    check(kTen, 179500, 330900, 5.70009962704, 0.365644646548);
    check(kTen, 180830, 332450, 5.61891039027, 0.186323490821);
}

TEST_CASE("Kriging from samples with errors of their own is the solution of its equations") {
    // R's solve() of the kriging equations written out.
    std::vector<KrigingPoint> points = kTen;
    for (std::size_t i = 0; i < points.size(); ++i) points[i].error_variance = 0.01 * (double(i) + 1.0);
    check(points, 181180, 333740, 6.5390919129, 0.442291026422);
    check(points, 180300, 332100, 5.88343501855, 0.561218191782);
    check(points, 179500, 330900, 5.75539386122, 0.386791993327);
}

TEST_CASE("A kriged surface passes through a sure sample and beside an unsure one") {
    const KrigedValue sure = krige(kTen, kExponential, kTen[2].east_m, kTen[2].north_m);
    CHECK(sure.value == Approx(kTen[2].value).epsilon(1e-12));
    CHECK(sure.variance == Approx(0.0).margin(1e-12));
    std::vector<KrigingPoint> points = kTen;
    points[2].error_variance = 0.2;
    const KrigedValue unsure = krige(points, kExponential, kTen[2].east_m, kTen[2].north_m);
    CHECK(unsure.value > kTen[2].value + 0.05);  // its neighbours lie above
    CHECK(unsure.variance > 0.05);
    CHECK(unsure.variance < 0.2);
}

TEST_CASE("One sample is told everywhere, with twice the sill far away") {
    const KrigedValue far = krige({kTen.front()}, kExponential, 0.0, 0.0);
    CHECK(far.value == kTen.front().value);
    CHECK(far.variance == Approx(1.2).epsilon(1e-9));
}

// Not among the cases found of themselves: kriging_meuse_test runs it with what R has written.
TEST_CASE("All samples of the Meuse are kriged as by gstat", "[.meuse]") {
    const char* path = std::getenv("PODRATE_MEUSE");
    REQUIRE(path != nullptr);
    std::ifstream file(path);
    std::vector<KrigingPoint> points;
    VariogramModel model{0.0, 0.0, 0.0, VariogramShape::spherical};
    int told = 0;
    for (std::string word; file >> word;) {
        if (word == "point") {
            KrigingPoint point{};
            file >> point.east_m >> point.north_m >> point.value;
            points.push_back(point);
        } else if (word == "model") {
            file >> model.nugget >> model.partial_sill >> model.range_m;
        } else {
            REQUIRE(word == "told");
            double east_m = 0.0;
            double north_m = 0.0;
            double value = 0.0;
            double variance = 0.0;
            file >> east_m >> north_m >> value >> variance;
            const KrigedValue ours = krige(points, model, east_m, north_m);
            CHECK(ours.value == Approx(value).epsilon(1e-9));
            CHECK(ours.variance == Approx(variance).epsilon(1e-8));
            if (told++ > 0) continue;
            CHECK(points.size() == 155);
            // As E. Pebesma's gstat has it at this place of its own grid.
            CHECK(ours.value == Approx(6.499624084).epsilon(1e-8));
            CHECK(ours.variance == Approx(0.3198083886).epsilon(1e-7));
        }
    }
    CHECK(told == 3);
}
