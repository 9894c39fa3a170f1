#include "synth/land/crop_field.hpp"

#include <algorithm>
#include <cmath>

#include "podrate/math/elementary.hpp"

namespace podrate::sim {
namespace {

constexpr double kSecondsPerDay = 86400.0;
constexpr int kPatchWaves = 384;
constexpr double kLodgedRamp = 0.3;  // sd of the field over which a patch passes from upright to flat

double square(double x) {
    return x * x;
}

// The value that a standard normal exceeds with probability `share`, by bisection.
double exceeded_by(double share) {
    double low = -8.0;
    double high = 8.0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (0.5 * std::erfc(middle / std::sqrt(2.0)) > share ? low : high) = middle;
    }
    return low;
}

}  // namespace

CropField::CropField(const ScenarioField& field, std::uint64_t seed,
                     std::shared_ptr<const TrueRipening> ripening)
    : told_(field),
      ripening_(std::move(ripening)),
      parts_(seed, "crop " + field.name, field.crop_length_m),
      patches_(seed, "patches " + field.name, field.patch_length_m, kPatchWaves),
      haulm_(seed, "haulm " + field.name, field.crop_length_m),
      lodging_(seed, "lodging " + field.name, field.lodged_length_m),
      lodged_above_(exceeded_by(field.lodged_share)) {}

double CropField::standing_kgpm2(EastNorth place) const {
    const double ln_mean =
        math::ln(told_.crop_kgpm2) - 0.5 * (square(told_.crop_cv) + square(told_.patch_cv));
    return math::exp(ln_mean + told_.crop_cv * parts_.at(place) + told_.patch_cv * patches_.at(place));
}

double CropField::tenderometer(double time_s) const {
    if (told_.tenderometer <= 0.0) return 0.0;
    if (ripening_ != nullptr) return told_.tenderometer * math::exp(ripening_->ln_rise(time_s));
    return told_.tenderometer + told_.tenderometer_per_day * time_s / kSecondsPerDay;
}

double CropField::growth(double time_s) const {
    if (told_.tenderometer <= 0.0) return 1.0;
    if (ripening_ != nullptr)
        return std::max(0.1, 1.0 + told_.yield_per_point * (tenderometer(time_s) - told_.tenderometer));
    return std::max(0.1, 1.0 + told_.yield_per_point * told_.tenderometer_per_day * time_s / kSecondsPerDay);
}

double CropField::lodged(EastNorth place) const {
    if (told_.lodged_share <= 0.0) return 0.0;
    return std::clamp(0.5 + (lodging_.at(place) - lodged_above_) / kLodgedRamp, 0.0, 1.0);
}

SwathCrop::SwathCrop(const CropField& field, double width_m)
    : field_(&field),
      parts_(field.parts_, width_m),
      patches_(field.patches_, width_m),
      haulm_(field.haulm_, width_m) {}

CropHere SwathCrop::at(EastNorth place, double heading_deg, double time_s) {
    const ScenarioField& told = field_->told_;
    const double parts = parts_.at(place, heading_deg);
    const double patches = told.patch_cv > 0.0 ? patches_.at(place, heading_deg) : 0.0;
    const double ln_spread = told.crop_cv * parts + told.patch_cv * patches;
    const double ln_variance =
        square(told.crop_cv) * parts_.variance() + square(told.patch_cv) * patches_.variance();
    CropHere here;
    here.standing_kgpm2 = told.crop_kgpm2 * field_->growth(time_s) * math::exp(ln_spread - 0.5 * ln_variance);
    const double haulm = told.haulm_cv > 0.0 ? told.haulm_cv * haulm_.at(place, heading_deg) : 0.0;
    here.haulm_factor = math::exp(told.haulm_follows_crop * ln_spread + haulm);
    here.lodged = field_->lodged(place);
    here.lodged_loss_share = here.lodged * told.lodged_loss_share;
    return here;
}

}  // namespace podrate::sim
