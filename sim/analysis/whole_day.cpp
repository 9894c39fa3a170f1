#include "analysis/whole_day.hpp"

#include <future>
#include <optional>
#include <utility>
#include <vector>

#include "analysis/gang_loss.hpp"
#include "fields/field_figures.hpp"
#include "maps/day_map.hpp"
#include "maturity/field_maturity.hpp"
#include "plan/forecast.hpp"
#include "plan/gang_books.hpp"

namespace podrate::sim {

void analyse_day(const Day& day, DayResult& result, bool with_map) {
    // They rest on the machines' results alone, so they go side by side.
    const DayResult& machines = result;
    std::future<GangLoss> gang = std::async(std::launch::async, [&] { return gang_loss(day, machines); });
    std::future<std::optional<DayMap>> map = std::async(std::launch::async, [&, with_map] {
        return with_map ? day_map(day, machines.machines) : std::nullopt;
    });
    std::vector<FieldFigures> fields = field_figures(day, machines.machines);
    const std::optional<Forecast> forecast = forecast_of(day, machines, end_of_books_us(machines));
    const GangLoss back = gang.get();
    std::optional<DayMap> drawn = map.get();
    result.looked_back = back.machines;
    result.neighbour_pairs = back.pairs;
    result.fields = std::move(fields);
    result.forecast = forecast;
    result.map = std::move(drawn);
    result.maturity = field_maturity(day, result.fields, result.last_us);
}

}  // namespace podrate::sim
