#include "report/taskdata/whole_units.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {
namespace {

constexpr std::int64_t kUnit = 1'000'000;  // reckoned in millionths, so that sums are exact

std::int64_t part(std::int64_t millionths) {
    return (millionths % kUnit + kUnit) % kUnit;
}

// With a row and a column more that bring every sum to whole units.
class PaddedTable {
  public:
    explicit PaddedTable(const std::vector<std::vector<double>>& table)
        : rows_(table.size() + 1),
          columns_(table.front().size() + 1),
          cells_(rows_, std::vector<std::int64_t>(columns_, 0)) {
        for (std::size_t r = 0; r + 1 < rows_; ++r) {
            for (std::size_t c = 0; c + 1 < columns_; ++c) {
                cells_[r][c] = std::llround(table[r][c] * static_cast<double>(kUnit));
                missing_from(cells_[r][c], cells_[r].back());
                missing_from(cells_[r][c], cells_.back()[c]);
                missing_from(-cells_[r][c], cells_.back().back());
            }
        }
    }

    // A ring of cells with a part, along rows and columns in turn: what one gives up the next takes, until
    // one of them is whole. Sums stay as they are.
    void make_whole() {
        for (std::size_t r = 0; r < rows_; ++r) {
            for (std::size_t c = 0; c < columns_;) {
                if (part(cells_[r][c]) == 0) {
                    ++c;
                } else {
                    shift(ring_from({r, c}));
                }
            }
        }
    }

    [[nodiscard]] std::int64_t whole(std::size_t r, std::size_t c) const { return cells_[r][c] / kUnit; }

  private:
    struct Place {
        std::size_t row;
        std::size_t column;
        bool operator==(const Place&) const = default;
    };

    static void missing_from(std::int64_t cell, std::int64_t& padding) { padding = part(padding - cell); }

    // In a row or column with one such cell there is another, since its sum is whole.
    [[nodiscard]] Place other(Place from, bool along_row) const {
        const std::size_t count = along_row ? columns_ : rows_;
        for (std::size_t i = 0; i < count; ++i) {
            const Place to = along_row ? Place{from.row, i} : Place{i, from.column};
            if (!(to == from) && part(cells_[to.row][to.column]) != 0) return to;
        }
        return from;
    }
    [[nodiscard]] std::vector<Place> ring_from(Place start) const {
        std::vector<Place> path = {start};
        for (bool along_row = true;; along_row = !along_row) {
            const Place next = other(path.back(), along_row);
            const auto again = std::find(path.begin(), path.end(), next);
            if (again == path.end()) {
                path.push_back(next);
                continue;
            }
            path.erase(path.begin(), again);
            // Come back along the line on which it set out: the neighbours there close the ring without it.
            if (path.size() % 2 == 1) path.erase(path.begin());
            return path;
        }
    }
    // The shorter of the two ways, so that sums mostly go to the nearer whole.
    void shift(const std::vector<Place>& ring) {
        std::int64_t down = kUnit;  // first cell down, second up, and so on
        std::int64_t up = kUnit;
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const std::int64_t rest = part(cells_[ring[i].row][ring[i].column]);
            down = std::min(down, i % 2 == 0 ? rest : kUnit - rest);
            up = std::min(up, i % 2 == 0 ? kUnit - rest : rest);
        }
        const std::int64_t step = down <= up ? -down : up;
        for (std::size_t i = 0; i < ring.size(); ++i)
            cells_[ring[i].row][ring[i].column] += i % 2 == 0 ? step : -step;
    }

    std::size_t rows_;
    std::size_t columns_;
    std::vector<std::vector<std::int64_t>> cells_;
};

}  // namespace

std::vector<std::vector<std::int64_t>> whole_units(const std::vector<std::vector<double>>& table) {
    std::vector<std::vector<std::int64_t>> rounded(table.size());
    if (table.empty()) return rounded;
    PaddedTable padded(table);
    padded.make_whole();
    for (std::size_t r = 0; r < table.size(); ++r) {
        for (std::size_t c = 0; c < table[r].size(); ++c) rounded[r].push_back(padded.whole(r, c));
    }
    return rounded;
}

}  // namespace podrate::sim
