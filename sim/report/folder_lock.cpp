#include "report/folder_lock.hpp"

#include <fcntl.h>
#include <sys/file.h>

#include <cerrno>

#include "log/problem.hpp"
#include "report/output_file.hpp"

namespace podrate::sim {

Descriptor hold_folder(const std::filesystem::path& folder) {
    make_folder(folder);
    Descriptor held(open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    // Some network disks know no locks: there nothing is refused.
    if (held.number() >= 0 && flock(held.number(), LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK) {
        throw RefusedInput({folder.string(), 0, "is in use by another run of podrate",
                            "wait until it has ended, or give another folder"});
    }
    return held;
}

}  // namespace podrate::sim
