// State that outlasts a power cut: as bytes, and in a journal.
#include "podrate/c_api/held.hpp"
#include "podrate/retained/retained_bytes.hpp"

using namespace podrate;

static_assert(PODRATE_SAVED_BYTES == kSavedBytes, "the header tells the size of what is saved");

namespace podrate::c_api {

podrate_status take_up(podrate_machine* machine, podrate_clock* clock, const RetainedState& state,
                       TimeUs now_us, std::uint32_t how) {
    Machine& inside = held(machine);
    const ResumeResult result = inside.estimator.resume(state, now_us, static_cast<Resume>(how));
    if (result == ResumeResult::too_late) return PODRATE_TOO_LATE;
    if (result == ResumeResult::time_back) return PODRATE_TIME_BACK;
    if (clock != nullptr) held(clock).bridge.take_up(state.clock);
    return result == ResumeResult::resumed ? PODRATE_OK : PODRATE_LEARNT_DROPPED;
}

bool gather(const podrate_machine* machine, const podrate_clock* clock, RetainedState& state) {
    if (!held(machine).estimator.save(state)) return false;
    if (clock != nullptr) state.clock = held(clock).bridge.memory();
    return true;
}

}  // namespace podrate::c_api

namespace {

podrate_status check_with_clock(const podrate_machine* machine, const podrate_clock* clock) {
    const podrate_status status = c_api::check(machine);
    if (status != PODRATE_OK || clock == nullptr) return status;
    return c_api::check(clock);
}

podrate_status check_how(TimeUs now_us, std::uint32_t how) {
    if (how > PODRATE_NEW_RUN) return PODRATE_NO_SUCH;
    return now_us < 0 || now_us > kLatestUs ? PODRATE_OUT_OF_RANGE : PODRATE_OK;
}

podrate_status status_of(JournalResult result) {
    switch (result) {
        case JournalResult::good: return PODRATE_OK;
        case JournalResult::nothing: return PODRATE_NOTHING_KEPT;
        case JournalResult::damaged: return PODRATE_DAMAGED;
        case JournalResult::other_version: return PODRATE_OTHER_VERSION;
        case JournalResult::flash_failed: return PODRATE_FLASH_FAILED;
        case JournalResult::bad_flash: return PODRATE_BAD_FLASH;
    }
    return PODRATE_BAD_FLASH;
}

}  // namespace

extern "C" {

podrate_status podrate_save(const podrate_machine* machine, const podrate_clock* clock, uint8_t* bytes,
                            size_t room, size_t* size) {
    const podrate_status status = check_with_clock(machine, clock);
    if (status != PODRATE_OK) return status;
    if (bytes == nullptr || size == nullptr) return PODRATE_NULL_POINTER;
    if (room < kSavedBytes) return PODRATE_NO_ROOM;
    RetainedState state;
    if (!c_api::gather(machine, clock, state)) return PODRATE_NOT_YET;
    write_saved(state, bytes);
    *size = kSavedBytes;
    return PODRATE_OK;
}

podrate_status podrate_restore(podrate_machine* machine, podrate_clock* clock, const uint8_t* bytes,
                               size_t size, int64_t now_us, uint32_t how) {
    const podrate_status status = check_with_clock(machine, clock);
    if (status != PODRATE_OK) return status;
    if (bytes == nullptr) return PODRATE_NULL_POINTER;
    const podrate_status asked = check_how(now_us, how);
    if (asked != PODRATE_OK) return asked;
    RetainedState state;
    switch (read_saved(bytes, size, state)) {
        case ReadResult::good: return c_api::take_up(machine, clock, state, now_us, how);
        case ReadResult::damaged: return PODRATE_DAMAGED;
        case ReadResult::other_version: return PODRATE_OTHER_VERSION;
    }
    return PODRATE_DAMAGED;
}

podrate_status podrate_journal_open(podrate_journal* journal, const podrate_flash* flash, int64_t* kept_us) {
    if (journal == nullptr || flash == nullptr || kept_us == nullptr) return PODRATE_NULL_POINTER;
    Flash face;
    face.context = flash->context;
    face.read = flash->read;
    face.write = flash->write;
    face.erase = flash->erase;
    face.bank_bytes = flash->bank_bytes;
    face.write_bytes = flash->write_bytes;
    face.erased = flash->erased;
    c_api::hold(journal, face);
    RetainedState state;
    const JournalResult result = c_api::held(journal).journal.start(state);
    *kept_us = result == JournalResult::good ? state.now.time_us : 0;
    return status_of(result);
}

podrate_status podrate_journal_restore(podrate_journal* journal, podrate_machine* machine,
                                       podrate_clock* clock, int64_t now_us, uint32_t how) {
    podrate_status status = c_api::check(journal);
    if (status == PODRATE_OK) status = check_with_clock(machine, clock);
    if (status == PODRATE_OK) status = check_how(now_us, how);
    if (status != PODRATE_OK) return status;
    RetainedState state;
    const JournalResult result = c_api::held(journal).journal.start(state);
    if (result != JournalResult::good) return status_of(result);
    return c_api::take_up(machine, clock, state, now_us, how);
}

podrate_status podrate_journal_keep(podrate_journal* journal, const podrate_machine* machine,
                                    const podrate_clock* clock) {
    podrate_status status = c_api::check(journal);
    if (status == PODRATE_OK) status = check_with_clock(machine, clock);
    if (status != PODRATE_OK) return status;
    c_api::JournalKeeper& keeper = c_api::held(journal);
    const TimeUs since_us = c_api::held(machine).gate.newest_us() - keeper.kept_us;
    if (keeper.kept && since_us >= 0 && since_us < kSecondUs) return PODRATE_OK;
    RetainedState state;
    if (!c_api::gather(machine, clock, state)) return PODRATE_NOT_YET;
    // Failed or not, the next try is a second away: an erase may have taken most of one.
    keeper.kept = true;
    keeper.kept_us = state.now.time_us;
    return status_of(keeper.journal.append(state));
}

podrate_status podrate_journal_erase_ahead(podrate_journal* journal) {
    const podrate_status status = c_api::check(journal);
    if (status != PODRATE_OK) return status;
    return status_of(c_api::held(journal).journal.erase_ahead());
}

}  // extern "C"
