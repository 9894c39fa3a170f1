#include "podrate/loss/hit_blocks.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace podrate;

namespace {

constexpr TimeUs kStartUs = 1751032800 * kSecondUs;
constexpr double kDelayS = 4.0;
constexpr TimeUs kFilterBehindUs = 6 * kSecondUs;  // the drum's dead time

struct Block {
    double at_s;  // when it was whole
    double hits_per_s;
    double block_s;
    double expected_kgps;
};

// A sensor and a filter that works its way along the cut crop some seconds behind.
struct Scene {
    double sensor_every_s = 0.1;
    double hits_per_s = 20.0;
    double expected_kgps = 0.05;
    bool silent = false;
    bool cutting = true;

    explicit Scene(double delay_s = kDelayS) : blocks(static_cast<Real>(delay_s)) {}

    void run(double for_s) {
        for (long left = std::lround(for_s / 0.1); left > 0; --left) step();
    }

    void step() {
        now_us += 100000;
        ++steps;
        const long every = std::lround(sensor_every_s / 0.1);
        if (!silent && steps % every == 0) blocks.add(now_us, static_cast<Real>(hits_per_s * sensor_every_s));
        // The crop that the filter has come to was cut a dead time ago.
        cut_then.push_back(cutting);
        const std::size_t behind = static_cast<std::size_t>(kFilterBehindUs / 100000);
        if (cut_then.size() <= behind || !cut_then[cut_then.size() - 1 - behind]) return;
        if (!blocks.reach(now_us - kFilterBehindUs, static_cast<Real>(expected_kgps))) return;
        found.push_back({static_cast<double>(now_us - kStartUs) / 1e6,
                         static_cast<double>(blocks.hits_per_s()), static_cast<double>(blocks.block_s()),
                         static_cast<double>(blocks.expected_kgps())});
    }

    HitBlocks blocks;
    TimeUs now_us = kStartUs;
    long steps = 0;
    std::vector<bool> cut_then;
    std::vector<Block> found;
};

}  // namespace

TEST_CASE("Hits come out in blocks of four seconds beside what was expected there") {
    Scene scene;
    scene.run(66.0);
    // A minute cut by the time the filter stands there, the first block only once hits lie that far back.
    REQUIRE(scene.found.size() >= 13);
    CHECK(scene.found.size() <= 15);
    for (std::size_t i = 1; i < scene.found.size(); ++i) {
        CHECK(scene.found[i].block_s == Approx(4.0));
        CHECK(scene.found[i].hits_per_s == Approx(20.0).epsilon(1e-3));
        CHECK(scene.found[i].expected_kgps == Approx(0.05).epsilon(1e-3));
        CHECK(scene.found[i].at_s - scene.found[i - 1].at_s == Approx(4.0));
    }
}

TEST_CASE("The expectation of a block is the mean over it") {
    Scene scene;
    scene.run(30.0);
    scene.found.clear();
    for (int i = 0; i < 400; ++i) {
        scene.expected_kgps = 0.04 + 0.02 * (i % 10) / 9.0;
        scene.step();
    }
    REQUIRE(scene.found.size() >= 9);
    CHECK(scene.found.back().expected_kgps == Approx(0.05).epsilon(0.01));
}

TEST_CASE("Hits belong to the crop cut a delay before they were heard") {
    for (const double delay_s : {0.0, 2.0, 4.0}) {
        INFO("delay " << delay_s << " s");
        Scene scene(delay_s);
        scene.run(60.0);
        const double changed_s = static_cast<double>(scene.now_us - kStartUs) / 1e6;
        scene.hits_per_s = 40.0;
        scene.run(30.0);
        double above_40s = 0.0;
        for (const Block& block : scene.found) {
            if (block.at_s > changed_s) above_40s += (40.0 - block.hits_per_s) / 20.0 * block.block_s;
        }
        // Heard from then on, cut a delay before; the filter comes to that crop its dead time after the cut.
        CHECK(above_40s == Approx(6.0 - delay_s).margin(4.0));
        bool first_above = false;
        for (const Block& block : scene.found) {
            const double cut_to_s = block.at_s - 6.0;
            if (cut_to_s <= changed_s - delay_s + 0.05) CHECK(block.hits_per_s == Approx(20.0).epsilon(1e-3));
            if (cut_to_s - 4.0 >= changed_s - delay_s - 0.05) {
                CHECK(block.hits_per_s == Approx(40.0).epsilon(1e-3));
                first_above = true;
            }
        }
        CHECK(first_above);
    }
}

TEST_CASE("A break in the cutting ends a block") {
    Scene scene;
    scene.run(30.0);
    scene.found.clear();
    // Three seconds of crop, three of none: never four without a break.
    for (int i = 0; i < 10; ++i) {
        scene.cutting = true;
        scene.run(3.0);
        scene.cutting = false;
        scene.run(3.0);
    }
    CHECK(scene.found.size() <= 2);  // of the crop cut before
    scene.found.clear();
    scene.cutting = true;
    scene.run(30.0);
    CHECK(scene.found.size() >= 5);
}

TEST_CASE("Without a sensor there is no block") {
    Scene scene;
    scene.silent = true;
    scene.run(120.0);
    CHECK(scene.found.empty());
}

TEST_CASE("A counter that falls silent leaves no block, and none of zero hits when it speaks again") {
    for (const double silent_s : {3.0, 10.0, 60.0}) {
        INFO("silent for " << silent_s << " s");
        Scene scene;
        scene.run(60.0);
        scene.silent = true;
        scene.run(silent_s);
        scene.silent = false;
        scene.run(60.0);
        for (const Block& block : scene.found) {
            INFO("block at " << block.at_s << " s: " << block.hits_per_s << " hits a second");
            CHECK(block.hits_per_s == Approx(20.0).epsilon(0.01));
        }
        CHECK(scene.found.size() >= 20);
    }
}

TEST_CASE("What a counter brings after a silence is not laid on the crop since") {
    Scene scene;
    scene.run(60.0);
    scene.silent = true;
    scene.run(30.0);
    scene.silent = false;
    // All that it counted meanwhile, in one sample.
    scene.now_us += 100000;
    scene.blocks.add(scene.now_us, Real(600));
    scene.run(30.0);
    for (const Block& block : scene.found) CHECK(block.hits_per_s < 20.5);
}

TEST_CASE("A counter that speaks less than every other second says nothing") {
    Scene scene;
    scene.sensor_every_s = 3.0;
    scene.run(120.0);
    CHECK(scene.found.empty());
}

TEST_CASE("A quiet sensor that goes on speaking tells of no hits") {
    Scene scene;
    scene.hits_per_s = 0.0;
    scene.run(60.0);
    REQUIRE(scene.found.size() >= 12);
    for (const Block& block : scene.found) CHECK(block.hits_per_s == 0.0);
}
