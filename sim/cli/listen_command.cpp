#include <fcntl.h>
#include <spdlog/spdlog.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <cstdio>
#include <cstring>
#include <memory>

#include "cli/commands.hpp"
#include "day/day.hpp"
#include "live/can_socket.hpp"
#include "live/candump_pipe.hpp"
#include "live/listener.hpp"
#include "live/live_loop.hpp"
#include "live/serial_line.hpp"

namespace podrate::sim {
namespace {

struct Options {
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

// The time of day when it began, and from then on a clock that nobody sets.
class HostClock {
  public:
    [[nodiscard]] TimeUs now_us() const {
        const auto gone = std::chrono::steady_clock::now() - steady_;
        return wall_us_ + std::chrono::duration_cast<std::chrono::microseconds>(gone).count();
    }

  private:
    std::chrono::steady_clock::time_point steady_ = std::chrono::steady_clock::now();
    TimeUs wall_us_ = std::chrono::duration_cast<std::chrono::microseconds>(
                          std::chrono::system_clock::now().time_since_epoch())
                          .count();
};

Machine machine_of_day(const Options& options, Day& day) {
    day = read_day(options.day);
    if (options.machine.empty() && day.machines.size() == 1) return day.machines.front();
    std::string ids;
    for (const Machine& machine : day.machines) {
        if (machine.id == options.machine) return machine;
        ids += (ids.empty() ? "" : ", ") + machine.id;
    }
    throw RefusedInput(
        {options.day, 0,
         options.machine.empty() ? "has several machines" : "has no machine '" + options.machine + "'",
         "name one by --machine: " + ids});
}

Machine chosen_machine(const Options& options, Day& day) {
    if (!options.day.empty()) return machine_of_day(options, day);
    if (!(options.width_m >= 0.5 && options.width_m <= 12.0)) {
        throw RefusedInput({"listen", 0, "the working width is not known",
                            "add --width with the width in metres, 0.5 to 12, or --day with a day's folder"});
    }
    Machine machine;
    machine.parameters.width_m = static_cast<Real>(options.width_m);
    return machine;
}

std::vector<std::unique_ptr<Transport>> open_transports(const Options& options, const Machine& machine) {
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

// Before anything else is opened, which would then pass for it.
void check_standard_input() {
    if (fcntl(STDIN_FILENO, F_GETFD) >= 0) return;
    throw RefusedInput(
        {"standard input", 0, "is closed", "pipe candump's text in: candump -L can0 | podrate listen -"});
}

int run(const Options& options) {
    if (!options.input.empty()) check_standard_input();
    Day day;
    const Machine machine = chosen_machine(options, day);
    const StopSignals signals;
    std::vector<std::unique_ptr<Transport>> transports = open_transports(options, machine);
    const HostClock clock;
    int write_error = 0;
    std::uint64_t told = 0;
    ListenerHooks hooks;
    hooks.now = [&clock] { return clock.now_us(); };
    hooks.say = [&](const LiveFigures& figures) {
        const std::string line = options.json ? live_json(figures) : live_line(figures, day.time_zone);
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
    auto options = std::make_shared<Options>();
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
