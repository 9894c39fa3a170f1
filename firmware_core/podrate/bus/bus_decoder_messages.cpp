// What each message gives the decoder.
#include "podrate/bus/bus_decoder.hpp"
#include "podrate/bus/machine_messages.hpp"
#include "podrate/bus/numbers.hpp"
#include "podrate/math/elementary.hpp"

namespace podrate::bus {
namespace {

constexpr int kWholeTurn = 360 * 128;  // 1/128 of a degree

FrameResult why_not(const Field& field) {
    return field.told == Told::undefined ? FrameResult::out_of_range : FrameResult::not_available;
}

// In double and then narrowed: the float nearest to what was told.
float scaled(const Field& field, double per_unit, double from = 0.0) {
    return static_cast<float>(static_cast<double>(field.raw) / per_unit + from);
}

constexpr double kDegreesPerRad = 57.295779513082320877;
constexpr std::int64_t kFullTurn = 62832;  // 1e-4 rad

float degrees(const Field& angle) {
    return static_cast<float>(static_cast<double>(angle.raw) * (1e-4 * kDegreesPerRad));
}

// 1e-16 degrees to 1e-7, to the nearest
std::int64_t e7_of(std::int64_t e16) {
    constexpr std::int64_t kStep = 1000000000;
    return (e16 + (e16 < 0 ? -kStep / 2 : kStep / 2)) / kStep;
}

}  // namespace

FrameResult BusDecoder::take_machine_speed(int kind, const std::uint8_t (&data)[8]) {
    const MachineSpeed told = machine_speed(data);
    if (!told.speed.good()) return why_not(told.speed);
    return give(speed, kind, speed_sample(now_us_, scaled(told.speed, 1000.0)));
}

FrameResult BusDecoder::take_vehicle_direction(const std::uint8_t (&data)[8]) {
    const VehicleDirection told = vehicle_direction(data);
    const float speed_mps = scaled(told.speed, 256.0 * 3.6);
    FrameResult result = why_not(told.speed);
    if (told.speed.good()) result = give(speed, 3, speed_sample(now_us_, speed_mps));
    if (told.heading.good()) {
        const bool moving = !told.speed.good() || speed_mps >= kLeastCourseMps;
        const bool round = told.heading.raw <= kWholeTurn;
        FrameResult turn = round ? FrameResult::not_available : FrameResult::out_of_range;
        if (moving && round) turn = give(heading, 1, heading_sample(now_us_, scaled(told.heading, 128.0)));
        result = better(result, turn);
    } else {
        result = better(result, why_not(told.heading));
    }
    // No roll in this one: taken as level, which is nearer than no tilt at all.
    const FrameResult lean =
        told.pitch.good() ? give(tilt, 2, tilt_sample(now_us_, scaled(told.pitch, 128.0, -200.0), 0.0F))
                          : why_not(told.pitch);
    return better(result, lean);
}

FrameResult BusDecoder::take_slope(const std::uint8_t (&data)[8]) {
    const Slope told = slope(data);
    if (!told.pitch.good()) return why_not(told.pitch);
    if (!told.roll.good()) return why_not(told.roll);
    return give(
        tilt, 1,
        tilt_sample(now_us_, scaled(told.pitch, 32768.0, -250.0), scaled(told.roll, 32768.0, -250.0)));
}

FrameResult BusDecoder::take_attitude(const std::uint8_t (&data)[8]) {
    const Attitude told = attitude(data);
    if (!told.pitch.good()) return why_not(told.pitch);
    if (!told.roll.good()) return why_not(told.roll);
    return give(tilt, 0, tilt_sample(now_us_, degrees(told.pitch), degrees(told.roll)));
}

FrameResult BusDecoder::give_place(int kind, std::int64_t lat_e7, std::int64_t lon_e7) {
    if (lat_e7 == 0 && lon_e7 == 0)
        return FrameResult::not_available;  // what some write while they have no fix
    // One that does not fit 32 bits is on no globe either.
    constexpr std::int64_t kOff = 2000000000;
    const auto lat = static_cast<std::int32_t>(math::clamp(lat_e7, -kOff, kOff));
    const auto lon = static_cast<std::int32_t>(math::clamp(lon_e7, -kOff, kOff));
    return give(position, kind, position_sample(now_us_, lat, lon));
}

FrameResult BusDecoder::take_position(const std::uint8_t (&data)[8]) {
    const Place told = position_rapid(data);
    if (!told.lat.good()) return why_not(told.lat);
    if (!told.lon.good()) return why_not(told.lon);
    return give_place(0, told.lat.raw, told.lon.raw);
}

// A course without its speed is taken: whoever sends it so has his own idea of when it means anything. From
// magnetic north it would be some degrees off, by place and year.
FrameResult BusDecoder::take_course(const std::uint8_t (&data)[8]) {
    const CourseSpeed told = course_speed(data);
    const float speed_mps = scaled(told.speed, 100.0);
    const FrameResult pace =
        told.speed.good() ? give(speed, 2, speed_sample(now_us_, speed_mps)) : why_not(told.speed);
    if (!told.course.good()) return better(pace, why_not(told.course));
    if (told.course.raw > kFullTurn) return better(pace, FrameResult::out_of_range);
    const bool moving = !told.speed.good() || speed_mps >= kLeastCourseMps;
    if (!moving || !told.from_true_north) return better(pace, FrameResult::not_available);
    // The last count of a turn is a hair more than 360.
    const float course_deg = math::clamp(degrees(told.course), 0.0F, 360.0F);
    return better(pace, give(heading, 0, heading_sample(now_us_, course_deg)));
}

FrameResult BusDecoder::take_gnss(std::uint8_t source, const std::uint8_t (&data)[8]) {
    if (!fast_.add(now_us_, source, pgn::kGnssPosition, data)) return FrameResult::incomplete;
    if (fast_.length() < kGnssBytes) return FrameResult::malformed;
    const GnssPosition told = gnss_position(fast_.bytes());
    if (!told.fix) return FrameResult::not_available;
    const FrameResult time = take_utc(0, told.at);
    if (!told.place.lat.good()) return better(time, why_not(told.place.lat));
    if (!told.place.lon.good()) return better(time, why_not(told.place.lon));
    return better(time, give_place(1, e7_of(told.place.lat.raw), e7_of(told.place.lon.raw)));
}

FrameResult BusDecoder::take_utc(int kind, const DateTime& at) {
    if (!at.days.good()) return why_not(at.days);
    if (!at.time.good()) return why_not(at.time);
    TimeUs utc_us = 0;
    if (!utc_of(at, utc_us)) return FrameResult::out_of_range;
    const auto heard = choices_[utc].hear(now_us_, sender_, static_cast<std::uint8_t>(kind));
    if (heard == SenderChoice::Heard::other) return FrameResult::other_sender;
    utc_.tell(now_us_, utc_us);
    return FrameResult::taken;
}

// ISO 11783-10: a nibble of command and one of the element's low bits, the element's high byte, the entry of
// the dictionary, the value.
FrameResult BusDecoder::take_process_data(const std::uint8_t (&data)[8]) {
    constexpr unsigned kValue = 3;
    if ((data[0] & 0xFU) != kValue) return FrameResult::not_ours;
    const int element = (data[0] >> 4) | (data[1] << 4);
    const auto entry = static_cast<std::uint16_t>(bytes_at(data + 2, 2));
    const std::int64_t value = signed_bytes_at(data + 4, 4);
    if (entry == ddi::kMassContent) return take_weight(element, value);
    if (entry != ddi::kWorkState || element != settings_.reel_element) return FrameResult::not_ours;
    if (value == 2 || value == 3) return FrameResult::not_available;
    if (value != 0 && value != 1) return FrameResult::out_of_range;
    return give(reel, 0, reel_sample(now_us_, value == 1));
}

FrameResult BusDecoder::take_weight(int element, std::int64_t mass_g) {
    const auto kg = static_cast<float>(static_cast<double>(mass_g) / 1000.0);
    const Sample whole = weight_sample(now_us_, kg);
    const int cell = element - settings_.first_cell_element;
    if (element == settings_.hopper_element) return give(weight, 1, whole);
    if (cell < 0 || cell >= CellRound::kMost) return FrameResult::not_ours;
    if (check(whole) != FeedResult::taken) return FrameResult::out_of_range;
    if (!cells_.belongs(now_us_, sender_, choices_[weight].preferred())) return FrameResult::other_sender;
    if (!cells_.add(now_us_, cell, kg)) return FrameResult::incomplete;
    return give(weight, 0, cells_.weight(now_us_));
}

FrameResult BusDecoder::take_hits(const std::uint8_t (&data)[8]) {
    const Hits told = hits(data);
    if (!told.ours) return FrameResult::not_ours;
    if (!told.count.good() && !told.drum.good()) return better(why_not(told.count), why_not(told.drum));
    const auto heard = choices_[hit].hear(now_us_, sender_, 0);
    if (heard == SenderChoice::Heard::other) return FrameResult::other_sender;
    if (heard == SenderChoice::Heard::newly_chosen) hits_.reset();
    if (told.drum.good()) drum_ = {true, scaled(told.drum, 8.0), now_us_};
    if (!told.count.good()) return FrameResult::taken;
    samples_[count_] = hits_sample(now_us_, hits_.add(now_us_, static_cast<std::uint32_t>(told.count.raw)));
    ++count_;
    return FrameResult::taken;
}

}  // namespace podrate::bus
