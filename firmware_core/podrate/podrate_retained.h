/* Clocks and state that outlasts a power cut: the second part of podrate.h, which includes it. */
#ifndef PODRATE_PODRATE_RETAINED_H
#define PODRATE_PODRATE_RETAINED_H

#include "podrate/podrate.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- A clock that never goes back, and UTC beside it ---- */

#define PODRATE_CLOCK_WORDS 24
struct podrate_clock {
    uint64_t words[PODRATE_CLOCK_WORDS];
};

/* The first count told stands for start_us: 0, or after a power cut what podrate_journal_open() gave. */
podrate_status podrate_clock_init(struct podrate_clock* clock, int64_t start_us);
/* The time at a count of milliseconds that starts again at 0 every 49.7 days. Ask at least every 24 days. */
podrate_status podrate_clock_count(struct podrate_clock* clock, uint32_t count_ms, int64_t* time_us);
/* A satellite receiver says that it is utc_us at time_us, and marks that as valid. Steps and leap seconds
 * need three tellings; the time line of the samples never moves. */
podrate_status podrate_clock_told(struct podrate_clock* clock, int64_t time_us, int64_t utc_us);
/* PODRATE_NOT_YET where UTC has not been told since the last start. */
podrate_status podrate_clock_utc(const struct podrate_clock* clock, int64_t time_us, int64_t* utc_us);
/* And back: for a tray noted in UTC, or, with a battery clock, for the time at which to start after a cut. */
podrate_status podrate_clock_time(const struct podrate_clock* clock, int64_t utc_us, int64_t* time_us);

/* ---- State as bytes, for a caller with a store of its own ---- */

#define PODRATE_SAVED_BYTES 835
/* `clock` may be NULL. PODRATE_NOT_YET before the first weight. */
podrate_status podrate_save(const struct podrate_machine* machine, const struct podrate_clock* clock,
                            uint8_t* bytes, size_t room, size_t* size);

enum {
    PODRATE_GO_ON = 0,  /* the same run after a power cut: totals, loads and what was learnt */
    PODRATE_NEW_RUN = 1 /* another day: what was learnt, and no more */
};
/* After podrate_init() and before the first sample, now_us not before the time of saving. `clock` may be
 * NULL; it then takes up what UTC was. */
podrate_status podrate_restore(struct podrate_machine* machine, struct podrate_clock* clock,
                               const uint8_t* bytes, size_t size, int64_t now_us, uint32_t how);

/* ---- The same on two banks of flash, safe against a power cut at any byte ---- */

struct podrate_flash {
    void* context; /* given to each function */
    /* Each returns 0 where all went well, when the flash has done its work. bank: 0 or 1. */
    int32_t (*read)(void* context, uint32_t bank, uint32_t offset, uint8_t* bytes, uint32_t count);
    /* To erased bytes only, once; offset and count are multiples of write_bytes. */
    int32_t (*write)(void* context, uint32_t bank, uint32_t offset, const uint8_t* bytes, uint32_t count);
    int32_t (*erase)(void* context, uint32_t bank);
    uint32_t bank_bytes;  /* of each: 2048 to 16 MiB, a multiple of 8 and of write_bytes */
    uint32_t write_bytes; /* programmed at once: 1, 2, 4, 8, 16 or 32 */
    uint8_t erased;       /* what an erased byte reads as */
    uint8_t reserved[7];
};

#define PODRATE_JOURNAL_WORDS 20
struct podrate_journal {
    uint64_t words[PODRATE_JOURNAL_WORDS];
};

/* Looks for the newest state that can be believed. PODRATE_OK, and in kept_us when it was kept: go on from
 * there with podrate_clock_init(). Else kept_us is 0, and PODRATE_NOTHING_KEPT, _DAMAGED, _OTHER_VERSION or
 * _FLASH_FAILED say why; the journal can be used all the same. PODRATE_BAD_FLASH: it cannot. */
podrate_status podrate_journal_open(struct podrate_journal* journal, const struct podrate_flash* flash,
                                    int64_t* kept_us);
/* Gives the machine what podrate_journal_open() found; reads the flash again. As podrate_restore(). */
podrate_status podrate_journal_restore(struct podrate_journal* journal, struct podrate_machine* machine,
                                       struct podrate_clock* clock, int64_t now_us, uint32_t how);
/* Keeps the state where a second or more of the samples' time has passed since it was last kept, and does
 * nothing where not. Once in many minutes it erases a bank. PODRATE_NOT_YET before the first weight. */
podrate_status podrate_journal_keep(struct podrate_journal* journal, const struct podrate_machine* machine,
                                    const struct podrate_clock* clock);
/* Erases the next bank now, e.g. while the machine stands, so that podrate_journal_keep() need not. */
podrate_status podrate_journal_erase_ahead(struct podrate_journal* journal);

#ifdef __cplusplus
}
#endif

#endif
