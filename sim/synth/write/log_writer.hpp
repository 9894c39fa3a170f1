// Writes a machine's log and truth, row by row.
#pragma once

#include <filesystem>
#include <string>

#include "geo/local_frame.hpp"
#include "synth/machine/viner_works.hpp"
#include "synth/sense/sensors.hpp"

namespace podrate::sim {

// The log as the cab would have recorded it: weight in each row, speed, tilt and the loss sensor's count at
// some 5 Hz, place at 1 Hz, the reel on change and once a second.
class LogWriter {
  public:
    // The scenario must outlive it.
    LogWriter(const Scenario& scenario, const ScenarioMachine& machine);
    void add(double time_s, const VinerTruth& truth, const Sensors& sensors);
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    [[nodiscard]] std::string row_of(double time_s, const VinerTruth& truth, const Sensors& sensors);

    LocalFrame frame_;
    Faults faults_;
    std::string held_back_;  // a row that the next one overtakes
    bool cut_ = false;
    double start_unix_s_;
    long rows_per_second_;
    long rows_per_fifth_;
    int time_decimals_;
    bool cells_apart_;
    bool counts_loss_;
    long row_ = 0;
    bool reel_told_ = false;
    bool last_reel_ = false;
    std::string text_;
};

class TruthWriter {
  public:
    explicit TruthWriter(const Scenario& scenario);
    // Once a second.
    void add(double time_s, const VinerTruth& truth);
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    double start_unix_s_;
    bool apart_;
    bool swath_;
    std::string text_;
};

// Zstandard at level 19, one thread: the same bytes from the same library.
std::string compressed(const std::string& text);

}  // namespace podrate::sim
