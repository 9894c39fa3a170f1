// The part of the map that is shown. Mouse and keys come through the same functions.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "geo/place.hpp"
#include "map/plane_box.hpp"

namespace podrate::ui {

// From the upper left corner of where the map is drawn.
struct MapPixel {
    double x = 0.0;
    double y = 0.0;
};

struct MapPart {
    sim::EastNorth centre;
    double m_per_px = 1.0;
};

enum class MapAction : std::uint8_t {
    none,
    west,  // by an eighth of what is shown
    east,
    north,
    south,
    nearer,  // about the middle
    farther,
    show_all,
    other_topic,  // yield or loss
    undo,
};

class MapWindow {
  public:
    static constexpr double kLeastMPerPx = 0.05;
    static constexpr double kFarthestOfAll = 4.0;  // times what shows all
    static constexpr std::size_t kMostUndo = 64;

    // The centre stays within `whole`.
    explicit MapWindow(const PlaneBox& whole);

    // What it is drawn on, pixels, to be told before each frame. While all is shown all stays shown.
    void resize(double width_px, double height_px);

    [[nodiscard]] const MapPart& shown() const { return shown_; }
    [[nodiscard]] PlaneBox box() const;
    [[nodiscard]] sim::EastNorth place_of(MapPixel pixel) const;
    [[nodiscard]] MapPixel pixel_of(sim::EastNorth place) const;

    // `factor` above 1: nearer. The place under the pixel stays there, but for what the limits ask.
    void zoom(MapPixel about, double factor);
    // What is shown moves along by so many pixels.
    void pan(double right_px, double down_px);
    void show_all();
    // Changes of one kind that follow each other are undone as one; this ends such a row, as where a button
    // is released.
    void settle() { last_ = Move::none; }
    // Back to what was shown before the last row of changes. False where there was none.
    bool undo();

    // other_topic is not its own and does nothing.
    void apply(MapAction action);

  private:
    enum class Move : std::uint8_t { none, zoom, pan, all };
    struct State {
        MapPart part;
        bool all;
    };
    [[nodiscard]] MapPart all() const;
    [[nodiscard]] MapPart limited(MapPart part) const;
    void change(MapPart to, Move move);

    PlaneBox whole_;
    double width_px_ = 1.0;
    double height_px_ = 1.0;
    MapPart shown_;
    bool all_ = true;
    std::vector<State> before_;  // newest last
    Move last_ = Move::none;
};

}  // namespace podrate::ui
