#include "podrate/weight/noise_follower.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate {

using namespace choices::noise;

NoiseFollower::NoiseFollower(const Parameters& p)
    : moving_{p.weight_noise_moving_kg * p.weight_noise_moving_kg,
              p.weight_noise_moving_kg * p.weight_noise_moving_kg},
      still_{p.weight_noise_still_kg * p.weight_noise_still_kg,
             p.weight_noise_still_kg * p.weight_noise_still_kg} {}

void NoiseFollower::open_block(TimeUs time_us, bool moving) {
    block_us_ = time_us;
    block_moving_ = moving;
    in_block_ = 0;
    block_sum_kg_ = Real(0);
}

// The second difference of three means in a row is free of level and steady filling; white noise of variance
// r a reading makes its variance 6 r / n.
void NoiseFollower::learn_block(Level& level) {
    const Real count = static_cast<Real>(in_block_);
    const Real mean_kg = first_kg_ + block_sum_kg_ / count;
    ++blocks_;
    if (blocks_ >= 3) {
        const Real bend_kg = mean_kg - Real(2) * last_mean_kg_ + before_last_kg_;
        const Real seen_kg2 =
            math::clamp(bend_kg * bend_kg * count / Real(6), Real(0), kClip * level.white_kg2);
        level.white_kg2 += (seen_kg2 - level.white_kg2) / kWhiteMemoryBlocks;
        if (level.white_kg2 < kLeastKg2) level.white_kg2 = kLeastKg2;
    }
    before_last_kg_ = last_mean_kg_;
    last_mean_kg_ = mean_kg;
}

void NoiseFollower::learn(TimeUs time_us, bool moving, Real weight_kg, Real flow_kgps) {
    Level& level = moving ? moving_ : still_;
    const TimeUs since_us = time_us - last_us_;
    const Real since_s = seconds(since_us);
    if (since_us <= kBreakUs && moving == block_moving_) {
        const Real change_kg = weight_kg - last_kg_ - flow_kgps * since_s;
        const Real seen_kg2 =
            math::clamp(change_kg * change_kg * Real(0.5), Real(0), kClip * level.spread_kg2);
        level.spread_kg2 +=
            math::clamp(since_s / kSpreadMemoryS, Real(0), Real(0.1)) * (seen_kg2 - level.spread_kg2);
        if (level.spread_kg2 < kLeastKg2) level.spread_kg2 = kLeastKg2;
    }
    last_us_ = time_us;
    last_kg_ = weight_kg;

    if (since_us > kBreakUs || moving != block_moving_) {
        blocks_ = 0;
        open_block(time_us, moving);
    } else if (time_us - block_us_ >= kBlockUs) {
        learn_block(level);
        open_block(time_us, moving);
    }
    if (in_block_ == 0) first_kg_ = weight_kg;
    block_sum_kg_ += weight_kg - first_kg_;
    ++in_block_;
}

}  // namespace podrate
