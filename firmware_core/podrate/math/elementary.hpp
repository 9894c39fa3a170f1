// exp, ln, sin and cos from + - * / only, so that every compiler, processor and C library gives the same
// bits. Templates over float and double; measured errors stand in tests/core/elementary_test.cpp.
#pragma once

#include <cstdint>
#include <cstring>

namespace podrate::math {

template <class T>
struct FloatTraits;

template <>
struct FloatTraits<float> {
    using Bits = std::uint32_t;
    using SignedBits = std::int32_t;
    static constexpr int mantissa_bits = 23;
    static constexpr int bias = 127;
    static constexpr float exp_low = -87.0F;
    static constexpr float exp_high = 88.0F;
    static constexpr int exp_degree = 7;
    static constexpr int atanh_terms = 6;
    static constexpr int sine_terms = 4;
    static constexpr float ln2_high = 0.693359375F;
    static constexpr float ln2_low = -2.12194440e-4F;
    static constexpr float half_pi_high = 1.5703125F;
    static constexpr float half_pi_low = 4.838267949e-4F;
};

template <>
struct FloatTraits<double> {
    using Bits = std::uint64_t;
    using SignedBits = std::int64_t;
    static constexpr int mantissa_bits = 52;
    static constexpr int bias = 1023;
    static constexpr double exp_low = -708.0;
    static constexpr double exp_high = 709.0;
    static constexpr int exp_degree = 13;
    static constexpr int atanh_terms = 12;
    static constexpr int sine_terms = 8;
    static constexpr double ln2_high = 6.93147180369123816490e-01;
    static constexpr double ln2_low = 1.90821492927058770002e-10;
    static constexpr double half_pi_high = 1.57079632673412561417;
    static constexpr double half_pi_low = 6.07710050650619224932e-11;
};

template <class T>
struct Series {
    // 1/0!, 1/1!, ... 1/17!
    static constexpr T inverse_factorial[18] = {
        T(1),
        T(1),
        T(1.0 / 2),
        T(1.0 / 6),
        T(1.0 / 24),
        T(1.0 / 120),
        T(1.0 / 720),
        T(1.0 / 5040),
        T(1.0 / 40320),
        T(1.0 / 362880),
        T(1.0 / 3628800),
        T(1.0 / 39916800),
        T(1.0 / 479001600),
        T(1.0 / 6227020800.0),
        T(1.0 / 87178291200.0),
        T(1.0 / 1307674368000.0),
        T(1.0 / 20922789888000.0),
        T(1.0 / 355687428096000.0),
    };
    // 1/1, 1/3, 1/5, ... 1/25
    static constexpr T inverse_odd[13] = {
        T(1),        T(1.0 / 3),  T(1.0 / 5),  T(1.0 / 7),  T(1.0 / 9),  T(1.0 / 11), T(1.0 / 13),
        T(1.0 / 15), T(1.0 / 17), T(1.0 / 19), T(1.0 / 21), T(1.0 / 23), T(1.0 / 25),
    };
};

template <class T>
typename FloatTraits<T>::Bits bits_of(T value) {
    typename FloatTraits<T>::Bits bits;
    std::memcpy(&bits, &value, sizeof bits);
    return bits;
}

template <class T>
T from_bits(typename FloatTraits<T>::Bits bits) {
    T value;
    std::memcpy(&value, &bits, sizeof value);
    return value;
}

// c[n] + c[n + 1] r + ... c[last] r^(last - n), halved again and again (Estrin's scheme): the halves don't
// wait for one another, so it takes half the time of Horner's. powers: r, r^2, r^4, r^8.
template <class T, int n, int last>
T estrin(const T* c, const T* powers) {
    constexpr int terms = last - n + 1;
    if constexpr (terms == 1) {
        return c[n];
    } else {
        constexpr int level = terms > 8 ? 3 : (terms > 4 ? 2 : (terms > 2 ? 1 : 0));
        constexpr int middle = n + (1 << level);
        return estrin<T, n, middle - 1>(c, powers) + estrin<T, middle, last>(c, powers) * powers[level];
    }
}

// exp of |r| up to half of ln 2 and a little more. 1 + (r + r^2 (1/2 + ...)): the large terms are added last.
template <class T>
T exp_near_zero(T r) {
    const T r2 = r * r;
    const T r4 = r2 * r2;
    const T powers[4] = {r, r2, r4, r4 * r4};
    return T(1) + (r + r2 * estrin<T, 2, FloatTraits<T>::exp_degree>(Series<T>::inverse_factorial, powers));
}

// Largest and smallest results are clamped to the normal range: exp(-1000) is tiny, not a denormal; exp(1000)
// is large, not infinite. Arguments are finite (NaN is refused where samples enter).
template <class T>
T exp(T x) {
    using Traits = FloatTraits<T>;
    // Most arguments are small: nothing to take off them, and the same bits as below.
    if (x > T(-0.34) && x < T(0.34)) return exp_near_zero(x);
    if (x < Traits::exp_low) x = Traits::exp_low;
    if (x > Traits::exp_high) x = Traits::exp_high;
    const T scaled = x * T(1.44269504088896340736);
    const auto k = static_cast<std::int32_t>(scaled + (x < T(0) ? T(-0.5) : T(0.5)));
    const T r = (x - static_cast<T>(k) * Traits::ln2_high) - static_cast<T>(k) * Traits::ln2_low;
    const T sum = exp_near_zero(r);
    const auto exponent = static_cast<typename Traits::Bits>(k + Traits::bias);
    return sum * from_bits<T>(exponent << Traits::mantissa_bits);
}

// Natural logarithm of a positive normal number.
template <class T>
T ln(T x) {
    using Traits = FloatTraits<T>;
    using Bits = typename Traits::Bits;
    constexpr Bits mantissa_mask = (Bits(1) << Traits::mantissa_bits) - 1;
    const Bits bits = bits_of(x);
    auto exponent = static_cast<std::int32_t>(bits >> Traits::mantissa_bits) - Traits::bias;
    T f = from_bits<T>((bits & mantissa_mask) | (static_cast<Bits>(Traits::bias) << Traits::mantissa_bits));
    if (f > T(1.41421356237309504880)) {
        f *= T(0.5);
        ++exponent;
    }
    const T s = (f - T(1)) / (f + T(1));
    const T s2 = s * s;
    const T s4 = s2 * s2;
    const T s8 = s4 * s4;
    const T powers[4] = {s2, s4, s8, s8 * s8};
    const T sum = s2 * estrin<T, 1, Traits::atanh_terms>(Series<T>::inverse_odd, powers);
    const T k = static_cast<T>(exponent);
    return k * Traits::ln2_high + ((T(2) * s + T(2) * s * sum) + k * Traits::ln2_low);
}

template <class T>
struct SinCos {
    T sin;
    T cos;
};

// Both at once. |angle| up to 10,000 rad; meant for tilt, headings and geometry, not for phases of years.
template <class T>
SinCos<T> sin_cos(T angle_rad) {
    using Traits = FloatTraits<T>;
    const T scaled = angle_rad * T(0.63661977236758134308);
    const auto quadrant = static_cast<std::int32_t>(scaled + (angle_rad < T(0) ? T(-0.5) : T(0.5)));
    const T q = static_cast<T>(quadrant);
    const T r = (angle_rad - q * Traits::half_pi_high) - q * Traits::half_pi_low;
    const T r2 = r * r;
    T sine = T(0);
    T cosine = T(0);
    for (int n = Traits::sine_terms; n >= 0; --n) {
        const T sign = (n & 1) != 0 ? T(-1) : T(1);
        sine = sine * r2 + sign * Series<T>::inverse_factorial[2 * n + 1];
        cosine = cosine * r2 + sign * Series<T>::inverse_factorial[2 * n];
    }
    sine *= r;
    switch (quadrant & 3) {
        case 0: return {sine, cosine};
        case 1: return {cosine, -sine};
        case 2: return {-sine, -cosine};
        default: return {-cosine, sine};
    }
}

template <class T>
constexpr T clamp(T value, T low, T high) {
    return value < low ? low : (value > high ? high : value);
}

template <class T>
constexpr T abs(T value) {
    return value < T(0) ? -value : value;
}

template <class T>
constexpr T deg_to_rad(T angle_deg) {
    return angle_deg * T(0.01745329251994329577);
}

}  // namespace podrate::math
