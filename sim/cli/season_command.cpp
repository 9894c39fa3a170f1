#include <spdlog/spdlog.h>

#include <cstdio>
#include <memory>

#include "cli/commands.hpp"
#include "cli/progress.hpp"
#include "log/number.hpp"
#include "log/units.hpp"
#include "report/folder_lock.hpp"
#include "report/output_file.hpp"
#include "season/season.hpp"
#include "season/season_html.hpp"
#include "season/season_tables.hpp"

namespace podrate::sim {
namespace {

struct SeasonCall {
    SeasonOptions season;
    std::string out;
    bool json = false;
    bool quiet = false;
};

void tell_season(const Season& season, const SeasonSums& sums, const std::filesystem::path& out) {
    const SeasonSum& total = sums.total;
    std::printf("%d of %zu days, %zu of them taken over: %s t +-%s   %s ha   %s t/ha\nseason: %s\n",
                total.days, season.days.size(), season.taken_over, fixed(total.harvested_kg / 1e3, 2).c_str(),
                fixed(kReach90 * total.harvested_sd_kg / 1e3, 2).c_str(),
                fixed(total.swept_m2 / 1e4, 2).c_str(),
                fixed(tonnes_per_hectare(total.harvested_kg, total.swept_m2), 2).c_str(),
                (out / "season.html").c_str());
}

int run(SeasonCall& options) {
    options.season.out = options.out;
    const Descriptor held = hold_folder(options.out);
    Season season;
    {
        ProgressLine progress("working through the season", options.quiet);
        options.season.progress = [&progress](double share) { progress.show(share); };
        season = work_season(options.season);
    }
    for (const std::string& note : season.notes) spdlog::warn("{}", note);
    for (const DayFigures& day : season.days) {
        if (day.use == DayUse::whole) continue;
        spdlog::warn("{}: {}: {}", day.folder, name_of(day.use), day.reason);
    }
    if (!season.any_counts()) {
        spdlog::error("no day could be used");
        return kRefused;
    }
    const std::filesystem::path out(options.out);
    const SeasonSums sums = season_sums(season.days);
    const std::string json = season_json(season, sums);
    write_file(out / "season.csv", season_csv(season));
    write_file(out / "season_days.csv", season_days_csv(season, sums));
    write_file(out / "season_fields.csv", season_fields_csv(sums));
    write_file(out / "season.json", json);
    write_file(out / "season.html", season_html(season, sums));
    if (options.json) {
        std::fputs(json.c_str(), stdout);
    } else if (!options.quiet) {
        tell_season(season, sums, out);
    }
    return season.all_whole() ? kDone : kPartly;
}

}  // namespace

Run add_season(CLI::App& app) {
    auto options = std::make_shared<SeasonCall>();
    CLI::App* command =
        app.add_subcommand("season", "Work through many days, going on where an earlier run was stopped");
    command->add_option("days", options->season.folders, "Folders of days (with day.toml)")->required();
    command->add_option("--out", options->out, "Folder for the results")->required();
    command->add_flag(
        "--carry", options->season.carry,
        "Work the days in order of their dates, each with what the one before taught of the loss");
    command->add_flag("--anew", options->season.anew, "Take nothing over from an earlier run");
    command->add_option("--at-once", options->season.at_once, "Days side by side (default: one a processor)")
        ->check(CLI::Range(1, 256));
    command->add_flag("--json", options->json, "Print season.json on standard output");
    command->add_flag("--quiet", options->quiet, "No progress and no summary");
    return [options] { return run(*options); };
}

}  // namespace podrate::sim
