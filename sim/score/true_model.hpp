// The true plant as a filter sees it: state, transition over a second, noise.
#pragma once

#include <vector>

#include "podrate/filter/kalman.hpp"
#include "podrate/loss/loss_curve.hpp"
#include "score/true_plant.hpp"

namespace podrate::sim {

// The hopper's mass, the flow into it, and the crop against the field's mean: of its parts and of its
// patches, both as ln and each mean-reverting in distance.
class TrueModel {
  public:
    enum State { mass, flow, parts, patches, size };
    using Belief = Gaussian<double, size>;

    // The plant must outlive it.
    explicit TrueModel(const TruePlant& plant);

    [[nodiscard]] Belief start() const;
    // Transition from second `i` to the next. The crop as the truth says, or, where `at` is given, as that
    // state does: then `at` is carried on.
    void step(std::size_t i, Square<double, size>& jacobian, Vector<double, size>& noise,
              Vector<double, size>* at = nullptr) const;
    // Variance of a second's mean reading, kg2, white noise alone.
    [[nodiscard]] double reading_variance(std::size_t i) const;

    // A crop's structure, averaged across the swath: variance and integral length along it.
    struct Structure {
        double variance = 0.0;
        double length_m = 1.0;
    };
    static Structure across_swath(double sd, double length_m, double width_m);

  private:
    template <class Get>
    [[nodiscard]] double between(double at, Get get) const;
    [[nodiscard]] double walked_at(double at) const;

    const TruePlant& plant_;
    LossCurve<double> curve_;
    std::vector<Structure> parts_;  // field by field
    std::vector<Structure> patches_;
    std::vector<double> walked_m_;  // along the crop, second by second
    std::vector<double> slower_;    // the drum under its load
};

}  // namespace podrate::sim
