#include "podrate/bus/nmea_fields.hpp"

#include "podrate/bus/utc.hpp"

namespace podrate::bus {

NmeaFields::NmeaFields(const char* text, int length) {
    int from = 0;
    for (int i = 0; i <= length && count_ < kMost; ++i) {
        if (i < length && text[i] != ',') continue;
        fields_[count_] = {text + from, i - from};
        ++count_;
        from = i + 1;
    }
}

bool decimal(const NmeaField& field, int places, std::int64_t& value) {
    std::int64_t digits = 0;
    int whole = 0;
    int behind = -1;  // digits behind the point, once there is one
    for (int i = 0; i < field.length; ++i) {
        const char c = field.text[i];
        if (c == '.' && behind < 0) {
            behind = 0;
            continue;
        }
        if (c < '0' || c > '9') return false;
        if (behind >= places) continue;
        digits = digits * 10 + (c - '0');
        if (behind >= 0) {
            ++behind;
        } else if (++whole > 9) {
            return false;
        }
    }
    if (whole == 0 && behind <= 0) return false;
    for (int i = behind < 0 ? 0 : behind; i < places; ++i) digits *= 10;
    value = digits;
    return true;
}

bool angle_e7(const NmeaField& field, const NmeaField& hemisphere, char plus, char minus, std::int32_t& e7) {
    constexpr std::int64_t kDegree = 100000000000;  // a hundred minutes of 1e-9, as it is written
    constexpr std::int64_t kMinute = kDegree / 100;
    std::int64_t written = 0;
    if (!decimal(field, 9, written)) return false;
    const std::int64_t minutes = written % kDegree;
    const std::int64_t degrees = written / kDegree;
    if (minutes >= 60 * kMinute || degrees > 180) return false;
    if (!hemisphere.is(plus) && !hemisphere.is(minus)) return false;
    const std::int64_t size = degrees * 10000000 + (minutes + 3000) / 6000;
    e7 = static_cast<std::int32_t>(hemisphere.is(minus) ? -size : size);
    return true;
}

bool day_time_us(const NmeaField& field, std::int64_t& time_us) {
    std::int64_t written = 0;
    if (!decimal(field, 6, written)) return false;
    const std::int64_t of_minute_us = written % (100 * kSecondUs);
    const std::int64_t minutes = written / (100 * kSecondUs) % 100;
    const std::int64_t hours = written / (10000 * kSecondUs);
    if (hours > 23 || minutes > 59 || of_minute_us >= 61 * kSecondUs) return false;
    time_us = (hours * 60 + minutes) * 60 * kSecondUs + of_minute_us;
    return true;
}

bool days_of_date(const NmeaField& field, std::int64_t& days) {
    std::int64_t written = 0;
    if (field.length != 6 || !decimal(field, 0, written)) return false;
    const int year = static_cast<int>(written % 100);
    days = days_of(year + (year < 80 ? 2000 : 1900), static_cast<int>(written / 100 % 100),
                   static_cast<int>(written / 10000));
    return days >= 0;
}

}  // namespace podrate::bus
