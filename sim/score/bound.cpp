#include "score/bound.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "podrate/filter/kalman.hpp"
#include "podrate/filter/loss_curve.hpp"

namespace podrate::sim {
namespace {

constexpr int kStates = 3;
enum { kMass, kFlow, kCrop };
using Matrix = Square<double, kStates>;
using Belief = Gaussian<double, kStates>;

constexpr double kTipNoiseKg = 5.0;

// The drum sees at time t what was cut a dead time before: the truth of whole seconds, between them linearly.
struct Delayed {
    double area_rate_m2ps;
    double standing_kgpm2;
    double distance_m;  // along the crop over the second
    const TrueCrop* crop;
};

class Plant {
  public:
    Plant(const TrueMachine& machine, const std::vector<TrueCrop>& crops,
          const std::vector<TrueSecond>& seconds)
        : machine_(machine), crops_(crops), seconds_(seconds) {
        curve_.picking_share = machine.picking_loss_share;
        curve_.level_a = LossCurve<double>::level_for(machine.drum_loss_share);
        curve_.rated_feed_kgps = machine.rated_feed_kgps;
        curve_.steepness_kgps = machine.feed_steepness_kgps;
        walked_m_.push_back(0.0);
        const TrueSecond* last_cut = nullptr;
        for (std::size_t i = 1; i < seconds.size(); ++i) {
            double step_m = 0.0;
            if (seconds[i].area_rate_m2ps > 0.0) {
                step_m = seconds[i].area_rate_m2ps / seconds[i].width_m;
                // After a turn the crop is another's neighbour: as far as the places lie apart.
                if (last_cut != nullptr && last_cut != &seconds[i - 1]) {
                    step_m = std::hypot(seconds[i].east_m - last_cut->east_m,
                                        seconds[i].north_m - last_cut->north_m);
                }
                last_cut = &seconds[i];
            }
            walked_m_.push_back(walked_m_.back() + step_m);
        }
    }

    // Transition over one second from time i and its noise.
    void step(std::size_t i, Matrix& jacobian, Vector<double, kStates>& noise) const {
        const double at = static_cast<double>(i) + 0.5 - machine_.dead_time_s;
        const double kept = math::exp(-1.0 / machine_.lag_s);
        const double gone = 1.0 - kept;
        jacobian.setIdentity();
        noise.setZero();
        jacobian(kMass, kFlow) = machine_.lag_s * gone;
        jacobian(kFlow, kFlow) = kept;
        if (at < 0.0) return;
        const double area_rate = between(at, [](const TrueSecond& s) { return s.area_rate_m2ps; });
        const double crop_kgps =
            area_rate * between(at, [](const TrueSecond& s) { return s.standing_kgpm2; });
        const double feed = (1.0 + machine_.haulm_ratio) * crop_kgps;
        const double hazard = curve_.hazard(feed);
        const double answer =
            crop_kgps * curve_.passed_share(hazard) * (1.0 - hazard * feed / machine_.feed_steepness_kgps);
        jacobian(kMass, kCrop) = answer * (1.0 - machine_.lag_s * gone);
        jacobian(kFlow, kCrop) = answer * gone;
        const TrueCrop& crop = crops_[seconds_[static_cast<std::size_t>(at)].field];
        const double likeness = math::exp(-(walked_at(at + 0.5) - walked_at(at - 0.5)) / crop.length_m);
        jacobian(kCrop, kCrop) = likeness;
        noise(kCrop) = crop.cv * crop.cv * (1.0 - likeness * likeness);
    }

  private:
    template <class Get>
    [[nodiscard]] double between(double at, Get get) const {
        const auto i = std::min(static_cast<std::size_t>(at), seconds_.size() - 1);
        const std::size_t j = std::min(i + 1, seconds_.size() - 1);
        const double share = std::clamp(at - static_cast<double>(i), 0.0, 1.0);
        return (1.0 - share) * get(seconds_[i]) + share * get(seconds_[j]);
    }
    [[nodiscard]] double walked_at(double at) const {
        if (at <= 0.0) return 0.0;
        const auto i = std::min(static_cast<std::size_t>(at), walked_m_.size() - 1);
        const std::size_t j = std::min(i + 1, walked_m_.size() - 1);
        return walked_m_[i] +
               std::clamp(at - static_cast<double>(i), 0.0, 1.0) * (walked_m_[j] - walked_m_[i]);
    }

    const TrueMachine& machine_;
    const std::vector<TrueCrop>& crops_;
    const std::vector<TrueSecond>& seconds_;
    LossCurve<double> curve_;
    std::vector<double> walked_m_;
};

}  // namespace

FlowBound flow_bound(const TrueMachine& machine, const std::vector<TrueCrop>& crops,
                     const std::vector<TrueSecond>& seconds) {
    FlowBound bound;
    if (seconds.empty()) return bound;
    const Plant plant(machine, crops, seconds);
    Belief belief;
    belief.covariance.setZero();
    belief.covariance(kMass, kMass) = machine.noise_moving_kg * machine.noise_moving_kg;
    belief.covariance(kFlow, kFlow) = 1e-6;
    const TrueCrop& first = crops[seconds.front().field];
    belief.covariance(kCrop, kCrop) = first.cv * first.cv;

    std::vector<Matrix> filtered;
    std::vector<Matrix> predicted;
    std::vector<Matrix> jacobians;
    for (std::size_t i = 0; i < seconds.size(); ++i) {
        Matrix jacobian = Matrix::Identity();
        if (i > 0) {
            Vector<double, kStates> noise;
            plant.step(i - 1, jacobian, noise);
            predict_covariance(belief, jacobian, noise);
        }
        jacobians.push_back(jacobian);
        predicted.push_back(belief.covariance);
        const double reading_kg = seconds[i].moving ? machine.noise_moving_kg : machine.noise_still_kg;
        if (seconds[i].tipping) {
            belief.covariance.row(kMass).setZero();
            belief.covariance.col(kMass).setZero();
            belief.covariance(kMass, kMass) = kTipNoiseKg * kTipNoiseKg;
        } else {
            update_scalar(belief, kMass, 0.0, reading_kg * reading_kg / machine.rate_hz);
        }
        filtered.push_back(belief.covariance);
        bound.filter_variance.push_back(belief.covariance(kFlow, kFlow));
    }

    bound.smoother_variance = bound.filter_variance;
    Matrix smoothed = filtered.back();
    for (std::size_t i = seconds.size() - 1; i-- > 0;) {
        if (seconds[i + 1].tipping) {
            // The tip tells the mass anew: only flow and crop carry information back across it.
            smoothed.row(kMass) = predicted[i + 1].row(kMass);
            smoothed.col(kMass) = predicted[i + 1].col(kMass);
        }
        // A trace added to the diagonal: an empty drum's flow is known exactly, and exactly cannot be
        // inverted.
        const Matrix regular = predicted[i + 1] + 1e-12 * Matrix::Identity();
        const Matrix gain = filtered[i] * jacobians[i + 1].transpose() * regular.inverse();
        smoothed = filtered[i] + gain * (smoothed - predicted[i + 1]) * gain.transpose();
        bound.smoother_variance[i] = std::clamp(smoothed(kFlow, kFlow), 0.0, bound.filter_variance[i]);
    }
    return bound;
}

}  // namespace podrate::sim
