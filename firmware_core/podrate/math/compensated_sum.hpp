// Sums over a whole day without losing the small terms.
#pragma once

namespace podrate::math {

// Neumaier's variant of Kahan's summation (Neumaier 1974, ZAMM 54: 39-51): a float total of 800,000 small
// terms stays within one rounding of the true sum.
template <class T>
class CompensatedSum {
  public:
    constexpr CompensatedSum() = default;
    // From the two parts of an earlier one.
    constexpr CompensatedSum(T sum, T lost) : sum_(sum), lost_(lost) {}

    void add(T term) {
        const T sum = sum_ + term;
        const T larger = magnitude(sum_) >= magnitude(term) ? sum_ : term;
        const T smaller = magnitude(sum_) >= magnitude(term) ? term : sum_;
        lost_ += (larger - sum) + smaller;
        // Handed over at once: equal terms would let the lost part grow until it rounds itself.
        sum_ = sum + lost_;
        lost_ = (sum - sum_) + lost_;
    }
    [[nodiscard]] T value() const { return sum_ + lost_; }
    // Difference of two sums, without rounding both first.
    [[nodiscard]] T since(const CompensatedSum& earlier) const {
        return (sum_ - earlier.sum_) + (lost_ - earlier.lost_);
    }

    // The sum as rounded, and what that lost.
    [[nodiscard]] constexpr T sum() const { return sum_; }
    [[nodiscard]] constexpr T lost() const { return lost_; }

  private:
    static T magnitude(T x) { return x < T(0) ? -x : x; }
    T sum_ = T(0);
    T lost_ = T(0);
};

}  // namespace podrate::math
