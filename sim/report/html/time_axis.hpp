// What the report's drawings over time have in common: their size, the time axis, lines of a level.
#pragma once

#include <string>

#include "podrate/sample.hpp"

namespace podrate::sim {

// Units of the drawing.
inline constexpr double kChartWidth = 1040;
inline constexpr double kChartLeft = 52;
inline constexpr double kChartRight = 16;

// Time on the horizontal axis.
class TimeAxis {
  public:
    TimeAxis(const std::string& time_zone, TimeUs first_us, TimeUs last_us);

    [[nodiscard]] double x(double unix_s) const;
    [[nodiscard]] double first_s() const { return first_s_; }
    [[nodiscard]] double last_s() const { return last_s_; }
    // Hour lines (or finer on a short day) from `top` to `bottom`, with the clock below.
    [[nodiscard]] std::string marks(double top, double bottom) const;

  private:
    std::string zone_;
    double first_s_;
    double last_s_;
};

// Opens a drawing; </svg></div> ends it.
std::string open_svg(double height, const std::string& title);

// A line across at height `y` with its label at the left.
std::string level_line(double y, const std::string& label);

// 1, 2 or 5 times a power of ten, not below `least`.
double round_step(double least);

}  // namespace podrate::sim
