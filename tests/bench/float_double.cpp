// podrate_float_double SAMPLES: the estimator in float and in double over one sample stream, and how far they
// part.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <vector>

#include "core_double/face.hpp"
#include "embedded/sample_stream.hpp"
#include "podrate/estimator.hpp"

using namespace podrate;

namespace {

class Difference {
  public:
    void add(double in_float, double in_double) {
        const double off = in_float - in_double;
        squares_ += off * off;
        values_ += in_double * in_double;
        most_ = std::max(most_, std::abs(off));
        ++count_;
    }
    void print(const char* name) const {
        const double n = static_cast<double>(std::max(count_, 1L));
        std::printf("%-14s differs by %.3g (rms; the value itself: %.3g), at most %.3g\n", name,
                    std::sqrt(squares_ / n), std::sqrt(values_ / n), most_);
    }

  private:
    double squares_ = 0.0;
    double values_ = 0.0;
    double most_ = 0.0;
    long count_ = 0;
};

template <class T>
bool get(std::ifstream& in, T& to) {
    return static_cast<bool>(in.read(reinterpret_cast<char*>(&to), sizeof to));
}

void print_total(const char* name, double in_float, double in_double) {
    std::printf("%-14s %.4f in float, %.4f in double: %.2g of it\n", name, in_float, in_double,
                std::abs(in_float / in_double - 1.0));
}

}  // namespace

int main(int argc, char** argv) {
    std::ifstream in(argc > 1 ? argv[1] : "", std::ios::binary);
    test::StreamHeader header = {};
    if (!get(in, header) || header.magic != test::kStreamMagic || header.parameters != kParameterCount) {
        std::fprintf(stderr, "usage: %s SAMPLES\n", argv[0]);
        return 2;
    }
    Parameters parameters;
    std::vector<double> values;
    for (const ParameterInfo& info : kParameterTable) {
        float value = 0.0F;
        get(in, value);
        parameters.*info.member = value;
        values.push_back(static_cast<double>(value));
    }
    Estimator in_float(parameters);
    podrate_test_double::Core in_double(values);
    Difference mass;
    Difference flow;
    Difference loss;
    test::SampleRecord record = {};
    long weights = 0;
    while (get(in, record)) {
        in_float.feed(test::to_sample(record));
        podrate_test_double::PlainSample plain = {record.time_us, record.channel, record.count,   {},
                                                  record.lat_e7,  record.lon_e7,  record.about_us};
        std::copy(std::begin(record.value), std::end(record.value), plain.value);
        in_double.feed(plain);
        if (record.channel != static_cast<std::uint8_t>(Channel::weight) || ++weights % 10 != 0) continue;
        const Estimate a = in_float.read();
        const podrate_test_double::Core::Said b = in_double.said();
        mass.add(static_cast<double>(a.mass_kg), b.mass_kg);
        flow.add(static_cast<double>(a.flow_kgps), b.flow_kgps);
        loss.add(static_cast<double>(a.loss_share), b.loss_share);
    }
    std::printf("%ld weights, compared each second\n", weights);
    mass.print("mass, kg");
    flow.print("flow, kg/s");
    loss.print("loss, share");
    const podrate_test_double::Core::Said last = in_double.said();
    print_total("harvested, kg", static_cast<double>(in_float.read().harvested_kg), last.harvested_kg);
    print_total("area, m2", static_cast<double>(in_float.read().area_m2), last.area_m2);
    print_total("lost, kg", static_cast<double>(in_float.loss_so_far().lost_kg), last.lost_kg);
    return 0;
}
