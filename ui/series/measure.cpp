#include "series/measure.hpp"

#include <cstddef>

namespace podrate::ui {
namespace {

constexpr MeasureFacts kFacts[kMeasures] = {
    {Text::load_rate, Quantity::rate, true},       {Text::yield_name, Quantity::yield, true},
    {Text::lost, Quantity::share, true},           {Text::lost_in_drum, Quantity::share, true},
    {Text::lost_picking, Quantity::share, true},   {Text::right_speed, Quantity::speed, true},
    {Text::hopper, Quantity::weight, true},        {Text::hopper_level, Quantity::share, true},
    {Text::harvested, Quantity::total, true},      {Text::area_name, Quantity::area, true},
    {Text::speed, Quantity::speed, true},          {Text::weight_name, Quantity::weight, true},
    {Text::weigh_cell_1, Quantity::weight, false}, {Text::weigh_cell_2, Quantity::weight, false},
    {Text::weigh_cell_3, Quantity::weight, false}, {Text::weigh_cell_4, Quantity::weight, false},
    {Text::pitch_name, Quantity::angle, false},    {Text::roll_name, Quantity::angle, false},
    {Text::heading_name, Quantity::angle, true},   {Text::drum_speed, Quantity::turning, true},
    {Text::loss_sensor, Quantity::hits, true},
};

}  // namespace

const MeasureFacts& facts_of(Measure measure) {
    return kFacts[static_cast<std::size_t>(measure)];
}

}  // namespace podrate::ui
