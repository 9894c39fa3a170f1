// Colours stand in the theme and nowhere else, so that a palette can be swapped.
#include <catch2/catch.hpp>

#include "tidy/source_tree.hpp"

using namespace podrate::test;

namespace {

const std::regex kLiteralColour(R"(\bIM_COL32\s*\(|\bImColor\s*\(|#[0-9A-Fa-f]{6}\b|\b0x[0-9A-Fa-f]{8}U?\b)");
const std::string kPalette = "ui/theme/palette.hpp";

}  // namespace

TEST_CASE("The cab has no literal colour outside its palette") {
    std::string found;
    for (const SourceFile& file : files_below("ui")) {
        if (file.path == kPalette) continue;
        found += joined(lines_with(file.path, file.text, kLiteralColour));
    }
    CHECK(found.empty());
}

TEST_CASE("The check of colours sees each way to write one") {
    for (const char* code :
         {"IM_COL32(255, 0, 0, 255)", "IM_COL32 (r, g, b, a)", "\"#1A2b3C\"", "= 0xFF00FF00;"}) {
        INFO(code);
        CHECK_FALSE(lines_with("x.cpp", code, kLiteralColour).empty());
    }
    for (const char* code : {"#include <x>", "#define X", "0x1F", "color(Role::ink)"}) {
        INFO(code);
        CHECK(lines_with("x.cpp", code, kLiteralColour).empty());
    }
}
