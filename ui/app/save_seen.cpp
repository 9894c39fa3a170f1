#include "app/save_seen.hpp"

#include "bench/bench_csv.hpp"
#include "day/save_table.hpp"
#include "report/output_file.hpp"

namespace podrate::ui {
namespace {

// Returns what to tell.
std::string save(Saving saving, const std::filesystem::path& path, const Speech& say,
                 const std::function<Image()>& picture, const std::function<std::string()>& table) {
    try {
        if (saving == Saving::picture) {
            write_png(picture(), path.string());
        } else {
            sim::write_file(path, table());
        }
        return say(Text::saved_as, {path.string()});
    } catch (const std::exception& error) {
        return say(Text::not_saved, {error.what()});
    }
}

const char* ending_of(Saving saving) {
    return saving == Saving::picture ? ".png" : ".csv";
}

}  // namespace

void save_seen(DayDesk& desk, const std::filesystem::path& folder, const std::function<Image()>& picture) {
    const Saving saving = desk.take_saving();
    if (saving == Saving::none) return;
    desk.tell(save(saving, free_name(folder, desk, ending_of(saving)), desk.speech(), picture,
                   [&] { return table_of(desk); }));
}

void save_seen(Bench& bench, const std::filesystem::path& folder, const std::function<Image()>& picture) {
    const Saving saving = bench.take_saving();
    if (saving == Saving::none) return;
    bench.tell(save(saving, free_name(folder, bench, ending_of(saving)), bench.speech(), picture,
                    [&] { return bench_csv(bench); }));
}

}  // namespace podrate::ui
