// The fields of a sentence of NMEA 0183, and the numbers in them: by whole digits, no locale, no rounding on
// the way.
#pragma once

#include <cstdint>

namespace podrate::bus {

struct NmeaField {
    const char* text = nullptr;
    int length = 0;
    [[nodiscard]] bool empty() const { return length == 0; }
    [[nodiscard]] bool is(char letter) const { return length == 1 && text[0] == letter; }
};

class NmeaFields {
  public:
    static constexpr int kMost = 20;  // of more the rest is left out

    NmeaFields(const char* text, int length);

    // An empty one beyond the last; 0 is the sentence's name.
    [[nodiscard]] NmeaField operator[](int index) const {
        return index >= 0 && index < count_ ? fields_[index] : NmeaField{};
    }

  private:
    NmeaField fields_[kMost];
    int count_ = 0;
};

// Digits, at most one point among them: times 10^places, cut after them. False where there is anything else,
// no digit at all, or more than 9 before the point. places: 0 to 9.
bool decimal(const NmeaField& field, int places, std::int64_t& value);

// ddmm.mmmm or dddmm.mmmm with its hemisphere, `plus` or `minus`, as 1e-7 degrees to the nearest. False
// where it is none.
bool angle_e7(const NmeaField& field, const NmeaField& hemisphere, char plus, char minus, std::int32_t& e7);

// hhmmss.sss as microseconds of the day; the second 60 is a leap second.
bool day_time_us(const NmeaField& field, std::int64_t& time_us);

// ddmmyy as days since 1970; years from 80 on are of the last century.
bool days_of_date(const NmeaField& field, std::int64_t& days);

}  // namespace podrate::bus
