#include <spdlog/spdlog.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>

#include "cli/commands.hpp"
#include "live/can_socket.hpp"
#include "live/candump_pipe.hpp"
#include "live/heard_machine.hpp"
#include "live/host_clock.hpp"
#include "live/listener.hpp"
#include "live/live_loop.hpp"
#include "live/serial_line.hpp"

namespace podrate::sim {
namespace {

struct ListenCall {
    std::string input;
    std::string can;
    std::string serial;
    int baud = 4800;  // the usual speed of NMEA 0183
    double width_m = 0.0;
    std::string day;
    std::string machine;
    bool json = false;
};

constexpr std::uint64_t kMostTold = 20;

std::vector<std::unique_ptr<Transport>> open_transports(const ListenCall& options, const Machine& machine) {
    if (!options.input.empty() && options.input != "-")
        throw RefusedInput(
            {options.input, 0, "can't be listened to", "give - for standard input, or --can or --serial"});
    std::vector<std::unique_ptr<Transport>> transports;
    if (!options.can.empty()) transports.push_back(open_can(options.can));
    if (!options.input.empty())
        transports.push_back(std::make_unique<CandumpPipe>(Descriptor(dup(STDIN_FILENO)), "standard input",
                                                           machine.bus.interface));
    if (!options.serial.empty()) transports.push_back(open_serial(options.serial, options.baud));
    if (transports.empty()) {
        throw RefusedInput({"listen", 0, "nothing to listen to",
                            "give - for candump text on standard input, --can or --serial"});
    }
    return transports;
}

int run(const ListenCall& options) {
    if (!options.input.empty()) check_standard_input();
    const HeardMachine heard = heard_machine(options.day, options.machine, options.width_m);
    const Machine& machine = heard.machine;
    const StopSignals signals;
    std::vector<std::unique_ptr<Transport>> transports = open_transports(options, machine);
    const HostClock clock;
    int write_error = 0;
    std::uint64_t told = 0;
    ListenerHooks hooks;
    hooks.now = [&clock] { return clock.now_us(); };
    hooks.say = [&](const LiveFigures& figures) {
        const std::string line = options.json ? live_json(figures) : live_line(figures, heard.time_zone);
        if (std::fputs(line.c_str(), stdout) < 0 || std::fflush(stdout) != 0) write_error = errno;
    };
    hooks.bad = [&told](const std::string& why) {
        if (++told <= kMostTold) spdlog::warn("{}", why);
        if (told == kMostTold) spdlog::warn("what else can't be used is counted, not told");
    };
    Listener listener(machine.parameters, machine.bus.settings, !options.serial.empty(), hooks);
    LiveHooks loop;
    loop.tick = [&listener] { listener.tick(); };
    loop.go_on = [&write_error] { return write_error == 0; };
    loop.ended = [](const std::string& name) { spdlog::info("{} has ended", name); };
    run_live(std::move(transports), listener, signals.descriptor(), loop);
    std::clearerr(stdout);  // a reader that went away is no fault
    if (write_error != 0 && write_error != EPIPE) {
        throw RefusedInput({"standard output", 0,
                            std::string("can't be written: ") + std::strerror(write_error),
                            "free some space, or write elsewhere"});
    }
    if (told > kMostTold) spdlog::warn("{} frames, lines or values could not be used", told);
    if (!listener.estimator().read().started) spdlog::warn("no weight has come");
    return listener.bad() == 0 && listener.estimator().read().started ? kDone : kPartly;
}

}  // namespace

Run add_listen(CLI::App& app) {
    auto options = std::make_shared<ListenCall>();
    CLI::App* command =
        app.add_subcommand("listen", "Say once a second what comes from a machine, as it comes");
    command->add_option("input", options->input, "- for candump text on standard input");
    command->add_option("--can", options->can, "CAN interface, e.g. can0");
    command->add_option("--serial", options->serial, "Serial line with NMEA 0183, e.g. /dev/ttyUSB0");
    command->add_option("--baud", options->baud, "Its speed")->capture_default_str();
    command->add_option("--width", options->width_m, "Working width in metres");
    command->add_option("--day", options->day, "Take the machine's parameters from that day's folder");
    command->add_option("--machine", options->machine, "Which machine of that day, by its id");
    command->add_flag("--json", options->json, "Each line an object of JSON");
    command->footer(
        "Candump text keeps its own absolute time stamps, unless --serial brings a second input; what has "
        "none is "
        "stamped as it comes. Ends with the input, or by Ctrl-C.");
    return [options] { return run(*options); };
}

}  // namespace podrate::sim
