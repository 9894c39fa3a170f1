#include "podrate/time/time_gate.hpp"

#include "podrate/choices.hpp"

namespace podrate {

using namespace choices::times;

TimeVerdict TimeGate::judge(TimeUs time_us) {
    if (time_us < 0 || time_us > kLatestUs) return TimeVerdict::out_of_range;
    if (time_us < newest_us_) return TimeVerdict::back;
    if (time_us - newest_us_ > kFarAheadUs) {
        const bool agrees = waiting_ > 0 && time_us > ahead_us_ && time_us - ahead_us_ <= kFarAheadUs;
        if (waiting_ > 0 && time_us == ahead_us_) return TimeVerdict::far_ahead;
        waiting_ = agrees ? waiting_ + 1 : 1;
        ahead_us_ = time_us;
        if (waiting_ <= kConfirmations) return TimeVerdict::far_ahead;
    }
    waiting_ = 0;
    newest_us_ = time_us;
    return TimeVerdict::good;
}

TimeVerdict TimeGate::judge(TimeUs time_us, Channel channel) {
    const auto index = static_cast<unsigned>(channel);
    if (index >= kChannels) return TimeVerdict::out_of_range;
    const TimeVerdict verdict = judge(time_us);
    if (verdict != TimeVerdict::good) return verdict;
    Pace& pace = paces_[index];
    if (time_us - pace.second_us >= kSecondUs) pace = {time_us, 0};
    if (pace.count >= kMostPerSecond) return TimeVerdict::too_many;
    ++pace.count;
    return TimeVerdict::good;
}

}  // namespace podrate
