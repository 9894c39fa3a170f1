// Clock, saved bytes and journal through the C header.
#include <catch2/catch.hpp>
#include <vector>

#include "c_api/caller.h"
#include "c_api/kept_machine.hpp"
#include "retained/sim_flash.hpp"

using podrate::test::KeptMachine;
using podrate::test::SimFlash;

namespace {

constexpr std::int64_t kSecondUs = 1000000;
constexpr std::int64_t kUtcUs = 1751032800LL * kSecondUs;

podrate_flash face_of(SimFlash& flash) {
    const podrate::Flash face = flash.face();
    podrate_flash plain = {};
    plain.context = face.context;
    plain.read = face.read;
    plain.write = face.write;
    plain.erase = face.erase;
    plain.bank_bytes = face.bank_bytes;
    plain.write_bytes = face.write_bytes;
    plain.erased = face.erased;
    return plain;
}

std::vector<std::uint8_t> saved(const KeptMachine& machine, const podrate_clock* clock) {
    std::vector<std::uint8_t> bytes(PODRATE_SAVED_BYTES);
    std::size_t size = 0;
    REQUIRE(podrate_save(machine.get(), clock, bytes.data(), bytes.size(), &size) == PODRATE_OK);
    REQUIRE(size == bytes.size());
    return bytes;
}

}  // namespace

TEST_CASE("Saved bytes go into another machine and come out the same") {
    const KeptMachine first(CALLER_START_US);
    REQUIRE(caller_feed(first.get()) == 0);
    const std::vector<std::uint8_t> bytes = saved(first, nullptr);
    const podrate_estimate before = first.read();

    const KeptMachine second(before.time_us);
    REQUIRE(podrate_restore(second.get(), nullptr, bytes.data(), bytes.size(), before.time_us,
                            PODRATE_GO_ON) == PODRATE_OK);
    const podrate_estimate after = second.read();
    CHECK(after.harvested_kg == before.harvested_kg);
    CHECK(after.area_m2 == before.area_m2);
    CHECK(after.mass_kg == before.mass_kg);
    CHECK(after.oldest_cut_us == before.oldest_cut_us);
    CHECK(after.tray_checks == before.tray_checks);
    podrate_load load = {};
    REQUIRE(podrate_last_load(second.get(), &load) == PODRATE_OK);
    CHECK(load.number == 1);
    CHECK(podrate_restore(second.get(), nullptr, bytes.data(), bytes.size(), before.time_us, PODRATE_GO_ON) ==
          PODRATE_TOO_LATE);

    const KeptMachine third(before.time_us);
    REQUIRE(podrate_restore(third.get(), nullptr, bytes.data(), bytes.size(), before.time_us,
                            PODRATE_NEW_RUN) == PODRATE_OK);
    REQUIRE(third.feed(before.time_us, PODRATE_WEIGHT, 50.0F) == PODRATE_OK);
    CHECK(third.read().harvested_kg == 0.0F);
    CHECK(third.read().area_m2 == 0.0F);
    CHECK(podrate_last_load(third.get(), &load) == PODRATE_NOT_YET);
}

TEST_CASE("Bytes that cannot be are not restored") {
    const KeptMachine first(CALLER_START_US);
    REQUIRE(caller_feed(first.get()) == 0);
    const std::vector<std::uint8_t> good = saved(first, nullptr);
    const KeptMachine second(kUtcUs);
    std::vector<std::uint8_t> bytes = good;
    bytes[100] ^= 1;
    const auto restore = [&](const std::vector<std::uint8_t>& from, std::int64_t now_us, std::uint32_t how) {
        return podrate_restore(second.get(), nullptr, from.data(), from.size(), now_us, how);
    };
    CHECK(restore(bytes, kUtcUs, PODRATE_GO_ON) == PODRATE_DAMAGED);
    bytes = good;
    bytes.pop_back();
    CHECK(restore(bytes, kUtcUs, PODRATE_GO_ON) == PODRATE_DAMAGED);
    CHECK(podrate_restore(second.get(), nullptr, good.data(), 0, kUtcUs, PODRATE_GO_ON) == PODRATE_DAMAGED);
    CHECK(restore(good, 5, PODRATE_GO_ON) == PODRATE_TIME_BACK);
    CHECK(restore(good, -5, PODRATE_GO_ON) == PODRATE_OUT_OF_RANGE);
    CHECK(restore(good, kUtcUs, 2) == PODRATE_NO_SUCH);
    CHECK(second.read().started == 0);
    CHECK(restore(good, kUtcUs, PODRATE_GO_ON) == PODRATE_OK);
}

TEST_CASE("The journal keeps once a second and gives it back") {
    SimFlash flash(8192, 8);
    const podrate_flash plain = face_of(flash);
    podrate_journal journal;
    std::int64_t kept_us = 7;
    REQUIRE(podrate_journal_open(&journal, &plain, &kept_us) == PODRATE_NOTHING_KEPT);
    CHECK(kept_us == 0);
    podrate_clock clock;
    REQUIRE(podrate_clock_init(&clock, 0) == PODRATE_OK);
    const KeptMachine machine(0);
    CHECK(podrate_journal_keep(&journal, machine.get(), &clock) == PODRATE_NOT_YET);
    for (int tenth = 0; tenth < 600; ++tenth) {
        REQUIRE(machine.feed(tenth * kSecondUs / 10, PODRATE_WEIGHT, 100.0F) == PODRATE_OK);
        REQUIRE(podrate_clock_told(&clock, tenth * kSecondUs / 10, kUtcUs + tenth * kSecondUs / 10) ==
                PODRATE_OK);
        REQUIRE(podrate_journal_keep(&journal, machine.get(), &clock) == PODRATE_OK);
    }
    CHECK(flash.written < 8192 + 2 * 1024 + 62 * 64);
    REQUIRE(podrate_journal_erase_ahead(&journal) == PODRATE_OK);

    podrate_journal again;
    REQUIRE(podrate_journal_open(&again, &plain, &kept_us) == PODRATE_OK);
    CHECK(kept_us == 59 * kSecondUs);
    podrate_clock clock_again;
    REQUIRE(podrate_clock_init(&clock_again, kept_us) == PODRATE_OK);
    const KeptMachine next(kept_us);
    REQUIRE(podrate_journal_restore(&again, next.get(), &clock_again, kept_us, PODRATE_GO_ON) == PODRATE_OK);
    CHECK(next.read().mass_kg == Approx(machine.read().mass_kg).margin(0.1));
    std::int64_t utc_us = 0;
    REQUIRE(podrate_clock_utc(&clock_again, 30 * kSecondUs, &utc_us) == PODRATE_OK);  // before the cut
    CHECK(utc_us == kUtcUs + 30 * kSecondUs);
    CHECK(podrate_clock_utc(&clock_again, 61 * kSecondUs, &utc_us) == PODRATE_NOT_YET);
    std::int64_t time_us = 0;
    REQUIRE(podrate_clock_time(&clock_again, kUtcUs + 90 * kSecondUs, &time_us) == PODRATE_OK);
    CHECK(time_us == 90 * kSecondUs);
    flash.off = true;
    CHECK(podrate_journal_restore(&again, KeptMachine(kept_us).get(), nullptr, kept_us, PODRATE_GO_ON) ==
          PODRATE_FLASH_FAILED);
}

TEST_CASE("The clock counts milliseconds past their end") {
    podrate_clock clock;
    REQUIRE(podrate_clock_init(&clock, 5000) == PODRATE_OK);
    std::int64_t time_us = 0;
    REQUIRE(podrate_clock_count(&clock, 0xFFFFFF00U, &time_us) == PODRATE_OK);
    CHECK(time_us == 5000);
    REQUIRE(podrate_clock_count(&clock, 0x00000100U, &time_us) == PODRATE_OK);
    CHECK(time_us == 5000 + 512000);
    CHECK(podrate_clock_init(&clock, -1) == PODRATE_OUT_OF_RANGE);
    CHECK(podrate_clock_told(&clock, 0, -1) == PODRATE_OUT_OF_RANGE);
    CHECK(podrate_clock_utc(&clock, 0, &time_us) == PODRATE_NOT_YET);
}
