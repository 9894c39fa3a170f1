// Figures in metric and US units. Factors: NIST Special Publication 811 (2008), appendix B.8, as it prints
// them, to seven figures; the acre of the international foot, NIST Handbook 44, appendix C.
#include "text/quantity.hpp"

#include <catch2/catch.hpp>

using namespace podrate::ui;

namespace {

constexpr double kPoundKg = 4.535924e-1;
constexpr double kShortTonKg = 9.071847e2;
constexpr double kFootM = 3.048e-1;
constexpr double kMileM = 1.609344e3;
constexpr double kAcreM2 = 4.046856e3;
constexpr double kMphMps = 4.4704e-1;
constexpr double kShortTonPerHourKgps = 2.519958e-1;

constexpr Speech kMetric;
constexpr Speech kUs = {Language::english, Units::us};
constexpr Speech kGermanUs = {Language::german, Units::us};

double us(Quantity quantity) {
    return unit_of(quantity, Units::us).per_si;
}

}  // namespace

TEST_CASE("US units are those of NIST") {
    CHECK(us(Quantity::rate) * kShortTonPerHourKgps == Approx(1.0).epsilon(3e-7));
    CHECK(us(Quantity::speed) * kMphMps == Approx(1.0).epsilon(3e-7));
    CHECK(us(Quantity::speed) * kMileM == Approx(3600.0).epsilon(3e-7));
    CHECK(us(Quantity::area) * kAcreM2 == Approx(1.0).epsilon(3e-7));
    CHECK(us(Quantity::total) * kShortTonKg == Approx(1.0).epsilon(3e-7));
    CHECK(us(Quantity::total_doubt) == us(Quantity::total));
    CHECK(us(Quantity::load) * kPoundKg == Approx(1.0).epsilon(3e-7));
    CHECK(us(Quantity::load_doubt) == us(Quantity::load));
    CHECK(us(Quantity::capacity) == us(Quantity::load));
    CHECK(us(Quantity::distance) * kFootM == Approx(1.0).epsilon(3e-7));
    CHECK(us(Quantity::yield) * kShortTonKg / kAcreM2 == Approx(1.0).epsilon(5e-7));
    CHECK(us(Quantity::ground) * kPoundKg / kAcreM2 == Approx(1.0).epsilon(5e-7));
}

TEST_CASE("Metric figures are rounded as the view does") {
    CHECK(with_unit(kMetric, Quantity::rate, 1.5) == "5.4 t/h");
    CHECK(with_unit(kMetric, Quantity::yield, 0.5) == "5.0 t/ha");
    CHECK(with_unit(kMetric, Quantity::ground, 0.0376) == "380 kg/ha");
    CHECK(with_unit(kMetric, Quantity::speed, 1.0) == "3.6 km/h");
    CHECK(with_unit(kMetric, Quantity::area, 25000) == "2.50 ha");
    CHECK(with_unit(kMetric, Quantity::total, 12340) == "12.3 t");
    CHECK(with_unit(kMetric, Quantity::total_doubt, 37) == "0.04 t");
    CHECK(with_unit(kMetric, Quantity::load, 1958) == "1.96 t");
    CHECK(with_unit(kMetric, Quantity::load_doubt, 11.7) == "12 kg");
    CHECK(with_unit(kMetric, Quantity::capacity, 2000) == "2.0 t");
    CHECK(with_unit(kMetric, Quantity::distance, 606) == "610 m");
}

TEST_CASE("US figures as worked by hand") {
    CHECK(with_unit(kUs, Quantity::rate, 1.5) == "6.0 ton/h");         // 1.5 / 0.2519958 = 5.952
    CHECK(with_unit(kUs, Quantity::yield, 0.5) == "2.23 ton/acre");    // 0.5 x 4046.856 / 907.1847 = 2.230
    CHECK(with_unit(kUs, Quantity::ground, 0.0376) == "340 lb/acre");  // x 4046.856 / 0.4535924 = 335.5
    CHECK(with_unit(kUs, Quantity::speed, 1.0) == "2.2 mph");          // 2.237
    CHECK(with_unit(kUs, Quantity::area, 25000) == "6.18 acre");       // 6.1776
    CHECK(with_unit(kUs, Quantity::total, 12340) == "13.6 ton");       // 13.602
    CHECK(with_unit(kUs, Quantity::load, 1958) == "4320 lb");          // 4316.7
    CHECK(with_unit(kUs, Quantity::load_doubt, 11.7) == "26 lb");      // 25.8
    CHECK(with_unit(kUs, Quantity::capacity, 2000) == "4410 lb");      // 4409.2
    CHECK(with_unit(kUs, Quantity::distance, 606) == "2000 ft");       // 1988.2
    CHECK(with_unit(kGermanUs, Quantity::rate, 1.5) == "6,0 US-t/h");
    CHECK(figures(kGermanUs, Quantity::yield, 0.45, 0.5) == "2,01–2,23");
}

TEST_CASE("Changes have their sign, and none where nothing is left of them") {
    CHECK(change_of(kMetric, Quantity::rate, 0.6 / 3.6) == "+0.6 t/h");
    CHECK(change_of(kMetric, Quantity::rate, -0.6 / 3.6) ==
          "\xE2\x88\x92"
          "0.6 t/h");
    CHECK(change_of(kUs, Quantity::ground, -0.0001) ==
          "\xC2\xB1"
          "0 lb/acre");
}
