#include "tune/tune_day.hpp"

#include <map>
#include <set>

#include "season/day_stamp.hpp"
#include "season/program_mark.hpp"
#include "tune/marked_episodes.hpp"

namespace podrate::sim {
namespace {

TuneDay read_tune_day(const std::filesystem::path& input, const std::optional<ParameterSet>& base) {
    TuneDay day;
    day.input = input;
    day.day = read_day(input);
    day.stamp = std::string("podrate ") + program_mark() + '\n' + input.string() + '\n';
    for (Machine& machine : day.day.machines) {
        if (base) base->lay_over(machine.parameters);
        day.stamp += machine.id + ' ' + mark_of(machine.parameters) + '\n';
    }
    day.marked = read_marked_episodes(input, day.day, day.day.problems);
    day.stamp += files_stamp(input, day.day, input / "truth");
    return day;
}

// Days are told apart by their labels: in the tables, and where one is left out.
void tell_apart(std::vector<TuneDay>& days, std::vector<std::string>& notes) {
    std::map<std::string, int> times;
    std::map<std::string, int> times_named;
    const auto named = [](const TuneDay& day) {
        return day.day.label + " (" + day.input.filename().string() + ")";
    };
    for (const TuneDay& day : days) {
        ++times[day.day.label];
        ++times_named[named(day)];
    }
    for (TuneDay& day : days) {
        if (times[day.day.label] < 2) continue;
        notes.push_back(
            day.input.string() + ": '" + day.day.label +
            "' is another day's label, too; told apart by the folder; give each day.toml its own");
        day.day.label =
            times_named[named(day)] < 2 ? named(day) : day.day.label + " (" + day.input.string() + ")";
    }
}

}  // namespace

std::vector<TuneDay> read_tune_days(const std::vector<std::string>& folders,
                                    const std::optional<ParameterSet>& base,
                                    std::vector<std::string>& notes) {
    std::vector<TuneDay> days;
    std::set<std::filesystem::path> seen;
    for (const std::string& folder : folders) {
        const std::filesystem::path input = whole_path(folder);
        if (!seen.insert(input).second) {
            notes.push_back(folder + ": given twice; counted once");
            continue;
        }
        try {
            days.push_back(read_tune_day(input, base));
        } catch (const RefusedInput& refused) {
            notes.emplace_back(refused.what());
        }
    }
    tell_apart(days, notes);
    return days;
}

}  // namespace podrate::sim
