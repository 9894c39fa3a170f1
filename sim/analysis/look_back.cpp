#include "analysis/look_back.hpp"

#include "analysis/gang_loss.hpp"
#include "fields/field_figures.hpp"

namespace podrate::sim {

void look_back(const Day& day, DayResult& result) {
    const GangLoss back = gang_loss(day, result);
    result.looked_back = back.machines;
    result.neighbour_pairs = back.pairs;
    result.fields = field_figures(day, result.machines);
}

}  // namespace podrate::sim
