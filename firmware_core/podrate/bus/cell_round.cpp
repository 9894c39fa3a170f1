#include "podrate/bus/cell_round.hpp"

namespace podrate::bus {

bool CellRound::belongs(TimeUs time_us, SenderKey sender, SenderKey preferred) {
    const bool silent = sender_ == kNoSender || time_us - heard_us_ > kSilenceUs;
    if (!silent && sender_ != sender && sender != preferred) return false;
    if (silent || sender_ != sender) {
        sender_ = sender;
        since_us_ = time_us;
        count_ = told_;
        fresh_ = 0;
    }
    heard_us_ = time_us;
    return true;
}

bool CellRound::add(TimeUs time_us, int cell, float kg) {
    if (cell < 0 || cell >= kMost || (told_ != 0 && cell >= told_)) return false;
    kg_[cell] = kg;
    cell_us_[cell] = time_us;
    fresh_ |= 1U << cell;
    if (cell >= count_) count_ = static_cast<std::uint8_t>(cell + 1);
    if (cell + 1 != count_) return false;
    const bool learnt = told_ != 0 || time_us - since_us_ >= kLearnUs;
    bool whole = fresh_ == (1U << count_) - 1U;
    for (int i = 0; i < count_; ++i) whole = whole && time_us - cell_us_[i] <= kOldUs;
    fresh_ = 0;
    return learnt && whole;
}

Sample CellRound::weight(TimeUs time_us) const {
    Sample sample = weight_sample(time_us, kg_[0]);
    sample.count = count_;
    for (int i = 0; i < count_; ++i) sample.value[i] = kg_[i];
    return sample;
}

void CellRound::rename(SenderKey from, SenderKey to) {
    if (sender_ == from) sender_ = to;
}

}  // namespace podrate::bus
