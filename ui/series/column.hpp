// One measure of one machine over a day, and the moments at which it was told.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "series/measure.hpp"
#include "series/pyramid.hpp"

namespace podrate::ui {

// Milliseconds since the day's first row: 24 days at most.
using Millis = std::int32_t;

// Longer without a sample, and a line is broken: as in the sums of a replay (sim::kLongestGapS).
inline constexpr Millis kLongestGapMs = 10000;

struct Column {
    explicit Column(Measure what) : measure(what) {}

    // Adds the sample of a moment. `kept_ms` are the machine's kept rows; `kept`: that moment is the last of
    // them. A column that has a sample at each kept row does without times of its own.
    void add(const std::vector<Millis>& kept_ms, bool kept, Millis at_ms, float new_value);
    // After the last sample: gives back spare memory and builds the pyramids.
    void seal(const std::vector<Millis>& kept_ms);

    [[nodiscard]] std::size_t size() const { return value.size(); }
    [[nodiscard]] const std::vector<Millis>& times(const std::vector<Millis>& kept_ms) const {
        return every_row ? kept_ms : own_ms;
    }
    [[nodiscard]] bool has_band() const { return !sd.empty() || !low.empty(); }
    // The 90 % interval of one sample, where there is one.
    [[nodiscard]] Extent band_at(std::size_t index) const;
    // Over the samples [from, to).
    [[nodiscard]] Extent line_over(std::size_t from, std::size_t to) const;
    [[nodiscard]] Extent band_over(std::size_t from, std::size_t to) const;
    // Asks for the memory that line_over() and band_over() read about a sample or the end: nothing else.
    void fetch(std::size_t at) const;
    // Of samples, times and pyramids.
    [[nodiscard]] std::size_t bytes() const;

    Measure measure;
    bool every_row = true;
    std::vector<Millis> own_ms;  // never decreasing; empty where every_row
    std::vector<float> value;    // finite
    std::vector<float> sd;       // beside each value, or empty
    std::vector<float> low;      // ends of the 90 % interval beside each value, where it is not even
    std::vector<float> high;

  private:
    Pyramid line_;
    Pyramid band_;
};

// Index of the first time at or after `at_ms`, the count of times where there is none.
std::size_t index_from(const std::vector<Millis>& times, double at_ms);

// The newest sample at or before a moment, unless a gap lies between.
std::optional<std::size_t> newest_at(const std::vector<Millis>& times, double at_ms);

// Values that hold until the next: only changes are kept.
struct StepColumn {
    void add(Millis moment_ms, std::uint16_t new_value);
    // What held then; nothing before the first.
    [[nodiscard]] std::optional<std::uint16_t> at(double moment_ms) const;

    std::vector<Millis> at_ms;
    std::vector<std::uint16_t> value;
};

}  // namespace podrate::ui
