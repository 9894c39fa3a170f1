#include "plan/machine_paths.hpp"

#include <algorithm>
#include <cmath>

namespace podrate::sim {
namespace {

constexpr double kLoadSpread = 0.05;  // of loads at the tip; common practice, no source
constexpr double kLoadsBefore = 2.0;  // what was thought of them beforehand counts as so many
constexpr double kShortestS = 1.0;
constexpr double kLeastLoadKg = 50.0;

// A semi-Markov walk: work until a hopper is full, a stop, a move or the end of a half hour comes first.
class Walk {
  public:
    Walk(const GangModel& model, std::size_t machine, const PathDraws& draws, PathRandom random,
         const PathGrid& grid, double pace, double* kg)
        : model_(model),
          m_(model.machines[machine]),
          draws_(draws),
          drawn_(draws.machines[machine]),
          random_(random),
          grid_(grid),
          pace_(1.0 / (m_.harvest_share / pace + 1.0 - m_.harvest_share)),
          kg_(kg),
          ln_field_(draws.ln_field),
          hopper_kg_(m_.hopper_kg),
          wobble_(model.rate_ln_sd * random_.normal()) {
        next_load();
        short_in_s_ = random_.exponential(1.0 / drawn_.short_stops_per_s);
        breakdown_in_s_ = random_.exponential(1.0 / drawn_.breakdowns_per_s);
        set_rate();
    }

    void run(Begin begin) {
        if (begin == Begin::as_it_is) go_on();
        while (time_s_ < grid_.end_s()) work();
        while (point_ < grid_.points()) kg_[point_++] = delivered_kg_;
    }

  private:
    // From what the machine does as the books end.
    void go_on() {
        switch (m_.doing) {
            case Doing::work: break;
            case Doing::waiting:
                pass(rest_of_wait_s());
                pour(draw_tip().tip_s);
                break;
            case Doing::tipping: pour(0.5 * draw_tip().tip_s); break;
            case Doing::stopped: pass(rest_of_stop_s()); break;
            case Doing::moving: pass(random_.uniform() * length_s(draws_.move_ln_mean_s, model_.move)); break;
        }
    }

    void work() {
        const double to_move_s =
            move_ < draws_.moves.size() ? std::max(0.0, draws_.moves[move_].at_s - time_s_) : grid_.end_s();
        const double to_full_s = std::max(0.0, (load_kg_ - hopper_kg_) / rate_kgps_);
        const double for_s = std::min({window_left_s_, short_in_s_, breakdown_in_s_, to_move_s, to_full_s});
        pass(for_s);
        hopper_kg_ += rate_kgps_ * for_s;
        worked_s_ += for_s;
        window_left_s_ -= for_s;
        short_in_s_ -= for_s;
        breakdown_in_s_ -= for_s;
        if (for_s == to_full_s) {
            const DrawnTip tip = draw_tip();
            pass(tip.wait_s);
            pour(tip.tip_s);
        } else if (for_s == to_move_s) {
            ln_field_ = draws_.moves[move_++].ln_field;
            pass(length_s(draws_.move_ln_mean_s, model_.move));
            set_rate();
        } else if (short_in_s_ <= 0.0) {
            short_in_s_ = random_.exponential(1.0 / drawn_.short_stops_per_s);
            pass(length_s(draws_.short_ln_mean_s, model_.short_stop));
        } else if (breakdown_in_s_ <= 0.0) {
            breakdown_in_s_ = random_.exponential(1.0 / drawn_.breakdowns_per_s);
            pass(length_s(draws_.breakdown_ln_mean_s, model_.breakdown));
        } else {
            next_window();
        }
    }

    void pass(double seconds) {
        time_s_ += seconds;
        while (point_ < grid_.points() && static_cast<double>(point_) * grid_.step_s < time_s_)
            kg_[point_++] = delivered_kg_;
    }

    void pour(double seconds) {
        pass(seconds);
        delivered_kg_ += hopper_kg_;
        hopper_kg_ = 0.0;
        next_load();
    }

    void next_load() {
        const double before = kLoadsBefore / (kLoadsBefore + static_cast<double>(m_.loads_kg.size()));
        const double usual_kg = random_.uniform() < before ? m_.capacity_kg * model_.load_share *
                                                                 (1.0 + kLoadSpread * random_.normal())
                                                           : m_.loads_kg[random_.below(m_.loads_kg.size())];
        load_kg_ = std::max(kLeastLoadKg, usual_kg);
    }

    void next_window() {
        window_left_s_ = kWindowS;
        const double fresh = std::sqrt(1.0 - kWindowsAlike * kWindowsAlike);
        wobble_ = kWindowsAlike * wobble_ + fresh * model_.rate_ln_sd * random_.normal();
        drift_ += model_.drift_ln_sd * std::sqrt(kWindowS / 3600.0) * random_.normal();
        set_rate();
    }

    // A window's mean is the machine's: ln's half variance is taken off.
    void set_rate() {
        const double half = 0.5 * (model_.rate_ln_sd * model_.rate_ln_sd +
                                   model_.drift_ln_sd * model_.drift_ln_sd * worked_s_ / 3600.0);
        rate_kgps_ = pace_ * math::exp(drawn_.ln_rate + ln_field_ + wobble_ + drift_ - half);
    }

    DrawnTip draw_tip() { return draws_.tips[random_.below(draws_.tips.size())]; }

    double length_s(double ln_mean_s, const StopLength& length) {
        return std::max(kShortestS, math::exp(ln_mean_s + length.ln_sd * random_.normal()));
    }

    // How much longer a stop lasts that has lasted so long: which kind it is, and the rest of that kind.
    double rest_of_stop_s() {
        const double ln_age = math::ln(std::max(m_.doing_s, kShortestS));
        const double short_below = normal_below((ln_age - draws_.short_ln_mean_s) / model_.short_stop.ln_sd);
        const double long_below =
            normal_below((ln_age - draws_.breakdown_ln_mean_s) / model_.breakdown.ln_sd);
        const double short_weight = drawn_.short_stops_per_s * (1.0 - short_below);
        const double long_weight = drawn_.breakdowns_per_s * (1.0 - long_below);
        const bool is_short = random_.uniform() * (short_weight + long_weight) < short_weight;
        const double below = is_short ? short_below : long_below;
        const double z = normal_quantile(below + (1.0 - below) * random_.uniform());
        const double ln_s = is_short ? draws_.short_ln_mean_s + model_.short_stop.ln_sd * z
                                     : draws_.breakdown_ln_mean_s + model_.breakdown.ln_sd * z;
        return std::max(kShortestS, math::exp(ln_s) - m_.doing_s);
    }

    // The wait goes on like one of those that were longer, or as long again as it was.
    double rest_of_wait_s() {
        const DrawnTip tip = draw_tip();
        if (tip.wait_s > m_.doing_s) return tip.wait_s - m_.doing_s;
        return random_.exponential(std::max(30.0, m_.doing_s));
    }

    const GangModel& model_;
    const MachineModel& m_;
    const PathDraws& draws_;
    const DrawnMachine& drawn_;
    PathRandom random_;
    const PathGrid& grid_;
    double pace_;
    double* kg_;
    std::size_t point_ = 0;
    std::size_t move_ = 0;
    double time_s_ = 0.0;
    double ln_field_;
    double hopper_kg_;
    double delivered_kg_ = 0.0;
    double load_kg_ = 0.0;
    double wobble_;
    double drift_ = 0.0;
    double worked_s_ = 0.0;
    double window_left_s_ = kWindowS;
    double short_in_s_ = 0.0;
    double breakdown_in_s_ = 0.0;
    double rate_kgps_ = 1.0;
};

}  // namespace

MachinePaths::MachinePaths(const GangModel& model, std::size_t machine, const std::vector<PathDraws>& draws,
                           std::uint64_t seed, const PathGrid& grid, Begin begin, double pace)
    : grid_(grid), kg_(draws.size() * grid.points()) {
    for (std::size_t path = 0; path < draws.size(); ++path) {
        Walk walk(model, machine, draws[path], PathRandom(seed, path, machine + 1), grid, pace,
                  &kg_[path * grid.points()]);
        walk.run(begin);
    }
}

double MachinePaths::kg_late(std::size_t path, std::size_t point, double late_s) const {
    const double at = static_cast<double>(point) - late_s / grid_.step_s;
    if (at <= 0.0) return 0.0;
    const auto below = std::min(static_cast<std::size_t>(at), grid_.steps);
    const std::size_t above = std::min(below + 1, grid_.steps);
    return kg(path, below) + (at - static_cast<double>(below)) * (kg(path, above) - kg(path, below));
}

}  // namespace podrate::sim
