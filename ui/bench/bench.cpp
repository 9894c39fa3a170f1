#include "bench/bench.hpp"

#include <algorithm>
#include <utility>

#include "bench/parameter_scale.hpp"

namespace podrate::ui {
namespace {

constexpr Measure kCompared[] = {Measure::load_rate, Measure::loss,  Measure::yield,
                                 Measure::level,     Measure::speed, Measure::harvested};

Measure looked_at_by(AlarmId alarm) {
    switch (alarm) {
        case AlarmId::loss_high: return Measure::loss;
        case AlarmId::hopper_nearly_full:
        case AlarmId::hopper_full:
        case AlarmId::hopper_leak:
        case AlarmId::weight_fault:
        case AlarmId::peas_old: return Measure::level;
        case AlarmId::speed_fault: return Measure::speed;
        case AlarmId::rate_low:
        case AlarmId::drum_blocking:
        case AlarmId::tilt_fault: return Measure::load_rate;
    }
    return Measure::load_rate;
}

}  // namespace

Bench::Bench(std::shared_ptr<const OpenDay> day, const Speech& say, SetKeeping keeping,
             const std::function<void()>& wake)
    : day_(std::move(day)),
      say_(say),
      keeping_(std::move(keeping)),
      window_({0.0, static_cast<double>(day_->series.last_ms)}),
      rerun_(wake),
      book_(day_, wake) {
    for (const sim::Machine& machine : day_->day.machines)
        stands_.push_back({EditedParameters(machine.parameters), nullptr, nullptr, nullptr, ""});
    make_comparison();
}

void Bench::speak(const Speech& say) {
    say_ = say;
    list_.sift(edited(), say_);
    make_comparison();
}

void Bench::look_at(std::size_t machine, TimeUs at_us) {
    window_.set_cursor(static_cast<double>(at_us - day_->series.origin_us) / 1e3);
    if (machine == machine_) return;
    machine_ = machine;
    show_machine();
}

std::optional<TimeUs> Bench::cursor_us() const {
    if (!window_.cursor_ms()) return std::nullopt;
    return day_->series.time_us(*window_.cursor_ms());
}

void Bench::go_on_from(const Bench& before) {
    for (std::size_t i = 0; i < stands_.size() && i < before.stands_.size(); ++i) {
        if (same_values(stands_[i].edited.own(), before.stands_[i].edited.own()))
            stands_[i].edited = before.stands_[i].edited;
    }
    machine_ = std::min(before.machine_, stands_.size() - 1);
    book_.take_over(before.book_.marks());
    show_machine();
}

void Bench::show_machine() {
    list_.sift(edited(), say_);
    mark_.reset();
    make_comparison();
    rerun_where_needed();
    chosen_moved();
}

void Bench::refresh() {
    const bool idle = !busy();
    if (book_.refresh() && refusals_told_ != book_.refusals()) {
        refusals_told_ = book_.refusals();
        if (!refusals_told_.empty() && note_.empty()) note_ = refusals_told_.front();
    }
    if (auto result = rerun_.take()) take_run(std::move(result));
    trace_where_needed();
    // All that was to come has come.
    if (saving_ == Saving::table && idle && !busy() && !book_.counted()) {
        saving_ = Saving::none;
        note_ = say_(Text::bench_not_counted);
    }
}

void Bench::take_run(std::shared_ptr<const RerunResult> result) {
    if (!result->machine.usable) note_ = result->machine.refusal;
    Stand& stand = stands_[asked_machine_];
    book_.know(asked_machine_, *result);
    if (same_values(result->machine.parameters, stand.edited.own())) {
        // The day holds the same columns already.
        auto own = std::make_shared<RerunResult>(*result);
        own->series = {day_, &day_->series.machines[asked_machine_]};
        stand.own_run = std::move(own);
        if (asked_machine_ == machine_) rerun_where_needed();
        return;
    }
    stand.after = std::move(result);
    if (asked_machine_ == machine_) make_comparison();
}

// Parameters of the machine at hand are others than they were.
void Bench::changed() {
    list_.sift(edited(), say_);
    rerun_where_needed();
    chosen_moved();
}

void Bench::rerun_where_needed() {
    std::shared_ptr<const RerunResult>& after = stands_[machine_].after;
    const bool shown = after != nullptr && same_values(after->machine.parameters, edited().now());
    if (edited().changes() == 0 || shown) {
        if (!shown) after = nullptr;
        if (asked_machine_ == machine_ && !own_under_way()) rerun_.call_off();
        return make_comparison();
    }
    // Where only limits, deadbands and delays differ from a run that is known, its alarms are judged anew: at
    // once.
    for (const auto& known : {after, stands_[machine_].own_run}) {
        if (known == nullptr || known->trace == nullptr ||
            !same_but_for_alarms(known->machine.parameters, edited().now()))
            continue;
        if (asked_machine_ == machine_) rerun_.call_off();
        after = with_alarms(*known, edited().now());
        return make_comparison();
    }
    // The machine's own run serves all of those.
    const bool own_serves =
        stands_[machine_].own_run == nullptr && same_but_for_alarms(edited().own(), edited().now());
    if (!own_serves) {
        ask(edited().now());
    } else if (!own_under_way()) {
        ask(edited().own());
    }
}

// A day that is opened keeps no trace of what its alarms looked at: the machine's own run is replayed for it
// once somebody goes to an alarm's limit.
void Bench::trace_where_needed() {
    const bool known = stands_[machine_].own_run != nullptr || !day_->result.machines[machine_].usable;
    if (known || rerun_.running() || !list_.chosen()) return;
    const ParameterInfo& chosen = kParameterTable[*list_.chosen()];
    if (alarm_ || counts_wanted_ || sim::touches_alarms_alone(chosen)) ask(edited().own());
}

bool Bench::own_under_way() const {
    return rerun_.running() && asked_machine_ == machine_ && same_values(asked_, edited().own());
}

// Another parameter is chosen: where it sets an alarm, that is what strip and tables are about.
void Bench::chosen_moved() {
    if (at_ == list_.chosen()) return;
    at_ = list_.chosen();
    std::optional<AlarmId> alarm;
    if (at_) alarm = alarm_set_by(kParameterTable[*at_]);
    if (alarm != alarm_) mark_.reset();
    if (alarm.has_value() != alarm_.has_value() && table_ != BenchTable::history)
        table_ = alarm ? BenchTable::told : BenchTable::totals;
    const bool other = alarm && alarm != alarm_;
    alarm_ = alarm;
    trace_where_needed();
    if (other) return show_chart_of(*alarm);
    look_up();
}

// What the alarm looks at stands first.
void Bench::show_chart_of(AlarmId alarm) {
    const Measure measure = looked_at_by(alarm);
    for (std::size_t i = 0; i < std::size(kCompared); ++i) {
        if (kCompared[i] == measure) first_chart_ = i;
    }
    make_comparison();
}

void Bench::look_up() {
    if (!alarm_ && !counts_wanted_) return;
    BookPage page;
    page.machine = machine_;
    page.together = together_;
    page.alarm = alarm_.value_or(AlarmId::loss_high);
    if (alarm_ && sim::touches_alarms_alone(kParameterTable[*at_])) page.parameter = at_;
    page.before = before().parameters;
    page.after = edited().now();
    page.after_run = stands_[machine_].after;
    if (stands_[machine_].taken) book_.know(machine_, *stands_[machine_].taken);
    book_.look(page);
}

void Bench::ask_table() {
    saving_ = Saving::table;
    counts_wanted_ = true;
    look_up();
    trace_where_needed();
    if (!book_.counted()) note_ = say_(Text::bench_counting);
}

Saving Bench::take_saving() {
    if (saving_ == Saving::table && !book_.counted()) return Saving::none;
    return std::exchange(saving_, Saving::none);
}

void Bench::sift() {
    list_.sift(edited(), say_);
    chosen_moved();
}

void Bench::ask(const Parameters& parameters) {
    sim::Machine machine = day_->day.machines[machine_];
    machine.parameters = parameters;
    asked_machine_ = machine_;
    asked_ = parameters;
    rerun_.ask(std::move(machine), day_->series.origin_us);
}

void Bench::make_comparison() {
    const auto& taken = stands_[machine_].taken;
    const MachineSeries& own = taken ? *taken->series : day_->series.machines[machine_];
    const RerunResult* other = after();
    const bool usable = other != nullptr && other->machine.usable;
    charts_.clear();
    for (std::size_t i = 0; i < std::size(kCompared); ++i) {
        const Measure measure = kCompared[(first_chart_ + i) % std::size(kCompared)];
        Chart chart = bare_chart(measure, say_);
        if (const Column* column = own.find(measure))
            chart.lines.push_back({&own, column, say_(Text::bench_before)});
        const Column* column = usable ? other->series->find(measure) : nullptr;
        if (column != nullptr) chart.lines.push_back({other->series.get(), column, say_(Text::bench_after)});
        if (!chart.lines.empty()) charts_.push_back(std::move(chart));
    }
    pictures_.resize(charts_.size());
    totals_ = compare_totals(before(), usable ? &other->machine : nullptr, say_);
    alarms_ = compare_alarms(before().alarms, usable ? other->machine.alarms : before().alarms);
    look_up();
}

void Bench::take_as_before() {
    Stand& stand = stands_[machine_];
    if (stand.taken != nullptr) {
        stand.taken = nullptr;
        stand.taken_name.clear();
        note_ = say_(Text::bench_own_before);
    } else if (stand.after != nullptr && stand.after->machine.usable && !rerunning()) {
        stand.taken = stand.after;
        stand.taken_name =
            edited().from() && !edited().unsaved() ? edited().from()->name : say_(Text::bench_before_taken);
        note_ = say_(Text::bench_taken, {stand.taken_name});
    } else {
        note_ = say_(Text::bench_none_to_take);
        return;
    }
    make_comparison();
}

void Bench::next_machine() {
    machine_ = (machine_ + 1) % stands_.size();
    show_machine();
}

void Bench::choose(std::size_t index) {
    end_typing();
    list_.choose(index);
    pane_ = BenchPane::list;
    chosen_moved();
}

const TypedLine& Bench::line() const {
    return typing_ == BenchTyping::value ? number_.line() : words_;
}

void Bench::end_typing() {
    typing_ = BenchTyping::nothing;
}

void Bench::edit_value() {
    if (!list_.chosen()) return;
    const ParameterInfo& info = kParameterTable[*list_.chosen()];
    number_ = NumberEntry({info.low, info.high, info.decimals});
    number_.line().begin(number_text(say_, static_cast<float>(edited().now().*info.member), info.decimals));
    typing_ = BenchTyping::value;
}

void Bench::put_typed_value() {
    note_ = number_.refusal(say_);
    if (!note_.empty()) return;
    stands_[machine_].edited.put(*list_.chosen(), static_cast<Real>(*number_.value()));
    end_typing();
    changed();
}

void Bench::step_value(bool up, bool coarse) {
    if (!list_.chosen()) return;
    const std::size_t index = *list_.chosen();
    const Real now = edited().now().*kParameterTable[index].member;
    stands_[machine_].edited.put(index, stepped(index, now, up, coarse));
    changed();
}

void Bench::put_value(double value) {
    if (!list_.chosen() || typing()) return;
    stands_[machine_].edited.put(*list_.chosen(), static_cast<Real>(value));
    changed();
}

void Bench::drag_value(double share, bool begins) {
    if (!list_.chosen()) return;
    const std::size_t index = *list_.chosen();
    const ParameterInfo& info = kParameterTable[index];
    const auto value = static_cast<Real>(value_at_share(info, share));
    EditedParameters& edited = stands_[machine_].edited;
    if (begins) dragged_ = false;
    if (edited.now().*info.member == value) return;
    if (dragged_) edited.undo();
    dragged_ = edited.now().*info.member != value;
    edited.put(index, value);
    changed();
}

}  // namespace podrate::ui
