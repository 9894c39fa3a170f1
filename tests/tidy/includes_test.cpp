// The layers by their includes: ui -> sim -> firmware_core, never back.
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>
#include <sstream>

#include "tidy/source_tree.hpp"

using namespace podrate::test;

namespace {

struct Include {
    std::string name;
    bool quoted;
};

std::vector<Include> includes_of(const std::string& text) {
    static const std::regex pattern("^\\s*#\\s*include\\s*([<\"])([^>\"]+)[>\"]");
    std::vector<Include> found;
    std::istringstream lines(text);
    std::string line;
    std::smatch match;
    while (std::getline(lines, line)) {
        if (std::regex_search(line, match, pattern)) found.push_back({match[2], match[1] == "\""});
    }
    return found;
}

// Includes of `folder` that are not found in one of the folders it may see.
std::string strangers(const std::string& folder, const std::vector<std::string>& may_see) {
    std::string text;
    for (const SourceFile& file : files_below(folder)) {
        for (const Include& include : includes_of(file.text)) {
            if (!include.quoted) continue;
            const bool known = std::any_of(may_see.begin(), may_see.end(), [&](const std::string& root) {
                return std::filesystem::exists(top_of_tree() / root / include.name);
            });
            if (!known) text += file.path + " includes " + include.name + "\n";
        }
    }
    return text;
}

std::string with_library(const std::string& folder, const std::regex& library) {
    std::string text;
    for (const SourceFile& file : files_below(folder)) {
        for (const Include& include : includes_of(file.text)) {
            if (std::regex_search(include.name, library))
                text += file.path + " includes " + include.name + "\n";
        }
    }
    return text;
}

}  // namespace

TEST_CASE("The core includes itself and nothing else of this project") {
    CHECK(strangers("firmware_core", {"firmware_core"}).empty());
}

TEST_CASE("The simulator includes itself and the core and nothing of the cab") {
    CHECK(strangers("sim", {"sim", "firmware_core"}).empty());
    CHECK(with_library("sim", std::regex("imgui|GLFW|implot")).empty());
}

TEST_CASE("What charts show is made without a drawing library or any other room of the cab") {
    CHECK(with_library("ui/series", std::regex("imgui|GLFW|implot|^(kit|theme|driver|player|app|raster)/"))
              .empty());
}

TEST_CASE("The core includes of libraries only Eigen and the plain headers of C++") {
    const std::set<std::string> allowed = {"Eigen/Core", "cmath",  "cstddef", "cstdint",
                                           "cstring",    "limits", "new",     "type_traits"};
    std::string text;
    for (const SourceFile& file : files_below("firmware_core")) {
        for (const Include& include : includes_of(file.text)) {
            if (!include.quoted && allowed.count(include.name) == 0) {
                text += file.path + " includes " + include.name + "\n";
            }
        }
    }
    CHECK(text.empty());
}

TEST_CASE("The check of includes reads them") {
    const std::vector<Include> found =
        includes_of("#include <cmath>\n  # include \"log/x.hpp\"\n// #include <no>\n");
    REQUIRE(found.size() == 2);
    CHECK(found[0].name == "cmath");
    CHECK_FALSE(found[0].quoted);
    CHECK(found[1].name == "log/x.hpp");
    CHECK(found[1].quoted);
}
