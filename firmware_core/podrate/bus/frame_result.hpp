// What became of a frame or a sentence.
#pragma once

#include <cstdint>

#include "podrate/sample.hpp"

namespace podrate::bus {

enum class FrameResult : std::uint8_t {
    taken,          // understood; samples() may hold some
    not_ours,       // a message nobody here needs
    not_available,  // understood, but the sender says that it does not know, or that it is broken
    out_of_range,   // a value that its definition does not allow
    other_sender,   // understood, but another sender of the same quantity is listened to
    incomplete,     // part of a longer message, or one whose parts did not fit together
    malformed,      // too short, remote, or otherwise no such message
    time_back,      // older than a frame taken before; nothing was done
    duplicate,      // the frame before once more, sooner than any sender repeats itself
};
inline constexpr int kFrameResults = 9;

// Of the values in one frame: the best that became of any.
constexpr FrameResult better(FrameResult a, FrameResult b) {
    constexpr FrameResult kOrder[] = {FrameResult::taken, FrameResult::other_sender,
                                      FrameResult::out_of_range};
    for (const FrameResult result : kOrder) {
        if (a == result || b == result) return result;
    }
    return FrameResult::not_available;
}

inline constexpr TimeUs kMostTimeUs = TimeUs(1)
                                      << 60;  // either way: differences of two times then fit as well

constexpr bool is_time(TimeUs time_us) {
    return time_us >= -kMostTimeUs && time_us <= kMostTimeUs;
}

// Slower than that a course over ground is noise. Common practice, no source.
inline constexpr float kLeastCourseMps = 0.3F;

}  // namespace podrate::bus
