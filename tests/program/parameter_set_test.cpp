// Parameter sets by the command line.
#include <catch2/catch.hpp>

#include "podrate/parameter_bytes.hpp"
#include "support/program.hpp"
#include "support/small_day.hpp"

using namespace podrate;
using namespace podrate::test;

namespace {

// Written by hand, as a person would, and sealed.
std::string sealed_set(const TempFolder& folder, const std::string& values) {
    const std::string file =
        folder
            .file("set.toml", "parameter_version = " + std::to_string(kParameterVersion) +
                                  "\nnote = \"narrow\"\nwho = \"A\"\nwhen = 2026-06-27T05:40:00Z\n"
                                  "made_from = \"alder\"\nmade_from_mark = \"00\"\n[parameters]\n" +
                                  values + '\n')
            .string();
    CHECK(run_podrate({"parameters", "--check", file}).exit_code == 2);
    CHECK(run_podrate({"parameters", "--seal", file}).exit_code == 0);
    return file;
}

// Without what the summary says of the day's files.
std::string machines_of(const std::string& summary) {
    const std::size_t from = summary.find("\"machines\"");
    return summary.substr(from, summary.find("\"fields\"") - from);
}

}  // namespace

TEST_CASE("A replay with a parameter set is one of machines that have its values") {
    const TempFolder folder;
    write_small_day(folder);
    const std::string set = sealed_set(folder, "width_m = 1.65");
    const ProgramRun with = run_podrate(
        {"replay", folder.path().string(), "--out", (folder / "a").string(), "--parameters", set, "--quiet"});
    CHECK(with.exit_code == 0);
    CHECK(with.err.find("replaces 1 parameters of each machine") != std::string::npos);
    std::string day = text_of(folder / "day.toml");
    for (std::size_t at = 0; (at = day.find("3.3", at)) != std::string::npos;) day.replace(at, 3, "1.65");
    write_text(folder / "day.toml", day);
    CHECK(run_podrate({"replay", folder.path().string(), "--out", (folder / "b").string(), "--quiet"})
              .exit_code == 0);
    CHECK(text_of(folder / "a" / "loads.csv") == text_of(folder / "b" / "loads.csv"));
    const std::string summary = text_of(folder / "a" / "summary.json");
    CHECK(machines_of(summary) == machines_of(text_of(folder / "b" / "summary.json")));
    CHECK(machines_of(summary).size() > 1000);
    CHECK(summary.find("replaces 1 parameters") != std::string::npos);
}

TEST_CASE("A parameter set is checked and sealed and packed from the command line") {
    const TempFolder folder;
    const std::string file = sealed_set(folder, "width_m = 1.65");
    const std::string block = (folder / "set.bin").string();
    const ProgramRun good = run_podrate({"parameters", "--check", file});
    CHECK(good.exit_code == 0);
    CHECK(good.out.find("good, ") != std::string::npos);
    CHECK(good.out.find("2026-06-27T05:40:00Z  A: narrow (from alder, 00)") != std::string::npos);
    CHECK(run_podrate({"parameters", "--pack", file, block}).exit_code == 0);
    const std::string bytes = text_of(block);
    Parameters packed;
    REQUIRE(unpack_parameters(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size(), packed) ==
            ParameterRead::good);
    CHECK(packed.width_m == Real(1.65));
    CHECK(packed.outage_s == Parameters{}.outage_s);

    std::string text = text_of(file);
    text.replace(text.find("1.65"), 4, "1.75");
    write_text(file, text);
    for (const std::vector<std::string>& arguments :
         {std::vector<std::string>{"parameters", "--check", file},
          {"parameters", "--pack", file, block},
          {"replay", folder.path().string(), "--out", (folder / "a").string(), "--parameters", file}}) {
        const ProgramRun refused = run_podrate(arguments);
        CHECK(refused.exit_code == 2);
    }
    CHECK(text_of(block) == bytes);
    CHECK(run_podrate({"parameters", "--seal", file}).exit_code == 0);
    CHECK(run_podrate({"parameters", "--check", file}).exit_code == 0);
}

TEST_CASE("A set that does not say how wide the machine is makes no block") {
    const TempFolder folder;
    const std::string file = sealed_set(folder, "outage_s = 45");
    const ProgramRun run = run_podrate({"parameters", "--pack", file, (folder / "a.bin").string()});
    CHECK(run.exit_code == 2);
    CHECK(run.err.find("width_m") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(folder / "a.bin"));
}
