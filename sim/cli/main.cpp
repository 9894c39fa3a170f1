// podrate: the command line.
#include <spdlog/sinks/stdout_color_sinks.h>
#include <spdlog/spdlog.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <utility>
#include <vector>

#include "cli/commands.hpp"
#include "log/problem.hpp"
#include "podrate/version.hpp"

namespace {

void set_up_logging() {
    auto logger = spdlog::stderr_color_mt("podrate");
    logger->set_pattern("%^%l%$: %v");
    spdlog::set_default_logger(std::move(logger));
}

}  // namespace

int main(int argc, char** argv) {
    using namespace podrate::sim;
    set_up_logging();
    CLI::App app(
        "Load rate, yield and threshing loss of vining-pea harvesters, from hopper weight and ground speed.",
        "podrate");
    app.set_version_flag("--version", std::string("podrate ") + podrate::kVersion);
    app.require_subcommand(1);
    const std::vector<Run> runs = {add_replay(app),  add_synth(app),  add_score(app),  add_parameters(app),
                                   add_convert(app), add_listen(app), add_season(app), add_tune(app)};
    const std::vector<CLI::App*> commands = app.get_subcommands([](const CLI::App*) { return true; });
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? kDone : kRefused;
    }
    try {
        for (std::size_t i = 0; i < runs.size(); ++i) {
            if (!commands[i]->parsed()) continue;
            const int code = runs[i]();
            if (std::fflush(stdout) == 0 && std::ferror(stdout) == 0) return code;
            spdlog::error("standard output can't be written; check where it leads and the space left");
        }
    } catch (const RefusedInput& refused) {
        spdlog::error("{}", refused.what());
    } catch (const std::exception& error) {
        spdlog::error("{}", error.what());
    }
    return kRefused;
}
