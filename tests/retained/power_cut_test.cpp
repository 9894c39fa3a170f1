// Power cut at every byte of every write and erase.
#include <catch2/catch.hpp>

#include "retained/made_state.hpp"
#include "retained/sim_flash.hpp"

using namespace podrate;
using test::SimFlash;
using test::state_at;

namespace {

// The totals and loads of `state` are those of one second, wholly.
bool is_second(const RetainedState& state, std::uint32_t second) {
    const RetainedState made = state_at(second);
    return state.now.time_us == made.now.time_us && state.now.area_m2.value() == made.now.area_m2.value() &&
           state.now.mass_kg == made.now.mass_kg && mark_of(state) == mark_of(made);
}

// What a start finds is `second`; where nothing was ever kept, nothing.
bool finds(const SimFlash& flash, Journal& journal, std::uint32_t second, RetainedState& found) {
    found = RetainedState();
    const JournalResult result = journal.start(found);
    if (flash.misuse > 0) return false;
    if (second == 0) return result == JournalResult::nothing || result == JournalResult::damaged;
    return result == JournalResult::good && is_second(found, second);
}

bool finds(const SimFlash& flash, Journal& journal, std::uint32_t second) {
    RetainedState found;
    return finds(flash, journal, second, found);
}

struct Tally {
    long cuts = 0;
    long wrong = 0;
    long complete = 0;  // all that counts was written although the write was cut: padding, or the last byte
};

// Keeps `second` with the power cut at each of its bytes in turn, each time from the same flash.
void cut_everywhere(SimFlash& flash, const Journal& journal, std::uint32_t second, Tally& tally) {
    const SimFlash kept = flash;
    for (long cut = 0;; ++cut) {
        flash = kept;
        flash.torn = static_cast<int>((cut + second) % 4);
        flash.bytes_left = cut;
        Journal on_broken = journal;
        const bool said_good = on_broken.append(state_at(second)) == JournalResult::good;
        if (!flash.off) break;  // all bytes were written: nothing left to cut
        ++tally.cuts;
        flash.power_up();
        Journal again(flash.face());
        RetainedState found;
        bool right = !said_good && finds(flash, again, second - 1, found);
        if (!said_good && !right && is_second(found, second)) {
            ++tally.complete;
            right = true;
        }
        // ... and it goes on from there.
        right = right && again.append(state_at(second)) == JournalResult::good;
        Journal third(flash.face());
        if (!right || !finds(flash, third, second)) ++tally.wrong;
    }
    flash = kept;
}

}  // namespace

TEST_CASE("A power cut at any byte loses no more than the second under way") {
    for (const bool ahead : {false, true}) {
        INFO("erased ahead: " << ahead);
        SimFlash flash(Journal::kLeastBankBytes, 8);
        Journal journal(flash.face());
        RetainedState nothing;
        REQUIRE(journal.start(nothing) == JournalResult::nothing);
        Tally tally;
        for (std::uint32_t second = 1; second <= 55; ++second) {
            cut_everywhere(flash, journal, second, tally);
            REQUIRE(journal.append(state_at(second)) == JournalResult::good);
            if (ahead && second % 10 == 0) REQUIRE(journal.erase_ahead() == JournalResult::good);
        }
        CHECK(tally.wrong == 0);
        CHECK(tally.complete < 55);
        CHECK(journal.erases() >= 4);
        // Each byte of the records; where the append erases, each byte of the banks too.
        CHECK(tally.cuts > 55 * static_cast<long>(Journal::kShortBytes) +
                               (ahead ? 0 : 4 * static_cast<long>(Journal::kLeastBankBytes)));
        CHECK(flash.misuse == 0);
    }
}

TEST_CASE("A power cut while a bank is erased ahead loses nothing") {
    SimFlash flash(Journal::kLeastBankBytes, 32);
    Journal journal(flash.face());
    RetainedState nothing;
    journal.start(nothing);
    for (std::uint32_t second = 1; second <= 20; ++second)
        REQUIRE(journal.append(state_at(second)) == JournalResult::good);
    const SimFlash kept = flash;
    long wrong = 0;
    for (long cut = 0; cut < static_cast<long>(Journal::kLeastBankBytes); ++cut) {
        flash = kept;
        flash.torn = static_cast<int>(cut % 4);
        flash.bytes_left = cut;
        Journal broken = journal;
        REQUIRE(broken.erase_ahead() == JournalResult::flash_failed);
        flash.power_up();
        Journal again(flash.face());
        if (!finds(flash, again, 20)) ++wrong;
    }
    CHECK(wrong == 0);
}

TEST_CASE("Power that goes again and again never loses what was kept") {
    SimFlash flash(Journal::kLeastBankBytes, 16);
    std::minstd_rand random(3);
    std::uint32_t second = 0;
    for (int boot = 0; boot < 3000; ++boot) {
        flash.power_up();
        Journal journal(flash.face());
        RetainedState found;
        const JournalResult result = journal.start(found);
        if (second > 0) {
            REQUIRE(result == JournalResult::good);
            // The second under way may be complete although nobody was told so.
            if (!is_second(found, second)) REQUIRE(is_second(found, ++second));
        } else if (result == JournalResult::good) {
            REQUIRE(is_second(found, ++second));
        }
        flash.torn = boot % 4;
        flash.bytes_left = static_cast<long>(random() % 4500);
        while (journal.append(state_at(second + 1)) == JournalResult::good) ++second;
    }
    CHECK(second > 300);
    CHECK(flash.misuse == 0);
}
