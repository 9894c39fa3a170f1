#include "podrate/loss/loss_knowledge.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/normals.hpp"

using namespace podrate;

namespace {

double spread(const LossKnowledge& knowledge) {
    return static_cast<double>(knowledge.speed_spread());
}

}  // namespace

TEST_CASE("At one speed the spread is nothing") {
    LossKnowledge knowledge;
    CHECK(spread(knowledge) == 0.0);
    for (int i = 0; i < 10000; ++i) knowledge.worked(Real(0.2), Real(2.6));
    CHECK(spread(knowledge) < 1e-3);
}

TEST_CASE("Two speeds over equal distances spread by half the logarithm of their ratio") {
    for (const double ratio : {1.2, 2.0}) {
        for (const double bout_m : {10.0, 200.0}) {
            INFO("ratio " << ratio << ", " << bout_m << " m each");
            LossKnowledge knowledge;
            for (double m = 0.0; m < 6000.0; m += 0.2) {
                const bool fast = std::fmod(m, 2.0 * bout_m) >= bout_m;
                knowledge.worked(Real(0.2), static_cast<Real>(2.0 * (fast ? ratio : 1.0)));
            }
            CHECK(spread(knowledge) == Approx(0.5 * std::log(ratio)).epsilon(0.02));
        }
    }
}

TEST_CASE("The spread is that of the logarithm by distance") {
    test::Normals normals(9);
    LossKnowledge knowledge;
    for (int i = 0; i < 30000; ++i) {
        // Twice as far in slow stretches as in fast ones: means by distance, not by step.
        const double ln_rate = 0.15 * normals.next();
        knowledge.worked(Real(0.2), static_cast<Real>(2.0 * std::exp(ln_rate)));
    }
    CHECK(spread(knowledge) == Approx(0.15).epsilon(0.03));
    LossKnowledge uneven;
    for (int i = 0; i < 10000; ++i) {
        uneven.worked(Real(0.4), Real(2.0));
        uneven.worked(Real(0.1), Real(3.0));
    }
    CHECK(spread(uneven) == Approx(0.4 * std::log(1.5)).epsilon(0.02));
}

TEST_CASE("Speeds of long ago are forgotten over some hours of work") {
    LossKnowledge knowledge;
    for (int i = 0; i < 30000; ++i) knowledge.worked(Real(0.2), Real(i % 1000 < 500 ? 2.0 : 3.0));
    const double then = spread(knowledge);
    REQUIRE(then > 0.15);
    for (int i = 0; i < 30000; ++i) knowledge.worked(Real(0.2), Real(2.5));
    CHECK(spread(knowledge) < 0.7 * then);
    CHECK(spread(knowledge) > 0.5 * then);
}

TEST_CASE("Standing and turning do not count") {
    LossKnowledge knowledge;
    for (int i = 0; i < 1000; ++i) {
        knowledge.worked(Real(0.2), Real(2.6));
        knowledge.worked(Real(0.2), Real(0));
        knowledge.worked(Real(0), Real(9));
    }
    CHECK(spread(knowledge) < 1e-3);
}

TEST_CASE("Trays are counted and the count does not run over") {
    LossKnowledge knowledge;
    CHECK(knowledge.trays() == 0);
    for (int i = 0; i < 3; ++i) knowledge.tray();
    CHECK(knowledge.trays() == 3);
    for (int i = 0; i < 100000; ++i) knowledge.tray();
    CHECK(knowledge.trays() == 60000);
}
