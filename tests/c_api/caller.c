#include "c_api/caller.h"

#include <string.h>

struct plant {
    int64_t time_us;
    float mass_kg;
    float flow_kgps;
    uint32_t noise;
    void (*take)(void* to, const struct podrate_sample* sample);
    void* to;
};

static void send(struct plant* p, uint8_t channel, uint8_t count, float first, float second) {
    struct podrate_sample sample;
    memset(&sample, 0, sizeof sample);
    sample.time_us = p->time_us;
    sample.channel = channel;
    sample.count = count;
    sample.value[0] = first;
    sample.value[1] = second;
    p->take(p->to, &sample);
}

static void send_place(struct plant* p) {
    struct podrate_sample sample;
    memset(&sample, 0, sizeof sample);
    sample.time_us = p->time_us;
    sample.channel = PODRATE_POSITION;
    sample.lat_e7 = 529000000 + (int32_t)(p->time_us / 100000);
    sample.lon_e7 = 1200000;
    p->take(p->to, &sample);
}

static void send_tray(struct plant* p, int64_t about_us) {
    struct podrate_sample sample;
    memset(&sample, 0, sizeof sample);
    sample.time_us = p->time_us;
    sample.about_us = about_us;
    sample.channel = PODRATE_TRAY;
    sample.count = 2;
    sample.value[0] = 0.06F;
    sample.value[1] = 0.2F;
    p->take(p->to, &sample);
}

/* Evenly spread, -4 to 4 kg. */
static float noise_kg(struct plant* p) {
    p->noise = p->noise * 1664525U + 1013904223U;
    return (float)(p->noise >> 16) / 8192.0F - 4.0F;
}

static void go(struct plant* p, int seconds, float speed_mps, int reel, float pour_kgps) {
    int tenth;
    for (tenth = 0; tenth < 10 * seconds; ++tenth) {
        const float cells_kg = p->mass_kg + (speed_mps > 0.0F ? noise_kg(p) : 0.25F * noise_kg(p));
        p->time_us += 100000;
        p->flow_kgps += (1.1F * (reel ? speed_mps : 0.0F) - p->flow_kgps) * 0.0125F;
        p->mass_kg += (p->flow_kgps - pour_kgps) * 0.1F;
        if (p->mass_kg < 0.0F) p->mass_kg = 0.0F;
        if (tenth % 2 == 0) send(p, PODRATE_SPEED, 1, speed_mps, 0.0F);
        if (tenth % 5 == 0) send(p, PODRATE_TILT, 2, 1.0F + 0.01F * (float)(tenth % 40), -0.5F);
        if (tenth % 10 == 0) {
            send(p, PODRATE_REEL, 1, reel ? 1.0F : 0.0F, 0.0F);
            send(p, PODRATE_HEADING, 1, 90.0F, 0.0F);
            send(p, PODRATE_HITS, 1, reel ? 3.0F : 0.0F, 0.0F);
            send_place(p);
        }
        send(p, PODRATE_WEIGHT, 2, 0.5F * cells_kg, 0.5F * cells_kg + 0.125F);
    }
}

void caller_log(void (*take)(void* to, const struct podrate_sample* sample), void* to) {
    struct plant p;
    memset(&p, 0, sizeof p);
    p.time_us = CALLER_START_US;
    p.noise = 12345U;
    p.take = take;
    p.to = to;
    go(&p, 5, 0.0F, 0, 0.0F);
    go(&p, 250, 0.8F, 1, 0.0F);
    go(&p, 20, 1.2F, 0, 0.0F);
    send_tray(&p, p.time_us - 90000000);
    go(&p, 250, 0.9F, 1, 0.0F);
    go(&p, 40, 0.0F, 0, 0.0F);
    go(&p, 30, 0.0F, 0, 20.0F);
    go(&p, 15, 0.0F, 0, 0.0F);
    go(&p, 110, 0.8F, 1, 0.0F);
}

struct counting {
    struct podrate_machine* machine;
    int refused;
};

static void count_refused(void* to, const struct podrate_sample* sample) {
    struct counting* counting = to;
    if (podrate_feed(counting->machine, sample) != PODRATE_OK) ++counting->refused;
}

int caller_feed(struct podrate_machine* machine) {
    struct counting counting;
    counting.machine = machine;
    counting.refused = 0;
    caller_log(count_refused, &counting);
    return counting.refused;
}
