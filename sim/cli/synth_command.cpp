#include <cstdio>
#include <memory>
#include <optional>

#include "cli/commands.hpp"
#include "cli/progress.hpp"
#include "synth/scenario/scenario.hpp"
#include "synth/synthesis.hpp"

namespace podrate::sim {
namespace {

struct SynthCall {
    std::string scenario;
    std::string out;
    std::optional<std::uint64_t> seed;
    bool quiet = false;
};

int run(const SynthCall& options) {
    const Scenario scenario = read_scenario(options.scenario, options.seed);
    {
        ProgressLine progress("making the day", options.quiet);
        synthesise(scenario, options.out, [&progress](double share) { progress.show(share); });
    }
    if (!options.quiet) std::printf("day: %s\n", options.out.c_str());
    return kDone;
}

}  // namespace

Run add_synth(CLI::App& app) {
    auto options = std::make_shared<SynthCall>();
    CLI::App* command =
        app.add_subcommand("synth", "Make a synthetic day, with its truth, from a scenario file");
    command->add_option("scenario", options->scenario, "Scenario file (TOML)")->required();
    command->add_option("--out", options->out, "Folder of the day to make")->required();
    command->add_option("--seed", options->seed, "Use this seed instead of the scenario's");
    command->add_flag("--quiet", options->quiet, "No progress and no summary");
    return [options] { return run(*options); };
}

}  // namespace podrate::sim
