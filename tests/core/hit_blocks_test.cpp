#include "podrate/loss/hit_blocks.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "podrate/choices.hpp"

using namespace podrate;

namespace {

constexpr TimeUs kStartUs = 1751032800 * kSecondUs;
constexpr TimeUs kStepUs = 100000;
constexpr double kBlockS = static_cast<double>(choices::loss::kHitsBlockUs) / 1e6;

struct Block {
    double cut_to_s;  // the end of the crop that it is of
    double hits_per_s;
    double block_s;
    double expected_kgps;
};

// A sensor that hears crop a delay after its cut, and crop that is taken up as it comes there, or later.
struct Scene {
    double sensor_every_s = 0.1;
    double hits_per_s = 20.0;
    double expected_kgps = 0.05;
    bool silent = false;
    bool cutting = true;

    explicit Scene(double delay_s = 4.0, double later_s = 0.0)
        : blocks(static_cast<Real>(delay_s)), behind(std::lround((delay_s + later_s) / 0.1)) {}

    void run(double for_s) {
        for (long left = std::lround(for_s / 0.1); left > 0; --left) step();
    }

    void step() {
        now_us += kStepUs;
        ++steps;
        if (!silent && steps % std::lround(sensor_every_s / 0.1) == 0) {
            blocks.add(now_us, static_cast<Real>(hits_per_s * sensor_every_s));
        }
        cut_then.push_back(cutting);
        if (steps <= behind || !cut_then[static_cast<std::size_t>(steps - 1 - behind)]) return;
        const TimeUs cut_us = now_us - behind * kStepUs;
        if (!blocks.reach(cut_us, static_cast<Real>(expected_kgps))) return;
        found.push_back({static_cast<double>(cut_us - kStartUs) / 1e6,
                         static_cast<double>(blocks.hits_per_s()), static_cast<double>(blocks.block_s()),
                         static_cast<double>(blocks.expected_kgps())});
    }
    [[nodiscard]] double now_s() const { return static_cast<double>(now_us - kStartUs) / 1e6; }

    HitBlocks blocks;
    long behind;  // steps
    TimeUs now_us = kStartUs;
    long steps = 0;
    std::vector<bool> cut_then;
    std::vector<Block> found;
};

}  // namespace

TEST_CASE("Hits come out in blocks of some seconds beside what was expected there") {
    for (const double later_s : {0.0, 2.0}) {
        Scene scene(4.0, later_s);
        scene.run(80.0);
        REQUIRE(scene.found.size() >= static_cast<std::size_t>(70.0 / kBlockS));
        CHECK(scene.found.size() <= static_cast<std::size_t>(80.0 / kBlockS));
        for (std::size_t i = 2; i < scene.found.size(); ++i) {
            CHECK(scene.found[i].block_s == Approx(kBlockS));
            CHECK(scene.found[i].hits_per_s == Approx(20.0).epsilon(1e-3));
            CHECK(scene.found[i].expected_kgps == Approx(0.05).epsilon(1e-3));
            CHECK(scene.found[i].cut_to_s - scene.found[i - 1].cut_to_s == Approx(kBlockS));
        }
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
    for (std::size_t i = 1; i < scene.found.size(); ++i)
        CHECK(scene.found[i].expected_kgps == Approx(0.05).epsilon(0.01));
}

TEST_CASE("Hits belong to the crop cut a delay before they were heard") {
    for (const double delay_s : {0.0, 2.0, 4.0}) {
        for (const double later_s : {0.0, 3.0}) {
            INFO("delay " << delay_s << " s, taken up " << later_s << " s later");
            Scene scene(delay_s, later_s);
            scene.run(60.0);
            const double first_cut_s = scene.now_s() - delay_s;  // that is heard twice as loud
            scene.hits_per_s = 40.0;
            scene.run(30.0);
            int before = 0;
            int after = 0;
            for (std::size_t i = 2; i < scene.found.size(); ++i) {
                const Block& block = scene.found[i];
                INFO("crop up to " << block.cut_to_s << " s, louder from " << first_cut_s << " s");
                if (block.cut_to_s <= first_cut_s + 0.05) {
                    CHECK(block.hits_per_s == Approx(20.0).epsilon(1e-3));
                    ++before;
                } else if (block.cut_to_s - block.block_s >= first_cut_s - 0.05) {
                    CHECK(block.hits_per_s == Approx(40.0).epsilon(1e-3));
                    ++after;
                }
            }
            CHECK(before >= 10);
            CHECK(after >= 5);
        }
    }
}

TEST_CASE("A break in the cutting ends a block") {
    Scene scene(4.0);
    scene.run(30.0);
    scene.found.clear();
    // Crop for not quite a block, and longer none: never a whole one.
    for (int i = 0; i < 10; ++i) {
        scene.cutting = false;
        scene.run(kBlockS + 3.0);
        scene.cutting = true;
        scene.run(kBlockS - 0.2);
    }
    CHECK(scene.found.size() <= static_cast<std::size_t>(4.0 / kBlockS) + 1);  // of the crop cut before
    scene.found.clear();
    scene.run(30.0);
    CHECK(scene.found.size() >= static_cast<std::size_t>(20.0 / kBlockS));
}

TEST_CASE("Without a sensor there is no block") {
    Scene scene;
    scene.silent = true;
    scene.run(120.0);
    CHECK(scene.found.empty());
}

TEST_CASE("A counter that falls silent leaves no block, and none of too few hits when it speaks again") {
    for (const double silent_s : {3.0, 10.0, 60.0}) {
        INFO("silent for " << silent_s << " s");
        Scene scene;
        scene.run(60.0);
        const std::size_t before = scene.found.size();
        scene.silent = true;
        scene.run(silent_s);
        CHECK(scene.found.size() <= before + 1);
        scene.silent = false;
        scene.run(60.0);
        for (std::size_t i = 2; i < scene.found.size(); ++i) {
            INFO("of crop up to " << scene.found[i].cut_to_s << " s, over " << scene.found[i].block_s
                                  << " s");
            CHECK(scene.found[i].hits_per_s == Approx(20.0).epsilon(0.01));
        }
        CHECK(scene.found.size() >= before + static_cast<std::size_t>(50.0 / kBlockS));
    }
}

TEST_CASE("What a counter brings after a silence is not laid on the crop since") {
    Scene scene;
    scene.run(60.0);
    scene.silent = true;
    scene.run(30.0);
    scene.silent = false;
    // All that it counted meanwhile, in one sample.
    scene.now_us += kStepUs;
    scene.blocks.add(scene.now_us, Real(600));
    scene.run(30.0);
    for (const Block& block : scene.found) CHECK(block.hits_per_s < 20.5);
}

TEST_CASE("A counter that speaks once a second or two is heard as well") {
    for (const double every_s : {1.0, 2.0}) {
        INFO("every " << every_s << " s");
        Scene scene;
        scene.sensor_every_s = every_s;
        scene.run(120.0);
        REQUIRE(scene.found.size() >= 25);
        for (std::size_t i = 2; i < scene.found.size(); ++i)
            CHECK(scene.found[i].hits_per_s == Approx(20.0).epsilon(0.01));
    }
}

TEST_CASE("A counter that speaks too seldom tells of nothing, not of no hits") {
    Scene scene;
    scene.sensor_every_s = 3.0;
    scene.run(120.0);
    for (const Block& block : scene.found) CHECK(block.hits_per_s == Approx(20.0).epsilon(0.01));
}

TEST_CASE("A quiet sensor that goes on speaking tells of no hits") {
    Scene scene;
    scene.hits_per_s = 0.0;
    scene.run(60.0);
    REQUIRE(scene.found.size() >= 12);
    for (const Block& block : scene.found) CHECK(block.hits_per_s == 0.0);
}

TEST_CASE("Hits from longer ago than is remembered are left out, not taken for silence") {
    Scene near(4.0, 9.0);
    near.run(80.0);
    REQUIRE(near.found.size() > 20);
    for (std::size_t i = 2; i < near.found.size(); ++i)
        CHECK(near.found[i].hits_per_s == Approx(20.0).epsilon(1e-3));
    Scene far(4.0, 15.0);
    far.run(80.0);
    CHECK(far.found.empty());
}
