#include "model/loss_figures.hpp"

#include <algorithm>
#include <cmath>

#include "text/quantity.hpp"

namespace podrate::ui {
namespace {

constexpr double kLeastScale = 0.2;
constexpr double kScaleStep = 0.1;

// "2 to 7 %".
std::string between(double low, double high, const Speech& say) {
    return say.range(say.number(100.0 * low, 0), say.percent(high));
}

// "4 %", or "2 to 7 %" for a guess.
std::string share_words(Real share, Real low, Real high, const Speech& say) {
    const auto from = static_cast<double>(low);
    const auto to = static_cast<double>(high);
    if (sureness_of(from, to) == Sureness::guess) return between(from, to, say);
    return say.percent(static_cast<double>(share));
}

// Left on the ground where `yield_kgpm2` reaches the hopper, kg/m2.
double on_ground(double yield_kgpm2, double share) {
    return yield_kgpm2 * share / (1.0 - std::min(share, 0.99));
}

std::string ground_words(const Estimate& e, const LossFigures& f, const Speech& say) {
    const auto yield = static_cast<double>(e.yield_kgpm2);
    if (f.sureness == Sureness::guess) {
        const std::string low = figure(say, Quantity::ground, on_ground(yield, f.low));
        const std::string high = with_unit(say, Quantity::ground, on_ground(yield, f.high));
        return say(Text::on_ground, {say.range(low, high)});
    }
    return say(Text::on_ground_about, {with_unit(say, Quantity::ground, on_ground(yield, f.share))});
}

}  // namespace

LossFigures loss_figures(const Estimate& e, const Parameters& parameters, const Speech& say) {
    LossFigures f;
    if (!(e.area_m2 > Real(0))) return f;
    f.known = true;
    f.now = e.state == WorkState::harvesting;
    f.share = static_cast<double>(e.loss_share);
    f.low = static_cast<double>(e.loss_low);
    f.high = static_cast<double>(e.loss_high);
    f.limit = static_cast<double>(parameters.loss_limit_share);
    f.scale = std::max(kLeastScale, kScaleStep * std::ceil(std::max(f.high, f.limit) / kScaleStep));
    f.limit_words = say(Text::limit, {say.percent(f.limit)});
    f.scale_words = say.percent(f.scale);
    f.sureness = sureness_of(f.low, f.high);
    const std::string interval = between(f.low, f.high, say);
    const bool guess = f.sureness == Sureness::guess;
    f.figure = guess ? interval : say.percent(f.share);
    if (!guess) f.interval = interval;
    f.sure = say(word_for(f.sureness));
    f.source = loss_source_words({e.tray_checks, e.loss_sensor, static_cast<double>(e.loss_learnt)}, say);
    f.apart = say(Text::loss_apart,
                  {share_words(e.drum_loss_share, e.drum_loss_low, e.drum_loss_high, say),
                   share_words(e.picking_loss_share, e.picking_loss_low, e.picking_loss_high, say)});
    f.ground = ground_words(e, f, say);
    return f;
}

}  // namespace podrate::ui
