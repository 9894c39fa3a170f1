// A CAN interface of the kernel (SocketCAN).
#pragma once

#include <memory>

#include "live/descriptor.hpp"
#include "live/transport.hpp"

namespace podrate::sim {

class CanSocket final : public Transport {
  public:
    // A socket that gives one struct can_frame with each read.
    CanSocket(Descriptor socket, std::string name) : socket_(std::move(socket)), name_(std::move(name)) {}

    [[nodiscard]] int descriptor() const override { return socket_.number(); }
    bool read(LiveTaker& to) override;
    [[nodiscard]] const std::string& name() const override { return name_; }

  private:
    Descriptor socket_;
    std::string name_;
};

// Throws RefusedInput where the kernel has no CAN, or no such interface.
std::unique_ptr<CanSocket> open_can(const std::string& interface);

}  // namespace podrate::sim
