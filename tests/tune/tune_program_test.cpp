// podrate tune, as a user runs it.
#include <catch2/catch.hpp>
#include <csignal>
#include <map>
#include <thread>

#include "support/live_program.hpp"
#include "support/program.hpp"
#include "tune/tune_days.hpp"

using podrate::test::LiveProgram;
using podrate::test::ProgramRun;
using podrate::test::run_podrate;
using podrate::test::TempFolder;
using podrate::test::text_of;

namespace fs = std::filesystem;

namespace {

std::vector<std::string> tune_call(const TempFolder& folder, const std::string& out,
                                   const std::vector<std::string>& more = {}) {
    std::vector<std::string> call = {"tune",
                                     (folder / "one").string(),
                                     (folder / "two").string(),
                                     "--out",
                                     (folder / out).string(),
                                     "--sweep",
                                     "loss_high_share=0.06:0.2:50",
                                     "--sweep",
                                     "drum_blocking_sd=4,6,9"};
    call.insert(call.end(), more.begin(), more.end());
    return call;
}

// But for the set recommended and the one before it, which say when they were made.
std::map<std::string, std::string> files_of(const fs::path& out) {
    std::map<std::string, std::string> files;
    for (const auto& entry : fs::recursive_directory_iterator(out)) {
        if (entry.path().filename().string().rfind("recommended.toml", 0) == 0) continue;
        if (entry.is_regular_file()) files[fs::relative(entry.path(), out).string()] = text_of(entry.path());
    }
    return files;
}

}  // namespace

TEST_CASE("A sweep killed at any moment goes on to the same end, with one thread or two") {
    const TempFolder folder;
    podrate::test::write_tune_day(folder, "one", 1, 0.4);
    podrate::test::write_tune_day(folder, "two", 2, 0.4);
    const ProgramRun whole = run_podrate(tune_call(folder, "whole", {"--jobs", "1"}));
    INFO(whole.err);
    REQUIRE(whole.exit_code == 0);
    CHECK(whole.out.find("151 settings on 2 machine days, 0 pieces") != std::string::npos);
    CHECK(whole.err.empty());
    int stopped = 0;
    for (int trial = 0; trial < 8; ++trial) {
        LiveProgram program(tune_call(folder, "killed", {"--quiet", "--jobs", "2"}));
        std::this_thread::sleep_for(std::chrono::milliseconds(10 + 60 * trial));
        program.signal(SIGKILL);
        if (program.wait(std::chrono::seconds(20)) == -1) ++stopped;
    }
    CHECK(stopped > 0);
    const ProgramRun run = run_podrate(tune_call(folder, "killed", {"--jobs", "2"}));
    CHECK(run.exit_code == 0);
    CHECK(files_of(folder / "killed") == files_of(folder / "whole"));
    CHECK(files_of(folder / "whole").count("tuning.csv") == 1);
    CHECK(files_of(folder / "whole").count("tuning_by_day.csv") == 1);
    CHECK(files_of(folder / "whole").count("tuning.html") == 1);
    CHECK(
        run_podrate({"parameters", "--check", (folder / "killed" / "recommended.toml").string()}).exit_code ==
        0);
}

TEST_CASE("The setting that is kept is a parameter set that the cab loads") {
    const TempFolder folder;
    podrate::test::write_tune_day(folder, "one", 1, 0.2);
    podrate::test::write_tune_day(folder, "two", 2, 0.2);
    const std::string set = (folder / "quieter.toml").string();
    CHECK(run_podrate(tune_call(folder, "out", {"--keep", set})).exit_code == 2);  // and why?
    REQUIRE(
        run_podrate(tune_call(folder, "out", {"--keep", set, "--note", "fewer at night", "--setting", "8"}))
            .exit_code == 0);
    const ProgramRun check = run_podrate({"parameters", "--check", set});
    CHECK(check.exit_code == 0);
    CHECK(check.out.find("fewer at night") != std::string::npos);
    CHECK(check.out.find("1 of ") != std::string::npos);  // the other one is as it was
    CHECK(text_of(set).find("drum_blocking_sd = ") == std::string::npos);
    CHECK(run_podrate({"replay", (folder / "one").string(), "--parameters", set, "--out",
                       (folder / "replayed").string(), "--quiet"})
              .exit_code == 0);
    // From there on, with its history.
    const std::string next = (folder / "next.toml").string();
    REQUIRE(run_podrate(tune_call(folder, "out2", {"--parameters", set, "--keep", next, "--note", "later"}))
                .exit_code == 0);
    const std::string history = run_podrate({"parameters", "--check", next}).out;
    CHECK(history.find("fewer at night") < history.find("later (from quieter"));
    CHECK(
        run_podrate(tune_call(folder, "out", {"--keep", set, "--note", "x", "--setting", "151"})).exit_code ==
        2);
}

TEST_CASE("What cannot be swept is refused, and bad episodes end with exit code 1") {
    const TempFolder folder;
    podrate::test::write_tune_day(folder, "one", 1, 0.1);
    podrate::test::write_tune_day(folder, "two", 2, 0.1);
    const std::string one = (folder / "one").string();
    const std::string out = (folder / "out").string();
    const auto run = [&](const std::string& sweep) {
        return run_podrate({"tune", one, "--out", out, "--quiet", "--sweep", sweep});
    };
    CHECK(run("no_such_thing=1,2").exit_code == 2);
    CHECK(run("loss_high_share=0.1:0.2:1001").exit_code == 2);
    CHECK(run_podrate({"tune", one, "--out", out}).exit_code == 2);
    CHECK(run_podrate({"tune", (folder / "nowhere").string(), "--out", out, "--sweep", "loss_high_on_s=1"})
              .exit_code == 2);
    CHECK(run("loss_high_on_s=0,5").exit_code == 0);
    podrate::test::write_text(folder / "one" / "episodes.csv",
                              "start_unix_s,end_unix_s,machine,alarm\n5,6,nobody,x\n");
    const ProgramRun partly = run("loss_high_on_s=0,5");
    CHECK(partly.exit_code == 1);
    CHECK(partly.err.find("episodes.csv:2:") != std::string::npos);
}
