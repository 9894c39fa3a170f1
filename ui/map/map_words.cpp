#include "map/map_words.hpp"

#include <algorithm>
#include <cmath>

#include "log/units.hpp"
#include "model/clock_text.hpp"

namespace podrate::ui {
namespace {

constexpr double kSecondsAMinute = 60.0;

const MapPin* pin_near(const MapModel& model, sim::EastNorth place, double reach_m) {
    const MapPin* best = nullptr;
    for (const MapPin& pin : model.pins) {
        const double away_m =
            sim::length_of_m(pin.place.east_m - place.east_m, pin.place.north_m - place.north_m);
        if (away_m > reach_m) continue;
        reach_m = away_m;
        best = &pin;
    }
    return best;
}

std::string figure_of_pin(const MapPin& pin, const Speech& say) {
    switch (pin.kind) {
        case sim::MarkKind::tip:
        case sim::MarkKind::heap: return with_unit(say, Quantity::load, pin.figure);
        case sim::MarkKind::tray_check:
            return with_unit(say, Quantity::ground, pin.figure / sim::kKgphaPerKgpm2);
        case sim::MarkKind::stop:
            return pin.figure < kSecondsAMinute
                       ? say(Text::lasted_s, {say.number(pin.figure, 0)})
                       : say(Text::lasted_min, {say.number(pin.figure / kSecondsAMinute, 0)});
    }
    return {};
}

std::string when_words(const MapModel& model, std::size_t machine, TimeUs time_us, bool seconds,
                       const Speech& say) {
    return say(Text::map_when, {model.machines[machine].id, clock_text(time_us, model.time_zone, seconds)});
}

std::string cell_words(const CellValue& value, MapTopic topic, const Speech& say) {
    const auto kgpm2 = static_cast<double>(value.kgpm2);
    const double reach = sim::kReach90 * static_cast<double>(value.sd_kgpm2);
    const Quantity quantity = quantity_of(topic);
    return say(Text::with_range, {with_unit(say, quantity, kgpm2),
                                  figures(say, quantity, std::max(0.0, kgpm2 - reach), kgpm2 + reach)});
}

}  // namespace

Text word_for(sim::MarkKind kind) {
    switch (kind) {
        case sim::MarkKind::tip: return Text::map_tip;
        case sim::MarkKind::stop: return Text::map_stop;
        case sim::MarkKind::heap: return Text::heap_of_haulm;
        case sim::MarkKind::tray_check: break;
    }
    return Text::tray_check;
}

Text word_for(MapTopic topic) {
    return topic == MapTopic::yield ? Text::yield_name : Text::map_loss;
}

PlaceWords words_at(const MapModel& model, MapTopic topic, std::size_t machine, sim::EastNorth place,
                    double reach_m, const Speech& say) {
    PlaceWords words;
    if (const MapPin* pin = pin_near(model, place, reach_m)) {
        words.here = say(Text::map_pin, {say(word_for(pin->kind)), figure_of_pin(*pin, say)});
        words.passing = when_words(model, pin->machine, pin->start_us, false, say);
        return words;
    }
    if (const ShownCell* cell = model.cell_at(place)) words.here = cell_words(cell->of(topic), topic, say);
    if (const auto passing = model.nearest_time(machine, place))
        words.passing = when_words(model, machine, passing->time_us, true, say);
    return words;
}

}  // namespace podrate::ui
