#include "bench/bench_csv.hpp"

#include "day/save_table.hpp"
#include "tune/tuning_csv.hpp"

namespace podrate::ui {

std::string bench_csv(const Bench& bench) {
    return sim::tuning_by_day_csv(bench.book().table());
}

std::filesystem::path free_name(const std::filesystem::path& folder, const Bench& bench,
                                const std::string& ending) {
    const std::string who = bench.together() ? "all" : bench.day().day.machines[bench.machine()].id;
    return free_name(folder, bench.day().series, bench.window().shown(), who + "_bench", ending);
}

}  // namespace podrate::ui
