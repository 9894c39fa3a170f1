#include <catch2/catch.hpp>

#include "log/candump_line.hpp"

using namespace podrate;
using sim::CandumpKind;
using sim::CandumpStamp;
using sim::parse_candump;

namespace {

std::string bytes_of(const bus::CanFrame& frame) {
    std::string text;
    for (int i = 0; i < frame.length; ++i) {
        char pair[4];
        std::snprintf(pair, sizeof pair, "%02X", frame.data[i]);
        text += pair;
    }
    return text;
}

}  // namespace

TEST_CASE("A line of candump -l is read") {
    // The example of can-utils' own description of its log files.
    const sim::CandumpLine line = parse_candump("(1436509052.249713) vcan0 044#2A366C2BBA");
    REQUIRE(line.kind == CandumpKind::frame);
    CHECK(line.stamp == CandumpStamp::absolute);
    CHECK(line.frame.time_us == 1436509052249713);
    CHECK(line.interface == "vcan0");
    CHECK(line.frame.id == 0x044);
    CHECK_FALSE(line.frame.extended);
    CHECK(bytes_of(line.frame) == "2A366C2BBA");
}

TEST_CASE("Eight digits make an identifier of 29 bits, whatever its value") {
    CHECK(parse_candump("(1436509052.249713) can0 0CFE481C#6E").frame.id == 0x0CFE481C);
    const sim::CandumpLine small = parse_candump("(1436509052.249713) can0 00000044#");
    CHECK(small.frame.extended);
    CHECK(small.frame.id == 0x44);
    CHECK(small.frame.length == 0);
}

TEST_CASE("A line of candump's screen is read") {
    for (const char* text :
         {" (1436509052.249713)  vcan0  0CFE481C   [8]  05 40 E2 40 20 01 00 FF",
          "(1436509052.249713)  vcan0  0CFE481C   [8]  05 40 E2 40 20 01 00 FF   '.@.@ ...'",
          "(1436509052.249713)  vcan0  RX - -  0CFE481C   [8]  05 40 E2 40 20 01 00 FF"}) {
        INFO(text);
        const sim::CandumpLine line = parse_candump(text);
        REQUIRE(line.kind == CandumpKind::frame);
        CHECK(line.frame.time_us == 1436509052249713);
        CHECK(line.interface == "vcan0");
        CHECK(line.frame.extended);
        CHECK(line.frame.id == 0x0CFE481C);
        CHECK(bytes_of(line.frame) == "0540E240200100FF");
    }
}

TEST_CASE("Remote requests are read in both layouts") {
    for (const char* text : {"(1436509052.249713) can0 123#R", "(1436509052.249713) can0 123#R8",
                             "(1436509052.249713)  can0  123   [0]  remote request"}) {
        INFO(text);
        const sim::CandumpLine line = parse_candump(text);
        REQUIRE(line.kind == CandumpKind::frame);
        CHECK(line.frame.remote);
        CHECK(line.frame.id == 0x123);
    }
}

TEST_CASE("What newer versions add is passed over") {
    for (const char* text : {"(1436509052.249713) can0 123#0102 R", "(1436509052.249713) can0 123#01.02 T",
                             "(1436509052.249713) can0 123#0102 T B E",
                             "(1436509052.249713123) can0 123#0102", "(1436509052.249713) can0 123#0102  "}) {
        INFO(text);
        const sim::CandumpLine line = parse_candump(text);
        REQUIRE(line.kind == CandumpKind::frame);
        CHECK(line.frame.time_us == 1436509052249713);
        CHECK(bytes_of(line.frame) == "0102");
    }
    CHECK(parse_candump("(1436509052.2) can0 123#1122334455667788_B").frame.length == 8);
    CHECK(parse_candump("(1436509052.2) can0 123#").frame.time_us == 1436509052200000);
}

TEST_CASE("CAN FD and error frames are told apart from others") {
    for (const char* text : {"(1436509052.249713) can0 123##1", "(1436509052.249713) can0 123##0112233",
                             "(1436509052.249713)  can0  123  [02]  11 22",
                             "(1436509052.249713)  can0  123  [12]  11 22 33 44 55 66 77 88 99 AA BB CC"}) {
        INFO(text);
        CHECK(parse_candump(text).kind == CandumpKind::can_fd);
    }
    for (const char* text :
         {"(1436509052.249713) can0 20000004#0008000000000000",
          "(1436509052.249713)  can0  20000004   [8]  00 08 00 00 00 00 00 00   ERRORFRAME",
          "\tcontroller-problem{rx-overflow}"}) {
        INFO(text);
        CHECK(parse_candump(text).kind == CandumpKind::error_frame);
    }
    CHECK(parse_candump("").kind == CandumpKind::blank);
    CHECK(parse_candump("   ").kind == CandumpKind::blank);
}

TEST_CASE("Time stamps are told apart by their layout") {
    CHECK(parse_candump("(0000000012.000001) can0 123#01").stamp == CandumpStamp::absolute);
    CHECK(parse_candump("(000.000000)  can0  123   [1]  01").stamp == CandumpStamp::relative);
    CHECK(parse_candump("(012.249713)  can0  123   [1]  01").stamp == CandumpStamp::relative);
    CHECK(parse_candump("(2015-07-10 08:17:32.249713)  can0  123   [1]  01").stamp == CandumpStamp::dated);
    const sim::CandumpLine bare = parse_candump("  can0  123   [1]  01");
    CHECK(bare.kind == CandumpKind::frame);
    CHECK(bare.stamp == CandumpStamp::none);
    CHECK(bare.frame.data[0] == 1);
}

TEST_CASE("What is no frame is refused with its reason") {
    const struct {
        const char* text;
        const char* fault;
    } lines[] = {
        {"(1436509052.249713) can0 123#012", "hexadecimal"},
        {"(1436509052.249713) can0 123#0G", "hexadecimal"},
        {"(1436509052.249713) can0 123#001122334455667788", "hexadecimal"},
        {"(1436509052.249713) can0 123#.01", "hexadecimal"},
        {"(1436509052.249713) can0 123##", "hexadecimal"},
        {"(1436509052.249713) can0 1234#01", "3 or 8"},
        {"(1436509052.249713) can0 12X#01", "3 or 8"},
        {"(1436509052.249713) can0 #01", "3 or 8"},
        {"(1436509052.249713) can0 800#01", "11 bits"},
        {"(1436509052.249713) can0 40000123#01", "29 bits"},
        {"(1436509052.249713) can0 A0000123#01", "29 bits"},
        {"(1436509052.249713) can0 123#R9", "remote"},
        {"(1436509052.249713) can0 123#01 X", "behind"},
        {"(1436509052.249713) can0 123#01 123#01", "behind"},
        {"(1436509052.249713) can0", "cut off"},
        {"(1436509052.249713)", "cut off"},
        {"(1436509052.2497", "cut off"},
        {"(1436509052) can0 123#01", "time stamp"},
        {"(-436509052.249713) can0 123#01", "time stamp"},
        {"(14365090521.249713) can0 123#01", "time stamp"},
        {"(x.y) can0 123#01", "time stamp"},
        {"(1436509052.249713)  can0  123   [9]  01 02 03 04 05 06 07 08 09", "out of range"},
        {"(1436509052.249713)  can0  123   [2]  01", "cut off"},
        {"(1436509052.249713)  can0  123   [1]  01 02", "more bytes"},
        {"(1436509052.249713)  can0  123   8  01 02", "brackets"},
        {"(1436509052.249713)  can0  123   [1]  1", "hexadecimal"},
        {"unix_s,hopper_kg", "cut off"},
        {"1751032800.0,12.5 x", "3 or 8"},
    };
    for (const auto& line : lines) {
        INFO(line.text);
        const sim::CandumpLine parsed = parse_candump(line.text);
        CHECK(parsed.kind == CandumpKind::bad);
        CHECK(std::string(parsed.fault).find(line.fault) != std::string::npos);
    }
}
