#include "tune/marked_episodes.hpp"

#include <algorithm>
#include <optional>

#include "log/csv_record.hpp"
#include "log/number.hpp"
#include "log/small_table.hpp"

namespace podrate::sim {
namespace {

constexpr const char* kNeeded[] = {"start_unix_s", "end_unix_s", "machine", "alarm"};
constexpr const char* kTimes = "write seconds since 1970 in UTC, as in the log";
constexpr double kLastUnixS = 9999999999.0;
constexpr double kNearMarkedS = 20.0;  // a person's watch, and the alarm's own delays

std::optional<AlarmId> alarm_named(const std::string& name) {
    for (int i = 0; i < kAlarms; ++i) {
        if (name == name_of(static_cast<AlarmId>(i))) return static_cast<AlarmId>(i);
    }
    return std::nullopt;
}

std::string all_alarms() {
    std::string names;
    for (int i = 0; i < kAlarms; ++i)
        names += (i > 0 ? ", " : "") + std::string(name_of(static_cast<AlarmId>(i)));
    return names;
}

}  // namespace

std::vector<Episode> read_marked_episodes(const std::filesystem::path& day_folder, const Day& day,
                                          Problems& problems) {
    std::vector<Episode> episodes;
    const std::filesystem::path path = day_folder / "episodes.csv";
    if (!std::filesystem::exists(path)) return episodes;
    const SmallTable table(path, problems);
    for (const char* column : kNeeded) {
        if (table.has(column)) continue;
        problems.add({path.string(), 1, "has no column '" + std::string(column) + "'",
                      "no row of it used; the first line names the columns, "
                      "start_unix_s,end_unix_s,machine,alarm,note"});
        return episodes;
    }
    for (const SmallTable::Row& row : table.rows()) {
        const auto refuse = [&](const std::string& reason, const std::string& mend) {
            problems.add({path.string(), row.line, reason, "row skipped; " + mend});
        };
        Episode episode;
        episode.source = EpisodeSource::marked;
        episode.machine = table.text(row, "machine");
        episode.line = row.line;
        const auto time_of = [&](const char* column, double& unix_s) {
            const ParsedNumber number = parse_number(table.text(row, column));
            unix_s = number.value;
            if (number.fault == NumberFault::none) return true;
            refuse(std::string(column) + " is '" + shortened(table.text(row, column)) + "', not a number",
                   kTimes);
            return false;
        };
        episode.none = table.text(row, "start_unix_s").empty() && table.text(row, "end_unix_s").empty();
        if (!episode.none && !time_of("start_unix_s", episode.start_unix_s)) continue;
        if (!episode.none && !time_of("end_unix_s", episode.end_unix_s)) continue;
        const std::string name = table.text(row, "alarm");
        const std::optional<AlarmId> alarm = alarm_named(name);
        const bool of_the_day = std::any_of(day.machines.begin(), day.machines.end(),
                                            [&](const Machine& m) { return m.id == episode.machine; });
        if (!alarm) {
            refuse("there is no alarm '" + shortened(name) + "'", "the alarms are " + all_alarms());
        } else if (!of_the_day) {
            refuse("day.toml has no machine '" + shortened(episode.machine) + "'",
                   "use the id of a [[machine]]");
        } else if (episode.start_unix_s < 0.0 || episode.end_unix_s > kLastUnixS) {
            refuse("the time is outside unix seconds", kTimes);
        } else if (episode.end_unix_s < episode.start_unix_s) {
            refuse("ends before it starts", "give start_unix_s before end_unix_s");
        } else {
            episode.alarm = *alarm;
            episodes.push_back(episode);
        }
    }
    return episodes;
}

std::string marked_outside(const std::vector<Episode>& marked, const std::string& machine,
                           const std::filesystem::path& day_folder, double first_unix_s, double last_unix_s) {
    const Episode* first = nullptr;
    std::size_t count = 0;
    for (const Episode& episode : marked) {
        const bool seen = episode.end_unix_s >= first_unix_s && episode.start_unix_s <= last_unix_s;
        if (episode.machine != machine || episode.none || seen) continue;
        if (count++ == 0) first = &episode;
    }
    if (first == nullptr) return {};
    std::string reason = "lies outside of what the log of '" + shortened(machine) + "' tells, " +
                         fixed(first_unix_s, 0) + " to " + fixed(last_unix_s, 0);
    if (count > 1) reason += ", and " + std::to_string(count - 1) + " more";
    return to_text(
        {(day_folder / "episodes.csv").string(), first->line, reason, std::string("not counted; ") + kTimes});
}

void lay_marked_over(const std::vector<Episode>& marked, const std::string& machine, MachineTruth& truth) {
    for (const Episode& episode : marked) {
        AlarmTruth& alarm = truth[static_cast<std::size_t>(episode.alarm)];
        if (!alarm.known || alarm.source != EpisodeSource::marked) {
            alarm = AlarmTruth{};
            alarm.known = true;
            alarm.near_s = kNearMarkedS;
            alarm.source = EpisodeSource::marked;
        }
        if (episode.machine == machine && !episode.none)
            alarm.due.push_back({episode.start_unix_s, episode.end_unix_s});
    }
    for (AlarmTruth& alarm : truth) {
        if (alarm.source != EpisodeSource::marked) continue;
        alarm.due = joined(std::move(alarm.due));
        alarm.reasons = alarm.due;
    }
}

}  // namespace podrate::sim
