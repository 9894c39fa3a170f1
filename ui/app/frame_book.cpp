#include "app/frame_book.hpp"

#include <algorithm>

#include "log/number.hpp"

namespace podrate::ui {
namespace {

constexpr double kLateS = 0.05;

}  // namespace

double FrameBook::now_s() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begun_).count();
}

void FrameBook::day_open() {
    if (day_open_s_ < 0.0) day_open_s_ = now_s();
}

void FrameBook::add(double build_s, double late_s, bool playing) {
    if (first_s_ < 0.0) first_s_ = now_s();
    build_ms_.push_back(static_cast<float>(1e3 * build_s));
    if (!playing) return;
    ++played_;
    if (late_s > kLateS) ++late_;
}

std::string FrameBook::words() const {
    if (build_ms_.empty()) return "no frame was drawn";
    std::vector<float> sorted = build_ms_;
    std::sort(sorted.begin(), sorted.end());
    const auto at = [&](double share) {
        return sim::fixed(
            static_cast<double>(
                sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1))]),
            2);
    };
    std::string words = "first frame after " + sim::fixed(first_s_, 2) + " s";
    if (day_open_s_ >= 0.0) words += ", day open after " + sim::fixed(day_open_s_, 2) + " s";
    return words + "; " + std::to_string(sorted.size()) + " frames built in " + at(0.5) + " ms (median), " +
           at(0.99) + " ms (99th percentile); " + std::to_string(late_) + " of " + std::to_string(played_) +
           " late while playing";
}

}  // namespace podrate::ui
