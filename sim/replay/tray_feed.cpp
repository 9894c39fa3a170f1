#include "replay/tray_feed.hpp"

#include <cmath>

#include "log/number.hpp"
#include "log/units.hpp"

namespace podrate::sim {
namespace {

constexpr double kCountedAfterS = 240.0;  // laid, walked to and counted; common practice, no source

}  // namespace

void TrayFeed::give(const TrayCheck& check, TimeUs now_us, const SampleTaker& take) {
    const auto about_us = static_cast<TimeUs>(std::llround(check.unix_s * 1e6));
    const Sample sample = tray_sample(now_us, about_us, static_cast<float>(check.kg_per_ha / kKgphaPerKgpm2),
                                      static_cast<float>(check.sd_share));
    if (take(sample) == FeedResult::taken) return;
    problems_.add({"tray_checks.csv", 0,
                   "the tray of " + machine_.id + " at " + fixed(check.unix_s, 0) +
                       " s lies where that machine cut nothing just then",
                   "tray check left out; unix_s is when the machine passed that place"});
}

void TrayFeed::feed(TimeUs now_us, const SampleTaker& take) {
    while (next_ < machine_.trays.size()) {
        const TrayCheck& check = machine_.trays[next_];
        if ((check.unix_s + kCountedAfterS) * 1e6 > static_cast<double>(now_us)) return;
        give(check, now_us, take);
        ++next_;
    }
}

void TrayFeed::finish(TimeUs now_us, const SampleTaker& take) {
    for (; next_ < machine_.trays.size(); ++next_) give(machine_.trays[next_], now_us, take);
}

}  // namespace podrate::sim
