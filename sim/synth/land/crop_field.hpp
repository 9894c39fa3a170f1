// The crop of a field: peas standing, the haulm that comes with them, where it lies flat.
#pragma once

#include <cstdint>
#include <memory>

#include "synth/land/plane_field.hpp"
#include "synth/land/true_ripening.hpp"
#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

// ln of the peas standing is Gaussian with the sum of two exponential covariances: parts of the field, and
// patches of a few paces.
class CropField {
  public:
    // Without `ripening` the reading rises evenly.
    CropField(const ScenarioField& field, std::uint64_t seed,
              std::shared_ptr<const TrueRipening> ripening = nullptr);

    // Peas standing at a point on the first morning, kg/m2.
    [[nodiscard]] double standing_kgpm2(EastNorth place) const;
    // How ripe the field is, in tenderometer points; 0 where the scenario does not tell.
    [[nodiscard]] double tenderometer(double time_s) const;

  private:
    friend class SwathCrop;
    [[nodiscard]] double growth(double time_s) const;
    [[nodiscard]] double lodged(EastNorth place) const;

    ScenarioField told_;
    std::shared_ptr<const TrueRipening> ripening_;
    PlaneField parts_;
    PlaneField patches_;
    PlaneField haulm_;
    PlaneField lodging_;
    double lodged_above_;
};

struct CropHere {
    double standing_kgpm2 = 0.0;
    double haulm_factor = 1.0;       // haulm per pea against the usual
    double lodged = 0.0;             // 0 upright to 1 flat
    double lodged_loss_share = 0.0;  // of the peas, left by the reel for that
};

// The crop as a swath meets it: means across the width.
class SwathCrop {
  public:
    // The field must outlive it.
    SwathCrop(const CropField& field, double width_m);
    CropHere at(EastNorth place, double heading_deg, double time_s);

  private:
    const CropField* field_;
    SwathMean parts_;
    SwathMean patches_;
    SwathMean haulm_;
};

}  // namespace podrate::sim
