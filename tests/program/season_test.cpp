// Many days in one go: same figures as day by day, stopped or not.
#include <algorithm>
#include <catch2/catch.hpp>
#include <csignal>
#include <map>
#include <nlohmann/json.hpp>
#include <thread>

#include "support/live_program.hpp"
#include "support/program.hpp"
#include "support/season_days.hpp"

using nlohmann::json;
using podrate::test::LiveProgram;
using podrate::test::ProgramRun;
using podrate::test::run_podrate;
using podrate::test::TempFolder;
using podrate::test::text_of;
using podrate::test::write_season_day;
using podrate::test::write_text;

namespace fs = std::filesystem;

namespace {

std::vector<std::string> season_call(const std::vector<fs::path>& days, const fs::path& out,
                                     const std::vector<std::string>& more = {}) {
    std::vector<std::string> call = {"season"};
    for (const fs::path& day : days) call.push_back(day.string());
    call.insert(call.end(), {"--out", out.string()});
    call.insert(call.end(), more.begin(), more.end());
    return call;
}

std::vector<fs::path> make_days(const TempFolder& folder, int count) {
    std::vector<fs::path> days;
    for (int i = 0; i < count; ++i) {
        days.push_back(folder / ("day" + std::to_string(i + 1)));
        write_season_day(days.back(), i);
    }
    return days;
}

// All that a season wrote, by path.
std::map<std::string, std::string> written(const fs::path& out) {
    std::map<std::string, std::string> files;
    for (const auto& entry : fs::recursive_directory_iterator(out)) {
        if (entry.is_regular_file()) files[fs::relative(entry.path(), out).string()] = text_of(entry.path());
    }
    return files;
}

// The folder in which a season keeps that day.
fs::path kept(const fs::path& out, const std::string& day) {
    for (const auto& entry : fs::directory_iterator(out / "days")) {
        if (entry.path().filename().string().rfind(day + "-", 0) == 0) return entry.path();
    }
    return {};
}

json season_of(const fs::path& out) {
    return json::parse(text_of(out / "season.json"));
}

}  // namespace

TEST_CASE("A season's days are what replay makes of each, and add up to the kilogram") {
    const TempFolder folder;
    const std::vector<fs::path> days = make_days(folder, 3);
    const ProgramRun run = run_podrate(season_call(days, folder / "out"));
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    CHECK(run.out.find("3 of 3 days, 0 of them taken over") != std::string::npos);
    const json season = season_of(folder / "out");
    double sum_t = 0.0;
    double fields_t = 0.0;
    REQUIRE(season["days"].size() == 3);
    for (int i = 0; i < 3; ++i) {
        const std::string name = "day" + std::to_string(i + 1);
        const fs::path alone = folder / ("alone" + std::to_string(i));
        REQUIRE(run_podrate({"replay", days[i].string(), "--out", alone.string(), "--quiet"}).exit_code == 0);
        CHECK(text_of(kept(folder / "out", name) / "summary.json") == text_of(alone / "summary.json"));
        const json summary = json::parse(text_of(alone / "summary.json"));
        for (const char* key : {"harvested_t", "harvested_sd_t", "yield_tpha"})
            CHECK(season["days"][i][key] == summary["total"][key]);
        CHECK(season["days"][i]["swept_ha"] == summary["total"]["area_ha"]);
        sum_t += summary["total"]["harvested_t"].get<double>();
    }
    CHECK(sum_t > 1.0);
    CHECK(season["total"]["harvested_t"].get<double>() == Approx(sum_t).margin(0.0005));
    REQUIRE(season["fields"].size() == 1);  // the same field on all days
    CHECK(season["fields"][0]["name"] == "Home, by the \"mill\"");
    CHECK(season["fields"][0]["days"] == 3);
    for (const json& field : season["fields"]) fields_t += field["harvested_t"].get<double>();
    CHECK(fields_t == Approx(sum_t).margin(0.0005));
    CHECK(season["machines"].size() == 2);
    CHECK(text_of(folder / "out" / "season.html").find("3 days") != std::string::npos);
}

TEST_CASE("A season is the same bytes however many days run at once and in whatever order they are named") {
    const TempFolder folder;
    std::vector<fs::path> days = make_days(folder, 4);
    REQUIRE(run_podrate(season_call(days, folder / "one", {"--at-once", "1"})).exit_code == 0);
    std::reverse(days.begin(), days.end());
    REQUIRE(run_podrate(season_call(days, folder / "two", {"--at-once", "2"})).exit_code == 0);
    CHECK(written(folder / "one") == written(folder / "two"));
}

TEST_CASE("A season that is run again takes over what is done and works what has changed") {
    const TempFolder folder;
    const std::vector<fs::path> days = make_days(folder, 3);
    REQUIRE(run_podrate(season_call(days, folder / "out")).exit_code == 0);
    const auto before = written(folder / "out");
    const ProgramRun again = run_podrate(season_call(days, folder / "out"));
    CHECK(again.out.find("3 of 3 days, 3 of them taken over") != std::string::npos);
    CHECK(written(folder / "out") == before);
    CHECK(run_podrate(season_call(days, folder / "out", {"--anew"})).out.find("0 of them taken over") !=
          std::string::npos);
    CHECK(written(folder / "out") == before);

    // Any file beside the logs may matter.
    write_text(days[0] / "weather.csv", "unix_s,air_degc\n");
    CHECK(run_podrate(season_call(days, folder / "out")).out.find("2 of them taken over") !=
          std::string::npos);
    fs::remove(days[0] / "weather.csv");
    REQUIRE(run_podrate(season_call(days, folder / "out")).exit_code == 0);

    // Another width, another area; and figures that were cut short are made anew.
    write_season_day(days[1], 1, 2.5);
    write_text(kept(folder / "out", "day3") / "figures.json", "{\"stamp\": \"podr");
    const ProgramRun changed = run_podrate(season_call(days, folder / "out"));
    CHECK(changed.exit_code == 0);
    CHECK(changed.out.find("1 of them taken over") != std::string::npos);
    const json was = json::parse(before.at("season.json"));
    const json is = season_of(folder / "out");
    CHECK(is["days"][0] == was["days"][0]);
    CHECK(is["days"][1]["swept_ha"].get<double>() < was["days"][1]["swept_ha"].get<double>());
    CHECK(is["days"][2] == was["days"][2]);
}

TEST_CASE("A season killed at any moment goes on to the same end") {
    const TempFolder folder;
    const std::vector<fs::path> days = make_days(folder, 6);
    REQUIRE(run_podrate(season_call(days, folder / "whole")).exit_code == 0);
    int stopped = 0;
    for (int trial = 0; trial < 12; ++trial) {
        LiveProgram program(season_call(days, folder / "killed", {"--quiet"}));
        std::this_thread::sleep_for(std::chrono::milliseconds(2 + 13 * trial));
        program.signal(SIGKILL);
        if (program.wait(std::chrono::seconds(20)) == -1) ++stopped;
        // Whatever is there by its name is whole.
        if (!fs::exists(folder / "killed" / "days")) continue;
        for (const auto& [name, text] : written(folder / "killed")) {
            INFO(name);
            if (name.size() > 5 && name.substr(name.size() - 5) == ".json") CHECK_NOTHROW(json::parse(text));
        }
    }
    CHECK(stopped > 0);
    const ProgramRun run = run_podrate(season_call(days, folder / "killed"));
    INFO(run.err);
    CHECK(run.exit_code == 0);
    // Drafts of what was under way are gone too.
    CHECK(written(folder / "killed") == written(folder / "whole"));
}

TEST_CASE("Broken days are named with their reason and the others go on") {
    const TempFolder folder;
    std::vector<fs::path> days = make_days(folder, 5);
    fs::remove(days[0] / "day.toml");
    for (const char* log : {"alder.csv", "birch.csv"}) write_text(days[1] / log, "unix_s,hopper_kg\n");
    write_text(days[2] / "alder.csv", "\x28\xB5\x2F\xFD no frame");
    const std::string toml = text_of(days[3] / "day.toml");
    write_text(days[3] / "day.toml", std::string(toml).replace(toml.find("birch.csv"), 9, "birch.csv.zst"));
    write_text(days[3] / "birch.csv.zst", "\x28\xB5\x2F\xFD no frame");
    days.push_back(folder / "nowhere");
    const ProgramRun run = run_podrate(season_call(days, folder / "out"));
    CHECK(run.exit_code == 1);
    CHECK(run.err.find("day1") != std::string::npos);
    CHECK(run.err.find("holds no day.toml") != std::string::npos);
    CHECK(run.err.find("nowhere") != std::string::npos);
    std::map<std::string, json> by_folder;
    const json season = season_of(folder / "out");
    for (const json& day : season["days"])
        by_folder[fs::path(day["folder"].get<std::string>()).filename().string()] = day;
    REQUIRE(by_folder.size() == 6);
    for (const char* name : {"day1", "day2", "nowhere"}) {
        CHECK(by_folder[name]["use"] == "broken");
        CHECK_FALSE(by_folder[name].contains("harvested_t"));
    }
    CHECK(by_folder["day2"]["reason"].get<std::string>().find("alder.csv") != std::string::npos);
    for (const char* name : {"day3", "day4"}) {
        CHECK(by_folder[name]["use"] == "in part");
        CHECK(by_folder[name]["machines"] == 1);
    }
    CHECK(by_folder["day4"]["reason"].get<std::string>().find("birch.csv.zst") != std::string::npos);
    CHECK(by_folder["day5"]["use"] == "whole");
    CHECK(season_of(folder / "out")["total"]["days"] == 3);
    const std::string html = text_of(folder / "out" / "season.html");
    CHECK(html.find("Without 3 days") != std::string::npos);
    CHECK(html.find("holds no day.toml") != std::string::npos);
    // Mended, it counts.
    write_season_day(days[0], 0);
    CHECK(run_podrate(season_call({days[0], days[4]}, folder / "out")).exit_code == 0);
    CHECK(run_podrate(season_call({days[1]}, folder / "none")).exit_code == 2);
}

TEST_CASE("A day given twice, copied, or overlapping another is named") {
    const TempFolder folder;
    const std::vector<fs::path> days = make_days(folder, 2);
    const fs::path copy = folder / "day1 again";
    fs::copy(days[0], copy, fs::copy_options::recursive);
    const ProgramRun run = run_podrate(season_call({days[0], days[1], days[0], copy}, folder / "out"));
    CHECK(run.exit_code == 1);
    CHECK(run.err.find("given twice; counted once") != std::string::npos);
    CHECK(run.err.find("repeated: the same logs as in " + days[0].string()) != std::string::npos);
    const json season = season_of(folder / "out");
    CHECK(season["days"].size() == 3);
    CHECK(season["total"]["days"] == 2);
    // With the last rows cut off it is no copy; both count, and a note says so.
    for (const char* log : {"alder.csv", "birch.csv"}) {
        const std::string text = text_of(copy / log);
        write_text(copy / log, text.substr(0, text.rfind('\n', text.size() * 9 / 10) + 1));
    }
    const ProgramRun overlap = run_podrate(season_call({days[0], copy}, folder / "out"));
    CHECK(overlap.exit_code == 1);
    CHECK(overlap.err.find("peas may be counted twice") != std::string::npos);
    CHECK(season_of(folder / "out")["total"]["days"] == 2);
}

TEST_CASE("With --carry a season's days learn from one another as replay --after does") {
    const TempFolder folder;
    const std::vector<fs::path> days = make_days(folder, 3);
    for (int i = 0; i < 3; ++i) {
        std::vector<std::string> call = {"replay", days[i].string(), "--out",
                                         (folder / ("r" + std::to_string(i))).string(), "--quiet"};
        if (i > 0) call.insert(call.end(), {"--after", (folder / ("r" + std::to_string(i - 1))).string()});
        REQUIRE(run_podrate(call).exit_code == 0);
    }
    // Named in another order, and with a broken day among them.
    write_text(folder / "broken" / "day.toml", "date = 2025-06-28\n");
    const auto call =
        season_call({days[2], folder / "broken", days[0], days[1]}, folder / "out", {"--carry"});
    CHECK(run_podrate(call).exit_code == 1);
    for (int i = 0; i < 3; ++i) {
        CHECK(text_of(kept(folder / "out", "day" + std::to_string(i + 1)) / "summary.json") ==
              text_of(folder / ("r" + std::to_string(i)) / "summary.json"));
    }
    CHECK(run_podrate(call).out.find("3 of them taken over") != std::string::npos);
    // A day without a date has no place in that order.
    const std::string toml = text_of(days[1] / "day.toml");
    write_text(folder / "undated" / "day.toml", std::string(toml).replace(toml.find("date = "), 17, ""));
    for (const char* log : {"alder.csv", "birch.csv"})
        write_text(folder / "undated" / log, podrate::test::season_log(1761032800.0, 0.001, 0.4));
    const ProgramRun undated = run_podrate(season_call({folder / "undated"}, folder / "dates", {"--carry"}));
    CHECK(undated.exit_code == 1);
    CHECK(undated.err.find("has no date, which --carry goes by") != std::string::npos);
    // A change of the first day changes what the others are given.
    write_season_day(days[0], 0, 2.5);
    CHECK(run_podrate(call).out.find("0 of them taken over") != std::string::npos);
}
