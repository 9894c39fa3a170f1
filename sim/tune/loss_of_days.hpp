// What recorded days teach of the loss.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "log/problem.hpp"
#include "parameters/parameter_set.hpp"
#include "replay/sink.hpp"
#include "tune/loss_prior.hpp"

namespace podrate::sim {

// Adds up what a loss sensor's counter counts. The counter's first reading is where it begins, and so is one
// below the reading before: it has been set back.
class HitSum : public ReplaySink {
  public:
    void on_row(const LogRow& row, const Estimate& estimate) override;
    [[nodiscard]] bool asks_all(const LogRow&) const override { return false; }
    [[nodiscard]] double hits() const { return hits_; }

  private:
    std::optional<double> count_;
    double hits_ = 0.0;
};

struct LossDays {
    std::vector<std::string> folders;
    std::optional<ParameterSet> base;      // laid over each machine's own parameters
    unsigned at_once = 0;                  // threads; 0: as many as there are processors
    std::function<void(double)> progress;  // share of the work, 0 to 1; called one at a time
};

struct LossOfDays {
    LossFit fit;
    std::size_t days = 0;            // with a machine that could be used
    std::size_t machines = 0;        // of those, by name
    std::vector<std::string> notes;  // what could not be used, and why
    Problems problems;               // of the days' small files
    std::string own_machine;         // the first that could be used
    Parameters own;                  // of that one
};

// Does not depend on how many run at once. Days of one label are told apart by their folders' names. Throws
// RefusedInput where no day can be used.
LossOfDays loss_of_days(const LossDays& asked);

}  // namespace podrate::sim
