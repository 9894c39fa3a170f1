// Pieces of swath: what each gave, put back to where the crop stood.
#include "replay/swath_track.hpp"

#include <catch2/catch.hpp>

using namespace podrate;
using namespace podrate::sim;

namespace {

constexpr double kDeadS = 6.0;
constexpr double kLagS = 8.0;
constexpr double kAreaRate = 2.64;

struct Track {
    SwathTrack track;
    LogRow row;
    Estimate estimate;

    Track() {
        row.time_us = 1751032800 * kSecondUs;
        row.has[static_cast<int>(Column::lat_deg)] = true;
        row.has[static_cast<int>(Column::lon_deg)] = true;
        row.value[static_cast<int>(Column::lon_deg)] = 2.9;
        estimate.state = WorkState::harvesting;
    }
    // One second of cutting at latitude `north`; what was cut dead time and lag before reaches the hopper.
    void second(double came_kg, double north_deg) {
        row.time_us += kSecondUs;
        row.value[static_cast<int>(Column::lat_deg)] = north_deg;
        if (estimate.state == WorkState::harvesting) estimate.area_m2 += static_cast<Real>(kAreaRate);
        estimate.harvested_kg += static_cast<Real>(came_kg);
        track.on_row(row, estimate);
    }
};

}  // namespace

TEST_CASE("A rich stretch is found where it stood, not where the hopper told of it") {
    Track t;
    // 300 s at 0.4 kg/m2, but 0.6 for what is cut from second 150 to 199.
    for (int s = 0; s < 300; ++s) {
        const int cut = s - static_cast<int>(kDeadS + kLagS);
        const double yield = cut >= 150 && cut < 200 ? 0.6 : 0.4;
        t.second(yield * kAreaRate, 52.6 + 1e-5 * s);
    }
    const std::vector<SwathPiece> pieces = t.track.pieces(kDeadS, kLagS);
    REQUIRE(pieces.size() > 10);
    for (const SwathPiece& piece : pieces) {
        CHECK(piece.area_rate_m2ps == Approx(kAreaRate).epsilon(1e-3));
        CHECK(piece.area_m2 == Approx(16 * kAreaRate).epsilon(1e-3));
        const double at_s = piece.unix_s - 1751032801.0;
        CHECK(piece.place.lat_deg == Approx(52.6 + 1e-5 * at_s).epsilon(1e-9));
        if (at_s > 160 && at_s < 190) CHECK(piece.passed_kgpm2 == Approx(0.6).epsilon(0.01));
        if (at_s < 140 || at_s > 210) CHECK(piece.passed_kgpm2 == Approx(0.4).epsilon(0.01));
    }
}

TEST_CASE("Breaks, faults and missing places make no pieces") {
    Track stops;
    for (int s = 0; s < 300; ++s) {
        stops.estimate.state = s % 40 == 39 ? WorkState::turning : WorkState::harvesting;
        stops.second(1.0, 52.6);
    }
    CHECK(stops.track.pieces(kDeadS, kLagS).empty());

    Track faulty;
    faulty.estimate.faults = kWeightStuck;
    for (int s = 0; s < 300; ++s) faulty.second(1.0, 52.6);
    CHECK(faulty.track.pieces(kDeadS, kLagS).empty());

    Track lost;
    lost.row.has[static_cast<int>(Column::lat_deg)] = false;
    for (int s = 0; s < 300; ++s) lost.second(1.0, 52.6);
    CHECK(lost.track.pieces(kDeadS, kLagS).empty());
    CHECK(SwathTrack().pieces(kDeadS, kLagS).empty());
}
