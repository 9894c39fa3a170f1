// All that the C header refuses, and that a refusal changes nothing.
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <set>

#include "c_api/kept_machine.hpp"

using podrate::test::KeptMachine;

namespace {

constexpr std::int64_t kSecondUs = 1000000;
constexpr std::int64_t kYearUs = 365LL * 86400 * kSecondUs;
constexpr std::int64_t kMost = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t kLeast = std::numeric_limits<std::int64_t>::min();

}  // namespace

TEST_CASE("Null pointers are refused by every function") {
    KeptMachine machine;
    podrate_estimate estimate;
    podrate_load load;
    podrate_pause pause;
    podrate_loss loss;
    struct podrate_alarm alarm;
    podrate_clock clock;
    podrate_clock_init(&clock, 0);
    std::uint8_t bytes[PODRATE_SAVED_BYTES] = {};
    std::size_t size = 0;
    std::uint32_t index = 0;
    float value = 0.0F;
    std::int64_t time_us = 0;
    podrate_flash flash = {};
    podrate_journal journal;
    const podrate_status refused[] = {
        podrate_default_parameters(nullptr),
        podrate_describe_parameter(0, nullptr),
        podrate_find_parameter(nullptr, &index),
        podrate_find_parameter("width_m", nullptr),
        podrate_get_parameter(nullptr, 0, &value),
        podrate_get_parameter(&machine.parameters, 0, nullptr),
        podrate_set_parameter(nullptr, 0, 1.0F),
        podrate_check_parameters(nullptr, nullptr),
        podrate_init(nullptr, &machine.parameters, 0),
        podrate_init(machine.get(), nullptr, 0),
        podrate_feed(nullptr, nullptr),
        podrate_feed(machine.get(), nullptr),
        podrate_step(nullptr, 0),
        podrate_read(nullptr, &estimate),
        podrate_read(machine.get(), nullptr),
        podrate_last_load(nullptr, &load),
        podrate_last_load(machine.get(), nullptr),
        podrate_last_pause(nullptr, &pause),
        podrate_last_pause(machine.get(), nullptr),
        podrate_loss_so_far(nullptr, &loss),
        podrate_loss_so_far(machine.get(), nullptr),
        podrate_read_alarm(nullptr, 0, &alarm),
        podrate_read_alarm(machine.get(), 0, nullptr),
        podrate_acknowledge(nullptr, 0),
        podrate_shelve(nullptr, 0, 1.0F),
        podrate_unshelve(nullptr, 0),
        podrate_clock_init(nullptr, 0),
        podrate_clock_count(nullptr, 0, &time_us),
        podrate_clock_count(&clock, 0, nullptr),
        podrate_clock_told(nullptr, 0, 0),
        podrate_clock_utc(nullptr, 0, &time_us),
        podrate_clock_utc(&clock, 0, nullptr),
        podrate_clock_time(nullptr, 0, &time_us),
        podrate_clock_time(&clock, 0, nullptr),
        podrate_save(nullptr, nullptr, bytes, sizeof bytes, &size),
        podrate_save(machine.get(), nullptr, nullptr, sizeof bytes, &size),
        podrate_save(machine.get(), nullptr, bytes, sizeof bytes, nullptr),
        podrate_restore(nullptr, nullptr, bytes, sizeof bytes, 0, PODRATE_GO_ON),
        podrate_restore(machine.get(), nullptr, nullptr, 0, 0, PODRATE_GO_ON),
        podrate_journal_open(nullptr, &flash, &time_us),
        podrate_journal_open(&journal, nullptr, &time_us),
        podrate_journal_open(&journal, &flash, nullptr),
        podrate_journal_restore(nullptr, machine.get(), nullptr, 0, PODRATE_GO_ON),
        podrate_journal_keep(nullptr, machine.get(), nullptr),
        podrate_journal_erase_ahead(nullptr),
    };
    for (const podrate_status status : refused) CHECK(status == PODRATE_NULL_POINTER);
    CHECK(podrate_journal_open(&journal, &flash, &time_us) == PODRATE_BAD_FLASH);
    CHECK(podrate_journal_keep(&journal, nullptr, nullptr) == PODRATE_NULL_POINTER);
    CHECK(podrate_journal_restore(&journal, nullptr, nullptr, 0, PODRATE_GO_ON) == PODRATE_NULL_POINTER);
}

TEST_CASE("Storage that was never initialised, or was moved, is refused") {
    auto blank = std::make_unique<podrate_machine>();
    podrate_estimate estimate;
    podrate_sample sample = {};
    for (const int fill : {0x00, 0xA5, 0xFF}) {
        std::memset(blank->words, fill, sizeof blank->words);
        CHECK(podrate_read(blank.get(), &estimate) == PODRATE_NOT_INITIALISED);
        CHECK(podrate_feed(blank.get(), &sample) == PODRATE_NOT_INITIALISED);
        CHECK(podrate_step(blank.get(), 1) == PODRATE_NOT_INITIALISED);
        CHECK(podrate_acknowledge(blank.get(), 0) == PODRATE_NOT_INITIALISED);
    }
    const KeptMachine machine;
    std::memcpy(blank->words, machine.get()->words, sizeof blank->words);
    CHECK(podrate_read(blank.get(), &estimate) == PODRATE_NOT_INITIALISED);
    podrate_clock clock = {};
    std::int64_t time_us = 0;
    CHECK(podrate_clock_count(&clock, 0, &time_us) == PODRATE_NOT_INITIALISED);
    CHECK(podrate_clock_told(&clock, 0, 0) == PODRATE_NOT_INITIALISED);
    CHECK(podrate_clock_utc(&clock, 0, &time_us) == PODRATE_NOT_INITIALISED);
    CHECK(podrate_clock_time(&clock, 0, &time_us) == PODRATE_NOT_INITIALISED);
    podrate_journal journal = {};
    CHECK(podrate_journal_keep(&journal, machine.get(), nullptr) == PODRATE_NOT_INITIALISED);
    CHECK(podrate_journal_erase_ahead(&journal) == PODRATE_NOT_INITIALISED);
    std::uint8_t bytes[PODRATE_SAVED_BYTES];
    std::size_t size = 0;
    CHECK(podrate_save(machine.get(), &clock, bytes, sizeof bytes, &size) == PODRATE_NOT_INITIALISED);
}

TEST_CASE("Parameters outside their ranges are refused by number") {
    KeptMachine machine;
    for (const float bad : {std::nanf(""), INFINITY, -INFINITY, 13.0F, 0.0F}) {
        CHECK(podrate_set_parameter(&machine.parameters, PODRATE_P_width_m, bad) == PODRATE_BAD_PARAMETER);
        CHECK(machine.parameters.value[PODRATE_P_width_m] == 3.3F);
        podrate_parameters spoilt = machine.parameters;
        spoilt.value[PODRATE_P_width_m] = bad;
        std::uint32_t index = 99;
        CHECK(podrate_check_parameters(&spoilt, &index) == PODRATE_BAD_PARAMETER);
        CHECK(index == PODRATE_P_width_m);
        CHECK(podrate_init(machine.get(), &spoilt, 0) == PODRATE_BAD_PARAMETER);
    }
    CHECK(podrate_check_parameters(&machine.parameters, nullptr) == PODRATE_OK);
    float value = 0.0F;
    podrate_parameter_info info;
    std::uint32_t index = 0;
    CHECK(podrate_set_parameter(&machine.parameters, PODRATE_PARAMETER_COUNT, 1.0F) == PODRATE_NO_SUCH);
    CHECK(podrate_get_parameter(&machine.parameters, 0xFFFFFFFFU, &value) == PODRATE_NO_SUCH);
    CHECK(podrate_describe_parameter(PODRATE_PARAMETER_COUNT, &info) == PODRATE_NO_SUCH);
    for (const char* name : {"", "width", "width_m ", "Width_m", "width_mm"})
        CHECK(podrate_find_parameter(name, &index) == PODRATE_NO_SUCH);
    CHECK(podrate_init(machine.get(), &machine.parameters, -1) == PODRATE_OUT_OF_RANGE);
    CHECK(podrate_init(machine.get(), &machine.parameters, kMost) == PODRATE_OUT_OF_RANGE);
}

TEST_CASE("A sample that is no sample is refused and changes nothing") {
    const KeptMachine machine(kSecondUs);
    REQUIRE(machine.feed(kSecondUs, PODRATE_WEIGHT, 100.0F) == PODRATE_OK);
    const auto before = std::make_unique<podrate_machine>(*machine.get());
    const float infinite = std::numeric_limits<float>::infinity();
    for (int channel = 0; channel <= PODRATE_HITS; ++channel) {
        if (channel == PODRATE_POSITION || channel == PODRATE_TILT) continue;
        CHECK(machine.feed(2 * kSecondUs, channel, std::nanf("")) == PODRATE_NOT_FINITE);
        CHECK(machine.feed(2 * kSecondUs, channel, infinite) == PODRATE_NOT_FINITE);
        CHECK(machine.feed(2 * kSecondUs, channel, -infinite) == PODRATE_NOT_FINITE);
        CHECK(machine.feed(2 * kSecondUs, channel, 1e6F) == PODRATE_OUT_OF_RANGE);
    }
    for (int channel = PODRATE_TRAY + 1; channel < 256; ++channel)
        CHECK(machine.feed(2 * kSecondUs, channel, 1.0F) == PODRATE_NO_SUCH);
    podrate_sample sample = {};
    sample.time_us = 2 * kSecondUs;
    for (const unsigned count : {0U, 5U, 255U}) {
        sample.count = static_cast<std::uint8_t>(count);
        CHECK(podrate_feed(machine.get(), &sample) == PODRATE_OUT_OF_RANGE);
    }
    sample.channel = PODRATE_POSITION;
    sample.lat_e7 = 900000001;
    CHECK(podrate_feed(machine.get(), &sample) == PODRATE_OUT_OF_RANGE);
    sample.channel = PODRATE_TRAY;
    sample.count = 2;
    sample.value[1] = 0.1F;
    for (const std::int64_t about_us : {kMost, kLeast, std::int64_t{-1}}) {
        sample.about_us = about_us;
        CHECK(podrate_feed(machine.get(), &sample) == PODRATE_OUT_OF_RANGE);
    }
    for (const std::int64_t time_us : {kMost, kLeast, std::int64_t{-1}}) {
        CHECK(machine.feed(time_us, PODRATE_SPEED, 1.0F) == PODRATE_OUT_OF_RANGE);
        CHECK(podrate_step(machine.get(), time_us) == PODRATE_OUT_OF_RANGE);
    }
    CHECK(machine.feed(kSecondUs - 1, PODRATE_SPEED, 1.0F) == PODRATE_TIME_BACK);
    CHECK(podrate_step(machine.get(), kSecondUs - 1) == PODRATE_TIME_BACK);
    CHECK(std::memcmp(before->words, machine.get()->words, sizeof before->words) == 0);
    sample.about_us = kSecondUs;
    CHECK(podrate_feed(machine.get(), &sample) == PODRATE_NO_SUCH_PLACE);
}

TEST_CASE("A wild time stamp is refused and the good samples after it are taken") {
    for (const std::int64_t ahead_us : {31 * kSecondUs, 3600 * kSecondUs, kYearUs}) {
        const KeptMachine machine(kSecondUs);
        std::int64_t now_us = kSecondUs;
        for (int i = 0; i < 100; ++i) {
            now_us += kSecondUs / 10;
            REQUIRE(machine.feed(now_us, PODRATE_WEIGHT, 100.0F) == PODRATE_OK);
            if (i % 10 == 5)
                REQUIRE(machine.feed(now_us + ahead_us, PODRATE_WEIGHT, 100.0F) == PODRATE_TIME_AHEAD);
        }
        CHECK(machine.read().time_us == now_us);
    }
    // The very first stamp too.
    const KeptMachine machine(kSecondUs);
    CHECK(machine.feed(kYearUs, PODRATE_WEIGHT, 100.0F) == PODRATE_TIME_AHEAD);
    CHECK(machine.feed(kSecondUs, PODRATE_WEIGHT, 100.0F) == PODRATE_OK);
}

TEST_CASE("A gap that later samples confirm is taken after three of them") {
    const KeptMachine machine(0);
    REQUIRE(machine.feed(kSecondUs, PODRATE_WEIGHT, 100.0F) == PODRATE_OK);
    const std::int64_t then_us = kYearUs;
    // One stamp said four times is one witness.
    for (int i = 0; i < 4; ++i) CHECK(machine.feed(then_us, PODRATE_WEIGHT, 100.0F) == PODRATE_TIME_AHEAD);
    CHECK(machine.feed(then_us + 100000, PODRATE_WEIGHT, 100.0F) == PODRATE_TIME_AHEAD);
    CHECK(machine.feed(then_us + 200000, PODRATE_WEIGHT, 100.0F) == PODRATE_TIME_AHEAD);
    CHECK(machine.feed(then_us + 300000, PODRATE_WEIGHT, 100.0F) == PODRATE_OK);
    CHECK(machine.feed(then_us + 400000, PODRATE_WEIGHT, 100.0F) == PODRATE_OK);
    CHECK((machine.read().faults & PODRATE_WEIGHT_MISSING) != 0);
    CHECK(machine.feed(2 * kSecondUs, PODRATE_WEIGHT, 100.0F) == PODRATE_TIME_BACK);
}

TEST_CASE("A bus that floods is held to two hundred samples of a channel a second") {
    const KeptMachine machine(0);
    long taken = 0;
    for (int i = 0; i < 20000; ++i) {
        const podrate_status status = machine.feed(kSecondUs, PODRATE_WEIGHT, static_cast<float>(i % 7));
        CHECK((status == PODRATE_OK || status == PODRATE_TOO_MANY));
        if (status == PODRATE_OK) ++taken;
    }
    CHECK(taken == 200);
    // Another channel has a measure of its own, and the next second another.
    CHECK(machine.feed(kSecondUs, PODRATE_SPEED, 1.0F) == PODRATE_OK);
    CHECK(machine.feed(2 * kSecondUs, PODRATE_WEIGHT, 3.0F) == PODRATE_OK);
    CHECK(std::isfinite(machine.read().mass_kg));
    CHECK(machine.read().mass_sd_kg > 0.0F);
}

TEST_CASE("Before anything is known it is said so") {
    const KeptMachine machine(0);
    podrate_load load;
    podrate_pause pause;
    podrate_loss loss;
    std::uint8_t bytes[PODRATE_SAVED_BYTES];
    std::size_t size = 0;
    CHECK(machine.read().started == 0);
    CHECK(podrate_last_load(machine.get(), &load) == PODRATE_NOT_YET);
    CHECK(podrate_last_pause(machine.get(), &pause) == PODRATE_NOT_YET);
    CHECK(podrate_loss_so_far(machine.get(), &loss) == PODRATE_NOT_YET);
    CHECK(podrate_save(machine.get(), nullptr, bytes, sizeof bytes, &size) == PODRATE_NOT_YET);
    REQUIRE(machine.feed(1, PODRATE_WEIGHT, 1.0F) == PODRATE_OK);
    CHECK(podrate_save(machine.get(), nullptr, bytes, sizeof bytes - 1, &size) == PODRATE_NO_ROOM);
    CHECK(podrate_save(machine.get(), nullptr, bytes, sizeof bytes, &size) == PODRATE_OK);
}

TEST_CASE("Sensors that fall silent are noticed by stepping") {
    const KeptMachine machine(0);
    REQUIRE(machine.feed(kSecondUs, PODRATE_WEIGHT, 1.0F) == PODRATE_OK);
    REQUIRE(machine.feed(kSecondUs, PODRATE_SPEED, 0.0F) == PODRATE_OK);
    CHECK((machine.read().faults & (PODRATE_WEIGHT_MISSING | PODRATE_SPEED_MISSING)) == 0);
    for (int i = 2; i < 20; ++i) REQUIRE(podrate_step(machine.get(), i * kSecondUs) == PODRATE_OK);
    const podrate_estimate silent = machine.read();
    CHECK((silent.faults & PODRATE_WEIGHT_MISSING) != 0);
    CHECK((silent.faults & PODRATE_SPEED_MISSING) != 0);
    CHECK(silent.alarms != 0);
}

TEST_CASE("Each code has a text of its own and strange numbers have none") {
    std::set<std::string> texts;
    for (podrate_status status = PODRATE_OK; status <= PODRATE_BAD_FLASH; ++status)
        texts.insert(podrate_text(status));
    CHECK(texts.size() == PODRATE_BAD_FLASH + 1);
    CHECK(std::string(podrate_text(-1)) == "unknown code");
    CHECK(std::string(podrate_text(PODRATE_BAD_FLASH + 1)) == "unknown code");
    CHECK(std::string(podrate_state_name(PODRATE_WAITING)) == "waiting");
    CHECK(std::string(podrate_state_name(7)).empty());
    CHECK(std::string(podrate_fault_name(0)) == "weight_missing");
    CHECK(std::string(podrate_fault_name(0xFFFFFFFFU)).empty());
    CHECK(std::string(podrate_alarm_name(0)) == "loss_high");
    CHECK(std::string(podrate_alarm_name(0xFFFFFFFFU)).empty());
}
