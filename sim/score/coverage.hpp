// How often the truth lies inside the intervals that were stated.
#pragma once

#include <array>

namespace podrate::sim {

struct Coverage {
    // Two-sided, of a normal distribution.
    static constexpr std::array<int, 3> kLevels_pct = {50, 90, 95};
    static constexpr std::array<double, 3> kReach_sd = {0.67448975, 1.64485363, 1.95996398};

    std::array<long, 3> inside{};
    long count = 0;

    void add(double error, double sd);
    // For an interval [low, high] stated at 90 %: as a normal on the scale of ln(p/(1-p)), each side apart.
    void add_share(double truth, double middle, double low, double high);
    void add(const Coverage& other);
    [[nodiscard]] double pct(std::size_t level) const;
};

}  // namespace podrate::sim
