// Any calls in any order through the C header: nothing crashes, what is told is finite, what is saved can be
// restored, and a journal whose power goes at any byte still opens.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <memory>

#include "fuzz/entry.hpp"
#include "podrate/podrate.h"
#include "podrate/retained/crc32.hpp"
#include "retained/sim_flash.hpp"

namespace {

using podrate::test::promise;

// What the fuzzer gave, taken from the front; zeros once it is used up.
class Input {
  public:
    Input(const std::uint8_t* bytes, std::size_t count) : bytes_(bytes), left_(count) {}
    template <class T>
    T take() {
        T value{};
        const std::size_t count = std::min(sizeof value, left_);
        if (count > 0) std::memcpy(&value, bytes_, count);
        bytes_ += count;
        left_ -= count;
        return value;
    }
    [[nodiscard]] bool empty() const { return left_ == 0; }

  private:
    const std::uint8_t* bytes_;
    std::size_t left_;
};

struct Controller {
    podrate_machine machine;
    podrate_clock clock;
    podrate_journal journal;
    podrate_parameters parameters;
    podrate_flash flash = {};
    podrate::test::SimFlash banks{4096, 8};
    std::int64_t now_us = 0;
};

void start(Controller& c) {
    const podrate::Flash face = c.banks.face();
    c.flash.context = face.context;
    c.flash.read = face.read;
    c.flash.write = face.write;
    c.flash.erase = face.erase;
    c.flash.bank_bytes = face.bank_bytes;
    c.flash.write_bytes = face.write_bytes;
    c.flash.erased = face.erased;
    c.banks.power_up();
    std::int64_t kept_us = 0;
    const podrate_status found = podrate_journal_open(&c.journal, &c.flash, &kept_us);
    promise(found == PODRATE_OK || found == PODRATE_NOTHING_KEPT || found == PODRATE_DAMAGED);
    c.now_us = std::max(c.now_us, kept_us);
    promise(podrate_clock_init(&c.clock, kept_us) == PODRATE_OK);
    promise(podrate_init(&c.machine, &c.parameters, c.now_us) == PODRATE_OK);
    if (found != PODRATE_OK) return;
    promise(podrate_journal_restore(&c.journal, &c.machine, &c.clock, c.now_us, PODRATE_GO_ON) == PODRATE_OK);
}

// Whole values in their ranges mostly, any bits now and then.
void feed(Controller& c, Input& in) {
    podrate_sample sample = {};
    const auto how = in.take<std::uint8_t>();
    if (how < 16) {
        sample = in.take<podrate_sample>();
        podrate_feed(&c.machine, &sample);
        return;
    }
    sample.time_us = c.now_us + std::int64_t{in.take<std::uint16_t>()} * (how & 64 ? 1000 : 10);
    sample.channel = how % 8;
    sample.count = sample.channel == PODRATE_TILT || sample.channel == PODRATE_TRAY ? 2 : 1;
    const auto a = static_cast<float>(in.take<std::int16_t>());
    const auto b = static_cast<float>(in.take<std::uint8_t>());
    switch (sample.channel) {
        case PODRATE_WEIGHT:
            sample.count = 1 + how / 16 % 4;
            for (float& value : sample.value)
                value = a * 0.1F + 0.1F * static_cast<float>(in.take<std::int8_t>());
            break;
        case PODRATE_SPEED: sample.value[0] = b * 0.01F; break;
        case PODRATE_TILT:
            sample.value[0] = b * 0.1F;
            sample.value[1] = a * 0.001F;
            break;
        case PODRATE_POSITION:
            sample.lat_e7 = in.take<std::int32_t>() % 900000000;
            sample.lon_e7 = in.take<std::int32_t>() % 1800000000;
            break;
        case PODRATE_HEADING: sample.value[0] = a * 0.01F; break;
        case PODRATE_REEL: sample.value[0] = b > 100.0F ? 1.0F : 0.0F; break;
        case PODRATE_HITS: sample.value[0] = b; break;
        default:
            sample.value[0] = b * 0.01F;
            sample.value[1] = 0.1F;
            sample.about_us =
                std::max<std::int64_t>(0, sample.time_us - std::int64_t{in.take<std::uint16_t>()} * 10000);
            break;
    }
    if (podrate_feed(&c.machine, &sample) == PODRATE_OK) c.now_us = sample.time_us;
}

void look(const Controller& c) {
    podrate_estimate e;
    promise(podrate_read(&c.machine, &e) == PODRATE_OK);
    for (const float value : {e.mass_kg, e.mass_sd_kg, e.flow_kgps, e.flow_sd_kgps, e.harvested_kg, e.area_m2,
                              e.loss_share, e.loss_low, e.loss_high, e.yield_kgpm2, e.advised.speed_mps})
        promise(std::isfinite(value));
    promise(e.state <= PODRATE_STOPPED && e.binding <= PODRATE_MACHINE_LIMITS);
    podrate_load load;
    podrate_pause pause;
    podrate_loss loss;
    if (podrate_last_load(&c.machine, &load) == PODRATE_OK) promise(std::isfinite(load.net_kg));
    podrate_last_pause(&c.machine, &pause);
    if (podrate_loss_so_far(&c.machine, &loss) == PODRATE_OK) promise(std::isfinite(loss.lost_kg));
}

// What a machine saves another takes up, and says the same.
void save_and_restore(const Controller& c) {
    std::uint8_t bytes[PODRATE_SAVED_BYTES];
    std::size_t size = 0;
    if (podrate_save(&c.machine, &c.clock, bytes, sizeof bytes, &size) != PODRATE_OK) return;
    const auto other = std::make_unique<podrate_machine>();
    podrate_estimate before;
    podrate_estimate after;
    podrate_read(&c.machine, &before);
    promise(podrate_init(other.get(), &c.parameters, before.time_us) == PODRATE_OK);
    promise(podrate_restore(other.get(), nullptr, bytes, size, before.time_us, PODRATE_GO_ON) == PODRATE_OK);
    promise(podrate_read(other.get(), &after) == PODRATE_OK);
    promise(before.harvested_kg == after.harvested_kg && before.area_m2 == after.area_m2);
}

void restore_anything(Controller& c, Input& in) {
    std::uint8_t bytes[PODRATE_SAVED_BYTES];
    std::size_t size = 0;
    if (podrate_save(&c.machine, nullptr, bytes, sizeof bytes, &size) != PODRATE_OK) return;
    for (int i = in.take<std::uint8_t>() % 8; i >= 0; --i)
        bytes[in.take<std::uint16_t>() % sizeof bytes] = in.take<std::uint8_t>();
    if (in.take<std::uint8_t>() % 4 != 0) {
        const std::uint32_t crc = podrate::crc32(bytes, sizeof bytes - 4);
        for (unsigned i = 0; i < 4; ++i)
            bytes[sizeof bytes - 4 + i] = static_cast<std::uint8_t>(crc >> (8U * i));
    }
    promise(podrate_init(&c.machine, &c.parameters, c.now_us) == PODRATE_OK);
    podrate_restore(&c.machine, &c.clock, bytes, size, c.now_us, in.take<std::uint8_t>() % 3);
}

void call(Controller& c, Input& in) {
    switch (in.take<std::uint8_t>() % 16) {
        default: feed(c, in); break;
        case 1: podrate_step(&c.machine, c.now_us + in.take<std::int32_t>()); break;
        case 2: look(c); break;
        case 3: save_and_restore(c); break;
        case 4: restore_anything(c, in); break;
        case 5: podrate_shelve(&c.machine, in.take<std::uint8_t>() % 12, in.take<float>()); break;
        case 6:
            podrate_acknowledge(&c.machine, in.take<std::uint8_t>());
            podrate_unshelve(&c.machine, in.take<std::uint8_t>());
            break;
        case 7: podrate_clock_told(&c.clock, c.now_us, in.take<std::int64_t>()); break;
        case 8: {
            std::int64_t there_us = 0;
            podrate_clock_count(&c.clock, in.take<std::uint32_t>(), &there_us);
            podrate_clock_utc(&c.clock, in.take<std::int64_t>(), &there_us);
            podrate_clock_time(&c.clock, in.take<std::int64_t>(), &there_us);
            break;
        }
        case 9: podrate_journal_keep(&c.journal, &c.machine, &c.clock); break;
        case 10:
            c.banks.bytes_left = in.take<std::uint16_t>() % 6000;
            c.banks.torn = static_cast<int>(in.take<std::uint8_t>() % 4);
            break;
        case 11: start(c); break;
        case 12: podrate_journal_erase_ahead(&c.journal); break;
        case 13:
            // Another machine altogether: told parameters in their ranges.
            podrate_set_parameter(&c.parameters, in.take<std::uint8_t>() % PODRATE_PARAMETER_COUNT,
                                  in.take<float>());
            break;
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count) {
    Input in(bytes, count);
    const auto controller = std::make_unique<Controller>();
    podrate_default_parameters(&controller->parameters);
    start(*controller);
    while (!in.empty()) call(*controller, in);
    look(*controller);
    save_and_restore(*controller);
    promise(controller->banks.misuse == 0);
    return 0;
}
