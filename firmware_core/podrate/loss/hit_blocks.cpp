#include "podrate/loss/hit_blocks.hpp"

#include "podrate/choices.hpp"

namespace podrate {
namespace {

using namespace choices::loss;

Real seconds(TimeUs span_us) {
    return static_cast<Real>(span_us) / Real(1e6);
}

}  // namespace

HitBlocks::HitBlocks(Real delay_s) : delay_us_(static_cast<TimeUs>(delay_s * Real(1e6))) {}

void HitBlocks::add(TimeUs time_us, Real new_hits) {
    // After a silence nobody knows when the hits came.
    if (any_ && time_us - newest_us_ <= kHitsSilenceUs) line_.add(newest_us_, time_us, new_hits);
    any_ = true;
    newest_us_ = time_us;
}

bool HitBlocks::reach(TimeUs cut_us, Real expected_kgps) {
    if (!any_) return false;
    if (cut_us - block_to_us_ > kSecondUs || cut_us < block_to_us_) {  // a break: begin anew
        block_from_us_ = cut_us;
        expected_kg_ = Real(0);
    } else {
        expected_kg_ += expected_kgps * seconds(cut_us - block_to_us_);
    }
    block_to_us_ = cut_us;
    // The sensor may speak less often than the weight: a block waits for it.
    const bool heard = block_to_us_ + delay_us_ <= newest_us_;
    if (!heard || block_to_us_ - block_from_us_ < kHitsBlockUs) return false;
    block_s_ = seconds(block_to_us_ - block_from_us_);
    hits_per_s_ = line_.between(block_from_us_ + delay_us_, block_to_us_ + delay_us_) / block_s_;
    expected_kgps_ = expected_kg_ / block_s_;
    block_from_us_ = cut_us;
    expected_kg_ = Real(0);
    return true;
}

}  // namespace podrate
