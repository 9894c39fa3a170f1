// What many days taught of the loss, in plain words.
#pragma once

#include <string>
#include <vector>

#include "tune/loss_of_days.hpp"

namespace podrate::sim {

// "loss in the drum at the rated feed", "loss in picking", "hits for a kilogram lost in the drum".
const char* words_for(LossQuantity quantity);

// "4.1 %", "0.38 %", "140": of a value, not its logarithm.
std::string loss_value_text(LossQuantity quantity, double value);
// "4.1 % (2.0 % to 8.3 %)", 9 times in 10, of a logarithm.
std::string loss_range_text(LossQuantity quantity, double ln_value, double ln_sd);

// On what one of them rests.
struct LossBasis {
    std::size_t machines = 0;
    std::size_t days = 0;
    std::size_t machine_days = 0;
};
LossBasis basis_of(const LossFit& fit, LossQuantity quantity);

// What to think of the loss beforehand, what was told so far, how far machines and days differ, on what that
// rests.
std::string loss_prior_summary(const LossOfDays& told);

// A sentence for each reading far from all others.
std::vector<std::string> loss_prior_outliers(const LossFit& fit);

// Too few machines or days, or nothing learnt; none where there is nothing to warn of.
std::vector<std::string> loss_prior_warnings(const LossOfDays& told);

// For the parameter set.
std::string loss_prior_note(const LossOfDays& told);

}  // namespace podrate::sim
