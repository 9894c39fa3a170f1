// The part of the day's desk that takes what is typed in.
#include <algorithm>
#include <utility>

#include "day/day_desk.hpp"
#include "maturity/field_maturity.hpp"

namespace podrate::ui {
namespace {

const sim::FieldMaturity* of_field(const std::vector<sim::FieldMaturity>& all, const std::string& field) {
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const sim::FieldMaturity& one) { return one.field == field; });
    return found == all.end() ? nullptr : &*found;
}

std::string believed_words(const sim::FieldMaturity* maturity, const Speech& say) {
    if (maturity == nullptr) return say(Text::ripeness_unknown);
    const sim::Believed& now = maturity->now;
    return say(Text::with_range,
               {say.number(now.middle, 0), say.range(say.number(now.low, 0), say.number(now.high, 0))});
}

}  // namespace

void DayDesk::open_form(EntryKind kind) {
    const TimeUs at_us = cursor_us().value_or(day_->series.time_us(window_.shown().middle_ms()));
    swallow_ = true;
    form_.emplace(kind, day_->day, day_->series.machines[machine_].id, at_us, say_);
}

void DayDesk::type(char32_t character) {
    if (!std::exchange(swallow_, false) && form_) form_->type(character);
}

void DayDesk::press_form(const KeyPress& press) {
    form_->press(press);
    if (form_->done()) take_form();
    if (form_->closed() || form_->done()) form_.reset();
}

void DayDesk::take_form() {
    if (form_->kind() == EntryKind::tray) {
        typed_.trays.push_back(form_->tray());
        ask_rerun();
    } else {
        const sim::MaturityReading reading = form_->reading();
        typed_.readings.push_back(reading);
        note_ = ripeness_words(reading);
    }
    make_ledger();
}

std::string DayDesk::ripeness_words(const sim::MaturityReading& reading) const {
    const std::vector<sim::FieldMaturity> after =
        sim::field_maturity(with_readings(day_->day, typed_), day_->result.fields, day_->result.last_us);
    return say_(Text::ripeness_changes,
                {reading.field, believed_words(of_field(day_->result.maturity, reading.field), say_),
                 believed_words(of_field(after, reading.field), say_)});
}

// The newest of both kinds; readings change no machine's estimate.
void DayDesk::drop_last_typed() {
    if (!typed_.readings.empty()) {
        typed_.readings.pop_back();
    } else if (!typed_.trays.empty()) {
        typed_.trays.pop_back();
        run_.reset();
        ask_rerun();
        make_charts();
    }
    make_ledger();
}

// After it the rows are the day's own: seen by all once the day is opened again.
void DayDesk::write() {
    if (typed_.empty()) {
        note_ = say_(Text::nothing_typed);
        return;
    }
    try {
        std::string names;
        for (const std::filesystem::path& path : write_typed(day_->folder, typed_))
            names += (names.empty() ? "" : ", ") + path.string();
        note_ = say_(Text::saved_as, {names});
        reopen_ = true;
    } catch (const std::exception& error) {
        note_ = say_(Text::not_saved, {error.what()});
    }
}

void DayDesk::ask_rerun() {
    const sim::Machine& machine = day_->day.machines[machine_];
    sim::Machine changed = with_trays(machine, typed_);
    if (changed.trays.size() == machine.trays.size()) {
        if (rerun_) rerun_->call_off();
        run_.reset();
        return;
    }
    if (!rerun_) rerun_ = std::make_unique<Rerun>(wake_);
    rerun_->ask(std::move(changed), day_->series.origin_us);
}

void DayDesk::refresh() {
    if (!rerun_) return;
    std::shared_ptr<const RerunResult> done = rerun_->take();
    if (!done) return;
    // Before what it is drawn from goes.
    charts_.clear();
    run_ = std::move(done);
    make_charts();
    make_ledger();
}

}  // namespace podrate::ui
