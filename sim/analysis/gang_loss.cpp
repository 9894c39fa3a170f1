#include "analysis/gang_loss.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "analysis/least_squares.hpp"
#include "geo/local_frame.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate::sim {
namespace {

// Common practice, no source, but for what is said.
constexpr double kLeastApartM = 1.0;
constexpr double kWidthsApart = 1.6;  // middles of neighbouring bouts lie no further apart, in widths
constexpr double kOtherBoutS = 60.0;  // of the same machine: a piece cut so much later lies in another bout
constexpr std::size_t kSmoothPieces = 6;  // to each side: 200 m in all
constexpr double kSameBoutS = 25.0;       // pieces no further apart belong to one bout
constexpr double kOffsetLnSd = 0.05;      // of a machine's yields against another's: width, slip, calibration
constexpr double kLeastPairLnSd = 0.04;
constexpr double kGrossSd = 4.0;       // pairs further off are no neighbours' crop: lodged, part-width bouts
constexpr double kSharedPieces = 2.0;  // a piece stands in up to two pairs, so they count for half
constexpr double kMisfitLnSd = 0.25;   // what crop, haulm and driver may still lead astray
constexpr long kFewestPairs = 30;
constexpr double kMadPerSd = 0.6745;
constexpr double kCellM = 8.0;
constexpr int kRounds = 4;  // until crop and hazards agree

struct Piece {
    std::size_t machine;
    EastNorth place;
    double unix_s;
    double ln_passed;
    double passed_kgpm2;
    double area_rate_m2ps;
};

struct Pair {
    const Piece* a;
    const Piece* b;
};

using Cells = std::map<std::pair<long, long>, std::vector<std::size_t>>;

std::pair<long, long> cell_of(EastNorth place) {
    return {std::lround(place.east_m / kCellM), std::lround(place.north_m / kCellM)};
}

// Mean area rate of a machine over some minutes about piece `i`, within its bout. A driver who slows down in
// a heavy spot makes speed speak of that spot; over some hundred metres the spots average out and the
// driver's liking is left.
double smoothed_rate(const std::vector<SwathPiece>& swath, std::size_t i) {
    double sum = std::log(swath[i].area_rate_m2ps);
    int count = 1;
    for (const int way : {-1, 1}) {
        for (std::size_t step = 1; step <= kSmoothPieces; ++step) {
            if (way < 0 && step > i) break;
            const std::size_t j = way < 0 ? i - step : i + step;
            if (j >= swath.size()) break;
            const std::size_t next_to = way < 0 ? j + 1 : j - 1;
            if (std::abs(swath[j].unix_s - swath[next_to].unix_s) > kSameBoutS) break;
            sum += std::log(swath[j].area_rate_m2ps);
            ++count;
        }
    }
    return std::exp(sum / count);
}

std::vector<Piece> pieces_of(const DayResult& result) {
    std::vector<Piece> pieces;
    LatLon origin;
    for (std::size_t m = 0; m < result.machines.size(); ++m) {
        const std::vector<SwathPiece>& swath = result.machines[m].swath;
        for (std::size_t i = 0; i < swath.size(); ++i) {
            const SwathPiece& piece = swath[i];
            if (pieces.empty()) origin = piece.place;
            const EastNorth place = LocalFrame(origin).to_east_north(piece.place);
            pieces.push_back({m, place, piece.unix_s, std::log(piece.passed_kgpm2), piece.passed_kgpm2,
                              smoothed_rate(swath, i)});
        }
    }
    return pieces;
}

// Each piece with the nearest one of another bout that was cut before it.
std::vector<Pair> pairs_of(const std::vector<Piece>& pieces, double farthest_m) {
    Cells cells;
    for (std::size_t i = 0; i < pieces.size(); ++i) cells[cell_of(pieces[i].place)].push_back(i);
    std::vector<Pair> pairs;
    for (const Piece& piece : pieces) {
        const Piece* nearest = nullptr;
        double nearest_m = farthest_m;
        const auto [column, row] = cell_of(piece.place);
        for (long c = column - 1; c <= column + 1; ++c) {
            for (long r = row - 1; r <= row + 1; ++r) {
                const auto cell = cells.find({c, r});
                if (cell == cells.end()) continue;
                for (const std::size_t j : cell->second) {
                    const Piece& other = pieces[j];
                    const bool before = other.unix_s < piece.unix_s;
                    if (!before ||
                        (other.machine == piece.machine && piece.unix_s - other.unix_s < kOtherBoutS))
                        continue;
                    const double apart_m = length_of_m(other.place.east_m - piece.place.east_m,
                                                       other.place.north_m - piece.place.north_m);
                    if (apart_m < kLeastApartM || apart_m > nearest_m) continue;
                    nearest_m = apart_m;
                    nearest = &other;
                }
            }
        }
        if (nearest != nullptr) pairs.push_back({&piece, nearest});
    }
    return pairs;
}

// The curve of one machine with its level moved by `by`.
template <class T>
LossCurve<T> moved(const LossCurve<Real>& curve, double by) {
    LossCurve<T> other;
    other.picking_share = static_cast<T>(curve.picking_share);
    other.level_a = static_cast<T>(static_cast<double>(curve.level_a) + by);
    other.rated_feed_kgps = static_cast<T>(curve.rated_feed_kgps);
    other.steepness_kgps = static_cast<T>(curve.steepness_kgps);
    return other;
}

// What sets the ln(yields) of a pair apart, and how that answers to the level of each piece's machine.
struct PairOff {
    double off = 0.0;
    double by_level[2] = {};
};

// The same where machine m's level is moved by p[m] and its yields by p[machines + m]. Both hazards are those
// of the pair's mean crop: a piece weighed too heavy must not count as fed more, too.
PairOff pair_off(const Pair& pair, const DayResult& result, const Eigen::VectorXd& p) {
    const auto machines = static_cast<Eigen::Index>(result.machines.size());
    const Piece* const pieces[] = {pair.a, pair.b};
    double hazard[2] = {};
    double by_level[2][2] = {};  // of each hazard to each level
    for (int round = 0; round < kRounds; ++round) {
        double taken_in_kgpm2 = 0.0;
        double taken_in_by[2] = {};
        for (int i = 0; i < 2; ++i) {
            const double half_kgpm2 = 0.5 * pieces[i]->passed_kgpm2 * math::exp(hazard[i]);
            taken_in_kgpm2 += half_kgpm2;
            for (int k = 0; k < 2; ++k) taken_in_by[k] += half_kgpm2 * by_level[i][k];
        }
        for (int i = 0; i < 2; ++i) {
            const MachineResult& machine = result.machines[pieces[i]->machine];
            const LossCurve<double> curve =
                moved<double>(machine.curve, p[static_cast<Eigen::Index>(pieces[i]->machine)]);
            const double per_taken_in = static_cast<double>(machine.feed_per_pea) * pieces[i]->area_rate_m2ps;
            const double feed = per_taken_in * taken_in_kgpm2;
            hazard[i] = curve.hazard_to_fold(feed);
            const bool at_fold = hazard[i] * feed >= curve.steepness_kgps;
            const double by_feed = at_fold ? -hazard[i] / feed : hazard[i] / curve.steepness_kgps;
            for (int k = 0; k < 2; ++k) {
                by_level[i][k] = by_feed * per_taken_in * taken_in_by[k];
                if (i == k && !at_fold) by_level[i][k] += hazard[i];
            }
        }
    }
    const auto stood = [&](int i) {
        const auto m = static_cast<Eigen::Index>(pieces[i]->machine);
        return pieces[i]->ln_passed + hazard[i] - p[machines + m];
    };
    PairOff answer;
    answer.off = stood(0) - stood(1);
    for (int k = 0; k < 2; ++k) answer.by_level[k] = by_level[0][k] - by_level[1][k];
    return answer;
}

double spread_of(const std::vector<Pair>& pairs, const DayResult& result, const Eigen::VectorXd& p) {
    std::vector<double> off;
    for (const Pair& pair : pairs) off.push_back(std::abs(pair_off(pair, result, p).off));
    const auto middle = off.begin() + static_cast<std::ptrdiff_t>(off.size() / 2);
    std::nth_element(off.begin(), middle, off.end());
    return std::max(*middle / kMadPerSd, kLeastPairLnSd);
}

// What is known beforehand of a machine's level: the live estimate's end.
double live_sd(const MachineResult& machine) {
    return std::sqrt(std::max(static_cast<double>(machine.loss_memory.level_variance), 1e-6));
}

// The live loss of a machine with its level moved and known that closely; picking follows as far as the two
// are tied.
LossSoFar moved_loss(const MachineResult& machine, double by, double variance) {
    const LossMemory& live = machine.loss_memory;
    const auto of_live = static_cast<double>(live.level_variance);
    const double tie = of_live > 0.0 ? static_cast<double>(live.level_with_picking) / of_live : 0.0;
    LossCurve<Real> curve = moved<Real>(machine.curve, by);
    curve.picking_share =
        static_cast<Real>(std::min(0.6, static_cast<double>(curve.picking_share) * std::exp(tie * by)));
    const double picking = static_cast<double>(live.ln_picking_variance) + tie * tie * (variance - of_live);
    return machine.loss_book.so_far(curve, static_cast<Real>(variance),
                                    static_cast<Real>(std::max(picking, 0.0)),
                                    static_cast<Real>(tie * variance));
}

}  // namespace

GangLoss gang_loss(const Day& day, const DayResult& result) {
    GangLoss gang;
    for (const MachineResult& machine : result.machines) gang.machines.push_back(machine.lost);
    double width_m = 0.0;
    for (const Machine& machine : day.machines)
        width_m = std::max(width_m, static_cast<double>(machine.parameters.width_m));
    const std::vector<Piece> pieces = pieces_of(result);
    std::vector<Pair> pairs = pairs_of(pieces, kWidthsApart * width_m);
    const auto machines = static_cast<Eigen::Index>(result.machines.size());
    Eigen::VectorXd p = Eigen::VectorXd::Zero(2 * machines);
    if (static_cast<long>(pairs.size()) < kFewestPairs) return gang;

    double sd = spread_of(pairs, result, p);
    const auto gross = [&](const Pair& pair) {
        return std::abs(pair_off(pair, result, p).off) > kGrossSd * sd;
    };
    pairs.erase(std::remove_if(pairs.begin(), pairs.end(), gross), pairs.end());
    const auto count = static_cast<Eigen::Index>(pairs.size());
    const auto residuals = [&](const Eigen::VectorXd& at, Eigen::VectorXd& r, Eigen::MatrixXd* slope) {
        const double pair_sd = sd * std::sqrt(kSharedPieces);
        if (slope != nullptr) slope->setZero();
        for (Eigen::Index i = 0; i < count; ++i) {
            const Pair& pair = pairs[static_cast<std::size_t>(i)];
            const PairOff answer = pair_off(pair, result, at);
            r[i] = answer.off / pair_sd;
            if (slope == nullptr) continue;
            const auto a = static_cast<Eigen::Index>(pair.a->machine);
            const auto b = static_cast<Eigen::Index>(pair.b->machine);
            (*slope)(i, a) += answer.by_level[0] / pair_sd;
            (*slope)(i, b) += answer.by_level[1] / pair_sd;
            (*slope)(i, machines + a) -= 1.0 / pair_sd;
            (*slope)(i, machines + b) += 1.0 / pair_sd;
        }
        for (Eigen::Index m = 0; m < machines; ++m) {
            const double level_sd = live_sd(result.machines[static_cast<std::size_t>(m)]);
            r[count + m] = at[m] / level_sd;
            r[count + machines + m] = at[machines + m] / kOffsetLnSd;
            if (slope == nullptr) continue;
            (*slope)(count + m, m) = 1.0 / level_sd;
            (*slope)(count + machines + m, machines + m) = 1.0 / kOffsetLnSd;
        }
    };
    LeastSquaresFit fit = least_squares_with_slope(residuals, p, count + 2 * machines);
    sd = spread_of(pairs, result, fit.value);
    fit = least_squares_with_slope(residuals, fit.value, count + 2 * machines);
    if (!fit.converged || !fit.inverse_information.allFinite()) return gang;
    gang.pairs = static_cast<long>(count);
    gang.pair_ln_sd = sd;
    for (std::size_t m = 0; m < result.machines.size(); ++m) {
        const MachineResult& machine = result.machines[m];
        if (!machine.usable || machine.lost.collected_kg <= Real(0)) continue;
        const auto i = static_cast<Eigen::Index>(m);
        const double live = live_sd(machine) * live_sd(machine);
        const double variance = std::min(live, fit.inverse_information(i, i) + kMisfitLnSd * kMisfitLnSd);
        gang.machines[m] = moved_loss(machine, fit.value[i], variance);
    }
    return gang;
}

}  // namespace podrate::sim
