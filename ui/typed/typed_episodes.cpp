#include "typed/typed_episodes.hpp"

#include "day/added_rows.hpp"
#include "log/number.hpp"
#include "log/small_table.hpp"
#include "report/output_file.hpp"

namespace podrate::ui {
namespace {

std::filesystem::path episodes_path(const std::filesystem::path& folder) {
    return folder / "episodes.csv";
}

}  // namespace

bool episodes_take_notes(const std::filesystem::path& folder) {
    std::error_code unseen;
    if (!std::filesystem::exists(episodes_path(folder), unseen)) return true;
    try {
        sim::Problems told_where_it_is_read;
        return sim::SmallTable(episodes_path(folder), told_where_it_is_read).has("note");
    } catch (const sim::RefusedInput&) {
        return false;
    }
}

std::filesystem::path write_episodes(const std::filesystem::path& folder,
                                     const std::vector<TypedEpisode>& episodes) {
    const std::filesystem::path path = episodes_path(folder);
    const std::vector<std::string> needed = {"start_unix_s", "end_unix_s", "machine", "alarm"};
    std::vector<std::string> columns = needed;
    columns.emplace_back("note");
    std::vector<sim::NamedCells> rows;
    for (const TypedEpisode& one : episodes) {
        const auto cell = [&one](double unix_s) { return one.episode.none ? "" : sim::fixed(unix_s, 1); };
        rows.push_back({{"start_unix_s", cell(one.episode.start_unix_s)},
                        {"end_unix_s", cell(one.episode.end_unix_s)},
                        {"machine", one.episode.machine},
                        {"alarm", name_of(one.episode.alarm)},
                        {"note", one.note}});
    }
    sim::write_file(path, sim::with_rows(path, columns, needed, rows));
    return path;
}

}  // namespace podrate::ui
