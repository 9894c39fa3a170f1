// A rerun tells what the day's own replay tells, the latest counts, and nothing outlives its owner.
#include "rerun/rerun.hpp"

#include <catch2/catch.hpp>
#include <chrono>
#include <condition_variable>

#include "report/alarm_summary.hpp"
#include "ui/shipped_day.hpp"

using namespace podrate;
using namespace podrate::ui;

namespace {

const sim::Day& shipped() {
    static const sim::Day day = sim::read_day(PODRATE_SOURCE_DIR "/demo_logs/harrowmere");
    return day;
}

// Sleeps until the other thread has news.
class Bell {
  public:
    std::function<void()> rope() {
        return [this] {
            {
                const std::lock_guard<std::mutex> lock(mutex_);
                ++rung_;
            }
            news_.notify_all();
        };
    }
    std::shared_ptr<const RerunResult> wait_for(Rerun& rerun) {
        std::unique_lock<std::mutex> lock(mutex_);
        for (int i = 0; i < 6000; ++i) {
            if (auto result = rerun.take()) return result;
            news_.wait_for(lock, std::chrono::milliseconds(10));
        }
        return nullptr;
    }
    [[nodiscard]] int rung() {
        const std::lock_guard<std::mutex> lock(mutex_);
        return rung_;
    }

  private:
    std::mutex mutex_;
    std::condition_variable news_;
    int rung_ = 0;
};

bool same(const Column& a, const Column& b) {
    return a.measure == b.measure && a.every_row == b.every_row && a.own_ms == b.own_ms &&
           a.value == b.value && a.sd == b.sd && a.low == b.low && a.high == b.high;
}

void check_same(const MachineSeries& a, const MachineSeries& b) {
    CHECK(a.id == b.id);
    CHECK(a.origin_us == b.origin_us);
    CHECK(a.kept_ms == b.kept_ms);
    CHECK(a.alarms.size() == b.alarms.size());
    REQUIRE(a.columns.size() == b.columns.size());
    for (std::size_t i = 0; i < a.columns.size(); ++i) CHECK(same(a.columns[i], b.columns[i]));
    for (std::size_t i = 0; i < a.steps.size(); ++i) {
        CHECK(a.steps[i].at_ms == b.steps[i].at_ms);
        CHECK(a.steps[i].value == b.steps[i].value);
    }
}

}  // namespace

TEST_CASE("A rerun with the same parameters gives the day's own columns") {
    const DaySeries& day = shipped_series();
    Bell bell;
    Rerun rerun(bell.rope());
    for (std::size_t i = 0; i < day.machines.size(); ++i) {
        const std::uint32_t number = rerun.ask(shipped().machines[i], day.origin_us);
        CHECK(rerun.running());
        const auto result = bell.wait_for(rerun);
        REQUIRE(result != nullptr);
        CHECK(result->number == number);
        check_same(*result->series, day.machines[i]);
        CHECK(result->machine.usable);
        CHECK_FALSE(rerun.running());
        CHECK(rerun.take() == nullptr);
    }
    CHECK(bell.rung() > 3);
    CHECK(rerun.share() > 0.5);
}

TEST_CASE("Other parameters and more trays change what a rerun tells") {
    const DaySeries& day = shipped_series();
    Bell bell;
    Rerun rerun(bell.rope());
    sim::Machine machine = shipped().machines[1];
    machine.parameters.hopper_nearly_full_share = Real(0.3);
    rerun.ask(machine, day.origin_us);
    const auto fuller = bell.wait_for(rerun);
    REQUIRE(fuller != nullptr);
    const auto nearly = static_cast<std::size_t>(AlarmId::hopper_nearly_full);
    CHECK(sim::alarm_sums(fuller->machine.alarms)[nearly].seconds >
          2.0 * sim::alarm_sums(day.machines[1].alarms)[nearly].seconds);
    CHECK(fuller->series->find(Measure::load_rate)->value == day.machines[1].find(Measure::load_rate)->value);
    machine = shipped().machines[1];
    sim::TrayCheck tray = machine.trays.empty() ? sim::TrayCheck{} : machine.trays.front();
    const auto trays = machine.trays.size();
    tray.unix_s = static_cast<double>(day.time_us(0.5 * day.last_ms)) / 1e6;
    tray.machine = machine.id;
    tray.kg_per_ha = 900.0;
    machine.trays.push_back(tray);
    rerun.ask(machine, day.origin_us);
    const auto trayed = bell.wait_for(rerun);
    REQUIRE(trayed != nullptr);
    CHECK(trayed->machine.last.tray_checks == trays + 1);
}

TEST_CASE("What is asked last counts and what is called off never comes") {
    const DaySeries& day = shipped_series();
    Bell bell;
    Rerun rerun(bell.rope());
    std::uint32_t last = 0;
    for (int i = 0; i < 20; ++i) {
        sim::Machine machine = shipped().machines[0];
        machine.parameters.loss_limit_share = static_cast<Real>(0.02 + 0.02 * i);
        const std::uint32_t number = rerun.ask(machine, day.origin_us);
        CHECK(number > last);
        last = number;
        if (i % 4 == 0) std::this_thread::sleep_for(std::chrono::milliseconds(8));
    }
    const auto result = bell.wait_for(rerun);
    REQUIRE(result != nullptr);
    CHECK(result->number == last);
    CHECK(result->machine.parameters.loss_limit_share == Real(0.4));
    rerun.ask(shipped().machines[0], day.origin_us);
    rerun.call_off();
    CHECK_FALSE(rerun.running());
    std::this_thread::sleep_for(std::chrono::milliseconds(300));
    CHECK(rerun.take() == nullptr);
    rerun.ask(shipped().machines[0], day.origin_us);
    CHECK(bell.wait_for(rerun) != nullptr);
}

TEST_CASE("A rerun that goes while it runs takes its thread along") {
    for (int after_ms = 0; after_ms < 40; after_ms += 4) {
        Bell bell;
        Rerun rerun(bell.rope());
        rerun.ask(shipped().machines[0], shipped_series().origin_us);
        std::this_thread::sleep_for(std::chrono::milliseconds(after_ms));
    }
    const Rerun idle(nullptr);
    CHECK_FALSE(idle.running());
}

TEST_CASE("A log that is gone is told of") {
    Bell bell;
    Rerun rerun(bell.rope());
    sim::Machine machine = shipped().machines[0];
    machine.log = "/nowhere/viner.csv";
    rerun.ask(machine, shipped_series().origin_us);
    const auto result = bell.wait_for(rerun);
    REQUIRE(result != nullptr);
    CHECK_FALSE(result->machine.usable);
    CHECK_FALSE(result->series->refusal.empty());
    CHECK(result->series->columns.empty());
}
