// What the machines of a gang share: the fields, their bouts, and where they work now.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "synth/bouts.hpp"
#include "synth/crop_field.hpp"
#include "synth/scenario.hpp"

namespace podrate::sim {

class Gang {
  public:
    explicit Gang(const Scenario& scenario);

    // The gang's field at that time: moves that are due, then the first field with bouts left.
    void update(double time_s);
    [[nodiscard]] std::size_t field() const { return field_; }

    // Takes a free bout of that field near `place`, entered from its nearer end. Nothing where all are done.
    std::optional<Bout> take_bout(std::size_t field, EastNorth place);

    [[nodiscard]] const CropField& crop(std::size_t field) const { return crops_[field]; }

  private:
    const Scenario& scenario_;
    std::vector<CropField> crops_;
    std::vector<std::vector<Bout>> bouts_;
    std::size_t field_ = 0;
    std::size_t moves_done_ = 0;
};

}  // namespace podrate::sim
