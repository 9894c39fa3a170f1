#include "analysis/variogram.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <unsupported/Eigen/LevenbergMarquardt>

namespace podrate::sim {

namespace {

// Share of the partial sill at h ranges.
double rise(VariogramShape shape, double h) {
    if (shape == VariogramShape::exponential) return -std::expm1(-h);
    return h < 1.0 ? h * (1.5 - 0.5 * h * h) : 1.0;
}

// Its slope by the logarithm of the range.
double rise_by_log_range(VariogramShape shape, double h) {
    if (shape == VariogramShape::exponential) return -h * std::exp(-h);
    return h < 1.0 ? -1.5 * h * (1.0 - h * h) : 0.0;
}

// Weighted misfit of a model to bins, as the library's search wants it. Unknowns: nugget, partial sill,
// logarithm of the range, so that the range stays positive.
class Misfit : public Eigen::DenseFunctor<double> {
  public:
    Misfit(const std::vector<VariogramBin>& bins, VariogramShape shape)
        : DenseFunctor(3, static_cast<int>(bins.size())), bins_(bins), shape_(shape) {}

    static InputType unknowns(const VariogramModel& model) {
        return Eigen::Vector3d(model.nugget, model.partial_sill, std::log(model.range_m));
    }

    // A search gone astray stays within what a double can hold.
    VariogramModel model(const InputType& unknowns) const {
        return {unknowns[0], unknowns[1], std::exp(std::clamp(unknowns[2], -50.0, 50.0)), shape_};
    }

    void hold_nugget() { nugget_free_ = 0.0; }
    void hold_sill() { sill_free_ = 0.0; }

    int operator()(const InputType& unknowns, ValueType& misfit) const {
        const VariogramModel tried = model(unknowns);
        for (Eigen::Index i = 0; i < values(); ++i)
            misfit[i] = weight(i) * (tried.gamma(bin(i).distance_m) - bin(i).gamma);
        return 0;
    }

    int df(const InputType& unknowns, JacobianType& slopes) const {
        const VariogramModel tried = model(unknowns);
        for (Eigen::Index i = 0; i < values(); ++i) {
            const double h = bin(i).distance_m / tried.range_m;
            slopes(i, 0) = weight(i) * nugget_free_;
            slopes(i, 1) = weight(i) * sill_free_ * rise(shape_, h);
            slopes(i, 2) = weight(i) * tried.partial_sill * rise_by_log_range(shape_, h);
        }
        return 0;
    }

  private:
    const VariogramBin& bin(Eigen::Index i) const { return bins_[static_cast<std::size_t>(i)]; }
    // Root of pairs / distance^2.
    double weight(Eigen::Index i) const {
        return std::sqrt(static_cast<double>(bin(i).pairs)) / bin(i).distance_m;
    }

    const std::vector<VariogramBin>& bins_;
    VariogramShape shape_;
    double nugget_free_ = 1.0;  // 0 while held
    double sill_free_ = 1.0;
};

VariogramModel least(Misfit& misfit, const VariogramModel& start) {
    Misfit::InputType unknowns = Misfit::unknowns(start);
    Eigen::LevenbergMarquardt<Misfit> search(misfit);
    search.setFtol(1e-15);
    search.setXtol(1e-12);
    search.setFactor(1.0);  // short steps: a long one can leap to a range below every bin, where all is level
    search.setMaxfev(2000);
    search.minimize(unknowns);
    return misfit.model(unknowns);
}

VariogramModel fit(const std::vector<VariogramBin>& all_bins, VariogramModel start, VariogramShape shape) {
    start.shape = shape;
    std::vector<VariogramBin> bins;
    std::copy_if(all_bins.begin(), all_bins.end(), std::back_inserter(bins),
                 [](const VariogramBin& bin) { return bin.distance_m > 0.0; });
    if (bins.size() < 3) return start;
    Misfit misfit(bins, shape);
    VariogramModel fitted = least(misfit, start);
    // The second hold can only follow the first: at most three searches.
    while (fitted.nugget < 0.0 || fitted.partial_sill < 0.0) {
        if (fitted.nugget < 0.0) {
            misfit.hold_nugget();
            start.nugget = 0.0;
        }
        if (fitted.partial_sill < 0.0) {
            misfit.hold_sill();
            start.partial_sill = 0.0;
        }
        fitted = least(misfit, start);
    }
    return fitted;
}

}  // namespace

std::vector<VariogramBin> empirical_variogram(const std::vector<VariogramPoint>& points, double cutoff_m,
                                              double bin_m) {
    std::vector<VariogramBin> bins(static_cast<std::size_t>(std::max(cutoff_m, 0.0) / bin_m) + 1);
    for (auto a = points.begin(); a != points.end(); ++a) {
        for (auto b = points.begin(); b != a; ++b) {
            if (a->group != b->group) continue;
            const double east_m = a->east_m - b->east_m;
            const double north_m = a->north_m - b->north_m;
            const double distance_m = std::sqrt(east_m * east_m + north_m * north_m);
            if (!(distance_m <= cutoff_m)) continue;
            const double upper_edge = std::max(std::ceil(distance_m / bin_m), 1.0);
            VariogramBin& bin = bins[static_cast<std::size_t>(upper_edge) - 1];
            ++bin.pairs;
            bin.distance_m += distance_m;
            bin.gamma += (a->value - b->value) * (a->value - b->value);
        }
    }
    bins.erase(
        std::remove_if(bins.begin(), bins.end(), [](const VariogramBin& bin) { return bin.pairs == 0; }),
        bins.end());
    for (VariogramBin& bin : bins) {
        const auto pairs = static_cast<double>(bin.pairs);
        bin.distance_m /= pairs;
        bin.gamma /= 2.0 * pairs;
    }
    return bins;
}

double VariogramModel::gamma(double h_m) const {
    return h_m > 0.0 ? nugget + partial_sill * rise(shape, h_m / range_m) : 0.0;
}

VariogramModel fit_exponential(const std::vector<VariogramBin>& bins, const VariogramModel& start) {
    return fit(bins, start, VariogramShape::exponential);
}

VariogramModel fit_spherical(const std::vector<VariogramBin>& bins, const VariogramModel& start) {
    return fit(bins, start, VariogramShape::spherical);
}

}  // namespace podrate::sim
