/* What a controller's program does with its bus and its receiver: frames and bytes in, figures out. */
#include <stdio.h>
#include <string.h>

#include "podrate/podrate.h"

static struct podrate_machine machine;
static struct podrate_bus bus;
static struct podrate_receiver receiver;
static struct podrate_clock clock_;
static long refused;

static void feed(const struct podrate_heard* heard, int64_t time_us) {
    uint8_t i;
    for (i = 0; i < heard->count; ++i) {
        if (podrate_feed(&machine, &heard->sample[i]) != PODRATE_OK) ++refused;
    }
    if (heard->utc_told && podrate_clock_told(&clock_, time_us, heard->utc_us) != PODRATE_OK) ++refused;
}

static void frame(int64_t time_us, uint32_t id, uint32_t low, uint32_t high) {
    struct podrate_can_frame f;
    struct podrate_heard heard;
    unsigned i;
    memset(&f, 0, sizeof f);
    f.time_us = time_us;
    f.id = id;
    f.extended = 1;
    f.length = 8;
    for (i = 0; i < 4; ++i) {
        f.data[i] = (uint8_t)(low >> (8 * i));
        f.data[4 + i] = (uint8_t)(high >> (8 * i));
    }
    if (podrate_bus_take(&bus, &f, &heard) != PODRATE_OK || heard.result != PODRATE_TAKEN) ++refused;
    feed(&heard, time_us);
}

static void sentence(int64_t time_us, const char* text) {
    struct podrate_heard heard;
    for (; *text != '\0'; ++text) {
        if (podrate_receiver_take(&receiver, time_us, (uint8_t)*text, &heard) != PODRATE_OK) ++refused;
        feed(&heard, time_us);
    }
}

/* UTC is believed once it was told three times. */
static const char* const sentences[3] = {
    "$GPRMC,092750.000,A,5321.6802,N,00630.3372,W,1.94,31.66,280511,,,A*4D\r\n",
    "$GPRMC,092751.000,A,5321.6802,N,00630.3372,W,1.94,31.66,280511,,,A*4C\r\n",
    "$GPRMC,092752.000,A,5321.6802,N,00630.3372,W,1.94,31.66,280511,,,A*4F\r\n"};

static int failed(const char* what) {
    printf("failed: %s\n", what);
    return 1;
}

/* 1 m/s and half a kg/s for two minutes, then half a minute of no bus. */
int main(void) {
    struct podrate_parameters parameters;
    struct podrate_senders senders;
    struct podrate_estimate estimate;
    struct podrate_bus_health health;
    int64_t time_us = 0;
    int64_t utc_us = 0;
    uint32_t tenth;
    podrate_default_parameters(&parameters);
    podrate_default_senders(&senders);
    if (podrate_init(&machine, &parameters, 0) != PODRATE_OK) return failed("the machine");
    if (podrate_clock_init(&clock_, 0) != PODRATE_OK) return failed("the clock");
    if (podrate_bus_init(&bus, &senders, 0) != PODRATE_OK) return failed("the bus");
    if (podrate_receiver_init(&receiver, 0) != PODRATE_OK) return failed("the receiver");
    for (tenth = 0; tenth < 1200; ++tenth) {
        time_us = 100000 * (int64_t)tenth;
        if (tenth % 10 == 0) {
            if (tenth < 30) sentence(time_us, sentences[tenth / 10]);
            frame(time_us, 0x0CCBFF80U, 0x008D0003U, 1U);          /* the reel turns */
            frame(time_us, 0x0CFE4980U, 0x000003E8U, 0xFDFFFFFFU); /* 1 m/s */
        }
        frame(time_us, 0x0CCBFF81U, 0x004B0003U, 50U * tenth + (tenth * 7919U) % 2000U); /* g */
    }
    if (refused != 0) return failed("something was refused");
    if (podrate_read(&machine, &estimate) != PODRATE_OK) return failed("read");
    printf("%.1f kg, %.3f kg/s, %.0f m2\n", (double)estimate.mass_kg, (double)estimate.flow_kgps,
           (double)estimate.area_m2);
    if (!(estimate.mass_kg > 58.0F && estimate.mass_kg < 64.0F)) return failed("the hopper");
    if (!(estimate.area_m2 > 350.0F && estimate.area_m2 < 420.0F)) return failed("the area");
    if (podrate_clock_utc(&clock_, time_us, &utc_us) != PODRATE_OK) return failed("UTC");
    if (utc_us != 1306574870000000 + time_us) return failed("the time of day");
    podrate_bus_look(&bus, time_us, &health);
    if (health.silent || health.age_us[PODRATE_WEIGHT] != 0) return failed("the bus is alive");
    podrate_bus_look(&bus, time_us + 30000000, &health);
    if (!health.silent || health.age_us[PODRATE_WEIGHT] != 30000000) return failed("the bus is silent");
    if (health.age_us[PODRATE_TILT] != -1) return failed("no tilt was told");
    if (health.results[PODRATE_TAKEN] != 1440) return failed("all frames are counted");
    return 0;
}
