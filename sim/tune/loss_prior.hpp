// What many days taught of the loss, machine by machine: what to think of it beforehand.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "replay/machine_replay.hpp"
#include "tune/nested_effects.hpp"

namespace podrate::sim {

enum class LossQuantity {
    drum,     // ln of the share lost in the drum at the rated feed
    picking,  // ln of the share lost in picking
    sensor,   // ln of the hits that a loss sensor counts for a kilogram lost in the drum
};
inline constexpr int kLossQuantities = 3;

// "drum_loss_share", "picking_loss_share", "hits_per_kg"
const char* name_of(LossQuantity quantity);

// What one machine's day tells of one of them by itself: what was thought beforehand is taken off.
struct LossReading {
    std::string day;
    std::string machine;
    LossQuantity quantity = LossQuantity::drum;
    double ln_value = 0.0;
    double ln_sd = 0.0;
    double residual = 0.0;  // from what all other days tell, in standard deviations
    // Beyond 3 (one good day in 370 is): worth a look at its log, trays and crop.
    [[nodiscard]] bool outlier() const { return residual > 3.0 || residual < -3.0; }
};

// Of a quantity, nothing where the day told hardly more than was thought beforehand. `hits`: of the loss
// sensor over the day, 0 where it has none.
std::vector<LossReading> loss_readings(const std::string& day, const MachineResult& machine, double hits);

struct LossPrior {
    LossQuantity quantity = LossQuantity::drum;
    NestedEffects effects;               // of the logarithm
    std::vector<std::string> machines;   // in the order of effects.machines
    [[nodiscard]] double value() const;  // middle, of a machine not seen yet
    [[nodiscard]] double low() const;    // 90 % range
    [[nodiscard]] double high() const;
    [[nodiscard]] double value_of(std::size_t machine) const;
    // False: the range reaches beyond the whole crop, or further than a parameter can tell it. Of few
    // machines that differ much it does.
    [[nodiscard]] bool teaches() const;
};

struct LossFit {
    std::vector<LossPrior> priors;      // of the quantities that two days or more tell of
    std::vector<LossReading> readings;  // in the order of days and machines, residuals filled in
};

// Hierarchical over machines and days (tune/nested_effects). Order of the readings does not matter to the
// fit.
LossFit fit_loss(std::vector<LossReading> readings);

// The parameters with what is thought of the loss beforehand put in its place, each within its range, where
// the days teach it.
Parameters with_prior(const Parameters& parameters, const LossFit& fit);

// day,machine,quantity,value,low,high,residual_sd,outlier: a row for each reading, then one for each machine
// and for a machine not seen yet (day empty).
std::string loss_prior_csv(const LossFit& fit);

}  // namespace podrate::sim
