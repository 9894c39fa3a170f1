// The plain structs lie as the header says, whatever the compiler: a caller in another language may rely on
// it.
#include <cstddef>
#include <type_traits>

#include "podrate/c_api/held.hpp"

using namespace podrate;

static_assert(sizeof(float) == 4 && sizeof(Real) == 4, "IEEE 754 single precision");

static_assert(sizeof(podrate_sample) == 48 && alignof(podrate_sample) <= 8);
static_assert(offsetof(podrate_sample, about_us) == 8);
static_assert(offsetof(podrate_sample, value) == 16);
static_assert(offsetof(podrate_sample, lat_e7) == 32);
static_assert(offsetof(podrate_sample, lon_e7) == 36);
static_assert(offsetof(podrate_sample, channel) == 40);
static_assert(offsetof(podrate_sample, count) == 41);

static_assert(sizeof(podrate_estimate) == 192);
static_assert(offsetof(podrate_estimate, oldest_cut_us) == 8);
static_assert(offsetof(podrate_estimate, mass_kg) == 16);
static_assert(offsetof(podrate_estimate, loss_share) == 40);
static_assert(offsetof(podrate_estimate, ground_kgpm2) == 76);
static_assert(offsetof(podrate_estimate, speed_mps) == 92);
static_assert(offsetof(podrate_estimate, time_to_full_s) == 120);
static_assert(offsetof(podrate_estimate, advised) == 124);
static_assert(offsetof(podrate_estimate, faster_gained_kgps) == 160);
static_assert(offsetof(podrate_estimate, alarms) == 176);
static_assert(offsetof(podrate_estimate, tray_checks) == 178);
static_assert(offsetof(podrate_estimate, faults) == 180);
static_assert(offsetof(podrate_estimate, past_fold) == 185);

static_assert(sizeof(podrate_load) == 72);
static_assert(offsetof(podrate_load, number) == 32);
static_assert(offsetof(podrate_load, lat_e7) == 40);
static_assert(offsetof(podrate_load, net_kg) == 48);
static_assert(offsetof(podrate_load, place_known) == 64);

static_assert(sizeof(podrate_pause) == 40);
static_assert(offsetof(podrate_pause, number) == 16);
static_assert(offsetof(podrate_pause, heap_kg) == 28);
static_assert(offsetof(podrate_pause, place_known) == 36);

static_assert(sizeof(struct podrate_alarm) == 32);
static_assert(offsetof(struct podrate_alarm, limit) == 8);
static_assert(offsetof(struct podrate_alarm, activations) == 16);
static_assert(offsetof(struct podrate_alarm, state) == 20);

static_assert(sizeof(podrate_loss) == 24 && sizeof(podrate_speed) == 12);
static_assert(sizeof(podrate_parameters) == 4 * kParameterCount);
static_assert(offsetof(podrate_flash, bank_bytes) == 4 * sizeof(void*));
static_assert(offsetof(podrate_flash, erased) == 4 * sizeof(void*) + 8);

static_assert(sizeof(podrate_heard) == 208 && offsetof(podrate_heard, utc_us) == 192);
static_assert(offsetof(podrate_heard, drum_rpm) == 200 && offsetof(podrate_heard, count) == 204);
static_assert(sizeof(podrate_senders) == 16 && offsetof(podrate_senders, hopper_element) == 8);
static_assert(sizeof(podrate_can_frame) == 24 && offsetof(podrate_can_frame, data) == 16);
static_assert(sizeof(podrate_bus_health) == 112 && offsetof(podrate_bus_health, silent) == 104);

// What stands in the storage needs no destructor: a caller may forget it.
static_assert(std::is_trivially_destructible_v<c_api::Machine>);
static_assert(std::is_trivially_destructible_v<c_api::Clock>);
static_assert(std::is_trivially_destructible_v<c_api::JournalKeeper>);
static_assert(std::is_trivially_destructible_v<c_api::Bus>);
static_assert(std::is_trivially_destructible_v<c_api::Receiver>);

// Numbers that the header repeats.
static_assert(PODRATE_ALARM_COUNT == kAlarms);
static_assert(PODRATE_TRAY == static_cast<int>(Channel::tray));
static_assert(PODRATE_STOPPED == static_cast<int>(WorkState::stopped) && kWorkStates == PODRATE_STOPPED + 1);
static_assert(static_cast<int>(PODRATE_TILT_DEAD) == static_cast<int>(kTiltDead) &&
              kTiltDead == 1 << (kFaults - 1));
static_assert(PODRATE_MACHINE_LIMITS == static_cast<int>(Binding::machine_limits));
static_assert(PODRATE_SUPPRESSED == static_cast<int>(AlarmState::suppressed));
static_assert(PODRATE_HIGH == static_cast<int>(AlarmPriority::high));
static_assert(PODRATE_NEW_RUN == static_cast<int>(Resume::new_run));
static_assert(PODRATE_RESULT_COUNT == bus::kFrameResults);
static_assert(PODRATE_DUPLICATE == static_cast<int>(bus::FrameResult::duplicate));
static_assert(PODRATE_CAN_OFF == static_cast<int>(bus::Controller::off));
