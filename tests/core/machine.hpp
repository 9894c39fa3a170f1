// A simulated viner that speaks to the estimator in samples: known truth, seeded noise, no heap.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>

#include "podrate/sample.hpp"

namespace podrate::test {

// Plant as the estimator's defaults believe it unless told otherwise: 0.5 kg/m2 standing, 3.3 m, 6 s dead
// time, 8 s lag, loss curve of picking 4 % and drum 3.5 % at 8 kg/s.
struct Truth {
    double mass_kg = 0.0;
    double flow_kgps = 0.0;
    double harvested_kg = 0.0;
    double area_m2 = 0.0;
};

template <class Sink>
class Machine {
  public:
    static constexpr TimeUs kStartUs = 1751032800 * kSecondUs;
    static constexpr double kStepS = 0.1;

    explicit Machine(Sink sink, std::uint64_t seed = 1) : sink_(sink), state_(seed) {}

    [[nodiscard]] const Truth& truth() const { return truth_; }
    [[nodiscard]] TimeUs now_us() const { return now_us_; }

    // Peas left on the ground where it would cut now at that speed, kg/m2.
    [[nodiscard]] double ground_kgpm2(double speed_mps) const {
        return crop_kgpm2 - passed_kgps(3.3 * speed_mps) / (3.3 * speed_mps);
    }

    double crop_kgpm2 = 0.5;
    double picking_loss_share = 0.04;
    double drum_loss_share = 0.035;  // at 8 kg/s
    bool blocked = false;            // the drum lets nothing through; it surges out afterwards
    double leak_kgps = 0.0;          // out of the hopper
    double noise_moving_kg = 6.0;
    double noise_still_kg = 1.2;
    double zero_kg = 0.0;     // added to every reading
    bool silent = false;      // nothing is logged
    bool no_speed = false;    // speed is not logged
    bool no_reel = false;     // reel is not logged
    bool frozen = false;      // the weight repeats to the last digit
    double ends_at_kg = 1e9;  // the scale shows no more
    bool dead_speed = false;  // speed is logged as zero and the reel as off, whatever the machine does

    void drive(double for_s, double speed_mps, bool reel_on = true) { go(for_s, speed_mps, reel_on, 0.0); }
    void stand(double for_s) { go(for_s, 0.0, false, 0.0); }
    // Peas leave evenly until `left_kg` are left.
    void tip(double for_s = 30.0, double left_kg = 0.0) {
        go(for_s, 0.0, false, (truth_.mass_kg - left_kg) / for_s);
    }
    void put_in(double kg) { truth_.mass_kg += kg; }

  private:
    static constexpr int kDeadSteps = 60;

    void go(double for_s, double speed_mps, bool reel_on, double pour_kgps) {
        for (long left = std::lround(for_s / kStepS); left > 0; --left) {
            move(speed_mps, reel_on, pour_kgps);
            now_us_ += 100000;
            if (!silent) speak(speed_mps, reel_on);
            ++step_;
        }
    }

    void move(double speed_mps, bool reel_on, double pour_kgps) {
        const double area_rate_m2ps = reel_on ? 3.3 * speed_mps : 0.0;
        double& slot = on_the_way_[static_cast<std::size_t>(step_ % kDeadSteps)];
        const double kept = std::exp(-kStepS / 8.0);
        drum_kg_ += slot * kStepS;
        slot = passed_kgps(area_rate_m2ps);
        const double leaves_kg = blocked ? 0.0 : (1.0 - kept) * drum_kg_;
        drum_kg_ -= leaves_kg;
        truth_.flow_kgps = leaves_kg / kStepS;
        const double leak = leak_kgps < truth_.mass_kg / kStepS ? leak_kgps : truth_.mass_kg / kStepS;
        truth_.mass_kg += (truth_.flow_kgps - pour_kgps - leak) * kStepS;
        truth_.harvested_kg += truth_.flow_kgps * kStepS;
        truth_.area_m2 += area_rate_m2ps * kStepS;
    }

    [[nodiscard]] double passed_kgps(double area_rate_m2ps) const {
        const double taken_in_kgps = crop_kgpm2 * area_rate_m2ps * (1.0 - picking_loss_share);
        const double feed_kgps = 5.0 / 0.96 * taken_in_kgps;
        const double hazard = -std::log(1.0 - drum_loss_share) * std::exp((feed_kgps - 8.0) / 3.5);
        return taken_in_kgps * std::exp(-hazard);
    }

    void speak(double speed_mps, bool reel_on) {
        const double shown_mps = dead_speed ? 0.0 : speed_mps;
        if (!no_speed && step_ % 2 == 0) sink_(speed_sample(now_us_, static_cast<float>(shown_mps)));
        if (!no_reel && (step_ % 10 == 0 || reel_on != told_reel_)) {
            sink_(reel_sample(now_us_, reel_on && !dead_speed));
        }
        told_reel_ = reel_on;
        const bool shakes = speed_mps > 0.0 || reel_on;
        const double kg = truth_.mass_kg + zero_kg + normal() * (shakes ? noise_moving_kg : noise_still_kg);
        if (!frozen) shown_kg_ = static_cast<float>(kg < ends_at_kg ? kg : ends_at_kg);
        sink_(weight_sample(now_us_, shown_kg_));
    }

    // Sum of twelve uniform numbers less six: near enough to a normal one.
    double normal() {
        double sum = -6.0;
        for (int i = 0; i < 12; ++i) {
            state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
            sum += static_cast<double>(state_ >> 11) * 0x1.0p-53;
        }
        return sum;
    }

    Sink sink_;
    std::uint64_t state_;
    Truth truth_;
    TimeUs now_us_ = kStartUs;
    long step_ = 0;
    bool told_reel_ = false;
    float shown_kg_ = 0.0F;
    double drum_kg_ = 0.0;  // peas in the drum, on their way out
    std::array<double, kDeadSteps> on_the_way_{};
};

}  // namespace podrate::test
