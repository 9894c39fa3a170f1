#include "bench/bench.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "input/chart_keys.hpp"

namespace podrate::ui {
namespace {

constexpr Measure kCompared[] = {Measure::load_rate, Measure::loss,  Measure::yield,
                                 Measure::level,     Measure::speed, Measure::harvested};
constexpr int kPageRows = 10;

}  // namespace

Bench::Bench(std::shared_ptr<const OpenDay> day, const Speech& say, SetKeeping keeping,
             std::function<void()> wake)
    : day_(std::move(day)),
      say_(say),
      keeping_(std::move(keeping)),
      window_({0.0, static_cast<double>(day_->series.last_ms)}),
      rerun_(std::move(wake)) {
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
    show_machine();
}

void Bench::show_machine() {
    list_.sift(edited(), say_);
    make_comparison();
    rerun_where_needed();
}

void Bench::refresh() {
    std::shared_ptr<const RerunResult> result = rerun_.take();
    if (result == nullptr) return;
    if (!result->machine.usable) note_ = result->machine.refusal;
    Stand& stand = stands_[asked_machine_];
    if (same_values(result->machine.parameters, stand.edited.own())) {
        stand.own_run = std::move(result);
        return;
    }
    stand.after = std::move(result);
    if (asked_machine_ == machine_) make_comparison();
}

// Parameters of the machine at hand are others than they were.
void Bench::changed() {
    list_.sift(edited(), say_);
    rerun_where_needed();
}

void Bench::rerun_where_needed() {
    std::shared_ptr<const RerunResult>& after = stands_[machine_].after;
    if (edited().changes() == 0) {
        after = nullptr;
        make_comparison();
        if (asked_machine_ == machine_) rerun_.call_off();
        return;
    }
    if (after != nullptr && same_values(after->machine.parameters, edited().now())) {
        if (asked_machine_ == machine_) rerun_.call_off();
        return;
    }
    // Where only limits, deadbands and delays differ from a run that is known, its alarms are judged anew: at
    // once.
    for (const auto& known : {after, stands_[machine_].own_run}) {
        if (known == nullptr || known->trace == nullptr ||
            !same_but_for_alarms(known->machine.parameters, edited().now()))
            continue;
        if (asked_machine_ == machine_) rerun_.call_off();
        after = with_alarms(*known, edited().now());
        make_comparison();
        return;
    }
    ask(edited().now());
}

// A day that is opened keeps no trace of what its alarms looked at: the machine's own run is replayed for it
// once somebody goes to an alarm's limit.
void Bench::trace_where_needed() {
    const bool known = stands_[machine_].own_run != nullptr || !day_->result.machines[machine_].usable;
    if (known || rerun_.running() || edited().changes() != 0 || !list_.chosen()) return;
    if (sim::touches_alarms_alone(kParameterTable[*list_.chosen()])) ask(edited().own());
}

void Bench::ask(const Parameters& parameters) {
    sim::Machine machine = day_->day.machines[machine_];
    machine.parameters = parameters;
    asked_machine_ = machine_;
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
    trace_where_needed();
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

void Bench::drag_value(double share, bool begins) {
    if (!list_.chosen()) return;
    const std::size_t index = *list_.chosen();
    const ParameterInfo& info = kParameterTable[index];
    const double step = std::pow(10.0, -info.decimals);
    const double wanted = info.low + std::clamp(share, 0.0, 1.0) * (info.high - info.low);
    const auto value = static_cast<Real>(std::clamp(step * std::round(wanted / step), info.low, info.high));
    EditedParameters& edited = stands_[machine_].edited;
    if (begins) dragged_ = false;
    if (edited.now().*info.member == value) return;
    if (dragged_) edited.undo();
    dragged_ = edited.now().*info.member != value;
    edited.put(index, value);
    changed();
}

void Bench::type(char32_t sign) {
    if (std::exchange(swallow_, false) || !typing()) return;
    TypedLine& line = typing_ == BenchTyping::value ? number_.line() : words_;
    line.type(sign);
    if (typing_ != BenchTyping::filter) return;
    list_.set_filter(line.text());
    list_.sift(edited(), say_);
}

void Bench::press_typing(const KeyPress& press) {
    TypedLine& line = typing_ == BenchTyping::value ? number_.line() : words_;
    switch (press.key) {
        case Key::backspace: line.backspace(); break;
        case Key::remove: line.remove(); break;
        case Key::left: line.left(); break;
        case Key::right: line.right(); break;
        case Key::home: line.to_start(); break;
        case Key::end: line.to_end(); break;
        case Key::escape:
            if (typing_ == BenchTyping::filter) line = TypedLine();
            if (typing_ != BenchTyping::filter) end_typing();
            break;
        case Key::tab:
        case Key::enter:
            if (typing_ == BenchTyping::value) return put_typed_value();
            if (typing_ == BenchTyping::name) return take_name();
            if (typing_ == BenchTyping::note) return save();
            break;
        default: return;
    }
    if (typing_ != BenchTyping::filter) return;
    list_.set_filter(line.text());
    list_.sift(edited(), say_);
    const bool done = press.key == Key::escape || press.key == Key::enter || press.key == Key::tab;
    if (done) end_typing();
}

void Bench::press_list(const KeyPress& press) {
    const int digit = digit_of(press.key);
    if (digit >= 0 && list_.chosen()) {
        edit_value();
        number_.line().type(static_cast<char32_t>('0' + digit));
        swallow_ = true;
        return;
    }
    const auto all = static_cast<int>(kParameterCount);
    switch (press.key) {
        case Key::up: list_.step(-1); break;
        case Key::down: list_.step(1); break;
        case Key::page_up: list_.step(-kPageRows); break;
        case Key::page_down: list_.step(kPageRows); break;
        case Key::home: list_.step(-all); break;
        case Key::end: list_.step(all); break;
        case Key::enter: edit_value(); break;
        case Key::right:
        case Key::plus: step_value(true, press.shift && press.key == Key::right); break;
        case Key::left:
        case Key::minus: step_value(false, press.shift); break;
        case Key::remove:
            if (list_.chosen()) stands_[machine_].edited.reset(*list_.chosen());
            changed();
            break;
        default: break;
    }
    trace_where_needed();
}

void Bench::press(const KeyPress& press) {
    swallow_ = false;
    if (press.key == Key::none || press.key == Key::modifier) return;
    note_.clear();
    if (typing()) return press_typing(press);
    EditedParameters& edited = stands_[machine_].edited;
    switch (press.key) {
        case Key::tab: pane_ = pane_ == BenchPane::list ? BenchPane::charts : BenchPane::list; return;
        case Key::z:
            if (press.shift ? edited.redo() : edited.undo()) changed();
            return;
        case Key::y:
            if (edited.redo()) changed();
            return;
        case Key::r: edited.reset_all(); return changed();
        case Key::f:
            words_ = TypedLine();
            words_.begin(list_.filter());
            typing_ = BenchTyping::filter;
            swallow_ = true;
            return;
        case Key::c: list_.set_changed_only(!list_.changed_only()); return list_.sift(edited, say_);
        case Key::escape:
            list_.set_filter("");
            list_.set_changed_only(false);
            return list_.sift(edited, say_);
        case Key::g: first_chart_ = (first_chart_ + 1) % std::size(kCompared); return make_comparison();
        case Key::t: table_ = static_cast<BenchTable>((static_cast<int>(table_) + 1) % kBenchTables); return;
        case Key::m: return next_machine();
        case Key::s: return begin_saving();
        case Key::b: return take_as_before();
        case Key::o: return open_next(press.shift);
        default: break;
    }
    const bool of_list = press.key == Key::enter || press.key == Key::remove;
    if (pane_ == BenchPane::list || of_list) return press_list(press);
    window_.apply(chart_action_of(press));
}

}  // namespace podrate::ui
