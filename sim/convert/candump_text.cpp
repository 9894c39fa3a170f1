#include "convert/candump_text.hpp"

#include <cstdio>

namespace podrate::sim {
namespace {

constexpr const char* kInterface = "can0";
constexpr char kHex[] = "0123456789ABCDEF";

}  // namespace

void append_candump(std::string& to, const bus::CanFrame& frame, const char* interface) {
    char head[80];
    const int size = std::snprintf(
        head, sizeof head, frame.extended ? "(%010lld.%06lld) %.16s %08X#" : "(%010lld.%06lld) %.16s %03X#",
        static_cast<long long>(frame.time_us / kSecondUs), static_cast<long long>(frame.time_us % kSecondUs),
        interface, static_cast<unsigned>(frame.id));
    to.append(head, static_cast<std::size_t>(size));
    if (frame.remote) to += 'R';
    for (int i = 0; !frame.remote && i < frame.length; ++i) {
        to += kHex[frame.data[i] >> 4U];
        to += kHex[frame.data[i] & 0xFU];
    }
    to += '\n';
}

void CandumpWriter::append(int frames, std::string& to) const {
    for (int i = 0; i < frames; ++i) append_candump(to, encoder_.frame(i), kInterface);
}

void CandumpWriter::add(const Sample& sample, std::string& to) {
    append(encoder_.encode(sample), to);
}

void CandumpWriter::add_drum(TimeUs time_us, double rpm, std::string& to) {
    append(encoder_.encode_drum(time_us, static_cast<float>(rpm)), to);
}

}  // namespace podrate::sim
