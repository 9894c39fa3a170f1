#include "log/sample_row.hpp"

namespace podrate::sim {
namespace {

void begin(LogRow& row, TimeUs time_us, std::uint64_t line) {
    row = {};
    row.line = line;
    row.time_us = time_us;
    row.lone = true;
}

}  // namespace

const char* name_of(Channel channel) {
    switch (channel) {
        case Channel::weight: return "weight";
        case Channel::speed: return "speed";
        case Channel::tilt: return "tilt";
        case Channel::position: return "position";
        case Channel::heading: return "heading";
        case Channel::reel: return "reel_on";
        case Channel::hits: return "loss_hits";
        case Channel::tray: return "tray";
    }
    return "value";
}

void SampleRows::set(LogRow& row, Column column, double value) {
    row.has[static_cast<int>(column)] = true;
    row.value[static_cast<int>(column)] = value;
    seen_[static_cast<int>(column)] = true;
}

void SampleRows::fill(TimeUs time_us, Column column, double value, std::uint64_t line, LogRow& row) {
    begin(row, time_us, line);
    set(row, column, value);
}

void SampleRows::fill(const Sample& sample, std::uint64_t line, LogRow& row) {
    begin(row, sample.time_us, line);
    const auto value = static_cast<double>(sample.value[0]);
    switch (sample.channel) {
        case Channel::weight:
            if (sample.count == 1) return set(row, Column::hopper_kg, value);
            for (int i = 0; i < sample.count; ++i) {
                set(row, static_cast<Column>(static_cast<int>(Column::cell1_kg) + i),
                    static_cast<double>(sample.value[i]));
            }
            return;
        case Channel::speed: return set(row, Column::speed_mps, value);
        case Channel::tilt:
            set(row, Column::pitch_deg, value);
            return set(row, Column::roll_deg, static_cast<double>(sample.value[1]));
        case Channel::position:
            set(row, Column::lat_deg, static_cast<double>(sample.lat_e7) / 1e7);
            return set(row, Column::lon_deg, static_cast<double>(sample.lon_e7) / 1e7);
        case Channel::heading: return set(row, Column::heading_deg, value);
        case Channel::reel: return set(row, Column::reel_on, value);
        case Channel::hits: return set(row, Column::loss_hits, hits_ += value);
        case Channel::tray: return;  // counted by people: no log has it
    }
}

}  // namespace podrate::sim
