#include <catch2/catch.hpp>

#include <fcntl.h>
#include <linux/can.h>
#include <sys/socket.h>

#include <cstdlib>
#include <cstring>
#include <iostream>
#include <thread>

#include "live/can_socket.hpp"
#include "live/candump_pipe.hpp"
#include "live/live_loop.hpp"
#include "live/serial_line.hpp"
#include "log/problem.hpp"

using namespace podrate;
using sim::Descriptor;

namespace {

struct Collector : sim::LiveTaker {
    void take_frame(const bus::CanFrame& frame, bool stamped) override {
        frames.push_back(frame);
        stamps += stamped ? 1 : 0;
    }
    void take_text(std::string_view piece) override { text += piece; }
    void take_controller(bus::Controller state) override { controllers.push_back(state); }
    void take_bad(const std::string& why) override { bad.push_back(why); }

    std::vector<bus::CanFrame> frames;
    int stamps = 0;
    std::string text;
    std::vector<bus::Controller> controllers;
    std::vector<std::string> bad;
};

struct Ends {
    Descriptor reading;
    Descriptor writing;
};

Ends make_pipe() {
    int ends[2];
    REQUIRE(pipe(ends) == 0);
    return {Descriptor(ends[0]), Descriptor(ends[1])};
}

Ends make_sockets(int kind) {
    int ends[2];
    REQUIRE(socketpair(AF_UNIX, kind, 0, ends) == 0);
    return {Descriptor(ends[0]), Descriptor(ends[1])};
}

void put(int descriptor, std::string_view text) {
    REQUIRE(write(descriptor, text.data(), text.size()) == static_cast<ssize_t>(text.size()));
}

can_frame kernel_frame(canid_t id, std::uint8_t length) {
    can_frame frame = {};
    frame.can_id = id;
    frame.can_dlc = length;
    for (std::uint8_t i = 0; i < 8; ++i) frame.data[i] = static_cast<std::uint8_t>(i + 1);
    return frame;
}

}  // namespace

TEST_CASE("The kernel's frames are taken as they are, its error frames left out") {
    Ends ends = make_sockets(SOCK_SEQPACKET);
    for (const can_frame& frame : {kernel_frame(0x0CFE481CU | CAN_EFF_FLAG, 8), kernel_frame(0x123, 2),
                                   kernel_frame(0x123 | CAN_RTR_FLAG, 0), kernel_frame(0x4 | CAN_ERR_FLAG, 8),
                                   kernel_frame(0x124, 12)}) {
        REQUIRE(send(ends.writing.number(), &frame, sizeof frame, 0) == sizeof frame);
    }
    REQUIRE(send(ends.writing.number(), "short", 5, 0) == 5);
    sim::CanSocket socket(std::move(ends.reading), "can0");
    Collector got;
    CHECK(socket.read(got));
    REQUIRE(got.frames.size() == 4);
    CHECK(got.frames[0].extended);
    CHECK(got.frames[0].id == 0x0CFE481C);
    CHECK(got.frames[0].data[7] == 8);
    CHECK_FALSE(got.frames[1].extended);
    CHECK(got.frames[1].length == 2);
    CHECK(got.frames[1].data[2] == 0);
    CHECK(got.frames[2].remote);
    CHECK(got.frames[3].length == 8);
    CHECK(got.stamps == 0);
    { const Descriptor closed = std::move(ends.writing); }
    CHECK_FALSE(socket.read(got));
}

TEST_CASE("Error frames of kernel and candump tell how the controller is") {
    Ends ends = make_sockets(SOCK_SEQPACKET);
    can_frame passive = kernel_frame(0x4 | CAN_ERR_FLAG, 8);
    passive.data[1] = 0x20;
    for (const can_frame& frame :
         {passive, kernel_frame(0x40 | CAN_ERR_FLAG, 8), kernel_frame(0x100 | CAN_ERR_FLAG, 8),
          kernel_frame(0x8 | CAN_ERR_FLAG, 8)})
        REQUIRE(send(ends.writing.number(), &frame, sizeof frame, 0) == sizeof frame);
    sim::CanSocket socket(std::move(ends.reading), "can0");
    Collector got;
    CHECK(socket.read(got));
    using bus::Controller;
    CHECK(got.controllers ==
          std::vector<Controller>{Controller::passive, Controller::off, Controller::active});

    Ends text = make_pipe();
    put(text.writing.number(),
        "(1436509052.249713) can0 20000004#0010000000000000\n"
        "(1436509052.249714) can1 20000040#0000000000000000\n"
        "  can0  20000040   [8]  00 00 00 00 00 00 00 00   ERRORFRAME\n"
        "\tbus-off\n"
        "  can0  20000004   [8]  00 40 00 00 00 00 00 00   ERRORFRAME\n");
    sim::CandumpPipe pipe(std::move(text.reading), "pipe", "can0");
    Collector read;
    REQUIRE(pipe.read(read));
    CHECK(read.controllers ==
          std::vector<Controller>{Controller::passive, Controller::off, Controller::active});
    CHECK(read.bad.empty());
}

TEST_CASE("An interface that is not there is refused with the mend") {
    try {
        (void)sim::open_can("podrate_none");
        FAIL("it was opened");
    } catch (const sim::RefusedInput& refused) {
        CHECK(refused.problem().file == "podrate_none");
        CHECK_FALSE(refused.problem().mend.empty());
    }
}

TEST_CASE("Candump text is taken in pieces of any length") {
    const std::string text =
        "(1436509052.249713) vcan0 044#2A366C2BBA\r\n\n"
        "garbage\n"
        "  vcan1  0CFE481C   [2]  05 40\n"
        "(1436509052.249714) vcan0 123##100\n";
    for (std::size_t piece : {std::size_t{1}, std::size_t{7}, text.size()}) {
        Ends ends = make_pipe();
        sim::CandumpPipe pipe(std::move(ends.reading), "pipe", "");
        Collector got;
        for (std::size_t at = 0; at < text.size(); at += piece) {
            put(ends.writing.number(), text.substr(at, piece));
            REQUIRE(pipe.read(got));
        }
        REQUIRE(got.frames.size() == 2);
        CHECK(got.stamps == 1);
        CHECK(got.frames[0].time_us == 1436509052249713);
        CHECK(got.frames[1].data[1] == 0x40);
        REQUIRE(got.bad.size() == 1);
        CHECK(got.bad[0].find("garbage") != std::string::npos);
    }
}

TEST_CASE("Of candump text one interface may be chosen, and a line without end is no frame") {
    Ends ends = make_pipe();
    sim::CandumpPipe pipe(std::move(ends.reading), "pipe", "vcan1");
    Collector got;
    put(ends.writing.number(),
        "vcan0 044#2A\nvcan1 045#2A\n" + std::string(5000, 'x') + "\nvcan1 046#\nvcan1 047#2A");
    { const Descriptor closed = std::move(ends.writing); }
    while (pipe.read(got)) {
    }
    REQUIRE(got.frames.size() == 2);
    CHECK(got.frames[1].id == 0x046);
    REQUIRE(got.bad.size() == 2);
    CHECK(got.bad[0].find("longer than 1 KiB") != std::string::npos);
    CHECK(got.bad[1].find("ends within a line") != std::string::npos);
}

// By its tag, to show it as skipped where the system has no pseudo-terminals.
TEST_CASE("A pseudo-terminal is read as a serial line, byte by byte as sent, until it is hung up",
          "[.pseudo_terminal]") {
    const int master = posix_openpt(O_RDWR | O_NOCTTY);
    if (master < 0) {
        std::cout << "skipped: no pseudo-terminal is to be had\n";
        return;
    }
    Collector got;
    std::unique_ptr<sim::SerialLine> line;
    {
        const Descriptor held(master);
        REQUIRE(grantpt(master) == 0);
        REQUIRE(unlockpt(master) == 0);
        line = sim::open_serial(ptsname(master), 4800);
        CHECK(line->read(got));  // nothing there: it does not wait
        CHECK(got.text.empty());
        const std::string text = "$GPRMC,\x01\x04\r\n$GP";
        put(master, text);
        for (int i = 0; i < 100 && got.text.size() < text.size(); ++i) {
            REQUIRE(line->read(got));
            std::this_thread::sleep_for(std::chrono::milliseconds(1));
        }
        CHECK(got.text == text);
    }
    CHECK_FALSE(line->read(got));
    CHECK_THROWS_AS(sim::open_serial("/nowhere/tty", 4800), sim::RefusedInput);
    CHECK_THROWS_AS(sim::open_serial("/dev/null", 4801), sim::RefusedInput);
}

TEST_CASE("The loop waits, hands on what comes and ends with its inputs, by a stop, or where nobody reads") {
    Collector got;
    int ticks = 0;
    bool go_on = true;
    std::vector<std::string> ended;
    const sim::LiveHooks hooks = {[&] { ++ticks; }, [&] { return go_on; },
                                  [&](const std::string& name) { ended.push_back(name); }};
    const auto one = [](Descriptor reading) {
        std::vector<std::unique_ptr<sim::Transport>> transports;
        transports.push_back(std::make_unique<sim::CandumpPipe>(std::move(reading), "pipe", ""));
        return transports;
    };
    SECTION("inputs end") {
        Ends ends = make_pipe();
        std::thread sender([&ends] {
            const Descriptor writing = std::move(ends.writing);
            for (int i = 0; i < 3; ++i) {
                (void)!write(writing.number(), "can0 123#01\n", 12);
                std::this_thread::sleep_for(std::chrono::milliseconds(20));
            }
        });
        sim::run_live(one(std::move(ends.reading)), got, -1, hooks);
        sender.join();
        CHECK(got.frames.size() == 3);
        CHECK(ended == std::vector<std::string>{"pipe"});
        CHECK(ticks > 0);
    }
    SECTION("a stop") {
        Ends ends = make_pipe();
        const Ends stop = make_pipe();
        put(stop.writing.number(), "!");
        sim::run_live(one(std::move(ends.reading)), got, stop.reading.number(), hooks);
        CHECK(ended.empty());
    }
    SECTION("nobody reads") {
        Ends ends = make_pipe();
        go_on = false;
        sim::run_live(one(std::move(ends.reading)), got, -1, hooks);
        CHECK(ticks == 0);
    }
}
