// podrate tune, as a user runs it.
#include <catch2/catch.hpp>
#include <csignal>
#include <map>
#include <thread>

#include "report/folder_lock.hpp"
#include "season/program_mark.hpp"
#include "support/live_program.hpp"
#include "support/program.hpp"
#include "tune/tune_day.hpp"
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
    CHECK(whole.out.find("\nrecommended, setting ") != std::string::npos);
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

TEST_CASE("Episodes that no log saw are named, and not counted, by a run that goes on, too") {
    const TempFolder folder;
    podrate::test::write_tune_day(folder, "one", 1, 0.2);
    podrate::test::write_text(folder / "one" / "episodes.csv",
                              "start_unix_s,end_unix_s,machine,alarm\n"
                              "1751429000,1751429060,viner_1,loss_high\n"
                              "1751432600,1751432660,viner_1,loss_high\n");
    for (int run = 0; run < 2; ++run) {
        const ProgramRun partly = run_podrate({"tune", (folder / "one").string(), "--out",
                                               (folder / "out").string(), "--sweep", "loss_high_on_s=0,5"});
        INFO(partly.err);
        CHECK(partly.exit_code == 1);
        CHECK(partly.err.find("episodes.csv:3: lies outside of what the log of 'viner_1'") !=
              std::string::npos);
        CHECK(text_of(folder / "out" / "tuning.csv").find("\n0,6,loss_high,1,") != std::string::npos);
        CHECK(text_of(folder / "out" / "tuning.html").find("is said by episodes.csv on 1 machine's day.") !=
              std::string::npos);
    }
}

TEST_CASE("Two runs do not share a folder of results") {
    const TempFolder folder;
    podrate::test::write_tune_day(folder, "one", 1, 0.1);
    const std::string one = (folder / "one").string();
    const std::string out = (folder / "out").string();
    const std::vector<std::string> calls[] = {{"tune", one, "--out", out, "--sweep", "loss_high_on_s=0,5"},
                                              {"tune", one, "--out", out, "--loss-prior"},
                                              {"season", one, "--out", out}};
    fs::create_directories(out);
    {
        const podrate::sim::Descriptor held = podrate::sim::hold_folder(out);
        for (const std::vector<std::string>& call : calls) {
            const ProgramRun run = run_podrate(call);
            CHECK(run.exit_code == 2);
            CHECK(run.err.find("is in use by another run") != std::string::npos);
        }
        CHECK(fs::is_empty(out));
    }
    CHECK(run_podrate(calls[0]).exit_code == 0);
}

TEST_CASE("Kept work is of this program and of no other") {
    const TempFolder folder;
    podrate::test::write_tune_day(folder, "one", 1, 0.1);
    std::vector<std::string> notes;
    const auto days = podrate::sim::read_tune_days({(folder / "one").string()}, std::nullopt, notes);
    REQUIRE(days.size() == 1);
    const std::string mark = podrate::sim::program_mark();
    CHECK(mark.size() == 16);
    CHECK(days[0].stamp.find(mark) != std::string::npos);
}

TEST_CASE("Days of one label are told apart") {
    const TempFolder folder;
    const fs::path one = podrate::test::write_tune_day(folder, "one", 1, 0.1);
    const fs::path again = podrate::test::write_tune_day(folder, "again", 2, 0.1);
    std::string toml = text_of(again / "day.toml");
    toml.replace(toml.find("day again"), 9, "day one");
    podrate::test::write_text(again / "day.toml", toml);
    const ProgramRun run = run_podrate({"tune", one.string(), again.string(), "--out",
                                        (folder / "out").string(), "--sweep", "loss_high_on_s=0,5"});
    CHECK(run.exit_code == 1);
    CHECK(run.err.find("another day's label") != std::string::npos);
    const std::string table = text_of(folder / "out" / "tuning_by_day.csv");
    CHECK(table.find("Tuned on, day one (one)") != std::string::npos);
    CHECK(table.find("Tuned on, day one (again)") != std::string::npos);
    CHECK(text_of(folder / "out" / "tuning.html").find("2 days and 1 machine") != std::string::npos);
}

TEST_CASE("Options that would be passed over or spoil a day are refused") {
    const TempFolder folder;
    const std::string one = podrate::test::write_tune_day(folder, "one", 1, 0.1).string();
    const std::string out = (folder / "out").string();
    const auto refused = [&](const std::string& to, const std::vector<std::string>& more) {
        std::vector<std::string> call = {"tune", one, "--out", to, "--sweep", "loss_high_on_s=0,5"};
        call.insert(call.end(), more.begin(), more.end());
        return run_podrate(call).exit_code == 2;
    };
    CHECK(refused(out, {"--told", "nan"}));
    CHECK(refused(out, {"--false-per-hour", "nan"}));
    CHECK(refused(out, {"--weight-missed", "nan"}));
    CHECK(refused(out, {"--setting", "1"}));
    CHECK(refused(out, {"--keep", out + "/recommended.toml", "--note", "x"}));
    CHECK_FALSE(fs::exists(out));
    CHECK(refused(one, {}));
    CHECK_FALSE(fs::exists(folder / "one" / "tuning.csv"));
}
