#include "series/day_series.hpp"

namespace podrate::ui {

const Column* MachineSeries::find(Measure measure) const {
    for (const Column& column : columns) {
        if (column.measure == measure) return &column;
    }
    return nullptr;
}

std::optional<std::uint16_t> MachineSeries::step_at(StepMeasure measure, double at_ms) const {
    if (!newest_at(kept_ms, at_ms)) return std::nullopt;
    return step(measure).at(at_ms);
}

std::size_t MachineSeries::bytes() const {
    std::size_t sum = kept_ms.capacity() * sizeof(Millis);
    for (const Column& column : columns) sum += column.bytes();
    for (const StepColumn& one : steps)
        sum += one.at_ms.capacity() * sizeof(Millis) + one.value.capacity() * sizeof(std::uint16_t);
    return sum;
}

std::size_t DaySeries::bytes() const {
    std::size_t sum = 0;
    for (const MachineSeries& machine : machines) sum += machine.bytes();
    return sum;
}

}  // namespace podrate::ui
