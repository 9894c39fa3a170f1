// A root mean square, summed up value by value.
#pragma once

#include <cmath>

namespace podrate::sim {

struct RootMeanSquare {
    double sum_of_squares = 0.0;
    long count = 0;
    void add(double error) {
        sum_of_squares += error * error;
        ++count;
    }
    void add(const RootMeanSquare& other) {
        sum_of_squares += other.sum_of_squares;
        count += other.count;
    }
    [[nodiscard]] double value() const {
        return count > 0 ? std::sqrt(sum_of_squares / static_cast<double>(count)) : 0.0;
    }
};

}  // namespace podrate::sim
