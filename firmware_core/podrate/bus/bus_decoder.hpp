// From frames on the bus to samples for the estimator. No heap; the same frames give the same samples.
#pragma once

#include <cstdint>

#include "podrate/bus/address_book.hpp"
#include "podrate/bus/can_frame.hpp"
#include "podrate/bus/cell_round.hpp"
#include "podrate/bus/fast_packet.hpp"
#include "podrate/bus/frame_result.hpp"
#include "podrate/bus/hit_counter.hpp"
#include "podrate/bus/nmea2000_messages.hpp"
#include "podrate/bus/sender_choice.hpp"
#include "podrate/bus/utc.hpp"
#include "podrate/sample.hpp"

namespace podrate::bus {

// Which of several senders and messages is listened to. An address stands for the device that claims it: its
// NAME is followed to another address.
struct BusSettings {
    std::uint8_t speed_from = 0xFF;     // source address; 0xFF: whoever is best and not silent
    std::uint8_t position_from = 0xFF;  // for the time of day too
    std::uint8_t tilt_from = 0xFF;
    std::uint8_t weight_from = 0xFF;
    std::uint8_t heading_from = 0xFF;
    std::uint8_t reel_from = 0xFF;
    std::uint8_t hits_from = 0xFF;

    // Elements of the weighing and working device, ISO 11783-10, 0 to 4095; 0 is the device as a whole.
    std::uint16_t hopper_element = 0;      // the hopper's weight
    std::uint16_t first_cell_element = 1;  // cells of the scale have this one and the next three
    std::uint8_t cells = 0;                // 1 to 4; 0: as many as are heard in the first second
    std::uint16_t reel_element = 0;        // the work state that tells of the reel
};

struct DrumSpeed {
    bool known = false;
    float rpm = 0.0F;  // up to 8,031.875
    TimeUs time_us = 0;
};

// What is told by which message, the best first:
//   speed     65097 ground-based, 65096 wheel-based, 129026, 65256      position  129025, 129029
//   heading   129026, 65256; not below kLeastCourseMps                  tilt      127257, 61481, 65256
//   (pitch) weight    process data 75 of cells, of the hopper                   reel      process data 141
//   hits      our own message (machine_messages.hpp)                    UTC       129029, 126992, 129033
// 1,232 bytes of state.
class BusDecoder {
  public:
    static constexpr int kMostSamples = 4;     // from one frame
    static constexpr TimeUs kRepeatUs = 2000;  // the same frame within that is an echo, not news

    explicit BusDecoder(const BusSettings& settings = {});

    FrameResult take(const CanFrame& frame);

    // What the newest frame gave.
    [[nodiscard]] int sample_count() const { return count_; }
    // index: 0 to sample_count() - 1
    [[nodiscard]] const Sample& sample(int index) const { return samples_[index & (kMostSamples - 1)]; }

    [[nodiscard]] const UtcOffset& utc_offset() const { return utc_.offset(); }
    [[nodiscard]] const DrumSpeed& drum() const { return drum_; }

  private:
    enum Quantity : std::uint8_t { speed, position, heading, tilt, weight, reel, hit, utc };
    static constexpr int kQuantities = 8;

    FrameResult give(Quantity quantity, int kind, const Sample& sample);
    FrameResult give_place(int kind, std::int64_t lat_e7, std::int64_t lon_e7);
    FrameResult take_message(std::uint32_t pgn, std::uint8_t source, const std::uint8_t (&data)[8]);
    FrameResult take_claim(std::uint8_t source, const std::uint8_t (&data)[8]);
    FrameResult take_machine_speed(int kind, const std::uint8_t (&data)[8]);
    FrameResult take_vehicle_direction(const std::uint8_t (&data)[8]);
    FrameResult take_slope(const std::uint8_t (&data)[8]);
    FrameResult take_attitude(const std::uint8_t (&data)[8]);
    FrameResult take_position(const std::uint8_t (&data)[8]);
    FrameResult take_course(const std::uint8_t (&data)[8]);
    FrameResult take_gnss(std::uint8_t source, const std::uint8_t (&data)[8]);
    FrameResult take_utc(int kind, const DateTime& at);
    FrameResult take_process_data(const std::uint8_t (&data)[8]);
    FrameResult take_weight(int element, std::int64_t mass_g);
    FrameResult take_hits(const std::uint8_t (&data)[8]);
    [[nodiscard]] bool echoed(const CanFrame& frame) const;

    BusSettings settings_;
    Sample samples_[kMostSamples];
    SenderChoice choices_[kQuantities];
    AddressBook book_;
    FastPackets fast_;
    CellRound cells_;
    HitCounter hits_;
    UtcClock utc_;
    DrumSpeed drum_;
    CanFrame last_;  // the newest that was ours
    TimeUs now_us_ = 0;
    SenderKey sender_ = kNoSender;  // of the frame at hand
    std::uint8_t count_ = 0;
    bool any_ = false;
    bool any_ours_ = false;
};

}  // namespace podrate::bus
