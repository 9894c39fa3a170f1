#include "cli/tell_problems.hpp"

#include <spdlog/spdlog.h>

namespace podrate::sim {

void tell_problems(const Problems& problems) {
    for (const Problem& problem : problems.kept()) {
        if (problem.note) {
            spdlog::info("{}", to_text(problem));
        } else {
            spdlog::warn("{}", to_text(problem));
        }
    }
    const std::uint64_t untold = problems.count() - problems.kept().size();
    if (untold > 0) spdlog::warn("... and {} more of that log", untold);
}

}  // namespace podrate::sim
