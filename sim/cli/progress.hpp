// A line of progress on a terminal; nothing elsewhere.
#pragma once

#include <chrono>
#include <string>

namespace podrate::sim {

class ProgressLine {
  public:
    // Shows only where standard error is a terminal and `quiet` is false.
    ProgressLine(std::string what, bool quiet);
    ~ProgressLine();
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;

    void show(double share);

  private:
    std::string what_;
    bool shown_;
    bool drawn_ = false;
    std::chrono::steady_clock::time_point begun_;
    std::chrono::steady_clock::time_point last_;
};

}  // namespace podrate::sim
