// The bench: a machine's parameters edited, its day replayed with them, and both beside one another. What it
// shows and what keys do to it: plain data, no drawing.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "bench/alarm_book.hpp"
#include "bench/comparison.hpp"
#include "bench/parameter_list.hpp"
#include "input/key.hpp"
#include "kit/number_entry.hpp"
#include "model/open_day.hpp"
#include "model/saving.hpp"
#include "rerun/rerun.hpp"
#include "series/chart.hpp"
#include "series/time_window.hpp"

namespace podrate::ui {

enum class BenchPane { list, charts };

// What is being typed.
enum class BenchTyping { nothing, value, filter, name, note, mark_note };

// What the tables below the charts tell, where not all of it finds room.
enum class BenchTable { totals, alarms, told, curve, history };
inline constexpr int kBenchTables = 5;

// An episode while it is being marked, milliseconds since the day's first row; either end may be the first.
struct MarkBegun {
    double from_ms = 0.0;
    double to_ms = 0.0;
};

// Where sets are kept, by whom, and the time of day.
struct SetKeeping {
    std::filesystem::path folder;  // empty: nowhere
    std::string who;
    std::function<std::int64_t()> unix_s;
};

class Bench {
  public:
    // `wake`: called from another thread when there is something new to draw.
    Bench(std::shared_ptr<const OpenDay> day, const Speech& say, SetKeeping keeping,
          const std::function<void()>& wake);

    void speak(const Speech& say);
    void look_at(std::size_t machine, TimeUs at_us);
    // Takes over what was edited on a bench of the same day, which has been opened again.
    void go_on_from(const Bench& before);
    [[nodiscard]] std::optional<TimeUs> cursor_us() const;
    void press(const KeyPress& press);
    void type(char32_t sign);
    // While true, keys and signs are for what is being typed.
    [[nodiscard]] bool typing() const { return typing_ != BenchTyping::nothing; }
    // To be called before each frame: takes up what threads have done.
    void refresh();
    // A thread is still at something that will be shown.
    [[nodiscard]] bool busy() const { return rerun_.running() || book_.busy(); }

    // A set in a file, laid over the machine's own. Throws sim::RefusedInput.
    void open_file(const std::filesystem::path& path);

    // The chosen one moved by hand to a share of its range, 0 to 1; all of one drag is undone as one.
    void drag_value(double share, bool begins);
    void put_value(double value);

    // An episode swept on the strip of the chosen alarm, ends in milliseconds since the day's first row.
    void sweep_mark(double at_ms, bool begins);
    void end_sweep();
    // The cursor there, and that time in view.
    void go_to(double at_ms);

    // What the mouse does.
    void choose(std::size_t index);
    void take_pane(BenchPane pane) { pane_ = pane; }

    [[nodiscard]] const OpenDay& day() const { return *day_; }
    [[nodiscard]] const Speech& speech() const { return say_; }
    [[nodiscard]] std::size_t machine() const { return machine_; }
    [[nodiscard]] const EditedParameters& edited() const { return stands_[machine_].edited; }
    [[nodiscard]] ParameterList& list() { return list_; }
    [[nodiscard]] const ParameterList& list() const { return list_; }
    [[nodiscard]] BenchPane pane() const { return pane_; }
    [[nodiscard]] BenchTyping what_is_typed() const { return typing_; }
    [[nodiscard]] const TypedLine& line() const;
    // What was done last or is wrong, in words; empty where there is nothing to tell.
    [[nodiscard]] const std::string& note() const { return note_; }
    [[nodiscard]] BenchTable table() const { return table_; }
    // The alarm that the chosen parameter sets; nothing where it sets none or several.
    [[nodiscard]] std::optional<AlarmId> alarm() const { return alarm_; }
    [[nodiscard]] const AlarmBook& book() const { return book_; }
    [[nodiscard]] const std::optional<MarkBegun>& mark_begun() const { return mark_; }
    // Where the alarm's setting is counted over all machines of the day.
    [[nodiscard]] bool together() const { return together_; }

    // What a key asked to save of what is seen, since the last call.
    // A table waits until all is counted.
    [[nodiscard]] Saving take_saving();
    void tell(std::string note) { note_ = std::move(note); }
    // What would be lost with the window, a line each; empty where nothing would.
    [[nodiscard]] std::vector<std::string> unsaved_words() const;

    [[nodiscard]] bool rerunning() const { return rerun_.running(); }
    [[nodiscard]] double share() const { return rerun_.share(); }
    // Of the newest rerun of this machine; nullptr where its parameters are its own.
    [[nodiscard]] const RerunResult* after() const { return stands_[machine_].after.get(); }
    // Of the machine's own parameters, or of the run that was taken for it.
    [[nodiscard]] const sim::MachineResult& before() const {
        const auto& taken = stands_[machine_].taken;
        return taken ? taken->machine : day_->result.machines[machine_];
    }
    [[nodiscard]] const std::string& before_name() const { return stands_[machine_].taken_name; }
    // What is after is compared with from now on, so that two sets can be set beside one another; once more,
    // and it is the machine's own again.
    void take_as_before();
    [[nodiscard]] const std::vector<FigureCompared>& totals() const { return totals_; }
    [[nodiscard]] const std::vector<AlarmsCompared>& alarms() const { return alarms_; }
    // The first is the one that was asked for last.
    [[nodiscard]] const std::vector<Chart>& charts() const { return charts_; }
    [[nodiscard]] std::vector<ChartPicture>& pictures() { return pictures_; }
    [[nodiscard]] TimeWindow& window() { return window_; }
    [[nodiscard]] const TimeWindow& window() const { return window_; }

  private:
    struct Stand {
        EditedParameters edited;
        std::shared_ptr<const RerunResult> after;
        std::shared_ptr<const RerunResult> own_run;  // with the machine's own parameters
        std::shared_ptr<const RerunResult> taken;    // in the place of what was before
        std::string taken_name;                      // its set's, or empty
    };

    void press_typing(const KeyPress& press);
    void press_list(const KeyPress& press);
    void end_typing();
    void edit_value();
    void put_typed_value();
    void step_value(bool up, bool coarse);
    void changed();
    void show_machine();
    void rerun_where_needed();
    void take_run(std::shared_ptr<const RerunResult> result);
    void trace_where_needed();
    void chosen_moved();
    void sift();
    void show_chart_of(AlarmId alarm);
    [[nodiscard]] bool own_under_way() const;
    void look_up();
    void ask_table();
    void ask(const Parameters& parameters);
    void make_comparison();
    void next_machine();

    // bench_marks.cpp
    bool press_alarm(const KeyPress& press);
    void begin_or_end_mark();
    void take_mark(const std::string& note);
    void drop_mark();
    // Of the chosen alarm and machine.
    [[nodiscard]] TypedEpisode new_mark() const;
    void mark_none();
    void write_marks();
    void jump(bool back);

    // bench_sets.cpp
    void begin_saving();
    void take_name();
    void save();
    void open_next(bool back);
    [[nodiscard]] std::string own_name() const;
    [[nodiscard]] std::filesystem::path path_of(const std::string& name) const;

    std::shared_ptr<const OpenDay> day_;
    Speech say_;
    SetKeeping keeping_;
    std::size_t machine_ = 0;
    std::vector<Stand> stands_;
    ParameterList list_;
    BenchPane pane_ = BenchPane::list;
    BenchTyping typing_ = BenchTyping::nothing;
    NumberEntry number_{NumberRange{}};
    TypedLine words_;
    bool swallow_ = false;  // the sign that comes with the key which has begun the typing
    bool dragged_ = false;  // by the drag at hand: what can be undone
    std::string set_name_;
    std::size_t open_at_ = 0;  // 0: the machine's own; else the number of the saved set
    std::string note_;
    std::vector<std::string> refusals_told_;  // of truth and episodes.csv
    BenchTable table_ = BenchTable::totals;
    std::optional<std::size_t> at_ = 0;  // what alarm_ is of
    std::optional<AlarmId> alarm_;
    bool together_ = false;
    std::optional<MarkBegun> mark_;
    Saving saving_ = Saving::none;
    bool counts_wanted_ = false;  // without an alarm chosen, for a table
    std::size_t first_chart_ = 0;
    std::vector<Chart> charts_;
    std::vector<ChartPicture> pictures_;
    std::vector<FigureCompared> totals_;
    std::vector<AlarmsCompared> alarms_;
    TimeWindow window_;
    std::size_t asked_machine_ = 0;
    Parameters asked_;
    Rerun rerun_;
    AlarmBook book_;
};

}  // namespace podrate::ui
