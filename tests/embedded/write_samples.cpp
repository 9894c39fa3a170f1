// podrate_write_samples DAY MACHINE OUT [MOST]: what a replay of that machine feeds into the estimator, as a
// sample stream, or the first MOST samples of it; prints the replay's own totals to the last bit.
#include <cstdio>
#include <exception>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "day/day.hpp"
#include "embedded/sample_stream.hpp"
#include "podrate/estimator.hpp"
#include "replay/machine_replay.hpp"

namespace {

std::vector<podrate::test::SampleRecord> records;

}  // namespace

// The linker leads every call of Estimator::feed through here (--wrap), so that nothing can be fed past it.
extern "C" {
podrate::FeedResult __real__ZN7podrate9Estimator4feedERKNS_6SampleE(podrate::Estimator*,
                                                                    const podrate::Sample&);
podrate::FeedResult __wrap__ZN7podrate9Estimator4feedERKNS_6SampleE(podrate::Estimator* estimator,
                                                                    const podrate::Sample& sample) {
    records.push_back(podrate::test::to_record(sample));
    return __real__ZN7podrate9Estimator4feedERKNS_6SampleE(estimator, sample);
}
}

namespace podrate::test {
namespace {

unsigned bits(float value) {
    unsigned raw = 0;
    std::memcpy(&raw, &value, sizeof raw);
    return raw;
}

void write(const Parameters& parameters, const char* path) {
    std::ofstream out(path, std::ios::binary);
    const auto put = [&out](const auto& what) {
        out.write(reinterpret_cast<const char*>(&what), sizeof what);
    };
    put(StreamHeader{kStreamMagic, kParameterVersion, kParameterCount,
                     static_cast<std::uint32_t>(records.size())});
    for (const ParameterInfo& info : kParameterTable) put(static_cast<float>(parameters.*info.member));
    for (const SampleRecord& record : records) put(record);
    if (!out.flush()) throw std::runtime_error(std::string("cannot write ") + path);
}

int run(const char* folder, const std::string& id, const char* path, std::size_t most) {
    const sim::Day day = sim::read_day(folder);
    for (const sim::Machine& machine : day.machines) {
        if (machine.id != id) continue;
        if (machine.carried) throw std::runtime_error("a memory of earlier days is no part of a stream");
        const sim::MachineResult result = sim::replay_machine(machine, {}, {});
        if (!result.usable) throw std::runtime_error(result.refusal);
        if (records.size() > most) records.resize(most);
        write(machine.parameters, path);
        std::printf("harvested_kg %08x\narea_m2 %08x\nlost_kg %08x\nloss_share %08x\n",
                    bits(result.last.harvested_kg), bits(result.last.area_m2), bits(result.lost.lost_kg),
                    bits(result.lost.shares.total.share));
        return 0;
    }
    throw std::runtime_error("no machine " + id + " in " + folder);
}

}  // namespace
}  // namespace podrate::test

int main(int argc, char** argv) {
    if (argc < 4) {
        std::fprintf(stderr, "usage: %s DAY MACHINE OUT [MOST]\n", argv[0]);
        return 2;
    }
    try {
        return podrate::test::run(argv[1], argv[2], argv[3], argc > 4 ? std::stoul(argv[4]) : SIZE_MAX);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
}
