#include "podrate/advice/advisor.hpp"

#include "podrate/choices.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate {

using namespace choices::advice;

const char* name_of(Binding binding) {
    switch (binding) {
        case Binding::unsure: return "unsure";
        case Binding::loss_limit: return "loss_limit";
        case Binding::wanted_rate: return "wanted_rate";
        case Binding::machine_limits: return "machine_limits";
    }
    return "";
}

Advisor::Advisor(const Parameters& parameters)
    : width_m_(parameters.width_m),
      loss_limit_share_(parameters.loss_limit_share),
      wanted_rate_kgps_(parameters.wanted_rate_kgps),
      speed_least_mps_(parameters.speed_least_mps),
      speed_most_mps_(parameters.speed_most_mps > speed_least_mps_ ? parameters.speed_most_mps
                                                                   : speed_least_mps_) {}

void Advisor::look(TimeUs now_us, const FlowFilter& filter, Real speed_mps) {
    if (!due(now_us)) return;
    const Real span_s = looked_ ? math::clamp(seconds(now_us - looked_us_), Real(0), kLongestSpanS) : Real(0);
    looked_ = true;
    looked_us_ = now_us;
    const SpeedOutlook outlook(filter, width_m_);
    advice_.under_limit = outlook.under(loss_limit_share_);
    advice_.for_rate = outlook.for_rate(wanted_rate_kgps_);
    advice_.past_fold = speed_mps > outlook.fold_mps();
    const auto step = [&](Real to_mps) {
        return SpeedStep{outlook.rate_kgps(to_mps) - outlook.rate_kgps(speed_mps),
                         outlook.ground_kgpm2(to_mps) - outlook.ground_kgpm2(speed_mps)};
    };
    advice_.faster = step(speed_mps + kSpeedStepMps);
    advice_.slower = step(speed_mps > kSpeedStepMps ? speed_mps - kSpeedStepMps : Real(0));
    approach(choose_mps(), span_s);
}

// Never faster than the loss allows, never faster than is wanted, never outside the machine's limits; nothing
// where the loss is not known closely enough to say.
Real Advisor::choose_mps() {
    const SpeedRange& most = advice_.under_limit;
    advice_.binding = Binding::unsure;
    if (!most.known || most.high_mps > most.speed_mps * kSureWithin) return Real(0);
    advice_.binding = Binding::loss_limit;
    advice_.speed = {advice_.speed.known, advice_.speed.speed_mps, most.low_mps, most.high_mps};
    Real target_mps = most.speed_mps;
    if (advice_.for_rate.known && advice_.for_rate.speed_mps < target_mps) {
        advice_.binding = Binding::wanted_rate;
        target_mps = advice_.for_rate.speed_mps;
        advice_.speed.low_mps = advice_.for_rate.low_mps;
        advice_.speed.high_mps = advice_.for_rate.high_mps;
    }
    const Real allowed_mps = math::clamp(target_mps, speed_least_mps_, speed_most_mps_);
    if (math::abs(allowed_mps - target_mps) > Real(0)) advice_.binding = Binding::machine_limits;
    return allowed_mps;
}

// What is shown follows slowly and not at all for less than anybody could steer.
void Advisor::approach(Real target_mps, Real span_s) {
    if (advice_.binding == Binding::unsure) {
        advice_.speed = {};
        return;
    }
    if (!advice_.speed.known) {
        advice_.speed.known = true;
        advice_.speed.speed_mps = target_mps;
        return;
    }
    const Real off_mps = target_mps - advice_.speed.speed_mps;
    if (math::abs(off_mps) < kSteerableMps) return;
    const Real most_mps = kSlewMps2 * span_s;
    advice_.speed.speed_mps += math::clamp(off_mps, -most_mps, most_mps);
}

}  // namespace podrate
