// What the user has chosen, and its text in TOML.
#pragma once

#include <filesystem>
#include <string>

#include "text/text.hpp"

namespace podrate::ui {

enum class PaletteChoice { day, night, by_hour };

struct WindowSize {
    int width_px = 1280;
    int height_px = 800;
};

inline constexpr int kLeastWidthPx = 320;
inline constexpr int kLeastHeightPx = 200;
inline constexpr int kMostPx = 8000;
inline constexpr double kLeastScale = 0.6;

struct Settings {
    Speech speech;
    PaletteChoice palette = PaletteChoice::day;
    double scale = 1.0;  // of figures and words, kLeastScale to 1: 1 is as large as the window holds
    WindowSize window;
    std::string last_day;  // folder, or empty
};

// Language and units of a locale's name, "de_DE.UTF-8", "en_US": English and metric where it tells nothing
// else. May be nullptr.
Speech speech_of_locale(const char* locale);

// Throws sim::RefusedInput with file, line and mend where it is no TOML, or has a key or a value that is
// unknown.
Settings read_settings(const std::filesystem::path& file);

// What read_settings() reads.
std::string settings_text(const Settings& settings);

// "en", "de"; "metric", "us"; "day", "night", "auto". False where there is no such name.
bool named(const std::string& name, Language& language);
bool named(const std::string& name, Units& units);
bool named(const std::string& name, PaletteChoice& palette);

}  // namespace podrate::ui
