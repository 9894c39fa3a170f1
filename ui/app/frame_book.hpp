// How soon, after a beginning, and how evenly frames were drawn: for measuring.
#pragma once

#include <chrono>
#include <string>
#include <vector>

namespace podrate::ui {

class FrameBook {
  public:
    explicit FrameBook(std::chrono::steady_clock::time_point begun) : begun_(begun) {}

    // A frame has been drawn, `late_s` after it was due, that took so much processor time to build.
    void add(double build_s, double late_s, bool playing);
    // The day that was to be opened is there.
    void day_open();

    // "first frame after 0.21 s, day open after 1.9 s; 412 frames, built in 0.8 ms (median), ..."
    [[nodiscard]] std::string words() const;

  private:
    [[nodiscard]] double now_s() const;

    std::chrono::steady_clock::time_point begun_;
    double first_s_ = -1.0;
    double day_open_s_ = -1.0;
    std::vector<float> build_ms_;
    long played_ = 0;
    long late_ = 0;  // of those played, by more than a frame
};

}  // namespace podrate::ui
