// What each pixel of a chart shows, against looking at every sample.
#include "series/trace.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using namespace podrate::ui;

namespace {

MachineSeries machine_of(const std::vector<Millis>& times, const std::vector<float>& values) {
    MachineSeries machine;
    Column column(Measure::speed);
    for (std::size_t i = 0; i < times.size(); ++i) {
        machine.kept_ms.push_back(times[i]);
        column.add(machine.kept_ms, true, times[i], values[i]);
    }
    column.seal(machine.kept_ms);
    machine.columns.push_back(column);
    return machine;
}

// Rows at 10 Hz with jitter, some at the same moment, with gaps of up to a minute.
std::vector<Millis> random_times(std::mt19937& random, std::size_t count) {
    std::vector<Millis> times;
    Millis now = static_cast<Millis>(random() % 5000);
    for (std::size_t i = 0; i < count; ++i) {
        times.push_back(now);
        now += static_cast<Millis>(random() % 10 == 0 ? 0 : 80 + random() % 40);
        if (random() % 500 == 0) now += static_cast<Millis>(random() % 60000);
    }
    return times;
}

struct Pixel {
    Extent line;
    std::size_t first = 0;
    std::size_t last = 0;
};

}  // namespace

TEST_CASE("Marks are exactly what looking at every sample of every pixel gives") {
    const unsigned seed = GENERATE(range(1U, 25U));
    INFO("seed " << seed);
    std::mt19937 random(seed);
    const std::size_t count = 1 + random() % 6000;
    const std::vector<Millis> times = random_times(random, count);
    std::vector<float> values(count);
    for (float& value : values) value = static_cast<float>(random() % 1000) / 10.0F;
    const MachineSeries machine = machine_of(times, values);
    std::vector<TraceMark> marks;
    for (int round = 0; round < 40; ++round) {
        const double last_ms = times.back() + 1000.0;
        TimeRange range;
        range.from_ms = std::uniform_real_distribution<double>(-1000.0, last_ms)(random);
        range.to_ms =
            range.from_ms + (round % 2 == 0 ? 1000.0 + static_cast<double>(random() % 3000) : last_ms);
        const int width = 1 + static_cast<int>(random() % 900);
        INFO(range.from_ms << " to " << range.to_ms << " on " << width << " px");
        trace(machine, machine.columns[0], range, width, marks);

        const double pixel_ms = range.span_ms() / width;
        const double edge = std::floor(range.from_ms / pixel_ms);
        std::vector<Pixel> wanted;
        const std::size_t begin = index_from(times, edge * pixel_ms);
        if (begin > 0) wanted.push_back({{values[begin - 1], values[begin - 1]}, begin - 1, begin - 1});
        std::size_t i = begin;
        for (int pixel = 0; pixel <= width; ++pixel) {
            Pixel one;
            one.first = i;
            while (i < count && times[i] < (edge + pixel + 1) * pixel_ms) {
                one.line.take({values[i], values[i]});
                one.last = i++;
            }
            if (!one.line.empty()) wanted.push_back(one);
        }
        if (i < count) wanted.push_back({{values[i], values[i]}, i, i});

        REQUIRE(marks.size() == wanted.size());
        for (std::size_t m = 0; m < marks.size(); ++m) {
            CHECK(marks[m].line.low == wanted[m].line.low);
            CHECK(marks[m].line.high == wanted[m].line.high);
            CHECK(marks[m].first == values[wanted[m].first]);
            CHECK(marks[m].last == values[wanted[m].last]);
            CHECK(marks[m].single == (wanted[m].first == wanted[m].last));
            const bool joined = m > 0 && times[wanted[m].first] - times[wanted[m].first - 1] <= kLongestGapMs;
            CHECK(marks[m].joined == joined);
            if (marks[m].single)
                CHECK(marks[m].x_px ==
                      Approx((times[wanted[m].first] - range.from_ms) / pixel_ms).margin(0.01));
            if (m > 0) CHECK(marks[m].x_px >= marks[m - 1].x_px - 0.01F);
        }
    }
}

TEST_CASE("Moved by whole pixels a picture is the same, moved") {
    std::mt19937 random(3);
    std::vector<Millis> times;
    std::vector<float> values;
    for (int i = 0; i < 50000; ++i) {
        times.push_back(100 * i);
        values.push_back(static_cast<float>(random() % 100));
    }
    const MachineSeries machine = machine_of(times, values);
    std::vector<TraceMark> before;
    std::vector<TraceMark> after;
    // 1,000 px of 2 s; the second is 7.25 px later.
    trace(machine, machine.columns[0], {400000.0, 2400000.0}, 1000, before);
    trace(machine, machine.columns[0], {414500.0, 2414500.0}, 1000, after);
    for (std::size_t i = 20; i < 900; ++i) {
        CHECK(after[i].line.low == before[i + 7].line.low);
        CHECK(after[i].line.high == before[i + 7].line.high);
        CHECK(after[i].x_px == Approx(before[i + 7].x_px - 7.25F).margin(0.01));
    }
}

TEST_CASE("A gap breaks the line and a sample alone stays to be seen") {
    const MachineSeries machine =
        machine_of({0, 100, 200, 10200, 30000, 50000, 50100}, {1, 2, 3, 4, 5, 6, 7});
    std::vector<TraceMark> marks;
    trace(machine, machine.columns[0], {0.0, 60000.0}, 6000, marks);
    REQUIRE(marks.size() == 7);
    CHECK_FALSE(marks[0].joined);
    CHECK(marks[2].joined);
    CHECK(marks[3].joined);        // 10 s: no gap yet
    CHECK_FALSE(marks[4].joined);  // alone
    CHECK_FALSE(marks[5].joined);
    CHECK(marks[6].joined);
}

TEST_CASE("Lines go on to the edges of a range between two samples") {
    const MachineSeries machine = machine_of({0, 9000, 18000}, {1, 2, 3});
    std::vector<TraceMark> marks;
    trace(machine, machine.columns[0], {3000.0, 4000.0}, 100, marks);
    REQUIRE(marks.size() == 2);
    CHECK(marks[0].x_px == Approx(-300.0F));
    CHECK(marks[1].x_px == Approx(600.0F));
    CHECK(marks[1].joined);
    const Heights tall = heights(machine, machine.columns[0], {3000.0, 4000.0});
    CHECK(tall.line.low == 1.0F);
    CHECK(tall.line.high == 2.0F);
}

TEST_CASE("A column without samples in reach has no marks") {
    const MachineSeries machine = machine_of({}, {});
    std::vector<TraceMark> marks(3);
    trace(machine, machine.columns[0], {0.0, 1000.0}, 100, marks);
    CHECK(marks.empty());
    CHECK(heights(machine, machine.columns[0], {0.0, 1000.0}).line.empty());
}

TEST_CASE("A column keeps times of its own only where it misses rows") {
    std::vector<Millis> kept;
    Column every(Measure::speed);
    Column tenth(Measure::pitch);
    Column stops(Measure::roll);
    Column between(Measure::heading);
    for (Millis t = 0; t < 10000; t += 100) {
        kept.push_back(t);
        every.add(kept, true, t, 1.0F);
        if (t % 1000 == 0) tenth.add(kept, true, t, 2.0F);
        if (t < 5000) stops.add(kept, true, t, 3.0F);
        between.add(kept, false, t + 50, 4.0F);
    }
    for (Column* column : {&every, &tenth, &stops, &between}) column->seal(kept);
    CHECK(every.own_ms.empty());
    CHECK(every.times(kept) == kept);
    REQUIRE(tenth.times(kept).size() == 10);
    CHECK(tenth.times(kept)[9] == 9000);
    REQUIRE(stops.times(kept).size() == 50);
    CHECK(stops.times(kept).back() == 4900);
    CHECK(between.times(kept).front() == 50);
}
