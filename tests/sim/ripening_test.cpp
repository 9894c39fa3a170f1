// How ripe a field is believed to be, against drawing it a hundred thousand times.
#include <algorithm>
#include <catch2/catch.hpp>
#include <limits>
#include <random>

#include "maturity/ripening.hpp"

using namespace podrate::sim;

namespace {

constexpr double kStart = 1750982400.0;  // 27 June 2025, 00:00 UTC
constexpr double kDay = 86400.0;

std::shared_ptr<const HeatClock> by_days() {
    return std::make_shared<const HeatClock>(std::vector<WeatherDay>{}, MaturityKeys{}, "Etc/UTC", kStart,
                                             kStart + 20 * kDay, kStart + 2 * kDay);
}

std::vector<MaturityReading> read_at(const std::vector<std::pair<double, double>>& days_and_points) {
    std::vector<MaturityReading> readings;
    for (const auto& [day, points] : days_and_points)
        readings.push_back({kStart + day * kDay, "Long Acre", points});
    return readings;
}

// The same belief by draws: a rate, a level at the first reading, wandering from day to day, each draw
// weighed by how likely it makes the readings.
struct Drawn {
    std::vector<std::pair<double, double>> points_and_weight;
    [[nodiscard]] double above(double points) const {
        double sum = 0.0;
        double over = 0.0;
        for (const auto& [p, w] : points_and_weight) {
            sum += w;
            if (p > points) over += w;
        }
        return over / sum;
    }
};

Drawn drawn_at(const std::vector<std::pair<double, double>>& told, double day, double sd) {
    std::mt19937_64 random(7);
    std::normal_distribution<double> normal;
    Drawn drawn;
    for (int i = 0; i < 200000; ++i) {
        const double rate = 0.045 * std::exp(0.45 * normal(random));
        // About the first reading, which all draws must meet: weighed back to the wide belief below.
        const double wide = 3.0 * sd / told.front().second;
        const double off = wide * normal(random);
        double ln = std::log(told.front().second) + off;
        const double prior = ln - std::log(100.0);
        double weight = -0.5 * prior * prior + 0.5 * off * off / (wide * wide);
        double at = told.front().first;
        for (const auto& [then, points] : told) {
            ln += rate * (then - at) + 0.01 * std::sqrt(then - at) * normal(random);
            at = then;
            const double miss = (std::log(points) - ln) / (sd / points);
            weight -= 0.5 * miss * miss;
        }
        ln += rate * (day - at) + 0.01 * std::sqrt(day - at) * normal(random);
        drawn.points_and_weight.emplace_back(std::exp(ln), std::exp(weight));
    }
    return drawn;
}

}  // namespace

TEST_CASE("What is believed of a field is what weighed draws say") {
    const std::vector<std::vector<std::pair<double, double>>> cases = {
        {{0.3, 96}}, {{0.3, 92}, {1.3, 96}}, {{0.3, 88}, {1.3, 97}, {1.9, 103}}};
    for (const auto& told : cases) {
        const Ripening ripening(read_at(told), by_days(), MaturityKeys{});
        for (const double day : {told.back().first, told.back().first + 1.0, told.back().first + 3.0}) {
            const Drawn drawn = drawn_at(told, day, 2.0);
            const Believed believed = ripening.at(kStart + day * kDay);
            INFO(told.size() << " readings, day " << day);
            CHECK(drawn.above(believed.low) == Approx(0.95).margin(0.01));
            CHECK(drawn.above(believed.middle) == Approx(0.50).margin(0.015));
            CHECK(drawn.above(believed.high) == Approx(0.05).margin(0.01));
            for (const double points : {95.0, 100.0, 110.0})
                CHECK(ripening.chance_above(kStart + day * kDay, points) ==
                      Approx(drawn.above(points)).margin(0.015));
        }
    }
}

TEST_CASE("Many readings of one rise tell its rate and its time") {
    std::vector<std::pair<double, double>> told;
    for (int i = 0; i < 40; ++i) told.emplace_back(0.05 * i, 90.0 * std::exp(0.06 * 0.05 * i));
    const Ripening ripening(read_at(told), by_days(), MaturityKeys{});
    CHECK(ripening.rate().middle == Approx(6.0).margin(0.5));
    CHECK(ripening.rate().low < 6.0);
    CHECK(ripening.rate().high > 6.0);
    // 90 exp(0.06 d) = 100 at 1.756 days
    CHECK((ripening.when(100.0).middle - kStart) / kDay == Approx(1.756).margin(0.1));
    CHECK(ripening.when(100.0).low < ripening.when(100.0).middle);
    CHECK(ripening.when(100.0).high > ripening.when(100.0).middle);
}

TEST_CASE("Readings that contradict one another are each worth less, and that is told") {
    const Ripening agreed(read_at({{0.0, 90}, {1.0, 94}, {2.0, 98}}), by_days(), MaturityKeys{});
    CHECK(agreed.reading_sd() == 2.0);
    const Ripening odd(read_at({{0.0, 90}, {1.0, 60}, {2.0, 98}}), by_days(), MaturityKeys{});
    CHECK(odd.reading_sd() > 6.0);
    const auto width = [](const Ripening& r) {
        const Believed b = r.at(kStart + 3.0 * kDay);
        return b.high - b.low;
    };
    CHECK(width(odd) > 2.0 * width(agreed));
    const Believed then = odd.at(kStart + 3.0 * kDay);
    CHECK(then.low < agreed.at(kStart + 3.0 * kDay).middle);
    CHECK(then.high > agreed.at(kStart + 3.0 * kDay).middle);
}

TEST_CASE("Between two readings the belief leans on both, and is surest there") {
    const Ripening ripening(read_at({{0.0, 90}, {4.0, 110}}), by_days(), MaturityKeys{});
    const Believed middle = ripening.at(kStart + 2.0 * kDay);
    CHECK(middle.middle == Approx(std::sqrt(90.0 * 110.0)).margin(0.7));
    const auto width = [&](double day) {
        const Believed b = ripening.at(kStart + day * kDay);
        return b.high - b.low;
    };
    CHECK(width(4.0) < width(5.0));
    CHECK(width(5.0) < width(8.0));
}

TEST_CASE("Times before the first reading and beyond the outlook are told as such") {
    constexpr double kInfinity = std::numeric_limits<double>::infinity();
    const Ripening ripe(read_at({{1.0, 120}}), by_days(), MaturityKeys{});
    CHECK(ripe.when(100.0).low == -kInfinity);
    CHECK(ripe.when(100.0).high == -kInfinity);
    const Ripening green(read_at({{1.0, 60}}), by_days(), MaturityKeys{});
    CHECK(green.when(290.0).middle == kInfinity);
    const Believed when = ripe.when(125.0);
    CHECK(when.low <= when.middle);
    CHECK(when.middle < when.high);
}

TEST_CASE("A mean over two times is that of draws") {
    const Ripening ripening(read_at({{0.3, 92}, {1.3, 96}}), by_days(), MaturityKeys{});
    const double first_s = kStart + 2.0 * kDay;
    const Ripening::MeanSd same = ripening.expect(first_s, first_s, [](double a, double b) { return b - a; });
    CHECK(same.mean == Approx(0.0).margin(1e-9));
    CHECK(same.sd == Approx(0.0).margin(1e-6));
    const auto later =
        ripening.expect(first_s, first_s + kDay, [](double a, double b) { return std::log(b / a); });
    // Of ln the mean is the rate's, the spread the rate's and a day of wandering.
    CHECK(later.mean > 0.03);
    CHECK(later.mean < 0.06);
    CHECK(later.sd > 0.01);
    CHECK(later.sd < 0.03);
    const Drawn drawn = drawn_at({{0.3, 92}, {1.3, 96}}, 3.0, 2.0);
    double sum = 0.0;
    double weights = 0.0;
    for (const auto& [points, weight] : drawn.points_and_weight) {
        sum += weight * points;
        weights += weight;
    }
    const auto reading = ripening.expect(first_s, first_s + kDay, [](double, double b) { return b; });
    CHECK(reading.mean == Approx(sum / weights).margin(0.1));
}
