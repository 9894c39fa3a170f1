// What the day's view shows and what keys do to it: plain data, no drawing.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "day/day_sums.hpp"
#include "day/ledger.hpp"
#include "input/key.hpp"
#include "map/map_view.hpp"
#include "model/open_day.hpp"
#include "series/chart.hpp"
#include "series/time_window.hpp"

namespace podrate::ui {

enum class DayPane { charts, map, ledger };
inline constexpr int kDayPanes = 3;

// Which columns the charts show.
enum class ChartPage { estimates, weighing, machine };
inline constexpr int kChartPages = 3;

// What is to be saved of what is seen.
enum class Saving { none, picture, table };

class DayDesk {
  public:
    DayDesk(std::shared_ptr<const OpenDay> day, const Speech& say);

    void speak(const Speech& say);
    void look_at(std::size_t machine, TimeUs at_us);
    void press(const KeyPress& press);
    void type(char32_t character);
    // While true, keys and characters are for what is being typed.
    [[nodiscard]] bool typing() const { return false; }

    void next_machine();
    void next_page();
    // The chosen machine alone, or all in one chart.
    void toggle_together();
    void toggle(LedgerKind kind);
    // The cursor there, and that time in view.
    void choose(std::size_t row);
    void go_to(TimeUs at_us);
    void take_pane(DayPane pane) { pane_ = pane; }

    [[nodiscard]] const OpenDay& day() const { return *day_; }
    [[nodiscard]] const Speech& speech() const { return say_; }
    [[nodiscard]] std::size_t machine() const { return machine_; }
    [[nodiscard]] bool together() const { return together_; }
    [[nodiscard]] ChartPage page() const { return page_; }
    [[nodiscard]] DayPane pane() const { return pane_; }
    // The pane that keys act on has all the room.
    [[nodiscard]] bool whole() const { return whole_; }
    [[nodiscard]] TimeWindow& window() { return window_; }
    [[nodiscard]] const TimeWindow& window() const { return window_; }
    [[nodiscard]] const std::vector<Chart>& charts() const { return charts_; }
    [[nodiscard]] std::vector<ChartPicture>& pictures() { return pictures_; }
    // Nothing where the day has no map.
    [[nodiscard]] std::optional<MapState>& map() { return map_; }
    [[nodiscard]] const std::vector<LedgerRow>& rows() const { return rows_; }
    [[nodiscard]] LedgerWindow& ledger() { return ledger_; }
    [[nodiscard]] const std::vector<DaySum>& sums() const { return sums_; }
    [[nodiscard]] std::optional<TimeUs> cursor_us() const;

    // What a key asked to save since the last call.
    [[nodiscard]] Saving take_saving();
    // What was done last, in words; empty where there is nothing to tell.
    [[nodiscard]] const std::string& note() const { return note_; }
    void tell(std::string note) { note_ = std::move(note); }

  private:
    void make_charts();
    void make_ledger();
    void press_ledger(const KeyPress& press);

    std::shared_ptr<const OpenDay> day_;
    Speech say_;
    std::size_t machine_ = 0;
    bool together_ = false;
    ChartPage page_ = ChartPage::estimates;
    DayPane pane_ = DayPane::charts;
    bool whole_ = false;
    TimeWindow window_;
    std::vector<Chart> charts_;
    std::vector<ChartPicture> pictures_;
    std::optional<MapState> map_;
    std::vector<LedgerRow> rows_;
    LedgerWindow ledger_;
    std::vector<DaySum> sums_;
    Saving saving_ = Saving::none;
    std::string note_;
};

}  // namespace podrate::ui
