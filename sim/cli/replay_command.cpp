#include <spdlog/spdlog.h>

#include <cstdio>
#include <future>
#include <memory>

#include "analysis/whole_day.hpp"
#include "cli/commands.hpp"
#include "cli/progress.hpp"
#include "cli/tell_problems.hpp"
#include "day/day.hpp"
#include "day/local_time.hpp"
#include "log/number.hpp"
#include "log/units.hpp"
#include "parameters/parameter_file.hpp"
#include "replay/carry.hpp"
#include "replay/day_replay.hpp"
#include "replay/sink_group.hpp"
#include "report/estimates_csv.hpp"
#include "report/fields_csv.hpp"
#include "report/forecast_csv.hpp"
#include "report/freshness_csv.hpp"
#include "report/html/handover_html.hpp"
#include "report/html/html_report.hpp"
#include "report/loads_csv.hpp"
#include "report/maps/write_maps.hpp"
#include "report/maturity_csv.hpp"
#include "report/output_file.hpp"
#include "report/stops_csv.hpp"
#include "report/summary_json.hpp"
#include "report/taskdata/task_data.hpp"

namespace podrate::sim {
namespace {

struct ReplayCall {
    std::string input;
    std::string out;
    std::string after;
    std::string at;
    std::string parameters;
    double width_m = 0.0;
    bool estimates = false;
    bool taskdata = false;
    bool json = false;
    bool quiet = false;
};

Day open_input(const ReplayCall& options) {
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

// Over each machine's own values; told with the day, so that nobody takes the figures for those of its own.
void lay_over(const std::string& file, Day& day) {
    const KeptSet kept = read_parameter_set(file);
    for (Machine& machine : day.machines) kept.set.lay_over(machine.parameters);
    day.problems.add({file, 0, "replaces " + std::to_string(kept.set.named()) + " parameters of each machine",
                      "its content is " + kept.mark, true});
}

// "14:05" of the day's date, or "2025-06-27 14:05".
TimeUs moment_told(const std::string& at, const Day& day) {
    const std::size_t space = at.find(' ');
    const bool dated = space != std::string::npos;
    const std::string date = dated ? at.substr(0, space) : day.date;
    const std::optional<TimeUs> moment = local_moment(date, dated ? at.substr(space + 1) : at, day.time_zone);
    if (moment) return *moment;
    throw RefusedInput({"--at", 0, "'" + at + "' is no time of a dated day",
                        "write it like 14:05 or \"2025-06-27 14:05\"; day.toml's date stands for the first"});
}

void tell_result(const DayResult& result, const ReplayCall& options) {
    for (const MachineResult& m : result.machines) {
        if (!m.usable) continue;
        std::printf("%-12s %7s t +-%s   %6s ha   %5s t/ha   %5s t/h while harvesting   %2zu loads\n",
                    m.id.c_str(), fixed(static_cast<double>(m.last.harvested_kg) / 1e3, 2).c_str(),
                    fixed(kReach90 * static_cast<double>(m.last.harvested_sd_kg) / 1e3, 2).c_str(),
                    fixed(static_cast<double>(m.last.area_m2) / 1e4, 2).c_str(),
                    fixed(m.yield_tpha(), 2).c_str(), fixed(m.load_rate_tph(), 2).c_str(), m.loads.size());
    }
    std::printf("%-12s %7s t +-%s   %6s ha   %5s t/ha%s\n", "total", fixed(result.harvested_t, 2).c_str(),
                fixed(kReach90 * result.harvested_sd_t, 2).c_str(), fixed(result.area_ha, 2).c_str(),
                fixed(result.yield_tpha, 2).c_str(),
                result.planned_t ? ("   planned " + fixed(*result.planned_t, 2) + " t").c_str() : "");
    std::printf("report: %s\n", (std::filesystem::path(options.out) / "report.html").c_str());
}

DayResult replay(const Day& day, const ReplayCall& options, TaskTracks& tracks) {
    ProgressLine progress("replaying", options.quiet);
    ReplayHooks hooks;
    hooks.progress = [&progress](double share) { progress.show(share); };
    if (options.estimates || options.taskdata) {
        hooks.sink = [&](const Machine& machine, std::size_t index) -> std::unique_ptr<ReplaySink> {
            auto sinks = std::make_unique<SinkGroup>();
            if (options.estimates) sinks->add(std::make_unique<EstimatesCsv>(options.out, machine.id));
            if (options.taskdata) sinks->add(std::make_unique<TaskTrack>(tracks[index]));
            return sinks;
        };
    }
    return replay_day(day, hooks);
}

int run(const ReplayCall& options) {
    if (options.width_m != 0.0 && !(options.width_m >= 0.5 && options.width_m <= 12.0)) {
        throw RefusedInput({"--width", 0, shown(options.width_m) + " m is out of range", "give 0.5 to 12 m"});
    }
    Day day = open_input(options);
    if (!options.parameters.empty()) lay_over(options.parameters, day);
    if (!options.after.empty()) take_carried(options.after, day);
    if (!options.at.empty()) end_day_at(day, moment_told(options.at, day));
    make_folder(options.out);
    TaskTracks tracks(day.machines.size());
    DayResult result = replay(day, options, tracks);
    analyse_day(day, result, true);
    tell_problems(day.problems);
    for (const MachineResult& machine : result.machines) {
        tell_problems(machine.problems);
        if (!machine.usable) spdlog::error("{}", machine.refusal);
    }
    if (!result.any_usable()) return kRefused;
    const std::filesystem::path out(options.out);
    // The maps are as much to write as all the rest.
    std::future<void> maps = std::async(std::launch::async, [&] { write_maps(out, day, result); });
    const std::string summary = summary_json(day, result);
    write_file(out / "summary.json", summary);
    write_file(out / "loads.csv", loads_csv(result));
    write_file(out / "fields.csv", fields_csv(result));
    write_file(out / "maturity_forecast.csv", maturity_forecast_csv(result));
    write_file(out / "stops.csv", stops_csv(day, result));
    write_file(out / "freshness.csv", freshness_csv(day, result));
    write_file(out / "forecast.csv", forecast_csv(result));
    write_file(out / "carry.json", carry_json(result));
    if (options.taskdata) write_task_data(out / "taskdata", day, result, tracks);
    write_file(out / "report.html", html_report(day, result));
    write_file(out / "handover.html", handover_html(day, result));
    maps.get();
    if (options.json) {
        std::fputs(summary.c_str(), stdout);
    } else if (!options.quiet) {
        tell_result(result, options);
    }
    return result.all_used(day) ? kDone : kPartly;
}

}  // namespace

Run add_replay(CLI::App& app) {
    auto options = std::make_shared<ReplayCall>();
    CLI::App* command =
        app.add_subcommand("replay", "Work through a recorded day and write its figures and report");
    command->add_option("day", options->input, "A day's folder (with day.toml), or one log file")->required();
    command->add_option("--out", options->out, "Folder for the results")->required();
    command->add_option("--width", options->width_m, "Working width in metres, for a single log");
    command->add_option("--parameters", options->parameters,
                        "A parameter set: what it names replaces the values of every machine");
    command->add_option(
        "--after", options->after,
        "Results folder of an earlier day: what it taught of each machine's loss is taken over, aged");
    command->add_option("--at", options->at,
                        "As of that time of the day, HH:MM or \"YYYY-MM-DD HH:MM\": nothing later is used");
    command->add_flag(
        "--estimates", options->estimates,
        "Also write estimates_ID.csv, a row for each row of a log, and yields_ID.csv and losses_ID.csv");
    command->add_flag("--taskdata", options->taskdata,
                      "Also write taskdata/, ISO 11783-10 task data for farm records");
    command->add_flag("--json", options->json, "Print summary.json on standard output");
    command->add_flag("--quiet", options->quiet, "No progress and no summary");
    return [options] { return run(*options); };
}

}  // namespace podrate::sim
