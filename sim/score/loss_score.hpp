// What a replay told of the loss, against a synthetic day's truth.
#pragma once

#include <filesystem>

#include "day/day.hpp"
#include "score/loss_alarms.hpp"
#include "score/root_mean_square.hpp"
#include "score/true_loss.hpp"

namespace podrate::sim {

// One loss of a run, shares of collected + lost.
struct LossPart {
    bool known = false;  // the truth tells it
    double true_share = 0.0;
    double share = 0.0;  // as the replay told at its end
    double low = 0.0;    // 90 % interval
    double high = 0.0;
    RootMeanSquare
        seconds;  // at each second of harvest, against the truth's mean over kLossMeanS about the cut

    [[nodiscard]] double error() const { return share - true_share; }
    [[nodiscard]] bool held() const { return true_share >= low && true_share <= high; }
};

struct LossScore {
    LossPart total;
    LossPart drum;
    LossAlarmScore alarms;
    // Of several machines together: how many there are, and whose interval holds the truth.
    int machines = 0;
    int total_held = 0;
    int drum_known = 0;
    int drum_held = 0;
};

// A total's mean loss weighs each machine by the peas that stood before it; no interval is told for it.
class LossTotal {
  public:
    void add(const LossScore& machine, double true_stood_kg, double stood_kg);
    [[nodiscard]] LossScore score() const;

  private:
    LossScore sum_;
    double true_stood_kg_ = 0.0;
    double stood_kg_ = 0.0;
};

// What is told belongs to the crop cut a dead time before. Adds to the drum's RMSE from losses_ID.csv, where
// the truth tells the drum apart.
void score_drum_seconds(const std::filesystem::path& results, const std::filesystem::path& day_folder,
                        const std::string& machine, const TruePlant& plant, const TrueLoss& truth,
                        LossPart& drum);

}  // namespace podrate::sim
