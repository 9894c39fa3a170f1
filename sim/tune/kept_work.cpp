#include "tune/kept_work.hpp"

#include <fstream>
#include <sstream>
#include <vector>

#include "parameters/parameter_set.hpp"
#include "report/output_file.hpp"

namespace podrate::sim {
namespace {

constexpr const char* kHead = "podrate tuning, a piece of work\n";

// Checksum of the rest, then the key with its length, then the work.
std::string sealed(const std::string& key, const std::string& work) {
    const std::string body = std::to_string(key.size()) + '\n' + key + work;
    return kHead + mark_of(body) + '\n' + body;
}

}  // namespace

KeptWork::KeptWork(std::filesystem::path folder, bool anew) : folder_(std::move(folder)), anew_(anew) {
    make_folder(folder_);
}

std::optional<std::string> KeptWork::take(const std::string& key) {
    const std::string name = mark_of(key);
    {
        const std::lock_guard<std::mutex> lock(mutex_);
        // Nothing that this run has made itself is made twice.
        if (anew_ && used_.count(name) == 0) return std::nullopt;
    }
    std::ifstream stream(folder_ / name, std::ios::binary);
    if (!stream) return std::nullopt;
    std::ostringstream read;
    read << stream.rdbuf();
    const std::string text = read.str();
    const std::string empty = sealed(key, "");
    if (text.size() < empty.size()) return std::nullopt;
    std::string work = text.substr(empty.size());
    if (sealed(key, work) != text) return std::nullopt;
    const std::lock_guard<std::mutex> lock(mutex_);
    used_.insert(name);
    ++taken_;
    return work;
}

void KeptWork::keep(const std::string& key, const std::string& work) {
    const std::string name = mark_of(key);
    write_file(folder_ / name, sealed(key, work));
    const std::lock_guard<std::mutex> lock(mutex_);
    used_.insert(name);
}

void KeptWork::drop_others() {
    std::vector<std::filesystem::path> others;
    for (const auto& entry : std::filesystem::directory_iterator(folder_)) {
        if (used_.count(entry.path().filename().string()) == 0) others.push_back(entry.path());
    }
    std::error_code ignored;
    for (const std::filesystem::path& other : others) std::filesystem::remove(other, ignored);
}

}  // namespace podrate::sim
