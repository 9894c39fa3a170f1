#include "podrate/work/surprise_watch.hpp"

#include <catch2/catch.hpp>

using namespace podrate;

namespace {

using Verdict = SurpriseWatch::Verdict;

// 2,000 kg of capacity, readings at 10 Hz of 6 kg: the limit is 8 * 6 + 25 = 73 kg.
class Watch {
  public:
    Verdict show(double residual_kg, double for_s = 0.1) {
        Verdict verdict = Verdict::trust;
        for (double t = 0.0; t < for_s - 1e-9; t += 0.1) verdict = after(0.1, residual_kg);
        return verdict;
    }
    Verdict after(double since_s, double residual_kg) {
        const auto since_us = static_cast<TimeUs>(since_s * 1e6);
        now_us_ += since_us;
        return watch.judge(now_us_, since_us, static_cast<Real>(residual_kg), Real(6));
    }
    // Shows it until a verdict falls that is neither to trust nor to wait; gives how long that took.
    double until_verdict(double residual_kg, Verdict& verdict) {
        for (double t = 0.1; t < 100.0; t += 0.1) {
            verdict = show(residual_kg);
            if (verdict != Verdict::trust && verdict != Verdict::wait) return t;
        }
        return -1.0;
    }
    SurpriseWatch watch{Parameters{}};

  private:
    TimeUs now_us_ = 1751032800 * kSecondUs;
};

}  // namespace

TEST_CASE("Readings near what is expected are trusted") {
    Watch watch;
    CHECK(watch.show(0.0, 10.0) == Verdict::trust);
    CHECK(watch.show(72.0) == Verdict::trust);
    CHECK(watch.show(-72.0) == Verdict::trust);
    CHECK_FALSE(watch.watch.surprised());
}

TEST_CASE("A single reading far off is waited out and forgotten") {
    Watch watch;
    watch.show(0.0, 5.0);
    CHECK(watch.show(100.0) == Verdict::wait);
    CHECK(watch.watch.surprised());
    CHECK(watch.show(0.0) == Verdict::trust);
    CHECK_FALSE(watch.watch.surprised());
}

TEST_CASE("A step that stays is a jump after three seconds") {
    Watch watch;
    watch.show(0.0, 5.0);
    Verdict verdict{};
    CHECK(watch.until_verdict(100.0, verdict) == Approx(3.1).margin(0.05));
    CHECK(verdict == Verdict::jumped);
}

TEST_CASE("A step faster than any hopper empties is a drop-out that is given a minute") {
    for (const double step_kg : {-1000.0, 1000.0}) {
        Watch watch;
        watch.show(0.0, 5.0);
        CHECK(watch.show(step_kg, 30.0) == Verdict::wait);
        CHECK(watch.watch.dropped_out());
        Verdict verdict{};
        CHECK(watch.until_verdict(step_kg, verdict) == Approx(30.1).margin(0.05));
        CHECK(verdict == Verdict::jumped);
        CHECK_FALSE(watch.watch.dropped_out());
    }
}

TEST_CASE("A drop-out that comes back was nothing") {
    Watch watch;
    watch.show(0.0, 5.0);
    watch.show(-1000.0, 20.0);
    CHECK(watch.show(2.0) == Verdict::trust);
    CHECK_FALSE(watch.watch.dropped_out());
}

TEST_CASE("A weight that rises steadily beyond what is expected has crept") {
    Watch watch;
    watch.show(0.0, 5.0);
    for (double kg = 0.0; kg < 73.0; kg += 0.12) REQUIRE(watch.show(kg) == Verdict::trust);
    Verdict verdict{};
    CHECK(watch.until_verdict(75.0, verdict) > 0.0);
    CHECK(verdict == Verdict::crept);
}

TEST_CASE("After a gap a weight far lower was tipped in it") {
    Watch watch;
    watch.show(0.0, 5.0);
    CHECK(watch.after(40.0, -1500.0) == Verdict::wait);
    CHECK_FALSE(watch.watch.dropped_out());
    Verdict verdict{};
    CHECK(watch.until_verdict(-1500.0, verdict) > 0.0);
    CHECK(verdict == Verdict::tipped);
}

TEST_CASE("Reset forgets a surprise") {
    Watch watch;
    watch.show(0.0, 5.0);
    watch.show(-1000.0, 5.0);
    watch.watch.reset();
    CHECK_FALSE(watch.watch.surprised());
    CHECK_FALSE(watch.watch.dropped_out());
    CHECK(watch.show(0.0) == Verdict::trust);
}
