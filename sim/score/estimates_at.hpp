// The estimates of a replay, asked for at any time.
#pragma once

#include <filesystem>

#include "log/column_reader.hpp"
#include "podrate/work/work_state.hpp"
#include "score/log_clock.hpp"

namespace podrate::sim {

struct EstimateRow {
    double unix_s = -1e18;
    double mass_kg = 0.0;
    double mass_sd_kg = 0.0;
    double flow_kgps = 0.0;
    double flow_sd_kgps = 0.0;
    double loss_share = 0.0;
    double loss_low = 0.0;
    double loss_high = 0.0;
    int state = 0;       // a WorkState
    bool alarm = false;  // any sensor fault told
    bool loss_alarm = false;
};

// estimates_ID.csv of a replay. Throws RefusedInput where it is not whole.
class EstimatesAt {
  public:
    EstimatesAt(const std::filesystem::path& file, const LogClock& clock);

    // The estimate at `unix_s`, between the rows before and after it; false where none stands within 1.5 s
    // on one of its sides. Times must not fall.
    bool at(double unix_s, EstimateRow& row);

  private:
    bool read(EstimateRow& row);

    std::filesystem::path file_;
    LogClock clock_;
    ColumnReader reader_;
    EstimateRow before_;
    EstimateRow after_;
    bool more_;
};

// A WorkState by its name in `file`; throws RefusedInput where there is none.
int state_index(std::string_view name, const std::filesystem::path& file);

}  // namespace podrate::sim
