#include <catch2/catch.hpp>
#include <map>
#include <regex>
#include <string>
#include <vector>

#include "support/program.hpp"
#include "support/temp_folder.hpp"

using namespace podrate::test;

namespace {

std::string shipped_report() {
    const TempFolder folder;
    const std::string out = (folder / "out").string();
    REQUIRE(run_podrate({"replay", PODRATE_SOURCE_DIR "/demo_logs/harrowmere", "--out", out, "--quiet"})
                .exit_code == 0);
    return text_of(folder / "out" / "report.html");
}

}  // namespace

TEST_CASE("Each element of the report is closed where it should be") {
    const std::string html = shipped_report();
    static const std::regex tag(R"(<(/?)([a-zA-Z0-9]+)[^>]*?(/?)>)");
    std::vector<std::string> open;
    for (auto it = std::sregex_iterator(html.begin(), html.end(), tag); it != std::sregex_iterator(); ++it) {
        const std::string name = (*it)[2];
        if (name == "meta" || name == "br" || (*it)[3] == "/") continue;
        if ((*it)[1] != "/") {
            open.push_back(name);
            continue;
        }
        REQUIRE_FALSE(open.empty());
        INFO("at byte " << it->position());
        REQUIRE(open.back() == name);
        open.pop_back();
    }
    CHECK(open.empty());
}

TEST_CASE("The report needs no network and runs no script") {
    const std::string html = shipped_report();
    for (const char* word : {"<script", "http://", "https://", "<link", "<img", "@import", "url(http"}) {
        INFO(word);
        CHECK(html.find(word) == std::string::npos);
    }
}
