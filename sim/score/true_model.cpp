#include "score/true_model.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {
namespace {

constexpr double kStartFlowVariance = 1e-6;

}  // namespace

// The covariance of means over lines `width_m` long, `d` apart along the swath, is the mean of exp(-r/L) over
// all pairs of their points; its integral over d gives the length of an exponential that is worth the same.
TrueModel::Structure TrueModel::across_swath(double sd, double length_m, double width_m) {
    constexpr int kPieces = 24;
    const auto covariance = [&](double d) {
        double sum = 0.0;
        for (int i = 0; i < kPieces; ++i) {
            const double x = width_m * (i + 0.5) / kPieces;
            sum += 2.0 * (width_m - x) * math::exp(-std::hypot(x, d) / length_m);
        }
        return sum / (width_m * kPieces);
    };
    const double at_0 = covariance(0.0);
    const double step_m = length_m / 20.0;
    double integral_m = 0.5 * at_0 * step_m;
    for (int i = 1; i < 240; ++i) integral_m += covariance(i * step_m) * step_m;
    return {sd * sd * at_0, integral_m / at_0};
}

TrueModel::TrueModel(const TruePlant& plant) : plant_(plant) {
    const ScenarioDrum& drum = plant.drum;
    curve_.picking_share = drum.picking_loss_share;
    curve_.level_a = LossCurve<double>::level_for(drum.loss_share);
    curve_.rated_feed_kgps = drum.rated_feed_kgps;
    curve_.steepness_kgps = drum.feed_steepness_kgps;
    for (const ScenarioField& field : plant.fields) {
        parts_.push_back(across_swath(field.crop_cv, field.crop_length_m, plant.width_m));
        patches_.push_back(across_swath(field.patch_cv, field.patch_length_m, plant.width_m));
    }
    const TrueSecond* last_cut = nullptr;
    double walked_m = 0.0;
    double felt_kgps = 0.0;
    for (const TrueSecond& second : plant.seconds) {
        if (second.area_rate_m2ps > 0.0 && walked_m_.size() > 0) {
            double step_m = second.speed_mps;
            // After a turn the crop is another's neighbour: as far as the places lie apart.
            if (last_cut != nullptr && last_cut != &second - 1)
                step_m = std::hypot(second.east_m - last_cut->east_m, second.north_m - last_cut->north_m);
            walked_m += step_m;
        }
        if (second.area_rate_m2ps > 0.0) last_cut = &second;
        walked_m_.push_back(walked_m);
        felt_kgps += (second.feed_kgps - felt_kgps) * std::min(1.0, 1.0 / drum.lag_s);
        slower_.push_back(1.0 + drum.load_share * (felt_kgps / drum.rated_feed_kgps - 1.0));
    }
}

TrueModel::Belief TrueModel::start() const {
    Belief belief;
    belief.covariance.setZero();
    belief.covariance(mass, mass) = plant_.scale.noise_moving_kg * plant_.scale.noise_moving_kg;
    belief.covariance(flow, flow) = kStartFlowVariance;
    const std::size_t field = plant_.seconds.front().field;
    belief.covariance(parts, parts) = parts_[field].variance;
    belief.covariance(patches, patches) = patches_[field].variance;
    return belief;
}

double TrueModel::reading_variance(std::size_t i) const {
    const double kg = plant_.seconds[i].moving ? plant_.scale.noise_moving_kg : plant_.scale.noise_still_kg;
    return kg * kg / plant_.senses.rate_hz;
}

void TrueModel::step(std::size_t i, Square<double, size>& jacobian, Vector<double, size>& noise,
                     Vector<double, size>* at) const {
    const double then = static_cast<double>(i) + 0.5 - plant_.drum.dead_time_s * slower_[i];
    const double lag_s = plant_.drum.lag_s * slower_[i];
    const double kept = math::exp(-1.0 / lag_s);
    const double gone = 1.0 - kept;
    jacobian.setIdentity();
    noise.setZero();
    jacobian(mass, flow) = lag_s * gone;
    jacobian(flow, flow) = kept;
    double arriving_kgps = 0.0;
    if (then >= 0.0) {
        const auto second = std::min(static_cast<std::size_t>(then), plant_.seconds.size() - 1);
        const ScenarioField& field = plant_.fields[plant_.seconds[second].field];
        const double area_rate = between(then, [](const TrueSecond& s) { return s.area_rate_m2ps; });
        double crop_kgps =
            between(then, [](const TrueSecond& s) { return s.area_rate_m2ps * s.standing_kgpm2; });
        double feed_kgps = between(then, [](const TrueSecond& s) { return s.feed_kgps; });
        double passed = 1.0 - between(then, [](const TrueSecond& s) { return s.loss_share; });
        const Structure& of_parts = parts_[plant_.seconds[second].field];
        const Structure& of_patches = patches_[plant_.seconds[second].field];
        if (at != nullptr) {
            const double ln_crop =
                math::ln(field.crop_kgpm2) - 0.5 * (of_parts.variance + of_patches.variance);
            crop_kgps = area_rate * math::exp(ln_crop + (*at)(parts) + (*at)(patches));
            feed_kgps = (1.0 + plant_.drum.haulm_ratio) * crop_kgps;
            passed = 1.0 - curve_.loss_share(feed_kgps);
        }
        const double hazard = curve_.hazard(feed_kgps);
        arriving_kgps = crop_kgps * passed;
        const double answer = arriving_kgps * (1.0 - hazard * feed_kgps / plant_.drum.feed_steepness_kgps);
        const double walked_m = walked_at(then + 0.5) - walked_at(then - 0.5);
        const auto revert = [&](State state, const Structure& structure) {
            const double likeness = math::exp(-walked_m / structure.length_m);
            jacobian(mass, state) = answer * (1.0 - lag_s * gone);
            jacobian(flow, state) = answer * gone;
            jacobian(state, state) = likeness;
            noise(state) = structure.variance * (1.0 - likeness * likeness);
            if (at != nullptr) (*at)(state) *= likeness;
        };
        revert(parts, of_parts);
        revert(patches, of_patches);
    }
    if (at == nullptr) return;
    (*at)(mass) += arriving_kgps + ((*at)(flow)-arriving_kgps) * lag_s * gone;
    (*at)(flow) = (*at)(flow)*kept + arriving_kgps * gone;
}

template <class Get>
double TrueModel::between(double at, Get get) const {
    const auto i = std::min(static_cast<std::size_t>(at), plant_.seconds.size() - 1);
    const std::size_t j = std::min(i + 1, plant_.seconds.size() - 1);
    const double share = std::clamp(at - static_cast<double>(i), 0.0, 1.0);
    return (1.0 - share) * get(plant_.seconds[i]) + share * get(plant_.seconds[j]);
}

double TrueModel::walked_at(double at) const {
    if (at <= 0.0) return 0.0;
    const auto i = std::min(static_cast<std::size_t>(at), walked_m_.size() - 1);
    const std::size_t j = std::min(i + 1, walked_m_.size() - 1);
    return walked_m_[i] + std::clamp(at - static_cast<double>(i), 0.0, 1.0) * (walked_m_[j] - walked_m_[i]);
}

}  // namespace podrate::sim
