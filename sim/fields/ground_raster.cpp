#include "fields/ground_raster.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <utility>

namespace podrate::sim {
namespace {

constexpr double kCell = GroundRaster::kCellM;
constexpr double kFarthestM = 1e7;  // what is off by more is no place on the plane

// First cell whose middle is not before that place.
std::int64_t first_cell(double at_m) {
    return static_cast<std::int64_t>(std::ceil(std::clamp(at_m, -kFarthestM, kFarthestM) / kCell - 0.5));
}

double middle_m(std::int64_t cell) {
    return (static_cast<double>(cell) + 0.5) * kCell;
}

// Bits from `first` up to, not with, `end`, of 0 to 64.
std::uint64_t bits_between(std::int64_t first, std::int64_t end) {
    if (end <= first) return 0;
    const std::uint64_t below_end = end >= 64 ? ~std::uint64_t{0} : (std::uint64_t{1} << end) - 1;
    return below_end & ~((std::uint64_t{1} << first) - 1);
}

// Where the rings' edges cross that height, from west to east.
std::vector<double> crossings(const PlaneRings& rings, double north_m) {
    std::vector<double> at;
    for (const auto& ring : rings) {
        for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
            const EastNorth& a = ring[i];
            const EastNorth& b = ring[j];
            if ((a.north_m > north_m) == (b.north_m > north_m)) continue;
            at.push_back(a.east_m + (north_m - a.north_m) / (b.north_m - a.north_m) * (b.east_m - a.east_m));
        }
    }
    std::sort(at.begin(), at.end());
    return at;
}

}  // namespace

GroundRaster::Tile& GroundRaster::tile(std::int32_t row, std::int32_t column) {
    const std::pair key{row, column};
    if (newest_ == nullptr || key != newest_key_) {
        newest_ = &tiles_[key];
        newest_key_ = key;
    }
    return *newest_;
}

void GroundRaster::cover_span(std::int64_t row, double west_m, double east_m) {
    const std::int64_t end = first_cell(east_m);
    for (std::int64_t from = first_cell(west_m); from < end;) {
        const std::int64_t column = from >> 6;
        const std::int64_t to = std::min(end, (column + 1) * kSide);
        tile(static_cast<std::int32_t>(row >> 6),
             static_cast<std::int32_t>(column))[static_cast<std::size_t>(row & 63)] |=
            bits_between(from & 63, to - column * kSide);
        from = to;
    }
}

void GroundRaster::cover_triangle(EastNorth a, EastNorth b, EastNorth c) {
    if (a.north_m > b.north_m) std::swap(a, b);
    if (b.north_m > c.north_m) std::swap(b, c);
    if (a.north_m > b.north_m) std::swap(a, b);
    const auto east_at = [](EastNorth from, EastNorth to, double north_m) {
        return from.east_m +
               (north_m - from.north_m) / (to.north_m - from.north_m) * (to.east_m - from.east_m);
    };
    const std::int64_t end = first_cell(c.north_m);
    for (std::int64_t row = first_cell(a.north_m); row < end; ++row) {
        const double north_m = middle_m(row);
        const double one_m = east_at(a, c, north_m);
        const double other_m = north_m < b.north_m ? east_at(a, b, north_m) : east_at(b, c, north_m);
        cover_span(row, std::min(one_m, other_m), std::max(one_m, other_m));
    }
}

void GroundRaster::cover(const PlaneRings& rings) {
    double south_m = kFarthestM;
    double north_m = -kFarthestM;
    for (const auto& ring : rings) {
        for (const EastNorth& corner : ring) {
            south_m = std::min(south_m, corner.north_m);
            north_m = std::max(north_m, corner.north_m);
        }
    }
    const std::int64_t end = first_cell(north_m);
    for (std::int64_t row = first_cell(south_m); row < end; ++row) {
        const std::vector<double> at = crossings(rings, middle_m(row));
        for (std::size_t i = 0; i + 1 < at.size(); i += 2) cover_span(row, at[i], at[i + 1]);
    }
}

void GroundRaster::cover(const GroundRaster& other) {
    for (const auto& [key, cells] : other.tiles_) {
        Tile& mine = tile(key.first, key.second);
        for (std::size_t i = 0; i < cells.size(); ++i) mine[i] |= cells[i];
    }
}

void GroundRaster::keep(const PlaneRings& rings, std::uint64_t flipped) {
    std::array<std::vector<double>, kSide> rows;
    bool any = false;
    std::int32_t at_row = 0;
    for (auto& [key, cells] : tiles_) {
        if (!any || key.first != at_row) {
            for (int i = 0; i < kSide; ++i) {
                rows[static_cast<std::size_t>(i)] =
                    crossings(rings, middle_m(std::int64_t{key.first} * kSide + i));
            }
            at_row = key.first;
            any = true;
        }
        const std::int64_t west = std::int64_t{key.second} * kSide;
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const std::vector<double>& at = rows[i];
            std::uint64_t inside = 0;
            for (std::size_t k = 0; k + 1 < at.size(); k += 2) {
                inside |= bits_between(std::clamp<std::int64_t>(first_cell(at[k]) - west, 0, kSide),
                                       std::clamp<std::int64_t>(first_cell(at[k + 1]) - west, 0, kSide));
            }
            cells[i] &= inside ^ flipped;
        }
    }
}

double GroundRaster::area_m2(const Tile& tile) {
    std::int64_t cells = 0;
    for (const std::uint64_t row : tile) cells += std::popcount(row);
    return static_cast<double>(cells) * kCellM * kCellM;
}

double GroundRaster::area_m2() const {
    double sum_m2 = 0.0;
    for (const auto& [key, tile] : tiles_) sum_m2 += area_m2(tile);
    return sum_m2;
}

std::size_t GroundRaster::bytes() const {
    return tiles_.size() * (sizeof(Tile) + sizeof(std::pair<std::int32_t, std::int32_t>) + 4 * sizeof(void*));
}

}  // namespace podrate::sim
