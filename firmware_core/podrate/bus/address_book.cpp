#include "podrate/bus/address_book.hpp"

#include "podrate/bus/can_id.hpp"

namespace podrate::bus {

int AddressBook::holder_of(std::uint8_t address) const {
    for (int i = 0; i < count_; ++i) {
        if (addresses_[i] == address && address != kNobody) return i;
    }
    return -1;
}

SenderKey AddressBook::sender_at(std::uint8_t address) const {
    const int holder = holder_of(address);
    return static_cast<SenderKey>(holder >= 0 ? 256 + holder : address);
}

// The newest claim counts. Of two that want one address the lower NAME wins, and says so at once by claiming
// it again.
AddressBook::Claim AddressBook::claim(std::uint64_t name, std::uint8_t address) {
    int index = 0;
    while (index < count_ && names_[index] != name) ++index;
    const int holder = holder_of(address);
    if (index < count_ && addresses_[index] == address) return Claim::known;
    if (holder >= 0) addresses_[holder] = kNobody;
    const bool unheard = index == count_;
    if (unheard && count_ == kMost) return holder >= 0 ? Claim::changed : Claim::known;
    if (unheard) ++count_;
    names_[index] = name;
    addresses_[index] = address;
    return unheard && holder < 0 && address != kNobody ? Claim::first : Claim::changed;
}

}  // namespace podrate::bus
