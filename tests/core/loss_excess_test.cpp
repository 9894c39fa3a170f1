#include "podrate/loss/loss_excess.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "core/normals.hpp"
#include "podrate/choices.hpp"

using namespace podrate;
using test::Normals;

namespace {

constexpr double kSpreadSd = static_cast<double>(choices::loss::kRatioSd);
constexpr double kUnheardSd = static_cast<double>(choices::loss::kUnheardSd);
constexpr double kLengthM = static_cast<double>(choices::loss::kExcessLengthM);
constexpr double kBlockS = static_cast<double>(choices::loss::kHitsBlockUs) / 1e6;
constexpr double kBlockM = 0.8 * kBlockS;
constexpr double kExpectedKgps = 0.05;

double poisson_like(Normals& normals, double mean) {
    const double count = std::round(mean + std::sqrt(mean) * normals.next());
    return count > 0.0 ? count : 0.0;
}

// A block of crop of which the drum loses exp(ln_ratio) times the usual, with a sensor of that many hits a
// kg.
void pass_block(LossExcess& excess, Normals& normals, double ln_ratio, double hits_per_kg) {
    excess.walk(static_cast<Real>(kBlockM));
    const double mean = kExpectedKgps * kBlockS * hits_per_kg * std::exp(ln_ratio);
    excess.hear(static_cast<Real>(poisson_like(normals, mean) / kBlockS), static_cast<Real>(kBlockS),
                static_cast<Real>(kExpectedKgps));
}

double found(const LossExcess& excess) {
    return static_cast<double>(excess.ln_ratio());
}

}  // namespace

TEST_CASE("Without a sensor nothing is thought to differ and the doubt is what it may") {
    LossExcess excess;
    CHECK_FALSE(excess.heard());
    for (int i = 0; i < 100; ++i) excess.walk(Real(10));
    CHECK(found(excess) == 0.0);
    CHECK(static_cast<double>(excess.sd()) == Approx(kUnheardSd));
    // A block where the curve lets expect nothing tells of nothing.
    excess.hear(Real(5), Real(4), Real(0));
    CHECK_FALSE(excess.heard());
    CHECK(found(excess) == 0.0);
    CHECK(static_cast<double>(excess.sd()) == Approx(kUnheardSd));
}

TEST_CASE("A stretch that loses 30 per cent more is found and left again") {
    double at_end = 0.0;
    double long_after = 0.0;
    double before = 0.0;
    constexpr int kSeeds = 20;
    for (std::uint32_t seed = 1; seed <= kSeeds; ++seed) {
        Normals normals(seed);
        LossExcess excess;
        for (int i = 0; i < 600; ++i) pass_block(excess, normals, 0.0, 1000.0);
        before += found(excess) / kSeeds;
        for (int i = 0; i < 32; ++i) pass_block(excess, normals, std::log(1.3), 1000.0);
        at_end += found(excess) / kSeeds;
        CHECK(excess.sd() < Real(0.6 * kSpreadSd));
        for (int i = 0; i < 60; ++i) pass_block(excess, normals, 0.0, 1000.0);
        long_after += found(excess) / kSeeds;
    }
    INFO("before " << before << ", at its end " << at_end << ", long after " << long_after);
    CHECK(std::abs(before) < 0.03);
    // Drawn towards nothing a little, as it must be where blocks are noisy.
    CHECK(at_end > 0.75 * std::log(1.3));
    CHECK(at_end < 1.02 * std::log(1.3));
    CHECK(std::abs(long_after) < 0.04);
}

TEST_CASE("How many hits a kg brings does not matter") {
    std::vector<double> last;
    for (const double hits_per_kg : {500.0, 5000.0, 50000.0}) {
        LossExcess excess;
        for (int i = 0; i < 300; ++i) {
            const double ln_ratio = 0.3 * std::sin(0.1 * i);
            excess.walk(static_cast<Real>(kBlockM));
            excess.hear(static_cast<Real>(kExpectedKgps * hits_per_kg * std::exp(ln_ratio)), Real(kBlockS),
                        static_cast<Real>(kExpectedKgps));
        }
        CHECK(static_cast<double>(excess.ln_hits_per_kg()) == Approx(std::log(hits_per_kg)).margin(0.05));
        last.push_back(found(excess));
    }
    CHECK(std::abs(last[0]) > 0.1);
    CHECK(last[1] == Approx(last[0]).margin(0.03));
    CHECK(last[2] == Approx(last[1]).margin(0.01));
}

TEST_CASE("A hazard that is higher throughout is the sensor's gain and no excess") {
    Normals normals(3);
    LossExcess excess;
    double sum = 0.0;
    for (int i = 0; i < 1800; ++i) {
        pass_block(excess, normals, 0.7, 1000.0);
        if (i >= 100) sum += found(excess);
    }
    CHECK(std::abs(sum / 1700.0) < 0.02);
}

TEST_CASE("The doubt stated is the doubt there is, once the gain is known") {
    double squares = 0.0;
    long count = 0;
    for (std::uint32_t seed = 1; seed <= 20; ++seed) {
        Normals normals(100 + seed);
        LossExcess excess;
        double truth = 0.0;
        const double likeness = std::exp(-kBlockM / kLengthM);
        for (int i = 0; i < 7200; ++i) {
            truth = likeness * truth + kSpreadSd * std::sqrt(1.0 - likeness * likeness) * normals.next();
            // Besides Poisson's scatter a block of hits is off by a tenth.
            pass_block(excess, normals, truth + 0.1 * normals.next(), 1000.0);
            excess.walk(Real(0));
            if (i < 3600) continue;
            const double off = (found(excess) - truth) / static_cast<double>(excess.sd());
            squares += off * off;
            ++count;
        }
    }
    CHECK(std::sqrt(squares / static_cast<double>(count)) == Approx(1.0).margin(0.12));
}

TEST_CASE("What was heard fades with the distance since") {
    Normals normals(5);
    LossExcess excess;
    for (int i = 0; i < 300; ++i) pass_block(excess, normals, 0.0, 5000.0);
    for (int i = 0; i < 10; ++i) pass_block(excess, normals, 0.5, 5000.0);
    const double here = found(excess);
    const double sd_here = static_cast<double>(excess.sd());
    REQUIRE(here > 0.2);
    excess.walk(static_cast<Real>(kLengthM));
    CHECK(found(excess) == Approx(here / std::exp(1.0)).epsilon(1e-4));
    const double left = std::exp(-2.0);
    CHECK(static_cast<double>(excess.sd()) ==
          Approx(std::sqrt(left * sd_here * sd_here + (1.0 - left) * kSpreadSd * kSpreadSd)).epsilon(1e-4));
    excess.walk(Real(10000));
    CHECK(std::abs(found(excess)) < 1e-6);
    CHECK(static_cast<double>(excess.sd()) == Approx(kSpreadSd));
}

TEST_CASE("A sensor gone wild is believed only so far") {
    LossExcess excess;
    for (int i = 0; i < 200; ++i) excess.hear(Real(10), Real(4), Real(0.05));
    for (int i = 0; i < 50; ++i) excess.hear(Real(25000), Real(4), Real(0.05));
    CHECK(found(excess) <= 1.5);
    CHECK(found(excess) > 1.0);
    for (int i = 0; i < 500; ++i) excess.hear(Real(0), Real(4), Real(0.05));
    CHECK(found(excess) >= -1.5);
    CHECK(std::isfinite(excess.sd()));
}
