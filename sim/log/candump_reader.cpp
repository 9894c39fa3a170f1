#include "log/candump_reader.hpp"

#include <algorithm>
#include <utility>

#include "log/csv_record.hpp"

namespace podrate::sim {
namespace {

constexpr const char* kRecordAbsolute = "record it with candump -l, or with -t a";
constexpr std::size_t kMostInterfaces = 16;
constexpr std::uint8_t kWholeFrame = 8;

std::string listed(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
    return text;
}

}  // namespace

CandumpReader::CandumpReader(const std::filesystem::path& path, std::string interface, Problems& problems)
    : InOrder(path.string(), "frame", problems), lines_(open_bytes(path)), interface_(std::move(interface)) {
    has_first_ = next_parsed(first_);
    if (frames_ > 0) return;
    const std::string trouble = lines_.source().trouble();
    if (rows_read_ == 0) {
        throw RefusedInput({file(), 0, trouble.empty() ? "is empty" : trouble, kRecordAbsolute});
    }
    if (error_frames_ > rows_bad_) {
        throw RefusedInput({file(), 0, "holds error frames but no other: nobody was heard",
                            "check bit rate, plugs and the bus's two resistors, and record again"});
    }
    throw RefusedInput({file(), 0, "holds no CAN frame as candump writes it", kRecordAbsolute});
}

void CandumpReader::bad(std::uint64_t line, const std::string& reason, const std::string& mend) {
    ++rows_bad_;
    problems().add({file(), line, reason, mend});
}

void CandumpReader::note(const std::string& reason, const std::string& mend) {
    problems().add({file(), 0, reason, mend, true});
}

bool CandumpReader::of_interface(const CandumpLine& parsed, std::uint64_t line) {
    if (seen_.size() < kMostInterfaces &&
        std::find(seen_.begin(), seen_.end(), parsed.interface) == seen_.end()) {
        seen_.emplace_back(shortened(parsed.interface));
        if (seen_.size() == 2 && interface_.empty()) {
            problems().add({file(), line,
                            "holds frames of several interfaces, " + listed(seen_) + ": all are taken",
                            "name one as can_interface of that [[machine]] where others disturb", true});
        }
    }
    return interface_.empty() || parsed.interface == interface_;
}

bool CandumpReader::take(const Line& line, StampedFrame& row) {
    const CandumpLine parsed = parse_candump(line.text);
    switch (parsed.kind) {
        case CandumpKind::blank: --rows_read_; return false;
        case CandumpKind::can_fd: ++fd_frames_; return false;
        case CandumpKind::error_frame: ++error_frames_; return false;
        case CandumpKind::bad:
            bad(line.number,
                "line can't be read: " + std::string(parsed.fault) + ", '" + shortened(line.text) + "'",
                "line skipped");
            return false;
        case CandumpKind::frame: break;
    }
    if (parsed.stamp != CandumpStamp::absolute) {
        const char* reason = parsed.stamp == CandumpStamp::none
                                 ? "the frame has no time stamp"
                                 : "the frame's time stamp does not count seconds since 1970";
        if (frames_ == 0) throw RefusedInput({file(), line.number, reason, kRecordAbsolute});
        bad(line.number, reason, "line skipped");
        return false;
    }
    if (!line.ended && parsed.frame.length < kWholeFrame) {
        bad(line.number, "line can't be read: the file ends in it", "line skipped");
        return false;
    }
    ++frames_;
    row = {line.number, parsed.frame.time_us, parsed.frame};
    return of_interface(parsed, line.number);
}

bool CandumpReader::next_parsed(StampedFrame& row) {
    if (has_first_) {
        has_first_ = false;
        row = first_;
        return true;
    }
    Line line;
    while (lines_.next(line)) {
        ++rows_read_;
        if (line.too_long) {
            bad(line.number, "line is longer than 1 MiB", "line skipped");
        } else if (take(line, row)) {
            return true;
        }
    }
    finish();
    return false;
}

void CandumpReader::finish() {
    if (finished_) return;
    finished_ = true;
    if (fd_frames_ > 0)
        note(std::to_string(fd_frames_) + " CAN FD frames passed over", "nothing that is used comes so");
    if (error_frames_ > 0) {
        note(std::to_string(error_frames_) + " lines of error frames passed over",
             "where they are many, check the bus's plugs and its two resistors");
    }
    if (frames_ > 0 && !interface_.empty() &&
        std::find(seen_.begin(), seen_.end(), interface_) == seen_.end()) {
        problems().add({file(), 0, "holds no frame of " + interface_ + " but of " + listed(seen_),
                        "mend can_interface (of that [[machine]], or --can-interface), or leave it out"});
    }
    const std::string trouble = lines_.source().trouble();
    if (trouble.empty()) return;
    problems().add(
        {file(), 0, trouble, "the frames before that point are used; copy the log anew if it matters"});
}

}  // namespace podrate::sim
