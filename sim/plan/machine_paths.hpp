// One machine's rest of the day, many times over.
#pragma once

#include <vector>

#include "plan/forecast_figures.hpp"
#include "plan/path_draws.hpp"

namespace podrate::sim {

enum class Begin {
    as_it_is,  // stopped, waiting or at work as the books end
    at_work,   // back at work now, whatever stopped it
};

class MachinePaths {
  public:
    // kg that leave the hopper from now on. `pace`: factor on the rate while it harvests.
    MachinePaths(const GangModel& model, std::size_t machine, const std::vector<PathDraws>& draws,
                 std::uint64_t seed, const PathGrid& grid, Begin begin, double pace = 1.0);

    [[nodiscard]] double kg(std::size_t path, std::size_t point) const {
        return kg_[path * grid_.points() + point];
    }
    // The same, had everything come `late_s` later; none before. Linear between the grid's points.
    [[nodiscard]] double kg_late(std::size_t path, std::size_t point, double late_s) const;

  private:
    PathGrid grid_;
    std::vector<double> kg_;
};

}  // namespace podrate::sim
