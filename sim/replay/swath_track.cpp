#include "replay/swath_track.hpp"

#include <cmath>

namespace podrate::sim {
namespace {

constexpr std::size_t kPieceS = 16;  // long enough to weigh what it gave, short enough to be one place
constexpr double kLeastAreaM2 = 5.0;
constexpr double kPlaceHoldsS = 2.0;
constexpr double kSecondsGapS = 1.6;  // two kept seconds further apart are no neighbours

}  // namespace

void SwathTrack::on_row(const LogRow& row, const Estimate& e) {
    const double now_s = static_cast<double>(row.time_us) / 1e6;
    if (row.holds(Column::lat_deg) && row.holds(Column::lon_deg) &&
        (row[Column::lat_deg] != 0.0 || row[Column::lon_deg] != 0.0)) {
        place_ = {row[Column::lat_deg], row[Column::lon_deg]};
        placed_s_ = now_s;
        placed_ = true;
    }
    if (!seconds_.empty() && now_s - seconds_.back().unix_s < 1.0 - 1e-6) return;
    Second second;
    second.unix_s = now_s;
    second.harvested_kg = static_cast<double>(e.harvested_kg);
    second.area_m2 = static_cast<double>(e.area_m2);
    second.place = place_;
    second.placed = placed_ && now_s - placed_s_ <= kPlaceHoldsS;
    second.harvesting = e.state == WorkState::harvesting && e.faults == 0;
    seconds_.push_back(second);
}

bool SwathTrack::even(std::size_t from, std::size_t to) const {
    for (std::size_t i = from; i <= to; ++i) {
        if (!seconds_[i].harvesting) return false;
        if (i > from && seconds_[i].unix_s - seconds_[i - 1].unix_s > kSecondsGapS) return false;
    }
    return true;
}

std::vector<SwathPiece> SwathTrack::pieces(double dead_time_s, double lag_s) const {
    const auto late = static_cast<std::size_t>(std::lround(dead_time_s + lag_s));
    const auto before = static_cast<std::size_t>(std::lround(2.0 * lag_s));
    std::vector<SwathPiece> pieces;
    for (std::size_t i = before; i + kPieceS + late < seconds_.size();) {
        const Second& from = seconds_[i];
        const Second& to = seconds_[i + kPieceS];
        const Second& middle = seconds_[i + kPieceS / 2];
        if (!even(i - before, i + kPieceS + late) || !middle.placed) {
            ++i;
            continue;
        }
        SwathPiece piece;
        piece.unix_s = middle.unix_s;
        piece.place = middle.place;
        piece.area_m2 = to.area_m2 - from.area_m2;
        piece.area_rate_m2ps = piece.area_m2 / (to.unix_s - from.unix_s);
        const double came_kg = seconds_[i + kPieceS + late].harvested_kg - seconds_[i + late].harvested_kg;
        if (piece.area_m2 > kLeastAreaM2 && came_kg > 0.0) {
            piece.passed_kgpm2 = came_kg / piece.area_m2;
            pieces.push_back(piece);
        }
        i += kPieceS;
    }
    return pieces;
}

}  // namespace podrate::sim
