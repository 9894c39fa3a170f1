#include "live/live_feed.hpp"

#include <algorithm>
#include <utility>

#include "log/number.hpp"
#include "model/clock_text.hpp"
#include "replay/machine_replay.hpp"

namespace podrate::ui {
namespace {

// A line comes each second; the listener itself tells of silence within two. This holds where even it is
// silent.
constexpr TimeUs kStaleUs = 2 * kSecondUs;
constexpr TimeUs kKeptUs = 20 * 60 * kSecondUs;  // a little more than the view looks back

Telling words_of(const sim::LiveFigures& f, const std::string& from) {
    const std::string since = "For " + sim::fixed(f.quiet_s, 0) + " s.";
    if (f.bus == sim::LiveBus::off) return {"The CAN controller is off: too many errors", since};
    if (f.input == sim::LiveInput::no_weight)
        return {"No weight comes", since + " Check the weigh cells' plug."};
    return {"Nothing comes from " + from, since + " Check the plug and the machine's power."};
}

}  // namespace

LiveFeed::LiveFeed(std::string id, const Parameters& parameters, std::string time_zone, std::string from)
    : from_(std::move(from)) {
    recording_.label = from_;
    recording_.time_zone = std::move(time_zone);
    recording_.machines.resize(1);
    recording_.machines[0].id = std::move(id);
    recording_.machines[0].parameters = parameters;
}

void LiveFeed::take(const sim::LiveFigures& figures, const Load& newest, TimeUs heard_us) {
    const std::lock_guard<std::mutex> lock(mutex_);
    any_ = true;
    newest_ = figures;
    heard_us_ = heard_us;
    if (figures.input != sim::LiveInput::good) return;
    MachineRecording& machine = recording_.machines[0];
    if (newest.number != 0) sim::keep_newest(machine.loads, newest);
    sim::LogRow row;
    row.time_us = figures.time_us;
    alarms_.on_row(row, figures.estimate);
    machine.alarms = alarms_.events();
    std::vector<Estimate>& kept = machine.snapshots;
    kept.push_back(figures.estimate);
    const auto fresh = std::find_if(
        kept.begin(), kept.end(), [&](const Estimate& e) { return e.time_us >= figures.time_us - kKeptUs; });
    kept.erase(kept.begin(), fresh);
}

void LiveFeed::over(const std::string& why) {
    const std::lock_guard<std::mutex> lock(mutex_);
    over_ = why;
}

Telling LiveFeed::why_unknown(TimeUs now_us) const {
    if (!over_.empty()) return {over_, "Close the window and start anew."};
    if (!any_) return {"Waiting for " + from_, "Nothing has come yet."};
    if (newest_.input != sim::LiveInput::good) return words_of(newest_, from_);
    if (now_us - heard_us_ <= kStaleUs) return {};
    return {"Nothing comes from " + from_, "Nobody listens any more. Close the window and start anew."};
}

DriverFigures LiveFeed::figures(TimeUs now_us) const {
    const std::lock_guard<std::mutex> lock(mutex_);
    const Telling unknown = why_unknown(now_us);
    if (unknown.what.empty()) return driver_figures(recording_, 0, newest_.time_us);
    DriverFigures figures;
    figures.machine = recording_.machines[0].id;
    figures.day = recording_.label;
    figures.clock = clock_text(any_ ? newest_.time_us : now_us, recording_.time_zone, true);
    figures.state_word = "No data";
    figures.no_data = unknown;
    return figures;
}

std::string LiveFeed::title(TimeUs now_us) const {
    const std::lock_guard<std::mutex> lock(mutex_);
    const std::string& id = recording_.machines[0].id;
    if (!why_unknown(now_us).what.empty()) return id + ", live, no data";
    return id + ' ' + clock_text(newest_.time_us, recording_.time_zone, true) + ", live";
}

}  // namespace podrate::ui
