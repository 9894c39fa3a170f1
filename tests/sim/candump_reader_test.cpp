#include <catch2/catch.hpp>

#include "log/candump_reader.hpp"
#include "support/temp_folder.hpp"
#include "synth/write/log_writer.hpp"

using namespace podrate;

namespace {

struct Read {
    std::vector<sim::StampedFrame> frames;
    std::uint64_t rows_read = 0;
    std::uint64_t rows_bad = 0;
    sim::Problems problems;

    [[nodiscard]] std::string told() const {
        std::string text;
        for (const sim::Problem& problem : problems.kept()) text += sim::to_text(problem) + "\n";
        return text;
    }
};

Read read(const std::string& text, const std::string& interface = "", const std::string& name = "viner.log") {
    const test::TempFolder folder;
    Read all;
    sim::CandumpReader reader(folder.file(name, text), interface, all.problems);
    sim::StampedFrame frame;
    while (reader.next(frame)) all.frames.push_back(frame);
    all.rows_read = reader.rows_read();
    all.rows_bad = reader.rows_bad();
    return all;
}

std::string line(int second, const std::string& rest = "can0 0CFE481C#0102030405060708") {
    return "(" + std::to_string(1751032800 + second) + ".500000) " + rest + "\n";
}

sim::Problem refusal(const std::string& text) {
    try {
        (void)read(text);
    } catch (const sim::RefusedInput& refused) {
        return refused.problem();
    }
    throw std::logic_error("the log was not refused");
}

}  // namespace

TEST_CASE("Frames are read in order with line and time") {
    const Read all =
        read(line(0) + "\n" + line(1, "can0 123#01") + line(1, " can0  123   [2]  02 03") + line(2));
    REQUIRE(all.frames.size() == 4);
    CHECK(all.frames[1].line == 3);
    CHECK(all.frames[1].time_us == 1751032801500000);
    CHECK(all.frames[1].frame.time_us == 1751032801500000);
    CHECK(all.frames[2].frame.length == 2);
    CHECK(all.rows_read == 4);
    CHECK(all.rows_bad == 0);
    CHECK(all.problems.count() == 0);
}

TEST_CASE("Bad lines are counted, told with line, reason and mend, and skipped") {
    const Read all = read(line(0) + "garbage\n" + line(1, "can0 123#0") + line(2) +
                          line(3, "can0 123456#01") + "(1751032803.1\n" + line(4));
    CHECK(all.frames.size() == 3);
    CHECK(all.rows_read == 7);
    CHECK(all.rows_bad == 4);
    REQUIRE(all.problems.count() == 4);
    CHECK(all.problems.kept()[1].line == 3);
    CHECK(all.problems.kept()[1].reason.find("hexadecimal") != std::string::npos);
    CHECK(all.problems.kept()[1].reason.find("can0 123#0") != std::string::npos);
    CHECK(all.problems.kept()[1].mend == "line skipped");
}

TEST_CASE("CAN FD and error frames are passed over and told of once") {
    const Read all = read(line(0) + line(1, "can0 123##111") + line(1, "can0 123##111") +
                          line(1, "can0 20000004#0008") + line(2));
    CHECK(all.frames.size() == 2);
    CHECK(all.rows_bad == 0);
    CHECK(all.problems.count() == 2);
    CHECK(all.problems.faults() == 0);
    CHECK(all.told().find("2 CAN FD frames passed over") != std::string::npos);
    CHECK(all.told().find("1 lines of error frames passed over") != std::string::npos);
}

TEST_CASE("A log of error frames alone is refused for what it is") {
    const sim::Problem problem = refusal(line(0, "can0 20000004#0008") + line(1, "can0 20000040#00"));
    CHECK(problem.reason.find("error frames but no other") != std::string::npos);
    CHECK(problem.mend.find("bit rate") != std::string::npos);
}

TEST_CASE("Several interfaces are all taken, which is told once, or one is chosen") {
    const std::string text = line(0) + line(1, "can1 123#01") + line(2) + line(3, "can1 123#01");
    const Read all = read(text);
    CHECK(all.frames.size() == 4);
    CHECK(all.problems.count() == 1);
    CHECK(all.problems.faults() == 0);
    CHECK(all.told().find("can0, can1") != std::string::npos);
    const Read one = read(text, "can1");
    CHECK(one.frames.size() == 2);
    CHECK(one.problems.count() == 0);
    const Read none = read(text, "can2");
    CHECK(none.frames.empty());
    CHECK(none.problems.faults() == 1);
    CHECK(none.told().find("holds no frame of can2 but of can0, can1") != std::string::npos);
}

TEST_CASE("Time that goes back or leaps costs only those frames") {
    const Read back = read(line(5) + line(6) + line(4) + line(7));
    CHECK(back.frames.size() == 3);
    CHECK(back.rows_bad == 1);
    CHECK(back.problems.kept()[0].reason == "time goes back by 2.000 s");
    CHECK(back.problems.kept()[0].line == 3);
    const Read leap = read(line(0) + line(1) + line(90000000) + line(2) + line(3));
    CHECK(leap.frames.size() == 4);
    CHECK(leap.problems.kept()[0].reason == "time stands far from the frames around it");
    const Read first = read(line(90000000) + line(1) + line(2));
    CHECK(first.frames.size() == 2);
    CHECK(first.rows_bad == 1);
}

TEST_CASE("Times that are not absolute are refused with the mend") {
    for (const char* text : {"(000.000000)  can0  123   [1]  01\n", "  can0  123   [1]  01\n",
                             "(2015-07-10 08:17:32.249713)  can0  123   [1]  01\n"}) {
        INFO(text);
        const sim::Problem problem = refusal(std::string("garbage\n") + text + line(1));
        CHECK(problem.line == 2);
        CHECK(problem.reason.find("time stamp") != std::string::npos);
        CHECK(problem.mend.find("candump -l") != std::string::npos);
    }
    const Read mixed = read(line(0) + "(001.000000)  can0  123   [1]  01\n" + line(1));
    CHECK(mixed.frames.size() == 2);
    CHECK(mixed.rows_bad == 1);
}

TEST_CASE("A file without a frame is refused") {
    CHECK(refusal("").reason == "is empty");
    CHECK(refusal("unix_s,hopper_kg\n1,2\n").reason.find("no CAN frame") != std::string::npos);
    CHECK(refusal("\n\n").reason == "is empty");
}

TEST_CASE("A file that ends within a line does not make a shorter frame of it") {
    std::string text = line(0) + line(1);
    text.resize(text.size() - 5);
    const Read cut = read(text);
    CHECK(cut.frames.size() == 1);
    CHECK(cut.rows_bad == 1);
    text = line(0) + line(1);
    text.pop_back();
    CHECK(read(text).frames.size() == 2);
}

TEST_CASE("A compressed candump log is read, and a cut one as far as it goes") {
    std::string text;
    for (int i = 0; i < 2000; ++i) text += line(i);
    const std::string packed = sim::compressed(text);
    CHECK(read(packed, "", "viner.log.zst").frames.size() == 2000);
    const Read cut = read(packed.substr(0, packed.size() - 4), "", "viner.log.zst");
    CHECK(cut.frames.size() <= 2000);
    CHECK(cut.told().find("ends early") != std::string::npos);
}
