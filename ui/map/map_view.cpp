#include "map/map_view.hpp"

#include <algorithm>
#include <cmath>

#include "map/cell_paint.hpp"
#include "map/map_legend.hpp"
#include "map/map_words.hpp"
#include "map/way_paint.hpp"

namespace podrate::ui {
namespace {

constexpr float kPanelInsetUnits = 10.0F;
constexpr float kPanelGapUnits = 8.0F;
constexpr double kMapWheelZoom = 1.25;
constexpr float kLeastDragPx = 4.0F;
constexpr double kPinReachPx = 12.0;

struct MapLayout {
    Box head;
    Box plot;
    Box legend;
};

MapLayout layout_of(Canvas& canvas, Box area, const MapModel& model, MapTopic topic, const Speech& say) {
    const float gap = kPanelGapUnits * canvas.unit();
    area = area.inset(kPanelInsetUnits * canvas.unit());
    MapLayout layout;
    const float legend = map_legend_height(canvas, area, model, topic, say);
    layout.head = area.take_top(Canvas::line_of(canvas.fonts().label), gap);
    layout.legend = area.take_bottom(legend, gap);
    layout.plot = area;
    return layout;
}

// The title at the left, what is said of the pointer's place at the right: as much of it as finds room.
void draw_map_head(const MapFrame& frame, Box row, const PlaceWords& words) {
    Canvas& canvas = frame.canvas;
    ImFont* font = canvas.fonts().label;
    const float between = 3 * kPanelGapUnits * canvas.unit();
    const std::string title = frame.say(Text::chart_title, {frame.say(word_for(frame.topic)),
                                                            unit_name(frame.say, quantity_of(frame.topic))});
    const float title_px = Canvas::width_of(font, title);
    const float here_px = Canvas::width_of(font, words.here);
    const float passing_px = Canvas::width_of(font, words.passing);
    const bool with_title = words.here.empty() || title_px + between + here_px <= row.w;
    const float left_px = row.w - (with_title ? title_px + between : 0.0F);
    const bool with_passing =
        passing_px > 0.0F && here_px + (here_px > 0.0F ? between : 0.0F) + passing_px <= left_px;
    if (with_title) canvas.text(row, font, canvas.palette().text, title);
    if (with_passing) {
        canvas.text(row, font, canvas.palette().quiet, words.passing, Align::right);
        row.take_right(passing_px, between);
    }
    if (!words.here.empty())
        canvas.text(row, font, canvas.palette().text, words.here, with_title ? Align::right : Align::left);
}

void paint_plot(const MapFrame& frame) {
    Canvas& canvas = frame.canvas;
    const Box& plot = frame.plot;
    canvas.fill(plot, canvas.palette().ground);
    canvas.list().PushClipRect({plot.x, plot.y}, {plot.right(), plot.bottom()}, true);
    paint_cells(frame);
    paint_outlines(frame);
    paint_way(frame);
    paint_pins(frame);
    paint_names(frame);
    paint_machines(frame);
    draw_scale_bar(frame);
    draw_north(frame);
    canvas.list().PopClipRect();
    canvas.list().AddRect({plot.x, plot.y}, {plot.right(), plot.bottom()},
                          Canvas::packed(canvas.palette().rule));
}

struct MapPointer {
    std::optional<MapPixel> over;
    bool clicked = false;
};

MapPointer take_map_mouse(const Box& plot, MapWindow& window) {
    ImGui::SetCursorScreenPos({plot.x, plot.y});
    ImGui::InvisibleButton("map", {std::max(plot.w, 1.0F), std::max(plot.h, 1.0F)});
    const ImGuiIO& io = ImGui::GetIO();
    const MapPixel at = {static_cast<double>(io.MousePos.x - plot.x),
                         static_cast<double>(io.MousePos.y - plot.y)};
    MapPointer pointer;
    if (ImGui::IsItemHovered()) {
        pointer.over = at;
        if (io.MouseWheel != 0.0F)
            window.zoom(at, std::pow(kMapWheelZoom, static_cast<double>(io.MouseWheel)));
    }
    const bool dragged = io.MouseDragMaxDistanceSqr[0] >= kLeastDragPx * kLeastDragPx;
    if (ImGui::IsItemActive() && dragged)
        window.pan(static_cast<double>(io.MouseDelta.x), static_cast<double>(io.MouseDelta.y));
    if (ImGui::IsItemDeactivated()) {
        pointer.clicked = pointer.over && !dragged;
        window.settle();
    }
    return pointer;
}

}  // namespace

void MapState::apply(MapAction action) {
    if (action == MapAction::other_topic) topic = topic == MapTopic::yield ? MapTopic::loss : MapTopic::yield;
    window.apply(action);
}

Box map_plot_of(Canvas& canvas, Box area, const MapModel& model, MapTopic topic, const Speech& say) {
    return layout_of(canvas, area, model, topic, say).plot;
}

std::optional<TimeUs> draw_map(Canvas& canvas, Box area, const MapModel& model, MapState& state,
                               const MapMoment& moment, const Speech& say) {
    const MapLayout layout = layout_of(canvas, area, model, state.topic, say);
    if (layout.plot.w < 1.0F || layout.plot.h < 1.0F) return std::nullopt;
    state.window.resize(static_cast<double>(layout.plot.w), static_cast<double>(layout.plot.h));
    const MapPointer pointer = take_map_mouse(layout.plot, state.window);
    const MapFrame frame = {canvas, layout.plot, model, state.window, state.topic, moment, say};
    canvas.panel(area);
    paint_plot(frame);
    draw_map_legend(frame, layout.legend);
    PlaceWords words;
    std::optional<TimeUs> clicked;
    if (pointer.over) {
        const sim::EastNorth place = state.window.place_of(*pointer.over);
        words = words_at(model, state.topic, moment.machine, place,
                         kPinReachPx * state.window.shown().m_per_px, say);
        const auto passing = model.nearest_time(moment.machine, place);
        if (pointer.clicked && passing) clicked = passing->time_us;
    }
    draw_map_head(frame, layout.head, words);
    return clicked;
}

void draw_no_map(Canvas& canvas, Box area, const Speech& say) {
    canvas.panel(area);
    canvas.lines(area.inset(kPanelInsetUnits * canvas.unit()), canvas.fonts().text, canvas.palette().quiet,
                 say(Text::map_none));
}

}  // namespace podrate::ui
