// podrate-cab: plays a recorded day in the driver's view, draws it into a PNG, shows a machine as it speaks,
// or one that is driven by hand.
#include <spdlog/sinks/stdout_color_sinks.h>
#include <spdlog/spdlog.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <atomic>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <thread>

#include "app/picture.hpp"
#include "app/window.hpp"
#include "live/heard_machine.hpp"
#include "live/host_clock.hpp"
#include "live/live_input.hpp"
#include "log/problem.hpp"
#include "model/clock_text.hpp"
#include "podrate/version.hpp"
#include "settings/settings_file.hpp"
#include "simulator/simulator.hpp"

namespace {

using namespace podrate::ui;

enum ExitCode { kDone = 0, kRefused = 2 };

struct Options {
    std::string day;
    std::string listen;
    double width_m = 0.0;
    bool simulate = false;
    bool frame_times = false;
    std::chrono::steady_clock::time_point begun = std::chrono::steady_clock::now();
    std::uint64_t seed = 1;
    std::string at;
    std::string png;
    std::string machine;
    std::string view;
    std::string parameters;
    std::string palette;
    std::string size;
    std::string language;
    std::string units;
};

[[noreturn]] void refuse(const std::string& what, const std::string& reason, const std::string& mend) {
    throw podrate::sim::RefusedInput({what, 0, reason, mend});
}

WindowSize parse_size(const std::string& text) {
    WindowSize size;
    int used = 0;
    const int found = std::sscanf(text.c_str(), "%5dx%5d%n", &size.width_px, &size.height_px, &used);
    const bool whole = found == 2 && used == static_cast<int>(text.size());
    if (!whole || size.width_px < kLeastWidthPx || size.height_px < kLeastHeightPx ||
        size.width_px > kMostPx || size.height_px > kMostPx) {
        refuse("--size", "'" + text + "' is no size", "give width x height in pixels, like 1280x800");
    }
    return size;
}

// The settings of this run: options go before what is kept.
Settings chosen(const Settings& kept, const Options& options) {
    Settings now = kept;
    if (!options.language.empty()) named(options.language, now.speech.language);
    if (!options.units.empty()) named(options.units, now.speech.units);
    if (!options.palette.empty()) named(options.palette, now.palette);
    // A picture has always the same size unless one is given.
    if (!options.png.empty()) now.window = WindowSize{};
    if (!options.size.empty()) now.window = parse_size(options.size);
    if (!options.day.empty()) {
        std::error_code unknown;
        const std::filesystem::path whole = std::filesystem::absolute(options.day, unknown);
        now.last_day = unknown ? options.day : whole.lexically_normal().string();
        return now;
    }
    if (!options.listen.empty() || options.simulate) return now;
    if (now.last_day.empty()) refuse("podrate-cab", "no day is named", "give a day's folder (with day.toml)");
    std::error_code unseen;
    if (!std::filesystem::exists(std::filesystem::path(now.last_day) / "day.toml", unseen))
        refuse(now.last_day, "the last day is no longer there", "give a day's folder (with day.toml)");
    return now;
}

// With all of it read: for pictures, and where the window begins at some moment of it.
Session open_session(const Options& options, const Settings& settings) {
    const bool terminal = isatty(STDERR_FILENO) == 1;
    const std::atomic<bool> cancel{false};
    std::shared_ptr<const OpenDay> day = open_day(
        settings.last_day,
        [terminal](double share) {
            if (terminal) std::fprintf(stderr, "\rreading the day %3.0f %%\x1b[K", 100.0 * share);
        },
        cancel);
    if (terminal) std::fputs("\r\x1b[K", stderr);
    Session session(std::move(day), settings);
    if (!options.machine.empty() && !session.choose_machine(options.machine)) {
        std::string known;
        for (const MachineRecording& machine : session.recording().machines) known += ' ' + machine.id;
        refuse("--machine", "'" + options.machine + "' is not in this day", "give one of:" + known);
    }
    if (!options.at.empty()) {
        const auto at = parse_clock(options.at, session.recording().time_zone, session.recording().first_us);
        if (!at)
            refuse("--at", "'" + options.at + "' is no time",
                   "give HH:MM or HH:MM:SS of the day, or unix seconds");
        if (*at < session.recording().first_us || *at > session.recording().last_us) {
            const std::string& zone = session.recording().time_zone;
            refuse("--at", options.at + " is outside the day",
                   "the day runs from " + clock_text(session.recording().first_us, zone, true) + " to " +
                       clock_text(session.recording().last_us, zone, true));
        }
        session.playback().seek(*at);
    }
    return session;
}

void open_window(Session& session, const std::string& folder, WindowSize& size, const Options& options) {
    FrameBook book(options.begun);
    std::string why;
    if (!run_window(session, folder, size, book, why)) {
        refuse("podrate-cab", "no window can be opened: " + why,
               "run it on a desktop, or draw a picture with --at TIME --png FILE");
    }
    if (options.frame_times) spdlog::info("{}", book.words());
}

// What was changed in the window is kept for the next time.
void keep(const Session& session, WindowSize size, const Settings& kept, const Settings& begun,
          SettingsFile& file) {
    Settings now = session.settings();
    now.window = size;
    file.write(settings_after(kept, begun, now));
}

int run_live(const Options& options, const Settings& begun, SettingsFile& file, const Settings& kept) {
    LiveInput live(podrate::sim::heard_machine(options.day, options.machine, options.width_m),
                   options.listen);
    Session session(live, begun);
    WindowSize size = begun.window;
    open_window(session, "", size, options);
    keep(session, size, kept, begun, file);
    return kDone;
}

// Beside the settings; whose name goes into a set's history.
SetKeeping keeping_sets() {
    SetKeeping keeping;
    const auto settings = settings_path(std::getenv("XDG_CONFIG_HOME"), std::getenv("HOME"));
    if (settings) keeping.folder = settings->parent_path() / "parameters";
    const char* user = std::getenv("USER");
    keeping.who = user != nullptr ? user : "";
    keeping.unix_s = [] { return podrate::sim::HostClock().now_us() / podrate::kSecondUs; };
    return keeping;
}

// At the bench, with the day replayed.
void open_set(Session& session, const std::string& file) {
    session.look(View::bench);
    session.bench().open_file(file);
    do {
        while (session.bench().busy()) std::this_thread::sleep_for(std::chrono::milliseconds(10));
        session.bench().refresh();
    } while (session.bench().busy());
}

int run_simulator(const Options& options, const Settings& begun, SettingsFile& file, const Settings& kept) {
    podrate::Parameters parameters;
    if (!options.day.empty())
        parameters = podrate::sim::heard_machine(options.day, options.machine, 0.0).machine.parameters;
    Simulator simulator(options.seed, parameters, std::filesystem::current_path());
    Session session(simulator, begun);
    WindowSize size = begun.window;
    if (!options.png.empty()) {
        demonstrate(simulator);
        session.skip_cautions();
        write_png(picture_of(session, size.width_px, size.height_px), options.png);
        return kDone;
    }
    open_window(session, "", size, options);
    keep(session, size, kept, begun, file);
    return kDone;
}

// Before anything was chosen: as the user's other programs speak.
Settings usual_settings() {
    Settings usual;
    for (const char* name : {"LC_ALL", "LC_MESSAGES", "LANG"}) {
        const char* locale = std::getenv(name);
        if (locale == nullptr || *locale == '\0') continue;
        usual.speech = speech_of_locale(locale);
        break;
    }
    return usual;
}

int run(const Options& options) {
    SettingsFile file(
        settings_path(std::getenv("XDG_CONFIG_HOME"), std::getenv("HOME")),
        [](const std::string& words) { spdlog::warn("{}", words); }, usual_settings());
    const Settings kept = file.read();
    const Settings begun = chosen(kept, options);
    WindowSize size = begun.window;
    if (options.simulate) return run_simulator(options, begun, file, kept);
    if (!options.listen.empty()) return run_live(options, begun, file, kept);
    const bool at_once =
        options.png.empty() && options.at.empty() && options.machine.empty() && options.parameters.empty();
    // What is wrong with the folder is told here; its logs are read beside the window.
    if (at_once) podrate::sim::read_day(begun.last_day);
    Session session = at_once ? Session(begun) : open_session(options, begun);
    session.set_keeping(keeping_sets());
    if (options.view == "day") session.look(View::day);
    if (options.view == "bench") session.look(View::bench);
    if (!options.parameters.empty()) open_set(session, options.parameters);
    if (!options.png.empty()) {
        session.skip_cautions();
        write_png(picture_of(session, size.width_px, size.height_px), options.png);
        return kDone;
    }
    open_window(session, at_once ? begun.last_day : "", size, options);
    keep(session, size, kept, begun, file);
    return kDone;
}

}  // namespace

int main(int argc, char** argv) {
    auto logger = spdlog::stderr_color_mt("podrate-cab");
    logger->set_pattern("%^%l%$: %v");
    spdlog::set_default_logger(std::move(logger));
    CLI::App app(
        "A recorded day as its driver saw it and as a whole, or a machine as it speaks. Keys: Space play or "
        "pause, arrows seek and pace, "
        "Tab machine, F2 cab, F3 day, F4 bench, N day or night, L language, U units, F1 help, Q quit.",
        "podrate-cab");
    Options options;
    app.set_version_flag("--version", std::string("podrate-cab ") + podrate::kVersion);
    app.add_option("day", options.day,
                   "A day's folder (with day.toml); with --listen its parameters; default: the last one");
    app.add_option("--listen", options.listen,
                   "Show a machine as it speaks: a CAN interface, or - for candump text on standard input");
    app.add_flag(
           "--simulate", options.simulate,
           "Drive a machine of an invented field by hand, with the parameters of DAY where one is given")
        ->excludes("--listen");
    app.add_option("--seed", options.seed, "With --simulate: which field; default: 1");
    app.add_option("--width", options.width_m, "With --listen and no day: the working width in metres");
    app.add_option("--at", options.at,
                   "Start at this time: HH:MM[:SS] in the day's time zone, or unix seconds");
    app.add_option("--png", options.png, "Draw the view into this file instead of opening a window");
    app.add_option("--machine", options.machine, "The machine to begin with; default: the first");
    app.add_option("--view", options.view, "driver, day (charts, map, what happened) or bench (parameters)")
        ->check(CLI::IsMember({"driver", "day", "bench"}));
    app.add_option("--parameters", options.parameters, "Begin at the bench with that parameter set");
    app.add_option("--palette", options.palette, "day, night or auto")
        ->check(CLI::IsMember({"day", "night", "auto"}));
    app.add_option("--language", options.language, "en or de, for this run")
        ->check(CLI::IsMember({"en", "de"}));
    app.add_option("--units", options.units, "metric or us, for this run")
        ->check(CLI::IsMember({"metric", "us"}));
    app.add_flag("--frame-times", options.frame_times,
                 "Tell in the end how soon and how fast the window was drawn");
    app.add_option("--size", options.size, "Size in pixels, like 1280x800; default: the last one");
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? kDone : kRefused;
    }
    try {
        return run(options);
    } catch (const std::exception& error) {
        spdlog::error("{}", error.what());
        return kRefused;
    }
}
