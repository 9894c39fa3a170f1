// What the day's view shows and what keys do to it: plain data, no drawing.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "day/day_sums.hpp"
#include "day/ledger.hpp"
#include "input/key.hpp"
#include "map/map_view.hpp"
#include "model/open_day.hpp"
#include "model/saving.hpp"
#include "rerun/rerun.hpp"
#include "series/chart.hpp"
#include "series/time_window.hpp"
#include "typed/entry_form.hpp"

namespace podrate::ui {

enum class DayPane { charts, map, ledger };
inline constexpr int kDayPanes = 3;

// Which columns the charts show.
enum class ChartPage { estimates, losses, weighing, machine };
inline constexpr int kChartPages = 4;

// A machine's sums, and which line of the charts is theirs; -1: there is no other.
struct ShownSum {
    DaySum sum;
    int shape = -1;
};

class DayDesk {
  public:
    // `wake` is called from another thread when there is something new to draw; it may be empty.
    DayDesk(std::shared_ptr<const OpenDay> day, const Speech& say, std::function<void()> wake = nullptr);

    void speak(const Speech& say);
    void look_at(std::size_t machine, TimeUs at_us);
    void press(const KeyPress& press);
    void type(char32_t character);
    // While true, keys and characters are for what is being typed.
    [[nodiscard]] bool typing() const { return form_.has_value(); }
    // To be called before each frame: takes what was replayed beside the window.
    void refresh();

    void next_machine();
    void choose_machine(std::size_t machine);
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
    [[nodiscard]] const std::vector<ShownSum>& sums() const { return sums_; }
    [[nodiscard]] const std::optional<EntryForm>& form() const { return form_; }
    // Typed in and not yet in the day's files; the machine's estimates with them are beside those without.
    [[nodiscard]] const TypedRows& typed() const { return typed_; }
    [[nodiscard]] bool rerunning() const { return rerun_ && rerun_->running(); }
    [[nodiscard]] std::optional<TimeUs> cursor_us() const;

    // What a key asked to save since the last call.
    [[nodiscard]] Saving take_saving();
    // What was typed in has been written: the day is to be opened again. Once.
    [[nodiscard]] bool take_reopen();
    // What was done last, in words; empty where there is nothing to tell.
    [[nodiscard]] const std::string& note() const { return note_; }
    void tell(std::string note) { note_ = std::move(note); }

  private:
    void make_charts();
    void make_ledger();
    void add_run(Chart& chart) const;
    void make_sums();
    void press_ledger(const KeyPress& press);
    void press_form(const KeyPress& press);
    void open_form(EntryKind kind);
    void take_form();
    void drop_last_typed();
    void write();
    void ask_rerun();
    [[nodiscard]] std::string ripeness_words(const sim::MaturityReading& reading) const;

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
    std::vector<ShownSum> sums_;
    std::function<void()> wake_;
    std::optional<EntryForm> form_;
    bool swallow_ = false;  // the sign that comes with the key which has opened the form
    TypedRows typed_;
    std::unique_ptr<Rerun> rerun_;
    std::shared_ptr<const RerunResult> run_;  // with what was typed, of machine_
    Saving saving_ = Saving::none;
    bool reopen_ = false;
    std::string note_;
};

}  // namespace podrate::ui
