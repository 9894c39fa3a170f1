#include "season/day_worker.hpp"

#include <fstream>
#include <sstream>

#include "analysis/whole_day.hpp"
#include "replay/carry.hpp"
#include "report/output_file.hpp"
#include "report/summary_json.hpp"
#include "season/carry_chain.hpp"
#include "season/day_stamp.hpp"
#include "season/program_mark.hpp"

namespace podrate::sim {
namespace {

namespace fs = std::filesystem;

std::string text_or_empty(const fs::path& file) {
    std::ifstream stream(file, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

// Changes where anything does that the day's figures rest on.
std::string stamp_of(const DayJob& job, const Day& day, const std::string& carried) {
    const std::string stamp = std::string("podrate ") + program_mark() + '\n' + job.input.string() + '\n';
    // All that stands in the folder, whatever reads it.
    return stamp + files_stamp(job.input, day) + carried;
}

bool take_over(const DayJob& job, const std::string& stamp, DayFigures& figures) {
    try {
        std::string found;
        figures = read_day_figures(text_or_empty(job.output / "figures.json"), found);
        return found == stamp;
    } catch (const std::exception&) {
        return false;  // none yet, or cut short
    }
}

DayFigures broken(const std::string& reason) {
    DayFigures figures;
    figures.reason = reason;
    return figures;
}

// Nothing of an earlier run may be taken for this one's.
void clear(const DayJob& job) {
    std::error_code ignored;
    for (const char* name : {"figures.json", "summary.json", "carry.json"})
        fs::remove(job.output / name, ignored);
}

WorkedDay work(const DayJob& job, bool anew, const fs::path* after,
               const std::function<void(double)>& progress) {
    Day day = read_day(job.input);
    std::string carried = "alone";
    std::string before;
    if (after != nullptr) {
        before = text_or_empty(*after / "carry.json");
        carried = "after " + (before.empty() ? std::string("none") : short_hash(before));
        if (!before.empty()) take_carried(*after, day);
    }
    const std::string stamp = stamp_of(job, day, carried);
    WorkedDay worked;
    worked.taken_over = !anew && take_over(job, stamp, worked.figures);
    if (worked.taken_over) return worked;
    clear(job);
    ReplayHooks hooks;
    hooks.progress = progress;
    DayResult result = replay_day(day, hooks);
    if (!result.any_usable()) {
        worked.figures = broken(result.machines.front().refusal);
        worked.figures.label = day.label;
        worked.figures.date = day.date;
        return worked;
    }
    analyse_day(day, result, false);
    make_folder(job.output);
    write_file(job.output / "summary.json", summary_json(day, result));
    write_file(job.output / "carry.json", merged_carry(before, carry_json(result)));
    const std::string text = day_figures_json(day_figures(day, result), stamp);
    write_file(job.output / "figures.json", text);
    // Read back, so that a day taken over tomorrow is the same to the last bit.
    std::string ignored;
    worked.figures = read_day_figures(text, ignored);
    return worked;
}

}  // namespace

std::string day_key(const fs::path& input) {
    std::string name;
    for (const char c : input.filename().string()) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                           c == '-' || c == '_' || c == '.';
        name += plain ? c : '_';
    }
    return name + '-' + short_hash(input.string());
}

WorkedDay work_day(const DayJob& job, bool anew, const fs::path* after,
                   const std::function<void(double)>& progress) {
    WorkedDay worked;
    try {
        worked = work(job, anew, after, progress);
    } catch (const std::exception& error) {
        clear(job);
        worked.figures = broken(error.what());
    }
    worked.figures.folder = job.folder;
    if (worked.figures.label.empty()) worked.figures.label = job.input.filename().string();
    return worked;
}

}  // namespace podrate::sim
