#include "maps/yield_surface.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "analysis/kriging.hpp"

namespace podrate::sim {
namespace {

constexpr std::size_t kLeastCells = 30;
constexpr std::size_t kMostInVariogram = 1200;
constexpr double kCutoffCells = 10.0;
constexpr int kReach = 3;
constexpr std::size_t kNearest = 12;

using CellNumbers = std::map<std::pair<std::int32_t, std::int32_t>, std::size_t>;  // by row, then column

class Surface {
  public:
    explicit Surface(DayMap& map) : map_(map) {
        for (std::size_t i = 0; i < map.cells.size(); ++i) {
            const MapCell& cell = map.cells[i];
            if (cell.told(map.cell_m)) told_[{cell.place.row, cell.place.column}] = i;
        }
    }
    [[nodiscard]] std::size_t told() const { return told_.size(); }

    void fit() {
        std::vector<VariogramPoint> points;
        double value_sum = 0.0;
        double error_sum = 0.0;
        const std::size_t every = told_.size() / kMostInVariogram + 1;
        std::size_t count = 0;
        for (const auto& [key, number] : told_) {
            if (count++ % every != 0) continue;
            const MapCell& cell = map_.cells[number];
            const double sd = cell.harvested_sd_kg / cell.cut_m2;
            points.push_back({key.second * map_.cell_m, key.first * map_.cell_m,
                              cell.harvested_kg / cell.cut_m2, cell.field});
            value_sum += points.back().value;
            error_sum += sd * sd;
        }
        const auto n = static_cast<double>(points.size());
        double variance = 0.0;
        for (const VariogramPoint& point : points)
            variance += (point.value - value_sum / n) * (point.value - value_sum / n) / n;
        model_ =
            fit_exponential(empirical_variogram(points, kCutoffCells * map_.cell_m, map_.cell_m),
                            {0.3 * variance, 0.7 * variance, 3.0 * map_.cell_m, VariogramShape::exponential});
        model_.nugget = std::max(0.0, model_.nugget - error_sum / n);
        if (!(model_.nugget + model_.partial_sill > 0.0) || !(model_.range_m > 0.0))
            model_ = {0.0, std::max(variance, 1e-8), 3.0 * map_.cell_m, VariogramShape::exponential};
    }

    // A cell's own figure is no worse than what its neighbours make of it.
    void take_cells() {
        for (const auto& [key, number] : told_) {
            MapCell& cell = map_.cells[number];
            cell.surface_kgpm2 = cell.harvested_kg / cell.cut_m2;
            cell.surface_sd_kgpm2 = cell.harvested_sd_kg / cell.cut_m2;
        }
    }
    void fill_gaps() {
        std::vector<CellPlace> gaps;
        for (const auto& [key, number] : told_) {
            add_gaps(key, 0, 1, gaps);
            add_gaps(key, 1, 0, gaps);
        }
        for (const CellPlace& gap : gaps) {
            const auto before =
                std::find_if(map_.cells.begin(), map_.cells.end(), [&gap](const MapCell& cell) {
                    return cell.place.row == gap.row && cell.place.column == gap.column;
                });
            MapCell fresh;
            fresh.place = gap;
            MapCell& cell = before == map_.cells.end() ? map_.cells.emplace_back(fresh) : *before;
            if (cell.surface_kgpm2) continue;
            fill(cell);
        }
    }

  private:
    // Up to kReach - 1 cells not told between this one and the next in that direction.
    void add_gaps(std::pair<std::int32_t, std::int32_t> key, int north, int east,
                  std::vector<CellPlace>& gaps) const {
        for (int far = 1; far <= kReach; ++far) {
            if (told_.count({key.first + far * north, key.second + far * east}) == 0) continue;
            for (int at = 1; at < far; ++at) gaps.push_back({key.second + at * east, key.first + at * north});
            return;
        }
    }
    void fill(MapCell& cell) {
        near_.clear();
        for (int north = -kReach; north <= kReach; ++north) {
            const auto from = told_.lower_bound({cell.place.row + north, cell.place.column - kReach});
            for (auto at = from; at != told_.end() && at->first.first == cell.place.row + north &&
                                 at->first.second <= cell.place.column + kReach;
                 ++at) {
                const int east = at->first.second - cell.place.column;
                near_.emplace_back(north * north + east * east, at->second);
            }
        }
        if (near_.empty()) return;
        const std::size_t count = std::min(kNearest, near_.size());
        std::partial_sort(near_.begin(), near_.begin() + static_cast<std::ptrdiff_t>(count), near_.end());
        points_.clear();
        for (std::size_t i = 0; i < count; ++i) {
            const MapCell& other = map_.cells[near_[i].second];
            const double sd = other.harvested_sd_kg / other.cut_m2;
            points_.push_back({(other.place.column - cell.place.column) * map_.cell_m,
                               (other.place.row - cell.place.row) * map_.cell_m,
                               other.harvested_kg / other.cut_m2, sd * sd});
        }
        const KrigedValue value = krige(points_, model_, 0.0, 0.0);
        if (cell.field < 0) cell.field = map_.cells[near_.front().second].field;
        cell.surface_kgpm2 = std::max(0.0, value.value);
        cell.surface_sd_kgpm2 = std::sqrt(std::max(0.0, value.variance));
    }

    DayMap& map_;
    CellNumbers told_;
    VariogramModel model_{};
    std::vector<std::pair<int, std::size_t>> near_;  // square of the distance in cells, number
    std::vector<KrigingPoint> points_;
};

}  // namespace

void add_yield_surface(DayMap& map) {
    Surface surface(map);
    if (surface.told() < kLeastCells) return;
    surface.fit();
    surface.take_cells();
    surface.fill_gaps();
}

}  // namespace podrate::sim
