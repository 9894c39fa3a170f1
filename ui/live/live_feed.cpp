#include "live/live_feed.hpp"

#include <algorithm>
#include <utility>

#include "model/clock_text.hpp"
#include "replay/machine_replay.hpp"

namespace podrate::ui {
namespace {

// A line comes each second; the listener itself tells of silence within two. This holds where even it is
// silent.
constexpr TimeUs kStaleUs = 2 * kSecondUs;
constexpr TimeUs kKeptUs = 20 * 60 * kSecondUs;  // a little more than the view looks back

Telling words_of(const sim::LiveFigures& f, const std::string& from, const Speech& say) {
    const std::string seconds = say.number(f.quiet_s, 0);
    if (f.bus == sim::LiveBus::off) return {say(Text::live_bus_off), say(Text::live_for, {seconds})};
    if (f.input == sim::LiveInput::no_weight)
        return {say(Text::live_no_weight), say(Text::live_check_cells, {seconds})};
    return {say(Text::live_silent, {from}), say(Text::live_check_plug, {seconds})};
}

}  // namespace

LiveFeed::LiveFeed(std::string id, const Parameters& parameters, std::string time_zone, std::string from)
    : from_(std::move(from)) {
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

void LiveFeed::take_answers(const AlarmAnswers& answers) {
    const std::lock_guard<std::mutex> lock(mutex_);
    answers_ = answers;
    // An alarm that was put off goes at once, not with the next second's figures.
    newest_.estimate.alarms = answers.shown;
    std::vector<Estimate>& kept = recording_.machines[0].snapshots;
    if (!kept.empty()) kept.back().alarms = answers.shown;
}

void LiveFeed::ended() {
    const std::lock_guard<std::mutex> lock(mutex_);
    ended_ = true;
}

void LiveFeed::failed(const std::string& why) {
    const std::lock_guard<std::mutex> lock(mutex_);
    failure_ = why;
}

std::string LiveFeed::input_words(const Speech& say) const {
    return from_ == kStandardInput ? say(Text::live_standard_input) : from_;
}

Telling LiveFeed::why_unknown(TimeUs now_us, const Speech& say) const {
    if (!failure_.empty()) return {failure_, say(Text::live_start_anew)};
    const std::string from = input_words(say);
    if (ended_) return {say(Text::live_ended, {from}), say(Text::live_start_anew)};
    if (!any_) return {say(Text::live_waiting, {from}), say(Text::live_nothing_yet)};
    if (newest_.input != sim::LiveInput::good) return words_of(newest_, from, say);
    if (now_us - heard_us_ <= kStaleUs) return {};
    return {say(Text::live_silent, {from}), say(Text::live_start_anew)};
}

DriverFigures LiveFeed::figures(TimeUs now_us, const Speech& say) const {
    const std::lock_guard<std::mutex> lock(mutex_);
    const Telling unknown = why_unknown(now_us, say);
    DriverFigures figures;
    if (unknown.what.empty()) figures = driver_figures(recording_, 0, newest_.time_us, say);
    figures.day = input_words(say);
    if (answers_)
        figures.answers = answer_words(*answers_, figures.alarm, newest_.time_us, recording_.time_zone, say);
    if (unknown.what.empty()) return figures;
    figures.say = say;
    figures.machine = recording_.machines[0].id;
    figures.clock = clock_text(any_ ? newest_.time_us : now_us, recording_.time_zone, true);
    figures.state_word = say(Text::state_no_data);
    figures.no_data = unknown;
    return figures;
}

std::string LiveFeed::title(TimeUs now_us, const Speech& say) const {
    const std::lock_guard<std::mutex> lock(mutex_);
    const std::string& id = recording_.machines[0].id;
    if (!why_unknown(now_us, say).what.empty()) return say(Text::title_live_no_data, {id});
    return say(Text::title_live, {id + ' ' + clock_text(newest_.time_us, recording_.time_zone, true)});
}

std::optional<Estimate> LiveFeed::newest(TimeUs now_us) const {
    const std::lock_guard<std::mutex> lock(mutex_);
    if (!why_unknown(now_us, Speech()).what.empty()) return std::nullopt;
    return newest_.estimate;
}

}  // namespace podrate::ui
