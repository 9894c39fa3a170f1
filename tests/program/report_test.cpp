#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "support/program.hpp"
#include "support/temp_folder.hpp"

using namespace podrate::test;

namespace {

// Replayed once for all tests of this file.
const std::string& shipped_report() {
    static const std::string kReport = [] {
        const TempFolder folder;
        const std::string out = (folder / "out").string();
        REQUIRE(run_podrate({"replay", PODRATE_SOURCE_DIR "/demo_logs/harrowmere", "--out", out, "--quiet"})
                    .exit_code == 0);
        return text_of(folder / "out" / "report.html");
    }();
    return kReport;
}

}  // namespace

TEST_CASE("Each element of the report is closed where it should be") {
    const std::string& html = shipped_report();
    std::vector<std::string> open;
    for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1)) {
        const std::size_t end = html.find('>', at);
        REQUIRE(end != std::string::npos);
        const bool closes = html[at + 1] == '/';
        const std::size_t from = at + (closes ? 2 : 1);
        const std::string name = html.substr(from, html.find_first_of(" >/", from) - from);
        if (name == "!doctype" || name == "meta" || html[end - 1] == '/') continue;
        INFO(name << " at byte " << at);
        if (!closes) {
            open.push_back(name);
            continue;
        }
        REQUIRE_FALSE(open.empty());
        REQUIRE(open.back() == name);
        open.pop_back();
    }
    CHECK(open.empty());
}

TEST_CASE("The report tells loss and alarms and pauses of the shipped day") {
    const std::string& html = shipped_report();
    for (const char* words :
         {"<h2>Loss</h2>", "in the drum, %", "by the reel, %", "left on the ground, kg/ha",
          "<b>viner_1</b>: Three tray checks: ", "<h2>Pauses in standing crop</h2>",
          "heap of haulm, about kg", "<h2>Alarms</h2>", "hopper nearly full", " more</summary>"}) {
        INFO(words);
        CHECK(html.find(words) != std::string::npos);
    }
}

TEST_CASE("The report needs no network and runs no script") {
    const std::string& html = shipped_report();
    for (const char* word : {"<script", "http://", "https://", "<link", "<img", "@import", "url(http"}) {
        INFO(word);
        CHECK(html.find(word) == std::string::npos);
    }
}
