// Frames and samples as lines of candump -l.
#pragma once

#include <string>

#include "podrate/bus/bus_encoder.hpp"
#include "podrate/bus/can_frame.hpp"

namespace podrate::sim {

// "(1436509052.249713) can0 0CFE481C#0540E2402001FF00" and a line end.
void append_candump(std::string& to, const bus::CanFrame& frame, const char* interface);

// Samples as lines, by the core's encoder.
class CandumpWriter {
  public:
    void add(const Sample& sample, std::string& to);
    // The drum's speed is no sample.
    void add_drum(TimeUs time_us, double rpm, std::string& to);

  private:
    void append(int frames, std::string& to) const;
    bus::BusEncoder encoder_;
};

}  // namespace podrate::sim
