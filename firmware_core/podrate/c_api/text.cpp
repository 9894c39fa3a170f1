// Codes and names as text.
#include "podrate/c_api/held.hpp"
#include "podrate/version.hpp"

namespace podrate::c_api {

podrate_status status_of(TimeVerdict verdict) {
    switch (verdict) {
        case TimeVerdict::good: return PODRATE_OK;
        case TimeVerdict::out_of_range: return PODRATE_OUT_OF_RANGE;
        case TimeVerdict::back: return PODRATE_TIME_BACK;
        case TimeVerdict::far_ahead: return PODRATE_TIME_AHEAD;
        case TimeVerdict::too_many: return PODRATE_TOO_MANY;
    }
    return PODRATE_OUT_OF_RANGE;
}

podrate_status status_of(FeedResult result) {
    switch (result) {
        case FeedResult::taken: return PODRATE_OK;
        case FeedResult::not_finite: return PODRATE_NOT_FINITE;
        case FeedResult::out_of_range: return PODRATE_OUT_OF_RANGE;
        case FeedResult::time_back: return PODRATE_TIME_BACK;
        case FeedResult::no_such_place: return PODRATE_NO_SUCH_PLACE;
    }
    return PODRATE_OUT_OF_RANGE;
}

}  // namespace podrate::c_api

extern "C" {

const char* podrate_version(void) {
    return podrate::kVersion;
}

const char* podrate_text(podrate_status status) {
    switch (status) {
        case PODRATE_OK: return "good";
        case PODRATE_NULL_POINTER: return "a pointer is null";
        case PODRATE_NOT_INITIALISED: return "the storage was never initialised, or was moved";
        case PODRATE_BAD_PARAMETER: return "a parameter is outside its range";
        case PODRATE_NO_SUCH: return "there is nothing of that name or number";
        case PODRATE_NOT_FINITE: return "a value is not a finite number";
        case PODRATE_OUT_OF_RANGE: return "a value or a time is outside its range";
        case PODRATE_TIME_BACK: return "the time is before the newest one taken";
        case PODRATE_TIME_AHEAD: return "the time is far ahead, and no other confirms it yet";
        case PODRATE_TOO_MANY: return "too many samples of that channel within a second";
        case PODRATE_NO_SUCH_PLACE: return "no crop was cut at that time, or too long ago";
        case PODRATE_TOO_LATE: return "a sample has been taken already";
        case PODRATE_NOT_YET: return "that is not known yet";
        case PODRATE_NO_ROOM: return "the buffer is too small";
        case PODRATE_NOTHING_KEPT: return "nothing is kept";
        case PODRATE_DAMAGED: return "what is kept is damaged";
        case PODRATE_OTHER_VERSION: return "what is kept is of another version";
        case PODRATE_LEARNT_DROPPED:
            return "the totals go on, but what was learnt belongs to other parameters";
        case PODRATE_FLASH_FAILED: return "the flash failed";
        case PODRATE_BAD_FLASH: return "the description of the flash cannot be right";
        default: return "unknown code";
    }
}

const char* podrate_state_name(uint32_t state) {
    return state < podrate::kWorkStates ? podrate::name_of(static_cast<podrate::WorkState>(state)) : "";
}

const char* podrate_fault_name(uint32_t index) {
    return index < podrate::kFaults ? podrate::name_of_fault(static_cast<int>(index)) : "";
}

const char* podrate_alarm_name(uint32_t alarm) {
    return alarm < podrate::kAlarms ? podrate::name_of(static_cast<podrate::AlarmId>(alarm)) : "";
}

}  // extern "C"
