#include "podrate/math/compensated_sum.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

using podrate::math::CompensatedSum;

namespace {

// A day at 10 Hz of flows about 1.4 kg/s over 0.1 s, the same from run to run.
float term(int i) {
    return 0.14F + 0.0001F * static_cast<float>((i % 997) * 7919 % 997);
}

constexpr int kDayTerms = 864000;

}  // namespace

TEST_CASE("A float total of a day at 10 Hz is right to one rounding where a plain sum is not") {
    CompensatedSum<float> sum;
    float plain = 0.0F;
    double truth = 0.0;
    for (int i = 0; i < kDayTerms; ++i) {
        sum.add(term(i));
        plain += term(i);
        truth += static_cast<double>(term(i));
    }
    const double ulp = static_cast<double>(std::nextafter(static_cast<float>(truth), 1e9F)) -
                       static_cast<double>(static_cast<float>(truth));
    CHECK(std::abs(static_cast<double>(sum.value()) - truth) <= ulp);
    CHECK(std::abs(static_cast<double>(plain) - truth) > 100.0 * ulp);
}

TEST_CASE("Small terms survive beside a large one of either order") {
    CompensatedSum<float> sum;
    sum.add(1e8F);
    for (int i = 0; i < 1000; ++i) sum.add(0.25F);
    sum.add(-1e8F);
    CHECK(sum.value() == 250.0F);

    // Neumaier's case: the large term comes last, where Kahan's own sum loses the small ones.
    CompensatedSum<double> late;
    late.add(1.0);
    late.add(1e100);
    late.add(1.0);
    late.add(-1e100);
    CHECK(late.value() == 2.0);
}

TEST_CASE("The difference of two sums keeps what each had lost") {
    CompensatedSum<float> sum;
    sum.add(1e7F);
    for (int i = 0; i < 10; ++i) sum.add(0.1F);
    const CompensatedSum<float> before = sum;
    for (int i = 0; i < 304; ++i) sum.add(0.1F);
    CHECK(sum.since(before) == Approx(30.4).epsilon(1e-5));
    // Rounded first, both are whole numbers, since a float near 1e7 is.
    CHECK(sum.value() - before.value() != Approx(30.4).epsilon(1e-5));
}

TEST_CASE("A float total of equal terms is right to one rounding") {
    // A steady flow is the hardest case: each addition is rounded the same way.
    for (const float equal : {0.1F, 0.14F, 0.3F, -0.2F}) {
        CompensatedSum<float> sum;
        for (int i = 0; i < kDayTerms; ++i) sum.add(equal);
        INFO("terms of " << equal);
        CHECK(static_cast<double>(sum.value()) ==
              Approx(kDayTerms * static_cast<double>(equal)).epsilon(1.2e-7));
    }
}
