#include "parameters/lasting_file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <string>

#include "live/descriptor.hpp"
#include "log/problem.hpp"

namespace podrate::sim {
namespace {

bool written(int file, std::string_view text) {
    while (!text.empty()) {
        const ssize_t count = ::write(file, text.data(), text.size());
        if (count < 0 && errno == EINTR) continue;
        if (count <= 0) return false;
        text.remove_prefix(static_cast<std::size_t>(count));
    }
    return ::fsync(file) == 0;
}

// The name itself has to last, too. File systems that can't sync a folder say EINVAL.
bool folder_synced(const std::filesystem::path& folder) {
    const Descriptor open(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    return open.number() >= 0 && (::fsync(open.number()) == 0 || errno == EINVAL);
}

}  // namespace

void write_lasting(const std::filesystem::path& path, std::string_view text) {
    const std::string draft = path.string() + ".part";
    const auto fail = [&] {
        const std::string reason = std::strerror(errno);
        ::unlink(draft.c_str());
        throw RefusedInput({path.string(), 0, "can't be written: " + reason,
                            "check the folder, its permissions and the space left"});
    };
    constexpr mode_t kForAll = 0666;  // less the umask
    {
        const Descriptor file(::open(draft.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, kForAll));
        if (file.number() < 0 || !written(file.number(), text)) fail();
    }
    if (::rename(draft.c_str(), path.c_str()) != 0) fail();
    const std::filesystem::path folder = path.parent_path();
    if (!folder_synced(folder.empty() ? "." : folder)) fail();
}

}  // namespace podrate::sim
