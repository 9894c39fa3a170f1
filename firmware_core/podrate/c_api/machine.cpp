// A machine: begun, fed, moved on; its alarms by hand.
#include "podrate/c_api/held.hpp"
#include "podrate/c_api/parameter_block.hpp"

using namespace podrate;

namespace {

bool is_time(std::int64_t time_us) {
    return time_us >= 0 && time_us <= kLatestUs;
}

Sample sample_of(const podrate_sample& from) {
    Sample sample;
    sample.time_us = from.time_us;
    sample.channel = static_cast<Channel>(from.channel);
    sample.count = from.count;
    for (int i = 0; i < 4; ++i) sample.value[i] = from.value[i];
    sample.lat_e7 = from.lat_e7;
    sample.lon_e7 = from.lon_e7;
    sample.about_us = from.about_us;
    return sample;
}

podrate_status check_alarm(const podrate_machine* machine, std::uint32_t alarm) {
    const podrate_status status = c_api::check(machine);
    if (status != PODRATE_OK) return status;
    return alarm < kAlarms ? PODRATE_OK : PODRATE_NO_SUCH;
}

constexpr float kLongestTakenS = 43200.0F;

}  // namespace

extern "C" {

podrate_status podrate_init(podrate_machine* machine, const podrate_parameters* parameters, int64_t now_us) {
    if (machine == nullptr) return PODRATE_NULL_POINTER;
    const podrate_status status = podrate_check_parameters(parameters, nullptr);
    if (status != PODRATE_OK) return status;
    if (!is_time(now_us)) return PODRATE_OUT_OF_RANGE;
    c_api::hold(machine, c_api::parameters_of(*parameters), TimeUs{now_us});
    return PODRATE_OK;
}

podrate_status podrate_feed(podrate_machine* machine, const podrate_sample* sample) {
    const podrate_status status = c_api::check(machine);
    if (status != PODRATE_OK) return status;
    if (sample == nullptr) return PODRATE_NULL_POINTER;
    if (sample->channel > static_cast<unsigned>(Channel::tray)) return PODRATE_NO_SUCH;
    const Sample typed = sample_of(*sample);
    if (typed.channel == Channel::tray && !is_time(typed.about_us)) return PODRATE_OUT_OF_RANGE;
    // A sample that is no good must not move the time either.
    const FeedResult value = podrate::check(typed);
    if (value != FeedResult::taken) return c_api::status_of(value);
    c_api::Machine& inside = c_api::held(machine);
    const TimeVerdict time = inside.gate.judge(typed.time_us, typed.channel);
    if (time != TimeVerdict::good) return c_api::status_of(time);
    return c_api::status_of(inside.estimator.feed(typed));
}

podrate_status podrate_step(podrate_machine* machine, int64_t now_us) {
    const podrate_status status = c_api::check(machine);
    if (status != PODRATE_OK) return status;
    c_api::Machine& inside = c_api::held(machine);
    const TimeVerdict time = inside.gate.judge(now_us);
    if (time != TimeVerdict::good) return c_api::status_of(time);
    return c_api::status_of(inside.estimator.step(now_us));
}

podrate_status podrate_acknowledge(podrate_machine* machine, uint32_t alarm) {
    const podrate_status status = check_alarm(machine, alarm);
    if (status == PODRATE_OK) c_api::held(machine).estimator.acknowledge(static_cast<AlarmId>(alarm));
    return status;
}

podrate_status podrate_shelve(podrate_machine* machine, uint32_t alarm, float for_s) {
    const podrate_status status = check_alarm(machine, alarm);
    if (status != PODRATE_OK) return status;
    if (!(for_s > 0.0F && for_s <= kLongestTakenS)) return PODRATE_OUT_OF_RANGE;
    c_api::held(machine).estimator.shelve(static_cast<AlarmId>(alarm), static_cast<Real>(for_s));
    return PODRATE_OK;
}

podrate_status podrate_unshelve(podrate_machine* machine, uint32_t alarm) {
    const podrate_status status = check_alarm(machine, alarm);
    if (status == PODRATE_OK) c_api::held(machine).estimator.unshelve(static_cast<AlarmId>(alarm));
    return status;
}

}  // extern "C"
