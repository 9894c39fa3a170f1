#include "log/bus_log.hpp"

namespace podrate::sim {

BusLog::BusLog(const std::filesystem::path& path, const BusChoice& bus, Problems& problems)
    : file_(path.string()),
      problems_(problems),
      reader_(path, bus.interface, problems),
      decoder_(bus.settings) {}

void BusLog::judge(bus::FrameResult result, const StampedFrame& frame) {
    const std::string which = "frame " + id_text(frame.frame);
    switch (result) {
        case bus::FrameResult::out_of_range:
            problems_.add({file_, frame.line, which + " holds a value that its message does not allow",
                           "that value left out; check the sender"});
            return;
        case bus::FrameResult::malformed:
            reader_.bad(frame.line, which + " is too short for its message, or no data", "frame skipped");
            return;
        case bus::FrameResult::other_sender: ++other_; return;
        case bus::FrameResult::taken:
        case bus::FrameResult::not_ours:
        case bus::FrameResult::not_available:
        case bus::FrameResult::incomplete:
        case bus::FrameResult::time_back:
        case bus::FrameResult::duplicate: return;
    }
}

// The drum's speed is no sample: a row of its own, which feeds nothing.
bool BusLog::drum_told(LogRow& row) {
    const bus::DrumSpeed& drum = decoder_.drum();
    if (!drum.known || drum.time_us == drum_us_) return false;
    drum_us_ = drum.time_us;
    rows_.fill(drum.time_us, Column::drum_rpm, static_cast<double>(drum.rpm), frame_.line, row);
    return true;
}

bool BusLog::next(LogRow& row) {
    has_sample_ = false;
    while (given_ == held_) {
        if (!reader_.next(frame_)) {
            finish();
            return false;
        }
        judge(decoder_.take(frame_.frame), frame_);
        given_ = 0;
        held_ = decoder_.sample_count();
        if (drum_told(row)) return true;
    }
    has_sample_ = true;
    sample_ = decoder_.sample(given_++);
    rows_.fill(sample_, frame_.line, row);
    return true;
}

void BusLog::feed(const LogRow& row, const SampleTaker& take) {
    if (!has_sample_ || take(sample_) == FeedResult::taken) return;
    problems_.add({file_, row.line,
                   std::string(name_of(sample_.channel)) + " is outside what a viner can show",
                   "that value left out"});
}

// Once, at the end.
void BusLog::finish() {
    if (other_ == 0) return;
    problems_.add({file_, 0,
                   std::to_string(other_) + " frames came from a second sender of the same quantity",
                   "the best one is listened to; choose another by weight_from, speed_from and so on of that "
                   "[[machine]]",
                   true});
    other_ = 0;
}

}  // namespace podrate::sim
