#include "day/ledger.hpp"

#include <algorithm>
#include <cmath>

#include "day/local_time.hpp"
#include "hours/stop_list.hpp"
#include "log/number.hpp"
#include "log/units.hpp"
#include "model/clock_text.hpp"
#include "model/words.hpp"
#include "text/quantity.hpp"

namespace podrate::ui {
namespace {

TimeUs us_of(double unix_s) {
    return static_cast<TimeUs>(std::llround(unix_s * 1e6));
}

Text time_word(sim::TimeKind kind) {
    return kind == sim::TimeKind::no_log ? Text::no_log : word_for(static_cast<WorkState>(kind));
}

class LedgerWriter {
  public:
    LedgerWriter(const OpenDay& day, const TypedRows& typed, const Speech& say)
        : day_(day), typed_(typed), say_(say) {}

    std::vector<LedgerRow> write() {
        for (std::size_t i = 0; i < day_.result.machines.size(); ++i) {
            const sim::MachineResult& machine = day_.result.machines[i];
            for (const Load& load : machine.loads) add_load(i, load);
            for (const sim::Stop& stop :
                 sim::stops_of(machine.id, machine.stretches, day_.day.hours.stop_least_s))
                add_stop(i, stop);
            for (const Pause& pause : machine.pauses) add_heap(i, pause);
            for (const sim::AlarmEvent& event : machine.alarms)
                add({LedgerKind::alarm, i, event.start_us, event.end_us, "", say_(name_for(event.alarm)),
                     lasted(event.start_us, event.end_us)});
            for (const sim::TrayCheck& tray : day_.day.machines[i].trays) add_tray(i, tray, Text::tray_check);
            for (const TypedTray& tray : typed_.trays) {
                if (tray.check.machine == machine.id) add_tray(i, tray.check, Text::tray_typed);
            }
        }
        for (const sim::MaturityReading& reading : day_.day.maturity) add_reading(reading, reading.field);
        for (const sim::MaturityReading& reading : typed_.readings)
            add_reading(reading, say_(Text::reading_typed, {reading.field}));
        std::stable_sort(rows_.begin(), rows_.end(),
                         [](const LedgerRow& a, const LedgerRow& b) { return a.from_us < b.from_us; });
        return std::move(rows_);
    }

  private:
    void add(LedgerRow row) {
        const std::string& zone = day_.day.time_zone;
        row.clock = clock_text(row.from_us, zone, false);
        if (row.from_us < day_.result.first_us - 12 * 3600 * kSecondUs)
            row.clock = sim::local_time(row.from_us, zone).date.substr(5);
        rows_.push_back(std::move(row));
    }
    void add_load(std::size_t machine, const Load& load) {
        const auto kg = static_cast<double>(load.net_kg);
        const double reach_kg = sim::kReach90 * static_cast<double>(load.net_sd_kg);
        add({LedgerKind::load, machine, load.end_us, load.closed_us, "",
             say_(Text::load_number, {std::to_string(load.number)}),
             say_(Text::give_or_take,
                  {with_unit(say_, Quantity::load, kg), with_unit(say_, Quantity::weight, reach_kg)})});
    }
    void add_stop(std::size_t machine, const sim::Stop& stop) {
        std::string figure = lasted(stop.stretch.start_us, stop.stretch.end_us);
        if (stop.forgone_known)
            figure = say_(Text::stop_forgone, {figure, with_unit(say_, Quantity::total, stop.forgone_kg)});
        add({LedgerKind::stop, machine, stop.stretch.start_us, stop.stretch.end_us, "",
             say_(time_word(stop.stretch.kind)), figure});
    }
    void add_heap(std::size_t machine, const Pause& pause) {
        const auto kg = static_cast<double>(pause.heap_kg);
        if (kg <= 0.0) return;
        add({LedgerKind::heap, machine, pause.start_us, pause.end_us, "", say_(Text::heap_of_haulm),
             with_unit(say_, Quantity::weight, kg)});
    }
    void add_reading(const sim::MaturityReading& reading, const std::string& what) {
        const TimeUs at_us = us_of(reading.unix_s);
        add({LedgerKind::reading, std::nullopt, at_us, at_us, "", what,
             say_.number(reading.tenderometer, 0)});
    }
    void add_tray(std::size_t machine, const sim::TrayCheck& tray, Text what) {
        const TimeUs at_us = us_of(tray.unix_s);
        add({LedgerKind::tray, machine, at_us, at_us, "", say_(what),
             with_unit(say_, Quantity::ground, tray.kg_per_ha / sim::kKgphaPerKgpm2)});
    }
    // "12 min", "40 s".
    [[nodiscard]] std::string lasted(TimeUs from_us, TimeUs to_us) const {
        const TimeUs seconds = (to_us - from_us) / kSecondUs;
        return seconds < 90 ? say_(Text::lasted_s, {std::to_string(seconds)})
                            : say_(Text::lasted_min, {std::to_string((seconds + 30) / 60)});
    }

    const OpenDay& day_;
    const TypedRows& typed_;
    const Speech& say_;
    std::vector<LedgerRow> rows_;
};

}  // namespace

Text word_for(LedgerKind kind) {
    constexpr Text kWords[kLedgerKinds] = {Text::loads,  Text::stops,       Text::heaps,
                                           Text::alarms, Text::tray_checks, Text::readings};
    return kWords[static_cast<std::size_t>(kind)];
}

std::vector<LedgerRow> ledger_of(const OpenDay& day, const TypedRows& typed, const Speech& say) {
    return LedgerWriter(day, typed, say).write();
}

void LedgerWindow::fill(const std::vector<LedgerRow>& rows, std::optional<std::size_t> machine,
                        TimeUs from_us) {
    kinds_.clear();
    of_machine_.clear();
    counts_ = {};
    for (const LedgerRow& row : rows) {
        const bool its = !machine || !row.machine || *row.machine == *machine;
        kinds_.push_back(row.kind);
        of_machine_.push_back(its);
        if (its) ++counts_[static_cast<std::size_t>(row.kind)];
    }
    chosen_.reset();
    sift();
    const auto first = std::find_if(shown_.begin(), shown_.end(),
                                    [&](std::size_t row) { return rows[row].from_us >= from_us; });
    top_ = static_cast<std::size_t>(first - shown_.begin());
}

void LedgerWindow::sift() {
    shown_.clear();
    for (std::size_t i = 0; i < kinds_.size(); ++i) {
        if (of_machine_[i] && seen(kinds_[i])) shown_.push_back(i);
    }
    if (chosen_ && !std::binary_search(shown_.begin(), shown_.end(), *chosen_)) chosen_.reset();
    follow_ = chosen_.has_value();
    top_ = std::min(top_, shown_.empty() ? 0 : shown_.size() - 1);
}

void LedgerWindow::toggle(LedgerKind kind) {
    bool& seen = seen_[static_cast<std::size_t>(kind)];
    seen = !seen;
    sift();
}

std::size_t LedgerWindow::top(std::size_t room) const {
    const std::size_t most = shown_.size() > room ? shown_.size() - room : 0;
    std::size_t top = std::min(top_, most);
    if (follow_ && chosen_ && room > 0) {
        const auto found = std::lower_bound(shown_.begin(), shown_.end(), *chosen_);
        const auto place = static_cast<std::size_t>(found - shown_.begin());
        if (place < top) top = place;
        if (place >= top + room) top = place + 1 - room;
    }
    return top;
}

void LedgerWindow::scroll(int by_rows, std::size_t room) {
    const auto moved = static_cast<long>(top(room)) + by_rows;
    const auto last = static_cast<long>(shown_.size() > room ? shown_.size() - room : 0);
    follow_ = false;
    top_ = static_cast<std::size_t>(std::clamp(moved, 0L, last));
}

void LedgerWindow::choose(std::size_t row) {
    chosen_ = row;
    follow_ = true;
}

void LedgerWindow::step(int by_rows) {
    if (shown_.empty()) return;
    long to = 0;
    if (chosen_) {
        const auto found = std::lower_bound(shown_.begin(), shown_.end(), *chosen_);
        to = static_cast<long>(found - shown_.begin()) + by_rows;
    }
    to = std::clamp(to, 0L, static_cast<long>(shown_.size()) - 1);
    choose(shown_[static_cast<std::size_t>(to)]);
}

}  // namespace podrate::ui
