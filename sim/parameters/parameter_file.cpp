#include "parameters/parameter_file.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>

#include "day/common_keys.hpp"
#include "log/problem.hpp"
#include "parameters/lasting_file.hpp"
#include "parameters/parameter_text.hpp"

namespace podrate::sim {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t kMostBytes = 4U << 20U;

std::string text_of_file(const fs::path& path) {
    std::ifstream stream(path, std::ios::binary);
    std::error_code unseen;
    if (!stream || fs::is_directory(path, unseen))
        throw RefusedInput({path.string(), 0, "can't be opened", "check the name and the permissions"});
    if (fs::file_size(path, unseen) > kMostBytes)
        throw RefusedInput({path.string(), 0, "is too large for a parameter set", "give another file"});
    return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

fs::path beside(const fs::path& path, const char* ending) {
    return path.string() + ending;
}

bool is_good(const std::string& text, const fs::path& path) {
    try {
        (void)parse_parameter_set(text, path.string());
        return true;
    } catch (const RefusedInput&) {
        return false;
    }
}

// So that a new one can take the place of what stands there.
void make_room(const fs::path& path) {
    std::error_code unseen;
    if (!fs::exists(fs::symlink_status(path, unseen))) return;
    const std::string text = text_of_file(path);
    if (is_good(text, path)) {
        write_lasting(beside(path, ".bak"), text);
        return;
    }
    std::error_code error;
    fs::rename(path, beside(path, ".refused"), error);
    if (error) throw RefusedInput({path.string(), 0, "can't be moved aside", "check the permissions"});
}

}  // namespace

KeptSet read_parameter_set(const fs::path& path) {
    const std::string text = text_of_file(path);
    return {parse_parameter_set(text, path.string()), mark_of_text(text)};
}

void keep_parameter_set(const fs::path& path, const ParameterSet& set) {
    const std::string text = parameter_set_text(set);
    (void)parse_parameter_set(text, path.string());  // what could not be read again is not written
    make_room(path);
    write_lasting(path, text);
}

void seal_parameter_file(const fs::path& path) {
    const std::string text = text_of_file(path);
    write_lasting(path, sealed_again(text, path.string()));
}

bool is_set_name(const std::string& name) {
    return name.size() <= kMostSetName && is_file_name(name);
}

fs::path parameter_path(const fs::path& folder, const std::string& name) {
    return folder / (name + ".toml");
}

std::vector<fs::path> parameter_files(const fs::path& folder) {
    std::vector<fs::path> files;
    std::error_code unseen;
    for (fs::directory_iterator at(folder, unseen), end; !unseen && at != end; at.increment(unseen)) {
        if (at->path().extension() == ".toml" && at->is_regular_file(unseen)) files.push_back(at->path());
    }
    std::sort(files.begin(), files.end());
    return files;
}

}  // namespace podrate::sim
