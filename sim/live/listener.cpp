#include "live/listener.hpp"

#include <algorithm>
#include <utility>

#include "log/candump_line.hpp"
#include "log/sample_row.hpp"

namespace podrate::sim {
namespace {

constexpr TimeUs kWeightHoldsUs = 3 * kSecondUs / 2;
constexpr TimeUs kSilenceUs = 3 * kSecondUs / 2;  // told by the tick after: within two seconds
// A stamp that leaps further is believed only once the next one agrees.
constexpr TimeUs kLeapUs = 10 * kSecondUs;

std::string frame_text(const bus::CanFrame& frame) {
    return "frame " + id_text(frame);
}

double in_seconds(TimeUs span_us) {
    return static_cast<double>(span_us) / 1e6;
}

}  // namespace

Listener::Listener(const Parameters& parameters, const bus::BusSettings& senders, bool on_arrival,
                   ListenerHooks hooks)
    : estimator_(parameters),
      decoder_(senders),
      on_arrival_(on_arrival),
      hooks_(std::move(hooks)),
      heard_us_(hooks_.now()) {}

void Listener::take_frame(const bus::CanFrame& frame, bool stamped) {
    if (stamped && !on_arrival_) return take_stamped(frame);
    bus::CanFrame here = frame;
    here.time_us = hooks_.now();
    use(here);
}

void Listener::take_stamped(const bus::CanFrame& frame) {
    bool agrees = false;
    if (held_) {
        const bus::CanFrame held = *std::exchange(held_, std::nullopt);
        agrees = frame.time_us >= held.time_us && frame.time_us - held.time_us <= kLeapUs;
        if (agrees) {
            use(held);
        } else {
            take_bad(frame_text(held) + ": its time stands far from those around it; frame skipped");
        }
    }
    if (agrees || (any_frame_ && frame.time_us - frame_us_ <= kLeapUs)) return use(frame);
    held_ = frame;
}

void Listener::use(const bus::CanFrame& frame) {
    const bus::FrameResult result = decoder_.take(frame);
    watch_.see(frame, result, decoder_);
    if (result == bus::FrameResult::time_back)
        return take_bad(frame_text(frame) +
                        ": its time goes back; frame skipped, let one logger alone write");
    // Who hears frames is on the bus again.
    if (watch_.controller() == bus::Controller::off) watch_.controller(bus::Controller::active);
    any_frame_ = true;
    frame_us_ = std::max(frame_us_, frame.time_us);
    frame_heard_us_ = hooks_.now();
    if (result == bus::FrameResult::malformed)
        take_bad(frame_text(frame) + " is too short for its message, or no data; frame skipped");
    if (result == bus::FrameResult::out_of_range)
        take_bad(frame_text(frame) + " holds a value that its message does not allow; check the sender");
    for (int i = 0; i < decoder_.sample_count(); ++i) feed(decoder_.sample(i));
}

void Listener::take_text(std::string_view text) {
    const TimeUs now_us = hooks_.now();
    for (const char c : text) {
        const auto result = nmea_.take(now_us, static_cast<std::uint8_t>(c));
        if (result == bus::FrameResult::malformed)
            take_bad("a sentence is broken, or its checksum is wrong; skipped, check --baud and plugs");
        for (int i = 0; i < nmea_.sample_count(); ++i) feed(nmea_.sample(i));
    }
}

void Listener::take_bad(const std::string& why) {
    ++bad_;
    hooks_.bad(why);
}

void Listener::feed(const Sample& sample) {
    if (estimator_.feed(sample) != FeedResult::taken)
        return take_bad(std::string(name_of(sample.channel)) +
                        " is outside what a viner can show; that value left out");
    heard_us_ = hooks_.now();
    next_complaint_us_ = 0;
    if (!any_sample_ || sample.channel == Channel::weight) weight_us_ = sample.time_us;
    any_sample_ = true;
    sample_us_ = sample.time_us;
    const TimeUs quiet_us = sample_us_ - weight_us_;
    const bool weighed = estimator_.read().started && quiet_us <= kWeightHoldsUs;
    const bool early = !weighed && quiet_us < kSecondUs;
    if (sample_us_ < next_line_us_ || early) return;
    next_line_us_ = (sample_us_ / kSecondUs + 1) * kSecondUs;
    say(weighed ? LiveInput::good : LiveInput::no_weight, sample_us_, in_seconds(quiet_us));
}

void Listener::tick() {
    const TimeUs now_us = hooks_.now();
    const TimeUs quiet_us = now_us - heard_us_;
    if (quiet_us < kSilenceUs || now_us < next_complaint_us_) return;
    next_complaint_us_ = now_us + kSecondUs;
    say(LiveInput::silent, any_sample_ ? sample_us_ + quiet_us : now_us, in_seconds(quiet_us));
}

// By the frames' clock, which went on since the newest one as the host's did.
LiveBus Listener::bus_now() const {
    if (watch_.controller() == bus::Controller::off) return LiveBus::off;
    if (watch_.controller() == bus::Controller::passive) return LiveBus::passive;
    if (!any_frame_) return LiveBus::none;
    const TimeUs now_us = frame_us_ + (hooks_.now() - frame_heard_us_);
    if (watch_.silent(now_us)) return LiveBus::silent;
    return watch_.flooded(now_us) ? LiveBus::flooded : LiveBus::good;
}

void Listener::say(LiveInput input, TimeUs time_us, double quiet_s) {
    LiveFigures figures;
    figures.time_us = time_us;
    figures.input = input;
    figures.bus = bus_now();
    figures.quiet_s = quiet_s;
    if (input == LiveInput::good) figures.estimate = estimator_.read();
    hooks_.say(figures);
}

}  // namespace podrate::sim
