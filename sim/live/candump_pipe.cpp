#include "live/candump_pipe.hpp"

#include <cerrno>

#include "live/can_error.hpp"
#include "log/candump_line.hpp"
#include "log/csv_record.hpp"
#include "log/problem.hpp"

namespace podrate::sim {
namespace {

constexpr std::size_t kLongestLine = 1024;
constexpr std::size_t kChunk = 16384;

}  // namespace

void CandumpPipe::bad(const std::string& reason, LiveTaker& to) const {
    to.take_bad(to_text({name_, line_, reason, "line skipped"}));
}

void CandumpPipe::take_line(std::string_view text, LiveTaker& to) {
    if (!text.empty() && text.back() == '\r') text.remove_suffix(1);
    const CandumpLine line = parse_candump(text);
    const bool ours = interface_.empty() || line.interface == interface_;
    if (line.kind == CandumpKind::frame && ours)
        to.take_frame(line.frame, line.stamp == CandumpStamp::absolute);
    if (line.kind == CandumpKind::bad)
        bad("line can't be read: " + std::string(line.fault) + ", '" + shortened(text) + "'", to);
    if (line.kind != CandumpKind::error_frame || !ours) return;
    if (const auto state = controller_told(line.frame.id, line.frame.data)) to.take_controller(*state);
}

bool CandumpPipe::read(LiveTaker& to) {
    char chunk[kChunk];
    const ssize_t got = ::read(pipe_.number(), chunk, sizeof chunk);
    if (got < 0) return errno == EINTR || errno == EAGAIN;
    if (got == 0) {
        if (!pending_.empty() && !passing_)
            bad("the input ends within a line, '" + shortened(pending_) + "'", to);
        return false;
    }
    std::string_view rest(chunk, static_cast<std::size_t>(got));
    for (std::size_t end = rest.find('\n'); end != std::string_view::npos; end = rest.find('\n')) {
        keep(rest.substr(0, end), to);
        rest.remove_prefix(end + 1);
        if (!passing_) take_line(pending_, to);
        pending_.clear();
        passing_ = false;
        ++line_;
    }
    keep(rest, to);
    return true;
}

// Of a line too long to be one no more than its beginning is kept.
void CandumpPipe::keep(std::string_view piece, LiveTaker& to) {
    if (passing_) return;
    pending_ += piece.substr(0, kLongestLine + 1);
    passing_ = pending_.size() > kLongestLine;
    if (passing_) bad("line is longer than 1 KiB, '" + shortened(pending_) + "'", to);
}

}  // namespace podrate::sim
