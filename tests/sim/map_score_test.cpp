#include "score/map_score.hpp"

#include <catch2/catch.hpp>

#include "geo/local_frame.hpp"
#include "geo/utm_plane.hpp"
#include "log/number.hpp"
#include "report/output_file.hpp"
#include "support/temp_folder.hpp"
#include "synth/write/day_files.hpp"

using namespace podrate;
using namespace podrate::sim;
using podrate::test::TempFolder;

namespace {

const LatLon kOrigin{52.6, 2.9};

// A machine of 3.3 m that goes 60 m to the east over crop of 0.5 kg/m2, and as far over 0.3, losing a tenth.
std::string truth_text() {
    std::string text =
        "unix_s,mass_kg,flow_kgps,standing_kgpm2,loss_share,state,area_rate_m2ps,field,east_m,north_m,speed_"
        "mps,"
        "feed_kgps\n";
    for (int second = 0; second <= 240; ++second) {
        text += fixed(1751428800.0 + second, 1) + ",0,0," + (second < 120 ? "0.5" : "0.3") +
                ",0.1,harvesting," + (second < 240 ? "1.65" : "0") + ",0," + fixed(0.5 * second, 2) +
                ",0.00,0.5,0\n";
    }
    return text;
}

std::string cells_text(double error_share, double sd_share) {
    std::string text = "epsg,cell_m,east_m,north_m,cut_m2,harvested_kg,harvested_sd_kg,lost_kg\n";
    UtmPlane plane(kOrigin);
    const EastNorth first = plane.to_plane(kOrigin);
    const double west_m = 10.0 * std::floor(first.east_m / 10.0);
    const double south_m = 10.0 * std::floor(first.north_m / 10.0);
    for (int i = 0; i <= 12; ++i) {
        for (const int down : {0, 1}) {
            // Rich as far as the middle of the cell is within 60 m.
            const bool rich = west_m + 10.0 * i + 5.0 < first.east_m + 60.0;
            const double kg = 33.0 * 0.9 * (rich ? 0.5 : 0.3) * (1.0 + error_share);
            text += "32631,10," + fixed(west_m + 10.0 * i, 2) + ',' + fixed(south_m - 10.0 * down, 2) +
                    ",33," + fixed(kg, 4) + ',' + fixed(sd_share * kg, 4) + ',' + fixed(33.0 * 0.05, 3) +
                    '\n';
        }
    }
    return text + "32631,10,,,0,5,0,0\n";
}

std::optional<MapScore> score_with(double error_share, double sd_share, bool with_origin = true) {
    const TempFolder folder;
    Scenario scenario;
    scenario.origin = kOrigin;
    scenario.fields.resize(1);
    scenario.machines.resize(1);
    scenario.machines[0].id = "alder";
    make_folder(folder / "truth");
    std::string model = true_model_text(scenario);
    if (!with_origin) model.replace(model.find("origin_lat_deg"), 14, "elsewhere_deg_");
    write_file(folder / "truth" / "model.json", model);
    write_file(folder / "truth" / "alder.csv", truth_text());
    write_file(folder / "map_cells.csv", cells_text(error_share, sd_share));
    Day day;
    day.machines.resize(1);
    day.machines[0].id = "alder";
    return score_map(day, folder / "", folder / "");
}

}  // namespace

TEST_CASE("A map that is right but for a fiftieth is told to be off by that") {
    const auto score = score_with(0.02, 0.05);
    REQUIRE(score);
    // The way lies in one row of cells or on the line between two, the ends in cells of less than ten
    // seconds; the cell where the crop changes is off by itself.
    CHECK(score->cells >= 10);
    CHECK(score->cells <= 24);
    CHECK(score->cell_m == 10.0);
    CHECK(score->median_error_pct == Approx(2.0).margin(0.01));
    CHECK(score->inside_90_pct > 85.0);
    CHECK(score->mean_sd_pct == Approx(5.1).margin(0.5));
    CHECK(score->true_loss_kg_per_ha == Approx(400.0).epsilon(0.05));
}

TEST_CASE("A map surer than it may be holds the truth in few cells") {
    const auto score = score_with(0.02, 0.005);
    REQUIRE(score);
    CHECK(score->inside_90_pct < 15.0);
}

TEST_CASE("Without a map, or a truth that says where it lies, there is no score of one") {
    CHECK_FALSE(score_with(0.02, 0.05, false));
    CHECK_FALSE(score_map(Day{}, "/nowhere", "/nowhere"));
}
