// Figures marked R were printed by tests/reference/tuning.R.
#include "tune/intervals.hpp"

#include <catch2/catch.hpp>

#include "plan/path_random.hpp"
#include "sim/tune_tables.hpp"
#include "tune/graded_area.hpp"
#include "tune/place_draws.hpp"

using namespace podrate;
using namespace podrate::sim;
using podrate::test::alarm_tally;
using podrate::test::kLossHigh;

namespace {

// One setting whose loss alarm has that tally at each place.
TuneTable table_of(const std::vector<AlarmTally>& tallies) {
    TuneTable table;
    table.settings = {{{}}};
    table.tallies.resize(1);
    for (const AlarmTally& tally : tallies) {
        table.on.push_back({"d" + std::to_string(table.on.size()), "m"});
        table.tallies[0].emplace_back().alarms[kLossHigh] = tally;
    }
    return table;
}

Range range_of(const TuneTable& table, AlarmFigure figure, std::size_t draws, std::uint64_t seed) {
    const PlaceDraws drawn(table.on.size(), draws, seed);
    const AlarmRow row(table, 0, kLossHigh);
    std::vector<double> values;
    for (std::size_t draw = 0; draw < draws; ++draw)
        values.push_back(of(row.figures(drawn.times(draw)), figure));
    return bootstrap_range(values, table.on.size(), 0.9);
}

int poisson(PathRandom& random, double mean) {
    int count = 0;
    for (double at = random.exponential(1.0); at < mean; at += random.exponential(1.0)) ++count;
    return count;
}

// How often the 90 % range holds the true false alarms per hour. A day's rate is the mean's times a gamma of
// that shape over its shape.
double rate_coverage(int days, double per_h, double shape, std::uint64_t seed) {
    constexpr int kTrials = 800;
    int held = 0;
    for (int trial = 0; trial < kTrials; ++trial) {
        PathRandom random(seed, static_cast<std::uint64_t>(trial), 1);
        std::vector<AlarmTally> tallies;
        for (int day = 0; day < days; ++day) {
            const double rate = per_h * random.gamma(shape) / shape;
            const int count = poisson(random, 9.0 * rate);
            tallies.push_back(alarm_tally(0, {}, count, count, 9.0));
        }
        if (range_of(table_of(tallies), AlarmFigure::false_per_h, 300, 7).holds(per_h)) ++held;
    }
    return static_cast<double>(held) / kTrials;
}

double detection_coverage(int days, double share, std::uint64_t seed) {
    constexpr int kTrials = 800;
    int held = 0;
    for (int trial = 0; trial < kTrials; ++trial) {
        PathRandom random(seed, static_cast<std::uint64_t>(trial), 2);
        std::vector<AlarmTally> tallies;
        for (int day = 0; day < days; ++day) {
            AlarmTally tally;
            tally.episodes = 1 + poisson(random, 4.0);
            for (int i = 0; i < tally.episodes; ++i) tally.told += random.uniform() < share ? 1 : 0;
            tallies.push_back(tally);
        }
        if (range_of(table_of(tallies), AlarmFigure::detection, 300, 7).holds(share)) ++held;
    }
    return static_cast<double>(held) / kTrials;
}

}  // namespace

TEST_CASE("Wilson's range of a share is that of R") {
    struct Case {
        double k, n, level, low, high;
    };
    for (const Case& c :
         {Case{0, 7, 0.9, 0, 0.278762695453}, Case{19, 20, 0.9, 0.803992763226, 0.988765183149},
          Case{38, 40, 0.95, 0.834961226309, 0.986179332614}, Case{5, 5, 0.9, 0.648883499235, 1},
          Case{130, 400, 0.99, 0.267958774804, 0.387752033171}}) {
        INFO(c.k << " of " << c.n);
        const Range range = wilson_range(c.k, c.n, c.level);
        CHECK(range.low == Approx(c.low).epsilon(1e-10).margin(1e-14));
        CHECK(range.high == Approx(c.high).epsilon(1e-10));
    }
    CHECK_FALSE(wilson_range(0, 0, 0.9).known());
}

TEST_CASE("Student's quantiles and the bounds of a rate are those of R") {
    struct Case {
        double p;
        int degrees;
        double quantile;
    };
    for (const Case& c :
         {Case{0.95, 1, 6.31375151468}, Case{0.95, 2, 2.91998558035}, Case{0.975, 5, 2.57058183564},
          Case{0.05, 8, -1.85954803753}, Case{0.995, 29, 2.75638590367}}) {
        INFO(c.p << " with " << c.degrees);
        CHECK(student_quantile(c.p, c.degrees) == Approx(c.quantile).epsilon(1e-10));
    }
    for (const auto& [count, bound] : {std::pair{0.0, 0.299573227355},
                                       {1.0, 0.474386451839},
                                       {3.0, 0.775365652793},
                                       {9.0, 1.57052164221},
                                       {400.0, 43.4496809153}})
        CHECK(rate_bound(count, 10.0, 0.9) == Approx(bound).epsilon(1e-9));
}

TEST_CASE("The area under detection and false alarms and its sd are those of pROC on its own data") {
    // aSAH (Turck and others, Intensive Care Medicine 36: 107-115, 2010): poor and good outcomes by grade.
    const GradedArea by_grade = graded_area({{18, 4}, {8, 8}, {1, 3}, {12, 20}, {2, 37}});
    CHECK(by_grade.area == Approx(0.823678861789).epsilon(1e-11));
    CHECK(by_grade.sd == Approx(0.0383394667259).epsilon(1e-10));
    const GradedArea by_protein =
        graded_area({{1, 0}, {1, 0}, {1, 0}, {1, 0}, {1, 0}, {1, 0}, {2, 0}, {1, 0}, {1, 0}, {1, 0},
                     {1, 0}, {0, 2}, {1, 0}, {1, 1}, {0, 2}, {0, 1}, {0, 1}, {2, 0}, {0, 1}, {1, 0},
                     {0, 1}, {1, 0}, {0, 1}, {1, 1}, {1, 1}, {1, 0}, {0, 1}, {1, 0}, {1, 0}, {1, 0},
                     {0, 1}, {1, 0}, {1, 0}, {0, 2}, {0, 1}, {0, 2}, {1, 3}, {0, 4}, {1, 4}, {2, 3},
                     {1, 0}, {1, 4}, {2, 7}, {2, 6}, {1, 6}, {3, 6}, {0, 2}, {0, 3}, {0, 5}, {1, 0}});
    CHECK(by_protein.area == Approx(0.731368563686).epsilon(1e-11));
    CHECK(by_protein.sd == Approx(0.05165929207).epsilon(1e-10));
    CHECK(graded_area({{3, 0}, {0, 5}}).area == 1.0);
    CHECK(graded_area({{3, 5}}).area == 0.5);
    CHECK(std::isnan(graded_area({{3, 1}}).area));
}

TEST_CASE("A bootstrap of whole days gives the range of R's boot") {
    const std::vector<int> false_alarms = {3, 0, 7, 2, 1, 12, 4, 0, 5, 2, 9, 1};
    const std::vector<double> hours = {9, 11, 10, 8, 12, 10, 9, 7, 10, 11, 10, 6};
    std::vector<AlarmTally> tallies;
    for (std::size_t i = 0; i < hours.size(); ++i)
        tallies.push_back(alarm_tally(0, {}, false_alarms[i], false_alarms[i], hours[i]));
    // 400,000 draws there, 100,000 here: percentiles this far out are known to about 0.002.
    const Range range = range_of(table_of(tallies), AlarmFigure::false_per_h, 100000, 1);
    CHECK(range.low == Approx(0.215517241379).margin(0.004));
    CHECK(range.high == Approx(0.619469026549).margin(0.004));
}

TEST_CASE("A bootstrap of one day or of figures that are mostly not there tells nothing") {
    std::vector<double> values(100, 1.0);
    CHECK_FALSE(bootstrap_range(values, 1, 0.9).known());
    CHECK(bootstrap_range(values, 2, 0.9).known());
    std::fill_n(values.begin(), 11, std::nan(""));
    CHECK_FALSE(bootstrap_range(values, 2, 0.9).known());
    std::vector<double> none;
    CHECK_FALSE(bootstrap_range(none, 5, 0.9).known());
}

TEST_CASE("Ranges of the bootstrap hold the truth about as often as they say") {
    // 800 trials know a share of 0.9 to 0.011 (one sd).
    CHECK(rate_coverage(20, 0.5, 1e6, 11) == Approx(0.90).margin(0.035));
    CHECK(rate_coverage(20, 0.5, 4.0, 12) == Approx(0.90).margin(0.035));
    CHECK(detection_coverage(20, 0.8, 13) == Approx(0.90).margin(0.035));
    // Few days do not show how unlike days are: 0.86 of six and 0.74 of three, widened as they are. The page
    // says so.
    const double six_days = rate_coverage(6, 0.5, 4.0, 14);
    CHECK(six_days > 0.82);
    CHECK(six_days < 0.92);
    const double three_days = rate_coverage(3, 0.5, 4.0, 14);
    CHECK(three_days > 0.69);
    CHECK(three_days < 0.79);
}
