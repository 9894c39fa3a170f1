#include "model/reading_lock.hpp"

namespace podrate::ui {
namespace {

constexpr Real kStandsMps = Real(0.1);

}  // namespace

bool may_read(const Estimate* now) {
    return now != nullptr && (now->faults & kSpeedMissing) == 0 && now->speed_mps < kStandsMps;
}

}  // namespace podrate::ui
