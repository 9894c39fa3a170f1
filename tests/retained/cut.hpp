// A simulated machine whose power is cut.
#pragma once

#include <catch2/catch.hpp>
#include <vector>

#include "core/rig.hpp"
#include "podrate/retained/retained_bytes.hpp"

namespace podrate::test {

inline RetainedState saved(const Rig& rig) {
    RetainedState state;
    REQUIRE(rig.estimator.save(state));
    // As it comes back from bytes.
    std::vector<std::uint8_t> bytes(kSavedBytes);
    write_saved(state, bytes.data());
    RetainedState back;
    REQUIRE(read_saved(bytes.data(), bytes.size(), back) == ReadResult::good);
    return back;
}

// Power goes for so long; meanwhile the machine does what `off` does.
template <class Off>
void cut(Rig& rig, Off off) {
    const RetainedState state = saved(rig);
    rig.machine.silent = true;
    off();
    rig.machine.silent = false;
    rig.estimator = Estimator{Parameters{}};
    REQUIRE(rig.estimator.resume(state, rig.machine.now_us()) == ResumeResult::resumed);
}

inline double kg(Real value) {
    return static_cast<double>(value);
}

}  // namespace podrate::test
