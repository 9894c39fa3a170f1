#include "podrate/bus/fast_packet.hpp"

namespace podrate::bus {
namespace {

constexpr int kFirstBytes = 6;
constexpr int kOtherBytes = 7;

int frames_of(int length) {
    return length <= kFirstBytes ? 1 : 1 + (length - kFirstBytes + kOtherBytes - 1) / kOtherBytes;
}

}  // namespace

int FastPackets::slot_of(std::uint8_t source, std::uint32_t pgn) const {
    for (int i = 0; i < kSlots; ++i) {
        if (slots_[i].next != 0 && slots_[i].source == source && slots_[i].pgn == pgn) return i;
    }
    return -1;
}

int FastPackets::slot_for(std::uint8_t source, std::uint32_t pgn) const {
    const int same = slot_of(source, pgn);
    if (same >= 0) return same;
    int oldest = 0;
    for (int i = 0; i < kSlots; ++i) {
        if (slots_[i].next == 0) return i;
        if (slots_[i].heard_us < slots_[oldest].heard_us) oldest = i;
    }
    return oldest;
}

bool FastPackets::follows(const Slot& slot, TimeUs time_us, int message, int number) {
    return slot.message == message && slot.next == number && time_us - slot.heard_us <= kTimeOutUs;
}

bool FastPackets::add(TimeUs time_us, std::uint8_t source, std::uint32_t pgn, const std::uint8_t (&data)[8]) {
    const int number = data[0] & 0x1F;
    const auto message = static_cast<std::uint8_t>(data[0] >> 5);
    int at = slot_of(source, pgn);
    const bool fits = number == 0 ? data[1] > 0 && data[1] <= kMost
                                  : at >= 0 && follows(slots_[at], time_us, message, number);
    if (!fits) {
        const bool again =
            at >= 0 && number > 0 && slots_[at].message == message && slots_[at].next == number + 1;
        if (at >= 0 && !again) slots_[at].next = 0;
        return false;
    }
    if (number == 0) {
        at = slot_for(source, pgn);
        slots_[at] = Slot{time_us, pgn, source, message, 0, data[1], {}};
    }
    Slot& slot = slots_[at];
    const int skipped = number == 0 ? 2 : 1;
    const int from = number == 0 ? 0 : kFirstBytes + (number - 1) * kOtherBytes;
    for (int i = skipped; i < 8; ++i) {
        const int to = from + i - skipped;
        if (to < kKept && to < slot.length) slot.bytes[to] = data[i];
    }
    slot.heard_us = time_us;
    slot.next = static_cast<std::uint8_t>(number + 1);
    if (slot.next < frames_of(slot.length)) return false;
    slot.next = 0;
    whole_ = at;
    return true;
}

void FastPackets::forget(std::uint8_t source) {
    for (Slot& slot : slots_) {
        if (slot.source == source) slot.next = 0;
    }
}

}  // namespace podrate::bus
