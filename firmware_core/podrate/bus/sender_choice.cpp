#include "podrate/bus/sender_choice.hpp"

namespace podrate::bus {

int SenderChoice::rank(const Candidate& candidate) const {
    if (candidate.sender == kNoSender) return 512;
    return (candidate.sender == preferred_ ? 0 : 256) + candidate.kind;
}

SenderChoice::Heard SenderChoice::hear(TimeUs time_us, SenderKey sender, std::uint8_t kind) {
    if (chosen_.is(sender, kind)) {
        chosen_heard_us_ = time_us;
        return Heard::chosen;
    }
    const Candidate heard{sender, kind};
    bool takes_over = chosen_.sender == kNoSender || time_us - chosen_heard_us_ > kSilenceUs;
    if (!takes_over) {
        if (rank(heard) >= rank(chosen_)) return Heard::other;
        const bool lost = time_us - better_heard_us_ > kSteadyGapUs;
        if (!better_.is(sender, kind) && !lost && rank(heard) >= rank(better_)) return Heard::other;
        if (!better_.is(sender, kind) || lost) {
            better_ = heard;
            better_since_us_ = time_us;
        }
        better_heard_us_ = time_us;
        takes_over = time_us - better_since_us_ >= kSteadyUs;
    }
    if (!takes_over) return Heard::other;
    chosen_ = heard;
    chosen_heard_us_ = time_us;
    return Heard::newly_chosen;
}

void SenderChoice::rename(SenderKey from, SenderKey to) {
    if (chosen_.sender == from) chosen_.sender = to;
    if (better_.sender == from) better_.sender = to;
    if (preferred_ == from) preferred_ = to;
}

}  // namespace podrate::bus
