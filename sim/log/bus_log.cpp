#include "log/bus_log.hpp"

#include <cstdio>

namespace podrate::sim {
namespace {

std::string id_text(const bus::CanFrame& frame) {
    char text[12];
    std::snprintf(text, sizeof text, frame.extended ? "%08X" : "%03X", static_cast<unsigned>(frame.id));
    return text;
}

const char* name_of(Channel channel) {
    switch (channel) {
        case Channel::weight: return "weight";
        case Channel::speed: return "speed";
        case Channel::tilt: return "tilt";
        case Channel::position: return "position";
        case Channel::heading: return "heading";
        case Channel::reel: return "reel";
        case Channel::hits: return "hits";
        case Channel::tray: return "tray";
    }
    return "value";
}

}  // namespace

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

void BusLog::set(LogRow& row, Column column, double value) {
    row.has[static_cast<int>(column)] = true;
    row.value[static_cast<int>(column)] = value;
    seen_[static_cast<int>(column)] = true;
}

void BusLog::begin(LogRow& row, TimeUs time_us) const {
    row = {};
    row.line = frame_.line;
    row.time_us = time_us;
    row.lone = true;
}

void BusLog::fill(LogRow& row) {
    begin(row, sample_.time_us);
    const auto value = static_cast<double>(sample_.value[0]);
    switch (sample_.channel) {
        case Channel::weight:
            if (sample_.count == 1) return set(row, Column::hopper_kg, value);
            for (int i = 0; i < sample_.count; ++i) {
                set(row, static_cast<Column>(static_cast<int>(Column::cell1_kg) + i),
                    static_cast<double>(sample_.value[i]));
            }
            return;
        case Channel::speed: return set(row, Column::speed_mps, value);
        case Channel::tilt:
            set(row, Column::pitch_deg, value);
            return set(row, Column::roll_deg, static_cast<double>(sample_.value[1]));
        case Channel::position:
            set(row, Column::lat_deg, static_cast<double>(sample_.lat_e7) / 1e7);
            return set(row, Column::lon_deg, static_cast<double>(sample_.lon_e7) / 1e7);
        case Channel::heading: return set(row, Column::heading_deg, value);
        case Channel::reel: return set(row, Column::reel_on, value);
        case Channel::hits: return set(row, Column::loss_hits, hits_ += value);
        case Channel::tray: return;  // counted by people, not sent on a bus
    }
}

// The drum's speed is no sample: a row of its own, which feeds nothing.
bool BusLog::drum_told(LogRow& row) {
    const bus::DrumSpeed& drum = decoder_.drum();
    if (!drum.known || drum.time_us == drum_us_) return false;
    drum_us_ = drum.time_us;
    begin(row, drum.time_us);
    set(row, Column::drum_rpm, static_cast<double>(drum.rpm));
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
    fill(row);
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
