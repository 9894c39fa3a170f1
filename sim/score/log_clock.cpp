#include "score/log_clock.hpp"

#include <algorithm>

#include "score/true_faults.hpp"

namespace podrate::sim {
namespace {

constexpr double kSameS = 1e-6;

}  // namespace

LogClock::LogClock(const std::filesystem::path& day_folder, const std::string& machine) {
    for (const TrueFault& fault : read_true_faults(day_folder, machine)) {
        if (fault.kind == FaultKind::clock_jump) jumps_.push_back({fault.start_unix_s, fault.size});
    }
    std::sort(jumps_.begin(), jumps_.end(),
              [](const Jump& a, const Jump& b) { return a.at_unix_s < b.at_unix_s; });
}

// A clock put back says some times twice: the later rows are those that a reader refuses as going back.
double LogClock::true_unix_s(double log_unix_s) const {
    double off_s = 0.0;
    for (const Jump& jump : jumps_) {
        if (log_unix_s >= jump.at_unix_s + std::max(jump.by_s, off_s) - kSameS) off_s = jump.by_s;
    }
    return log_unix_s - off_s;
}

double LogClock::log_unix_s(double true_unix_s) const {
    double off_s = 0.0;
    for (const Jump& jump : jumps_) {
        if (true_unix_s >= jump.at_unix_s - kSameS) off_s = jump.by_s;
    }
    return true_unix_s + off_s;
}

}  // namespace podrate::sim
