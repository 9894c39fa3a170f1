// What the machines of a gang share: the fields, their bouts, where they work now, and the trailers.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "synth/land/bouts.hpp"
#include "synth/land/crop_field.hpp"
#include "synth/machine/trailers.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

class Gang {
  public:
    explicit Gang(const Scenario& scenario);

    // The gang's field at that time: moves that are due, then the first field with bouts left.
    void update(double time_s);
    [[nodiscard]] std::size_t field() const { return field_; }

    // Takes a free bout of that field near `place`, entered from its nearer end. Nothing where all are done.
    std::optional<Bout> take_bout(std::size_t field, EastNorth place);

    [[nodiscard]] const std::vector<CropField>& crops() const { return crops_; }
    [[nodiscard]] const ScenarioField& field_told(std::size_t field) const { return scenario_.fields[field]; }
    [[nodiscard]] Trailers& trailers() { return trailers_; }
    [[nodiscard]] const Trailers& trailers() const { return trailers_; }

  private:
    const Scenario& scenario_;
    std::vector<CropField> crops_;
    std::vector<std::vector<Bout>> bouts_;
    Trailers trailers_;
    std::size_t field_ = 0;
    std::size_t moves_done_ = 0;
};

}  // namespace podrate::sim
