#include "maturity/ripening.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "plan/normal_quantile.hpp"

namespace podrate::sim {
namespace {

constexpr int kRates = 61;
constexpr double kRateReach = 3.5;         // standard deviations of ln rate that the grid spans
constexpr double kLnRateSd = 0.45;         // of ln rate beforehand; common practice, no source
constexpr double kUsualHeat = 12.0;        // heat units of a day that ripening_pct_per_day is told for
constexpr double kWanderPerDay = 0.01;     // sd of ln reading after a day, besides heat; common practice
constexpr double kLnUsualReading = 4.605;  // 100 points
constexpr double kLnUsualSd = 1.0;
constexpr double kWanderDayS = 86400.0;
constexpr double kToTheSecond = 1.0;
// Readings that miss one another by more than chance lets them are each worth less (Birge, Phys. Rev. 40
// (1932) 207): mean square of the surprises above which that is done. Even a pair has more only once in
// twenty.
constexpr double kContradicting = 4.0;
constexpr double kLowShare = 0.05;
constexpr double kHighShare = 0.95;

}  // namespace

Ripening::Ripening(std::vector<MaturityReading> readings, std::shared_ptr<const HeatClock> clock,
                   const MaturityKeys& keys)
    : readings_(std::move(readings)), clock_(std::move(clock)), reading_sd_(keys.reading_sd) {
    const double usual = keys.ripening_pct_per_day / 100.0 / (clock_->by_heat() ? kUsualHeat : 1.0);
    learn(usual);
    if (readings_.size() < 2) return;
    double misfit = 0.0;
    for (const Rate& rate : rates_) misfit += rate.weight * rate.misfit;
    misfit /= static_cast<double>(readings_.size() - 1);
    if (misfit <= kContradicting) return;
    reading_sd_ *= std::sqrt(misfit);
    learn(usual);
}

void Ripening::learn(double usual) {
    rates_.clear();
    double most = -std::numeric_limits<double>::infinity();
    for (int i = 0; i < kRates; ++i) {
        const double deviation = kRateReach * (2.0 * i / (kRates - 1) - 1.0);
        Rate rate;
        rate.per_unit = usual * std::exp(kLnRateSd * deviation);
        rate.weight = -0.5 * deviation * deviation;  // its ln, until all are known
        weigh(rate);
        most = std::max(most, rate.weight);
        rates_.push_back(std::move(rate));
    }
    double sum = 0.0;
    for (Rate& rate : rates_) sum += rate.weight = std::exp(rate.weight - most);
    for (Rate& rate : rates_) rate.weight /= sum;
}

double Ripening::wander(double from_s, double to_s) const {
    return kWanderPerDay * kWanderPerDay * std::abs(to_s - from_s) / kWanderDayS;
}

void Ripening::weigh(Rate& rate) const {
    // Levels are ln readings less what the rate adds from the first reading on.
    const auto told = [&](std::size_t i) {
        const MaturityReading& r = readings_[i];
        const double sd = reading_sd_ / r.tenderometer;
        return Level{std::log(r.tenderometer) - rate.per_unit * clock_->at(r.unix_s), sd * sd};
    };
    const auto joined = [](const Level& a, const Level& b) {
        const double gain = a.variance / (a.variance + b.variance);
        return Level{a.mean + gain * (b.mean - a.mean), (1.0 - gain) * a.variance};
    };
    const double start = rate.per_unit * clock_->at(readings_.front().unix_s);
    Level level{kLnUsualReading - start, kLnUsualSd * kLnUsualSd};
    for (std::size_t i = 0; i < readings_.size(); ++i) {
        if (i > 0) level.variance += wander(readings_[i - 1].unix_s, readings_[i].unix_s);
        const Level reading = told(i);
        const double off = reading.mean - level.mean;
        const double variance = reading.variance + level.variance;
        if (i > 0) rate.misfit += off * off / variance;
        rate.weight -= 0.5 * (off * off / variance + std::log(variance));
        level = joined(level, reading);
        rate.so_far.push_back(level);
    }
    rate.from_then.resize(readings_.size());
    for (std::size_t i = readings_.size(); i-- > 0;) {
        Level later = told(i);
        if (i + 1 < readings_.size()) {
            Level next = rate.from_then[i + 1];
            next.variance += wander(readings_[i].unix_s, readings_[i + 1].unix_s);
            later = joined(next, later);
        }
        rate.from_then[i] = later;
    }
}

Ripening::Level Ripening::level_at(const Rate& rate, double unix_s) const {
    std::size_t next = 0;
    while (next < readings_.size() && readings_[next].unix_s <= unix_s) ++next;
    Level level{0.0, -1.0};
    if (next > 0) {
        level = rate.so_far[next - 1];
        level.variance += wander(readings_[next - 1].unix_s, unix_s);
    }
    if (next < readings_.size()) {
        Level later = rate.from_then[next];
        later.variance += wander(unix_s, readings_[next].unix_s);
        if (level.variance < 0.0) {
            level = later;
        } else {
            const double gain = level.variance / (level.variance + later.variance);
            level = {level.mean + gain * (later.mean - level.mean), (1.0 - gain) * level.variance};
        }
    }
    level.mean += rate.per_unit * clock_->at(unix_s);
    level.variance += rate.per_unit * rate.per_unit * clock_->variance_at(unix_s);
    return level;
}

double Ripening::chance_above(double unix_s, double points) const {
    double chance = 0.0;
    for (const Rate& rate : rates_) {
        const Level level = level_at(rate, unix_s);
        chance += rate.weight * normal_below((level.mean - std::log(points)) / std::sqrt(level.variance));
    }
    return chance;
}

Believed Ripening::at(double unix_s) const {
    std::vector<Level> levels;
    for (const Rate& rate : rates_) levels.push_back(level_at(rate, unix_s));
    const auto quantile = [&](double share) {
        double low = 0.0;
        double high = 10.0;
        for (int i = 0; i < 50; ++i) {
            const double ln = 0.5 * (low + high);
            double below = 0.0;
            for (std::size_t k = 0; k < levels.size(); ++k)
                below +=
                    rates_[k].weight * normal_below((ln - levels[k].mean) / std::sqrt(levels[k].variance));
            (below < share ? low : high) = ln;
        }
        return std::exp(low);
    };
    return {quantile(kLowShare), quantile(0.5), quantile(kHighShare)};
}

// The first time at which it is `points` or more with a chance of `share`.
double Ripening::crossed(double share, double points) const {
    double early_s = readings_.front().unix_s;
    double late_s = clock_->last_s();
    if (chance_above(early_s, points) >= share) return -std::numeric_limits<double>::infinity();
    if (chance_above(late_s, points) < share) return std::numeric_limits<double>::infinity();
    while (late_s - early_s > kToTheSecond) {
        const double middle_s = 0.5 * (early_s + late_s);
        (chance_above(middle_s, points) >= share ? late_s : early_s) = middle_s;
    }
    return late_s;
}

Believed Ripening::when(double points) const {
    return {crossed(kLowShare, points), crossed(0.5, points), crossed(kHighShare, points)};
}

Believed Ripening::rate() const {
    const auto quantile = [this](double share) {
        double below = 0.0;
        for (const Rate& rate : rates_) {
            below += rate.weight;
            if (below >= share) return 100.0 * rate.per_unit;
        }
        return 100.0 * rates_.back().per_unit;
    };
    return {quantile(kLowShare), quantile(0.5), quantile(kHighShare)};
}

}  // namespace podrate::sim
