// Listens in a thread of its own and fills a feed.
#pragma once

#include <memory>
#include <string>
#include <thread>
#include <vector>

#include "live/alarm_desk.hpp"
#include "live/descriptor.hpp"
#include "live/heard_machine.hpp"
#include "live/host_clock.hpp"
#include "live/live_feed.hpp"
#include "live/transport.hpp"
#include "model/live_source.hpp"

namespace podrate::ui {

class LiveInput : public LiveSource {
  public:
    // from: "-" for candump text on standard input, else a CAN interface. Throws sim::RefusedInput where it
    // can't be opened.
    LiveInput(const sim::HeardMachine& heard, const std::string& from);
    ~LiveInput() override;
    LiveInput(const LiveInput&) = delete;
    LiveInput& operator=(const LiveInput&) = delete;

    [[nodiscard]] DriverFigures figures(const Speech& say) const override {
        return feed_.figures(now_us(), say);
    }
    [[nodiscard]] std::string title(const Speech& say) const override { return feed_.title(now_us(), say); }
    [[nodiscard]] std::optional<Estimate> newest() const override { return feed_.newest(now_us()); }
    void answer(const AlarmOrder& order) override { desk_.post(order); }
    [[nodiscard]] TimeUs now_us() const override { return clock_.now_us(); }
    [[nodiscard]] const std::string& time_zone() const override { return feed_.time_zone(); }

  private:
    void listen(std::vector<std::unique_ptr<sim::Transport>> transports, const sim::Machine& machine);
    sim::HostClock clock_;
    LiveFeed feed_;
    AlarmDesk desk_;
    sim::Descriptor stop_;
    std::thread thread_;
};

}  // namespace podrate::ui
