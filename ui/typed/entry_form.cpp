#include "typed/entry_form.hpp"

#include <algorithm>

#include "kit/number_entry.hpp"
#include "model/clock_text.hpp"

namespace podrate::ui {
namespace {

// What trays mostly are (common practice, no source): half a square metre, peas of 420 g a thousand.
constexpr double kUsualAreaM2 = 0.5;
constexpr double kUsualThousandPeaG = 420.0;
constexpr double kMostPeas = 100000.0;
constexpr double kLeastAreaM2 = 0.01;
constexpr double kMostAreaM2 = 100.0;
constexpr double kLeastThousandPeaG = 20.0;
constexpr double kMostThousandPeaG = 2000.0;
constexpr double kLeastReading = 30.0;
constexpr double kMostReading = 300.0;
constexpr TimeUs kHalfDayUs = 12 * 3600 * kSecondUs;

EntryLine line_of(Text label, Text unit, const std::string& begun) {
    EntryLine line{label, unit, TypedLine(40)};
    line.line.begin(begun);
    return line;
}

std::vector<std::string> field_names(const sim::Day& day) {
    std::vector<std::string> names;
    for (const sim::Field& field : day.fields) names.push_back(field.name);
    for (const sim::MaturityReading& reading : day.maturity) {
        if (std::find(names.begin(), names.end(), reading.field) == names.end())
            names.push_back(reading.field);
    }
    return names;
}

}  // namespace

EntryForm::EntryForm(EntryKind kind, const sim::Day& day, const std::string& machine, TimeUs at_us,
                     const Speech& say)
    : kind_(kind),
      say_(say),
      time_zone_(day.time_zone),
      machine_(machine),
      fields_(field_names(day)),
      near_us_(at_us) {
    lines_.push_back(line_of(Text::entry_time, Text::unit_none, clock_text(at_us, time_zone_, true)));
    if (kind == EntryKind::tray) {
        lines_.push_back(line_of(Text::entry_count, Text::unit_peas, ""));
        lines_.push_back(line_of(Text::entry_area, Text::unit_m2, say.number(kUsualAreaM2, 2)));
        lines_.push_back(line_of(Text::entry_thousand, Text::unit_g, say.number(kUsualThousandPeaG, 0)));
    } else {
        lines_.push_back(line_of(Text::entry_field, Text::unit_none, fields_.empty() ? "" : fields_.front()));
        lines_.push_back(line_of(Text::entry_reading, Text::unit_points, ""));
    }
    active_ = kind == EntryKind::tray ? 1 : 2;
}

void EntryForm::type(char32_t sign) {
    refusal_.clear();
    lines_[active_].line.type(sign);
}

void EntryForm::next_field(int by) {
    if (fields_.empty()) return;
    const auto count = static_cast<int>(fields_.size());
    const auto found = std::find(fields_.begin(), fields_.end(), lines_[active_].line.text());
    const int at = found == fields_.end() ? (by > 0 ? -1 : 0) : static_cast<int>(found - fields_.begin());
    lines_[active_].line.begin(fields_[static_cast<std::size_t>((at + by + count) % count)]);
}

void EntryForm::press(const KeyPress& press) {
    TypedLine& line = lines_[active_].line;
    const bool on_field = lines_[active_].label == Text::entry_field;
    switch (press.key) {
        case Key::escape: closed_ = true; break;
        case Key::enter:
            if (active_ + 1 < lines_.size()) {
                ++active_;
            } else {
                finish();
            }
            break;
        case Key::tab: active_ = (active_ + (press.shift ? lines_.size() - 1 : 1)) % lines_.size(); break;
        case Key::down: active_ = std::min(active_ + 1, lines_.size() - 1); break;
        case Key::up: active_ = active_ > 0 ? active_ - 1 : 0; break;
        case Key::left: on_field ? next_field(-1) : line.left(); break;
        case Key::right: on_field ? next_field(1) : line.right(); break;
        case Key::home: line.to_start(); break;
        case Key::end: line.to_end(); break;
        case Key::backspace:
            refusal_.clear();
            line.backspace();
            break;
        case Key::remove:
            refusal_.clear();
            line.remove();
            break;
        default: break;
    }
}

bool EntryForm::take_time(double& unix_s) {
    // From half a day before: people type in at noon what they counted at ten.
    const auto at_us = parse_clock(lines_[0].line.text(), time_zone_, near_us_ - kHalfDayUs);
    if (!at_us) {
        active_ = 0;
        refusal_ = say_(Text::entry_no_time);
        return false;
    }
    unix_s = static_cast<double>(*at_us) / 1e6;
    return true;
}

bool EntryForm::take_number(std::size_t line, double low, double high, double& value) {
    const auto typed = typed_number(lines_[line].line.text());
    if (!typed || *typed < low || *typed > high) {
        active_ = line;
        const int decimals = low < 1.0 && low > 0.0 ? 2 : 0;
        refusal_ = say_(Text::entry_number, {say_(lines_[line].label),
                                             say_.range(say_.number(low, decimals), say_.number(high, 0))});
        return false;
    }
    value = *typed;
    return true;
}

void EntryForm::finish() {
    refusal_.clear();
    if (kind_ == EntryKind::tray) {
        if (!take_time(tray_.check.unix_s) || !take_number(1, 0.0, kMostPeas, tray_.count) ||
            !take_number(2, kLeastAreaM2, kMostAreaM2, tray_.area_m2) ||
            !take_number(3, kLeastThousandPeaG, kMostThousandPeaG, tray_.thousand_pea_g))
            return;
        tray_.check.machine = machine_;
        tray_.check.kg_per_ha = sim::ground_kg_per_ha(tray_.count, tray_.area_m2, tray_.thousand_pea_g);
        tray_.check.sd_share = sim::tray_sd_share(tray_.count);
    } else {
        if (!take_time(reading_.unix_s)) return;
        reading_.field = lines_[1].line.text();
        if (reading_.field.empty()) {
            active_ = 1;
            refusal_ = say_(Text::entry_no_field);
            return;
        }
        if (!take_number(2, kLeastReading, kMostReading, reading_.tenderometer)) return;
    }
    done_ = true;
}

}  // namespace podrate::ui
