// The estimator built in double, behind a face that shows none of its types.
#pragma once

#include <cstdint>
#include <vector>

namespace podrate_test_double {

struct PlainSample {
    std::int64_t time_us;
    int channel;
    int count;
    float value[4];
    std::int32_t lat_e7;
    std::int32_t lon_e7;
};

struct Result {
    int bytes_in_real;
    unsigned loads;
    double harvested_kg;
    double area_m2;
};

Result run(const std::vector<PlainSample>& samples);

}  // namespace podrate_test_double
