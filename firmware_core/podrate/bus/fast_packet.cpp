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

bool FastPackets::add(TimeUs time_us, std::uint8_t source, std::uint32_t pgn, const std::uint8_t (&data)[8]) {
    const int number = data[0] & 0x1F;
    const auto message = static_cast<std::uint8_t>(data[0] >> 5);
    int at = slot_of(source, pgn);
    if (number == 0) {
        if (data[1] == 0 || data[1] > kMost) {
            if (at >= 0) slots_[at].next = 0;
            return false;
        }
        at = slot_for(source, pgn);
        slots_[at] = Slot{time_us, pgn, source, message, 0, data[1], {}};
    } else {
        if (at < 0) return false;
        const bool again = slots_[at].message == message && slots_[at].next == number + 1;
        if (again) return false;
        const bool follows = slots_[at].message == message && slots_[at].next == number &&
                             time_us - slots_[at].heard_us <= kTimeOutUs;
        if (!follows) {
            slots_[at].next = 0;
            return false;
        }
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
