// One frame of the map: what is drawn, and where its places come to lie.
#pragma once

#include "kit/canvas.hpp"
#include "map/map_model.hpp"
#include "map/map_window.hpp"

namespace podrate::ui {

// The moment that the map speaks of, and the machine whose way it shows.
struct MapMoment {
    TimeUs at_us = 0;
    std::size_t machine = 0;  // in MapModel::machines
};

struct MapFrame {
    Canvas& canvas;
    Box plot;
    const MapModel& model;
    const MapWindow& window;
    MapTopic topic;
    MapMoment moment;
    const Speech& say;

    [[nodiscard]] ImVec2 at(sim::EastNorth place) const {
        const MapPixel pixel = window.pixel_of(place);
        return {plot.x + static_cast<float>(pixel.x), plot.y + static_cast<float>(pixel.y)};
    }
    [[nodiscard]] bool in_plot(ImVec2 point, float beyond_px) const {
        return point.x > plot.x - beyond_px && point.x < plot.right() + beyond_px &&
               point.y > plot.y - beyond_px && point.y < plot.bottom() + beyond_px;
    }
};

}  // namespace podrate::ui
