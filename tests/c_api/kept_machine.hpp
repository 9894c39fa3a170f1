// A machine in a C caller's storage, begun with the default parameters.
#pragma once

#include <cstring>
#include <memory>

#include "podrate/podrate.h"

namespace podrate::test {

struct KeptMachine {
    explicit KeptMachine(std::int64_t now_us = 0) {
        podrate_default_parameters(&parameters);
        begun = podrate_init(get(), &parameters, now_us);
    }
    [[nodiscard]] podrate_machine* get() const { return storage.get(); }
    [[nodiscard]] podrate_status feed(std::int64_t time_us, int channel, float value) const {
        podrate_sample sample = {};
        sample.time_us = time_us;
        sample.channel = static_cast<std::uint8_t>(channel);
        sample.count = 1;
        sample.value[0] = value;
        return podrate_feed(get(), &sample);
    }
    [[nodiscard]] podrate_estimate read() const {
        podrate_estimate estimate = {};
        podrate_read(get(), &estimate);
        return estimate;
    }

    std::unique_ptr<podrate_machine> storage = std::make_unique<podrate_machine>();
    podrate_parameters parameters = {};
    podrate_status begun = PODRATE_NOT_INITIALISED;
};

}  // namespace podrate::test
