#include "tune/search.hpp"

#include <algorithm>
#include <cmath>
#include <exception>
#include <map>
#include <nlopt.hpp>

namespace podrate::sim {
namespace {

constexpr double kEverywhereShare = 0.6;  // of the places: all over the ranges, before the best is refined
constexpr int kAsksPerPlace = 20;         // where rounding brings the optimiser to the same place again
constexpr double kFirstStep = 0.1;        // of the range, when refining
constexpr double kLastStep = 1e-4;

class StepwiseSearch {
  public:
    StepwiseSearch(const std::vector<SearchRange>& ranges, const SearchFunction& function)
        : ranges_(ranges), function_(function) {}

    // Until `most` places are known, or the algorithm has come to its end.
    void run(nlopt::algorithm algorithm, std::vector<double> from, int most) {
        most_ = static_cast<std::size_t>(most);
        nlopt::opt optimiser(algorithm, static_cast<unsigned>(ranges_.size()));
        optimiser.set_lower_bounds(0.0);
        optimiser.set_upper_bounds(1.0);
        optimiser.set_min_objective(ask, this);
        optimiser.set_maxeval(kAsksPerPlace * most);
        optimiser.set_xtol_abs(kLastStep);
        optimiser.set_initial_step(kFirstStep);
        double least = 0.0;
        try {
            optimiser.optimize(from, least);
        } catch (const nlopt::forced_stop&) {
        } catch (const nlopt::roundoff_limited&) {
        }
        if (failure_) std::rethrow_exception(failure_);
    }

    [[nodiscard]] std::vector<double> best_unit() const { return best_unit_; }
    [[nodiscard]] std::vector<double> best() const { return best_; }

  private:
    static double ask(const std::vector<double>& unit, std::vector<double>&, void* self) {
        auto* search = static_cast<StepwiseSearch*>(self);
        try {
            return search->value_at(unit);
        } catch (const nlopt::forced_stop&) {
            throw;
        } catch (...) {
            // The optimiser would make a failure of its own of it.
            search->failure_ = std::current_exception();
            throw nlopt::forced_stop();
        }
    }

    [[nodiscard]] double value_in(const SearchRange& range, double unit) const {
        const double value = range.low + unit * (range.high - range.low);
        if (range.step <= 0.0) return value;
        return std::clamp(std::round(value / range.step) * range.step, range.low, range.high);
    }

    double value_at(const std::vector<double>& unit) {
        std::vector<double> place;
        for (std::size_t i = 0; i < ranges_.size(); ++i) place.push_back(value_in(ranges_[i], unit[i]));
        const auto known = known_.find(place);
        if (known != known_.end()) return known->second;
        if (known_.size() >= most_) throw nlopt::forced_stop();
        const double value = function_(place);
        if (known_.empty() || value < least_) {
            least_ = value;
            best_ = place;
            best_unit_ = unit;
        }
        known_.emplace(place, value);
        return value;
    }

    const std::vector<SearchRange>& ranges_;
    const SearchFunction& function_;
    std::size_t most_ = 0;
    std::map<std::vector<double>, double> known_;
    double least_ = 0.0;
    std::vector<double> best_;
    std::vector<double> best_unit_;
    std::exception_ptr failure_;
};

}  // namespace

std::vector<double> search_least(const std::vector<SearchRange>& ranges, int most,
                                 const SearchFunction& function) {
    StepwiseSearch search(ranges, function);
    const std::vector<double> middle(ranges.size(), 0.5);
    search.run(nlopt::GN_DIRECT_L, middle, std::max(1, static_cast<int>(kEverywhereShare * most)));
    search.run(nlopt::LN_SBPLX, search.best_unit(), most);
    return search.best();
}

}  // namespace podrate::sim
