// Holds the shipped day's estimates against a kept file in full precision. A difference is no proof of a
// fault: it is a change that somebody has to know of.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdio>
#include <sstream>

#include "replay/day_replay.hpp"
#include "support/temp_folder.hpp"

using namespace podrate;

namespace fs = std::filesystem;

namespace {

const fs::path kKept = fs::path(PODRATE_SOURCE_DIR) / "tests" / "baseline" / "harrowmere.txt";
const fs::path kNew = fs::path(PODRATE_BUILD_DIR) / "harrowmere.txt";

// A line for the first row of each minute, and one for each load.
class Lines : public sim::ReplaySink {
  public:
    explicit Lines(std::string machine) : machine_(std::move(machine)) {}
    void on_row(const sim::LogRow& row, const Estimate& e) override {
        const TimeUs minute = row.time_us / (60 * kSecondUs);
        if (minute == minute_) return;
        minute_ = minute;
        add("minute", row.time_us,
            {e.mass_kg, e.flow_kgps, e.yield_kgpm2, e.loss_share, e.harvested_kg, e.area_m2});
    }
    void on_load(const Load& load) override {
        add("load", load.end_us, {load.net_kg, load.net_sd_kg, load.area_m2, load.lost_kg});
    }
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    void add(const char* what, TimeUs time_us, std::initializer_list<Real> values) {
        text_ += machine_ + ' ' + what + ' ' + std::to_string(time_us);
        char number[40];
        for (const Real value : values) {
            std::snprintf(number, sizeof number, " %a", static_cast<double>(value));
            text_ += number;
        }
        text_ += '\n';
    }
    std::string machine_;
    std::string text_;
    TimeUs minute_ = -1;
};

std::string replayed_estimates() {
    const sim::Day day = sim::read_day(fs::path(PODRATE_SOURCE_DIR) / "demo_logs" / "harrowmere");
    std::string text =
        "# machine minute time_us mass_kg flow_kgps yield_kgpm2 loss_share harvested_kg area_m2\n"
        "# machine load end_us net_kg net_sd_kg area_m2 lost_kg\n";
    for (const sim::Machine& machine : day.machines) {
        Lines lines(machine.id);
        const sim::MachineResult result = sim::replay_machine(machine, {&lines}, nullptr);
        REQUIRE(result.usable);
        text += lines.text();
    }
    return text;
}

// Replayed once for all tests of this file.
const std::string& estimates_now() {
    static const std::string kNow = replayed_estimates();
    return kNow;
}

std::string first_difference(const std::string& kept, const std::string& now) {
    std::istringstream a(kept);
    std::istringstream b(now);
    std::string old_line;
    std::string new_line;
    for (int number = 1;; ++number) {
        const bool more_old = static_cast<bool>(std::getline(a, old_line));
        const bool more_new = static_cast<bool>(std::getline(b, new_line));
        if (!more_old && !more_new) return "";
        if (!more_old) old_line = "(nothing)";
        if (!more_new) new_line = "(nothing)";
        if (old_line == new_line) continue;
        return "line " + std::to_string(number) + "\n  was " + old_line + "\n  is  " + new_line;
    }
}

}  // namespace

TEST_CASE("The shipped day's estimates are those of the kept baseline") {
    const std::string& now = estimates_now();
    const std::string kept = fs::exists(kKept) ? test::text_of(kKept) : "";
    if (now != kept) test::write_text(kNew, now);
    INFO(first_difference(kept, now));
    INFO("the new estimates stand in "
         << kNew
         << "; to keep them, copy that file over tests/baseline/harrowmere.txt and give "
            "a sentence of reason in the commit");
    // No CHECK on the texts themselves: it would print both in full.
    CHECK(first_difference(kept, now).empty());
}

TEST_CASE("The check of the baseline sees the last bit and a missing line") {
    CHECK(first_difference("a\nb\n", "a\nb\n").empty());
    CHECK(first_difference("a 0x1.8p+1\n", "a 0x1.80002p+1\n").find("line 1") == 0);
    CHECK(first_difference("a\nb\n", "a\n").find("(nothing)") != std::string::npos);
    // Long enough to mean something: three machines for three hours.
    const std::string& now = estimates_now();
    CHECK(std::count(now.begin(), now.end(), '\n') > 500);
}
