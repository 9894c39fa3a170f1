// Where live data come from: something to wait on, and what has come since.
#pragma once

#include <string>
#include <string_view>

#include "podrate/bus/bus_watch.hpp"
#include "podrate/bus/can_frame.hpp"

namespace podrate::sim {

// Takes what transports hand on, as it comes.
class LiveTaker {
  public:
    virtual ~LiveTaker() = default;
    // `stamped`: its time_us says when it came; otherwise it has come just now.
    virtual void take_frame(const bus::CanFrame& frame, bool stamped) = 0;
    // Text of a serial line: NMEA 0183, in pieces of any length.
    virtual void take_text(std::string_view text) = 0;
    // The CAN controller says how it is.
    virtual void take_controller(bus::Controller state) = 0;
    // Something that can't be used: where, why, and what was done about it.
    virtual void take_bad(const std::string& why) = 0;
};

class Transport {
  public:
    virtual ~Transport() = default;
    // To poll: readable where something has come.
    [[nodiscard]] virtual int descriptor() const = 0;
    // Hands on what has come. Call where the descriptor is readable: it does not wait then. False: it has
    // ended.
    virtual bool read(LiveTaker& to) = 0;
    // For messages: "can0", "standard input".
    [[nodiscard]] virtual const std::string& name() const = 0;
};

}  // namespace podrate::sim
