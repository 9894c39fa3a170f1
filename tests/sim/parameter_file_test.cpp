// Parameter sets on the disk: what was good is never lost.
#include "parameters/parameter_file.hpp"

#include <catch2/catch.hpp>

#include "log/problem.hpp"
#include "parameters/parameter_text.hpp"
#include "support/temp_folder.hpp"

using namespace podrate;
using namespace podrate::sim;
using podrate::test::TempFolder;
using podrate::test::text_of;

namespace {

ParameterSet noted(const std::string& note) {
    ParameterSet set;
    set.made.note = note;
    set.values[3] = Real(7.5);
    return set;
}

}  // namespace

TEST_CASE("A kept set is read back, and the one before it stands beside it") {
    const TempFolder folder;
    const auto file = folder / "wet.toml";
    keep_parameter_set(file, noted("first"));
    CHECK_FALSE(std::filesystem::exists(folder / "wet.toml.bak"));
    keep_parameter_set(file, noted("second"));
    keep_parameter_set(file, noted("third"));
    CHECK(read_parameter_set(file).set.made.note == "third");
    CHECK(read_parameter_set(folder / "wet.toml.bak").set.made.note == "second");
    CHECK(read_parameter_set(file).mark == mark_of_text(text_of(file)));
    CHECK_FALSE(std::filesystem::exists(folder / "wet.toml.part"));
    CHECK(parameter_files(folder.path()) == std::vector<std::filesystem::path>{file});
}

TEST_CASE("A damaged set is refused and moved aside, and the last good one stays") {
    const TempFolder folder;
    const auto file = folder / "wet.toml";
    keep_parameter_set(file, noted("first"));
    keep_parameter_set(file, noted("second"));
    std::string text = text_of(file);
    text[text.size() / 2] ^= 4;
    test::write_text(file, text);
    CHECK_THROWS_AS(read_parameter_set(file), RefusedInput);
    keep_parameter_set(file, noted("third"));
    CHECK(read_parameter_set(file).set.made.note == "third");
    CHECK(read_parameter_set(folder / "wet.toml.bak").set.made.note == "first");
    CHECK(text_of(folder / "wet.toml.refused") == text);
}

TEST_CASE("A set that could not be read again is not written over a good one") {
    const TempFolder folder;
    const auto file = folder / "wet.toml";
    keep_parameter_set(file, noted("first"));
    CHECK_THROWS_AS(keep_parameter_set(file, noted("no UTF-8: \xFF")), RefusedInput);
    ParameterSet wild = noted("wild");
    wild.values[3] = Real(1e9);
    CHECK_THROWS_AS(keep_parameter_set(file, wild), RefusedInput);
    CHECK(read_parameter_set(file).set.made.note == "first");
}

TEST_CASE("A folder that can't be written is told and nothing changes") {
    const TempFolder folder;
    const auto file = folder / "wet.toml";
    keep_parameter_set(file, noted("first"));
    std::filesystem::create_directories(folder / "wet.toml.bak");  // the copy can't take its place
    CHECK_THROWS_AS(keep_parameter_set(file, noted("second")), RefusedInput);
    CHECK(read_parameter_set(file).set.made.note == "first");
    CHECK_THROWS_AS(keep_parameter_set(folder / "no" / "wet.toml", noted("a")), RefusedInput);
    CHECK_THROWS_AS(read_parameter_set(folder.path()), RefusedInput);
    CHECK(parameter_files(folder / "no").empty());
}

TEST_CASE("What was changed by hand is sealed once it is good") {
    const TempFolder folder;
    const auto file = folder / "wet.toml";
    keep_parameter_set(file, noted("first"));
    std::string text = text_of(file);
    text.replace(text.find("7.5"), 3, "8.5");
    test::write_text(file, text);
    seal_parameter_file(file);
    CHECK(read_parameter_set(file).set.values[3] == Real(8.5));
    text.replace(text.find("8.5"), 3, "-85");
    test::write_text(file, text);
    CHECK_THROWS_AS(seal_parameter_file(file), RefusedInput);
    CHECK(text_of(file) == text);
}
