// What a map's colours and shapes mean, how long its metres are and where north is.
#pragma once

#include "map/map_frame.hpp"

namespace podrate::ui {

// The legend's height for a panel of that size; what finds no room in three tenths of it is left out, from
// the end.
float map_legend_height(Canvas& canvas, const Box& area, const MapModel& model, MapTopic topic,
                        const Speech& say);

void draw_map_legend(const MapFrame& frame, Box area);

// Within the plot: a bar of a round length at the lower left, an arrow to true north at the upper right.
void draw_scale_bar(const MapFrame& frame);
void draw_north(const MapFrame& frame);

}  // namespace podrate::ui
