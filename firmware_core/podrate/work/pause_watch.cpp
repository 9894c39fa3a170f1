#include "podrate/work/pause_watch.hpp"

#include "podrate/choices.hpp"

namespace podrate {

using namespace choices::pauses;

bool PauseWatch::watch(const Scene& scene) {
    const bool paused = scene.state == WorkState::paused_in_crop;
    bool news = surging_ && close_surge(scene);
    if (scene.state == WorkState::harvesting) follow_haulm(scene);
    if (paused && !pausing_) {
        open_ = Pause();
        open_.start_us = scene.time_us;
        open_.heap_kg = haulm_before_kg_;
        open_.lat_e7 = scene.lat_e7;
        open_.lon_e7 = scene.lon_e7;
        open_.place_known = scene.place_known;
    }
    // A pause that turns out to be a wait or a stop leaves its heap all the same.
    if (pausing_ && !paused && scene.time_us - open_.start_us >= kShortestUs) {
        open_.end_us = scene.time_us;
        open_.number = last_.number + 1;
        last_ = open_;
        surging_ = scene.state == WorkState::harvesting;
        came_then_kg_ = scene.came_kg;
        expected_then_kg_ = scene.expected_kg;
        news = true;
    }
    pausing_ = paused;
    return news;
}

// The drum fills as fast as crop comes and empties as its lag has it: a machine that slows down to a stand
// still holds what came before.
void PauseWatch::follow_haulm(const Scene& scene) {
    const Real span_s = seconds(scene.time_us - followed_us_);
    followed_us_ = scene.time_us;
    const Real share = span_s < kHaulmMemoryS ? span_s / kHaulmMemoryS : Real(1);
    haulm_before_kg_ += share * (scene.haulm_held_kg - haulm_before_kg_);
}

bool PauseWatch::close_surge(const Scene& scene) {
    if (scene.state != WorkState::harvesting) {
        surging_ = false;  // nobody can say what belonged to it
        return false;
    }
    if (scene.time_us - last_.end_us < kSurgeUs) return false;
    surging_ = false;
    last_.surge_kg = (scene.came_kg - came_then_kg_) - (scene.expected_kg - expected_then_kg_);
    last_.surge_known = true;
    return true;
}

}  // namespace podrate
