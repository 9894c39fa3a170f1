// States that are told apart at a glance: everything in state n follows from n.
#pragma once

#include "podrate/retained/retained_bytes.hpp"

namespace podrate::test {

// A visitor that fills each field with another number, within its bounds.
class Filler {
  public:
    explicit Filler(std::uint32_t seed) : next_(seed) {}
    void flag(bool& value) { value = (step() & 1U) != 0; }
    void byte(std::uint8_t& value, std::uint8_t most) {
        value = static_cast<std::uint8_t>(step() % (most + 1U));
    }
    void half(std::uint16_t& value) { value = static_cast<std::uint16_t>(step()); }
    void count(std::uint32_t& value) { value = step(); }
    void angle(std::int32_t& value, std::int32_t most) {
        value = static_cast<std::int32_t>(step() % static_cast<std::uint32_t>(most)) - most / 2;
    }
    void moment(TimeUs& value) { value = TimeUs{step()} * 4001; }
    void real(Real& value, Bounds bounds) {
        const Real share = static_cast<Real>(step() % 65536U) / Real(65536);
        value = bounds.low + share * (bounds.high - bounds.low);
        if (value > bounds.high) value = bounds.high;
    }
    void sum(math::CompensatedSum<Real>& value, Bounds bounds) {
        Real sum = Real(0);
        Real lost = Real(0);
        real(sum, bounds);
        real(lost, {Real(-1), Real(1)});
        value = {sum, lost};
    }

  private:
    std::uint32_t step() { return next_ = next_ * 1664525U + 1013904223U; }
    std::uint32_t next_;
};

inline RetainedState filled_state(std::uint32_t seed) {
    RetainedState state;
    Filler filler(seed);
    retained::visit_now(filler, state.now);
    retained::visit_loads(filler, state.loads);
    retained::visit_learnt(filler, state.learnt);
    retained::visit_clock(filler, state.clock);
    return state;
}

// A second later than the one before, with more harvested; every `load_every` seconds another load.
inline RetainedState state_at(std::uint32_t second, std::uint32_t load_every = 50) {
    RetainedState state = filled_state(99);
    state.now.time_us = TimeUs{1000 + second} * kSecondUs;
    state.now.area_m2 = {static_cast<Real>(second) * Real(2.5), Real(0)};
    state.now.mass_kg = static_cast<Real>(second % load_every);
    state.loads.last.number = second / load_every;
    return state;
}

}  // namespace podrate::test
