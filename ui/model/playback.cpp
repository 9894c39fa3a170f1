#include "model/playback.hpp"

#include <algorithm>

namespace podrate::ui {
namespace {

constexpr int kRates[] = {1, 2, 5, 10, 30, 60, 120, 300, 600};
constexpr int kRateCount = sizeof kRates / sizeof kRates[0];
constexpr double kShownEveryS = 0.5;

}  // namespace

int Playback::rate() const {
    return kRates[rate_index_];
}

void Playback::tick(double elapsed_s) {
    if (!playing_) return;
    now_us_ = std::min(last_us_, now_us_ + static_cast<TimeUs>(elapsed_s * rate() * 1e6));
    since_shown_s_ += elapsed_s;
    if (since_shown_s_ >= kShownEveryS || now_us_ == last_us_) {
        shown_us_ = now_us_;
        since_shown_s_ = 0.0;
    }
    if (now_us_ == last_us_) playing_ = false;
}

void Playback::toggle() {
    if (!playing_ && now_us_ >= last_us_) seek(first_us_);
    playing_ = !playing_;
}

void Playback::seek(TimeUs to_us) {
    now_us_ = std::clamp(to_us, first_us_, last_us_);
    shown_us_ = now_us_;
    since_shown_s_ = 0.0;
}

void Playback::seek_share(double share) {
    seek(first_us_ +
         static_cast<TimeUs>(std::clamp(share, 0.0, 1.0) * static_cast<double>(last_us_ - first_us_)));
}

void Playback::step(double by_s) {
    seek(now_us_ + static_cast<TimeUs>(by_s * 1e6));
}

void Playback::faster() {
    rate_index_ = std::min(rate_index_ + 1, kRateCount - 1);
}

void Playback::slower() {
    rate_index_ = std::max(rate_index_ - 1, 0);
}

double Playback::share() const {
    if (last_us_ <= first_us_) return 0.0;
    return static_cast<double>(now_us_ - first_us_) / static_cast<double>(last_us_ - first_us_);
}

}  // namespace podrate::ui
