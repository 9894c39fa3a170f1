#include "live/listener.hpp"

#include <algorithm>
#include <utility>

namespace podrate::sim {
namespace {

constexpr TimeUs kWeightHoldsUs = 3 * kSecondUs / 2;
constexpr TimeUs kSilenceUs = 3 * kSecondUs / 2;  // told by the tick after: within two seconds
// A stamp that leaps further is believed only once the next one agrees.
constexpr TimeUs kLeapUs = 10 * kSecondUs;

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
            take_bad("a frame's time stands far from those around it");
        }
    }
    if (agrees || (any_frame_ && frame.time_us - frame_us_ <= kLeapUs)) return use(frame);
    held_ = frame;
}

void Listener::use(const bus::CanFrame& frame) {
    const bus::FrameResult result = decoder_.take(frame);
    if (result == bus::FrameResult::time_back) return take_bad("a frame's time goes back");
    any_frame_ = true;
    frame_us_ = std::max(frame_us_, frame.time_us);
    if (result == bus::FrameResult::malformed) take_bad("a frame is too short for its message, or no data");
    if (result == bus::FrameResult::out_of_range)
        take_bad("a frame holds a value that its message does not allow");
    for (int i = 0; i < decoder_.sample_count(); ++i) feed(decoder_.sample(i));
}

void Listener::take_text(std::string_view text) {
    const TimeUs now_us = hooks_.now();
    for (const char c : text) {
        const auto result = nmea_.take(now_us, static_cast<std::uint8_t>(c));
        if (result == bus::FrameResult::malformed) take_bad("a sentence is broken, or its checksum is wrong");
        for (int i = 0; i < nmea_.sample_count(); ++i) feed(nmea_.sample(i));
    }
}

void Listener::take_bad(const std::string& why) {
    ++bad_;
    hooks_.bad(why);
}

void Listener::feed(const Sample& sample) {
    if (estimator_.feed(sample) != FeedResult::taken)
        return take_bad("a value is outside what a viner can show");
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

void Listener::say(LiveInput input, TimeUs time_us, double quiet_s) {
    LiveFigures figures;
    figures.time_us = time_us;
    figures.input = input;
    figures.quiet_s = quiet_s;
    if (input == LiveInput::good) figures.estimate = estimator_.read();
    hooks_.say(figures);
}

}  // namespace podrate::sim
