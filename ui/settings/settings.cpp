#include "settings/settings.hpp"

#include <cmath>
#include <sstream>

#include "day/toml_access.hpp"

namespace podrate::ui {
namespace {

template <class Choice>
struct Name {
    const char* name;
    Choice choice;
};

constexpr Name<Language> kLanguageNames[] = {{"en", Language::english}, {"de", Language::german}};
constexpr Name<Units> kUnitsNames[] = {{"metric", Units::metric}, {"us", Units::us}};
constexpr Name<PaletteChoice> kPaletteNames[] = {
    {"day", PaletteChoice::day}, {"night", PaletteChoice::night}, {"auto", PaletteChoice::by_hour}};

template <class Choice, std::size_t count>
bool find_name(const Name<Choice> (&names)[count], const std::string& name, Choice& choice) {
    for (const Name<Choice>& known : names) {
        if (name != known.name) continue;
        choice = known.choice;
        return true;
    }
    return false;
}

template <class Choice, std::size_t count>
std::string name_in(const Name<Choice> (&names)[count], Choice choice) {
    for (const Name<Choice>& known : names) {
        if (known.choice == choice) return known.name;
    }
    return names[0].name;
}

template <class Choice, std::size_t count>
void read_choice(const sim::TomlView& view, const std::string& key, const Name<Choice> (&names)[count],
                 Choice& choice) {
    if (!view.has(key)) return;
    const std::string name = view.text(key, '"' + std::string(names[0].name) + '"');
    if (find_name(names, name, choice)) return;
    std::string known;
    for (const Name<Choice>& one : names)
        known += (known.empty() ? "\"" : ", \"") + (one.name + std::string("\""));
    view.refuse(view.need(key, known), "'" + key + "' = \"" + name + "\" is unknown", "give one of " + known);
}

void read_pixels(const sim::TomlView& view, const std::string& key, int least, int& pixels) {
    if (view.has(key)) pixels = static_cast<int>(std::lround(view.number(key, least, kMostPx)));
}

// A name that is no UTF-8 does not pass through TOML.
bool comes_back(const std::string& name) {
    std::ostringstream text;
    text << toml::table{{"name", name}};
    try {
        return toml::parse(text.str())["name"].value_or(std::string()) == name;
    } catch (const toml::parse_error&) {
        return false;
    }
}

}  // namespace

bool named(const std::string& name, Language& language) {
    return find_name(kLanguageNames, name, language);
}

bool named(const std::string& name, Units& units) {
    return find_name(kUnitsNames, name, units);
}

bool named(const std::string& name, PaletteChoice& palette) {
    return find_name(kPaletteNames, name, palette);
}

Speech speech_of_locale(const char* locale) {
    Speech speech;
    const std::string name = locale != nullptr ? locale : "";
    if (name.compare(0, 2, "de") == 0) speech.language = Language::german;
    if (name.size() >= 5 && name.compare(2, 3, "_US") == 0) speech.units = Units::us;
    return speech;
}

Settings read_settings(const std::filesystem::path& file) {
    const toml::table table = sim::parse_toml(file);
    const sim::TomlView view(table, file.string(), "");
    view.refuse_unknown_keys(
        {"language", "units", "palette", "scale", "window_width_px", "window_height_px", "last_day"});
    Settings settings;
    read_choice(view, "language", kLanguageNames, settings.speech.language);
    read_choice(view, "units", kUnitsNames, settings.speech.units);
    read_choice(view, "palette", kPaletteNames, settings.palette);
    settings.scale = view.number_or("scale", kLeastScale, 1.0, settings.scale);
    read_pixels(view, "window_width_px", kLeastWidthPx, settings.window.width_px);
    read_pixels(view, "window_height_px", kLeastHeightPx, settings.window.height_px);
    settings.last_day = view.text_or("last_day", "");
    return settings;
}

std::string settings_text(const Settings& settings) {
    toml::table table;
    table.insert("language", name_in(kLanguageNames, settings.speech.language));
    table.insert("units", name_in(kUnitsNames, settings.speech.units));
    table.insert("palette", name_in(kPaletteNames, settings.palette));
    table.insert("scale", settings.scale);
    table.insert("window_width_px", settings.window.width_px);
    table.insert("window_height_px", settings.window.height_px);
    table.insert("last_day", settings.last_day);
    if (!comes_back(settings.last_day)) table.insert_or_assign("last_day", "");
    std::ostringstream text;
    text
        << "# language: en, de; units: metric, us; palette: day, night, auto (by the hour); scale: 0.6 to 1\n"
        << table << '\n';
    return text.str();
}

}  // namespace podrate::ui
