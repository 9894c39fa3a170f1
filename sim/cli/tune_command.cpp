#include <spdlog/spdlog.h>

#include <cmath>
#include <cstdio>
#include <memory>

#include "cli/base_set.hpp"
#include "cli/commands.hpp"
#include "cli/progress.hpp"
#include "cli/tell_problems.hpp"
#include "cli/tune_loss_command.hpp"
#include "log/number.hpp"
#include "report/folder_lock.hpp"
#include "report/output_file.hpp"
#include "report/tuning/write_tuning_report.hpp"
#include "season/day_stamp.hpp"
#include "tune/tune.hpp"
#include "tune/tuned_set.hpp"
#include "tune/tuning_csv.hpp"

namespace podrate::sim {
namespace {

struct TuneCall {
    TuneOptions tune;
    std::string out;
    std::vector<std::string> sweep;
    std::string parameters;
    std::string keep;
    std::string note;
    std::string who = "podrate tune";
    int setting = -1;
    TuningOptions asked;
    bool loss_prior = false;
    bool quiet = false;
};

// CLI::Range lets NaN pass.
std::string number_fault(const std::string& text) {
    return parse_number(text).fault == NumberFault::none ? std::string() : "'" + text + "' is no number";
}

// In a day's own folder results would stand among what was recorded, and change its stamp.
void refuse_out_in_place(const TuneCall& options) {
    for (const std::string& folder : options.tune.folders) {
        if (whole_path(folder) != whole_path(options.out)) continue;
        throw RefusedInput({"--out", 0, "'" + options.out + "' is the folder of a day",
                            "give a folder of its own, made if need be"});
    }
    if (!options.keep.empty() && whole_path(options.keep) == whole_path(options.out) / "recommended.toml") {
        throw RefusedInput(
            {"--keep", 0, "'" + options.keep + "' is where the recommended set goes", "give another name"});
    }
}

void tell_setting(const Tuning& tuning, const TuneWeights& weights, const char* what, std::size_t setting) {
    const TuneTable& table = tuning.table;
    std::string values;
    for (std::size_t i = 0; i < table.parameters.size(); ++i) {
        const double value = table.settings[setting].values[i];
        values +=
            "  " + table.parameters[i] + (std::isnan(value) ? " as each has it" : " = " + value_text(value));
    }
    std::printf("%s, setting %zu: objective %s%s\n", what, setting,
                fixed(objective_of(table.tallies[setting], tuning.alarms, weights), 4).c_str(),
                values.c_str());
}

SetEntry entry_of(const TuneCall& options, const BaseSet& base, const Tuning& tuning) {
    return entry_now(base, tuning.table.on[0].machine, tuning.own_mark, options.who, options.note);
}

void keep_set(const TuneCall& options, const BaseSet& base, const Tuning& tuning, std::size_t setting) {
    if (setting >= tuning.table.settings.size()) {
        throw RefusedInput(
            {"--setting", 0, "there is no setting " + std::to_string(setting), "tuning.csv numbers them"});
    }
    keep_parameter_set(options.keep,
                       tuned_set(tuning.table, setting, base.set(), entry_of(options, base, tuning)));
}

TuningChoice concluded(const TuneCall& options, const BaseSet& base, const Tuning& tuning) {
    TuningChoice choice = conclude_tuning(tuning.table, tuning.own, options.asked);
    choice.own_of = tuning.own_of;
    choice.base = base.set();
    choice.made = entry_of(options, base, tuning);
    return choice;
}

int run_loss(const TuneCall& options) {
    TuneLossCall call;
    call.days.folders = options.tune.folders;
    call.days.at_once = options.tune.at_once;
    call.out = options.out;
    call.parameters = options.parameters;
    call.who = options.who;
    call.quiet = options.quiet;
    return run_tune_loss(call);
}

int run(TuneCall& options) {
    refuse_out_in_place(options);
    if (options.loss_prior) return run_loss(options);
    if (options.sweep.empty()) {
        throw RefusedInput({"--sweep", 0, "is missing", "say what to try, or ask for --loss-prior"});
    }
    if (options.keep.empty() != options.note.empty()) {
        throw RefusedInput({"--keep", 0, "wants --note, and the other way round",
                            "say in --note why the set was made: who takes it over asks"});
    }
    options.tune.sweep = parse_sweep(options.sweep);
    options.tune.out = options.out;
    const BaseSet base = read_base(options.parameters);
    options.tune.base = base.set();
    const Descriptor held = hold_folder(options.out);
    Tuning tuning;
    {
        ProgressLine progress("trying settings", options.quiet);
        options.tune.progress = [&progress](double share) { progress.show(share); };
        tuning = tune(options.tune);
    }
    tell_problems(tuning.problems);
    for (const std::string& note : tuning.notes) spdlog::warn("{}", note);
    const std::filesystem::path out(options.out);
    const TuneWeights& weights = options.tune.weights;
    write_file(out / "tuning.csv", tuning_csv(tuning.table, tuning.alarms, weights));
    write_file(out / "tuning_by_day.csv", tuning_by_day_csv(tuning.table));
    const std::size_t best = best_setting(tuning.table, tuning.alarms, weights);
    const std::size_t kept = options.setting >= 0 ? static_cast<std::size_t>(options.setting) : best;
    if (!options.keep.empty()) keep_set(options, base, tuning, kept);
    const TuningChoice choice = concluded(options, base, tuning);
    write_tuning_report(tuning.table, choice, out);
    if (!options.quiet) {
        std::printf("%zu settings on %zu machine days, %zu pieces of work taken over\n",
                    tuning.table.settings.size(), tuning.table.on.size(), tuning.taken_over);
        tell_setting(tuning, weights, "as it was", 0);
        tell_setting(tuning, weights, "least objective", best);
        tell_setting(tuning, weights, "recommended", choice.chosen.setting);
        if (!options.keep.empty()) std::printf("setting %zu kept: %s\n", kept, options.keep.c_str());
        std::printf("report: %s\ntable: %s\n", (out / "tuning.html").c_str(), (out / "tuning.csv").c_str());
    }
    return tuning.notes.empty() && tuning.problems.faults() == 0 ? kDone : kPartly;
}

void add_weights(CLI::App& command, TuneWeights& weights) {
    const auto weight = [&command](const char* name, double& value, const char* what) {
        command.add_option(name, value, what)
            ->capture_default_str()
            ->check(CLI::Range(0.0, 1e6))
            ->check(number_fault);
    };
    weight("--weight-missed", weights.missed, "In the objective, of the share missed of what was to be told");
    weight("--weight-false", weights.false_alarms, "... of false alarms an hour");
    weight("--weight-delay", weights.delay, "... of the median delay in seconds");
}

}  // namespace

Run add_tune(CLI::App& app) {
    auto options = std::make_shared<TuneCall>();
    CLI::App* command = app.add_subcommand("tune",
                                           "Try limits, deadbands and delays on recorded days: what each "
                                           "would have told, missed and told for nothing");
    command->add_option("days", options->tune.folders, "Folders of days (with day.toml)")->required();
    command->add_option("--out", options->out, "Folder for the results")->required();
    CLI::Option* sweep =
        command
            ->add_option("--sweep", options->sweep,
                         "NAME=LOW:HIGH:COUNT or NAME=A,B,C; repeated: every combination; `podrate "
                         "parameters` lists the names")
            ->expected(1)
            ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    CLI::Option* search = command->add_flag(
        "--search", options->tune.search,
        "Look for the least objective between the ends of the ranges instead of trying all");
    command->add_option("--settings", options->tune.most_settings, "Settings that a search tries at most")
        ->capture_default_str()
        ->check(CLI::Range(2, 10000));
    add_weights(*command, options->tune.weights);
    command->add_option("--parameters", options->parameters,
                        "A parameter set: what it names replaces the values of every machine");
    CLI::Option* false_per_hour =
        command
            ->add_option("--false-per-hour", options->asked.most_false_per_h,
                         "What the report recommends tells at most so many alarms an hour for nothing")
            ->capture_default_str()
            ->check(CLI::Range(0.0, 100.0))
            ->check(number_fault);
    CLI::Option* told = command
                            ->add_option("--told", options->asked.least_detection,
                                         "... and at least that share of what was to be told")
                            ->capture_default_str()
                            ->check(CLI::Range(0.0, 1.0))
                            ->check(number_fault);
    CLI::Option* keep =
        command->add_option("--keep", options->keep,
                            "Write the setting with the least objective as a parameter set, for the cab");
    command->add_option("--setting", options->setting, "... that one of tuning.csv instead")
        ->needs(keep)
        ->check(CLI::Range(0, 100000));
    CLI::Option* note = command->add_option("--note", options->note, "Why that set was made; kept in it");
    command->add_option("--who", options->who, "Who made it")->capture_default_str();
    command->add_option("--jobs", options->tune.at_once, "Threads (default: one a processor)")
        ->check(CLI::Range(1, 256));
    CLI::Option* anew =
        command->add_flag("--anew", options->tune.anew, "Take nothing over from an earlier run");
    command
        ->add_flag("--loss-prior", options->loss_prior,
                   "Instead of a sweep: what the days teach of the loss, as a parameter set")
        ->excludes(sweep)
        ->excludes(search)
        ->excludes(keep)
        ->excludes(told)
        ->excludes(false_per_hour)
        ->excludes(note)
        ->excludes(anew);
    command->add_flag("--quiet", options->quiet, "No progress and no summary");
    return [options] { return run(*options); };
}

}  // namespace podrate::sim
