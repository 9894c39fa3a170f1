#include "podrate/bus/bus_watch.hpp"

namespace podrate::bus {

void BusWatch::see(const CanFrame& frame, FrameResult result, const BusDecoder& decoder) {
    std::uint32_t& count = counts_[static_cast<int>(result)];
    if (count < 0xFFFFFFFFU) ++count;
    // Its time is worth nothing: out of bounds, or behind that of others.
    if (result == FrameResult::malformed || result == FrameResult::time_back) return;
    const TimeUs time_us = frame.time_us;
    if (!any_ || time_us - second_us_ >= kSecondUs) {
        flood_ = any_ && time_us - second_us_ < 2 * kSecondUs && in_second_ > kFloodPerS;
        second_us_ = time_us;
        in_second_ = 0;
    }
    any_ = true;
    heard_us_ = time_us;
    if (in_second_ < 1000000) ++in_second_;
    if (in_second_ > most_per_s_) most_per_s_ = in_second_;
    for (int i = 0; i < decoder.sample_count(); ++i) {
        const auto channel = static_cast<unsigned>(decoder.sample(i).channel);
        if (channel >= kChannels) continue;
        sample_us_[channel] = time_us;
        seen_ |= 1U << channel;
    }
}

bool BusWatch::silent(TimeUs now_us) const {
    return !any_ || now_us - heard_us_ > kSilentUs;
}

TimeUs BusWatch::age_us(Channel channel, TimeUs now_us) const {
    const auto at = static_cast<unsigned>(channel);
    if (at >= kChannels || (seen_ & (1U << at)) == 0) return -1;
    return now_us > sample_us_[at] ? now_us - sample_us_[at] : 0;
}

bool BusWatch::flooded(TimeUs now_us) const {
    if (!any_ || now_us - second_us_ >= 2 * kSecondUs) return false;
    return in_second_ > kFloodPerS || (flood_ && now_us - second_us_ < kSecondUs);
}

std::uint32_t BusWatch::count(FrameResult result) const {
    return counts_[static_cast<int>(result)];
}

}  // namespace podrate::bus
