// What came into the hopper when, load by load: from it the age of a load's peas.
#pragma once

#include <vector>

#include "podrate/parameters.hpp"
#include "replay/sink.hpp"

namespace podrate::sim {

struct Parcel {
    TimeUs in_us = 0;  // when it reached the hopper: the middle of kParcelUs
    double kg = 0.0;
};

inline constexpr TimeUs kParcelUs = 10 * kSecondUs;

struct LoadParcels {
    std::uint32_t number = 0;  // the load's
    std::vector<Parcel> parcels;
};

// The flow after the drum is integrated from row to row, over no gap longer than kLongestGapS. What a tip
// leaves in the hopper is taken to be a mixture of what was in it. Peas already aboard when the log begins
// count as having come then.
class HopperParcels : public ReplaySink {
  public:
    explicit HopperParcels(const Parameters& parameters);
    void on_row(const LogRow& row, const Estimate& estimate) override;
    [[nodiscard]] bool asks_all(const LogRow&) const override { return false; }
    void on_load(const Load& load) override;
    // Of closed loads, in order of their numbers.
    [[nodiscard]] const std::vector<LoadParcels>& loads() const { return loads_; }

  private:
    void put_in(TimeUs time_us, double kg);
    void tip_out(double left_kg);

    std::vector<LoadParcels> loads_;
    std::vector<Parcel> hopper_;
    double next_to_nothing_kg_;
    std::uint32_t closing_ = 0;  // load whose rest in the hopper the coming row tells; 0: none
    bool any_ = false;
    TimeUs last_us_ = 0;
    double last_kgps_ = 0.0;
};

}  // namespace podrate::sim
