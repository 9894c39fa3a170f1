// A short day whose truth tells the drum's loss apart, synthesised, replayed and scored by the program.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/program.hpp"
#include "support/temp_folder.hpp"

using nlohmann::json;
using podrate::test::ProgramRun;
using podrate::test::run_podrate;
using podrate::test::TempFolder;

namespace {

const std::string kScenario = R"(label = "Half an hour"
date = 2025-07-02
seed = 7
start_unix_s = 1751428800
hours = 0.6
log_format = "csv"
origin_lat_deg = 52.6
origin_lon_deg = 2.9

[[field]]
name = "Saltings"
corners_m = [[0, 0], [400, 0], [400, 300], [0, 300]]
crop_kgpm2 = 0.5

[[machine]]
id = "viner_1"
)";

struct Scored {
    json score;
    std::string text;
};

Scored scored(const std::string& scenario) {
    const TempFolder folder;
    const std::string day = (folder / "day").string();
    const std::string out = (folder / "out").string();
    ProgramRun run = run_podrate({"synth", folder.file("s.toml", scenario).string(), "--out", day});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    run = run_podrate({"replay", day, "--out", out, "--estimates", "--quiet"});
    REQUIRE(run.exit_code == 0);
    run = run_podrate({"score", out, day, "--json"});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    const ProgramRun text = run_podrate({"score", out, day});
    REQUIRE(text.exit_code == 0);
    return {json::parse(run.out), text.out};
}

}  // namespace

TEST_CASE("The score holds the loss told against the truth, the drum's apart where the truth tells it") {
    const Scored s = scored("truth_apart = true\n" + kScenario);
    const json& machine = s.score["machines"][0];
    for (const char* part : {"total", "drum"}) {
        INFO(part);
        const json& loss = machine["loss"][part];
        CHECK(loss["true_pct"].get<double>() > 0.1);
        CHECK(loss["true_pct"].get<double>() < 30.0);
        CHECK(loss["error_points"].get<double>() ==
              Approx(loss["pct"].get<double>() - loss["true_pct"].get<double>()).margin(1e-9));
        CHECK(loss["low_pct"].get<double>() <= loss["pct"].get<double>());
        CHECK(loss["pct"].get<double>() <= loss["high_pct"].get<double>());
        CHECK(loss["inside_90"].is_boolean());
        CHECK(loss["rmse_points"].get<double>() > 0.0);
        CHECK(loss["seconds"].get<long>() > 1000);
        CHECK(s.score["total"]["loss"][part]["machines"] == 1);
        CHECK(s.score["total"]["loss"][part]["true_pct"].get<double>() ==
              Approx(loss["true_pct"].get<double>()));
    }
    CHECK(machine["loss"]["drum"]["true_pct"] < machine["loss"]["total"]["true_pct"]);
    const json& alarms = machine["loss_alarms"];
    CHECK(alarms["episodes_told"] <= alarms["episodes"]);
    CHECK(alarms["false_alarms"] <= alarms["alarms"]);
    CHECK(alarms["harvest_h"].get<double>() > 0.3);
    CHECK(s.text.find("  loss        ") != std::string::npos);
    CHECK(s.text.find("  in the drum ") != std::string::npos);
    CHECK(s.text.find("  loss alarm  ") != std::string::npos);
}

TEST_CASE("A truth that does not tell the drum apart is scored without it") {
    const Scored s = scored(kScenario);
    CHECK(s.score["machines"][0]["loss"]["drum"].is_null());
    CHECK(s.score["total"]["loss"]["drum"].is_null());
    CHECK(s.score["machines"][0]["loss"]["total"]["true_pct"].get<double>() > 0.1);
    CHECK(s.text.find("  in the drum ") == std::string::npos);
}
