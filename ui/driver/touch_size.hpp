// How large a touch target must be on a screen: 15 mm, for a finger in a glove on a shaking seat.
#pragma once

namespace podrate::ui {

inline constexpr double kTouchMm = 15.0;

// As the window system tells it; 0 mm where it does not.
struct ScreenSize {
    int width_px = 0;
    int height_px = 0;
    int width_mm = 0;
    int height_mm = 0;
};

// Of a screen with that many pixels, taken to have the diagonal that such screens commonly have in a cab:
// 800 x 480 on 7 inches: sqrt(800^2 + 480^2) / (7 x 25.4 mm) = 933.0 / 177.8 = 5.25 px/mm; 1024 x 600 on 10:
// 1186.8 / 254.0 = 4.67; 1280 x 800 on 10.1: 1509.4 / 256.5 = 5.88; 1920 x 1080 on 15.6: 2202.9 / 396.2 =
// 5.56. Standing upright is the same. Any other: the densest of these. Common practice, no source.
double assumed_px_per_mm(int width_px, int height_px);

// What the window system tells where that can be true: 2 to 12 px/mm and within a tenth the same both ways.
// Often it is made up (96 to the inch), so never less than what is assumed.
double px_per_mm(const ScreenSize& screen);

// The side of a target in whole pixels, rounded up.
float touch_side_px(double px_per_mm);

}  // namespace podrate::ui
