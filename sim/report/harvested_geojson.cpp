#include "report/harvested_geojson.hpp"

#include <cmath>
#include <utility>

#include "fields/cut_strips.hpp"
#include "fields/finder_of_day.hpp"
#include "log/number.hpp"
#include "report/json_text.hpp"

namespace podrate::sim {
namespace {

constexpr double kAsideM = 0.1;  // a crossbar no further off the line between its neighbours is left out
constexpr int kPlaceDecimals = 7;

// Which of the bars from `first` to `last` tell the way to kAsideM (Douglas and Peucker).
std::vector<bool> telling_bars(const std::vector<Crossbar>& bars, std::size_t first, std::size_t last) {
    std::vector<bool> kept(bars.size(), false);
    kept[first] = kept[last] = true;
    const LocalFrame frame(bars[first].middle);
    std::vector<std::pair<std::size_t, std::size_t>> open = {{first, last}};
    while (!open.empty()) {
        const auto [from, to] = open.back();
        open.pop_back();
        const EastNorth a = frame.to_east_north(bars[from].middle);
        const EastNorth b = frame.to_east_north(bars[to].middle);
        const double long_m = length_of_m(b.east_m - a.east_m, b.north_m - a.north_m);
        double farthest_m = kAsideM;
        std::size_t farthest = from;
        for (std::size_t i = from + 1; i < to; ++i) {
            const EastNorth p = frame.to_east_north(bars[i].middle);
            const double east_m = p.east_m - a.east_m;
            const double north_m = p.north_m - a.north_m;
            const double cross_m2 = (b.east_m - a.east_m) * north_m - (b.north_m - a.north_m) * east_m;
            // A way that comes back to where it began has no line: there the distance tells.
            const double off_m = long_m > 1.0 ? std::abs(cross_m2) / long_m : length_of_m(east_m, north_m);
            if (off_m <= farthest_m) continue;
            farthest_m = off_m;
            farthest = i;
        }
        if (farthest == from) continue;
        kept[farthest] = true;
        open.emplace_back(from, farthest);
        open.emplace_back(farthest, to);
    }
    return kept;
}

void append_corner(std::string& text, LatLon corner) {
    text += text.back() == '[' ? "[" : ",[";
    append_fixed(text, corner.lon_deg, kPlaceDecimals);
    text += ',';
    append_fixed(text, corner.lat_deg, kPlaceDecimals);
    text += ']';
}

// Along the right edge, back along the left one.
Ring ring_of(const CutStrip& strip, std::size_t first, std::size_t last) {
    const std::vector<bool> kept = telling_bars(strip.crossbars, first, last);
    const double half_m = 0.5 * strip.width_m;
    Ring ring;
    for (std::size_t i = first; i <= last; ++i) {
        if (kept[i]) ring.push_back(beside(strip.crossbars[i], -half_m));
    }
    for (std::size_t i = last + 1; i-- > first;) {
        if (kept[i]) ring.push_back(beside(strip.crossbars[i], half_m));
    }
    return ring;
}

// Cuts a machine's strips where they pass from one field into another.
class Stretches {
  public:
    explicit Stretches(const FieldFinder& finder) : finder_(finder) {}

    void add(const std::string& machine, const CutStrip& strip) {
        const std::vector<Crossbar>& bars = strip.crossbars;
        std::size_t first = 0;
        for (std::size_t i = 1; i < bars.size(); ++i) {
            if (i + 1 < bars.size() && field_after(bars, i) == field_after(bars, first)) continue;
            const int field = field_after(bars, first);
            found.push_back({machine,
                             field < 0 ? std::string() : finder_.name(static_cast<std::size_t>(field)),
                             bars[first].time_us, bars[i].time_us, ring_of(strip, first, i)});
            first = i;
        }
    }
    std::vector<HarvestedStretch> found;

  private:
    [[nodiscard]] int field_after(const std::vector<Crossbar>& bars, std::size_t i) const {
        const LatLon a = bars[i].middle;
        const LatLon b = bars[i + 1].middle;
        return finder_.at({0.5 * (a.lat_deg + b.lat_deg), 0.5 * (a.lon_deg + b.lon_deg)});
    }
    const FieldFinder& finder_;
};

}  // namespace

std::vector<HarvestedStretch> harvested_stretches(const Day& day, const DayResult& result) {
    const FieldFinder finder = finder_of_day(day, result.machines);
    Stretches stretches(finder);
    for (const MachineResult& machine : result.machines) {
        if (!machine.usable) continue;
        const auto width_m = static_cast<double>(machine.parameters.width_m);
        for (const CutStrip& strip : cut_strips(machine.work, width_m)) stretches.add(machine.id, strip);
    }
    return std::move(stretches.found);
}

std::string harvested_geojson(const std::vector<HarvestedStretch>& stretches) {
    std::string text = R"({"type":"FeatureCollection","features":[)";
    bool any = false;
    for (const HarvestedStretch& stretch : stretches) {
        text += any ? ",\n" : "\n";
        any = true;
        text += R"({"type":"Feature","properties":{"field":)";
        text += stretch.field.empty() ? "null" : quoted_json(stretch.field);
        text += ",\"machine\":" + quoted_json(stretch.machine) + ",\"start_unix_s\":";
        append_fixed(text, static_cast<double>(stretch.start_us) / 1e6, 1);
        text += ",\"end_unix_s\":";
        append_fixed(text, static_cast<double>(stretch.end_us) / 1e6, 1);
        text += R"(},"geometry":{"type":"Polygon","coordinates":[[)";
        for (const LatLon& corner : stretch.ring) append_corner(text, corner);
        append_corner(text, stretch.ring.front());
        text += "]]}}";
    }
    return text + "\n]}\n";
}

}  // namespace podrate::sim
