#include "podrate/retained/journal.hpp"

#include <catch2/catch.hpp>

#include "podrate/retained/crc32.hpp"
#include "retained/made_state.hpp"
#include "retained/sim_flash.hpp"

using namespace podrate;
using test::SimFlash;
using test::state_at;

namespace {

Journal started(SimFlash& flash) {
    Journal journal(flash.face());
    RetainedState nothing;
    journal.start(nothing);
    return journal;
}

JournalResult newest(SimFlash& flash, RetainedState& state) {
    return Journal(flash.face()).start(state);
}

std::vector<std::uint8_t> bytes_of(const RetainedState& state) {
    std::vector<std::uint8_t> bytes(kWholeBytes);
    write_whole(state, bytes.data());
    return bytes;
}

}  // namespace

TEST_CASE("What is kept comes back to the last bit") {
    for (const std::uint32_t write_bytes : {1U, 2U, 4U, 8U, 16U, 32U}) {
        for (const std::uint8_t erased : {std::uint8_t{0xFF}, std::uint8_t{0}}) {
            INFO(write_bytes << " bytes at once, erased as " << int(erased));
            SimFlash flash(4096, write_bytes, erased);
            Journal journal = started(flash);
            for (std::uint32_t seed = 1; seed < 30; ++seed)
                REQUIRE(journal.append(test::filled_state(seed)) == JournalResult::good);
            RetainedState found;
            REQUIRE(newest(flash, found) == JournalResult::good);
            CHECK(bytes_of(found) == bytes_of(test::filled_state(29)));
            CHECK(flash.misuse == 0);
        }
    }
}

TEST_CASE("A second costs a short record as long as no load changes and a whole one once a minute") {
    SimFlash flash(1U << 17U, 8);
    Journal journal = started(flash);
    REQUIRE(journal.append(state_at(0, 1000)) == JournalResult::good);
    const std::uint32_t whole = Journal::padded(Journal::kLongBytes, 8);
    CHECK(journal.used_bytes() == whole);
    for (std::uint32_t second = 1; second < 60; ++second) journal.append(state_at(second, 1000));
    CHECK(journal.used_bytes() == whole + 59 * 64);
    journal.append(state_at(60, 1000));
    CHECK(journal.used_bytes() == 2 * whole + 59 * 64);
    journal.append(state_at(61, 61));  // another load
    CHECK(journal.used_bytes() == 3 * whole + 59 * 64);
}

TEST_CASE("A flipped bit anywhere is never believed") {
    SimFlash flash(Journal::kLeastBankBytes, 8);
    Journal journal = started(flash);
    for (std::uint32_t second = 1; second <= 30; ++second) journal.append(state_at(second));
    const SimFlash kept = flash;
    long older = 0;
    for (std::uint32_t at = 0; at < 2 * Journal::kLeastBankBytes; ++at) {
        flash = kept;
        const std::uint32_t bank = at / Journal::kLeastBankBytes;
        flash.banks_[bank][at % Journal::kLeastBankBytes] ^= static_cast<std::uint8_t>(1U << (at % 8U));
        RetainedState found;
        REQUIRE(newest(flash, found) == JournalResult::good);
        const auto second = static_cast<std::uint32_t>(found.now.time_us / kSecondUs - 1000);
        REQUIRE(second >= 1);
        REQUIRE(second <= 30);
        REQUIRE(found.now.area_m2.value() == state_at(second).now.area_m2.value());
        REQUIRE(mark_of(found) == mark_of(state_at(second)));
        if (second < 30) ++older;
    }
    CHECK(older > 0);  // the newest record and the whole one that it rests on were hit too
}

TEST_CASE("A bank of noise is stepped over and the other believed") {
    SimFlash flash(Journal::kLeastBankBytes, 8);
    Journal journal = started(flash);
    for (std::uint32_t second = 1; second <= 30; ++second) journal.append(state_at(second));
    std::minstd_rand random(5);
    for (int bank = 0; bank < 2; ++bank) {
        for (int round = 0; round < 200; ++round) {
            SimFlash noisy = flash;
            for (auto& byte : noisy.banks_[bank]) byte = static_cast<std::uint8_t>(random());
            RetainedState found;
            REQUIRE(newest(noisy, found) == JournalResult::good);
            REQUIRE(found.now.time_us <= TimeUs{1030} * kSecondUs);
        }
    }
    for (auto& bank : flash.banks_)
        for (auto& byte : bank) byte = static_cast<std::uint8_t>(random());
    RetainedState found;
    CHECK(newest(flash, found) == JournalResult::damaged);
}

TEST_CASE("Records of another version are told apart from none") {
    SimFlash flash(Journal::kLeastBankBytes, 8);
    // A record as another version might write it: another kind and length, a good CRC.
    std::vector<std::uint8_t> record = {0x5A, 0x12 + 0x10, 100, 0, 7, 0, 0, 0};
    record.resize(108, 0x33);
    const std::uint32_t crc = crc32(record.data(), record.size());
    for (unsigned i = 0; i < 4; ++i) record.push_back(static_cast<std::uint8_t>(crc >> (8U * i)));
    std::copy(record.begin(), record.end(), flash.banks_[1].begin());
    RetainedState found;
    CHECK(newest(flash, found) == JournalResult::other_version);
    Journal journal = started(flash);
    CHECK(journal.append(state_at(1)) == JournalResult::good);
    CHECK(newest(flash, found) == JournalResult::good);
}

TEST_CASE("A flash that cannot be is refused and one that fails is told") {
    RetainedState state = state_at(1);
    CHECK(Journal().start(state) == JournalResult::bad_flash);
    CHECK(Journal().append(state) == JournalResult::bad_flash);
    CHECK(Journal().erase_ahead() == JournalResult::bad_flash);
    for (const std::uint32_t write_bytes : {0U, 3U, 64U}) {
        SimFlash flash(4096, write_bytes);
        CHECK(Journal(flash.face()).start(state) == JournalResult::bad_flash);
    }
    for (const std::uint32_t bank_bytes : {0U, 1024U, 4097U, (1U << 24U) + 32U}) {
        SimFlash flash(bank_bytes, 1);
        CHECK(Journal(flash.face()).start(state) == JournalResult::bad_flash);
    }
    SimFlash flash(4096, 8);
    Journal journal = started(flash);
    REQUIRE(journal.append(state_at(1)) == JournalResult::good);
    flash.off = true;
    CHECK(journal.append(state_at(2)) == JournalResult::flash_failed);
    CHECK(newest(flash, state) == JournalResult::flash_failed);
    flash.off = false;
    CHECK(journal.append(state_at(3)) == JournalResult::good);
    RetainedState found;
    REQUIRE(newest(flash, found) == JournalResult::good);
    CHECK(found.now.time_us == state_at(3).now.time_us);
}

TEST_CASE("A bank that takes no erase keeps what the other holds") {
    SimFlash flash(Journal::kLeastBankBytes, 8);
    Journal journal = started(flash);
    std::uint32_t second = 1;
    while (journal.erases() < 2) REQUIRE(journal.append(state_at(second++)) == JournalResult::good);
    Flash stubborn = flash.face();
    stubborn.erase = [](void*, std::uint32_t) -> std::int32_t { return 1; };
    Journal other(stubborn);
    RetainedState found;
    REQUIRE(other.start(found) == JournalResult::good);
    for (int i = 0; i < 5; ++i) CHECK(other.append(state_at(second)) == JournalResult::flash_failed);
    REQUIRE(newest(flash, found) == JournalResult::good);
    CHECK(found.now.time_us == state_at(second - 1).now.time_us);
}
