#include "podrate/bus/hit_counter.hpp"

#include "podrate/bus/machine_messages.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate::bus {

float HitCounter::add(TimeUs time_us, std::uint32_t count) {
    const TimeUs before = count_;
    const TimeUs new_hits = TimeUs(count) - before + (count < before ? TimeUs(kHitsModulus) : 0);
    // A wrap gives few hits, a restart as good as always more than can have come.
    const TimeUs since_ms = math::clamp((time_us - heard_us_) / 1000, TimeUs(0), TimeUs(100000));
    const TimeUs most = kSlack + kMostPerS * since_ms / 1000;
    const bool counts = any_ && new_hits <= most && new_hits <= kMostHits;
    any_ = true;
    count_ = count;
    heard_us_ = time_us;
    return counts ? static_cast<float>(new_hits) : 0.0F;
}

}  // namespace podrate::bus
