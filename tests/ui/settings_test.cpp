// The settings file: read back as written, refused with line and mend, never lost where it was not
// understood.
#include "settings/settings_file.hpp"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <iterator>

#include "log/problem.hpp"

using namespace podrate;
using namespace podrate::ui;
namespace fs = std::filesystem;

namespace {

// An own folder for each case.
class Folder {
  public:
    Folder() : path_(fs::temp_directory_path() / ("podrate_settings_" + std::to_string(getpid()))) {
        fs::remove_all(path_);
        fs::create_directories(path_);
    }
    ~Folder() { fs::remove_all(path_); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;

    [[nodiscard]] fs::path file() const { return path_ / "podrate" / "settings.toml"; }
    void put(const std::string& text) const {
        fs::create_directories(file().parent_path());
        std::ofstream(file(), std::ios::binary) << text;
    }
    [[nodiscard]] static std::string text_of(const fs::path& path) {
        std::ifstream stream(path, std::ios::binary);
        return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
    }
    [[nodiscard]] const fs::path& path() const { return path_; }

  private:
    fs::path path_;
};

Settings german() {
    Settings settings;
    settings.speech = {Language::german, Units::us};
    settings.palette = PaletteChoice::by_hour;
    settings.scale = 0.85;
    settings.window = {1024, 600};
    settings.last_day = "/home/harrow/a \"day\" \\ with {odd} = signs\xC3\xA4";
    return settings;
}

struct Told {
    std::string all;
    SettingsFile::Tell tell() {
        return [this](const std::string& words) { all += words + '\n'; };
    }
};

std::string refusal(const std::string& text) {
    const Folder folder;
    folder.put(text);
    try {
        read_settings(folder.file());
    } catch (const sim::RefusedInput& refused) {
        return refused.what();
    }
    return "";
}

std::string kept_at(const char* config_home, const char* home) {
    const auto path = settings_path(config_home, home);
    return path ? path->string() : "nowhere";
}

// Root may write everywhere: for a while somebody who may not.
class Nobody {
  public:
    Nobody() : was_(geteuid()) {
        if (was_ == 0) REQUIRE(seteuid(65534) == 0);
    }
    ~Nobody() {
        if (was_ == 0 && seteuid(was_) != 0) std::abort();
    }
    Nobody(const Nobody&) = delete;
    Nobody& operator=(const Nobody&) = delete;

  private:
    uid_t was_;
};

bool holds(const std::string& words, const std::string& part) {
    return words.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("Settings are read as they were written") {
    const Folder folder;
    Told told;
    SettingsFile(folder.file(), told.tell()).write(german());
    const Settings back = SettingsFile(folder.file(), told.tell()).read();
    CHECK(told.all.empty());
    CHECK(back.speech.language == Language::german);
    CHECK(back.speech.units == Units::us);
    CHECK(back.palette == PaletteChoice::by_hour);
    CHECK(back.scale == 0.85);
    CHECK(back.window.width_px == 1024);
    CHECK(back.window.height_px == 600);
    CHECK(back.last_day == german().last_day);
    CHECK(std::distance(fs::directory_iterator(folder.file().parent_path()), {}) == 1);  // no draft is left
}

TEST_CASE("A day whose name TOML cannot hold is not remembered, and spoils nothing") {
    const Folder folder;
    Told told;
    Settings settings = german();
    settings.last_day = "/home/\xFF";
    SettingsFile(folder.file(), told.tell()).write(settings);
    const Settings back = SettingsFile(folder.file(), told.tell()).read();
    CHECK(told.all.empty());
    CHECK(back.last_day.empty());
    CHECK(back.scale == 0.85);
}

TEST_CASE("Without a file the defaults hold and nothing is said") {
    const Folder folder;
    Told told;
    const Settings settings = SettingsFile(folder.file(), told.tell()).read();
    CHECK(told.all.empty());
    CHECK(settings.speech.language == Language::english);
    CHECK(settings.speech.units == Units::metric);
    CHECK(settings.window.width_px == 1280);
    CHECK_FALSE(fs::exists(folder.file()));
}

TEST_CASE("What is wrong is told with its line and what to do") {
    const std::string damaged = refusal("language = \"de\"\nunits = \n");
    CHECK(holds(damaged, "settings.toml:2: "));
    CHECK(holds(damaged, "mend that line"));
    const std::string unknown = refusal("units = \"us\"\n\ncolour = 3\n");
    CHECK(holds(unknown, "settings.toml:3: unknown key 'colour'"));
    CHECK(holds(unknown, "check its spelling or take it out"));
    CHECK(holds(refusal("language = \"fr\"\n"), "give one of \"en\", \"de\""));
    CHECK(holds(refusal("units = 3\n"), "settings.toml:1: 'units' is not text"));
    CHECK(holds(refusal("palette = \"dusk\"\n"), "\"day\", \"night\", \"auto\""));
    CHECK(holds(refusal("scale = 2\n"), "give a number from 0.6 to 1"));
    CHECK(holds(refusal("window_width_px = 100\n"), "out of range"));
    CHECK(holds(refusal("window_height_px = nan\n"), "out of range"));
    CHECK(refusal("# nothing\n").empty());
}

TEST_CASE("A file that could not be read is kept aside before another is written") {
    const Folder folder;
    folder.put("language = \"de\"\nunits = \n");
    for (int round = 1; round <= 2; ++round) {
        Told told;
        SettingsFile file(folder.file(), told.tell());
        CHECK(file.read().speech.language == Language::english);
        CHECK(holds(told.all, "settings.toml:"));
        const std::string damaged = Folder::text_of(folder.file());
        file.write(german());
        const fs::path aside = folder.file().string() + ".old" + std::to_string(round);
        CHECK(Folder::text_of(aside) == damaged);
        CHECK(holds(told.all, "kept as settings.toml.old" + std::to_string(round)));
        CHECK(SettingsFile(folder.file(), told.tell()).read().speech.language == Language::german);
        folder.put("more = 1\n");
    }
}

TEST_CASE("Where nothing can be written that is said, and nothing else happens") {
    const Folder folder;
    Told told;
    // A file where the folder would be.
    std::ofstream(folder.path() / "podrate") << "in the way";
    SettingsFile file(folder.file(), told.tell());
    file.write(german());
    CHECK(holds(told.all, "settings are not kept"));
    CHECK(Folder::text_of(folder.path() / "podrate") == "in the way");
}

TEST_CASE("In a folder that may only be read the old file stays") {
    const Folder folder;
    folder.put("units = \"us\"\n");
    const fs::path holder = folder.file().parent_path();
    fs::permissions(holder, fs::perms(0555));
    {
        const Nobody nobody;
        Told told;
        SettingsFile file(folder.file(), told.tell());
        CHECK(file.read().speech.units == Units::us);
        file.write(german());
        CHECK(holds(told.all, "settings are not kept"));
    }
    CHECK(Folder::text_of(folder.file()) == "units = \"us\"\n");
    fs::permissions(holder, fs::perms::owner_all);
}

TEST_CASE("Settings live in the user's config folder, or nowhere") {
    CHECK(kept_at("/etc/xdg", "/home/a") == "/etc/xdg/podrate/settings.toml");
    for (const char* no_folder : {"", "relative", static_cast<const char*>(nullptr)})
        CHECK(kept_at(no_folder, "/home/a") == "/home/a/.config/podrate/settings.toml");
    CHECK(kept_at(nullptr, nullptr) == "nowhere");
    CHECK(kept_at(nullptr, "") == "nowhere");
    Told told;
    SettingsFile file(std::nullopt, told.tell());
    CHECK(file.read().last_day.empty());
    CHECK(holds(told.all, "HOME"));
    file.write(german());  // goes nowhere
}

TEST_CASE("Options of one run are not kept; what keys changed, window and day are") {
    Settings kept;
    kept.scale = 0.9;
    Settings begun = kept;
    begun.speech = {Language::german, Units::us};
    begun.last_day = "/days/one";
    Settings now = begun;
    now.window = {900, 700};
    Settings after = settings_after(kept, begun, now);
    CHECK(after.speech.language == Language::english);
    CHECK(after.speech.units == Units::metric);
    CHECK(after.scale == 0.9);
    CHECK(after.window.width_px == 900);
    CHECK(after.last_day == "/days/one");
    now.speech.units = Units::metric;
    now.palette = PaletteChoice::night;
    kept.speech.units = Units::us;
    after = settings_after(kept, begun, now);
    CHECK(after.speech.units == Units::metric);
    CHECK(after.palette == PaletteChoice::night);
    CHECK(after.speech.language == Language::english);
}

TEST_CASE("Before anything is chosen the user's locale tells language and units") {
    CHECK(speech_of_locale("de_DE.UTF-8").language == Language::german);
    CHECK(speech_of_locale("de").units == Units::metric);
    CHECK(speech_of_locale("en_US.UTF-8").units == Units::us);
    CHECK(speech_of_locale("en_US.UTF-8").language == Language::english);
    for (const char* other : {"C", "", "C.UTF-8", "en_GB", "fr_FR"}) {
        CHECK(speech_of_locale(other).language == Language::english);
        CHECK(speech_of_locale(other).units == Units::metric);
    }
    CHECK(speech_of_locale(nullptr).language == Language::english);
}
