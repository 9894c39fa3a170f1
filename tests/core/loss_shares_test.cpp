#include "podrate/loss/loss_outlook.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/normals.hpp"

using namespace podrate;
using test::Normals;

namespace {

// 90 % of a normal's values lie within so many standard deviations.
constexpr double kNinetyPctSds = 1.6448536;

LossBelief belief_of(double hazard, double hazard_sd, double picking, double picking_sd,
                     double correlation = 0.0) {
    LossBelief belief;
    belief.ln_hazard = static_cast<Real>(std::log(hazard));
    belief.ln_hazard_variance = static_cast<Real>(hazard_sd * hazard_sd);
    belief.picking_share = static_cast<Real>(picking);
    belief.ln_picking_variance = static_cast<Real>(picking_sd * picking_sd);
    belief.covariance = static_cast<Real>(correlation * hazard_sd * picking_sd);
    return belief;
}

double ln_width(const Share& share) {
    return std::log(static_cast<double>(share.high) / static_cast<double>(share.low));
}

struct Drawn {
    double ln_total_sd;
    double inside;  // share of them within the interval
};

// The total loss of many drawn hazards and picking shares.
Drawn drawn_from(const LossBelief& belief, std::uint32_t seed) {
    Normals normals(seed);
    const double hazard_sd = std::sqrt(static_cast<double>(belief.ln_hazard_variance));
    const double picking_sd = std::sqrt(static_cast<double>(belief.ln_picking_variance));
    const double tie = static_cast<double>(belief.covariance) / (hazard_sd * picking_sd);
    const Share told = loss_shares(belief).total;
    double sum = 0.0;
    double sum_of_squares = 0.0;
    long inside = 0;
    constexpr int kDraws = 100000;
    for (int i = 0; i < kDraws; ++i) {
        const double one = normals.next();
        const double other = tie * one + std::sqrt(1.0 - tie * tie) * normals.next();
        const double hazard = std::exp(static_cast<double>(belief.ln_hazard) + hazard_sd * one);
        const double picking =
            std::min(0.999, static_cast<double>(belief.picking_share) * std::exp(picking_sd * other));
        const double total = 1.0 - (1.0 - picking) * std::exp(-hazard);
        sum += std::log(total);
        sum_of_squares += std::log(total) * std::log(total);
        if (total > static_cast<double>(told.low) && total < static_cast<double>(told.high)) ++inside;
    }
    const double mean = sum / kDraws;
    return {std::sqrt(sum_of_squares / kDraws - mean * mean), static_cast<double>(inside) / kDraws};
}

}  // namespace

TEST_CASE("Drum and picking loss add up to the whole, each of the peas standing") {
    for (const double hazard : {0.001, 0.036, 0.3, 2.0}) {
        for (const double picking : {0.001, 0.04, 0.3}) {
            INFO("hazard " << hazard << ", picking " << picking);
            const LossShares loss = loss_shares(belief_of(hazard, 0.5, picking, 0.4));
            const double total = 1.0 - (1.0 - picking) * std::exp(-hazard);
            CHECK(static_cast<double>(loss.total.share) == Approx(total).epsilon(3e-4));
            CHECK(static_cast<double>(loss.picking.share) == Approx(picking));
            CHECK(static_cast<double>(loss.drum.share) ==
                  Approx((1.0 - picking) * (1.0 - std::exp(-hazard))).epsilon(3e-4));
            CHECK(static_cast<double>(loss.drum.share + loss.picking.share) ==
                  Approx(static_cast<double>(loss.total.share)).margin(2e-7));
        }
    }
}

TEST_CASE("The intervals are those of a log-normal about the share") {
    const LossShares loss = loss_shares(belief_of(0.05, 0.5, 0.04, 0.3));
    for (const Share& share : {loss.total, loss.drum, loss.picking}) {
        CHECK(static_cast<double>(share.low * share.high) ==
              Approx(static_cast<double>(share.share * share.share)).epsilon(1e-5));
    }
    CHECK(ln_width(loss.total) ==
          Approx(2.0 * kNinetyPctSds * static_cast<double>(loss.ln_total_sd)).epsilon(1e-5));
    CHECK(ln_width(loss.picking) == Approx(2.0 * kNinetyPctSds * 0.3).epsilon(1e-5));
    // d ln(1 - exp(-h)) / d ln(h)
    const double steep = 0.05 * std::exp(-0.05) / (1.0 - std::exp(-0.05));
    CHECK(ln_width(loss.drum) == Approx(2.0 * kNinetyPctSds * 0.5 * steep).epsilon(1e-4));
}

TEST_CASE("The doubt of the whole loss is that of many drawn ones") {
    std::uint32_t seed = 20;
    for (const double hazard : {0.02, 0.06, 0.2}) {
        for (const double tie : {-0.8, 0.0, 0.8}) {
            INFO("hazard " << hazard << ", correlation " << tie);
            const LossBelief belief = belief_of(hazard, 0.1, 0.05, 0.12, tie);
            const double drawn = drawn_from(belief, ++seed).ln_total_sd;
            CHECK(static_cast<double>(loss_shares(belief).ln_total_sd) == Approx(drawn).epsilon(0.03));
        }
    }
}

TEST_CASE(
    "Nine in ten drawn losses lie within the interval, as unsure as one is before a tray and after some") {
    const struct {
        double hazard;
        double hazard_sd;
        double picking_sd;
        double tie;
        double least_inside;
    } cases[] = {{0.036, 0.6, 0.54, 0.0, 0.88},
                 {0.1, 0.6, 0.54, 0.0, 0.88},
                 {0.3, 0.3, 0.5, 0.0, 0.88},
                 // Where trays have tied them against each other the curve between the two counts more.
                 {0.036, 0.35, 0.35, -0.6, 0.86}};
    std::uint32_t seed = 40;
    for (const auto& c : cases) {
        INFO("hazard " << c.hazard << ", sd " << c.hazard_sd << " and " << c.picking_sd << ", tied by "
                       << c.tie);
        const double inside =
            drawn_from(belief_of(c.hazard, c.hazard_sd, 0.04, c.picking_sd, c.tie), ++seed).inside;
        CHECK(inside > c.least_inside);
        CHECK(inside < 0.92);
    }
}

TEST_CASE("What trays have tied together leaves the whole surer than its parts alone") {
    const LossShares apart = loss_shares(belief_of(0.05, 0.5, 0.05, 0.5));
    const LossShares against = loss_shares(belief_of(0.05, 0.5, 0.05, 0.5, -0.9));
    const LossShares together = loss_shares(belief_of(0.05, 0.5, 0.05, 0.5, 0.9));
    CHECK(ln_width(against.total) < 0.4 * ln_width(apart.total));
    CHECK(ln_width(together.total) > 1.3 * ln_width(apart.total));
    CHECK(against.total.share == apart.total.share);
    CHECK(ln_width(against.drum) == ln_width(apart.drum));
    CHECK(ln_width(against.picking) == ln_width(apart.picking));
}

TEST_CASE("More doubt about drum or picking widens the interval and the share stays") {
    const LossShares sure = loss_shares(belief_of(0.04, 0.1, 0.04, 0.1));
    const LossShares of_drum = loss_shares(belief_of(0.04, 0.6, 0.04, 0.1));
    const LossShares of_picking = loss_shares(belief_of(0.04, 0.1, 0.04, 0.6));
    CHECK(ln_width(of_drum.total) > 2.0 * ln_width(sure.total));
    CHECK(ln_width(of_picking.total) > 2.0 * ln_width(sure.total));
    CHECK(of_drum.total.share == sure.total.share);
    CHECK(ln_width(of_drum.picking) == ln_width(sure.picking));
    CHECK(ln_width(of_picking.drum) == ln_width(sure.drum));
}

TEST_CASE("Whatever is believed, shares and their intervals stay between 0 and 1") {
    for (const double hazard : {1e-30, 1e-6, 0.04, 7.389, 1e6}) {
        for (const double picking : {0.001, 0.04, 0.6}) {
            for (const double sd : {0.0, 0.6, 10.0}) {
                INFO("hazard " << hazard << ", picking " << picking << ", sd " << sd);
                const LossShares loss = loss_shares(belief_of(hazard, sd, picking, sd));
                for (const Share& share : {loss.total, loss.drum, loss.picking}) {
                    CHECK(share.low >= Real(0));
                    CHECK(share.low <= share.share);
                    CHECK(share.share <= share.high);
                    CHECK(share.high <= Real(1));
                }
                CHECK(std::isfinite(loss.ln_total_sd));
            }
        }
    }
    // A tie that no two variances allow must not leave the root of a negative number.
    LossBelief odd = belief_of(0.04, 0.5, 0.04, 0.5);
    odd.covariance = Real(-100);
    CHECK(loss_shares(odd).ln_total_sd == Real(0));
}

TEST_CASE("Without any loss in the drum the whole is what the reel leaves") {
    const LossShares loss = loss_shares(belief_of(1e-30, 0.6, 0.04, 0.3));
    CHECK(loss.drum.share == Real(0));
    CHECK(static_cast<double>(loss.total.share) == Approx(0.04));
    CHECK(ln_width(loss.total) == Approx(ln_width(loss.picking)).epsilon(1e-4));
}
