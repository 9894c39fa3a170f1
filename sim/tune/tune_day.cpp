#include "tune/tune_day.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
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

bool same_bytes(const std::filesystem::path& one, const std::filesystem::path& other) {
    std::error_code missing;
    const auto size = std::filesystem::file_size(one, missing);
    if (missing || size == 0 || size != std::filesystem::file_size(other, missing) || missing) return false;
    std::ifstream a(one, std::ios::binary);
    std::ifstream b(other, std::ios::binary);
    using Bytes = std::istreambuf_iterator<char>;
    return a && b && std::equal(Bytes(a), Bytes(), Bytes(b));
}

// Of the machines of `day`, those whose log is one of `other`'s, byte for byte.
std::size_t logs_shared(const TuneDay& day, const TuneDay& other) {
    const std::vector<Machine>& machines = day.day.machines;
    return static_cast<std::size_t>(std::count_if(machines.begin(), machines.end(), [&](const Machine& one) {
        return std::any_of(other.day.machines.begin(), other.day.machines.end(),
                           [&](const Machine& another) { return same_bytes(one.log, another.log); });
    }));
}

// A day that was copied teaches nothing twice, and would be left out of a cross-check and stay in it at once.
void drop_copies(std::vector<TuneDay>& days, std::vector<std::string>& notes) {
    std::vector<TuneDay> kept;
    for (TuneDay& day : days) {
        bool copy = false;
        for (const TuneDay& other : kept) {
            const std::size_t shared = logs_shared(day, other);
            if (shared == 0) continue;
            copy = shared == day.day.machines.size();
            notes.push_back(day.input.string() + ": " + (copy ? "its logs are" : "some of its logs are") +
                            " those of " + other.input.string() +
                            (copy ? "; counted once" : ", which count twice; leave one of them out"));
            break;
        }
        if (!copy) kept.push_back(std::move(day));
    }
    days = std::move(kept);
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
    drop_copies(days, notes);
    tell_apart(days, notes);
    return days;
}

}  // namespace podrate::sim
