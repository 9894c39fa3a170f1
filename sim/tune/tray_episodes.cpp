#include "tune/tray_episodes.hpp"

#include <cmath>

#include "log/units.hpp"

namespace podrate::sim {
namespace {

constexpr double kTrayEpisodeS = 30.0;
constexpr double kSamePlaceS = 12.0;  // a piece of swath is 16 s long
constexpr double kNearTrayS = 20.0;   // as of the loss's truth

const SwathPiece* piece_at(const std::vector<SwathPiece>& swath, double unix_s) {
    const SwathPiece* nearest = nullptr;
    for (const SwathPiece& piece : swath) {
        const double off_s = std::abs(piece.unix_s - unix_s);
        if (off_s > kSamePlaceS) continue;
        if (nearest == nullptr || off_s < std::abs(nearest->unix_s - unix_s)) nearest = &piece;
    }
    return nearest;
}

}  // namespace

AlarmTruth tray_episodes(const Machine& machine, const MachineResult& replayed) {
    AlarmTruth alarm;
    alarm.source = EpisodeSource::trays;
    alarm.near_s = kNearTrayS;
    const auto limit = static_cast<double>(machine.parameters.loss_high_share);
    const auto deadband = static_cast<double>(machine.parameters.loss_high_deadband_share);
    for (const TrayCheck& tray : machine.trays) {
        const SwathPiece* piece = piece_at(replayed.swath, tray.unix_s);
        if (piece == nullptr) continue;
        const double lost_kgpm2 = tray.kg_per_ha / kKgphaPerKgpm2;
        const double share = lost_kgpm2 / (lost_kgpm2 + piece->passed_kgpm2);
        const AlarmSpan span{tray.unix_s - 0.5 * kTrayEpisodeS, tray.unix_s + 0.5 * kTrayEpisodeS};
        alarm.looked_at.push_back(span);
        if (share > limit) alarm.due.push_back(span);
        if (share > limit - deadband) alarm.reasons.push_back(span);
    }
    alarm.known = !alarm.looked_at.empty();
    for (std::vector<AlarmSpan>* spans : {&alarm.looked_at, &alarm.due, &alarm.reasons})
        *spans = joined(std::move(*spans));
    return alarm;
}

}  // namespace podrate::sim
