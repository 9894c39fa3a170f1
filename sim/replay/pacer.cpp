#include "replay/pacer.hpp"

#include <algorithm>

namespace podrate::sim {
namespace {

constexpr double kMostAhead = 0.03;

}  // namespace

double Pacer::hindmost() const {
    return *std::min_element(share_.begin(), share_.end());
}

void Pacer::begin(std::size_t who) {
    const std::lock_guard<std::mutex> lock(mutex_);
    share_[who] = 0.0;
}

void Pacer::reached(std::size_t who, double share) {
    std::unique_lock<std::mutex> lock(mutex_);
    share_[who] = std::clamp(share, share_[who], 1.0);
    moved_.notify_all();
    moved_.wait(lock, [&] { return share_[who] <= hindmost() + kMostAhead; });
}

void Pacer::end(std::size_t who) {
    const std::lock_guard<std::mutex> lock(mutex_);
    share_[who] = kNotRunning;
    moved_.notify_all();
}

}  // namespace podrate::sim
