// The clock of a replayed day: playing, paused, sought.
#pragma once

#include "podrate/sample.hpp"

namespace podrate::ui {

class Playback {
  public:
    Playback(TimeUs first_us, TimeUs last_us) : first_us_(first_us), last_us_(last_us), now_us_(first_us) {}

    // Lets `elapsed_s` of real time pass. Stops at the end.
    void tick(double elapsed_s);

    void toggle();  // at the end: plays again from the start
    void seek(TimeUs to_us);
    void seek_share(double share);  // 0: first, 1: last
    void step(double by_s);
    void faster();
    void slower();

    [[nodiscard]] bool playing() const { return playing_; }
    [[nodiscard]] int rate() const;  // 1 to 600: seconds of the day per second
    [[nodiscard]] TimeUs now_us() const { return now_us_; }
    [[nodiscard]] double share() const;

    // The moment whose figures are shown: moves at most twice a second while playing, since nobody reads
    // faster.
    [[nodiscard]] TimeUs shown_us() const { return shown_us_; }

  private:
    TimeUs first_us_;
    TimeUs last_us_;
    TimeUs now_us_;
    TimeUs shown_us_ = now_us_;
    double since_shown_s_ = 0.0;
    int rate_index_ = 0;
    bool playing_ = false;
};

}  // namespace podrate::ui
