#include "tune/marked_episodes.hpp"

#include <algorithm>
#include <optional>

#include "log/csv_record.hpp"
#include "log/small_table.hpp"

namespace podrate::sim {
namespace {

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
    for (const SmallTable::Row& row : table.rows()) {
        const auto refuse = [&](const std::string& reason, const std::string& mend) {
            problems.add({path.string(), row.line, reason, "row skipped; " + mend});
        };
        Episode episode;
        episode.source = EpisodeSource::marked;
        episode.machine = table.text(row, "machine");
        if (!table.number(row, "start_unix_s", episode.start_unix_s, problems)) continue;
        if (!table.number(row, "end_unix_s", episode.end_unix_s, problems)) continue;
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
            refuse("the time is outside unix seconds", "write seconds since 1970 in UTC, as in the log");
        } else if (episode.end_unix_s < episode.start_unix_s) {
            refuse("ends before it starts", "give start_unix_s before end_unix_s");
        } else {
            episode.alarm = *alarm;
            episodes.push_back(episode);
        }
    }
    return episodes;
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
        if (episode.machine == machine) alarm.due.push_back({episode.start_unix_s, episode.end_unix_s});
    }
    for (AlarmTruth& alarm : truth) {
        if (alarm.source != EpisodeSource::marked) continue;
        alarm.due = joined(std::move(alarm.due));
        alarm.reasons = alarm.due;
    }
}

}  // namespace podrate::sim
