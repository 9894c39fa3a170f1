#include "analysis/look_back.hpp"

#include <future>
#include <optional>
#include <utility>
#include <vector>

#include "analysis/gang_loss.hpp"
#include "fields/field_figures.hpp"
#include "maturity/field_maturity.hpp"
#include "plan/forecast.hpp"
#include "plan/gang_books.hpp"

namespace podrate::sim {

void look_back(const Day& day, DayResult& result) {
    // All three rest on the machines' results alone, so they go side by side.
    std::future<GangLoss> gang = std::async(std::launch::async, [&] { return gang_loss(day, result); });
    std::vector<FieldFigures> fields = field_figures(day, result.machines);
    const std::optional<Forecast> forecast = forecast_of(day, result, end_of_books_us(result));
    const GangLoss back = gang.get();
    result.looked_back = back.machines;
    result.neighbour_pairs = back.pairs;
    result.fields = std::move(fields);
    result.forecast = forecast;
    result.maturity = field_maturity(day, result.fields, result.last_us);
}

}  // namespace podrate::sim
