#include "podrate/weight/cell_watch.hpp"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>
#include <random>
#include <utility>
#include <vector>

using namespace podrate;

namespace {

// Cells of unequal share and zero under a load that rises and is tipped; 10 readings a second.
class Scale {
  public:
    explicit Scale(double quantum_kg = 0.5, std::vector<double> share = {0.22, 0.28, 0.24, 0.26})
        : share_(std::move(share)), quantum_kg_(quantum_kg) {}

    int spoilt = -1;  // that cell shows `shows_kg` instead
    double shows_kg = 0.0;
    double ends_at_kg = 1e9;  // no cell shows more
    double noise_kg = 2.0;

    // The sum as the watch has it, after `for_s` seconds at so many kg/s.
    double run(double for_s, double rate_kgps) {
        for (long i = std::lround(for_s * 10.0); i > 0; --i) {
            load_kg += rate_kgps * 0.1;
            Sample sample = weight_sample(time_us_ += 100000, 0.0F);
            sample.count = static_cast<std::uint8_t>(share_.size());
            for (std::size_t cell = 0; cell < share_.size(); ++cell) {
                double kg = share_[cell] * load_kg + kZeroKg[cell] + noise_kg * normal_(bits_);
                kg = std::round(std::min(kg, ends_at_kg) / quantum_kg_) * quantum_kg_;
                if (static_cast<int>(cell) == spoilt) kg = shows_kg;
                sample.value[cell] = static_cast<float>(kg);
            }
            sum_kg_ = static_cast<double>(watch.sum_kg(sample));
            died = died || watch.any_dead();
        }
        return sum_kg_;
    }
    // What sound cells would show in all.
    [[nodiscard]] double expected_kg() const {
        double kg = load_kg;
        for (std::size_t cell = 0; cell < share_.size(); ++cell) kg += kZeroKg[cell];
        return kg;
    }
    // What that cell would show, sound and without noise.
    [[nodiscard]] double cell_kg(int cell) const {
        const auto index = static_cast<std::size_t>(cell);
        return std::round((share_[index] * load_kg + kZeroKg[index]) / quantum_kg_) * quantum_kg_;
    }
    // A load gathered in bouts with turns between, waited with, tipped.
    void work_a_load(double rate_kgps = 1.3) {
        while (load_kg < 1500.0) {
            run(270.0, rate_kgps);
            run(25.0, 0.0);
        }
        run(60.0, 0.0);
        run(load_kg / 38.0, -38.0);
        run(30.0, 0.0);
    }

    CellWatch watch;
    double load_kg = 0.0;
    bool died = false;  // any cell at any time

  private:
    static constexpr std::array<double, 4> kZeroKg = {5.0, -3.0, 8.0, -4.0};
    std::vector<double> share_;
    double quantum_kg_;
    double sum_kg_ = 0.0;
    TimeUs time_us_ = 0;
    std::mt19937 bits_{3};
    std::normal_distribution<double> normal_;
};

}  // namespace

TEST_CASE("One cell alone is taken as read") {
    CellWatch watch;
    Sample sample = weight_sample(0, 0.0F);
    for (int i = 0; i < 1000; ++i) {
        sample = weight_sample(100000 * i, 512.5F);
        REQUIRE(watch.sum_kg(sample) == 512.5F);
    }
    CHECK_FALSE(watch.any_dead());
}

TEST_CASE("Sound cells are summed as read, without doubt") {
    Scale scale;
    scale.noise_kg = 0.0;
    for (int i = 0; i < 100; ++i) {
        const double sum_kg = scale.run(10.0, 1.3);
        REQUIRE(sum_kg == Approx(scale.expected_kg()).margin(1.01));
        REQUIRE_FALSE(scale.watch.any_dead());
        REQUIRE(scale.watch.doubt_kg2() == Real(0));
    }
}

TEST_CASE("A cell that sticks, is torn off or comes to its end is stood in for") {
    for (const double shows_kg : {-1.0, 1500.0, -200.0}) {
        Scale scale;
        scale.run(900.0, 1.3);  // a load, so that the cells' lines are known
        scale.run(30.0, -38.0);
        scale.run(300.0, 1.3);
        // Stuck at what it shows now, or at some end.
        scale.spoilt = 2;
        scale.shows_kg = shows_kg == -1.0 ? 0.24 * scale.load_kg + 8.0 : shows_kg;
        INFO("shows " << scale.shows_kg << " kg");
        scale.run(25.0, 1.3);  // 15 kg on the others take 15 s
        REQUIRE(scale.watch.any_dead());
        CHECK(scale.watch.doubt_kg2() > Real(0));
        for (int i = 0; i < 30; ++i) {
            const double sum_kg = scale.run(10.0, 1.3);
            REQUIRE(std::abs(sum_kg - scale.expected_kg()) < 30.0);
        }
        // Whole again.
        scale.spoilt = -1;
        scale.run(1.0, 1.3);
        CHECK_FALSE(scale.watch.any_dead());
        CHECK(scale.watch.doubt_kg2() == Real(0));
    }
}

TEST_CASE("A cell that sticks is found once the others tell of peas, however many there are") {
    const std::vector<std::vector<double>> scales = {{0.3, 0.7}, {0.2, 0.3, 0.5}, {0.15, 0.35, 0.2, 0.3}};
    for (const std::vector<double>& share : scales) {
        for (int dead = 0; dead < static_cast<int>(share.size()); ++dead) {
            INFO(share.size() << " cells, the one of " << share[static_cast<std::size_t>(dead)]);
            Scale scale(0.5, share);
            scale.run(30.0, 0.0);
            scale.work_a_load();
            scale.run(400.0, 1.3);
            REQUIRE_FALSE(scale.watch.any_dead());
            scale.spoilt = dead;
            scale.shows_kg = scale.cell_kg(dead);
            // The others gain 15 kg and three steps of 0.5 kg for each; noise may bring that on sooner.
            const double others = 1.0 - share[static_cast<std::size_t>(dead)];
            const double limit_kg = 15.0 + 1.5 * static_cast<double>(share.size() - 1);
            scale.run(0.4 * limit_kg / others / 1.3, 1.3);
            CHECK_FALSE(scale.watch.any_dead());
            scale.run(1.0 * limit_kg / others / 1.3, 1.3);
            REQUIRE(scale.watch.any_dead());
            // Three of its doubt, and of the noise of all as the line carries it over.
            for (int i = 0; i < 60; ++i) {
                const double sum_kg = scale.run(10.0, 1.3);
                const double noise_kg = 2.0 * std::sqrt(static_cast<double>(share.size() - 1)) / others;
                const double sd_kg =
                    std::hypot(std::sqrt(static_cast<double>(scale.watch.doubt_kg2())), noise_kg);
                REQUIRE(std::abs(sum_kg - scale.expected_kg()) < 3.0 * sd_kg);
            }
        }
    }
}

TEST_CASE("A dead cell stands for what it should bear through a tip as well") {
    Scale scale;
    scale.work_a_load();
    scale.run(400.0, 1.3);
    scale.spoilt = 0;
    scale.shows_kg = scale.cell_kg(0);
    scale.run(600.0, 1.3);
    REQUIRE(scale.watch.any_dead());
    scale.work_a_load();
    CHECK(scale.watch.any_dead());
    CHECK(scale.run(0.1, 0.0) == Approx(scale.expected_kg()).margin(25.0));
}

TEST_CASE("A dead cell that moves but does not agree stays dead") {
    Scale scale;
    scale.run(900.0, 1.3);
    scale.spoilt = 1;
    scale.shows_kg = 900.0;
    scale.run(30.0, 1.3);
    REQUIRE(scale.watch.any_dead());
    scale.shows_kg = 880.0;
    scale.run(0.1, 1.3);
    CHECK(scale.watch.any_dead());
    // Moved to where it should be.
    scale.shows_kg = scale.cell_kg(1);
    scale.run(0.1, 1.3);
    CHECK_FALSE(scale.watch.any_dead());
}

TEST_CASE("Cells that stand still together are not dead") {
    Scale scale;
    scale.noise_kg = 0.0;
    scale.run(300.0, 1.3);
    scale.run(600.0, 0.0);
    CHECK_FALSE(scale.watch.any_dead());
}

TEST_CASE("A coarse indicator does not make dead cells") {
    for (const double quantum_kg : {5.0, 10.0}) {
        for (const double noise_kg : {0.0, 2.0}) {
            Scale scale(quantum_kg);
            scale.noise_kg = noise_kg;
            for (int i = 0; i < 1500; ++i) {
                scale.run(1.0, 1.3);
                INFO("steps of " << quantum_kg << " kg, noise " << noise_kg << " kg, second " << i);
                REQUIRE_FALSE(scale.watch.any_dead());
            }
        }
    }
}

TEST_CASE("Loads gathered, carried and tipped on a coarse indicator make no dead cells") {
    const std::vector<std::vector<double>> scales = {
        {0.25, 0.75}, {0.5, 0.5}, {0.2, 0.3, 0.5}, {0.15, 0.35, 0.2, 0.3}};
    for (const std::vector<double>& share : scales) {
        for (const double quantum_kg : {5.0, 10.0}) {
            for (const double noise_kg : {0.0, 0.3, 3.0}) {
                for (const double rate_kgps : {0.4, 1.3}) {
                    INFO(share.size() << " cells from " << share[0] << " on, steps of " << quantum_kg
                                      << " kg, noise " << noise_kg << " kg, " << rate_kgps << " kg/s");
                    Scale scale(quantum_kg, share);
                    scale.noise_kg = noise_kg;
                    scale.run(60.0, 0.0);
                    for (int i = 0; i < 2; ++i) scale.work_a_load(rate_kgps);
                    REQUIRE_FALSE(scale.died);
                }
            }
        }
    }
}

TEST_CASE("Another number of cells begins afresh") {
    CellWatch watch;
    Sample sample = weight_sample(0, 0.0F);
    sample.count = 4;
    for (int i = 0; i < 600; ++i) {
        sample.time_us = 100000 * i;
        for (int cell = 0; cell < 3; ++cell) sample.value[cell] = static_cast<float>(i + cell);
        watch.sum_kg(sample);
    }
    REQUIRE(watch.any_dead());
    sample.count = 3;
    sample.time_us += 100000;
    CHECK(watch.sum_kg(sample) == Approx(599.0 + 600.0 + 601.0));
    CHECK_FALSE(watch.any_dead());
}
