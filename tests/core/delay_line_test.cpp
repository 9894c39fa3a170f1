#include "podrate/filter/delay_line.hpp"

#include <catch2/catch.hpp>
#include <cstdint>
#include <map>
#include <vector>

using namespace podrate;

namespace {

constexpr TimeUs kBinUs = 100000;
constexpr TimeUs kStartUs = 1751032800 * kSecondUs;

// Every microsecond of area kept by bins, without a ring: the plain way.
class BruteForce {
  public:
    void add(TimeUs from_us, TimeUs to_us, double area_m2) {
        for (TimeUs t = from_us; t < to_us;) {
            const TimeUs end = std::min(to_us, (t / kBinUs + 1) * kBinUs);
            bins_[t / kBinUs] +=
                area_m2 * static_cast<double>(end - t) / static_cast<double>(to_us - from_us);
            t = end;
        }
    }
    [[nodiscard]] double between(TimeUs from_us, TimeUs to_us) const {
        double sum = 0.0;
        for (const auto& [bin, area_m2] : bins_) {
            const TimeUs begin = std::max(from_us, bin * kBinUs);
            const TimeUs end = std::min(to_us, (bin + 1) * kBinUs);
            if (end > begin) sum += area_m2 * static_cast<double>(end - begin) / static_cast<double>(kBinUs);
        }
        return sum;
    }

  private:
    std::map<TimeUs, double> bins_;
};

class Numbers {
  public:
    explicit Numbers(std::uint64_t seed) : state_(seed) {}
    // 0 to below - 1
    std::int64_t below(std::int64_t limit) {
        state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
        return static_cast<std::int64_t>(state_ >> 33) % limit;
    }

  private:
    std::uint64_t state_;
};

}  // namespace

TEST_CASE("The delay line agrees with brute force over random fillings") {
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        INFO("seed " << seed);
        Numbers numbers(seed);
        DelayLine line;
        BruteForce truth;
        TimeUs now_us = kStartUs + numbers.below(kBinUs);
        for (int step = 0; step < 400; ++step) {
            if (numbers.below(10) == 0) now_us += numbers.below(3 * kSecondUs);
            const TimeUs end_us = now_us + 1 + numbers.below(numbers.below(5) == 0 ? 2000000 : 150000);
            const float area_m2 = static_cast<float>(numbers.below(1000)) * 0.003F;
            line.add(now_us, end_us, area_m2);
            truth.add(now_us, end_us, static_cast<double>(area_m2));
            now_us = end_us;
            const TimeUs from_us = now_us - numbers.below(25 * kSecondUs);
            const TimeUs to_us = from_us + numbers.below(2 * kSecondUs);
            REQUIRE(line.between(from_us, to_us) == Approx(truth.between(from_us, to_us)).margin(1e-3));
        }
    }
}

TEST_CASE("Nothing is lost or counted twice when the line is read piece by piece") {
    for (const TimeUs piece_us : {TimeUs{33333}, TimeUs{100000}, TimeUs{250000}, TimeUs{1000000}}) {
        DelayLine line;
        constexpr TimeUs kDelayUs = 6 * kSecondUs;
        double added = 0.0;
        double read = 0.0;
        for (TimeUs t = 0; t < 300 * kSecondUs; t += piece_us) {
            // Twelve seconds of nothing at the end let the last come out.
            if (t < 280 * kSecondUs) {
                line.add(kStartUs + t, kStartUs + t + piece_us, 0.25F);
                added += 0.25;
            } else {
                line.add(kStartUs + t, kStartUs + t + piece_us, 0.0F);
            }
            read += static_cast<double>(
                line.between(kStartUs + t - kDelayUs, kStartUs + t + piece_us - kDelayUs));
        }
        INFO("pieces of " << piece_us << " us");
        CHECK(read == Approx(added).epsilon(1e-4));
    }
}

TEST_CASE("Area outside the last 25.6 s is gone") {
    DelayLine line;
    line.add(kStartUs, kStartUs + kSecondUs, 2.0F);
    CHECK(line.between(kStartUs, kStartUs + kSecondUs) == Approx(2.0));
    line.add(kStartUs + 20 * kSecondUs, kStartUs + 21 * kSecondUs, 1.0F);
    CHECK(line.between(kStartUs, kStartUs + kSecondUs) == Approx(2.0));
    line.add(kStartUs + 30 * kSecondUs, kStartUs + 31 * kSecondUs, 1.0F);
    CHECK(line.between(kStartUs, kStartUs + kSecondUs) == 0.0F);
    CHECK(line.between(kStartUs + 20 * kSecondUs, kStartUs + 21 * kSecondUs) == Approx(1.0));
}

TEST_CASE("A gap far longer than the line leaves nothing behind") {
    DelayLine line;
    line.add(kStartUs, kStartUs + 10 * kSecondUs, 5.0F);
    const TimeUs later_us = kStartUs + 3600 * kSecondUs;
    line.add(later_us, later_us + kSecondUs, 1.0F);
    CHECK(line.between(later_us - 24 * kSecondUs, later_us) == 0.0F);
    CHECK(line.between(later_us - 24 * kSecondUs, later_us + kSecondUs) == Approx(1.0));
}

TEST_CASE("An area spread over longer than the line keeps its rate") {
    DelayLine line;
    line.add(kStartUs, kStartUs + 100 * kSecondUs, 100.0F);
    CHECK(line.between(kStartUs + 80 * kSecondUs, kStartUs + 90 * kSecondUs) == Approx(10.0).epsilon(1e-4));
}

TEST_CASE("An empty or backward span has no area") {
    DelayLine line;
    line.add(kStartUs, kStartUs, 5.0F);
    line.add(kStartUs + 5, kStartUs, 5.0F);
    CHECK(line.between(kStartUs - kSecondUs, kStartUs + kSecondUs) == 0.0F);
    line.add(kStartUs, kStartUs + kSecondUs, 5.0F);
    CHECK(line.between(kStartUs + 500000, kStartUs + 500000) == 0.0F);
    CHECK(line.between(kStartUs + 800000, kStartUs + 200000) == 0.0F);
}

TEST_CASE("A line of half the bins reaches half as far") {
    TimeBins<128> line;
    line.add(kStartUs, kStartUs + kSecondUs, 2.0F);
    line.add(kStartUs + 11 * kSecondUs, kStartUs + 12 * kSecondUs, 1.0F);
    CHECK(line.between(kStartUs, kStartUs + kSecondUs) == Approx(2.0));
    line.add(kStartUs + 13 * kSecondUs, kStartUs + 14 * kSecondUs, 1.0F);
    CHECK(line.between(kStartUs, kStartUs + kSecondUs) == 0.0F);
    CHECK(line.between(kStartUs + 11 * kSecondUs, kStartUs + 12 * kSecondUs) == Approx(1.0));
}
