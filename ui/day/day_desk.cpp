#include "day/day_desk.hpp"

#include <algorithm>
#include <span>
#include <utility>

#include "input/chart_keys.hpp"
#include "input/map_keys.hpp"

namespace podrate::ui {
namespace {

constexpr double kAboutMs = 120e3;  // shown to each side of a row that is gone to

std::span<const Measure> measures_of(ChartPage page) {
    static constexpr Measure kEstimates[] = {Measure::load_rate, Measure::yield, Measure::loss,
                                             Measure::hopper, Measure::speed};
    static constexpr Measure kLosses[] = {Measure::loss, Measure::drum_loss, Measure::picking_loss,
                                          Measure::right_speed, Measure::hit_rate};
    static constexpr Measure kWeighing[] = {Measure::harvested, Measure::area,   Measure::level,
                                            Measure::weight,    Measure::cell_1, Measure::cell_2,
                                            Measure::cell_3,    Measure::cell_4};
    static constexpr Measure kMachine[] = {Measure::speed, Measure::pitch, Measure::roll, Measure::heading,
                                           Measure::drum_speed};
    switch (page) {
        case ChartPage::estimates: break;
        case ChartPage::losses: return kLosses;
        case ChartPage::weighing: return kWeighing;
        case ChartPage::machine: return kMachine;
    }
    return kEstimates;
}

}  // namespace

DayDesk::DayDesk(std::shared_ptr<const OpenDay> day, const Speech& say, std::function<void()> wake)
    : day_(std::move(day)),
      say_(say),
      window_({0.0, static_cast<double>(day_->series.last_ms)}),
      wake_(std::move(wake)) {
    if (day_->map) map_.emplace(*day_->map);
    make_charts();
    make_ledger();
}

void DayDesk::speak(const Speech& say) {
    say_ = say;
    make_charts();
    make_ledger();
}

void DayDesk::look_at(std::size_t machine, TimeUs at_us) {
    window_.set_cursor(static_cast<double>(at_us - day_->series.origin_us) / 1e3);
    choose_machine(machine);
}

void DayDesk::make_charts() {
    charts_.clear();
    for (const Measure measure : measures_of(page_)) {
        Chart chart = chart_of(day_->series, measure, say_);
        const MachineSeries* its = &day_->series.machines[machine_];
        if (!together_)
            std::erase_if(chart.lines, [its](const ChartLine& line) { return line.machine != its; });
        if (chart.lines.empty()) continue;
        if (run_ && !together_) add_run(chart);
        charts_.push_back(std::move(chart));
    }
    pictures_.resize(charts_.size());
}

// What was typed changes estimates, not what the machine logged.
void DayDesk::add_run(Chart& chart) const {
    const Column* column = run_->series->find(chart.measure);
    if (chart.measure > Measure::area || column == nullptr) return;
    chart.lines.front().name = say_(Text::as_logged);
    chart.lines.push_back({run_->series.get(), column, say_(Text::with_typed)});
}

void DayDesk::make_sums() {
    sums_.clear();
    const std::vector<sim::MachineResult>& machines = day_->result.machines;
    if (together_) {
        for (std::size_t i = 0; i < machines.size(); ++i)
            sums_.push_back({sum_of(machines[i], say_), static_cast<int>(i)});
        return;
    }
    sums_.push_back({sum_of(machines[machine_], say_), run_ ? 0 : -1});
    if (!run_) return;
    sums_.front().sum.name = say_(Text::as_logged);
    sums_.push_back({sum_of(run_->machine, say_), 1});
    sums_.back().sum.name = say_(Text::with_typed);
}

void DayDesk::make_ledger() {
    rows_ = ledger_of(*day_, typed_, say_);
    make_sums();
    const double from_ms = window_.cursor_ms().value_or(window_.shown().from_ms);
    ledger_.fill(rows_, together_ ? std::nullopt : std::optional(machine_), day_->series.time_us(from_ms));
}

std::optional<TimeUs> DayDesk::cursor_us() const {
    if (!window_.cursor_ms()) return std::nullopt;
    return day_->series.time_us(*window_.cursor_ms());
}

void DayDesk::next_machine() {
    choose_machine((machine_ + 1) % day_->series.machines.size());
}

void DayDesk::choose_machine(std::size_t machine) {
    if (machine != machine_) run_.reset();
    machine_ = machine;
    ask_rerun();
    make_charts();
    make_ledger();
}

void DayDesk::next_page() {
    page_ = static_cast<ChartPage>((static_cast<int>(page_) + 1) % kChartPages);
    make_charts();
}

void DayDesk::toggle_together() {
    together_ = !together_;
    make_charts();
    make_ledger();
}

void DayDesk::toggle(LedgerKind kind) {
    ledger_.toggle(kind);
}

void DayDesk::choose(std::size_t row) {
    ledger_.choose(row);
    go_to(rows_[row].from_us);
}

void DayDesk::go_to(TimeUs at_us) {
    const double at_ms = static_cast<double>(at_us - day_->series.origin_us) / 1e3;
    const TimeRange& whole = window_.whole();
    if (at_ms < whole.from_ms || at_ms > whole.to_ms) return;
    window_.set_cursor(at_ms);
    const TimeRange& shown = window_.shown();
    if (at_ms < shown.from_ms || at_ms >= shown.to_ms) window_.pan(at_ms - shown.middle_ms());
}

void DayDesk::press_ledger(const KeyPress& press) {
    constexpr int kPage = 10;
    const auto all = static_cast<int>(rows_.size());
    int by = 0;
    switch (press.key) {
        case Key::up: by = -1; break;
        case Key::down: by = 1; break;
        case Key::page_up: by = -kPage; break;
        case Key::page_down: by = kPage; break;
        case Key::home: by = -all; break;
        case Key::end: by = all; break;
        case Key::enter:
            if (ledger_.chosen()) {
                const LedgerRow& row = rows_[*ledger_.chosen()];
                const auto ms = [this](TimeUs at_us) {
                    return static_cast<double>(at_us - day_->series.origin_us) / 1e3;
                };
                window_.show({ms(row.from_us) - kAboutMs, ms(row.to_us) + kAboutMs});
            }
            return;
        default: return;
    }
    ledger_.step(by);
    if (ledger_.chosen()) choose(*ledger_.chosen());
}

void DayDesk::press(const KeyPress& press) {
    note_.clear();
    swallow_ = false;
    if (form_) {
        press_form(press);
        return;
    }
    const int digit = digit_of(press.key);
    if (digit >= 1 && digit <= kLedgerKinds) {
        toggle(static_cast<LedgerKind>(digit - 1));
        return;
    }
    switch (press.key) {
        case Key::tab: {
            const int step = press.shift ? kDayPanes - 1 : 1;
            pane_ = static_cast<DayPane>((static_cast<int>(pane_) + step) % kDayPanes);
            return;
        }
        case Key::f: whole_ = !whole_; return;
        case Key::escape: whole_ = false; return;
        case Key::m: next_machine(); return;
        case Key::c: toggle_together(); return;
        case Key::g: next_page(); return;
        case Key::y:
            if (map_) map_->apply(MapAction::other_topic);
            return;
        case Key::p: saving_ = Saving::picture; return;
        case Key::x: saving_ = Saving::table; return;
        case Key::t: open_form(EntryKind::tray); return;
        case Key::r: open_form(EntryKind::reading); return;
        case Key::w: write(); return;
        case Key::remove: drop_last_typed(); return;
        default: break;
    }
    if (pane_ == DayPane::map) {
        if (map_) map_->apply(map_action_of(press));
        return;
    }
    const ChartAction action = chart_action_of(press);
    const bool of_charts = action == ChartAction::show_all || action == ChartAction::undo;
    if (pane_ == DayPane::ledger && !of_charts) {
        press_ledger(press);
    } else {
        window_.apply(action);
    }
}

bool DayDesk::take_reopen() {
    return std::exchange(reopen_, false);
}

Saving DayDesk::take_saving() {
    return std::exchange(saving_, Saving::none);
}

}  // namespace podrate::ui
