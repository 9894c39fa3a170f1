#include <catch2/catch.hpp>
#include <random>

#include "geo/geodesy.hpp"
#include "report/taskdata/boundary.hpp"
#include "report/taskdata/data_entries.hpp"
#include "report/taskdata/task_log.hpp"
#include "report/taskdata/time_log.hpp"
#include "report/taskdata/whole_units.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

std::string hex(const std::string& bytes) {
    std::string text;
    char pair[4];
    for (const char c : bytes) {
        std::snprintf(pair, sizeof pair, "%02X", static_cast<unsigned>(static_cast<unsigned char>(c)));
        text += pair;
    }
    return text;
}

Ring square(double lat_deg, double lon_deg, double side_deg) {
    return {{lat_deg, lon_deg},
            {lat_deg, lon_deg + side_deg},
            {lat_deg + side_deg, lon_deg + side_deg},
            {lat_deg + side_deg, lon_deg}};
}

std::int64_t sum_of_row(const std::vector<std::vector<std::int64_t>>& table, std::size_t row) {
    std::int64_t sum = 0;
    for (const std::int64_t cell : table[row]) sum += cell;
    return sum;
}

}  // namespace

// The bytes were parsed by the npm library isoxml as 650,000 mg/m2, 2,777,778 mg/s, 55,556 mg/s and state 1
// at 2024-07-01 10:20:30.5 UTC, 52.5 N 1.25 W; a second later 2,800,000 mg/s and state 0.
TEST_CASE("Records of a time log have the standard's bytes") {
    constexpr TimeUs kAt = 1'719'829'230'500'000;
    std::string bytes;
    const LoggedPlace first{525000000, -12500000, 4};
    append_record(bytes, kAt, &first, {{0, 650000}, {1, 2777778}, {2, 55556}, {3, 1}});
    CHECK(hex(bytes) == "A41738027D3F40DD4A1FE04341FF04040010EB090001B2622A000204D900000301000000");
    const LoggedPlace second{525000125, -12500000, 4};
    bytes.clear();
    append_record(bytes, kAt + kSecondUs, &second, {{1, 2800000}, {3, 0}});
    CHECK(hex(bytes) == "8C1B38027D3FBDDD4A1FE04341FF04020180B92A000300000000");
}

TEST_CASE("A record without a place has none, and a time before 1980 is the first there is") {
    std::string bytes;
    append_record(bytes, 0, nullptr, {{7, -1}});
    CHECK(hex(bytes) ==
          "000000000000"
          "01"
          "07FFFFFFFF");
}

TEST_CASE("A time log holds what changed, its places apart from what has none") {
    std::vector<TaskSecond> track(6);
    for (std::size_t i = 0; i < track.size(); ++i) {
        track[i].time_us = static_cast<TimeUs>(1'719'829'230 + i) * kSecondUs;
        track[i].flow_kgps = 2.5F;
        track[i].state = WorkState::harvesting;
        track[i].placed = i != 3;
    }
    track[4].flow_kgps = 2.75F;
    FieldTask task;
    task.machine = 1;
    task.visits = {{0, 2}, {3, 6}};
    const std::vector<TaskLog> logs = task_logs(task, track, 3.3);
    REQUIRE(logs.size() == 2);
    const std::size_t place = 9;
    const std::size_t bare = 4 + 2 + 1;
    // All five values, none, the one that changed, and back again.
    CHECK(logs[0].bytes.size() == 4 * (bare + place) + (5 + 0 + 1 + 1) * 5);
    CHECK(logs[1].bytes.size() == bare + 5 * 5);
    CHECK(logs[0].header.find("<PTN A=\"\" B=\"\"") != std::string::npos);
    CHECK(logs[1].header.find("<PTN") == std::string::npos);
    // The second machine's elements: viner 4, reel 5, hopper 6.
    CHECK(logs[0].header.find("<DLV A=\"0054\" B=\"\" C=\"DET5\"/>") != std::string::npos);
    CHECK(logs[0].header.find("<DLV A=\"0057\" B=\"\" C=\"DET6\"/>") != std::string::npos);
}

TEST_CASE("Whole units of a table keep each cell, row, column and the total to less than one") {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> some(-50.0, 20000.0);
    for (int trial = 0; trial < 400; ++trial) {
        const std::size_t rows = 1 + random() % 9;
        const std::size_t columns = 1 + random() % 9;
        std::vector<std::vector<double>> table(rows, std::vector<double>(columns, 0.0));
        for (auto& row : table) {
            for (double& cell : row) {
                if (random() % 3 != 0) cell = some(random);
                if (random() % 5 == 0) cell = std::floor(cell);
            }
        }
        const auto whole = whole_units(table);
        double total = 0.0;
        std::int64_t whole_total = 0;
        std::vector<double> column_sum(columns, 0.0);
        std::vector<std::int64_t> whole_column(columns, 0);
        const auto near = [](std::int64_t a, double b) {
            return std::abs(static_cast<double>(a) - b) < 1.00001;
        };
        for (std::size_t r = 0; r < rows; ++r) {
            double row_sum = 0.0;
            for (std::size_t c = 0; c < columns; ++c) {
                CHECK(near(whole[r][c], table[r][c]));
                if (table[r][c] == std::floor(table[r][c])) CHECK(whole[r][c] == std::llround(table[r][c]));
                row_sum += table[r][c];
                column_sum[c] += table[r][c];
                whole_column[c] += whole[r][c];
            }
            CHECK(near(sum_of_row(whole, r), row_sum));
            total += row_sum;
            whole_total += sum_of_row(whole, r);
        }
        for (std::size_t c = 0; c < columns; ++c) CHECK(near(whole_column[c], column_sum[c]));
        CHECK(near(whole_total, total));
    }
}

TEST_CASE("Rings become polygons with their holes, islands in holes polygons of their own") {
    const Ring field = square(52.0, 0.0, 0.01);
    const Ring pond = square(52.004, 0.004, 0.002);
    const Ring island = square(52.0045, 0.0045, 0.0005);
    const Ring other = square(52.02, 0.0, 0.01);
    const auto polygons = boundary_polygons({pond, other, island, field});
    REQUIRE(polygons.size() == 3);
    double area_m2 = 0.0;
    std::size_t holes = 0;
    for (const BoundaryPolygon& polygon : polygons) {
        area_m2 += std::abs(ring_area_m2(polygon.outer));
        for (const Ring& hole : polygon.holes) area_m2 -= std::abs(ring_area_m2(hole));
        holes += polygon.holes.size();
    }
    CHECK(holes == 1);
    CHECK(area_m2 ==
          Approx(ring_area_m2(field) + ring_area_m2(other) + ring_area_m2(island) - ring_area_m2(pond)));
}

TEST_CASE("A designator has 32 characters at most and none that XML can't hold") {
    CHECK(designator("Mill Dyke") == "Mill Dyke");
    CHECK(designator("a\x01\nb") == "a  b");
    std::string umlauts;
    for (int i = 0; i < 40; ++i) umlauts += "\xC3\xA4";
    CHECK(designator(umlauts) == umlauts.substr(0, 64));
    CHECK(hex_ddi(kDataEntries[5]) == "005A");
}
