#include "podrate/bus/bus_encoder.hpp"

#include "podrate/bus/can_id.hpp"
#include "podrate/bus/fields.hpp"
#include "podrate/bus/machine_messages.hpp"
#include "podrate/bus/numbers.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate::bus {
namespace {

constexpr double kRawPerDegree = 1e4 * 0.017453292519943295769;
constexpr std::int64_t kMostTilt = 10471;  // 1e-4 rad: one more is beyond 60 degrees

// To the nearest; values have passed check(), so they fit.
std::int64_t rounded(double value) {
    return static_cast<std::int64_t>(value + (value < 0.0 ? -0.5 : 0.5));
}

std::uint64_t tilt_raw(float angle_deg) {
    const std::int64_t raw = rounded(static_cast<double>(angle_deg) * kRawPerDegree);
    return static_cast<std::uint64_t>(math::clamp(raw, -kMostTilt, kMostTilt));
}

}  // namespace

// A frame whose bytes are all "not available", and those.
std::uint8_t* BusEncoder::add(TimeUs time_us, std::uint32_t pgn, std::uint8_t priority) {
    CanFrame& frame = frames_[count_];
    ++count_;
    frame = CanFrame{};
    frame.time_us = time_us;
    frame.id = join({priority, pgn, kEverybody, settings_.source});
    frame.extended = true;
    frame.length = 8;
    for (std::uint8_t& byte : frame.data) byte = 0xFF;
    return frame.data;
}

void BusEncoder::add_process_data(TimeUs time_us, int element, std::uint16_t entry, std::int64_t value) {
    std::uint8_t* data = add(time_us, pgn::kProcessData, 3);
    constexpr int kValue = 3;
    data[0] = static_cast<std::uint8_t>(((element & 0xF) << 4) | kValue);
    data[1] = static_cast<std::uint8_t>((element >> 4) & 0xFF);
    put_bytes(data + 2, 2, entry);
    put_bytes(data + 4, 4, static_cast<std::uint64_t>(value));
}

int BusEncoder::encode(const Sample& sample) {
    count_ = 0;
    if (check(sample) != FeedResult::taken) return 0;
    const TimeUs at_us = sample.time_us;
    const auto value = static_cast<double>(sample.value[0]);
    switch (sample.channel) {
        case Channel::weight: {
            const int first = sample.count == 1 ? settings_.hopper_element : settings_.first_cell_element;
            for (int i = 0; i < sample.count; ++i) {
                const auto kg = static_cast<double>(sample.value[i]);
                add_process_data(at_us, first + i, ddi::kMassContent, rounded(kg * 1000.0));
            }
            break;
        }
        case Channel::speed: {
            std::uint8_t* data = add(at_us, pgn::kGroundSpeed, 3);
            put_bytes(data, 2, static_cast<std::uint64_t>(rounded(value * 1000.0)));
            data[7] = static_cast<std::uint8_t>(0xFC | static_cast<int>(Direction::forward));
            break;
        }
        case Channel::tilt: {
            std::uint8_t* data = add(at_us, pgn::kAttitude, 3);
            put_bytes(data + 1, 2, 0x7FFF);
            put_bytes(data + 3, 2, tilt_raw(sample.value[0]));
            put_bytes(data + 5, 2, tilt_raw(sample.value[1]));
            break;
        }
        case Channel::position: {
            std::uint8_t* data = add(at_us, pgn::kPositionRapid, 2);
            put_bytes(data, 4, static_cast<std::uint32_t>(sample.lat_e7));
            put_bytes(data + 4, 4, static_cast<std::uint32_t>(sample.lon_e7));
            break;
        }
        case Channel::heading: {
            std::uint8_t* data = add(at_us, pgn::kCourseSpeed, 2);
            data[1] = 0xFC;  // from true north
            put_bytes(
                data + 2, 2,
                static_cast<std::uint64_t>(rounded((value < 0.0 ? value + 360.0 : value) * kRawPerDegree)));
            break;
        }
        case Channel::reel:
            add_process_data(at_us, settings_.reel_element, ddi::kWorkState, value > 0.5 ? 1 : 0);
            break;
        case Channel::hits: {
            const std::uint64_t hits = hits_ + static_cast<std::uint64_t>(rounded(value));
            hits_ = static_cast<std::uint32_t>(hits % kHitsModulus);
            std::uint8_t* data = add(at_us, pgn::kHits, 6);
            put_bytes(data, 4, hits_);
            put_bytes(data + 6, 2, kHitsMark);
            break;
        }
        case Channel::tray: break;
    }
    return count_;
}

int BusEncoder::encode_drum(TimeUs time_us, float rpm) {
    count_ = 0;
    constexpr float kMostRpm = 8031.875F;
    if (!(rpm >= 0.0F && rpm <= kMostRpm)) return 0;
    std::uint8_t* data = add(time_us, pgn::kHits, 6);
    put_bytes(data + 4, 2, static_cast<std::uint64_t>(rounded(static_cast<double>(rpm) * 8.0)));
    put_bytes(data + 6, 2, kHitsMark);
    return count_;
}

int BusEncoder::encode_claim(TimeUs time_us, std::uint64_t name) {
    count_ = 0;
    put_bytes(add(time_us, pgn::kAddressClaim, 6), 8, name);
    return count_;
}

}  // namespace podrate::bus
