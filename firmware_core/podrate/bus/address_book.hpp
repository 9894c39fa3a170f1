// Who has which address: the NAMEs told by address claims (SAE J1939-81, ISO 11783-5; from memory).
#pragma once

#include <cstdint>

namespace podrate::bus {

// A sender: by its NAME where that is known (256 and up), else by its address.
using SenderKey = std::uint16_t;
inline constexpr SenderKey kNoSender = 0xFFFF;

// 296 bytes of state.
class AddressBook {
  public:
    static constexpr int kMost = 32;  // NAMEs; of more none is kept, and their senders go by address

    enum class Claim : std::uint8_t {
        known,    // nothing new
        first,    // a NAME never heard, at an address that nobody had claimed
        changed,  // the address went from one to another, or to nobody
    };
    // kNobody as address: the NAME has found none.
    Claim claim(std::uint64_t name, std::uint8_t address);

    [[nodiscard]] SenderKey sender_at(std::uint8_t address) const;

  private:
    [[nodiscard]] int holder_of(std::uint8_t address) const;
    std::uint64_t names_[kMost] = {};
    std::uint8_t addresses_[kMost] = {};
    int count_ = 0;
};

}  // namespace podrate::bus
