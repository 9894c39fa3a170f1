// A serial line that brings NMEA 0183 sentences; a pseudo-terminal or a named pipe does as well.
#pragma once

#include <memory>

#include "live/descriptor.hpp"
#include "live/transport.hpp"

namespace podrate::sim {

class SerialLine final : public Transport {
  public:
    SerialLine(Descriptor line, std::string name) : line_(std::move(line)), name_(std::move(name)) {}

    [[nodiscard]] int descriptor() const override { return line_.number(); }
    bool read(LiveTaker& to) override;
    [[nodiscard]] const std::string& name() const override { return name_; }

  private:
    Descriptor line_;
    std::string name_;
};

// `baud`: 4800, 9600, 19200, 38400, 57600 or 115200; 8 data bits, no parity. Throws RefusedInput where it
// can't be opened.
std::unique_ptr<SerialLine> open_serial(const std::string& path, int baud);

}  // namespace podrate::sim
