// What the map says of a place.
#pragma once

#include <string>

#include "map/map_model.hpp"

namespace podrate::ui {

// "Load tipped", "Stop", ...
Text word_for(sim::MarkKind kind);
Text word_for(MapTopic topic);

struct PlaceWords {
    std::string here;     // of a mark within `reach_m`, else of the cell; empty where there is neither
    std::string passing;  // when the machine was nearest: "viner_1 at 14:32:10"; empty of an empty track
};

PlaceWords words_at(const MapModel& model, MapTopic topic, std::size_t machine, sim::EastNorth place,
                    double reach_m, const Speech& say);

}  // namespace podrate::ui
