#include "driver/touch_size.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::ui {
namespace {

constexpr double kMmPerInch = 25.4;
constexpr double kLeastPxPerMm = 2.0;
constexpr double kMostPxPerMm = 12.0;
constexpr double kSkew = 1.1;  // of one direction over the other

struct CommonScreen {
    int long_px;
    int short_px;
    double diagonal_inch;
};

constexpr CommonScreen kCommon[] = {
    {800, 480, 7.0}, {1024, 600, 10.0}, {1280, 800, 10.1}, {1920, 1080, 15.6}};

double density_of(const CommonScreen& screen) {
    return std::sqrt(
               static_cast<double>(screen.long_px * screen.long_px + screen.short_px * screen.short_px)) /
           (screen.diagonal_inch * kMmPerInch);
}

}  // namespace

double assumed_px_per_mm(int width_px, int height_px) {
    double densest = 0.0;
    for (const CommonScreen& screen : kCommon) {
        if (std::max(width_px, height_px) == screen.long_px &&
            std::min(width_px, height_px) == screen.short_px)
            return density_of(screen);
        densest = std::max(densest, density_of(screen));
    }
    return densest;
}

double px_per_mm(const ScreenSize& screen) {
    const double assumed = assumed_px_per_mm(screen.width_px, screen.height_px);
    if (screen.width_mm <= 0 || screen.height_mm <= 0) return assumed;
    const double across = static_cast<double>(screen.width_px) / screen.width_mm;
    const double up = static_cast<double>(screen.height_px) / screen.height_mm;
    const bool even = across <= kSkew * up && up <= kSkew * across;
    const double told = std::max(across, up);
    if (!even || told < kLeastPxPerMm || told > kMostPxPerMm) return assumed;
    return std::max(told, assumed);
}

float touch_side_px(double px_per_mm) {
    return static_cast<float>(std::ceil(kTouchMm * px_per_mm));
}

}  // namespace podrate::ui
