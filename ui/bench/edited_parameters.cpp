#include "bench/edited_parameters.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace podrate::ui {
namespace {

// 1, 2 or 5 times a power of ten, at most `about`.
double round_step(double about) {
    const double ten = std::pow(10.0, std::floor(std::log10(about)));
    for (const double times : {5.0, 2.0}) {
        if (times * ten <= about) return times * ten;
    }
    return ten;
}

// A twentieth of what is usual; where that is nothing, a two hundredth of the range. Not finer than the table
// tells.
double step_of(const ParameterInfo& info) {
    constexpr double kOfDefault = 0.05;
    constexpr double kOfRange = 0.005;
    const double about =
        info.value != 0.0 ? kOfDefault * std::abs(info.value) : kOfRange * (info.high - info.low);
    return std::max(round_step(about), std::pow(10.0, -info.decimals));
}

}  // namespace

bool same_values(const Parameters& a, const Parameters& b) {
    return std::all_of(std::begin(kParameterTable), std::end(kParameterTable),
                       [&](const ParameterInfo& info) { return a.*info.member == b.*info.member; });
}

bool EditedParameters::changed(std::size_t index) const {
    const auto member = kParameterTable[index].member;
    return own_.*member != now_.values.*member;
}

std::size_t EditedParameters::changes() const {
    std::size_t count = 0;
    for (std::size_t i = 0; i < kParameterCount; ++i) count += changed(i) ? 1 : 0;
    return count;
}

Parameters EditedParameters::base() const {
    Parameters values = own_;
    if (now_.from) now_.from->set.lay_over(values);
    return values;
}

bool EditedParameters::unsaved() const {
    return !same_values(now_.values, base());
}

void EditedParameters::change(Stand to) {
    if (same_values(to.values, now_.values) && to.from == now_.from) return;
    before_.push_back(std::exchange(now_, std::move(to)));
    if (before_.size() > kMostUndo) before_.erase(before_.begin());
    undone_.clear();
}

void EditedParameters::put(std::size_t index, Real value) {
    Stand to = now_;
    to.values.*kParameterTable[index].member = value;
    change(std::move(to));
}

void EditedParameters::reset(std::size_t index) {
    put(index, own_.*kParameterTable[index].member);
}

void EditedParameters::reset_all() {
    change({own_, nullptr});
}

void EditedParameters::open(std::shared_ptr<const NamedSet> set) {
    Stand to{own_, std::move(set)};
    to.from->set.lay_over(to.values);
    change(std::move(to));
}

bool EditedParameters::undo() {
    if (before_.empty()) return false;
    undone_.push_back(std::exchange(now_, std::move(before_.back())));
    before_.pop_back();
    return true;
}

bool EditedParameters::redo() {
    if (undone_.empty()) return false;
    before_.push_back(std::exchange(now_, std::move(undone_.back())));
    undone_.pop_back();
    return true;
}

sim::ParameterSet EditedParameters::to_save(sim::SetEntry made, const std::string& own_name) const {
    made.made_from = now_.from ? now_.from->name : own_name;
    made.made_from_mark = now_.from ? now_.from->mark : sim::mark_of(own_);
    sim::ParameterSet set = sim::set_after(now_.from ? std::optional(now_.from->set) : std::nullopt, made);
    const sim::ParameterSet changed = sim::set_between(own_, now_.values);
    for (std::size_t i = 0; i < kParameterCount; ++i) {
        if (set.values[i] || changed.values[i]) set.values[i] = now_.values.*kParameterTable[i].member;
    }
    return set;
}

Real stepped(std::size_t index, Real value, bool up, bool coarse) {
    constexpr double kCoarse = 10.0;
    constexpr double kSame = 1e-2;  // of a step: a float is not quite the decimal that it stands for
    const ParameterInfo& info = kParameterTable[index];
    const double step = step_of(info) * (coarse ? kCoarse : 1.0);
    const double steps = static_cast<double>(value) / step;
    const double to = up ? std::floor(steps + kSame) + 1.0 : std::ceil(steps - kSame) - 1.0;
    return static_cast<Real>(std::clamp(to * step, info.low, info.high));
}

}  // namespace podrate::ui
