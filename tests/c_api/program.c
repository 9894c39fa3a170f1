/* What a controller's program does, end to end: start, work, keep, lose power, go on. */
#include <stdio.h>
#include <string.h>

#include "c_api/caller.h"

#define BANK_BYTES 8192
static uint8_t banks[2][BANK_BYTES];

static int32_t read_flash(void* context, uint32_t bank, uint32_t offset, uint8_t* bytes, uint32_t count) {
    (void)context;
    memcpy(bytes, banks[bank] + offset, count);
    return 0;
}
static int32_t write_flash(void* context, uint32_t bank, uint32_t offset, const uint8_t* bytes,
                           uint32_t count) {
    (void)context;
    memcpy(banks[bank] + offset, bytes, count);
    return 0;
}
static int32_t erase_flash(void* context, uint32_t bank) {
    (void)context;
    memset(banks[bank], 0xFF, BANK_BYTES);
    return 0;
}

/* Power goes here: what comes later is never seen. */
#define CUT_US 400000000

struct controller {
    struct podrate_machine machine;
    struct podrate_clock clock;
    struct podrate_journal journal;
    struct podrate_parameters parameters;
    int64_t from_us;
    int64_t to_us;
    long refused;
};

static podrate_status start(struct controller* c) {
    struct podrate_flash flash;
    int64_t kept_us = 0;
    podrate_status found;
    podrate_status status;
    memset(&flash, 0, sizeof flash);
    flash.read = read_flash;
    flash.write = write_flash;
    flash.erase = erase_flash;
    flash.bank_bytes = BANK_BYTES;
    flash.write_bytes = 8;
    flash.erased = 0xFF;
    found = podrate_journal_open(&c->journal, &flash, &kept_us);
    status = podrate_clock_init(&c->clock, kept_us);
    if (status != PODRATE_OK) return status;
    podrate_default_parameters(&c->parameters);
    status = podrate_init(&c->machine, &c->parameters, kept_us);
    if (status != PODRATE_OK || found != PODRATE_OK) return status;
    return podrate_journal_restore(&c->journal, &c->machine, &c->clock, kept_us, PODRATE_GO_ON);
}

static void take(void* to, const struct podrate_sample* sample) {
    struct controller* c = to;
    if (sample->time_us < c->from_us || sample->time_us >= c->to_us) return;
    if (podrate_feed(&c->machine, sample) != PODRATE_OK) ++c->refused;
    podrate_journal_keep(&c->journal, &c->machine, &c->clock);
}

static int failed(const char* what) {
    printf("failed: %s\n", what);
    return 1;
}

static struct controller whole, first, second;

int main(void) {
    struct podrate_estimate uncut, cut;
    struct podrate_load uncut_load, cut_load;
    float apart_kg;
    memset(banks, 0xFF, sizeof banks);
    if (start(&whole) != PODRATE_OK) return failed("a first start");
    whole.to_us = INT64_MAX;
    caller_log(take, &whole);

    memset(banks, 0xFF, sizeof banks);
    if (start(&first) != PODRATE_OK) return failed("another");
    first.to_us = CUT_US;
    caller_log(take, &first);
    if (start(&second) != PODRATE_OK) return failed("the start after the power cut");
    second.from_us = CUT_US + 2000000;
    second.to_us = INT64_MAX;
    caller_log(take, &second);

    if (whole.refused + first.refused + second.refused != 0) return failed("samples were refused");
    if (podrate_read(&whole.machine, &uncut) != PODRATE_OK) return failed("read");
    if (podrate_read(&second.machine, &cut) != PODRATE_OK) return failed("read after the cut");
    if (podrate_last_load(&whole.machine, &uncut_load) != PODRATE_OK) return failed("a load");
    if (podrate_last_load(&second.machine, &cut_load) != PODRATE_OK) return failed("a load after the cut");
    printf("podrate %s: %.1f kg, with a power cut %.1f kg; load %.1f and %.1f kg\n", podrate_version(),
           (double)uncut.harvested_kg, (double)cut.harvested_kg, (double)uncut_load.net_kg,
           (double)cut_load.net_kg);
    apart_kg = uncut.harvested_kg - cut.harvested_kg;
    if (!(uncut.harvested_kg > 300.0F)) return failed("nothing was harvested");
    if (!(apart_kg > -1.5F && apart_kg < 1.5F)) return failed("the totals differ");
    apart_kg = uncut_load.net_kg - cut_load.net_kg;
    if (!(apart_kg > -1.5F && apart_kg < 1.5F)) return failed("the loads differ");
    if (cut_load.number != 1 || uncut_load.number != 1) return failed("one load was tipped");
    return 0;
}
