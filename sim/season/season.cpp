#include "season/season.hpp"

#include <algorithm>
#include <mutex>
#include <set>
#include <tuple>

#include "report/output_file.hpp"
#include "season/day_stamp.hpp"
#include "season/day_worker.hpp"
#include "season/overlaps.hpp"
#include "season/side_by_side.hpp"

namespace podrate::sim {
namespace {

namespace fs = std::filesystem;

std::vector<DayJob> jobs_of(const SeasonOptions& options, std::vector<std::string>& notes) {
    std::vector<DayJob> jobs;
    std::set<fs::path> seen;
    for (const std::string& folder : options.folders) {
        const fs::path input = whole_path(folder);
        if (!seen.insert(input).second) {
            notes.push_back(folder + ": given twice; counted once");
            continue;
        }
        jobs.push_back({folder, input, options.out / "days" / day_key(input)});
    }
    return jobs;
}

// Of the days that are under way or done.
class SeasonMeter {
  public:
    SeasonMeter(std::size_t days, std::function<void(double)> report)
        : shares_(days, 0.0), report_(std::move(report)) {}
    void set(std::size_t day, double share) {
        const std::lock_guard<std::mutex> lock(mutex_);
        sum_ += share - shares_[day];
        shares_[day] = share;
        if (report_) report_(sum_ / static_cast<double>(shares_.size()));
    }

  private:
    std::mutex mutex_;
    std::vector<double> shares_;
    double sum_ = 0.0;
    std::function<void(double)> report_;
};

void work_side_by_side(const SeasonOptions& options, const std::vector<DayJob>& jobs, SeasonMeter& meter,
                       std::vector<WorkedDay>& worked) {
    side_by_side(jobs.size(), options.at_once, [&](std::size_t i) {
        worked[i] =
            work_day(jobs[i], options.anew, nullptr, [&meter, i](double share) { meter.set(i, share); });
        meter.set(i, 1.0);
    });
}

std::string date_in(const DayJob& job) {
    try {
        return read_day(job.input).date;
    } catch (const std::exception&) {
        return {};  // told when the day's turn comes
    }
}

// One after another; a day that is broken hands on what it was given.
void work_in_turn(const SeasonOptions& options, const std::vector<DayJob>& jobs, SeasonMeter& meter,
                  std::vector<WorkedDay>& worked, std::vector<std::string>& notes) {
    std::vector<std::tuple<std::string, std::string, std::size_t>> order;
    for (std::size_t i = 0; i < jobs.size(); ++i) order.emplace_back(date_in(jobs[i]), jobs[i].input, i);
    std::sort(order.begin(), order.end());
    fs::path after = options.out / "days" / "none";
    for (const auto& [date, input, i] : order) {
        const std::size_t day = i;
        worked[i] =
            work_day(jobs[i], options.anew, &after, [&meter, day](double share) { meter.set(day, share); });
        if (worked[i].figures.use != DayUse::broken) {
            after = jobs[i].output;
            if (date.empty())
                notes.push_back(jobs[i].folder + ": has no date, which --carry goes by; worked first");
        }
        meter.set(i, 1.0);
    }
}

}  // namespace

bool Season::any_counts() const {
    return std::any_of(days.begin(), days.end(), [](const DayFigures& day) { return day.counts(); });
}

bool Season::all_whole() const {
    return notes.empty() && std::all_of(days.begin(), days.end(),
                                        [](const DayFigures& day) { return day.use == DayUse::whole; });
}

Season work_season(const SeasonOptions& options) {
    Season season;
    const std::vector<DayJob> jobs = jobs_of(options, season.notes);
    make_folder(options.out);
    SeasonMeter meter(jobs.size(), options.progress);
    std::vector<WorkedDay> worked(jobs.size());
    if (options.carry) {
        work_in_turn(options, jobs, meter, worked, season.notes);
    } else {
        work_side_by_side(options, jobs, meter, worked);
    }
    for (WorkedDay& day : worked) {
        season.taken_over += day.taken_over ? 1 : 0;
        season.days.push_back(std::move(day.figures));
    }
    std::sort(season.days.begin(), season.days.end(), [](const DayFigures& a, const DayFigures& b) {
        return std::make_tuple(a.date.empty(), a.date, a.first_us(), a.folder) <
               std::make_tuple(b.date.empty(), b.date, b.first_us(), b.folder);
    });
    mark_overlaps(season.days, season.notes);
    return season;
}

}  // namespace podrate::sim
