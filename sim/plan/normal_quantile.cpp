#include "plan/normal_quantile.hpp"

#include <algorithm>
#include <cmath>

#include "podrate/math/elementary.hpp"

namespace podrate::sim {
namespace {

// A ratio of two polynomials of degree 7, lowest power first.
struct Ratio {
    double above[8];
    double below[8];
    [[nodiscard]] double at(double x) const {
        double a = above[7];
        double b = below[7];
        for (int i = 6; i >= 0; --i) {
            a = a * x + above[i];
            b = b * x + below[i];
        }
        return a / b;
    }
};

constexpr Ratio kCentre = {
    {3.3871328727963666080, 1.3314166789178437745e2, 1.9715909503065514427e3, 1.3731693765509461125e4,
     4.5921953931549871457e4, 6.7265770927008700853e4, 3.3430575583588128105e4, 2.5090809287301226727e3},
    {1.0, 4.2313330701600911252e1, 6.8718700749205790830e2, 5.3941960214247511077e3, 2.1213794301586595867e4,
     3.9307895800092710610e4, 2.8729085735721942674e4, 5.2264952788528545610e3}};
constexpr Ratio kNear = {
    {1.42343711074968357734, 4.63033784615654529590, 5.76949722146069140550, 3.64784832476320460504,
     1.27045825245236838258, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4},
    {1.0, 2.05319162663775882187, 1.67638483018380384940, 6.89767334985100004550e-1,
     1.48103976427480074590e-1, 1.51986665636164571966e-2, 5.47593808499534494600e-4,
     1.05075007164441684324e-9}};
constexpr Ratio kFar = {{6.65790464350110377720, 5.46378491116411436990, 1.78482653991729133580,
                         2.96560571828504891230e-1, 2.65321895265761230930e-2, 1.24266094738807843860e-3,
                         2.71155556874348757815e-5, 2.01033439929228813265e-7},
                        {1.0, 5.99832206555887937690e-1, 1.36929880922735805310e-1, 1.48753612908506148525e-2,
                         7.86869131145613259100e-4, 1.84631831751005468180e-5, 1.42151175831644588870e-7,
                         2.04426310338993978564e-15}};

constexpr double kRootOfTwoPi = 2.50662827463100050242;

}  // namespace

double normal_quantile(double p) {
    const double q = p - 0.5;
    if (std::abs(q) <= 0.425) return q * kCentre.at(0.180625 - q * q);
    const double tail = std::clamp(q < 0.0 ? p : 1.0 - p, 1e-300, 1.0);
    const double r = std::sqrt(-math::ln(tail));
    const double z = r <= 5.0 ? kNear.at(r - 1.6) : kFar.at(r - 5.0);
    return q < 0.0 ? -z : z;
}

double normal_below(double z) {
    constexpr double kSeriesUpTo = 3.0;
    const double x = std::abs(z);
    const double density = math::exp(-0.5 * x * x) / kRootOfTwoPi;
    double above = 0.0;  // P(Z > x)
    if (x < kSeriesUpTo) {
        double term = x;
        double sum = x;
        for (int k = 1; k < 60; ++k) {
            term *= x * x / (2.0 * k + 1.0);
            sum += term;
        }
        above = 0.5 - density * sum;
    } else {
        double fraction = x;
        for (int k = 80; k > 0; --k) fraction = x + k / fraction;
        above = density / fraction;
    }
    return z < 0.0 ? above : 1.0 - above;
}

}  // namespace podrate::sim
