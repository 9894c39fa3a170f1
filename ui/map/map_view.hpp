// The map of a day as a panel: cells by yield or loss, fields, marks, machines at a moment, and its legend.
#pragma once

#include <optional>

#include "map/map_frame.hpp"

namespace podrate::ui {

// What stays from frame to frame.
struct MapState {
    explicit MapState(const MapModel& model) : window(model.whole) {}
    MapWindow window;
    MapTopic topic = MapTopic::yield;

    void apply(MapAction action);
};

// Where the map itself is drawn within the panel's area.
Box map_plot_of(Canvas& canvas, Box area, const MapModel& model, MapTopic topic, const Speech& say);

// Draws into an open Dear ImGui window and applies what the mouse does to `state`: the wheel zooms at the
// pointer, a drag moves. A click returns when the chosen machine was nearest to that place. A renderer needs
// ImGuiBackendFlags_RendererHasVtxOffset: a map may have more than 65,536 vertices.
std::optional<TimeUs> draw_map(Canvas& canvas, Box area, const MapModel& model, MapState& state,
                               const MapMoment& moment, const Speech& say);

// In place of a map that make_map_model() could not make.
void draw_no_map(Canvas& canvas, Box area, const Speech& say);

}  // namespace podrate::ui
