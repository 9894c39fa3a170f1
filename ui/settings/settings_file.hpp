// Where the settings are kept, and keeping them there.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>

#include "settings/settings.hpp"

namespace podrate::ui {

// $XDG_CONFIG_HOME/podrate/settings.toml, or below $HOME/.config; none where neither is an absolute path.
// Either may be nullptr. (XDG Base Directory Specification 0.8: a relative path is passed over.)
std::optional<std::filesystem::path> settings_path(const char* config_home, const char* home);

class SettingsFile {
  public:
    // What is the matter, for the user: file, line, mend.
    using Tell = std::function<void(const std::string&)>;

    // `usual`: where there is no file yet, or one that can't be read.
    SettingsFile(std::optional<std::filesystem::path> path, Tell tell, const Settings& usual = {})
        : path_(std::move(path)), tell_(std::move(tell)), usual_(usual) {}

    // A file that can't be read is told.
    Settings read();

    // Whole or not at all. A file that read() could not read is first kept aside under another name. What
    // fails is told and changes nothing.
    void write(const Settings& settings);

  private:
    // False where it stays.
    bool keep_aside();

    std::optional<std::filesystem::path> path_;
    Tell tell_;
    Settings usual_;
    bool unread_ = false;
};

// What to keep after a run: `kept` as it was read, with what was changed by hand since `begun` and the
// window and day of now. Options of the command line, which `begun` holds, too, leave `kept` alone.
Settings settings_after(const Settings& kept, const Settings& begun, const Settings& now);

}  // namespace podrate::ui
