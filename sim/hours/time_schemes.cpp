#include "hours/time_schemes.hpp"

namespace podrate::sim {
namespace {

constexpr std::uint8_t kind_bit(TimeKind kind) {
    return static_cast<std::uint8_t>(1U << static_cast<unsigned>(kind));
}

constexpr std::uint8_t kStandsUntold =
    static_cast<std::uint8_t>(kind_bit(TimeKind::paused_in_crop) | kind_bit(TimeKind::stopped));

}  // namespace

const TimeScheme& konaka_scheme() {
    static const TimeScheme kScheme = {
        "Konaka, Rate of Work",
        "Adjustment, minor breakdown and auxiliary work are all a machine that stands, in the crop or out of "
        "it: the log does not tell them apart, nor rest and weather from them. Travel on the road is not "
        "told from travel in the field.",
        {{"effective work", "harvesting", kind_bit(TimeKind::harvesting)},
         {"idle running and turning", "turning: driving in the field with the reel off",
          kind_bit(TimeKind::turning)},
         {"travel in field", "travelling: driving longer or faster than a turn",
          kind_bit(TimeKind::travelling)},
         {"supply and discharge", "tipping the hopper", kind_bit(TimeKind::tipping)},
         {"waiting", "standing with a full hopper until a trailer comes", kind_bit(TimeKind::waiting)},
         {"adjustment, minor breakdown, auxiliary",
          "stopped or paused in the crop; which of them is not told", kStandsUntold},
         {"not in the scheme", "no log", kind_bit(TimeKind::no_log)}}};
    return kScheme;
}

const TimeScheme& ktbl_scheme() {
    static const TimeScheme kScheme = {
        "KTBL",
        "Set-up time and the part of a stop that could not be avoided are not told apart outside the crop; "
        "neither is a rest.",
        {{"main time", "harvesting", kind_bit(TimeKind::harvesting)},
         {"turning time", "turning: driving in the field with the reel off", kind_bit(TimeKind::turning)},
         {"servicing time", "tipping the hopper", kind_bit(TimeKind::tipping)},
         {"unavoidable loss time", "paused in the crop: looking, clearing, adjusting",
          kind_bit(TimeKind::paused_in_crop)},
         {"waiting time", "standing with a full hopper until a trailer comes", kind_bit(TimeKind::waiting)},
         {"travel time", "travelling: driving longer or faster than a turn", kind_bit(TimeKind::travelling)},
         {"set-up or unavoidable loss time", "stopped for any other reason; which of them is not told",
          kind_bit(TimeKind::stopped)},
         {"not in the scheme", "no log", kind_bit(TimeKind::no_log)}}};
    return kScheme;
}

std::vector<double> seconds_by_class(const TimeScheme& scheme, const KindSeconds& seconds) {
    std::vector<double> sums;
    for (const TimeClass& c : scheme.classes) {
        double sum_s = 0.0;
        for (std::size_t i = 0; i < kTimeKinds; ++i) {
            if ((c.kinds & kind_bit(static_cast<TimeKind>(i))) != 0) sum_s += seconds[i];
        }
        sums.push_back(sum_s);
    }
    return sums;
}

}  // namespace podrate::sim
