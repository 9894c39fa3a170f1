// Least and greatest from the pyramid are those of looking at every sample.
#include "series/pyramid.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "series/column.hpp"

using namespace podrate::ui;

namespace {

// Few different values on some draws, so that equal ones meet; long flat stretches on others.
std::vector<float> random_values(std::mt19937& random, std::size_t count) {
    const int kinds = std::uniform_int_distribution<int>(0, 2)(random);
    std::vector<float> values(count);
    float walk = 0.0F;
    for (float& value : values) {
        if (kinds == 0) value = std::uniform_real_distribution<float>(-1e6F, 1e6F)(random);
        if (kinds == 1) value = static_cast<float>(std::uniform_int_distribution<int>(-2, 2)(random));
        if (kinds == 2 && random() % 16 == 0)
            walk += std::uniform_real_distribution<float>(-1.0F, 1.0F)(random);
        if (kinds == 2) value = walk;
    }
    return values;
}

Extent brute(const std::vector<float>& low, const std::vector<float>& high, std::size_t from,
             std::size_t to) {
    Extent all;
    for (std::size_t i = from; i < to; ++i) all.take({low[i], high[i]});
    return all;
}

bool same(const Extent& a, const Extent& b) {
    return a.low == b.low && a.high == b.high;
}

}  // namespace

TEST_CASE("A pyramid gives the extent of every range exactly") {
    const unsigned seed = GENERATE(range(1U, 41U));
    INFO("seed " << seed);
    std::mt19937 random(seed);
    const std::size_t count =
        std::uniform_int_distribution<std::size_t>(0, seed % 4 == 0 ? 70000 : 600)(random);
    const std::vector<float> low = random_values(random, count);
    std::vector<float> high = random_values(random, count);
    for (std::size_t i = 0; i < count; ++i) high[i] = std::max(low[i], high[i]);
    const auto at = [&](std::size_t i) { return Extent{low[i], high[i]}; };
    Pyramid pyramid;
    pyramid.build(count, at);
    std::uniform_int_distribution<std::size_t> place(0, count);
    for (int round = 0; round < 300; ++round) {
        std::size_t from = place(random);
        std::size_t to = place(random);
        if (from > to) std::swap(from, to);
        if (round == 0) from = 0, to = count;
        if (round % 5 == 1) to = from;                        // nothing
        if (round % 5 == 2) to = std::min(from + 1, count);   // one sample
        if (round % 5 == 3) to = std::min(from + 40, count);  // about a block's edge
        INFO(from << " to " << to << " of " << count);
        CHECK(same(pyramid.over(from, to, at), brute(low, high, from, to)));
    }
}

TEST_CASE("An extent of nothing is empty and one of a single sample is not") {
    Extent extent;
    CHECK(extent.empty());
    extent.take({3.0F, 3.0F});
    CHECK_FALSE(extent.empty());
    CHECK(extent.low == 3.0F);
    CHECK(extent.high == 3.0F);
}

TEST_CASE("A pyramid is two sevenths of its column") {
    // Two floats for 8, and a seventh of that above them.
    const std::vector<float> values(100000, 1.0F);
    Pyramid pyramid;
    pyramid.build(values.size(), [&](std::size_t i) { return Extent{values[i], values[i]}; });
    CHECK(pyramid.bytes() * 100 < values.size() * sizeof(float) * 29);
}

TEST_CASE("A column's band holds the line, and its pyramid is exact for both kinds of doubt") {
    const bool even = GENERATE(true, false);
    std::mt19937 random(7);
    std::vector<Millis> kept;
    Column column(Measure::yield);
    for (int i = 0; i < 1000; ++i) {
        kept.push_back(100 * i);
        const float value = std::normal_distribution<float>(5.0F, 1.0F)(random);
        const float doubt = std::abs(std::normal_distribution<float>(0.0F, 1.0F)(random));
        column.add(kept, true, kept.back(), value);
        if (even) column.sd.push_back(doubt);
        if (!even) column.low.push_back(value - doubt);
        if (!even) column.high.push_back(value + 2.0F * doubt);
    }
    column.seal(kept);
    REQUIRE(column.has_band());
    CHECK(column.own_ms.empty());
    for (std::size_t from = 0; from < 1000; from += 37) {
        const std::size_t to = std::min<std::size_t>(1000, from + 300);
        Extent band;
        for (std::size_t i = from; i < to; ++i) band.take(column.band_at(i));
        CHECK(same(column.band_over(from, to), band));
        CHECK(same(column.line_over(from, to), brute(column.value, column.value, from, to)));
        CHECK(band.low <= column.line_over(from, to).low);
    }
}
