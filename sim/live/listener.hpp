// What comes from a machine, as it comes, through the estimator; once a second something is said.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>

#include "live/live_figures.hpp"
#include "live/transport.hpp"
#include "log/machine_log.hpp"
#include "podrate/bus/bus_decoder.hpp"
#include "podrate/bus/bus_watch.hpp"
#include "podrate/bus/nmea_sentence.hpp"
#include "podrate/estimator.hpp"

namespace podrate::sim {

struct ListenerHooks {
    std::function<TimeUs()> now;  // the host's time: never goes back
    std::function<void(const LiveFigures&)> say;
    std::function<void(const std::string&)> bad;  // what can't be used
};

// Figures are said at the samples' own times, the first in each second. A figure rests on a weight of the
// last two seconds or it is not said; and where nothing comes, that is said within two seconds by the host's
// clock.
class Listener final : public LiveTaker {
  public:
    // `on_arrival`: the frames' own stamps are left aside, so that two inputs go by one clock.
    Listener(const Parameters& parameters, const bus::BusSettings& senders, bool on_arrival,
             ListenerHooks hooks);

    void take_frame(const bus::CanFrame& frame, bool stamped) override;
    void take_text(std::string_view text) override;
    void take_controller(bus::Controller state) override { watch_.controller(state); }
    void take_bad(const std::string& why) override;

    // To be called often: says so where nothing has come.
    void tick();

    [[nodiscard]] std::uint64_t bad() const { return bad_; }
    [[nodiscard]] const Estimator& estimator() const { return estimator_; }
    // To answer alarms.
    [[nodiscard]] Estimator& estimator() { return estimator_; }

  private:
    void take_stamped(const bus::CanFrame& frame);
    void use(const bus::CanFrame& frame);
    void feed(const Sample& sample);
    [[nodiscard]] LiveBus bus_now() const;
    void say(LiveInput input, TimeUs time_us, double quiet_s);

    Estimator estimator_;
    bus::BusDecoder decoder_;
    bus::BusWatch watch_;
    bus::NmeaDecoder nmea_;
    bool on_arrival_;
    ListenerHooks hooks_;
    std::optional<bus::CanFrame> held_;  // its stamp leaps: the next frame decides
    bool any_frame_ = false;
    TimeUs frame_us_ = 0;        // newest stamp used
    TimeUs frame_heard_us_ = 0;  // when it came, by the host
    bool any_sample_ = false;
    TimeUs sample_us_ = 0;  // newest sample, by its own time
    TimeUs weight_us_ = 0;  // newest weight, or the first sample where there is none yet
    TimeUs heard_us_;       // when the newest sample came, by the host
    TimeUs next_line_us_ = 0;
    TimeUs next_complaint_us_ = 0;
    std::uint64_t bad_ = 0;
};

}  // namespace podrate::sim
