#include "report/tuning/loss_prior_words.hpp"

#include <cmath>
#include <set>

#include "log/number.hpp"
#include "log/units.hpp"
#include "report/tuning/tuning_words.hpp"

namespace podrate::sim {
namespace {

// With fewer, how far machines or days differ is itself hardly known; common practice, no source.
constexpr std::size_t kFewMachines = 3;
constexpr std::size_t kFewDays = 5;

constexpr LossQuantity kQuantities[] = {LossQuantity::drum, LossQuantity::picking, LossQuantity::sensor};

std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

const LossPrior* found_prior(const LossFit& fit, LossQuantity quantity) {
    for (const LossPrior& prior : fit.priors) {
        if (prior.quantity == quantity) return &prior;
    }
    return nullptr;
}

std::string from_to(LossQuantity quantity, double low, double high) {
    return loss_value_text(quantity, low) + " to " + loss_value_text(quantity, high);
}

std::string told_so_far(const Parameters& own, LossQuantity quantity) {
    if (quantity == LossQuantity::sensor) return {};
    const bool drum = quantity == LossQuantity::drum;
    const double value = static_cast<double>(drum ? own.drum_loss_share : own.picking_loss_share);
    const double reach = std::exp(kReach90 * static_cast<double>(own.drum_loss_ln_sd));
    const double low = drum ? value / reach : static_cast<double>(own.picking_loss_low_share);
    const double high = drum ? value * reach : static_cast<double>(own.picking_loss_high_share);
    return "; told so far: " + loss_value_text(quantity, value) + ", " + from_to(quantity, low, high);
}

// A spread of logarithms as one in a hundred: a factor of 1.25 is 25 %.
std::string spread_text(double ln_sd) {
    if (ln_sd > std::log(11.0)) return "more than tenfold";
    return fixed(100.0 * std::expm1(ln_sd), 0) + " %";
}

std::string apart_text(const LossPrior& prior, const LossBasis& basis) {
    const NestedEffects& effects = prior.effects;
    if (basis.machines < 2) return "its days differ by " + spread_text(effects.day_sd);
    if (basis.machine_days == basis.machines)
        return "machines, with their day, differ by " + spread_text(effects.machine_sd);
    return "machines differ by " + spread_text(effects.machine_sd) + ", days of a machine by " +
           spread_text(effects.day_sd);
}

std::string basis_text(const LossBasis& basis) {
    const auto count = [](std::size_t n, const char* one, const char* more) {
        return count_text(static_cast<double>(n), one, more);
    };
    return count(basis.days, "day", "days") + " and " + count(basis.machines, "machine", "machines") + " (" +
           count(basis.machine_days, "machine day", "machine days") + ")";
}

std::string sentence_of(const LossOfDays& told, const LossPrior& prior) {
    const LossQuantity quantity = prior.quantity;
    const LossBasis basis = basis_of(told.fit, quantity);
    if (!prior.teaches())
        return capital(words_for(quantity)) + ": 9 times in 10 " +
               from_to(quantity, prior.low(), prior.high()) +
               ", which says nothing of the next machine and goes into no set" +
               told_so_far(told.own, quantity) + "; " + apart_text(prior, basis) + "; it rests on " +
               basis_text(basis) + ".";
    return capital(words_for(quantity)) + ": think beforehand of " +
           loss_value_text(quantity, prior.value()) + " (9 times in 10 " +
           from_to(quantity, prior.low(), prior.high()) + ")" + told_so_far(told.own, quantity) + "; " +
           apart_text(prior, basis) + "; it rests on " + basis_text(basis) + ".";
}

}  // namespace

const char* words_for(LossQuantity quantity) {
    constexpr const char* kWords[kLossQuantities] = {"loss in the drum at the rated feed", "loss in picking",
                                                     "hits for a kilogram lost in the drum"};
    return kWords[static_cast<std::size_t>(quantity)];
}

std::string loss_value_text(LossQuantity quantity, double value) {
    const bool share = quantity != LossQuantity::sensor;
    if (share && value > 1.0) return "over 100 %";
    const double said = share ? 100.0 * value : value;
    const int decimals = said < 1.0 ? 2 : (said < (share ? 20.0 : 10.0) ? 1 : 0);
    return fixed(said, decimals) + (share ? " %" : "");
}

std::string loss_range_text(LossQuantity quantity, double ln_value, double ln_sd) {
    return loss_value_text(quantity, std::exp(ln_value)) + " (" +
           from_to(quantity, std::exp(ln_value - kReach90 * ln_sd), std::exp(ln_value + kReach90 * ln_sd)) +
           ")";
}

LossBasis basis_of(const LossFit& fit, LossQuantity quantity) {
    std::set<std::string> machines;
    std::set<std::string> days;
    LossBasis basis;
    for (const LossReading& reading : fit.readings) {
        if (reading.quantity != quantity) continue;
        machines.insert(reading.machine);
        days.insert(reading.day);
        ++basis.machine_days;
    }
    basis.machines = machines.size();
    basis.days = days.size();
    return basis;
}

std::string loss_prior_summary(const LossOfDays& told) {
    std::string text;
    for (const LossPrior& prior : told.fit.priors)
        text += (text.empty() ? "" : " ") + sentence_of(told, prior);
    if (text.empty()) text = "The days teach too little of the loss: stay with what was told so far.";
    return text;
}

std::vector<std::string> loss_prior_outliers(const LossFit& fit) {
    std::vector<std::string> sentences;
    for (const LossReading& reading : fit.readings) {
        if (!reading.outlier()) continue;
        sentences.push_back("Outlier: " + reading.machine + ", " + reading.day + ": " +
                            words_for(reading.quantity) + " " +
                            loss_range_text(reading.quantity, reading.ln_value, reading.ln_sd) + ", " +
                            fixed(std::abs(reading.residual), 1) + " standard deviations " +
                            (reading.residual > 0.0 ? "above" : "below") +
                            " what all others tell. Look at its log, its trays and the crop.");
    }
    return sentences;
}

std::vector<std::string> loss_prior_warnings(const LossOfDays& told) {
    std::vector<std::string> sentences;
    for (const LossQuantity quantity : kQuantities) {
        const LossBasis basis = basis_of(told.fit, quantity);
        const std::string name = words_for(quantity);
        if (found_prior(told.fit, quantity) == nullptr) {
            sentences.push_back("Of the " + name + " " +
                                (basis.machine_days == 0 ? "no machine day" : "but one machine day") +
                                " told anything: nothing is concluded.");
        } else if (basis.machines < kFewMachines || basis.days < kFewDays) {
            const bool teaches = found_prior(told.fit, quantity)->teaches();
            sentences.push_back("Of the " + name + " only " + basis_text(basis) +
                                " told anything: how far others may differ is hardly known" +
                                (teaches ? ", and the range is likely too narrow" : "") + ". Wait for " +
                                std::to_string(kFewMachines) + " machines and " + std::to_string(kFewDays) +
                                " days before you rely on it.");
        }
    }
    return sentences;
}

std::string loss_prior_note(const LossOfDays& told) {
    std::string text = "What to think of the loss beforehand, from " +
                       count_text(static_cast<double>(told.days), "day", "days") + " of " +
                       count_text(static_cast<double>(told.machines), "machine", "machines") + ".";
    for (const LossPrior& prior : told.fit.priors) {
        if (prior.quantity == LossQuantity::sensor || !prior.teaches()) continue;
        const LossBasis basis = basis_of(told.fit, prior.quantity);
        text += " " + capital(words_for(prior.quantity)) + " rests on " + basis_text(basis);
        text += basis.machines < kFewMachines || basis.days < kFewDays ? ", which is little." : ".";
    }
    return text;
}

}  // namespace podrate::sim
