#include "podrate/bus/nmea_sentence.hpp"

namespace podrate::bus {
namespace {

// The mode at the end of newer sentences: autonomous, differential, precise, real-time kinematic fixed or
// float; older ones have none.
bool measured(const NmeaField& mode) {
    return mode.empty() || mode.is('A') || mode.is('D') || mode.is('P') || mode.is('R') || mode.is('F');
}

bool is_named(const NmeaField& name, const char (&what)[4]) {
    return name.text[2] == what[0] && name.text[3] == what[1] && name.text[4] == what[2];
}

}  // namespace

FrameResult NmeaDecoder::take(TimeUs time_us, std::uint8_t byte) {
    count_ = 0;
    if (!is_time(time_us)) return FrameResult::malformed;
    if (any_ && time_us < now_us_) return FrameResult::time_back;
    any_ = true;
    now_us_ = time_us;
    switch (line_.put(byte)) {
        case NmeaLine::Got::nothing: return FrameResult::incomplete;
        case NmeaLine::Got::broken: return FrameResult::malformed;
        case NmeaLine::Got::sentence: break;
    }
    return take_sentence(NmeaFields(line_.text(), line_.length()));
}

FrameResult NmeaDecoder::take_sentence(const NmeaFields& fields) {
    const NmeaField name = fields[0];
    // P begins a maker's own sentences, and some of those end like ours.
    if (name.length != 5 || name.text[0] == 'P') return FrameResult::not_ours;
    talker_ = static_cast<SenderKey>((name.text[0] << 8) | name.text[1]);
    if (is_named(name, "GGA")) return take_gga(fields);
    if (is_named(name, "RMC")) return take_rmc(fields);
    if (is_named(name, "VTG")) return take_vtg(fields);
    return FrameResult::not_ours;
}

FrameResult NmeaDecoder::give(SenderChoice& choice, int kind, const Sample& sample) {
    if (check(sample) != FeedResult::taken) return FrameResult::out_of_range;
    const auto heard = choice.hear(now_us_, talker_, static_cast<std::uint8_t>(kind));
    if (heard == SenderChoice::Heard::other) return FrameResult::other_sender;
    samples_[count_] = sample;
    ++count_;
    return FrameResult::taken;
}

// Latitude, N or S, longitude, E or W.
FrameResult NmeaDecoder::take_place(const NmeaFields& fields, int first, int kind) {
    if (fields[first].empty() || fields[first + 2].empty()) return FrameResult::not_available;
    std::int32_t lat_e7 = 0;
    std::int32_t lon_e7 = 0;
    const bool place = angle_e7(fields[first], fields[first + 1], 'N', 'S', lat_e7) &&
                       angle_e7(fields[first + 2], fields[first + 3], 'E', 'W', lon_e7);
    if (!place) return FrameResult::out_of_range;
    if (lat_e7 == 0 && lon_e7 == 0)
        return FrameResult::not_available;  // what some write while they have no fix
    return give(position_, kind, position_sample(now_us_, lat_e7, lon_e7));
}

FrameResult NmeaDecoder::take_course(const NmeaField& course, int kind, bool moving) {
    if (course.empty() || !moving) return FrameResult::not_available;
    std::int64_t course_e6 = 0;
    if (!decimal(course, 6, course_e6) || course_e6 > 360000000) return FrameResult::out_of_range;
    const auto course_deg = static_cast<float>(static_cast<double>(course_e6) / 1e6);
    return give(heading_, kind, heading_sample(now_us_, course_deg));
}

// Quality: 1 to 5 are measured, 0 is none, 6 dead reckoning, 7 typed in, 8 simulated.
FrameResult NmeaDecoder::take_gga(const NmeaFields& fields) {
    const NmeaField quality = fields[6];
    if (quality.length != 1 || quality.text[0] < '1' || quality.text[0] > '5')
        return FrameResult::not_available;
    return take_place(fields, 2, 0);
}

FrameResult NmeaDecoder::take_rmc(const NmeaFields& fields) {
    if (!fields[2].is('A') || !measured(fields[12])) return FrameResult::not_available;
    FrameResult result = take_place(fields, 3, 1);

    std::int64_t knots_e6 = 0;
    bool moving = false;
    if (fields[7].empty()) {
        result = better(result, FrameResult::not_available);
    } else if (!decimal(fields[7], 6, knots_e6)) {
        result = better(result, FrameResult::out_of_range);
    } else {
        const auto speed_mps = static_cast<float>(static_cast<double>(knots_e6) * 1852.0 / 3600e6);
        moving = speed_mps >= kLeastCourseMps;
        result = better(result, give(speed_, 0, speed_sample(now_us_, speed_mps)));
    }
    result = better(result, take_course(fields[8], 0, moving));

    if (fields[1].empty() || fields[9].empty()) return better(result, FrameResult::not_available);
    std::int64_t days = 0;
    std::int64_t time_us = 0;
    const bool dated = days_of_date(fields[9], days) && days >= kFirstDay;
    if (!dated || !day_time_us(fields[1], time_us)) return better(result, FrameResult::out_of_range);
    if (time_.hear(now_us_, talker_, 0) == SenderChoice::Heard::other)
        return better(result, FrameResult::other_sender);
    utc_.tell(now_us_, days * kDayUs + time_us);
    return FrameResult::taken;
}

FrameResult NmeaDecoder::take_vtg(const NmeaFields& fields) {
    if (!measured(fields[9])) return FrameResult::not_available;
    // In km/h one decimal tells more than in knots.
    const bool metric = !fields[7].empty() && fields[8].is('K');
    const NmeaField pace = metric ? fields[7] : fields[5];
    std::int64_t pace_e6 = 0;
    if (pace.empty() || (!metric && !fields[6].is('N'))) return FrameResult::not_available;
    if (!decimal(pace, 6, pace_e6)) return FrameResult::out_of_range;
    const double mps_e6 = static_cast<double>(pace_e6) * (metric ? 1000.0 : 1852.0) / 3600.0;
    const auto speed_mps = static_cast<float>(mps_e6 / 1e6);
    const FrameResult result = give(speed_, 1, speed_sample(now_us_, speed_mps));
    const NmeaField course = fields[2].is('T') ? fields[1] : NmeaField{};
    return better(result, take_course(course, 1, speed_mps >= kLeastCourseMps));
}

}  // namespace podrate::bus
