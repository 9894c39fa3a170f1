#include <cstdio>
#include <memory>

#include "cli/commands.hpp"
#include "cli/progress.hpp"
#include "cli/tell_problems.hpp"
#include "convert/convert.hpp"

namespace podrate::sim {
namespace {

struct ConvertCall {
    std::string from;
    std::string to;
    std::string interface;
    bool quiet = false;
};

constexpr const char* kResolutions =
    "By the files' endings: .csv becomes .log (candump text) and the other way round, .nmea (a receiver's "
    "NMEA "
    "0183) either of them; .zst may follow.\n"
    "Nothing is lost but what lies below the resolution of the messages: time 1 us, weight 1 g, speed 1 "
    "mm/s, "
    "position 1e-7 degree, heading and tilt 0.0001 rad (0.006 degree), drum 0.125 rpm. A count of hits "
    "begins "
    "at 0. Values that no viner can show are left out and told, as are columns without a message.";

int run(const ConvertCall& options) {
    Problems problems;
    {
        ProgressLine progress("converting", options.quiet);
        std::error_code missing;
        const auto size = std::filesystem::file_size(options.from, missing);
        BusChoice bus;
        bus.interface = options.interface;
        convert_log(options.from, options.to, bus, problems, [&](std::uint64_t bytes) {
            if (!missing && size > 0) progress.show(static_cast<double>(bytes) / static_cast<double>(size));
        });
    }
    tell_problems(problems);
    if (!options.quiet) std::printf("log: %s\n", options.to.c_str());
    return problems.faults() == 0 ? kDone : kPartly;
}

}  // namespace

Run add_convert(CLI::App& app) {
    auto options = std::make_shared<ConvertCall>();
    CLI::App* command =
        app.add_subcommand("convert", "Rewrite a CSV log as candump text, or the other way round");
    command->add_option("from", options->from, "Log to read")->required();
    command->add_option("to", options->to, "Log to write")->required();
    command->add_option("--can-interface", options->interface, "Only frames of that interface, e.g. can0");
    command->add_flag("--quiet", options->quiet, "No progress and no summary");
    command->footer(kResolutions);
    return [options] { return run(*options); };
}

}  // namespace podrate::sim
