// Least and greatest of any stretch of a column, exact and without looking at each sample.
#pragma once

#include <cstddef>
#include <limits>
#include <vector>

namespace podrate::ui {

// From the least to the greatest of some numbers; of none at first.
struct Extent {
    float low = std::numeric_limits<float>::infinity();
    float high = -std::numeric_limits<float>::infinity();

    [[nodiscard]] bool empty() const { return !(low <= high); }
    void take(const Extent& other) {
        low = other.low < low ? other.low : low;
        high = other.high > high ? other.high : high;
    }
};

// Extents of blocks of 8 samples, of 8 such blocks, and so on: two sevenths of a column. The samples
// stay with their owner: `extent_at(i)` gives the extent of sample i, the same for building and asking.
class Pyramid {
  public:
    // O(count).
    template <class ExtentAt>
    void build(std::size_t count, const ExtentAt& extent_at) {
        levels_.clear();
        for (std::size_t blocks = count / kFan; blocks > 0; blocks /= kFan) {
            std::vector<Extent> level(blocks);
            for (std::size_t block = 0; block < blocks; ++block) {
                level[block] = levels_.empty() ? scan(block * kFan, (block + 1) * kFan, extent_at)
                                               : scan(block * kFan, (block + 1) * kFan, levels_.back());
            }
            levels_.push_back(std::move(level));
        }
    }

    // Of the samples [from, to) of those that it was built over. O(log count).
    template <class ExtentAt>
    [[nodiscard]] Extent over(std::size_t from, std::size_t to, const ExtentAt& extent_at) const {
        Extent all;
        for (std::size_t depth = 0; from < to; ++depth) {
            const std::size_t above_from = (from + kFan - 1) / kFan;
            const std::size_t above_to = to / kFan;
            const bool top = depth == levels_.size() || above_from >= above_to;
            const std::size_t head_to = top ? to : above_from * kFan;
            const std::size_t tail_from = top ? to : above_to * kFan;
            if (depth == 0) {
                all.take(scan(from, head_to, extent_at));
                all.take(scan(tail_from, to, extent_at));
            } else {
                all.take(scan(from, head_to, levels_[depth - 1]));
                all.take(scan(tail_from, to, levels_[depth - 1]));
            }
            if (top) break;
            from = above_from;
            to = above_to;
        }
        return all;
    }

    // Asks for the memory that over() reads about that sample.
    void fetch(std::size_t at) const {
        for (const auto& level : levels_) {
            at /= kFan;
            if (at >= level.size()) break;
            __builtin_prefetch(level.data() + at / kFan * kFan);
            __builtin_prefetch(level.data() + at);
        }
    }

    [[nodiscard]] std::size_t bytes() const {
        std::size_t sum = 0;
        for (const auto& level : levels_) sum += level.capacity() * sizeof(Extent);
        return sum;
    }

  private:
    static constexpr std::size_t kFan = 8;

    template <class ExtentAt>
    static Extent scan(std::size_t from, std::size_t to, const ExtentAt& extent_at) {
        Extent extent;
        for (std::size_t i = from; i < to; ++i) extent.take(extent_at(i));
        return extent;
    }
    static Extent scan(std::size_t from, std::size_t to, const std::vector<Extent>& level) {
        Extent extent;
        for (std::size_t i = from; i < to; ++i) extent.take(level[i]);
        return extent;
    }

    std::vector<std::vector<Extent>> levels_;
};

}  // namespace podrate::ui
