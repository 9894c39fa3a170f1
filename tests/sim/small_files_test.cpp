// Tray checks, maturity, plan and fields beside day.toml.
#include <catch2/catch.hpp>

#include "day/day.hpp"
#include "fields/field_map.hpp"
#include "support/temp_folder.hpp"

using namespace podrate;

namespace {

sim::Day read_with(const std::string& name, const std::string& text) {
    const test::TempFolder folder;
    (void)folder.file("day.toml", "[[machine]]\nid = \"viner_1\"\nlog = \"viner_1.csv\"\nwidth_m = 3.3\n");
    (void)folder.file(name, text);
    return sim::read_day(folder.path());
}

std::string polygon(const std::string& ring) {
    return R"({"type":"Feature","properties":{"name":"Long Acre"},"geometry":{"type":"Polygon","coordinates":[)" +
           ring + "]}}";
}

std::string collection(const std::string& features) {
    return R"({"type":"FeatureCollection","features":[)" + features + "]}";
}

// 200 m by 100 m at 52.5 north: 20,000.0 m2 (GeographicLib's Planimeter).
const std::string kRing =
    "[[0,52.5],[0,52.50179731902983],[0.00147259217179,52.50179730986758],"
    "[0.00147253211993,52.49999999083835],[0,52.5]]";

}  // namespace

TEST_CASE("Tray checks are read by count and by mass") {
    const sim::Day counts =
        read_with("tray_checks.csv", "unix_s,machine,count,area_m2,thousand_pea_g\n100,viner_1,25,1.0,400\n");
    REQUIRE(counts.tray_checks.size() == 1);
    CHECK(counts.tray_checks[0].unix_s == 100.0);
    CHECK(counts.tray_checks[0].machine == "viner_1");
    CHECK(counts.tray_checks[0].kg_per_ha == Approx(100.0));
    const sim::Day masses = read_with("tray_checks.csv", "unix_s,machine,kg_per_ha\n100,viner_1,137.5\n");
    REQUIRE(masses.tray_checks.size() == 1);
    CHECK(masses.tray_checks[0].kg_per_ha == 137.5);
    const sim::Day both = read_with("tray_checks.csv",
                                    "unix_s,machine,kg_per_ha,count,area_m2,thousand_pea_g\n"
                                    "100,viner_1,137.5,,,\n200,viner_1,,25,1,400\n");
    REQUIRE(both.tray_checks.size() == 2);
    CHECK(both.tray_checks[0].kg_per_ha == 137.5);
    CHECK(both.tray_checks[1].kg_per_ha == Approx(100.0));
    CHECK(both.problems.count() == 0);
}

TEST_CASE("Bad tray checks are told by line and left out") {
    const sim::Day day = read_with("tray_checks.csv",
                                   "unix_s,machine,count,area_m2,thousand_pea_g\n"
                                   "100,viner_1,many,1.0,400\n"
                                   "200,viner_1,25,0,400\n"
                                   "300,viner_1,25,-1,400\n"
                                   "400,viner_1,25\n"
                                   ",viner_1,25,1,400\n"
                                   "600,viner_1,25,1,\n"
                                   "700,viner_1,25,1,400\n");
    REQUIRE(day.tray_checks.size() == 1);
    CHECK(day.tray_checks[0].unix_s == 700.0);
    REQUIRE(day.problems.count() == 6);
    std::size_t i = 0;
    for (const sim::Problem& problem : day.problems.kept()) {
        INFO(sim::to_text(problem));
        CHECK(problem.file.find("tray_checks.csv") != std::string::npos);
        CHECK(problem.mend.find("row skipped") == 0);
        ++i;
    }
    CHECK(i == 6);
}

TEST_CASE("Maturity and plan are read and their bad rows told") {
    const sim::Day maturity =
        read_with("maturity.csv", "unix_s,field,tenderometer\n100,Long Acre,98\n200,Long Acre,soft\n");
    REQUIRE(maturity.maturity.size() == 1);
    CHECK(maturity.maturity[0].field == "Long Acre");
    CHECK(maturity.maturity[0].tenderometer == 98.0);
    CHECK(maturity.problems.kept().front().line == 3);
    const sim::Day plan =
        read_with("intake_plan.csv", "unix_s,planned_t\n100,0\n300,5\n200,6\n400,x\n500,9\n");
    REQUIRE(plan.intake_plan.size() == 3);
    CHECK(plan.intake_plan[2].planned_t == 9.0);
    REQUIRE(plan.problems.count() == 2);
    CHECK(plan.problems.kept()[0].line == 4);
    CHECK(plan.problems.kept()[0].reason == "time goes back");
}

TEST_CASE("A plan that falls or is beyond reason is told by line") {
    const sim::Day day = read_with("intake_plan.csv",
                                   "unix_s,planned_t\n100,5\n200,4\n300,-1\n400,1e9\n-5,6\n1e12,6\n500,7\n");
    REQUIRE(day.intake_plan.size() == 2);
    CHECK(day.intake_plan[1].planned_t == 7.0);
    REQUIRE(day.problems.count() == 5);
    for (std::size_t i = 0; i < 5; ++i) CHECK(day.problems.kept()[i].line == i + 3);
}

TEST_CASE("A folder in the place of a small file is told and the day goes on") {
    const test::TempFolder folder;
    (void)folder.file("day.toml", "[[machine]]\nid = \"viner_1\"\nlog = \"viner_1.csv\"\nwidth_m = 3.3\n");
    for (const char* name : {"fields.geojson", "tray_checks.csv", "maturity.csv", "intake_plan.csv"}) {
        std::filesystem::create_directory(folder / name);
    }
    CHECK(sim::read_day(folder.path()).problems.faults() == 4);
}

TEST_CASE("Empty small files give nothing and no trouble") {
    for (const std::string name : {"tray_checks.csv", "maturity.csv", "intake_plan.csv"}) {
        const sim::Day day = read_with(name, "");
        CHECK(day.tray_checks.empty());
        CHECK(day.maturity.empty());
        CHECK(day.intake_plan.empty());
        CHECK(day.problems.count() == 0);
    }
}

TEST_CASE("A field has its name and its area on the ellipsoid") {
    const sim::Day day = read_with("fields.geojson", collection(polygon(kRing)));
    REQUIRE(day.fields.size() == 1);
    CHECK(day.fields[0].name == "Long Acre");
    CHECK(day.fields[0].area_ha == Approx(2.0).margin(0.00001));
    CHECK(sim::FieldMap(day.fields).at({52.501, 0.0007}) == 0);
    CHECK(sim::FieldMap(day.fields).at({52.501, 0.0020}) == -1);
    CHECK(sim::FieldMap(std::vector<sim::Field>{}).at({52.501, 0.0007}) == -1);
}

TEST_CASE("A hole is no field and several polygons are one") {
    const std::string hole =
        "[[0.0005,52.5005],[0.0010,52.5005],[0.0010,52.5010],[0.0005,52.5010],[0.0005,52.5005]]";
    const sim::Day holed = read_with("fields.geojson", collection(polygon(kRing + "," + hole)));
    REQUIRE(holed.fields.size() == 1);
    CHECK(holed.fields[0].area_ha < 1.9);
    CHECK(sim::FieldMap(holed.fields).at({52.50075, 0.00075}) == -1);
    CHECK(sim::FieldMap(holed.fields).at({52.50150, 0.00075}) == 0);
    const std::string far = "[[1,52.5],[1.001,52.5],[1.001,52.501],[1,52.501],[1,52.5]]";
    const sim::Day two = read_with(
        "fields.geojson",
        collection(
            R"({"type":"Feature","properties":null,"geometry":{"type":"MultiPolygon","coordinates":[[)" +
            kRing + "],[" + far + "]]}}"));
    REQUIRE(two.fields.size() == 1);
    CHECK(two.fields[0].name == "field 1");
    CHECK(sim::FieldMap(two.fields).at({52.5005, 1.0005}) == 0);
    CHECK(sim::FieldMap(two.fields).at({52.501, 0.0007}) == 0);
}

TEST_CASE("GeoJSON that can't be used is told and the day goes on") {
    for (const std::string bad : {"", "{", "[]", "{}", R"({"features":5})", "\xFF\xFE garbage", "null"}) {
        INFO(bad);
        const sim::Day day = read_with("fields.geojson", bad);
        CHECK(day.fields.empty());
        REQUIRE(day.problems.faults() == 1);
        CHECK(day.problems.kept().front().file.find("fields.geojson") != std::string::npos);
        CHECK_FALSE(day.problems.kept().front().mend.empty());
    }
}

TEST_CASE("A feature that can't be used is skipped and the others are not") {
    for (const std::string& bad :
         {std::string("5"), std::string("{}"), std::string(R"({"geometry":null})"),
          std::string(R"({"geometry":{"type":"Point","coordinates":[0,0]}})"), polygon("[[0,0],[1,1]]"),
          polygon("[[0,95],[1,95],[1,96]]"), polygon("[[\"a\",1],[1,1],[1,0]]"), polygon("5"),
          polygon("[[0],[1],[2]]")}) {
        INFO(bad);
        const sim::Day day = read_with("fields.geojson", collection(bad + "," + polygon(kRing)));
        REQUIRE(day.fields.size() == 1);
        CHECK(day.fields[0].name == "Long Acre");
        CHECK(day.problems.faults() == 1);
        CHECK(day.problems.kept().front().reason.find("feature 1") == 0);
    }
}
