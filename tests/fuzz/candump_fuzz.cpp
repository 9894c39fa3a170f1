// Bytes as a line of candump text; what is read of it is written and read again.
#include <cstring>
#include <string>

#include "convert/candump_text.hpp"
#include "fuzz/entry.hpp"
#include "log/candump_line.hpp"

using namespace podrate;
using sim::CandumpKind;
using test::promise;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text(reinterpret_cast<const char*>(data), size);
    const sim::CandumpLine line = sim::parse_candump(text);
    const bus::CanFrame& frame = line.frame;
    promise(line.fault != nullptr);
    promise(frame.time_us >= 0 && frame.time_us < 10000000000 * kSecondUs);
    promise(frame.length <= 8);
    if (line.kind != CandumpKind::frame) return 0;
    promise(frame.id <= (frame.extended ? 0x1FFFFFFFU : 0x7FFU));
    std::string written;
    sim::append_candump(written, frame, "can0");
    promise(written.back() == '\n');
    written.pop_back();
    const sim::CandumpLine again = sim::parse_candump(written);
    promise(again.kind == CandumpKind::frame && again.stamp == sim::CandumpStamp::absolute);
    promise(again.frame.time_us == frame.time_us && again.frame.id == frame.id);
    promise(again.frame.extended == frame.extended && again.frame.remote == frame.remote);
    // A remote frame's length is not written.
    promise(frame.remote || again.frame.length == frame.length);
    promise(frame.remote || std::memcmp(again.frame.data, frame.data, frame.length) == 0);
    return 0;
}
