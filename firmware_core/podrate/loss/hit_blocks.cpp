#include "podrate/loss/hit_blocks.hpp"

#include "podrate/choices.hpp"

namespace podrate {

using namespace choices::loss;

HitBlocks::HitBlocks(Real delay_s) : delay_us_(microseconds(delay_s)) {}

void HitBlocks::add(TimeUs time_us, Real new_hits) {
    // After a silence nobody knows when the hits came.
    if (any_ && time_us - newest_us_ <= kHitsSilenceUs) {
        line_.add(newest_us_, time_us, new_hits);
    } else {
        known_from_us_ = time_us;
    }
    any_ = true;
    newest_us_ = time_us;
}

bool HitBlocks::reach(TimeUs cut_us, Real expected_kgps) {
    if (!any_) return false;
    const bool broken = cut_us - reached_us_ > kSecondUs || cut_us < reached_us_;
    reached_us_ = cut_us;
    // A filter that walks through a gap of the weight may ask for what the hits' line has forgotten.
    const TimeUs known_us =
        known_from_us_ > newest_us_ - line_.kReachUs ? known_from_us_ : newest_us_ - line_.kReachUs;
    if (broken || block_from_us_ + delay_us_ < known_us) begin_block(cut_us);
    // The sensor may speak less often than the weight, and after it: a block goes as far as it has spoken.
    const TimeUs heard_us = newest_us_ - delay_us_ < cut_us ? newest_us_ - delay_us_ : cut_us;
    if (heard_us <= block_to_us_) return false;
    expected_kg_ += expected_kgps * seconds(heard_us - block_to_us_);
    block_to_us_ = heard_us;
    if (block_to_us_ - block_from_us_ < kHitsBlockUs) return false;
    block_s_ = seconds(block_to_us_ - block_from_us_);
    hits_per_s_ = line_.between(block_from_us_ + delay_us_, block_to_us_ + delay_us_) / block_s_;
    expected_kgps_ = expected_kg_ / block_s_;
    begin_block(block_to_us_);
    return true;
}

void HitBlocks::begin_block(TimeUs cut_us) {
    block_from_us_ = cut_us;
    block_to_us_ = cut_us;
    expected_kg_ = Real(0);
}

}  // namespace podrate
