// What the alarms of a day's machines had to tell, and what they told before and after: plain data, counted
// by sim/tune as `podrate tune` counts. What takes long is done on threads of its own.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "bench/alarm_curve.hpp"
#include "model/open_day.hpp"
#include "rerun/rerun.hpp"
#include "tune/tuning_choice.hpp"
#include "typed/typed_episodes.hpp"

namespace podrate::ui {

// What the bench looks at: one alarm, of one machine or of all.
struct BookPage {
    std::size_t machine = 0;
    bool together = false;
    AlarmId alarm = AlarmId::loss_high;
    std::optional<std::size_t> parameter;  // whose curve is asked for; it sets alarms alone
    Parameters before;                     // of that machine; others have what is changed in it laid over
    Parameters after;
    std::shared_ptr<const RerunResult> after_run;  // with those, where there is one: not judged again
};

// One alarm of one setting, over all that is looked at.
struct AlarmPoint {
    sim::AlarmFigures figures{};
    sim::AlarmSum sum;
    sim::AlarmRanges ranges{};  // not known of a single machine's day
};

class AlarmBook {
  public:
    AlarmBook(std::shared_ptr<const OpenDay> day, const std::function<void()>& wake);

    // A replay of that machine: its alarms can be judged anew.
    void know(std::size_t machine, const RerunResult& run);
    void look(const BookPage& page);
    // To be called before each frame: takes what threads have done. True where it changes what is shown.
    bool refresh();
    // Something that look() asked for is still to come.
    [[nodiscard]] bool busy() const;

    // What was marked here counts at once; written it becomes the file's own.
    void mark(TypedEpisode episode);
    bool take_back();
    [[nodiscard]] const std::vector<TypedEpisode>& marks() const { return marks_; }
    void take_over(std::vector<TypedEpisode> marks);
    // Throws sim::RefusedInput.
    std::filesystem::path write();

    // The day's truth and episodes have been read.
    [[nodiscard]] bool truth_known() const { return truths_ != nullptr; }
    [[nodiscard]] const sim::AlarmTruth& truth(std::size_t machine, AlarmId alarm) const;
    // What could not be used of truth or episodes.csv, in the words of whoever read it; empty where nothing.
    [[nodiscard]] const std::vector<std::string>& refusals() const { return refusals_; }

    // Before and after are counted; all below speaks of the page looked at.
    [[nodiscard]] bool counted() const { return counted_; }
    [[nodiscard]] const BookPage& page() const { return page_; }
    // Setting 0 is before, 1 after; parameters that differ; all machines looked at.
    [[nodiscard]] const sim::TuneTable& table() const { return table_; }
    [[nodiscard]] const AlarmPoint& before() const { return points_[0]; }
    [[nodiscard]] const AlarmPoint& after() const { return points_[1]; }
    [[nodiscard]] sim::AlarmOutcomes outcomes(bool after) const;  // of the page's machine
    // The newest that fits; nullptr where there is none yet.
    [[nodiscard]] const AlarmCurve* curve() const;

  private:
    struct Known {
        Parameters parameters;
        std::shared_ptr<const sim::AlarmTrace> trace;
        std::shared_ptr<const sim::TraceTimes> times;
    };
    // A setting judged on one machine's day.
    struct Judged {
        std::shared_ptr<const sim::AlarmTrace> trace;
        Parameters parameters;
        std::vector<sim::AlarmEvent> events;
    };
    struct Machine {
        std::vector<Known> known;  // the newest first
        bool refused = false;
        sim::MachineTruth unmarked;
        Judged judged[2];
    };
    struct DayTruth {
        std::vector<sim::MachineTruth> unmarked;
        std::vector<sim::Episode> marked;
        std::vector<std::string> refusals;
    };

    static std::shared_ptr<const DayTruth> read_truth(const OpenDay& day, const std::atomic<bool>& cancel);
    void lay_marks();
    void update();
    [[nodiscard]] std::vector<std::size_t> places() const;
    [[nodiscard]] Parameters laid_over(std::size_t machine, const Parameters& of_page) const;
    [[nodiscard]] const Known* find(std::size_t machine, const Parameters& parameters) const;
    bool ask_missing(const std::vector<std::size_t>& places);
    void judge(std::size_t machine, bool after);
    void judge_all(const std::vector<std::size_t>& places);
    void count(const std::vector<std::size_t>& places);
    void ask_curve(const std::vector<std::size_t>& places);

    std::shared_ptr<const OpenDay> day_;
    std::vector<Machine> machines_;
    std::vector<sim::Episode> in_file_;
    std::vector<TypedEpisode> marks_;
    std::shared_ptr<const std::vector<sim::MachineTruth>> truths_;  // by machine, marks laid over
    std::vector<std::string> refusals_;
    bool read_ = false;  // truth and episodes.csv
    bool looked_ = false;
    BookPage page_;
    bool counted_ = false;
    sim::TuneTable table_;
    AlarmPoint points_[2];
    std::shared_ptr<const AlarmCurve> curve_;
    std::optional<CurveQuestion> asked_curve_;
    std::optional<std::pair<std::size_t, Parameters>> asked_run_;
    Rerun rerun_;  // of machines other than the page's
    Aside<DayTruth> truth_aside_;
    Aside<AlarmCurve> curve_aside_;
};

}  // namespace podrate::ui
