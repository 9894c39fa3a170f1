#include "settings/settings_file.hpp"

#include "log/problem.hpp"
#include "report/output_file.hpp"

namespace podrate::ui {
namespace fs = std::filesystem;

std::optional<fs::path> settings_path(const char* config_home, const char* home) {
    fs::path folder;
    if (config_home != nullptr && fs::path(config_home).is_absolute()) {
        folder = config_home;
    } else if (home != nullptr && fs::path(home).is_absolute()) {
        folder = fs::path(home) / ".config";
    } else {
        return std::nullopt;
    }
    return folder / "podrate" / "settings.toml";
}

Settings SettingsFile::read() {
    unread_ = false;
    if (!path_) {
        tell_("neither XDG_CONFIG_HOME nor HOME names a folder: settings are not kept");
        return usual_;
    }
    std::error_code unseen;
    const fs::file_status status = fs::status(*path_, unseen);
    if (status.type() == fs::file_type::not_found) return usual_;
    try {
        return read_settings(*path_);
    } catch (const sim::RefusedInput& refused) {
        unread_ = true;
        tell_(std::string(refused.what()) + " (until then the usual settings are used)");
        return usual_;
    }
}

bool SettingsFile::keep_aside() {
    for (int i = 1; i < 100; ++i) {
        const fs::path aside = path_->string() + ".old" + std::to_string(i);
        std::error_code error;
        if (fs::exists(fs::symlink_status(aside, error))) continue;
        fs::rename(*path_, aside, error);
        if (error) break;
        tell_(path_->string() + " could not be read: it is kept as " + aside.filename().string());
        return true;
    }
    return false;
}

void SettingsFile::write(const Settings& settings) {
    if (!path_) return;
    if (unread_ && !keep_aside()) {
        tell_(path_->string() + ": could not be read and stays as it is; settings are not kept");
        return;
    }
    unread_ = false;
    try {
        sim::make_folder(path_->parent_path());
        sim::write_file(*path_, settings_text(settings));
    } catch (const sim::RefusedInput& refused) {
        tell_(refused.problem().file + ": " + refused.problem().reason + "; settings are not kept");
    }
}

Settings settings_after(const Settings& kept, const Settings& begun, const Settings& now) {
    Settings after = kept;
    if (now.speech.language != begun.speech.language) after.speech.language = now.speech.language;
    if (now.speech.units != begun.speech.units) after.speech.units = now.speech.units;
    if (now.palette != begun.palette) after.palette = now.palette;
    after.window = now.window;
    after.last_day = now.last_day;
    return after;
}

}  // namespace podrate::ui
