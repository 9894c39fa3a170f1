// The one-sided cumulative sum (Page 1954, Biometrika 41: 100-115): finds a small shift of a mean that lasts.
#pragma once

#include "podrate/real.hpp"

namespace podrate {

// S = max(0, S + x - k), alarm where S > h; x, k, h in sd of x. For a shift down feed -x; for both sides take
// two. k is best half the shift to be found. Values until the alarm, on average from S = 0 on, for
// independent normal x and k = 0.5, for one side / two (R, package spc; solved anew from Page's integral
// equation); one number stands for both where they agree:
//   shift, sd         0                   0.5                 1                   2        3
//   h 4        335.3676 / 167.6838   26.6792 / 26.6302   8.3832 / 8.3831     3.3428   2.1945
//   h 5        930.8870 / 465.4435   38.0096 / 37.9961  10.3760 / 10.3760    4.0089   2.5733
// Elsewhere, one side to 1 % for shifts up to 1 sd and k 0.5, 10 % short at 3 (Siegmund 1985, Sequential
// Analysis): (exp(-2 D b) + 2 D b - 1) / (2 D^2), or b^2 where D = 0; D = shift - k, b = h + 1.166.
class Cusum {
  public:
    // k 0 or more, h above 0.
    Cusum(Real k_sd, Real h_sd) : k_sd_(k_sd), h_sd_(h_sd) {}

    // One value, in sd. Returns over(). NaN counts for nothing.
    bool add(Real x_sd);
    void reset() { sum_sd_ = Real(0); }

    [[nodiscard]] bool over() const { return sum_sd_ > h_sd_; }
    // S, 0 to 2 h: it rises no further, which changes no alarm's beginning but lets it end without a reset.
    [[nodiscard]] Real sum_sd() const { return sum_sd_; }

  private:
    Real k_sd_;
    Real h_sd_;
    Real sum_sd_ = Real(0);
};

}  // namespace podrate
