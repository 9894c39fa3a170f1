#include <catch2/catch.hpp>

#include "podrate/version.hpp"
#include "support/program.hpp"
#include "support/temp_folder.hpp"

using podrate::test::ProgramRun;
using podrate::test::run_podrate;

TEST_CASE("Help and version exit with 0") {
    const ProgramRun help = run_podrate({"--help"});
    CHECK(help.exit_code == 0);
    for (const char* command : {"replay", "synth", "score", "parameters", "convert", "listen", "season"}) {
        INFO(command);
        CHECK(help.out.find(command) != std::string::npos);
        CHECK(run_podrate({command, "--help"}).exit_code == 0);
    }
    const ProgramRun version = run_podrate({"--version"});
    CHECK(version.exit_code == 0);
    CHECK(version.out == std::string("podrate ") + podrate::kVersion + "\n");
}

TEST_CASE("Wrong usage exits with 2 and says what is wrong on standard error") {
    const std::vector<std::vector<std::string>> wrong = {
        {},
        {"harvest"},
        {"replay"},
        {"replay", "."},
        {"replay", ".", "--out"},
        {"replay", ".", "--out", "x", "--sideways"},
        {"replay", ".", "--out", "x", "--width", "wide"},
        {"synth"},
        {"score", "x"},
        {"season", "--out", "x"},
        {"season", ".", "--out", "x", "--at-once", "0"},
        {"convert", "x.csv"},
        {"listen", "--can"},
    };
    for (const auto& arguments : wrong) {
        const ProgramRun run = run_podrate(arguments);
        INFO((arguments.empty() ? "no arguments" : arguments.front()) << ": " << run.err);
        CHECK(run.exit_code == 2);
        CHECK_FALSE(run.err.empty());
        CHECK(run.out.empty());
    }
}

TEST_CASE("An input that does not exist exits with 2 and is named") {
    const podrate::test::TempFolder folder;
    const std::string out = (folder / "out").string();
    for (const std::string command : {"replay", "synth"}) {
        const ProgramRun run = run_podrate({command, (folder / "nowhere").string(), "--out", out});
        CHECK(run.exit_code == 2);
        CHECK(run.err.find("nowhere") != std::string::npos);
        CHECK_FALSE(std::filesystem::exists(out));
    }
    CHECK(run_podrate({"score", out, (folder / "nowhere").string()}).exit_code == 2);
}

TEST_CASE("A width out of range exits with 2 and gives the range") {
    const podrate::test::TempFolder folder;
    const std::string log = folder.file("a.csv", "unix_s,hopper_kg\n1,2\n").string();
    for (const std::string width : {"0.4", "12.1", "-3", "nan"}) {
        const ProgramRun run =
            run_podrate({"replay", log, "--width", width, "--out", (folder / "out").string()});
        INFO(width << ": " << run.err);
        CHECK(run.exit_code == 2);
        CHECK(run.err.find("0.5 to 12") != std::string::npos);
    }
}

TEST_CASE("An output folder that can't be made exits with 2 and is named") {
    const podrate::test::TempFolder folder;
    const std::string log = folder.file("a.csv", "unix_s,hopper_kg\n1,2\n").string();
    const ProgramRun run = run_podrate({"replay", log, "--width", "3.3", "--out", log + "/out"});
    CHECK(run.exit_code == 2);
    CHECK(run.err.find("a.csv/out") != std::string::npos);
}

TEST_CASE("The parameters are listed with unit and range and source") {
    const ProgramRun run = run_podrate({"parameters"});
    CHECK(run.exit_code == 0);
    CHECK(run.out.find("width_m") != std::string::npos);
    CHECK(run.out.find("picking_loss_share") != std::string::npos);
    const ProgramRun table = run_podrate({"parameters", "--markdown"});
    CHECK(table.exit_code == 0);
    CHECK(table.out.find("| `width_m` | m | 0.50 | 12.00 | 3.30 |") != std::string::npos);
}
