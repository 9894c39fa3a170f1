#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>
#include <set>

#include "tidy/source_tree.hpp"

using namespace podrate::test;

namespace fs = std::filesystem;

namespace {

const std::vector<std::string> kFolders = {"firmware_core", "sim", "ui", "tests"};
constexpr long kMostLines = 400;

std::vector<SourceFile> all_files() {
    std::vector<SourceFile> all;
    for (const std::string& folder : kFolders) {
        const std::vector<SourceFile> files = files_below(folder);
        all.insert(all.end(), files.begin(), files.end());
    }
    return all;
}

// .cpp files that the CMakeLists.txt of `folder` and below name, as paths from the top. Words of CMake
// between braces are left to CMake.
std::set<std::string> built_files(const std::string& folder) {
    static const std::regex source(R"([\w/.-]+\.cpp)");
    std::set<std::string> built;
    for (const auto& entry : fs::recursive_directory_iterator(top_of_tree() / folder)) {
        if (entry.path().filename() != "CMakeLists.txt") continue;
        std::ifstream stream(entry.path(), std::ios::binary);
        std::string text{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
        text = std::regex_replace(text, std::regex(R"(\$\{PROJECT_SOURCE_DIR\}/)"), "/");
        text = std::regex_replace(text, std::regex(R"(\$\{CMAKE_CURRENT_SOURCE_DIR\}/)"), "");
        for (std::sregex_iterator it(text.begin(), text.end(), source), end; it != end; ++it) {
            const std::string name = it->str();
            const fs::path path = name.front() == '/'
                                      ? fs::path(name.substr(1))
                                      : fs::relative(entry.path().parent_path(), top_of_tree()) / name;
            built.insert(path.lexically_normal().generic_string());
        }
    }
    return built;
}

}  // namespace

TEST_CASE("No file is longer than 400 lines") {
    for (const SourceFile& file : all_files()) {
        INFO(file.path);
        CHECK(std::count(file.text.begin(), file.text.end(), '\n') <= kMostLines);
    }
}

TEST_CASE("Each header is guarded by pragma once") {
    for (const SourceFile& file : all_files()) {
        if (!file.is_header()) continue;
        INFO(file.path);
        CHECK(file.text.find("#pragma once\n") != std::string::npos);
    }
}

TEST_CASE("Each source file is built and each built file exists") {
    for (const std::string& folder : kFolders) {
        if (!fs::is_directory(top_of_tree() / folder)) continue;
        const std::set<std::string> built = built_files(folder);
        for (const SourceFile& file : files_below(folder)) {
            if (!file.path.ends_with(".cpp")) continue;
            INFO(file.path);
            CHECK(built.count(file.path) == 1);
        }
        for (const std::string& path : built) {
            INFO(path << " is named by a CMakeLists.txt");
            CHECK(fs::exists(top_of_tree() / path));
        }
    }
}

TEST_CASE("Each header is included by somebody") {
    const std::vector<SourceFile> files = all_files();
    for (const SourceFile& header : files) {
        if (!header.is_header()) continue;
        // By the end of its path: folder and name, as includes spell it.
        const fs::path path(header.path);
        const std::string name = path.parent_path().filename().string() + "/" + path.filename().string();
        const bool used = std::any_of(files.begin(), files.end(), [&](const SourceFile& file) {
            return file.path != header.path && file.text.find(name + "\"") != std::string::npos;
        });
        INFO(header.path);
        CHECK(used);
    }
}

TEST_CASE("Files end with a line end and hold no tabs or carriage returns") {
    for (const SourceFile& file : all_files()) {
        INFO(file.path);
        REQUIRE_FALSE(file.text.empty());
        CHECK(file.text.back() == '\n');
        CHECK(file.text.find('\t') == std::string::npos);
        CHECK(file.text.find('\r') == std::string::npos);
    }
}
