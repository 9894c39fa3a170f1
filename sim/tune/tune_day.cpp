#include "tune/tune_day.hpp"

#include <set>

#include "podrate/version.hpp"
#include "season/day_stamp.hpp"
#include "tune/marked_episodes.hpp"

namespace podrate::sim {
namespace {

constexpr int kTuneVersion = 1;  // raised where tallies are reckoned otherwise, or kept otherwise

TuneDay read_tune_day(const std::filesystem::path& input, const std::optional<ParameterSet>& base) {
    TuneDay day;
    day.input = input;
    day.day = read_day(input);
    day.stamp = std::string("podrate ") + kVersion + ", parameters " + std::to_string(kParameterVersion) +
                ", tuning " + std::to_string(kTuneVersion) + "\n" + input.string() + "\n";
    for (Machine& machine : day.day.machines) {
        if (base) base->lay_over(machine.parameters);
        day.stamp += machine.id + ' ' + mark_of(machine.parameters) + '\n';
    }
    day.marked = read_marked_episodes(input, day.day, day.day.problems);
    day.stamp += files_stamp(input, day.day, input / "truth");
    return day;
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
    return days;
}

}  // namespace podrate::sim
