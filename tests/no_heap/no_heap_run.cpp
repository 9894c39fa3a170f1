// An hour of samples through the core alone, the heap being a trap; or one use of the heap, as a control.
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <new>

#include "core/machine.hpp"
#include "no_heap/trap.hpp"
#include "podrate/bus/bus_encoder.hpp"
#include "podrate/bus/bus_watch.hpp"
#include "podrate/bus/nmea_sentence.hpp"
#include "podrate/estimator.hpp"
#include "podrate/retained/retained_bytes.hpp"

namespace {

using podrate::test::set_trap;

// With the end of its line
constexpr const char* kSentence = "$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A\r\n";

struct Bus {
    podrate::bus::BusEncoder encoder;
    podrate::bus::BusDecoder decoder;
    podrate::bus::BusWatch watch;
    podrate::bus::NmeaDecoder line;
};

struct Feed {
    podrate::Estimator* estimator;
    podrate::Real* sum;
    Bus* bus;
    // By way of the bus, as a machine would have it.
    void operator()(const podrate::Sample& sample) const {
        const int frames = bus->encoder.encode(sample);
        for (int i = 0; i < frames; ++i) {
            const podrate::bus::CanFrame& frame = bus->encoder.frame(i);
            bus->watch.see(frame, bus->decoder.take(frame), bus->decoder);
            for (int k = 0; k < bus->decoder.sample_count(); ++k) estimator->feed(bus->decoder.sample(k));
        }
        for (const char* c = kSentence; *c != 0; ++c)
            bus->line.take(sample.time_us, static_cast<unsigned char>(*c));
        *sum += estimator->read().flow_kgps;
    }
};

// What another estimator reads after it has taken up what this one saved.
podrate::Estimate over_a_power_cut(const podrate::Estimator& before) {
    podrate::RetainedState state;
    std::uint8_t bytes[podrate::kSavedBytes];
    podrate::Estimator after{podrate::Parameters{}};
    if (!before.save(state)) return {};
    podrate::write_saved(state, bytes);
    podrate::RetainedState saved;
    if (podrate::read_saved(bytes, sizeof bytes, saved) != podrate::ReadResult::good) return {};
    after.resume(saved, saved.now.time_us);
    return after.read();
}

int run() {
    set_trap(true);
    podrate::Estimator estimator{podrate::Parameters{}};
    podrate::Real sum = 0;
    Bus bus;
    podrate::test::Machine<Feed> machine(Feed{&estimator, &sum, &bus});
    machine.stand(10.0);
    for (int i = 0; i < 4; ++i) {
        machine.drive(250.0, 0.8);
        machine.drive(25.0, 1.2, false);
    }
    machine.tip();
    machine.stand(15.0);
    machine.silent = true;
    machine.drive(90.0, 0.8);
    machine.silent = false;
    machine.no_speed = true;
    machine.drive(60.0, 0.8);
    machine.no_speed = false;
    machine.drive(1000.0, 0.8);
    machine.zero_kg = 100.0;
    machine.drive(200.0, 0.8);
    machine.stand(20.0);
    machine.tip();
    machine.drive(1200.0, 0.85);
    podrate::Estimator copy = estimator;
    const podrate::Estimate e = copy.read();
    const bool resumed = over_a_power_cut(copy).harvested_kg == e.harvested_kg;
    set_trap(false);
    std::printf("%u loads, %.1f kg\n", copy.load_count(), static_cast<double>(e.harvested_kg));
    const bool worked =
        resumed && copy.load_count() == 2 && e.harvested_kg > 3000 && sum > 0 && bus.line.utc_offset().known;
    return worked ? 0 : 1;
}

// volatile: so that the compiler can't leave the pair out.
void* volatile kept = nullptr;

}  // namespace

int main(int argc, char** argv) {
    const char* way = argc > 1 ? argv[1] : "";
    if (std::strcmp(way, "run") == 0) return run();
    if (std::strcmp(way, "free") == 0 || std::strcmp(way, "delete") == 0) {
        kept = std::strcmp(way, "free") == 0 ? std::malloc(8) : ::operator new(8);
        set_trap(true);
        if (std::strcmp(way, "free") == 0) std::free(kept);
        ::operator delete(kept);
    }
    set_trap(true);
    if (std::strcmp(way, "malloc") == 0) kept = std::malloc(8);
    if (std::strcmp(way, "new") == 0) kept = ::operator new(8);
    return 0;
}
