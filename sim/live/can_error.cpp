#include "live/can_error.hpp"

#include <linux/can/error.h>

namespace podrate::sim {

std::optional<bus::Controller> controller_told(std::uint32_t id, const std::uint8_t (&data)[8]) {
    if ((id & CAN_ERR_BUSOFF) != 0) return bus::Controller::off;
    if ((id & CAN_ERR_RESTARTED) != 0) return bus::Controller::active;
    if ((id & CAN_ERR_CRTL) == 0) return std::nullopt;
    if ((data[1] & (CAN_ERR_CRTL_RX_PASSIVE | CAN_ERR_CRTL_TX_PASSIVE)) != 0) return bus::Controller::passive;
    if ((data[1] & CAN_ERR_CRTL_ACTIVE) != 0) return bus::Controller::active;
    return std::nullopt;
}

}  // namespace podrate::sim
