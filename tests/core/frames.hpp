// Frames for tests, written as candump does: identifier in 8 hex digits, #, bytes.
#pragma once

#include <string>
#include <vector>

#include "podrate/bus/bus_decoder.hpp"
#include "podrate/bus/can_frame.hpp"

namespace podrate::test {

inline bus::CanFrame frame_of(const std::string& text, TimeUs time_us = 0) {
    bus::CanFrame frame;
    const std::size_t mark = text.find('#');
    frame.time_us = time_us;
    frame.extended = mark == 8;
    frame.id = static_cast<std::uint32_t>(std::stoul(text.substr(0, mark), nullptr, 16));
    for (std::size_t at = mark + 1; at + 1 < text.size(); at += 2) {
        frame.data[frame.length] = static_cast<std::uint8_t>(std::stoul(text.substr(at, 2), nullptr, 16));
        ++frame.length;
    }
    return frame;
}

inline std::vector<Sample> samples_of(const bus::BusDecoder& decoder) {
    std::vector<Sample> samples;
    for (int i = 0; i < decoder.sample_count(); ++i) samples.push_back(decoder.sample(i));
    return samples;
}

// What one frame alone gives.
inline std::vector<Sample> decoded(const std::string& text, bus::FrameResult* result = nullptr) {
    bus::BusDecoder decoder;
    const bus::FrameResult became = decoder.take(frame_of(text));
    if (result != nullptr) *result = became;
    return samples_of(decoder);
}

inline bus::FrameResult result_of(const std::string& text) {
    bus::FrameResult result{};
    decoded(text, &result);
    return result;
}

}  // namespace podrate::test
