#include "tune/tuning_csv.hpp"

#include <algorithm>
#include <cmath>

#include "log/csv_record.hpp"
#include "log/number.hpp"
#include "tune/tallying.hpp"

namespace podrate::sim {
namespace {

constexpr const char* kTallyColumns =
    "alarm,episodes,told,missed_pct,delay_median_s,delay_longest_s,alarms,false_alarms,false_per_h,alarms_"
    "per_h,"
    "chattered,in_alarm_s,idle_s,judged_h,known_h";
constexpr const char* kPanelColumns = "tens,tens_over_one,tens_over_two,tens_in_flood,most_in_ten";

// Cells behind those that a row has already.
class TuneRow {
  public:
    explicit TuneRow(std::string& text) : text_(text) {}
    void count(int value) { text_ += ',' + std::to_string(value); }
    void number(double value, int decimals, bool known = true) {
        text_ += ',';
        if (known) append_fixed(text_, value, decimals);
    }
    void blank(int cells) { text_.append(static_cast<std::size_t>(cells), ','); }
    void words(const std::string& cell) { text_ += ',' + csv_cell(cell); }

  private:
    std::string& text_;
};

void add_alarm_cells(const AlarmTally& tally, TuneRow& row) {
    const bool known = tally.known_h > 0.0;
    const auto longest = std::max_element(tally.delays_s.begin(), tally.delays_s.end());
    if (known) {
        row.count(tally.episodes);
        row.count(tally.told);
    } else {
        row.blank(2);
    }
    row.number(tally.episodes > 0 ? 100.0 * (tally.episodes - tally.told) / tally.episodes : 0.0, 1,
               tally.episodes > 0);
    row.number(median_delay_s(tally), 1, tally.told > 0);
    row.number(tally.told > 0 ? static_cast<double>(*longest) : 0.0, 1, tally.told > 0);
    row.count(tally.alarms);
    if (known) {
        row.count(tally.false_alarms);
    } else {
        row.blank(1);
    }
    row.number(known ? tally.false_alarms / tally.known_h : 0.0, 4, known);
    row.number(tally.judged_h > 0.0 ? tally.alarms / tally.judged_h : 0.0, 4, tally.judged_h > 0.0);
    row.count(tally.chattered);
    row.number(tally.in_alarm_s, 1);
    row.number(tally.idle_s, 1, known);
    row.number(tally.judged_h, 4);
    row.number(tally.known_h, 4);
}

void add_panel_cells(const PanelTally& panel, TuneRow& row) {
    row.blank(5);
    row.count(panel.alarms);
    row.blank(2);
    row.number(panel.work_h > 0.0 ? panel.alarms / panel.work_h : 0.0, 4, panel.work_h > 0.0);
    row.blank(3);
    row.number(panel.work_h, 4);
    row.blank(1);
    for (const int count :
         {panel.tens, panel.tens_over_one, panel.tens_over_two, panel.tens_in_flood, panel.most_in_ten})
        row.count(count);
}

std::string head_of(const TuneTable& table, const char* more) {
    std::string text = "setting";
    for (const std::string& name : table.parameters) text += ',' + name;
    return text + more + ',' + kTallyColumns + ',' + kPanelColumns;
}

std::string begin_of(const TuneTable& table, std::size_t setting) {
    std::string text = std::to_string(setting);
    for (const double value : table.settings[setting].values)
        text += ',' + (std::isnan(value) ? std::string() : value_text(value));
    return text;
}

std::string summed_row(const TuneTable& table, std::size_t setting, const std::string& begin,
                       const std::string& objective) {
    std::string text;
    PanelTally panel;
    for (int i = 0; i < kAlarms; ++i) {
        AlarmTally sum;
        for (const MachineDayTally& place : table.tallies[setting])
            add_to(sum, place.alarms[static_cast<std::size_t>(i)]);
        text += begin;
        TuneRow row(text);
        row.words(name_of(static_cast<AlarmId>(i)));
        add_alarm_cells(sum, row);
        row.blank(6);
        text += "\n";
    }
    for (const MachineDayTally& place : table.tallies[setting]) add_to(panel, place.panel);
    text += begin;
    TuneRow row(text);
    row.words("all");
    add_panel_cells(panel, row);
    return text + ',' + objective + "\n";
}

}  // namespace

std::string tuning_csv(const TuneTable& table, const std::vector<AlarmId>& alarms,
                       const TuneWeights& weights) {
    std::string text = head_of(table, "") + ",objective\n";
    for (std::size_t setting = 0; setting < table.settings.size(); ++setting) {
        const double objective = objective_of(table.tallies[setting], alarms, weights);
        text += summed_row(table, setting, begin_of(table, setting), fixed(objective, 5));
    }
    return text;
}

std::string tuning_by_day_csv(const TuneTable& table) {
    std::string text = head_of(table, ",day,machine") + "\n";
    for (std::size_t setting = 0; setting < table.settings.size(); ++setting) {
        for (std::size_t place = 0; place < table.on.size(); ++place) {
            const MachineDayTally& tally = table.tallies[setting][place];
            std::string begin = begin_of(table, setting);
            TuneRow names(begin);
            names.words(table.on[place].day);
            names.words(table.on[place].machine);
            for (int i = 0; i < kAlarms; ++i) {
                text += begin;
                TuneRow row(text);
                row.words(name_of(static_cast<AlarmId>(i)));
                add_alarm_cells(tally.alarms[static_cast<std::size_t>(i)], row);
                row.blank(5);
                text += "\n";
            }
            text += begin;
            TuneRow row(text);
            row.words("all");
            add_panel_cells(tally.panel, row);
            text += "\n";
        }
    }
    return text;
}

}  // namespace podrate::sim
