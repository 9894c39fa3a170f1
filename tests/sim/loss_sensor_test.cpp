// The sensor that counts what the drum loses, and the drum's loss apart from the reel's.
#include "synth/sense/loss_sensor.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "synth/machine/drum.hpp"

using namespace podrate;
using namespace podrate::sim;

namespace {

// Five standard deviations of chance: with fixed seeds the outcome is fixed too, so these hold or do not.
constexpr double kSigmas = 5.0;
constexpr double kStepS = 0.1;

// A sensor that misses nothing and whose gain stays.
ScenarioHits plain(double per_kg, double false_per_kg = 0.0) {
    ScenarioHits told;
    told.per_kg = per_kg;
    told.false_per_kg = false_per_kg;
    told.delay_s = 0.0;
    told.dead_time_s = 0.0;
    told.gain_sd = 0.0;
    return told;
}

// Hits in each of so many windows, at an even loss and feed.
std::vector<double> counts_of(const ScenarioHits& told, double lost_kgps, double feed_kgps, int windows,
                              double window_s) {
    LossSensor sensor(told, 1, "viner_1");
    std::vector<double> counts;
    long before = 0;
    for (int i = 1; i <= windows; ++i) {
        sensor.pass(i * window_s, lost_kgps, feed_kgps, window_s);
        const long now = sensor.hits_by(i * window_s);
        counts.push_back(static_cast<double>(now - before));
        before = now;
    }
    return counts;
}

struct Moments {
    double mean = 0.0;
    double variance = 0.0;
    double skewness = 0.0;
    double with_next = 0.0;  // correlation of neighbours
};

Moments moments_of(const std::vector<double>& values) {
    Moments m;
    const auto n = static_cast<double>(values.size());
    for (const double value : values) m.mean += value / n;
    double third = 0.0;
    double product = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double off = values[i] - m.mean;
        m.variance += off * off / n;
        third += off * off * off / n;
        if (i > 0) product += off * (values[i - 1] - m.mean) / n;
    }
    m.skewness = third / std::pow(m.variance, 1.5);
    m.with_next = product / m.variance;
    return m;
}

}  // namespace

TEST_CASE("Hits of peas and haulm together are counted as Poisson's") {
    // 10 a second of peas, 2 of haulm.
    constexpr int kMany = 100000;
    const Moments m = moments_of(counts_of(plain(200.0, 0.25), 0.05, 8.0, kMany, 1.0));
    const double rate = 12.0;
    const double root_n = std::sqrt(static_cast<double>(kMany));
    CHECK(m.mean == Approx(rate).margin(kSigmas * std::sqrt(rate) / root_n));
    CHECK(m.variance == Approx(rate).margin(kSigmas * std::sqrt(rate + 2.0 * rate * rate) / root_n));
    CHECK(m.skewness == Approx(1.0 / std::sqrt(rate)).margin(kSigmas * std::sqrt(6.5) / root_n));
    CHECK(m.with_next == Approx(0.0).margin(kSigmas / root_n));
}

TEST_CASE("A dead time takes its share of the hits and of their spread") {
    // n / (1 + n tau), of variance n / (1 + n tau)^3: 200 a second with 2.5 ms are seen as 133.3, where a
    // dead time that missed hits prolong would show 121.3.
    const struct {
        double rate_ps;
        double dead_s;
        double seen_ps;
    } rows[] = {{200.0, 0.0025, 133.333},
                {50.0, 0.0005, 48.780},
                {1000.0, 0.0005, 666.667},
                {400.0, 0.01, 80.0},
                {20.0, 0.0, 20.0}};
    for (const auto& row : rows) {
        INFO(row.rate_ps << " a second, " << row.dead_s << " s");
        ScenarioHits told = plain(1000.0);
        told.dead_time_s = row.dead_s;
        constexpr int kMany = 4000;
        const Moments m = moments_of(counts_of(told, row.rate_ps / 1000.0, 0.0, kMany, 2.0));
        const double variance_ps = row.rate_ps / std::pow(1.0 + row.rate_ps * row.dead_s, 3.0);
        CHECK(m.mean / 2.0 ==
              Approx(row.seen_ps).margin(0.001 + kSigmas * std::sqrt(variance_ps / (2.0 * kMany))));
        CHECK(m.variance / 2.0 == Approx(variance_ps).epsilon(kSigmas * std::sqrt(2.0 / kMany)));
    }
}

TEST_CASE("What is lost strikes the sensor when its way from the cut is over") {
    for (const double delay_s : {0.0, 4.0, 11.35}) {
        INFO("delay " << delay_s << " s");
        ScenarioHits told = plain(2000.0);
        told.delay_s = delay_s;
        LossSensor sensor(told, 3, "viner_1");
        // 100 hits a second, of what is cut from 20 s to 30 s.
        double first_s = 0.0;
        double last_s = 0.0;
        long before = 0;
        for (int i = 1; i <= 600; ++i) {
            const double time_s = i * kStepS;
            sensor.pass(time_s, time_s > 20.05 && time_s < 30.05 ? 0.05 : 0.0, 5.0, kStepS);
            const long now = sensor.hits_by(time_s);
            if (now > before && first_s <= 0.0) first_s = time_s;
            if (now > before) last_s = time_s;
            before = now;
        }
        CHECK(first_s > 20.0 + delay_s);
        CHECK(first_s < 20.2 + delay_s);
        CHECK(last_s > 29.8 + delay_s);
        CHECK(last_s < 30.1 + delay_s + 1e-9);
        CHECK(static_cast<double>(before) == Approx(1000.0).margin(kSigmas * std::sqrt(1000.0)));
    }
}

TEST_CASE("The count does not depend on how often it is read") {
    ScenarioHits told;
    told.per_kg = 500.0;
    LossSensor often(told, 5, "viner_1");
    LossSensor seldom(told, 5, "viner_1");
    for (int i = 1; i <= 3000; ++i) {
        const double time_s = i * kStepS;
        const double lost_kgps = 0.05 * (1.0 + std::sin(0.02 * i));
        often.pass(time_s, lost_kgps, 5.0, kStepS);
        seldom.pass(time_s, lost_kgps, 5.0, kStepS);
        for (int part = 4; part >= 0; --part) (void)often.hits_by(time_s - 0.02 * part);
        if (i % 10 == 0) REQUIRE(often.hits_by(time_s) == seldom.hits_by(time_s));
    }
    CHECK(often.hits_by(300.0) > 5000);
}

TEST_CASE("The gain has the told spread about the told, from the start on, and wanders over an hour") {
    for (const double sd : {0.1, 0.4}) {
        ScenarioHits told = plain(100.0);
        told.gain_sd = sd;
        std::vector<double> at_start;
        std::vector<double> later;
        double together = 0.0;
        double a_minute = 0.0;
        constexpr int kSeeds = 4000;
        for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
            LossSensor sensor(told, seed, "viner_1");
            at_start.push_back(sensor.gain());
            for (int i = 1; i <= 60; ++i) {
                sensor.pass(60.0 * i, 0.0, 0.0, 60.0);
                if (i == 1) a_minute += std::abs(std::log(sensor.gain() / at_start.back())) / kSeeds;
            }
            later.push_back(sensor.gain());
            together += (at_start.back() - 1.0) * (later.back() - 1.0) / (sd * sd) / kSeeds;
        }
        for (const std::vector<double>& gains : {at_start, later}) {
            const Moments m = moments_of(gains);
            CHECK(m.mean == Approx(1.0).margin(kSigmas * sd / std::sqrt(kSeeds)));
            // A lognormal's spread is a little less sure than a Gaussian's.
            CHECK(std::sqrt(m.variance) == Approx(sd).epsilon(2.0 * kSigmas / std::sqrt(2.0 * kSeeds)));
        }
        CHECK(together == Approx(std::exp(-1.0)).margin(2.0 * kSigmas / std::sqrt(kSeeds)));
        CHECK(a_minute < 0.3 * sd);
    }
}

TEST_CASE("The gain is of the hits by peas, not of those by haulm") {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        ScenarioHits told = plain(1000.0, 10.0);
        told.gain_sd = 0.4;
        LossSensor peas(told, seed, "viner_1");
        LossSensor haulm(told, seed, "viner_1");
        // 10,000 of either as told, over so short a time that the gain stays.
        peas.pass(1.0, 1e4, 0.0, 1e-3);
        haulm.pass(1.0, 0.0, 1e6, 1e-3);
        const auto of_peas = static_cast<double>(peas.hits_by(1.0));
        const auto of_haulm = static_cast<double>(haulm.hits_by(1.0));
        const double expected = 1e4 * peas.gain();
        CHECK(of_peas == Approx(expected).margin(kSigmas * std::sqrt(expected)));
        CHECK(of_haulm == Approx(1e4).margin(kSigmas * 1e2));
    }
}

TEST_CASE("Peas left by the reel and peas lost in the drum are told apart and add up to the loss") {
    ScenarioDrum told;
    told.picking_loss_share = 0.06;
    told.loss_share = 0.05;
    told.rated_feed_kgps = 8.0;
    told.haulm_ratio = 4.0;
    for (const double lodged : {0.0, 0.1, 0.5}) {
        Drum drum(told, kStepS);
        for (const double area_rate : {0.0, 1.0, 3.2, 5.0}) {
            CropHere crop;
            crop.standing_kgpm2 = 0.5;
            crop.lodged_loss_share = lodged;
            drum.step(area_rate, crop);
            INFO("lodged " << lodged << ", " << area_rate << " m2/s");
            CHECK(drum.picking_loss_share() == Approx(1.0 - 0.94 * (1.0 - lodged)).epsilon(1e-12));
            CHECK(drum.picking_loss_share() + drum.drum_loss_share() ==
                  Approx(drum.loss_share()).epsilon(1e-12));
            CHECK(drum.drum_lost_kgps() == Approx(0.5 * area_rate * drum.drum_loss_share()).epsilon(1e-12));
            // At the rated feed, 8 kg/s, the drum loses the told share of what comes to it.
            const double of_its_own = drum.drum_loss_share() / (1.0 - drum.picking_loss_share());
            if (area_rate == 3.2) CHECK(of_its_own == Approx(0.05).epsilon(1e-12));
            CHECK((of_its_own > 0.05 * (1.0 + 1e-9)) == (area_rate > 3.2));
        }
    }
}

TEST_CASE("Each seed and each machine has hits and a gain of its own") {
    const auto hits_of = [](std::uint64_t seed, const std::string& id) {
        ScenarioHits told;
        told.per_kg = 1000.0;
        LossSensor sensor(told, seed, id);
        sensor.pass(100.0, 0.1, 5.0, 100.0);
        std::vector<long> hits;
        for (int i = 0; i <= 110; ++i) hits.push_back(sensor.hits_by(i));
        return hits;
    };
    CHECK(hits_of(1, "viner_1") == hits_of(1, "viner_1"));
    CHECK(hits_of(1, "viner_1") != hits_of(2, "viner_1"));
    CHECK(hits_of(1, "viner_1") != hits_of(1, "viner_2"));
    const auto gain_of = [](std::uint64_t seed, const std::string& id) {
        return LossSensor(ScenarioHits(), seed, id).gain();
    };
    CHECK(gain_of(1, "viner_1") == gain_of(1, "viner_1"));
    CHECK(gain_of(1, "viner_1") != gain_of(2, "viner_1"));
    CHECK(gain_of(1, "viner_1") != gain_of(1, "viner_2"));
}
