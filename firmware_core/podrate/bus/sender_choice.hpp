// Several senders tell one quantity: which of them is listened to. Never two at a time.
#pragma once

#include <cstdint>

#include "podrate/bus/address_book.hpp"
#include "podrate/sample.hpp"

namespace podrate::bus {

// The sender preferred comes first, then the better kind of message, then whoever was there first. One that
// is silent gives way to the next that speaks; a better one takes over after it has been steady for a while.
// 40 bytes of state.
class SenderChoice {
  public:
    static constexpr TimeUs kSilenceUs = 3 * kSecondUs;
    static constexpr TimeUs kSteadyUs = 5 * kSecondUs;
    static constexpr TimeUs kSteadyGapUs = 1500000;  // a slow message comes once a second

    enum class Heard : std::uint8_t { other, chosen, newly_chosen };

    // A good value came. kind: of message, 0 the best. To be used unless it is another's.
    Heard hear(TimeUs time_us, SenderKey sender, std::uint8_t kind);

    void prefer(SenderKey sender) { preferred_ = sender; }
    [[nodiscard]] SenderKey preferred() const { return preferred_; }
    // The same sender under its NAME.
    void rename(SenderKey from, SenderKey to);

  private:
    struct Candidate {
        SenderKey sender = kNoSender;
        std::uint8_t kind = 0;
        [[nodiscard]] bool is(SenderKey other, std::uint8_t other_kind) const {
            return sender == other && kind == other_kind;
        }
    };
    [[nodiscard]] int rank(const Candidate& candidate) const;

    TimeUs chosen_heard_us_ = 0;
    TimeUs better_since_us_ = 0;
    TimeUs better_heard_us_ = 0;
    Candidate chosen_;
    Candidate better_;
    SenderKey preferred_ = kNoSender;
};

}  // namespace podrate::bus
