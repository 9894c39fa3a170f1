// The controller's clock and UTC.
#include "podrate/c_api/held.hpp"

using namespace podrate;

extern "C" {

podrate_status podrate_clock_init(podrate_clock* clock, int64_t start_us) {
    if (clock == nullptr) return PODRATE_NULL_POINTER;
    if (start_us < 0 || start_us > kLatestUs) return PODRATE_OUT_OF_RANGE;
    c_api::hold(clock, TimeUs{start_us});
    return PODRATE_OK;
}

podrate_status podrate_clock_count(podrate_clock* clock, uint32_t count_ms, int64_t* time_us) {
    const podrate_status status = c_api::check(clock);
    if (status != PODRATE_OK) return status;
    if (time_us == nullptr) return PODRATE_NULL_POINTER;
    *time_us = c_api::held(clock).count.at(count_ms);
    return PODRATE_OK;
}

podrate_status podrate_clock_told(podrate_clock* clock, int64_t time_us, int64_t utc_us) {
    const podrate_status status = c_api::check(clock);
    if (status != PODRATE_OK) return status;
    return c_api::held(clock).bridge.told(time_us, utc_us) ? PODRATE_OK : PODRATE_OUT_OF_RANGE;
}

podrate_status podrate_clock_utc(const podrate_clock* clock, int64_t time_us, int64_t* utc_us) {
    const podrate_status status = c_api::check(clock);
    if (status != PODRATE_OK) return status;
    if (utc_us == nullptr) return PODRATE_NULL_POINTER;
    TimeUs told_us = 0;
    if (!c_api::held(clock).bridge.utc_of(time_us, told_us)) return PODRATE_NOT_YET;
    *utc_us = told_us;
    return PODRATE_OK;
}

podrate_status podrate_clock_time(const podrate_clock* clock, int64_t utc_us, int64_t* time_us) {
    const podrate_status status = c_api::check(clock);
    if (status != PODRATE_OK) return status;
    if (time_us == nullptr) return PODRATE_NULL_POINTER;
    TimeUs told_us = 0;
    if (!c_api::held(clock).bridge.time_of(utc_us, told_us)) return PODRATE_NOT_YET;
    *time_us = told_us;
    return PODRATE_OK;
}

}  // extern "C"
