// A random field over the plane, and its mean across a swath.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "geo/place.hpp"

namespace podrate::sim {

// Gaussian, mean 0, variance 1, covariance exp(-d/L) in every direction; made of random plane waves (spectral
// method, Shinozuka & Deodatis 1991).
class PlaneField {
  public:
    struct Wave {
        double east_per_m;  // wave numbers, rad/m
        double north_per_m;
        double phase_rad;
    };

    // `waves`: how many; the more, the nearer to Gaussian.
    PlaneField(std::uint64_t seed, std::string_view purpose, double length_m, int waves = 192);
    [[nodiscard]] double at(EastNorth place) const;
    [[nodiscard]] const std::vector<Wave>& waves() const { return waves_; }

  private:
    std::vector<Wave> waves_;
};

// Mean of a field over a line of `width_m` across the heading: each wave loses as much as it turns over that
// line.
class SwathMean {
  public:
    // The field must outlive it.
    SwathMean(const PlaneField& field, double width_m) : field_(&field), width_m_(width_m) {}
    double at(EastNorth place, double heading_deg);
    // Variance of that mean along the last heading.
    [[nodiscard]] double variance() const { return variance_; }

  private:
    void turn_to(double heading_deg);

    const PlaneField* field_;
    double width_m_;
    double heading_deg_ = -1e9;
    double variance_ = 1.0;
    std::vector<double> gains_;
};

}  // namespace podrate::sim
