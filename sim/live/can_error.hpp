// What an error frame of Linux's CAN says of the controller.
#pragma once

#include <cstdint>
#include <optional>

#include "podrate/bus/bus_watch.hpp"

namespace podrate::sim {

// id: with or without its flags; data as in linux/can/error.h. Nothing where it tells of something else.
std::optional<bus::Controller> controller_told(std::uint32_t id, const std::uint8_t (&data)[8]);

}  // namespace podrate::sim
