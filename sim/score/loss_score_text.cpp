#include "score/loss_score_text.hpp"

#include "log/number.hpp"

namespace podrate::sim {
namespace {

std::string pct(double share) {
    return fixed(100.0 * share, 2);
}

std::string part_text(const char* name, const LossPart& part, int machines, int held) {
    std::string text = name + pct(part.share) + " %, truth " + pct(part.true_share) + " %, error " +
                       pct(part.error()) + " points, ";
    if (machines > 0) {
        text += "inside the 90 % interval of " + std::to_string(held) + " of " + std::to_string(machines) +
                " machines\n";
    } else {
        text += std::string(part.held() ? "inside" : "outside") + " the 90 % interval " + pct(part.low) +
                " to " + pct(part.high) + " %\n";
    }
    return text + "    at each second of harvest, against the mean over " + std::to_string(kLossMeanS) +
           " s, RMSE " + pct(part.seconds.value()) + " points\n";
}

std::string alarms_text(const LossAlarmScore& a) {
    std::string text =
        "  loss alarm  true loss above its limit for more than 30 s: " + std::to_string(a.episodes) +
        " times, told " + std::to_string(a.told);
    if (a.told > 0) text += ", median delay " + fixed(a.median_delay_s(), 0) + " s";
    return text + "\n    " + std::to_string(a.alarms) + " alarms in " + fixed(a.harvest_h, 2) +
           " h of harvest (" + fixed(a.alarms_per_h(), 2) + " an hour), false " +
           std::to_string(a.false_alarms) + " (" + fixed(a.false_per_h(), 2) + " an hour), chattering " +
           std::to_string(a.chattered) + "\n";
}

}  // namespace

std::string loss_text(const LossScore& loss) {
    std::string text;
    if (loss.total.known) text += part_text("  loss        ", loss.total, loss.machines, loss.total_held);
    if (loss.drum.known) text += part_text("  in the drum ", loss.drum, loss.drum_known, loss.drum_held);
    return text + alarms_text(loss.alarms);
}

}  // namespace podrate::sim
