// Slits between bouts: spread the covered ground to all sides, then draw it in again by as much.
#include <cstdint>

#include "fields/ground_raster.hpp"

namespace podrate::sim {
namespace {

constexpr int kReach = 4;  // cells: twice that is the widest slit
constexpr int kWordBits = 64;

}  // namespace

GroundRaster::Tiles GroundRaster::spread(const Tiles& from) {
    Tiles along;
    for (const auto& [key, cells] : from) {
        Tile& here = along[key];
        Tile& west = along[{key.first, key.second - 1}];
        Tile& east = along[{key.first, key.second + 1}];
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const std::uint64_t row = cells[i];
            here[i] |= row;
            for (int by = 1; by <= kReach; ++by) {
                here[i] |= row << by | row >> by;
                east[i] |= row >> (kWordBits - by);
                west[i] |= row << (kWordBits - by);
            }
        }
    }
    Tiles out;
    for (const auto& [key, cells] : along) {
        Tile* const rows_of[] = {&out[{key.first - 1, key.second}], &out[key],
                                 &out[{key.first + 1, key.second}]};
        for (int i = 0; i < kSide; ++i) {
            const std::uint64_t row = cells[static_cast<std::size_t>(i)];
            for (int to = i - kReach; to <= i + kReach; ++to) {
                (*rows_of[(to + kSide) / kSide])[static_cast<std::size_t>((to + kSide) % kSide)] |= row;
            }
        }
    }
    return out;
}

GroundRaster::Tiles GroundRaster::shrunk(const Tiles& from) {
    static constexpr Tile kBare{};
    const auto found = [](const Tiles& tiles, std::int32_t row, std::int32_t column) -> const Tile& {
        const auto at = tiles.find({row, column});
        return at == tiles.end() ? kBare : at->second;
    };
    Tiles along;
    for (const auto& [key, cells] : from) {
        Tile& here = along[key];
        const Tile& west = found(from, key.first, key.second - 1);
        const Tile& east = found(from, key.first, key.second + 1);
        for (std::size_t i = 0; i < cells.size(); ++i) {
            here[i] = cells[i];
            for (int by = 1; by <= kReach; ++by) {
                here[i] &= cells[i] << by | west[i] >> (kWordBits - by);
                here[i] &= cells[i] >> by | east[i] << (kWordBits - by);
            }
        }
    }
    Tiles out;
    for (const auto& [key, cells] : along) {
        Tile& here = out[key];
        const Tile* const rows_of[] = {&found(along, key.first - 1, key.second), &cells,
                                       &found(along, key.first + 1, key.second)};
        for (int i = 0; i < kSide; ++i) {
            std::uint64_t row = ~std::uint64_t{0};
            for (int of = i - kReach; of <= i + kReach; ++of)
                row &= (*rows_of[(of + kSide) / kSide])[static_cast<std::size_t>((of + kSide) % kSide)];
            here[static_cast<std::size_t>(i)] = row;
        }
    }
    return out;
}

void GroundRaster::close_slits() {
    tiles_ = shrunk(spread(tiles_));
    newest_ = nullptr;
}

}  // namespace podrate::sim
