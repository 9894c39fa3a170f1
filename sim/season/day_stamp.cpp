#include "season/day_stamp.hpp"

#include <cstdio>

#include "podrate/retained/crc32.hpp"

namespace podrate::sim {
namespace {

void add_files_of(const std::filesystem::path& folder, std::set<std::filesystem::path>& files) {
    std::error_code missing;
    for (const auto& entry : std::filesystem::directory_iterator(folder, missing)) {
        if (!entry.is_directory()) files.insert(entry.path());
    }
}

}  // namespace

std::string short_hash(const std::string& text) {
    std::uint32_t crc = 0;
    for (const char c : text) {
        const auto byte = static_cast<std::uint8_t>(c);
        crc = crc32(&byte, 1, crc);
    }
    char hex[12];
    std::snprintf(hex, sizeof hex, "%08x", static_cast<unsigned>(crc));
    return hex;
}

std::filesystem::path whole_path(const std::string& folder) {
    std::error_code error;
    std::filesystem::path input = std::filesystem::weakly_canonical(folder, error);
    if (error) input = std::filesystem::absolute(folder);
    return input.has_filename() ? input : input.parent_path();
}

std::string files_stamp(const std::filesystem::path& input, const Day& day,
                        const std::filesystem::path& more) {
    std::set<std::filesystem::path> files;
    add_files_of(input, files);
    if (!more.empty()) add_files_of(more, files);
    for (const Machine& machine : day.machines) files.insert(machine.log);
    std::string stamp;
    for (const std::filesystem::path& file : files) {
        std::error_code missing;
        const auto size = std::filesystem::file_size(file, missing);
        stamp += file.filename().string() + ' ';
        if (missing) {
            stamp += "missing\n";
            continue;
        }
        const auto changed = std::filesystem::last_write_time(file, missing).time_since_epoch().count();
        stamp += std::to_string(size) + ' ' + std::to_string(changed) + '\n';
    }
    return stamp;
}

}  // namespace podrate::sim
