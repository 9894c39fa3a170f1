// The cells of a scale, told one by one, put together to one weight.
#pragma once

#include <cstdint>

#include "podrate/bus/address_book.hpp"
#include "podrate/sample.hpp"

namespace podrate::bus {

// A round ends with the highest cell. One in which a cell is missing is dropped whole: a sum without it
// would be a fall of the weight. 72 bytes of state.
class CellRound {
  public:
    static constexpr int kMost = 4;
    static constexpr TimeUs kLearnUs =
        kSecondUs;                            // so long rounds are only watched for how many cells there are
    static constexpr TimeUs kOldUs = 500000;  // a reading older than that is of no round
    static constexpr TimeUs kSilenceUs = 3 * kSecondUs;  // then another sender's cells may come instead

    // count: cells, 1 to 4; 0: as many as are heard.
    explicit CellRound(std::uint8_t count) : told_(count > kMost ? std::uint8_t(kMost) : count) {}

    // False where another sender's cells are listened to.
    bool belongs(TimeUs time_us, SenderKey sender, SenderKey preferred);
    // True where the round is whole: cell 0 to 3 counted from 0.
    bool add(TimeUs time_us, int cell, float kg);
    [[nodiscard]] Sample weight(TimeUs time_us) const;

    void rename(SenderKey from, SenderKey to);

  private:
    TimeUs heard_us_ = 0;
    TimeUs since_us_ = 0;
    TimeUs cell_us_[kMost] = {};
    float kg_[kMost] = {};
    SenderKey sender_ = kNoSender;
    std::uint8_t told_ = 0;
    std::uint8_t count_ = 0;
    unsigned fresh_ = 0;  // a bit for each cell heard since the last round
};

}  // namespace podrate::bus
