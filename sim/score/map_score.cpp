#include "score/map_score.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

#include "analysis/quantile.hpp"
#include "geo/local_frame.hpp"
#include "geo/utm_plane.hpp"
#include "log/column_reader.hpp"
#include "log/units.hpp"
#include "score/true_plant.hpp"

namespace podrate::sim {
namespace {

constexpr int kLooksAcross = 16;
constexpr double kStoodM = 0.05;  // less way in a second tells no direction

using CellKey = std::pair<long, long>;  // column, row

struct TrueCell {
    double m2 = 0.0;
    double kg = 0.0;
    double lost_kg = 0.0;
    double seconds = 0.0;
};

struct ToldCell {
    CellKey key;
    double cut_m2;
    double kg;
    double sd_kg;
    double lost_kg;
};

struct ToldMap {
    int epsg = 0;
    double cell_m = 0.0;
    std::vector<ToldCell> cells;
};

ToldMap read_told(const std::filesystem::path& file) {
    ToldMap map;
    ColumnReader rows(file, {"epsg", "cell_m", "east_m", "north_m", "cut_m2", "harvested_kg",
                             "harvested_sd_kg", "lost_kg"});
    while (rows.next()) {
        if (rows.text(2).empty()) continue;  // what no cell holds
        map.epsg = static_cast<int>(rows.number(0));
        map.cell_m = rows.number(1);
        map.cells.push_back(
            {{std::lround(rows.number(2) / map.cell_m), std::lround(rows.number(3) / map.cell_m)},
             rows.number(4),
             rows.number(5),
             rows.number(6),
             rows.number(7)});
    }
    return map;
}

class TrueCells {
  public:
    TrueCells(LatLon origin, UtmPlane plane, double cell_m)
        : frame_(origin), plane_(std::move(plane)), cell_m_(cell_m) {}

    void add(const TruePlant& plant) {
        for (std::size_t i = 0; i + 1 < plant.seconds.size(); ++i) {
            const TrueSecond& a = plant.seconds[i];
            const TrueSecond& b = plant.seconds[i + 1];
            TrueCell cut;
            cut.seconds = b.unix_s - a.unix_s;
            cut.m2 = plant.swath_known ? b.cut_m2 - a.cut_m2 : a.area_rate_m2ps * cut.seconds;
            if (cut.m2 <= 0.0) continue;
            const double sampled_kg = a.standing_kgpm2 * (1.0 - a.loss_share) * cut.m2;
            cut.kg = plant.swath_known ? b.cut_kg - a.cut_kg : sampled_kg;
            cut.lost_kg = a.loss_share < 1.0 ? cut.kg * a.loss_share / (1.0 - a.loss_share) : 0.0;
            spread(cut, a, b, plant.width_m);
        }
    }
    std::map<CellKey, TrueCell> cells;

  private:
    void spread(const TrueCell& cut, const TrueSecond& a, const TrueSecond& b, double width_m) {
        const double east = b.east_m - a.east_m;
        const double north = b.north_m - a.north_m;
        const double far_m = std::hypot(east, north);
        if (far_m < kStoodM) return;
        for (int i = 0; i < kLooksAcross; ++i) {
            const double left_m = ((i + 0.5) / kLooksAcross - 0.5) * width_m;
            const EastNorth at =
                plane_.to_plane(frame_.to_lat_lon({0.5 * (a.east_m + b.east_m) - left_m * north / far_m,
                                                   0.5 * (a.north_m + b.north_m) + left_m * east / far_m}));
            TrueCell& cell = cells[{std::lround(std::floor(at.east_m / cell_m_)),
                                    std::lround(std::floor(at.north_m / cell_m_))}];
            cell.m2 += cut.m2 / kLooksAcross;
            cell.kg += cut.kg / kLooksAcross;
            cell.lost_kg += cut.lost_kg / kLooksAcross;
            cell.seconds += cut.seconds / kLooksAcross;
        }
    }
    LocalFrame frame_;
    UtmPlane plane_;
    double cell_m_;
};

MapScore compare(const ToldMap& told, const std::map<CellKey, TrueCell>& truth) {
    MapScore score;
    score.cell_m = told.cell_m;
    std::vector<double> errors;
    std::vector<double> loss_errors;
    double inside = 0.0;
    TrueCell all;
    for (const ToldCell& cell : told.cells) {
        const auto at = truth.find(cell.key);
        if (at == truth.end() || at->second.seconds < kLeastCellS || cell.cut_m2 <= 0.0) continue;
        const double true_tpha = 10.0 * at->second.kg / at->second.m2;
        const double error = 10.0 * cell.kg / cell.cut_m2 - true_tpha;
        const double sd = 10.0 * cell.sd_kg / cell.cut_m2;
        errors.push_back(100.0 * std::abs(error) / true_tpha);
        score.bias_pct += 100.0 * error / true_tpha;
        score.mean_sd_pct += 100.0 * sd / true_tpha;
        if (std::abs(error) <= kReach90 * sd) inside += 1.0;
        loss_errors.push_back(1e4 *
                              std::abs(cell.lost_kg / cell.cut_m2 - at->second.lost_kg / at->second.m2));
        all.lost_kg += at->second.lost_kg;
        all.m2 += at->second.m2;
    }
    score.cells = static_cast<long>(errors.size());
    if (score.cells == 0) return score;
    const auto n = static_cast<double>(score.cells);
    score.bias_pct /= n;
    score.mean_sd_pct /= n;
    score.median_error_pct = quantile(errors, 0.5);
    score.ninetieth_error_pct = quantile(errors, 0.9);
    score.inside_90_pct = 100.0 * inside / n;
    score.loss_median_error_kg_per_ha = quantile(loss_errors, 0.5);
    score.true_loss_kg_per_ha = 1e4 * all.lost_kg / all.m2;
    return score;
}

}  // namespace

std::optional<MapScore> score_map(const Day& day, const std::filesystem::path& results,
                                  const std::filesystem::path& day_folder) {
    const std::filesystem::path file = results / "map_cells.csv";
    if (!std::filesystem::exists(file)) return std::nullopt;
    const ToldMap told = read_told(file);
    std::optional<TrueCells> truth;
    for (const Machine& machine : day.machines) {
        const TruePlant plant =
            read_true_plant(day_folder, machine.id, static_cast<double>(machine.parameters.width_m));
        if (!plant.origin) return std::nullopt;
        if (!truth) {
            const std::optional<UtmPlane> plane = UtmPlane::of_epsg(told.epsg, *plant.origin);
            if (!plane) return std::nullopt;
            truth.emplace(*plant.origin, *plane, told.cell_m);
        }
        truth->add(plant);
    }
    if (!truth) return std::nullopt;
    const MapScore score = compare(told, truth->cells);
    if (score.cells == 0) return std::nullopt;
    return score;
}

}  // namespace podrate::sim
