#include "tune/nested_effects.hpp"

#include <nlopt.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace podrate::sim {
namespace {

struct Spreads {
    double machine_sd = 0.0;
    double day_sd = 0.0;
};

// A machine's measurements summed up for given spreads: what the inverse of its covariance needs
// (Sherman and Morrison).
struct MachineSums {
    double weight = 0.0;       // of all its measurements
    double weighed_sum = 0.0;  // of values
    double weighed_squares = 0.0;
    double ln_variances = 0.0;
    double shrink = 1.0;  // 1 / (1 + machine variance x weight)
};

class NestedModel {
  public:
    NestedModel(const std::vector<Measured>& all, SpreadFit how) : all_(all), how_(how) {
        for (const Measured& one : all) machines_ = std::max(machines_, one.machine + 1);
        std::vector<int> days(machines_, 0);
        for (const Measured& one : all) ++days[one.machine];
        for (const int count : days) {
            seen_ += count > 0 ? 1 : 0;
            repeated_ = repeated_ || count > 1;
        }
    }

    [[nodiscard]] NestedEffects at(const Spreads& spreads) const {
        const double machine_var = spreads.machine_sd * spreads.machine_sd;
        const double day_var = spreads.day_sd * spreads.day_sd;
        std::vector<MachineSums> sums(machines_);
        for (const Measured& one : all_) {
            MachineSums& sum = sums[one.machine];
            const double variance = one.variance + day_var;
            sum.weight += 1.0 / variance;
            sum.weighed_sum += one.value / variance;
            sum.weighed_squares += one.value * one.value / variance;
            sum.ln_variances += std::log(variance);
        }
        NestedEffects fit;
        fit.machine_sd = spreads.machine_sd;
        fit.day_sd = spreads.day_sd;
        double information = 0.0;
        double told = 0.0;
        for (MachineSums& sum : sums) {
            sum.shrink = 1.0 / (1.0 + machine_var * sum.weight);
            information += sum.shrink * sum.weight;
            told += sum.shrink * sum.weighed_sum;
        }
        fit.mean = told / information;
        fit.mean_sd = 1.0 / std::sqrt(information);
        double minus_twice = std::log(information);
        for (const MachineSums& sum : sums) {
            const double off = sum.weighed_sum - fit.mean * sum.weight;
            const double squares =
                sum.weighed_squares - 2.0 * fit.mean * sum.weighed_sum + fit.mean * fit.mean * sum.weight;
            minus_twice +=
                sum.ln_variances - std::log(sum.shrink) + squares - machine_var * off * off * sum.shrink;
            const double own_var = machine_var * sum.shrink;
            fit.machines.push_back({machine_var * off * sum.shrink,
                                    std::hypot(std::sqrt(own_var), (1.0 - sum.shrink) * fit.mean_sd),
                                    std::hypot(std::sqrt(own_var), sum.shrink * fit.mean_sd)});
        }
        fit.log_likelihood = -0.5 * minus_twice;
        return fit;
    }

    [[nodiscard]] NestedEffects best() const {
        const double start = scale() / 2.0;
        // The surface may have a ridge: from several sides, and the best of all.
        NestedEffects best;
        double highest = -std::numeric_limits<double>::infinity();
        for (const Spreads& from :
             {Spreads{start, start}, Spreads{2 * start, 0.1 * start}, Spreads{0.1 * start, 2 * start}}) {
            const Spreads top = climbed(from);
            const double height = height_at(top);
            if (height > highest) {
                best = at(top);
                highest = height;
            }
        }
        return best;
    }

  private:
    [[nodiscard]] bool machines_differ() const { return seen_ > 1; }
    [[nodiscard]] bool days_differ() const { return repeated_ || seen_ < 2; }

    // What is climbed.
    [[nodiscard]] double height_at(const Spreads& spreads) const {
        double height = at(spreads).log_likelihood;
        if (how_ == SpreadFit::restricted) return height;
        const auto above_zero = [](double sd) { return std::log(std::max(sd, kLeastSd)) - sd; };
        if (machines_differ()) height += above_zero(spreads.machine_sd);
        if (days_differ()) height += above_zero(spreads.day_sd);
        return height;
    }

    // Of the values, or of their doubt where that is more.
    [[nodiscard]] double scale() const {
        double low = all_.front().value;
        double high = low;
        double variance = 0.0;
        for (const Measured& one : all_) {
            low = std::min(low, one.value);
            high = std::max(high, one.value);
            variance = std::max(variance, one.variance);
        }
        return std::max({high - low, std::sqrt(variance), kLeastSd});
    }

    [[nodiscard]] Spreads climbed(const Spreads& from) const {
        constexpr int kMostSteps = 4000;
        const double most = 10.0 * scale();
        double sds[2] = {machines_differ() ? from.machine_sd : 0.0, days_differ() ? from.day_sd : 0.0};
        const double low[2] = {0.0, 0.0};
        const double high[2] = {machines_differ() ? most : 0.0, days_differ() ? most : 0.0};
        nlopt_opt search = nlopt_create(NLOPT_LN_SBPLX, 2);
        nlopt_set_lower_bounds(search, low);
        nlopt_set_upper_bounds(search, high);
        nlopt_set_max_objective(
            search,
            [](unsigned, const double* x, double*, void* model) {
                return static_cast<const NestedModel*>(model)->height_at({x[0], x[1]});
            },
            const_cast<NestedModel*>(this));
        nlopt_set_xtol_rel(search, 1e-10);
        nlopt_set_ftol_abs(search, 1e-14);
        nlopt_set_maxeval(search, kMostSteps);
        double found = 0.0;
        nlopt_optimize(search, sds, &found);
        nlopt_destroy(search);
        return {sds[0], sds[1]};
    }

    static constexpr double kLeastSd = 1e-6;

    const std::vector<Measured>& all_;
    SpreadFit how_;
    std::size_t machines_ = 0;
    int seen_ = 0;           // machines with a measurement
    bool repeated_ = false;  // one of them has more than one
};

}  // namespace

double NestedEffects::new_sd() const {
    return std::sqrt(machine_sd * machine_sd + day_sd * day_sd + mean_sd * mean_sd);
}

std::optional<NestedEffects> fit_nested(const std::vector<Measured>& all, SpreadFit how) {
    if (all.size() < 2) return std::nullopt;
    return NestedModel(all, how).best();
}

std::vector<double> left_out_residuals(const std::vector<Measured>& all, SpreadFit how) {
    std::vector<double> residuals;
    for (std::size_t i = 0; i < all.size(); ++i) {
        std::vector<Measured> others = all;
        others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
        const auto fit = fit_nested(others, how);
        if (!fit) {
            residuals.push_back(0.0);
            continue;
        }
        // A machine without another day is one not seen yet.
        const bool seen = all[i].machine < fit->machines.size();
        const double level = fit->mean + (seen ? fit->machines[all[i].machine].offset : 0.0);
        const double level_sd =
            seen ? fit->machines[all[i].machine].level_sd : std::hypot(fit->machine_sd, fit->mean_sd);
        const double sd = std::hypot(std::hypot(fit->day_sd, level_sd), std::sqrt(all[i].variance));
        residuals.push_back((all[i].value - level) / sd);
    }
    return residuals;
}

}  // namespace podrate::sim
