// Runs a sample stream through the estimator: the same source on every target.
#pragma once

#include <new>

#include "embedded/board.hpp"
#include "embedded/line.hpp"
#include "embedded/sample_stream.hpp"
#include "podrate/estimator.hpp"

namespace podrate::test {

// Reads in blocks of 4 KB: each call of the host costs a stop of the emulator.
class StreamReader {
  public:
    bool get(void* to, int bytes) {
        char* next = static_cast<char*>(to);
        while (bytes > 0) {
            if (at_ == held_) {
                held_ = board::read(block_, kBlock);
                at_ = 0;
                if (held_ <= 0) return false;
            }
            const int part = bytes < held_ - at_ ? bytes : held_ - at_;
            std::memcpy(next, block_ + at_, static_cast<std::size_t>(part));
            at_ += part;
            next += part;
            bytes -= part;
        }
        return true;
    }

  private:
    static constexpr int kBlock = 4096;
    char block_[kBlock] = {};
    int held_ = 0;
    int at_ = 0;
};

// No program here has a constructor run before main.
struct Memory {
    alignas(Estimator) unsigned char estimator[sizeof(Estimator)];
    alignas(Parameters) unsigned char parameters[sizeof(Parameters)];
    alignas(StreamReader) unsigned char reader[sizeof(StreamReader)];
};

// Opens the stream, builds the estimator in `memory`, and calls each(estimator, sample) for every sample.
// Returns an exit code.
template <class Each>
int run_samples(const char* path, Memory& memory, Each& each) {
    if (path == nullptr || !board::open(path)) {
        board::print("cannot open the sample stream\n");
        return 1;
    }
    auto& reader = *new (memory.reader) StreamReader;
    auto& parameters = *new (memory.parameters) Parameters;
    StreamHeader header = {};
    if (!reader.get(&header, sizeof header) || header.magic != kStreamMagic ||
        header.parameter_version != kParameterVersion || header.parameters != kParameterCount) {
        board::print("not a sample stream of this version\n");
        return 1;
    }
    for (const ParameterInfo& info : kParameterTable) {
        float value = 0.0F;
        if (!reader.get(&value, sizeof value)) return 1;
        parameters.*info.member = value;
    }
    auto& estimator = *new (memory.estimator) Estimator(parameters);
    for (std::uint32_t i = 0; i < header.samples; ++i) {
        SampleRecord record;
        if (!reader.get(&record, sizeof record)) {
            board::print("the sample stream is cut\n");
            return 1;
        }
        each(estimator, to_sample(record));
    }
    each.finish(estimator);
    return 0;
}

}  // namespace podrate::test
