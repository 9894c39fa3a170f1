// The maps' files and picture from a small made-up map.
#include <sqlite3.h>
#include <tiffio.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

#include "report/html/cividis.hpp"
#include "report/html/inline_png.hpp"
#include "report/html/map_picture.hpp"
#include "report/html/maps_html.hpp"
#include "report/maps/map_cells_csv.hpp"
#include "report/maps/map_cells_geojson.hpp"
#include "report/maps/map_gpkg.hpp"
#include "report/maps/map_tiff.hpp"
#include "support/temp_folder.hpp"

using namespace podrate;
using namespace podrate::sim;
using podrate::test::TempFolder;

namespace {

// Three cells in a row of a field, the last barely touched, and one of none further north.
DayMap small_map() {
    DayMap map({52.6, 2.9}, 10.0);
    const EastNorth at = map.plane.to_plane({52.6, 2.9});
    const auto column = static_cast<std::int32_t>(at.east_m / 10.0);
    const auto row = static_cast<std::int32_t>(at.north_m / 10.0);
    map.fields = {"Tom's <\"first\">"};
    const auto add = [&](int east, int north, int field, double cut_m2, double tpha) {
        MapCell cell;
        cell.place = {column + east, row + north};
        cell.field = field;
        cell.cut_m2 = cut_m2;
        cell.harvested_kg = cut_m2 * tpha / 10.0;
        cell.harvested_sd_kg = (east == 1 ? 0.3 : 0.05) * cell.harvested_kg;
        cell.lost_kg = 0.1 * cell.harvested_kg;
        cell.lost_sd_kg = 0.01 * cell.harvested_kg;
        cell.seconds = 30.0;
        cell.surface_kgpm2 = 0.45;
        cell.surface_sd_kgpm2 = 0.02;
        map.cells.push_back(cell);
    };
    add(0, 0, 0, 100.0, 4.0);
    add(1, 0, 0, 98.0, 5.0);
    add(2, 0, 0, 2.0, 9.0);
    add(1, 3, -1, 50.0, 6.0);
    map.unplaced_kg = 12.6;
    map.unplaced_lost_kg = 1.5;
    MapMark tip;
    tip.kind = MarkKind::tip;
    tip.machine = "alder";
    tip.place = {52.6, 2.9001};
    tip.figure = 1500.0;
    map.marks.push_back(tip);
    tip.kind = MarkKind::stop;
    tip.words = "stopped";
    map.marks.push_back(tip);
    return map;
}

double kg_of(const DayMap& map) {
    double kg = map.unplaced_kg;
    for (const MapCell& cell : map.cells) kg += cell.harvested_kg;
    return kg;
}

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
    return count;
}

// First column of the first row.
double asked(sqlite3* base, const std::string& sql) {
    sqlite3_stmt* query = nullptr;
    REQUIRE(sqlite3_prepare_v2(base, sql.c_str(), -1, &query, nullptr) == SQLITE_OK);
    REQUIRE(sqlite3_step(query) == SQLITE_ROW);
    const double value = sqlite3_column_double(query, 0);
    sqlite3_finalize(query);
    return value;
}

}  // namespace

TEST_CASE("The cells' table has a row for each and one for what has no place") {
    const DayMap map = small_map();
    std::istringstream lines(map_cells_csv(map));
    std::string line;
    REQUIRE(std::getline(lines, line));
    CHECK(
        line.rfind("epsg,cell_m,east_m,north_m,field,cut_m2,seconds,harvested_kg,harvested_sd_kg,yield_tpha,",
                   0) == 0);
    const auto commas = count_of(line, ",");
    int rows = 0;
    std::string last;
    while (std::getline(lines, line)) {
        // The field's name is quoted, its quotes doubled; no comma stands in it.
        CHECK(count_of(line, ",") == commas);
        CHECK(line.rfind("32631,10,", 0) == 0);
        last = line;
        ++rows;
    }
    CHECK(rows == 5);
    CHECK(last.rfind("32631,10,,,unplaced,0.00,0.0,12.6000,0.0000,,", 0) == 0);
}

TEST_CASE("The cells' GeoJSON is of RFC 7946: rings counter-clockwise, what has no place unlocated") {
    DayMap map = small_map();
    const auto json = nlohmann::json::parse(map_cells_geojson(map));
    REQUIRE(json["features"].size() == 5);
    double kg = 0.0;
    for (const auto& feature : json["features"]) {
        kg += feature["properties"]["harvested_kg"].get<double>();
        if (feature["geometry"].is_null()) {
            CHECK(feature["properties"]["field"] == "unplaced");
            continue;
        }
        const auto& ring = feature["geometry"]["coordinates"][0];
        REQUIRE(ring.size() == 5);
        CHECK(ring[0] == ring[4]);
        CHECK(ring[1][0].get<double>() > ring[0][0].get<double>());
        CHECK(ring[2][1].get<double>() > ring[1][1].get<double>());
    }
    CHECK(kg == Approx(kg_of(map)).margin(0.01).epsilon(0));
    CHECK(json["features"][0]["properties"]["field"] == "Tom's <\"first\">");
    CHECK(json["features"][0]["properties"]["yield_tpha"] == 4.0);
    CHECK(json["features"][2]["properties"]["yield_tpha"].is_null());
    CHECK(json["features"][3]["properties"]["field"].is_null());
}

TEST_CASE("The GeoPackage says what it is, and has its layers, bounds and figures") {
    DayMap map = small_map();
    HarvestedStretch stretch;
    stretch.machine = "alder";
    stretch.ring = {{52.6, 2.9}, {52.6, 2.901}, {52.6001, 2.901}, {52.6001, 2.9}};
    const std::string bytes = map_gpkg(map, {stretch}, 1751432400 * kSecondUs);
    CHECK(bytes == map_gpkg(map, {stretch}, 1751432400 * kSecondUs));
    // OGC 12-128r17, requirements 1 and 2.
    CHECK(bytes.substr(0, 15) == "SQLite format 3");
    CHECK(bytes.substr(60, 4) == std::string("\x00\x00\x28\x3C", 4));  // 10300
    CHECK(bytes.substr(68, 4) == "GPKG");
    const TempFolder folder;
    const auto file = folder.file("map.gpkg", bytes);
    sqlite3* base = nullptr;
    REQUIRE(sqlite3_open(file.c_str(), &base) == SQLITE_OK);
    CHECK(asked(base, "SELECT COUNT(*) FROM gpkg_contents WHERE data_type = 'features'") == 6);
    CHECK(asked(base, "SELECT COUNT(*) FROM gpkg_geometry_columns WHERE srs_id = 32631") == 6);
    CHECK(asked(base, "SELECT COUNT(*) FROM gpkg_spatial_ref_sys WHERE srs_id IN (-1, 0, 4326, 32631)") == 4);
    CHECK(asked(base, "SELECT SUM(harvested_kg) FROM cells") == Approx(kg_of(map)).margin(1e-9));
    CHECK(asked(base, "SELECT COUNT(*) FROM cells WHERE geom IS NULL") == 1);
    CHECK(asked(base, "SELECT max_x - min_x FROM gpkg_contents WHERE table_name = 'cells'") == 30.0);
    CHECK(asked(base, "SELECT COUNT(*) FROM stops WHERE state = 'stopped'") == 1);
    CHECK(asked(base, "SELECT net_kg FROM tips") == 1500.0);
    CHECK(asked(base, "SELECT COUNT(*) FROM heaps") == 0);
    CHECK(asked(base, "SELECT min_x IS NULL FROM gpkg_contents WHERE table_name = 'heaps'") == 1);
    CHECK(asked(base, "SELECT last_change = '2025-07-02T05:00:00.000Z' FROM gpkg_contents") == 1);
    sqlite3_close(base);
}

TEST_CASE("The GeoTIFF has the cells in their places and nothing elsewhere") {
    const DayMap map = small_map();
    const TempFolder folder;
    const auto file = folder.file("map.tif", map_tiff(map));
    TIFFSetWarningHandler(nullptr);  // it has not heard of the tags
    TIFF* tiff = TIFFOpen(file.c_str(), "r");
    REQUIRE(tiff != nullptr);
    std::uint32_t width = 0;
    std::uint32_t height = 0;
    std::uint16_t bands = 0;
    TIFFGetField(tiff, TIFFTAG_IMAGEWIDTH, &width);
    TIFFGetField(tiff, TIFFTAG_IMAGELENGTH, &height);
    TIFFGetField(tiff, TIFFTAG_SAMPLESPERPIXEL, &bands);
    CHECK(width == 3);
    CHECK(height == 4);
    REQUIRE(bands == 8);
    std::vector<float> row(24);
    REQUIRE(TIFFReadScanline(tiff, row.data(), 0, 0) == 1);
    CHECK(row[8] == Approx(6.0F));
    for (const std::uint32_t bare : {1U, 2U}) {
        REQUIRE(TIFFReadScanline(tiff, row.data(), bare, 0) == 1);
        for (const float value : row) CHECK(std::isnan(value));
    }
    REQUIRE(TIFFReadScanline(tiff, row.data(), 3, 0) == 1);  // the southern row
    CHECK(row[0] == Approx(4.0F));
    CHECK(row[1] == Approx(0.2F));
    CHECK(row[2] == Approx(4.5F));
    CHECK(row[6] == Approx(40.0F));
    CHECK(row[8] == Approx(5.0F));
    CHECK(std::isnan(row[16]));  // barely touched: no yield, but its peas
    CHECK(row[22] == Approx(1.8F));
    TIFFClose(tiff);
    DayMap wide = small_map();
    wide.cells.back().place.row += 1'000'000;
    CHECK(map_tiff(wide).empty());
}

TEST_CASE("Colours of a map go from dark to bright without a step back") {
    double before = -1.0;
    for (int i = 0; i <= 100; ++i) {
        const Rgb c = cividis(i / 100.0);
        // Luma of ITU-R BT.709.
        const double luma = 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
        CHECK(luma >= before);
        before = luma;
    }
    CHECK(cividis(-1.0) == kCividis.front());
    CHECK(cividis(2.0) == kCividis.back());
}

TEST_CASE("Base 64 is that of RFC 4648") {
    CHECK(base64("").empty());
    CHECK(base64("f") == "Zg==");
    CHECK(base64("fo") == "Zm8=");
    CHECK(base64("foo") == "Zm9v");
    CHECK(base64("foob") == "Zm9vYg==");
    CHECK(base64("fooba") == "Zm9vYmE=");
    CHECK(base64("foobar") == "Zm9vYmFy");
}

TEST_CASE("The report's maps have scale bar, north, legend, marks and a table that adds up") {
    DayResult result;
    CHECK(maps_html(result).empty());
    result.map = small_map();
    const std::string html = maps_html(result);
    // Yield and loss of one field and of no field.
    CHECK(count_of(html, "<figure>") == 4);
    CHECK(count_of(html, "data:image/png;base64,") == 4);
    CHECK(count_of(html, "class=\"map-arrow\"") == 4);
    CHECK(count_of(html, "> m</text>") + count_of(html, " m</text>") == 4);
    CHECK(html.find("t/ha and more") != std::string::npos);
    CHECK(html.find("standard deviation over 8 % of the value") != std::string::npos);
    CHECK(html.find("url(#very-unsure)\" d=") != std::string::npos);  // the second cell
    CHECK(count_of(html, "load tipped") == 1);
    CHECK(html.find("Tom's &lt;&quot;first&quot;&gt;") != std::string::npos);
    CHECK(html.find("<td>no place known</td><td></td><td></td><td>13</td>") != std::string::npos);
    CHECK(html.find("<td>all</td><td></td><td></td><td>" + std::to_string(std::lround(kg_of(*result.map)))) !=
          std::string::npos);
}

TEST_CASE("A map's scale leaves out the outermost twentieths and stands at round values") {
    DayMap map = small_map();
    map.cells.resize(1);
    for (int i = 0; i < 100; ++i) {
        MapCell cell = map.cells.front();
        cell.harvested_kg = 10.0 * (2.0 + 0.04 * i);
        map.cells.push_back(cell);
    }
    map.cells[5].harvested_kg = 900.0;
    const MapFigure figure = {{[](const MapCell& c, double) { return std::optional(c.yield_tpha()); },
                               [](const MapCell&) { return 0.05; }, 0.1, 0.2},
                              "yield",
                              "t/ha",
                              1,
                              {}};
    const MapScale scale = map_scale(map, figure);
    CHECK(scale.low == Approx(2.0));
    CHECK(scale.high == Approx(6.0));
    CHECK(scale.step == Approx(1.0));
}
