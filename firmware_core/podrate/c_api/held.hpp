// What stands in a caller's opaque storage, and whether it does.
#pragma once

#include <cstdint>
#include <new>

#include "podrate/bus/bus_decoder.hpp"
#include "podrate/bus/bus_watch.hpp"
#include "podrate/bus/nmea_sentence.hpp"
#include "podrate/estimator.hpp"
#include "podrate/podrate.h"
#include "podrate/retained/journal.hpp"
#include "podrate/time/clock_bridge.hpp"
#include "podrate/time/millisecond_clock.hpp"
#include "podrate/time/time_gate.hpp"

namespace podrate::c_api {

struct Machine {
    Machine(const Parameters& parameters, TimeUs now_us) : estimator(parameters), gate(now_us) {}
    Estimator estimator;
    TimeGate gate;
};

struct Clock {
    explicit Clock(TimeUs start_us) : count(start_us), bridge(start_us) {}
    MillisecondClock count;
    ClockBridge bridge;
};

struct JournalKeeper {
    explicit JournalKeeper(const Flash& flash) : journal(flash) {}
    Journal journal;
    TimeUs kept_us = 0;
    bool kept = false;
};

struct Bus {
    Bus(const bus::BusSettings& senders, TimeUs now_us) : decoder(senders), gate(now_us) {}
    bus::BusDecoder decoder;
    bus::BusWatch watch;
    TimeGate gate;
};

struct Receiver {
    explicit Receiver(TimeUs now_us) : gate(now_us) {}
    bus::NmeaDecoder decoder;
    TimeGate gate;
};

// Which of them stands behind a storage type, and what its first word begins with.
template <class Storage>
struct Held;
template <>
struct Held<podrate_machine> {
    using Type = Machine;
    static constexpr std::uint64_t mark = 0x3141592653589793U;
};
template <>
struct Held<podrate_clock> {
    using Type = Clock;
    static constexpr std::uint64_t mark = 0x2718281828459045U;
};
template <>
struct Held<podrate_journal> {
    using Type = JournalKeeper;
    static constexpr std::uint64_t mark = 0x1414213562373095U;
};
template <>
struct Held<podrate_bus> {
    using Type = Bus;
    static constexpr std::uint64_t mark = 0x1732050807568877U;
};
template <>
struct Held<podrate_receiver> {
    using Type = Receiver;
    static constexpr std::uint64_t mark = 0x2236067977499789U;
};

// NOLINTBEGIN(cppcoreguidelines-pro-type-reinterpret-cast): the caller's words are what a machine is kept in.
// Storage that was moved carries the wrong address.
template <class Storage>
std::uint64_t mark_at(const Storage* storage) {
    return Held<Storage>::mark ^ static_cast<std::uint64_t>(reinterpret_cast<std::uintptr_t>(storage));
}

template <class Storage>
podrate_status check(const Storage* storage) {
    if (storage == nullptr) return PODRATE_NULL_POINTER;
    return storage->words[0] == mark_at(storage) ? PODRATE_OK : PODRATE_NOT_INITIALISED;
}

template <class Storage>
typename Held<Storage>::Type& held(Storage* storage) {
    return *std::launder(reinterpret_cast<typename Held<Storage>::Type*>(storage->words + 1));
}
template <class Storage>
const typename Held<Storage>::Type& held(const Storage* storage) {
    return *std::launder(reinterpret_cast<const typename Held<Storage>::Type*>(storage->words + 1));
}

// NOLINTEND(cppcoreguidelines-pro-type-reinterpret-cast)

// Makes it where it stands: a machine on the stack would be far too large for a controller.
template <class Storage, class... Arguments>
void hold(Storage* storage, const Arguments&... arguments) {
    using Type = typename Held<Storage>::Type;
    static_assert(sizeof(Type) + sizeof(std::uint64_t) <= sizeof(Storage),
                  "too few words for what they hold");
    static_assert(alignof(Type) <= alignof(std::uint64_t), "words are aligned too coarsely");
    void* place = storage->words + 1;
    new (place) Type(arguments...);
    storage->words[0] = mark_at(storage);
}

podrate_status status_of(TimeVerdict verdict);
podrate_status status_of(FeedResult result);

// A state read from bytes or a journal, given to the machine; and the other way round.
podrate_status take_up(podrate_machine* machine, podrate_clock* clock, const RetainedState& state,
                       TimeUs now_us, std::uint32_t how);
bool gather(const podrate_machine* machine, const podrate_clock* clock, RetainedState& state);

}  // namespace podrate::c_api
