#include "synth/machine/trailers.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {
namespace {

constexpr double kRoomLeftShare = 0.15;  // with less room than that it leaves; common practice, no source

}  // namespace

Trailers::Trailers(const ScenarioTrailers& told, std::uint64_t seed)
    : told_(told), random_(seed, "trailers"), trailers_(static_cast<std::size_t>(std::lround(told.count))) {}

void Trailers::send_off(Trailer& trailer, double from_s) {
    const double round_s = told_.round_s * random_.uniform(0.85, 1.3);
    deliveries_.push_back({from_s + 0.5 * round_s, trailer.filled_kg});
    trailer.filled_kg = 0.0;
    trailer.free_from_s = from_s + round_s;
}

int Trailers::take(double load_kg, double time_s, double for_s) {
    for (std::size_t i = 0; i < trailers_.size(); ++i) {
        Trailer& trailer = trailers_[i];
        if (trailer.free_from_s > time_s) continue;
        if (trailer.filled_kg > 0.0 && trailer.filled_kg + load_kg > told_.capacity_kg) {
            send_off(trailer, time_s);
            continue;
        }
        trailer.free_from_s = time_s + for_s;
        return static_cast<int>(i);
    }
    return -1;
}

void Trailers::fill(int trailer, double peas_kg) {
    if (trailer < 0) return;
    Trailer& into = trailers_[static_cast<std::size_t>(trailer)];
    into.filled_kg += peas_kg;
    if (into.filled_kg > (1.0 - kRoomLeftShare) * told_.capacity_kg) send_off(into, into.free_from_s);
}

}  // namespace podrate::sim
