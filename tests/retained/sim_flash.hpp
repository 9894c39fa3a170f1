// Two banks of flash in memory, whose power can be cut at any byte of a write or an erase.
#pragma once

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <random>
#include <vector>

#include "podrate/retained/journal.hpp"

namespace podrate::test {

// Bits are only cleared by writing and set by erasing; a write to a byte that is not erased is an error, as
// on flash with an error-correcting code.
class SimFlash {
  public:
    SimFlash(std::uint32_t bank_bytes, std::uint32_t write_bytes, std::uint8_t erased = 0xFF)
        : bank_bytes_(bank_bytes), write_bytes_(write_bytes), erased_(erased) {
        for (auto& bank : banks_) bank.assign(bank_bytes, erased);
    }

    [[nodiscard]] Flash face() {
        Flash flash;
        flash.context = this;
        flash.read = [](void* self, std::uint32_t bank, std::uint32_t offset, std::uint8_t* bytes,
                        std::uint32_t count) -> std::int32_t {
            return static_cast<SimFlash*>(self)->read(bank, offset, bytes, count);
        };
        flash.write = [](void* self, std::uint32_t bank, std::uint32_t offset, const std::uint8_t* bytes,
                         std::uint32_t count) -> std::int32_t {
            return static_cast<SimFlash*>(self)->write(bank, offset, bytes, count);
        };
        flash.erase = [](void* self, std::uint32_t bank) -> std::int32_t {
            return static_cast<SimFlash*>(self)->erase(bank);
        };
        flash.bank_bytes = bank_bytes_;
        flash.write_bytes = write_bytes_;
        flash.erased = erased_;
        return flash;
    }

    // Power goes after so many more bytes written or erased; never where negative.
    long bytes_left = -1;
    // How the byte under way is left: 0 untouched, 1 half of its bits done, 2 done, 3 noise.
    int torn = 1;
    bool off = false;
    long misuse = 0;   // writes that no flash would allow
    long written = 0;  // bytes, erased ones included
    long erases = 0;
    std::vector<std::uint8_t> banks_[2];

    void power_up() {
        off = false;
        bytes_left = -1;
    }

  private:
    std::int32_t read(std::uint32_t bank, std::uint32_t offset, std::uint8_t* bytes, std::uint32_t count) {
        if (bank > 1 || offset + count > bank_bytes_) {
            ++misuse;
            return 1;
        }
        std::memcpy(bytes, banks_[bank].data() + offset, count);
        return off ? 1 : 0;
    }

    std::int32_t write(std::uint32_t bank, std::uint32_t offset, const std::uint8_t* bytes,
                       std::uint32_t count) {
        if (off) return 1;
        if (bank > 1 || offset + count > bank_bytes_ || offset % write_bytes_ != 0 ||
            count % write_bytes_ != 0) {
            ++misuse;
            return 1;
        }
        for (std::uint32_t i = 0; i < count; ++i) {
            std::uint8_t& place = banks_[bank][offset + i];
            if (place != erased_) ++misuse;
            if (cut()) {
                tear(place, bytes[i]);
                return 1;
            }
            place = bytes[i];
        }
        return 0;
    }

    std::int32_t erase(std::uint32_t bank) {
        if (off) return 1;
        ++erases;
        for (std::uint8_t& place : banks_[bank]) {
            if (cut()) {
                tear(place, erased_);
                return 1;
            }
            place = erased_;
        }
        return 0;
    }

    bool cut() {
        if (bytes_left == 0) {
            off = true;
            return true;
        }
        if (bytes_left > 0) --bytes_left;
        ++written;
        return false;
    }

    void tear(std::uint8_t& place, std::uint8_t wanted) {
        if (torn == 1) place = static_cast<std::uint8_t>((place & 0xAA) | (wanted & 0x55));
        if (torn == 2) place = wanted;
        if (torn == 3) place = static_cast<std::uint8_t>(noise_());
    }

    std::uint32_t bank_bytes_;
    std::uint32_t write_bytes_;
    std::uint8_t erased_;
    std::minstd_rand noise_{7};
};

}  // namespace podrate::test
