#include "tune/place_draws.hpp"

#include "plan/path_random.hpp"

namespace podrate::sim {

PlaceDraws::PlaceDraws(std::size_t places, std::size_t draws, std::uint64_t seed)
    : places_(places), count_(draws), times_(places * draws, 0) {
    for (std::size_t draw = 0; draw < draws; ++draw) {
        PathRandom random(seed, draw, 0);
        for (std::size_t i = 0; i < places; ++i) ++times_[draw * places + random.below(places)];
    }
}

}  // namespace podrate::sim
