#include "podrate/loss/loss_book.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "core/normals.hpp"

using namespace podrate;
using test::Normals;

namespace {

constexpr double kRatedKgps = 8.0;
constexpr double kFeedPerPea = 5.2;

LossCurve<Real> curve_at(double level_more, double picking = 0.04) {
    LossCurve<Real> curve;
    curve.level_a = LossCurve<Real>::level_for(Real(0.035)) + static_cast<Real>(level_more);
    curve.picking_share = static_cast<Real>(picking);
    return curve;
}

LossSoFar lost(const LossBook& book, const LossCurve<Real>& curve) {
    return book.so_far(curve, Real(0), Real(0), Real(0));
}

LossBook empty_book() {
    return LossBook(Real(kRatedKgps), Real(kFeedPerPea));
}

// What went into a drum, and what of it passed, kg/s.
struct Passing {
    double taken_in_kgps;
    double passed_kgps;
};

Passing passing(const LossCurve<Real>& curve, double taken_in_kgps) {
    const double inner =
        static_cast<double>(curve.level_a) + (kFeedPerPea * taken_in_kgps - kRatedKgps) / 3.5;
    return {taken_in_kgps, taken_in_kgps * std::exp(-std::exp(inner))};
}

// An hour of second by second, the rate wandering evenly between two bounds.
std::vector<Passing> an_hour(const LossCurve<Real>& truth, double low_kgps, double high_kgps) {
    std::vector<Passing> hour;
    for (int i = 0; i < 3600; ++i) {
        hour.push_back(passing(truth, low_kgps + (high_kgps - low_kgps) * (i + 0.5) / 3600.0));
    }
    return hour;
}

void write_into(LossBook& book, const std::vector<Passing>& hour, double ln_excess = 0.0) {
    for (const Passing& second : hour) {
        book.add(static_cast<Real>(second.passed_kgps), static_cast<Real>(second.passed_kgps),
                 static_cast<Real>(ln_excess));
    }
}

double kg(Real value) {
    return static_cast<double>(value);
}

}  // namespace

TEST_CASE("The loss so far is what a plant with that curve lost") {
    for (const double level_more : {-0.7, 0.0, 0.7}) {
        INFO("level " << level_more);
        const LossCurve<Real> truth = curve_at(level_more);
        LossBook book = empty_book();
        const std::vector<Passing> hour = an_hour(truth, 0.7, 1.6);
        write_into(book, hour);
        double passed_kg = 0.0;
        double drum_kg = 0.0;
        double standing_kg = 0.0;
        for (const Passing& second : hour) {
            passed_kg += second.passed_kgps;
            drum_kg += second.taken_in_kgps - second.passed_kgps;
            standing_kg += second.taken_in_kgps / 0.96;
        }
        const LossSoFar so_far = lost(book, truth);
        CHECK(kg(so_far.collected_kg) == Approx(passed_kg).epsilon(1e-5));
        CHECK(kg(so_far.drum_kg) == Approx(drum_kg).epsilon(0.02));
        CHECK(kg(so_far.lost_kg) == Approx(standing_kg - passed_kg).epsilon(0.01));
        CHECK(kg(so_far.shares.total.share) == Approx(kg(so_far.lost_kg) / standing_kg).epsilon(0.001));
        CHECK(kg(so_far.shares.drum.share + so_far.shares.picking.share) ==
              Approx(kg(so_far.shares.total.share)).epsilon(1e-5));
    }
}

TEST_CASE("At one steady rate the loss so far is off by no more than half a bin's") {
    const LossCurve<Real> curve = curve_at(0.0);
    const double bin_kgps = 3.0 * kRatedKgps / kFeedPerPea / 32.0;
    double worst = 0.0;
    for (double taken_in_kgps = 0.5; taken_in_kgps < 2.0; taken_in_kgps += 0.007) {
        const Passing now = passing(curve, taken_in_kgps);
        LossBook book = empty_book();
        book.add(static_cast<Real>(1000.0 * now.passed_kgps), static_cast<Real>(now.passed_kgps), Real(0));
        const double drum_kg = 1000.0 * (now.taken_in_kgps - now.passed_kgps);
        worst = std::max(worst, std::abs(std::log(kg(lost(book, curve).drum_kg) / drum_kg)));
    }
    INFO("worst " << worst);
    // Nearer the fold the hazard answers more steeply.
    CHECK(worst < 1.3 * 0.5 * bin_kgps * kFeedPerPea / 3.5);
}

TEST_CASE("A curve learnt later tells the whole run anew") {
    LossBook book = empty_book();
    const LossCurve<Real> truth = curve_at(0.8, 0.1);
    const std::vector<Passing> hour = an_hour(truth, 0.8, 1.3);
    write_into(book, hour);
    double standing_kg = 0.0;
    double passed_kg = 0.0;
    for (const Passing& second : hour) {
        standing_kg += second.taken_in_kgps / 0.9;
        passed_kg += second.passed_kgps;
    }
    const LossSoFar thought_first = lost(book, curve_at(0.0));
    const LossSoFar then = lost(book, truth);
    CHECK(kg(then.lost_kg) > 1.5 * kg(thought_first.lost_kg));
    CHECK(kg(then.lost_kg) == Approx(standing_kg - passed_kg).epsilon(0.01));
    CHECK(then.collected_kg == thought_first.collected_kg);
    // Asking changes nothing.
    CHECK(lost(book, curve_at(0.0)).lost_kg == thought_first.lost_kg);
}

TEST_CASE("What the sensor told of a place counts as a higher level there") {
    const LossCurve<Real> curve = curve_at(0.0);
    LossBook told = empty_book();
    LossBook plain = empty_book();
    write_into(told, an_hour(curve, 0.8, 1.3), 0.3);
    write_into(plain, an_hour(curve, 0.8, 1.3));
    const LossSoFar higher = lost(plain, curve_at(0.3));
    CHECK(kg(lost(told, curve).drum_kg) == Approx(kg(higher.drum_kg)).epsilon(1e-4));
    // Half the peas at 0.4 more and half at 0.4 less: the hazard's mean, not that of its logarithm.
    LossBook mixed = empty_book();
    for (int i = 0; i < 1000; ++i) mixed.add(Real(1), Real(1), Real(i % 2 == 0 ? 0.4 : -0.4));
    LossBook even = empty_book();
    for (int i = 0; i < 1000; ++i) even.add(Real(1), Real(1), static_cast<Real>(std::log(std::cosh(0.4))));
    CHECK(kg(lost(mixed, curve).drum_kg) == Approx(kg(lost(even, curve).drum_kg)).epsilon(1e-4));
}

TEST_CASE("A million small parts add up within a tenth of a per cent") {
    // Always the same part at one rate: rounding then errs the same way each time.
    const LossCurve<Real> curve = curve_at(0.0);
    const Passing now = passing(curve, 1.17);
    const auto part_kg = static_cast<Real>(0.01 * now.passed_kgps);
    LossBook book = empty_book();
    for (int i = 0; i < 1000000; ++i) book.add(part_kg, static_cast<Real>(now.passed_kgps), Real(0.2));
    LossBook whole = empty_book();
    whole.add(static_cast<Real>(1e4 * now.passed_kgps), static_cast<Real>(now.passed_kgps), Real(0.2));
    CHECK(kg(lost(book, curve).collected_kg) == Approx(1e6 * static_cast<double>(part_kg)).epsilon(1e-6));
    CHECK(kg(lost(book, curve).drum_kg) == Approx(kg(lost(whole, curve).drum_kg)).epsilon(0.001));
}

TEST_CASE("The doubt of the loss so far is that of many drawn curves") {
    LossBook book = empty_book();
    // So lossy that a higher level means notably more crop, and so more feed.
    constexpr double kLevel = 0.8;
    write_into(book, an_hour(curve_at(kLevel), 0.8, 1.3));
    std::uint32_t seed = 30;
    for (const double tie : {-0.8, 0.0, 0.6}) {
        INFO("correlation " << tie);
        constexpr double kLevelSd = 0.12;
        constexpr double kPickingSd = 0.1;
        Normals normals(++seed);
        double sums[2] = {};
        double squares[2] = {};
        constexpr int kDraws = 20000;
        for (int i = 0; i < kDraws; ++i) {
            const double one = normals.next();
            const double other = tie * one + std::sqrt(1.0 - tie * tie) * normals.next();
            const LossSoFar drawn =
                lost(book, curve_at(kLevel + kLevelSd * one, 0.04 * std::exp(kPickingSd * other)));
            const double ln_of[2] = {std::log(kg(drawn.shares.total.share)),
                                     std::log(kg(drawn.shares.drum.share))};
            for (int k = 0; k < 2; ++k) {
                sums[k] += ln_of[k];
                squares[k] += ln_of[k] * ln_of[k];
            }
        }
        const auto sd = [&](int k) {
            return std::sqrt(squares[k] / kDraws - sums[k] / kDraws * sums[k] / kDraws);
        };
        const LossSoFar told = book.so_far(curve_at(kLevel), Real(kLevelSd * kLevelSd),
                                           Real(kPickingSd * kPickingSd), Real(tie * kLevelSd * kPickingSd));
        CHECK(kg(told.shares.ln_total_sd) == Approx(sd(0)).epsilon(0.04));
        // A little wide: it leaves out that what stood grows too.
        CHECK(kg(told.ln_hazard_sd) > 0.98 * sd(1));
        CHECK(kg(told.ln_hazard_sd) < 1.15 * sd(1));
        CHECK(std::log(kg(told.shares.total.high / told.shares.total.share)) ==
              Approx(1.6448536 * kg(told.shares.ln_total_sd)).epsilon(1e-4));
    }
}

TEST_CASE("An empty book tells of nothing and takes nothing away") {
    LossBook book = empty_book();
    const LossSoFar nothing = book.so_far(curve_at(0.0), Real(0.36), Real(0.3), Real(0));
    CHECK(nothing.collected_kg == Real(0));
    CHECK(nothing.lost_kg == Real(0));
    CHECK(nothing.shares.total.share == Real(0));
    book.add(Real(0), Real(1), Real(0));
    book.add(Real(-5), Real(1), Real(0));
    CHECK(lost(book, curve_at(0.0)).collected_kg == Real(0));
    book.add(Real(10), Real(1), Real(0));
    CHECK(lost(book, curve_at(0.0)).collected_kg == Real(10));
}

TEST_CASE("Rates beyond the book's reach are kept in its last bin and stay finite") {
    LossBook book = empty_book();
    book.add(Real(100), Real(1000), Real(0));
    book.add(Real(100), Real(-1), Real(0));
    for (const double level_more : {-2.5, 0.0, 2.5}) {
        const LossSoFar so_far = book.so_far(curve_at(level_more), Real(0.36), Real(0.3), Real(-0.2));
        CHECK(kg(so_far.collected_kg) == Approx(200.0));
        CHECK(std::isfinite(so_far.lost_kg));
        CHECK(so_far.lost_kg > Real(0));
        CHECK(so_far.shares.total.high <= Real(1));
        CHECK(std::isfinite(so_far.shares.ln_total_sd));
    }
}
