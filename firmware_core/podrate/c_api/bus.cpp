// Frames of a CAN bus and bytes of a receiver, through the C header.
#include "podrate/bus/can_id.hpp"
#include "podrate/c_api/held.hpp"

using namespace podrate;

namespace {

podrate_sample plain(const Sample& from) {
    podrate_sample sample = {};
    sample.time_us = from.time_us;
    sample.about_us = from.about_us;
    for (int i = 0; i < 4; ++i) sample.value[i] = from.value[i];
    sample.lat_e7 = from.lat_e7;
    sample.lon_e7 = from.lon_e7;
    sample.channel = static_cast<std::uint8_t>(from.channel);
    sample.count = from.count;
    return sample;
}

// An offset stays as it was while nobody tells the time: only what is news counts.
template <class Decoder>
void gather(const Decoder& decoder, const bus::UtcOffset& before, bus::FrameResult result, TimeUs time_us,
            podrate_heard& heard) {
    heard.result = static_cast<std::uint8_t>(result);
    heard.count = static_cast<std::uint8_t>(decoder.sample_count());
    for (int i = 0; i < decoder.sample_count(); ++i) heard.sample[i] = plain(decoder.sample(i));
    const bus::UtcOffset& now = decoder.utc_offset();
    if (!now.known || now.told_us != time_us) return;
    if (before.known && before.told_us == time_us && before.offset_us == now.offset_us) return;
    heard.utc_told = 1;
    heard.utc_us = time_us + now.offset_us;
}

podrate_status refuse(TimeVerdict time, podrate_heard& heard) {
    heard.result = PODRATE_REFUSED_TIME;
    return c_api::status_of(time);
}

bool is_address(std::uint8_t address) {
    return address == 0xFF || address < bus::kNobody;
}

bool is_element(std::uint16_t element) {
    return element <= 4095;
}

bool are_senders(const podrate_senders& s) {
    const std::uint8_t addresses[] = {s.speed_from,   s.position_from, s.tilt_from, s.weight_from,
                                      s.heading_from, s.reel_from,     s.hits_from};
    for (const std::uint8_t address : addresses) {
        if (!is_address(address)) return false;
    }
    return s.cells <= 4 && is_element(s.hopper_element) && is_element(s.first_cell_element) &&
           is_element(s.reel_element);
}

bus::BusSettings settings_of(const podrate_senders& from) {
    bus::BusSettings to;
    to.speed_from = from.speed_from;
    to.position_from = from.position_from;
    to.tilt_from = from.tilt_from;
    to.weight_from = from.weight_from;
    to.heading_from = from.heading_from;
    to.reel_from = from.reel_from;
    to.hits_from = from.hits_from;
    to.hopper_element = from.hopper_element;
    to.first_cell_element = from.first_cell_element;
    to.cells = from.cells;
    to.reel_element = from.reel_element;
    return to;
}

bus::CanFrame frame_of(const podrate_can_frame& from) {
    bus::CanFrame frame;
    frame.time_us = from.time_us;
    frame.id = from.id;
    frame.extended = from.extended != 0;
    frame.remote = from.remote != 0;
    frame.length = from.length;
    for (int i = 0; i < 8; ++i) frame.data[i] = from.data[i];
    return frame;
}

}  // namespace

extern "C" {

podrate_status podrate_default_senders(podrate_senders* senders) {
    if (senders == nullptr) return PODRATE_NULL_POINTER;
    const bus::BusSettings from;
    *senders = {};
    senders->speed_from = from.speed_from;
    senders->position_from = from.position_from;
    senders->tilt_from = from.tilt_from;
    senders->weight_from = from.weight_from;
    senders->heading_from = from.heading_from;
    senders->reel_from = from.reel_from;
    senders->hits_from = from.hits_from;
    senders->cells = from.cells;
    senders->hopper_element = from.hopper_element;
    senders->first_cell_element = from.first_cell_element;
    senders->reel_element = from.reel_element;
    return PODRATE_OK;
}

podrate_status podrate_bus_init(podrate_bus* bus, const podrate_senders* senders, int64_t now_us) {
    if (bus == nullptr || senders == nullptr) return PODRATE_NULL_POINTER;
    if (!are_senders(*senders) || now_us < 0 || now_us > kLatestUs) return PODRATE_OUT_OF_RANGE;
    c_api::hold(bus, settings_of(*senders), TimeUs{now_us});
    return PODRATE_OK;
}

podrate_status podrate_bus_take(podrate_bus* bus, const podrate_can_frame* frame, podrate_heard* heard) {
    const podrate_status status = c_api::check(bus);
    if (status != PODRATE_OK) return status;
    if (frame == nullptr || heard == nullptr) return PODRATE_NULL_POINTER;
    *heard = {};
    c_api::Bus& inside = c_api::held(bus);
    const bus::CanFrame typed = frame_of(*frame);
    const TimeVerdict time = inside.gate.judge(typed.time_us);
    if (time != TimeVerdict::good) {
        inside.watch.see(typed, bus::FrameResult::time_back, inside.decoder);
        return refuse(time, *heard);
    }
    const bus::UtcOffset before = inside.decoder.utc_offset();
    const bus::FrameResult result = inside.decoder.take(typed);
    inside.watch.see(typed, result, inside.decoder);
    gather(inside.decoder, before, result, typed.time_us, *heard);
    if (inside.decoder.drum().known) heard->drum_rpm = inside.decoder.drum().rpm;
    return PODRATE_OK;
}

podrate_status podrate_bus_controller(podrate_bus* bus, uint32_t state) {
    const podrate_status status = c_api::check(bus);
    if (status != PODRATE_OK) return status;
    if (state > PODRATE_CAN_OFF) return PODRATE_NO_SUCH;
    c_api::held(bus).watch.controller(static_cast<bus::Controller>(state));
    return PODRATE_OK;
}

podrate_status podrate_bus_look(const podrate_bus* bus, int64_t now_us, podrate_bus_health* health) {
    const podrate_status status = c_api::check(bus);
    if (status != PODRATE_OK) return status;
    if (health == nullptr) return PODRATE_NULL_POINTER;
    if (now_us < 0 || now_us > kLatestUs) return PODRATE_OUT_OF_RANGE;
    const bus::BusWatch& watch = c_api::held(bus).watch;
    *health = {};
    for (int i = 0; i < 8; ++i) health->age_us[i] = watch.age_us(static_cast<Channel>(i), now_us);
    for (int i = 0; i < bus::kFrameResults; ++i)
        health->results[i] = watch.count(static_cast<bus::FrameResult>(i));
    health->most_per_s = static_cast<std::uint32_t>(watch.most_per_s());
    health->silent = watch.silent(now_us) ? 1 : 0;
    health->flooded = watch.flooded(now_us) ? 1 : 0;
    health->controller = static_cast<std::uint8_t>(watch.controller());
    return PODRATE_OK;
}

podrate_status podrate_receiver_init(podrate_receiver* receiver, int64_t now_us) {
    if (receiver == nullptr) return PODRATE_NULL_POINTER;
    if (now_us < 0 || now_us > kLatestUs) return PODRATE_OUT_OF_RANGE;
    c_api::hold(receiver, TimeUs{now_us});
    return PODRATE_OK;
}

podrate_status podrate_receiver_take(podrate_receiver* receiver, int64_t time_us, uint8_t byte,
                                     podrate_heard* heard) {
    const podrate_status status = c_api::check(receiver);
    if (status != PODRATE_OK) return status;
    if (heard == nullptr) return PODRATE_NULL_POINTER;
    *heard = {};
    c_api::Receiver& inside = c_api::held(receiver);
    const TimeVerdict time = inside.gate.judge(time_us);
    if (time != TimeVerdict::good) return refuse(time, *heard);
    const bus::UtcOffset before = inside.decoder.utc_offset();
    const bus::FrameResult result = inside.decoder.take(time_us, byte);
    gather(inside.decoder, before, result, time_us, *heard);
    return PODRATE_OK;
}

}  // extern "C"
