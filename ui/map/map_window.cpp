#include "map/map_window.hpp"

#include <algorithm>

namespace podrate::ui {
namespace {

constexpr double kRoomAbout = 1.06;  // all is shown with a margin
constexpr double kLeastSideM = 10.0;
constexpr double kMapKeyZoom = 1.5;
constexpr double kMapKeyPanShare = 0.125;

}  // namespace

MapWindow::MapWindow(const PlaneBox& whole) : whole_(whole) {
    shown_ = all();
}

MapPart MapWindow::all() const {
    const double across = std::max(whole_.width_m(), kLeastSideM) / width_px_;
    const double up = std::max(whole_.height_m(), kLeastSideM) / height_px_;
    return {whole_.centre(), std::max(kRoomAbout * std::max(across, up), kLeastMPerPx)};
}

MapPart MapWindow::limited(MapPart part) const {
    part.m_per_px = std::clamp(part.m_per_px, kLeastMPerPx, kFarthestOfAll * all().m_per_px);
    part.centre.east_m = std::clamp(part.centre.east_m, whole_.west_m, whole_.east_m);
    part.centre.north_m = std::clamp(part.centre.north_m, whole_.south_m, whole_.north_m);
    return part;
}

void MapWindow::resize(double width_px, double height_px) {
    width_px_ = std::max(width_px, 1.0);
    height_px_ = std::max(height_px, 1.0);
    shown_ = all_ ? all() : limited(shown_);
}

PlaneBox MapWindow::box() const {
    const double half_width_m = width_px_ / 2 * shown_.m_per_px;
    const double half_height_m = height_px_ / 2 * shown_.m_per_px;
    return {shown_.centre.east_m - half_width_m, shown_.centre.north_m - half_height_m,
            shown_.centre.east_m + half_width_m, shown_.centre.north_m + half_height_m};
}

sim::EastNorth MapWindow::place_of(MapPixel pixel) const {
    return {shown_.centre.east_m + (pixel.x - width_px_ / 2) * shown_.m_per_px,
            shown_.centre.north_m - (pixel.y - height_px_ / 2) * shown_.m_per_px};
}

MapPixel MapWindow::pixel_of(sim::EastNorth place) const {
    return {width_px_ / 2 + (place.east_m - shown_.centre.east_m) / shown_.m_per_px,
            height_px_ / 2 - (place.north_m - shown_.centre.north_m) / shown_.m_per_px};
}

void MapWindow::change(MapPart to, Move move) {
    if (move != Move::all) to = limited(to);
    const bool same = to.m_per_px == shown_.m_per_px && to.centre.east_m == shown_.centre.east_m &&
                      to.centre.north_m == shown_.centre.north_m;
    const bool was_all = all_;
    all_ = move == Move::all || (same && all_);
    if (same) return;
    if (move != last_) {
        if (before_.size() == kMostUndo) before_.erase(before_.begin());
        before_.push_back({shown_, was_all});
    }
    last_ = move;
    shown_ = to;
}

void MapWindow::zoom(MapPixel about, double factor) {
    if (!(factor > 0.0)) return;
    const sim::EastNorth place = place_of(about);
    MapPart to = shown_;
    to.m_per_px = limited({to.centre, to.m_per_px / factor}).m_per_px;
    to.centre.east_m = place.east_m - (about.x - width_px_ / 2) * to.m_per_px;
    to.centre.north_m = place.north_m + (about.y - height_px_ / 2) * to.m_per_px;
    change(to, Move::zoom);
}

void MapWindow::pan(double right_px, double down_px) {
    MapPart to = shown_;
    to.centre.east_m -= right_px * to.m_per_px;
    to.centre.north_m += down_px * to.m_per_px;
    change(to, Move::pan);
}

void MapWindow::show_all() {
    change(all(), Move::all);
}

bool MapWindow::undo() {
    last_ = Move::none;
    if (before_.empty()) return false;
    all_ = before_.back().all;
    shown_ = all_ ? all() : limited(before_.back().part);
    before_.pop_back();
    return true;
}

void MapWindow::apply(MapAction action) {
    const MapPixel middle = {width_px_ / 2, height_px_ / 2};
    switch (action) {
        case MapAction::west: pan(kMapKeyPanShare * width_px_, 0.0); break;
        case MapAction::east: pan(-kMapKeyPanShare * width_px_, 0.0); break;
        case MapAction::north: pan(0.0, kMapKeyPanShare * height_px_); break;
        case MapAction::south: pan(0.0, -kMapKeyPanShare * height_px_); break;
        case MapAction::nearer: zoom(middle, kMapKeyZoom); break;
        case MapAction::farther: zoom(middle, 1.0 / kMapKeyZoom); break;
        case MapAction::show_all: show_all(); break;
        case MapAction::undo: undo(); break;
        case MapAction::other_topic:
        case MapAction::none: break;
    }
}

}  // namespace podrate::ui
