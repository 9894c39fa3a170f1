// The estimator built in double, behind a face that shows none of its types.
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

namespace podrate_test_double {

struct PlainSample {
    std::int64_t time_us;
    int channel;
    int count;
    float value[4];
    std::int32_t lat_e7;
    std::int32_t lon_e7;
    std::int64_t about_us = 0;
};

struct Result {
    int bytes_in_real;
    unsigned loads;
    double harvested_kg;
    double area_m2;
};

Result run(const std::vector<PlainSample>& samples);

// One sample after another.
class Core {
  public:
    // Parameters in the table's order.
    explicit Core(const std::vector<double>& parameters);
    ~Core();
    void feed(const PlainSample& sample);
    struct Said {
        double mass_kg;
        double flow_kgps;
        double loss_share;
        double harvested_kg;
        double area_m2;
        double lost_kg;
    };
    [[nodiscard]] Said said() const;

  private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

}  // namespace podrate_test_double
