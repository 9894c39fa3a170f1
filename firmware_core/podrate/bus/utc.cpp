#include "podrate/bus/utc.hpp"

namespace podrate::bus {

void UtcClock::tell(TimeUs time_us, TimeUs utc_us) {
    const TimeUs offset_us = utc_us - time_us;
    const TimeUs leap_us = offset_us - offset_.offset_us;
    if (offset_.known && (leap_us > kStepUs || leap_us < -kStepUs) && offset_.steps < 0xFFFF) ++offset_.steps;
    offset_.known = true;
    offset_.offset_us = offset_us;
    offset_.told_us = time_us;
}

std::int64_t days_of(int year, int month, int day) {
    if (year < 1970 || year > 2100 || month < 1 || month > 12 || day < 1) return -1;
    constexpr int kBefore[13] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365};
    const bool leap = year % 4 == 0 && year != 2100;
    const int in_month = kBefore[month] - kBefore[month - 1] + (leap && month == 2 ? 1 : 0);
    if (day > in_month) return -1;
    const int leap_days = (year - 1969) / 4;  // of the years before; 2000 was one, 2100 comes after all
    return 365 * (year - 1970) + leap_days + kBefore[month - 1] + (leap && month > 2 ? 1 : 0) + day - 1;
}

}  // namespace podrate::bus
