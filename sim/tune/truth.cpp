#include "tune/truth.hpp"

#include <algorithm>

namespace podrate::sim {

std::vector<AlarmSpan> joined(std::vector<AlarmSpan> spans) {
    std::sort(spans.begin(), spans.end(),
              [](const AlarmSpan& a, const AlarmSpan& b) { return a.start_unix_s < b.start_unix_s; });
    std::vector<AlarmSpan> whole;
    for (const AlarmSpan& span : spans) {
        if (!whole.empty() && span.start_unix_s <= whole.back().end_unix_s) {
            whole.back().end_unix_s = std::max(whole.back().end_unix_s, span.end_unix_s);
        } else {
            whole.push_back(span);
        }
    }
    return whole;
}

}  // namespace podrate::sim
