// The paths of all machines, and the cases that are asked of them.
#pragma once

#include <vector>

#include "plan/forecast_figures.hpp"
#include "plan/machine_paths.hpp"
#include "plan/speed_cost.hpp"

namespace podrate::sim {

class GangPaths {
  public:
    GangPaths(const GangBooks& books, const DayResult& result, const ForecastKeys& keys,
              const PathGrid& grid);

    // Fills cases and back.
    void tell(Forecast& f) const;

  private:
    struct OneMachine {
        MachinePaths as_it_is;
        MachinePaths at_work;  // the same where it is not stopped
        SpeedCost cost;
        // The same at each of kPaces, fewer paths.
        std::vector<MachinePaths> paced;
        std::vector<MachinePaths> paced_at_work;
        bool stopped = false;
    };
    [[nodiscard]] double kg_of(const OneMachine& m, std::size_t pace, const PlanCase& c, std::size_t machine,
                               std::size_t path, std::size_t point) const;
    void tell_case(const Forecast& f, std::size_t machine, PlanCase& c) const;
    [[nodiscard]] SpeedNeed need_of(const Forecast& f, std::size_t machine, const PlanCase& c) const;
    [[nodiscard]] double limit_of(std::size_t machine, const PlanCase& c) const;
    void tell_cost(const Forecast& f, std::size_t machine, const PlanCase& c, SpeedNeed& need) const;
    [[nodiscard]] MachineBack back_of(const Forecast& f, std::size_t machine) const;

    GangModel model_;
    PathGrid grid_;
    double repair_s_;
    std::size_t paths_;
    std::vector<OneMachine> machines_;
};

}  // namespace podrate::sim
