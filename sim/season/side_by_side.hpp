// Pieces of work done by several threads.
#pragma once

#include <cstddef>
#include <functional>

namespace podrate::sim {

// Calls `work` with 0 to `count` - 1, begun in that order; at_once 0: as many as there are processors.
// Throws what a piece threw, once all that were under way have ended; then no more are begun.
void side_by_side(std::size_t count, unsigned at_once, const std::function<void(std::size_t)>& work);

}  // namespace podrate::sim
