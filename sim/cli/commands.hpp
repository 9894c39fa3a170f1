// The commands of `podrate`: each adds its options and runs itself.
#pragma once

#include <CLI/App.hpp>
#include <functional>

namespace podrate::sim {

// Exit codes of the command line.
enum ExitCode {
    kDone = 0,
    kPartly = 1,   // ran, but something in the input could not be used
    kRefused = 2,  // usage or unreadable input
};

// A command registers with the app; running it gives the exit code.
using Run = std::function<int()>;

Run add_replay(CLI::App& app);
Run add_synth(CLI::App& app);
Run add_score(CLI::App& app);
Run add_parameters(CLI::App& app);
Run add_convert(CLI::App& app);
Run add_listen(CLI::App& app);
Run add_season(CLI::App& app);
Run add_tune(CLI::App& app);

}  // namespace podrate::sim
