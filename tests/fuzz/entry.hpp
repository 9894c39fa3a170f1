// What libFuzzer calls with each input, and what a fuzzed program does about a promise broken.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdlib>

// Named by libFuzzer.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace podrate::test {

inline void promise(bool kept) {
    if (!kept) std::abort();
}

}  // namespace podrate::test
