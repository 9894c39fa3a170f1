#include "model/loss_figures.hpp"

#include <algorithm>
#include <cmath>

#include "log/number.hpp"
#include "log/units.hpp"
#include "model/rounding.hpp"

namespace podrate::ui {
namespace {

constexpr double kLeastScale = 0.2;
constexpr double kScaleStep = 0.1;

std::string whole(double share) {
    return sim::fixed(100.0 * share, 0);
}

// "4 %", or "2 to 7 %" for a guess.
std::string share_words(Real share, Real low, Real high) {
    const auto from = static_cast<double>(low);
    const auto to = static_cast<double>(high);
    if (sureness_of(from, to) == Sureness::guess) return whole(from) + " to " + whole(to) + " %";
    return whole(static_cast<double>(share)) + " %";
}

// Left on the ground where `yield_kgpm2` reaches the hopper.
std::string kgpha(double yield_kgpm2, double share) {
    const double kg = sim::kKgphaPerKgpm2 * yield_kgpm2 * share / (1.0 - std::min(share, 0.99));
    return sim::fixed(kRoundKgpha * std::round(kg / kRoundKgpha), 0);
}

std::string ground_words(const Estimate& e, const LossFigures& f) {
    const auto yield = static_cast<double>(e.yield_kgpm2);
    if (f.sureness == Sureness::guess)
        return kgpha(yield, f.low) + " to " + kgpha(yield, f.high) + " kg/ha on the ground";
    return "about " + kgpha(yield, f.share) + " kg/ha on the ground";
}

}  // namespace

LossFigures loss_figures(const Estimate& e, const Parameters& parameters) {
    LossFigures f;
    if (!(e.area_m2 > Real(0))) return f;
    f.known = true;
    f.now = e.state == WorkState::harvesting;
    f.share = static_cast<double>(e.loss_share);
    f.low = static_cast<double>(e.loss_low);
    f.high = static_cast<double>(e.loss_high);
    f.limit = static_cast<double>(parameters.loss_limit_share);
    f.scale = std::max(kLeastScale, kScaleStep * std::ceil(std::max(f.high, f.limit) / kScaleStep));
    f.limit_words = "limit " + whole(f.limit) + " %";
    f.scale_words = whole(f.scale) + " %";
    f.sureness = sureness_of(f.low, f.high);
    const std::string interval = whole(f.low) + " to " + whole(f.high) + " %";
    const bool guess = f.sureness == Sureness::guess;
    f.figure = guess ? interval : whole(f.share) + " %";
    if (!guess) f.interval = interval;
    f.sure = word_for(f.sureness);
    f.source = loss_source_words({e.tray_checks, e.loss_sensor, static_cast<double>(e.loss_learnt)});
    f.apart = "drum " + share_words(e.drum_loss_share, e.drum_loss_low, e.drum_loss_high) + ", picking " +
              share_words(e.picking_loss_share, e.picking_loss_low, e.picking_loss_high);
    f.ground = ground_words(e, f);
    return f;
}

}  // namespace podrate::ui
