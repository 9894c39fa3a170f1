// Every field of what the estimator says, folded into one number by its raw bits.
#pragma once

#include <cstdint>
#include <cstring>

#include "podrate/estimate.hpp"
#include "podrate/load.hpp"
#include "podrate/loss/loss_book.hpp"

namespace podrate::test {

// FNV-1a (Fowler, Noll, Vo), 64 bits wide, by words of 32 bits.
class Hash {
  public:
    void word(std::uint32_t word) { value_ = (value_ ^ word) * 0x100000001B3U; }
    void time(TimeUs time_us) {
        word(static_cast<std::uint32_t>(time_us));
        word(static_cast<std::uint32_t>(static_cast<std::uint64_t>(time_us) >> 32));
    }
    template <class... T>
    void reals(T... values) {
        (bits(values), ...);
    }
    [[nodiscard]] std::uint64_t value() const { return value_; }

  private:
    void bits(float value) {
        std::uint32_t raw = 0;
        std::memcpy(&raw, &value, sizeof raw);
        word(raw);
    }
    std::uint64_t value_ = 0xCBF29CE484222325U;
};

inline void fold(Hash& hash, const SpeedRange& range) {
    hash.word(range.known ? 1 : 0);
    hash.reals(range.speed_mps, range.low_mps, range.high_mps);
}

inline void fold(Hash& hash, const Advice& advice) {
    static_assert(sizeof(Advice) == 4 + 3 * 16 + 4 + 2 * 8, "a field more or less: fold it in below");
    hash.word(static_cast<std::uint32_t>(advice.binding));
    fold(hash, advice.speed);
    fold(hash, advice.under_limit);
    fold(hash, advice.for_rate);
    hash.word(advice.past_fold ? 1 : 0);
    hash.reals(advice.faster.gained_kgps, advice.faster.ground_kgpm2, advice.slower.gained_kgps,
               advice.slower.ground_kgpm2);
}

inline void fold(Hash& hash, const Estimate& e) {
    static_assert(sizeof(Estimate) == 208, "a field more or less: fold it in below");
    hash.time(e.time_us);
    hash.word(e.started ? 1 : 0);
    hash.word(static_cast<std::uint32_t>(e.state));
    hash.word(e.faults);
    hash.word(e.alarms);
    hash.reals(e.mass_kg, e.mass_sd_kg, e.flow_kgps, e.flow_sd_kgps, e.yield_kgpm2, e.yield_sd_kgpm2);
    hash.reals(e.loss_share, e.loss_low, e.loss_high, e.drum_loss_share, e.drum_loss_low, e.drum_loss_high);
    hash.reals(e.picking_loss_share, e.picking_loss_low, e.picking_loss_high, e.ground_kgpm2, e.fold);
    hash.reals(e.loss_learnt, e.speed_spread);
    hash.word(e.tray_checks);
    hash.word(e.loss_sensor ? 1 : 0);
    hash.reals(e.speed_mps, e.harvested_kg, e.harvested_sd_kg, e.area_m2, e.load_kg, e.level_share);
    hash.reals(e.distance_to_full_m, e.time_to_full_s);
    fold(hash, e.advice);
    hash.time(e.oldest_cut_us);
}

inline void fold(Hash& hash, const Load& load) {
    hash.word(load.number);
    hash.word(load.revision);
    hash.time(load.start_us);
    hash.time(load.end_us);
    hash.time(load.closed_us);
    hash.time(load.first_cut_us);
    hash.word(static_cast<std::uint32_t>(load.lat_e7));
    hash.word(static_cast<std::uint32_t>(load.lon_e7));
    hash.word(load.place_known ? 1 : 0);
    hash.reals(load.net_kg, load.net_sd_kg, load.area_m2, load.lost_kg);
}

}  // namespace podrate::test
