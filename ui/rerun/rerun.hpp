// A machine's day replayed again beside the window, with other parameters or more tray checks.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>

#include "replay/machine_replay.hpp"
#include "rerun/aside.hpp"
#include "series/day_series.hpp"
#include "tune/tallying.hpp"

namespace podrate::ui {

struct RerunResult {
    std::uint32_t number = 0;                      // that ask() gave
    std::shared_ptr<const MachineSeries> series;   // without columns where the machine's log was refused
    sim::MachineResult machine;                    // not looked back at: that takes the whole gang
    std::shared_ptr<const sim::AlarmTrace> trace;  // what its alarms looked at; nullptr where refused
    std::shared_ptr<const sim::TraceTimes> times;  // of that
};

// The same run with other limits, deadbands and delays: alarms are judged anew, the rest is shared.
// `parameters` differ in nothing else (same_but_for_alarms()).
std::shared_ptr<const RerunResult> with_alarms(const RerunResult& run, const Parameters& parameters);

bool same_but_for_alarms(const Parameters& a, const Parameters& b);

// One at a time; what is asked last counts. All calls from one thread; only `wake` comes from another.
class Rerun {
  public:
    // `wake`: there is something new to draw. May be empty.
    explicit Rerun(const std::function<void()>& wake) : wake_(wake), aside_(wake) {}

    // Calls off what runs or waits. Tray checks of `machine` may stand in any order. `origin_us`:
    // DaySeries::origin_us of the day that this machine is of, so that its columns lie beside the day's.
    // Returns a number that grows from one call to the next.
    std::uint32_t ask(sim::Machine machine, TimeUs origin_us);
    void call_off() { aside_.call_off(); }

    [[nodiscard]] bool running() const { return aside_.running(); }
    // 0 to 1, of what runs.
    [[nodiscard]] double share() const { return share_.load(std::memory_order_relaxed); }
    // What was asked last, once, when it is done; until then and afterwards nullptr.
    std::shared_ptr<const RerunResult> take() { return aside_.take(); }

  private:
    struct Asked {
        std::uint32_t number;
        sim::Machine machine;
        TimeUs origin_us;
    };

    std::shared_ptr<const RerunResult> run(const Asked& asked, const std::atomic<bool>& cancel);
    void tell(double share);

    std::function<void()> wake_;
    std::uint32_t number_ = 0;
    std::atomic<double> share_{0.0};
    Aside<RerunResult> aside_;  // the last: its thread uses what stands above
};

}  // namespace podrate::ui
