#include "tune/loss_prior.hpp"

#include <algorithm>
#include <cmath>

#include "log/csv_record.hpp"
#include "log/number.hpp"
#include "log/units.hpp"

namespace podrate::sim {
namespace {

// A day that narrows what was thought by less says nothing worth a row.
constexpr double kLeastLearnt = 0.1;
constexpr int kDecimals = 5;

double as_double(Real value) {
    return static_cast<double>(value);
}

// Of a normal belief made of a prior about zero: what the day said by itself. Nothing where it said hardly
// anything.
std::optional<Measured> without_prior(double mean, double variance, double prior_variance) {
    if (!(variance > 0.0) || !(prior_variance > 0.0)) return std::nullopt;
    const double information = 1.0 / variance - 1.0 / prior_variance;
    if (information * prior_variance < kLeastLearnt) return std::nullopt;
    return Measured{0, mean / variance / information, 1.0 / information};
}

double picking_prior_variance(const Parameters& p) {
    const double low = std::max(as_double(p.picking_loss_low_share), 1e-4);
    const double high = std::max(as_double(p.picking_loss_high_share), low);
    return std::pow(std::log(high / low) / (2.0 * kReach90), 2.0);
}

Real within(const char* name, double value) {
    for (const ParameterInfo& info : kParameterTable) {
        if (std::string(info.name) == name) return static_cast<Real>(std::clamp(value, info.low, info.high));
    }
    return static_cast<Real>(value);
}

const LossPrior* prior_of(const LossFit& fit, LossQuantity quantity) {
    for (const LossPrior& prior : fit.priors) {
        if (prior.quantity == quantity) return &prior;
    }
    return nullptr;
}

void fit_one(LossQuantity quantity, LossFit& fit) {
    LossPrior prior;
    prior.quantity = quantity;
    std::vector<Measured> measured;
    std::vector<LossReading*> of_it;
    for (LossReading& reading : fit.readings) {
        if (reading.quantity != quantity) continue;
        auto machine = std::find(prior.machines.begin(), prior.machines.end(), reading.machine);
        if (machine == prior.machines.end()) {
            prior.machines.push_back(reading.machine);
            machine = prior.machines.end() - 1;
        }
        measured.push_back({static_cast<std::size_t>(machine - prior.machines.begin()), reading.ln_value,
                            reading.ln_sd * reading.ln_sd});
        of_it.push_back(&reading);
    }
    const auto effects = fit_nested(measured, SpreadFit::above_zero);
    if (!effects) return;
    prior.effects = *effects;
    const std::vector<double> residuals = left_out_residuals(measured, SpreadFit::above_zero);
    for (std::size_t i = 0; i < of_it.size(); ++i) of_it[i]->residual = residuals[i];
    fit.priors.push_back(std::move(prior));
}

void add_row(std::string& text, const std::string& day, const std::string& machine, LossQuantity quantity,
             double ln_value, double ln_sd) {
    text += csv_cell(day) + ',' + csv_cell(machine) + ',' + name_of(quantity);
    for (const double at : {0.0, -kReach90, kReach90}) {
        text += ',';
        append_fixed(text, std::exp(ln_value + at * ln_sd), kDecimals);
    }
}

}  // namespace

const char* name_of(LossQuantity quantity) {
    constexpr const char* kNames[kLossQuantities] = {"drum_loss_share", "picking_loss_share", "hits_per_kg"};
    return kNames[static_cast<std::size_t>(quantity)];
}

std::vector<LossReading> loss_readings(const std::string& day, const MachineResult& machine, double hits) {
    std::vector<LossReading> readings;
    if (!machine.usable) return readings;
    const auto add = [&](LossQuantity quantity, double ln_told, const std::optional<Measured>& said) {
        if (said)
            readings.push_back(
                {day, machine.id, quantity, ln_told + said->value, std::sqrt(said->variance), 0.0});
    };
    const Parameters& p = machine.parameters;
    const LossMemory& memory = machine.loss_memory;
    add(LossQuantity::drum, std::log(as_double(p.drum_loss_share)),
        without_prior(as_double(memory.level), as_double(memory.level_variance),
                      as_double(p.drum_loss_ln_sd) * as_double(p.drum_loss_ln_sd)));
    add(LossQuantity::picking, std::log(std::max(as_double(p.picking_loss_share), 1e-4)),
        without_prior(as_double(memory.ln_picking), as_double(memory.ln_picking_variance),
                      picking_prior_variance(p)));
    const double drum_kg = as_double(machine.lost.drum_kg);
    const double ln_sd = as_double(machine.lost.ln_hazard_sd);
    if (hits > 0.0 && drum_kg > 0.0 && ln_sd > 0.0)
        readings.push_back({day, machine.id, LossQuantity::sensor, std::log(hits / drum_kg), ln_sd, 0.0});
    return readings;
}

double LossPrior::value() const {
    return std::exp(effects.mean);
}

double LossPrior::low() const {
    return std::exp(effects.mean - kReach90 * effects.new_sd());
}

double LossPrior::high() const {
    return std::exp(effects.mean + kReach90 * effects.new_sd());
}

double LossPrior::value_of(std::size_t machine) const {
    return std::exp(effects.mean + effects.machines[machine].offset);
}

bool LossPrior::teaches() const {
    if (quantity != LossQuantity::sensor && high() >= 1.0) return false;
    const double sd = effects.new_sd();
    return as_double(within("drum_loss_ln_sd", sd)) > 0.99 * sd;  // not cut off at its upper end
}

LossFit fit_loss(std::vector<LossReading> readings) {
    LossFit fit;
    fit.readings = std::move(readings);
    for (int i = 0; i < kLossQuantities; ++i) fit_one(static_cast<LossQuantity>(i), fit);
    return fit;
}

Parameters with_prior(const Parameters& parameters, const LossFit& fit) {
    Parameters changed = parameters;
    const LossPrior* drum = prior_of(fit, LossQuantity::drum);
    if (drum != nullptr && drum->teaches()) {
        changed.drum_loss_share = within("drum_loss_share", drum->value());
        changed.drum_loss_ln_sd = within("drum_loss_ln_sd", drum->effects.new_sd());
    }
    const LossPrior* picking = prior_of(fit, LossQuantity::picking);
    if (picking != nullptr && picking->teaches()) {
        changed.picking_loss_share = within("picking_loss_share", picking->value());
        changed.picking_loss_low_share = within("picking_loss_low_share", picking->low());
        changed.picking_loss_high_share = within("picking_loss_high_share", picking->high());
    }
    return changed;
}

std::string loss_prior_csv(const LossFit& fit) {
    std::string text = "day,machine,quantity,value,low,high,residual_sd,outlier\n";
    for (const LossReading& reading : fit.readings) {
        add_row(text, reading.day, reading.machine, reading.quantity, reading.ln_value, reading.ln_sd);
        text += ',';
        append_fixed(text, reading.residual, 2);
        text += reading.outlier() ? ",1\n" : ",0\n";
    }
    for (const LossPrior& prior : fit.priors) {
        for (std::size_t i = 0; i < prior.machines.size(); ++i) {
            add_row(text, "", prior.machines[i], prior.quantity,
                    prior.effects.mean + prior.effects.machines[i].offset,
                    prior.effects.machines[i].level_sd);
            text += ",,\n";
        }
        add_row(text, "", "", prior.quantity, prior.effects.mean, prior.effects.new_sd());
        text += ",,\n";
    }
    return text;
}

}  // namespace podrate::sim
