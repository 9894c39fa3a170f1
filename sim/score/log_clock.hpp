// The true time of a log's rows, where its clock was made to jump.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace podrate::sim {

class LogClock {
  public:
    // From truth/faults.csv; a day without one keeps true time.
    LogClock(const std::filesystem::path& day_folder, const std::string& machine);
    [[nodiscard]] double true_unix_s(double log_unix_s) const;
    // What the log's clock says at that true time.
    [[nodiscard]] double log_unix_s(double true_unix_s) const;

  private:
    struct Jump {
        double at_unix_s;
        double by_s;
    };
    std::vector<Jump> jumps_;
};

}  // namespace podrate::sim
