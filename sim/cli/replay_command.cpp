#include <spdlog/spdlog.h>

#include <cstdio>
#include <future>
#include <memory>

#include "analysis/gang_loss.hpp"
#include "cli/commands.hpp"
#include "cli/progress.hpp"
#include "cli/tell_problems.hpp"
#include "day/day.hpp"
#include "fields/field_figures.hpp"
#include "log/number.hpp"
#include "maps/day_map.hpp"
#include "replay/carry.hpp"
#include "replay/day_replay.hpp"
#include "report/estimates_csv.hpp"
#include "report/fields_csv.hpp"
#include "report/freshness_csv.hpp"
#include "report/html/handover_html.hpp"
#include "report/html/html_report.hpp"
#include "report/loads_csv.hpp"
#include "report/maps/write_maps.hpp"
#include "report/output_file.hpp"
#include "report/stops_csv.hpp"
#include "report/summary_json.hpp"

namespace podrate::sim {
namespace {

struct Options {
    std::string input;
    std::string out;
    std::string after;
    double width_m = 0.0;
    bool estimates = false;
    bool json = false;
    bool quiet = false;
};

Day open_input(const Options& options) {
    const std::filesystem::path input(options.input);
    std::error_code unseen;
    if (!std::filesystem::exists(input, unseen)) {
        throw RefusedInput({options.input, 0, "does not exist", "give a day's folder or a log file"});
    }
    if (std::filesystem::is_directory(input, unseen)) {
        if (options.width_m != 0.0)
            spdlog::warn("--width is for a single log; the day's own widths are used");
        return read_day(input);
    }
    if (options.width_m == 0.0) {
        throw RefusedInput({options.input, 0, "is a single log, so the working width is not known",
                            "add --width with the width in metres, e.g. --width 3.3"});
    }
    return day_of_one_log(input, options.width_m);
}

void tell_result(const DayResult& result, const Options& options) {
    for (const MachineResult& m : result.machines) {
        if (!m.usable) continue;
        std::printf("%-12s %7s t +-%s   %6s ha   %5s t/ha   %5s t/h while harvesting   %2zu loads\n",
                    m.id.c_str(), fixed(static_cast<double>(m.last.harvested_kg) / 1e3, 2).c_str(),
                    fixed(1.645 * static_cast<double>(m.last.harvested_sd_kg) / 1e3, 2).c_str(),
                    fixed(static_cast<double>(m.last.area_m2) / 1e4, 2).c_str(),
                    fixed(m.yield_tpha(), 2).c_str(), fixed(m.load_rate_tph(), 2).c_str(), m.loads.size());
    }
    std::printf("%-12s %7s t +-%s   %6s ha   %5s t/ha%s\n", "total", fixed(result.harvested_t, 2).c_str(),
                fixed(1.645 * result.harvested_sd_t, 2).c_str(), fixed(result.area_ha, 2).c_str(),
                fixed(result.yield_tpha, 2).c_str(),
                result.planned_t ? ("   planned " + fixed(*result.planned_t, 2) + " t").c_str() : "");
    std::printf("report: %s\n", (std::filesystem::path(options.out) / "report.html").c_str());
}

DayResult replay(const Day& day, const Options& options) {
    ProgressLine progress("replaying", options.quiet);
    ReplayHooks hooks;
    hooks.progress = [&progress](double share) { progress.show(share); };
    if (options.estimates) {
        hooks.sink = [&options](const Machine& machine, std::size_t) -> std::unique_ptr<ReplaySink> {
            return std::make_unique<EstimatesCsv>(options.out, machine.id);
        };
    }
    return replay_day(day, hooks);
}

int run(const Options& options) {
    if (options.width_m != 0.0 && !(options.width_m >= 0.5 && options.width_m <= 12.0)) {
        throw RefusedInput({"--width", 0, shown(options.width_m) + " m is out of range", "give 0.5 to 12 m"});
    }
    Day day = open_input(options);
    if (!options.after.empty()) take_carried(options.after, day);
    make_folder(options.out);
    DayResult result = replay(day, options);
    const GangLoss back = gang_loss(day, result);
    result.looked_back = back.machines;
    result.neighbour_pairs = back.pairs;
    auto map = std::async(std::launch::async, [&] { return day_map(day, result.machines); });
    result.fields = field_figures(day, result.machines);
    result.map = map.get();
    tell_problems(day.problems);
    for (const MachineResult& machine : result.machines) {
        tell_problems(machine.problems);
        if (!machine.usable) spdlog::error("{}", machine.refusal);
    }
    if (!result.any_usable()) return kRefused;
    const std::filesystem::path out(options.out);
    const std::string summary = summary_json(day, result);
    write_file(out / "summary.json", summary);
    write_file(out / "loads.csv", loads_csv(result));
    write_file(out / "fields.csv", fields_csv(result));
    write_maps(out, day, result);
    write_file(out / "stops.csv", stops_csv(day, result));
    write_file(out / "freshness.csv", freshness_csv(day, result));
    write_file(out / "carry.json", carry_json(result));
    write_file(out / "report.html", html_report(day, result));
    write_file(out / "handover.html", handover_html(day, result));
    if (options.json) {
        std::fputs(summary.c_str(), stdout);
    } else if (!options.quiet) {
        tell_result(result, options);
    }
    return result.all_used(day) ? kDone : kPartly;
}

}  // namespace

Run add_replay(CLI::App& app) {
    auto options = std::make_shared<Options>();
    CLI::App* command =
        app.add_subcommand("replay", "Work through a recorded day and write its figures and report");
    command->add_option("day", options->input, "A day's folder (with day.toml), or one log file")->required();
    command->add_option("--out", options->out, "Folder for the results")->required();
    command->add_option("--width", options->width_m, "Working width in metres, for a single log");
    command->add_option(
        "--after", options->after,
        "Results folder of an earlier day: what it taught of each machine's loss is taken over, aged");
    command->add_flag(
        "--estimates", options->estimates,
        "Also write estimates_ID.csv, a row for each row of a log, and yields_ID.csv and losses_ID.csv");
    command->add_flag("--json", options->json, "Print summary.json on standard output");
    command->add_flag("--quiet", options->quiet, "No progress and no summary");
    return [options] { return run(*options); };
}

}  // namespace podrate::sim
