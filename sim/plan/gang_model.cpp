#include "plan/gang_model.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "podrate/math/elementary.hpp"

namespace podrate::sim {
namespace {

// A gang's machines reach another field within that of one another.
constexpr TimeUs kOneMoveUs = 45 * 60 * kSecondUs;
// What was thought beforehand counts as so many of the day's own.
constexpr double kBreakdownsBefore = 1.5;
constexpr double kShortStopsBefore = 2.0;
constexpr double kMovesBefore = 1.0;
constexpr double kLengthsBefore = 3.0;
constexpr double kWindowsBefore = 8.0;
// A machine's pace beforehand: any. ln kg/s of work, about 4 t/h within a factor of 3.
constexpr double kPaceLnMean = 0.1;
constexpr double kPaceLnSd = 0.6;
constexpr double kLeastWorkS = 300.0;  // less of it in a field says nothing of its pace

// When the gang came to each field: the day's begin, then its moves.
std::vector<TimeUs> field_begins(const GangBooks& books, const std::vector<DayParts>& parts) {
    std::vector<TimeUs> moves;
    for (const DayParts& p : parts) {
        for (const PastStop& move : p.moves) moves.push_back(move.start_us);
    }
    std::sort(moves.begin(), moves.end());
    std::vector<TimeUs> begins = {books.machines.front().stretches.front().start_us};
    TimeUs last_us = begins.front() - kOneMoveUs;
    for (const TimeUs move_us : moves) {
        if (move_us - last_us > kOneMoveUs && begins.size() < 40) begins.push_back(move_us);
        last_us = std::max(last_us, move_us);
    }
    return begins;
}

// When machine `p` came to the field that the gang came to at `begin_us`.
TimeUs own_begin_us(const DayParts& p, TimeUs begin_us) {
    for (const PastStop& move : p.moves) {
        if (move.start_us >= begin_us && move.start_us - begin_us <= kOneMoveUs) return move.start_us;
    }
    return begin_us;
}

double harvested_kg_by(const MachineBooks& m, TimeUs time_us) {
    return delivered_kg_by(m.minutes, time_us) + hopper_kg_at(m.minutes, time_us);
}

// A machine's kg in a field, by windows of work.
struct FieldWorkDone {
    double kg = 0.0;
    double seconds = 0.0;
    std::vector<double> ln_rates;  // of whole windows
};

FieldWorkDone work_in(const MachineBooks& m, const DayParts& p, TimeUs from_us, TimeUs to_us) {
    FieldWorkDone done;
    done.kg = harvested_kg_by(m, to_us) - harvested_kg_by(m, from_us);
    done.seconds = p.working_s_between(from_us, to_us);
    TimeUs window_us = from_us;
    for (TimeUs at_us = from_us; at_us <= to_us; at_us += 60 * kSecondUs) {
        const double seconds = p.working_s_between(window_us, at_us);
        if (seconds < kWindowS) continue;
        const double kg = harvested_kg_by(m, at_us) - harvested_kg_by(m, window_us);
        if (kg > 0.0) done.ln_rates.push_back(math::ln(kg / seconds));
        window_us = at_us;
    }
    return done;
}

// Posterior of the machines' paces and the fields' factors: a small linear model with normal errors.
class PaceFit {
  public:
    PaceFit(std::size_t machines, std::size_t fields, double field_ln_sd)
        : machines_(static_cast<Eigen::Index>(machines)),
          precision_(Eigen::MatrixXd::Zero(size(fields), size(fields))),
          pull_(Eigen::VectorXd::Zero(size(fields))) {
        for (Eigen::Index i = 0; i < precision_.rows(); ++i) {
            const double sd = i < machines_ ? kPaceLnSd : field_ln_sd;
            precision_(i, i) = 1.0 / (sd * sd);
            if (i < machines_) pull_(i) = kPaceLnMean / (sd * sd);
        }
    }
    void add(std::size_t machine, std::size_t field, double ln_rate, double variance) {
        const auto m = static_cast<Eigen::Index>(machine);
        const auto f = machines_ + static_cast<Eigen::Index>(field);
        const double weight = 1.0 / variance;
        precision_(m, m) += weight;
        precision_(f, f) += weight;
        precision_(m, f) += weight;
        precision_(f, m) += weight;
        pull_(m) += weight * ln_rate;
        pull_(f) += weight * ln_rate;
    }
    // The machines and the last field.
    void solve(GangModel& model) const {
        const Eigen::MatrixXd covariance = precision_.inverse();
        const Eigen::VectorXd mean = covariance * pull_;
        const Eigen::Index last = precision_.rows() - 1;
        Eigen::MatrixXd wanted(machines_ + 1, machines_ + 1);
        model.ln_mean.clear();
        for (Eigen::Index i = 0; i <= machines_; ++i) {
            const Eigen::Index from = i < machines_ ? i : last;
            model.ln_mean.push_back(mean(from));
            for (Eigen::Index j = 0; j <= machines_; ++j)
                wanted(i, j) = covariance(from, j < machines_ ? j : last);
        }
        const Eigen::MatrixXd root = wanted.llt().matrixL();
        for (Eigen::Index i = 0; i <= machines_; ++i) {
            for (Eigen::Index j = 0; j <= machines_; ++j) model.ln_root.push_back(root(i, j));
        }
    }

  private:
    [[nodiscard]] Eigen::Index size(std::size_t fields) const {
        return machines_ + static_cast<Eigen::Index>(fields);
    }
    Eigen::Index machines_;
    Eigen::MatrixXd precision_;
    Eigen::VectorXd pull_;
};

void fit_paces(const GangBooks& books, const std::vector<DayParts>& parts, const std::vector<TimeUs>& begins,
               const ForecastKeys& keys, GangModel& model) {
    struct Seen {
        std::size_t machine;
        std::size_t field;
        FieldWorkDone done;
    };
    std::vector<Seen> seen;
    double squares = kWindowsBefore * keys.rate_ln_sd * keys.rate_ln_sd;
    double freedom = kWindowsBefore;
    for (std::size_t i = 0; i < books.machines.size(); ++i) {
        for (std::size_t k = 0; k < begins.size(); ++k) {
            const TimeUs from_us = own_begin_us(parts[i], begins[k]);
            const TimeUs to_us = k + 1 < begins.size() ? own_begin_us(parts[i], begins[k + 1]) : books.now_us;
            FieldWorkDone done = work_in(books.machines[i], parts[i], from_us, to_us);
            if (done.seconds < kLeastWorkS || done.kg <= 0.0) continue;
            double mean = 0.0;
            for (const double ln_rate : done.ln_rates)
                mean += ln_rate / static_cast<double>(done.ln_rates.size());
            for (const double ln_rate : done.ln_rates) squares += (ln_rate - mean) * (ln_rate - mean);
            if (!done.ln_rates.empty()) freedom += static_cast<double>(done.ln_rates.size()) - 1.0;
            seen.push_back({i, k, std::move(done)});
        }
    }
    model.rate_ln_sd = std::sqrt(squares / freedom);
    PaceFit fit(books.machines.size(), begins.size(), keys.field_ln_sd);
    constexpr double kRunsOn = (1.0 + kWindowsAlike) / (1.0 - kWindowsAlike);
    for (const Seen& s : seen) {
        const double windows = s.done.seconds / kWindowS;
        const double variance = model.rate_ln_sd * model.rate_ln_sd * kRunsOn / std::max(windows, kRunsOn) +
                                keys.drift_ln_sd * keys.drift_ln_sd * windows * kWindowS / 3600.0 / 3.0;
        fit.add(s.machine, s.field, math::ln(s.done.kg / s.done.seconds), variance);
    }
    fit.solve(model);
}

StopLength length_of(const std::vector<double>& past_s, double median_min, double ln_sd) {
    StopLength length;
    const auto n = static_cast<double>(past_s.size());
    const double before = math::ln(60.0 * median_min);
    double sum = kLengthsBefore * before;
    for (const double s : past_s) sum += math::ln(s);
    length.weight = kLengthsBefore + n;
    length.ln_mean_s = sum / length.weight;
    double squares =
        kLengthsBefore * (ln_sd * ln_sd + (before - length.ln_mean_s) * (before - length.ln_mean_s));
    for (const double s : past_s) {
        const double off = math::ln(s) - length.ln_mean_s;
        squares += off * off;
    }
    length.ln_sd = std::sqrt(squares / length.weight);
    return length;
}

void count_stops(const std::vector<DayParts>& parts, const ForecastKeys& keys, GangModel& model) {
    std::vector<double> short_s;
    std::vector<double> long_s;
    std::vector<double> move_s;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const double hours = parts[i].working_s / 3600.0;
        MachineModel& m = model.machines[i];
        m.short_stops = {kShortStopsBefore, kShortStopsBefore / keys.short_stops_per_h + hours};
        m.breakdowns = {kBreakdownsBefore, kBreakdownsBefore / keys.breakdowns_per_h + hours};
        for (const PastStop& stop : parts[i].stops) {
            const bool breakdown = stop.seconds >= kBreakdownS;
            (breakdown ? m.breakdowns : m.short_stops).events += 1.0;
            (breakdown ? long_s : short_s).push_back(stop.seconds);
        }
        if (m.doing == Doing::stopped)
            (m.doing_s >= kBreakdownS ? m.breakdowns : m.short_stops).events += 1.0;
        for (const PastStop& move : parts[i].moves) move_s.push_back(move.seconds);
    }
    model.short_stop = length_of(short_s, keys.short_stop_min, keys.stop_ln_sd);
    model.breakdown = length_of(long_s, keys.breakdown_min, keys.stop_ln_sd);
    model.move = length_of(move_s, keys.move_min, 0.5 * keys.stop_ln_sd);
}

}  // namespace

GangModel gang_model(const GangBooks& books, const ForecastKeys& keys) {
    GangModel model;
    if (books.machines.empty()) return model;
    std::vector<DayParts> parts;
    for (const MachineBooks& m : books.machines) {
        parts.push_back(parts_of(m));
        const DayParts& p = parts.back();
        MachineModel machine;
        machine.id = m.id;
        machine.doing = p.doing;
        machine.doing_s = p.doing_s;
        machine.hopper_kg = std::max(0.0, m.hopper_kg);
        machine.capacity_kg = m.capacity_kg;
        if (p.working_s > kWindowS) machine.harvest_share = p.harvesting_s / p.working_s;
        for (const Tip& tip : p.tips) {
            if (tip.load_kg > 0.1 * m.capacity_kg) machine.loads_kg.push_back(tip.load_kg);
        }
        model.machines.push_back(std::move(machine));
        model.tips.insert(model.tips.end(), p.tips.begin(), p.tips.end());
    }
    const std::vector<TimeUs> begins = field_begins(books, parts);
    const double hours = static_cast<double>(books.now_us - begins.front()) / 3.6e9;
    model.moves = {kMovesBefore + static_cast<double>(begins.size()) - 1.0,
                   kMovesBefore / keys.moves_per_h + hours};
    model.field_ln_sd = keys.field_ln_sd;
    model.drift_ln_sd = keys.drift_ln_sd;
    model.wait_s = 60.0 * keys.wait_min;
    model.load_share = keys.load_share;
    fit_paces(books, parts, begins, keys, model);
    count_stops(parts, keys, model);
    return model;
}

}  // namespace podrate::sim
