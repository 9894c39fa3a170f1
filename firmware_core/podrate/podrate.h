/* The estimator for a controller whose program is C (C99 or later). See "Building it into a controller" in
 * DEVELOPERS.md for the order of calls, memory and timing.
 *
 * Every object lives in storage of the caller's. Nothing here allocates, waits, prints or keeps a global.
 * Functions on different objects may run at the same time; on one object only one at a time may run, so never
 * call from an interrupt what the main loop may be inside of. Objects must not be copied or moved: one that
 * was is refused as PODRATE_NOT_INITIALISED.
 *
 * No argument leads to undefined behaviour but a pointer to something else than what its type says. What is
 * refused changes nothing. Times are in microseconds of one clock of the controller that never goes back (see
 * podrate_clock in podrate_retained.h), 0 to the year 9999.
 */
#ifndef PODRATE_PODRATE_H
#define PODRATE_PODRATE_H

#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* What a function says. 0 is good; podrate_text() gives a sentence. */
typedef int32_t podrate_status;
enum {
    PODRATE_OK = 0,
    PODRATE_NULL_POINTER = 1,
    PODRATE_NOT_INITIALISED = 2, /* never initialised, or moved since */
    PODRATE_BAD_PARAMETER = 3,   /* a parameter outside its range, or not a number */
    PODRATE_NO_SUCH = 4,         /* no parameter, alarm, channel or choice of that name or number */
    PODRATE_NOT_FINITE = 5,      /* a value is NaN or infinite */
    PODRATE_OUT_OF_RANGE = 6,    /* a value or time outside its range */
    PODRATE_TIME_BACK = 7,       /* before the newest time taken */
    PODRATE_TIME_AHEAD = 8,      /* more than 30 s ahead: refused until three later samples confirm the gap */
    PODRATE_TOO_MANY = 9,        /* more than 200 samples of that channel within a second */
    PODRATE_NO_SUCH_PLACE = 10,  /* a tray for a time at which no crop was cut, or too long ago */
    PODRATE_TOO_LATE = 11,       /* after the first sample nothing can be taken up any more */
    PODRATE_NOT_YET = 12,        /* not known yet: no weight, no load, no pause, no UTC so far */
    PODRATE_NO_ROOM = 13,        /* the buffer is too small */
    PODRATE_NOTHING_KEPT = 14,   /* the journal is blank: a first start */
    PODRATE_DAMAGED = 15,        /* what is kept cannot be believed: start clean */
    PODRATE_OTHER_VERSION = 16,  /* what is kept is of another version: start clean */
    PODRATE_LEARNT_DROPPED =
        17,                    /* totals taken up; what was learnt belongs to other parameters and was not */
    PODRATE_FLASH_FAILED = 18, /* a flash function failed, or did not read back what was written */
    PODRATE_BAD_FLASH = 19     /* the description of the flash cannot be right */
};
const char* podrate_text(podrate_status status);
const char* podrate_version(void); /* "0.1.0" */

/* ---- Parameters: name, unit, range and source of each stand in podrate/parameter_table.def ---- */

enum podrate_parameter {
#define PODRATE_PARAMETER(name, unit, low, high, value, decimals, source) PODRATE_P_##name,
#include "podrate/parameter_table.def"
#undef PODRATE_PARAMETER
    PODRATE_PARAMETER_COUNT
};

struct podrate_parameters {
    float value[PODRATE_PARAMETER_COUNT]; /* by enum podrate_parameter */
};

struct podrate_parameter_info {
    const char* name;
    const char* unit;
    float low;
    float high;
    float standard; /* the default */
    int32_t decimals;
};

podrate_status podrate_default_parameters(struct podrate_parameters* parameters);
podrate_status podrate_describe_parameter(uint32_t index, struct podrate_parameter_info* info);
podrate_status podrate_find_parameter(const char* name, uint32_t* index);
podrate_status podrate_get_parameter(const struct podrate_parameters* parameters, uint32_t index,
                                     float* value);
/* Refused where outside its range. */
podrate_status podrate_set_parameter(struct podrate_parameters* parameters, uint32_t index, float value);
/* PODRATE_BAD_PARAMETER and the first that is wrong; `index` may be NULL. */
podrate_status podrate_check_parameters(const struct podrate_parameters* parameters, uint32_t* index);

/* ---- The machine ---- */

#define PODRATE_MACHINE_WORDS 1152
struct podrate_machine {
    uint64_t words[PODRATE_MACHINE_WORDS];
};

/* now_us: the time by the clock that stamps the samples, so that a wild first stamp is told from a good one.
 */
podrate_status podrate_init(struct podrate_machine* machine, const struct podrate_parameters* parameters,
                            int64_t now_us);

enum {
    PODRATE_WEIGHT = 0,   /* value[0..count-1]: cells in kg, -2000 to 20000 each; their sum is the hopper */
    PODRATE_SPEED = 1,    /* value[0]: m/s over ground, 0 to 30 */
    PODRATE_TILT = 2,     /* value[0], value[1]: pitch and roll, degrees, nose up and right down positive */
    PODRATE_POSITION = 3, /* lat_e7, lon_e7: WGS 84, 1e-7 degrees; count 0 */
    PODRATE_HEADING = 4,  /* value[0]: degrees clockwise from north, -360 to 360 */
    PODRATE_REEL = 5,     /* value[0]: 1 where crop is taken in, 0 where not */
    PODRATE_HITS = 6,     /* value[0]: hits of the loss sensor since the last such sample */
    PODRATE_TRAY = 7 /* value[0], value[1]: peas on the ground in kg/m2, sd of that as a share, 0.01 to 2;
                        about_us: when the machine passed there */
};

struct podrate_sample {
    int64_t time_us;
    int64_t about_us;
    float value[4];
    int32_t lat_e7;
    int32_t lon_e7;
    uint8_t channel;
    uint8_t count; /* of value[] */
    uint8_t reserved[6];
};

/* Takes one sample; the estimator then stands at its time. Times must not go back; the same time is good. A
 * gap of any length is an outage, after which the hopper is weighed afresh. */
podrate_status podrate_feed(struct podrate_machine* machine, const struct podrate_sample* sample);
/* Time passes without a sample: call it now and then, so that sensors that fall silent are noticed. */
podrate_status podrate_step(struct podrate_machine* machine, int64_t now_us);

/* Bits of podrate_estimate.faults. */
enum {
    PODRATE_WEIGHT_MISSING = 1,
    PODRATE_WEIGHT_STUCK = 2,
    PODRATE_WEIGHT_JUMP = 4,
    PODRATE_SPEED_MISSING = 8,
    PODRATE_INTAKE_UNCLEAR = 16,
    PODRATE_TILT_DEAD = 32
};

/* podrate_estimate.state */
enum {
    PODRATE_HARVESTING,
    PODRATE_TURNING,
    PODRATE_PAUSED_IN_CROP,
    PODRATE_WAITING,
    PODRATE_TIPPING,
    PODRATE_TRAVELLING,
    PODRATE_STOPPED
};

/* podrate_estimate.binding: what keeps the advised speed from being another */
enum { PODRATE_UNSURE, PODRATE_LOSS_LIMIT, PODRATE_WANTED_RATE, PODRATE_MACHINE_LIMITS };

/* A speed with its 90 % interval; all 0 where it is not known. */
struct podrate_speed {
    float speed_mps;
    float low_mps;
    float high_mps;
};

/* Standard deviations are named _sd, 90 % intervals _low and _high. */
struct podrate_estimate {
    int64_t time_us;
    int64_t oldest_cut_us; /* of the peas in the hopper; 0 where it is empty */
    float mass_kg;         /* in the hopper */
    float mass_sd_kg;
    float flow_kgps; /* into the hopper */
    float flow_sd_kgps;
    float yield_kgpm2;
    float yield_sd_kgpm2;
    float loss_share; /* of collected and lost, at the present feed */
    float loss_low;
    float loss_high;
    float drum_loss_share;
    float drum_loss_low;
    float drum_loss_high;
    float picking_loss_share;
    float picking_loss_low;
    float picking_loss_high;
    float ground_kgpm2; /* peas left on the ground where it cuts */
    float fold;         /* 1: more crop taken in brings no more peas */
    float loss_learnt;  /* 0 nothing, 1 all */
    float speed_spread;
    float speed_mps;
    float harvested_kg; /* since the run began */
    float harvested_sd_kg;
    float area_m2;
    float load_kg; /* gathered since the last tip */
    float level_share;
    float distance_to_full_m; /* negative where unknown */
    float time_to_full_s;
    struct podrate_speed advised;
    struct podrate_speed under_limit; /* the highest that keeps the loss under its limit */
    struct podrate_speed for_rate;    /* that meets the wanted rate */
    float faster_gained_kgps;         /* what half a km/h more would bring, and leave on the ground */
    float faster_ground_kgpm2;
    float slower_gained_kgps;
    float slower_ground_kgpm2;
    uint16_t alarms; /* a bit for each that is to be shown */
    uint16_t tray_checks;
    uint8_t faults;
    uint8_t state;
    uint8_t binding;
    uint8_t started; /* 0 before the first weight: then nothing but the time is known */
    uint8_t loss_sensor;
    uint8_t past_fold;
    uint8_t reserved[6];
};

podrate_status podrate_read(const struct podrate_machine* machine, struct podrate_estimate* estimate);
const char* podrate_state_name(uint32_t state); /* "harvesting", ...; "" where there is no such state */
const char* podrate_fault_name(uint32_t index); /* of bit 1 << index: "weight_missing", ... */

struct podrate_load {
    int64_t start_us;
    int64_t end_us;
    int64_t closed_us;
    int64_t first_cut_us;
    uint32_t number;   /* 1, 2, ... */
    uint32_t revision; /* raised where another part of the same tip was added */
    int32_t lat_e7;
    int32_t lon_e7;
    float net_kg;
    float net_sd_kg;
    float area_m2;
    float lost_kg;
    uint8_t place_known;
    uint8_t reserved[7];
};
/* The newest load closed. Ask after each sample: number or revision tells whether it is news. */
podrate_status podrate_last_load(const struct podrate_machine* machine, struct podrate_load* load);

struct podrate_pause {
    int64_t start_us;
    int64_t end_us;
    uint32_t number;
    int32_t lat_e7;
    int32_t lon_e7;
    float heap_kg;  /* haulm left on one spot */
    float surge_kg; /* peas that came after it beyond what was due */
    uint8_t place_known;
    uint8_t surge_known;
    uint8_t reserved[2];
};
podrate_status podrate_last_pause(const struct podrate_machine* machine, struct podrate_pause* pause);

/* What was lost since the run began, by what is known now. Dearer than podrate_read(). */
struct podrate_loss {
    float collected_kg;
    float lost_kg;
    float drum_kg;
    float share;
    float low;
    float high;
};
podrate_status podrate_loss_so_far(const struct podrate_machine* machine, struct podrate_loss* loss);

/* ---- Alarms, by number from 0 ---- */

#define PODRATE_ALARM_COUNT 10
enum { PODRATE_LOW, PODRATE_MEDIUM, PODRATE_HIGH }; /* podrate_alarm.priority */
enum {                                              /* podrate_alarm.state, as in IEC 62682 */
       PODRATE_NORMAL,
       PODRATE_UNACKNOWLEDGED,
       PODRATE_ACKNOWLEDGED,
       PODRATE_RETURNED_UNACKNOWLEDGED,
       PODRATE_SHELVED,
       PODRATE_SUPPRESSED
};
struct podrate_alarm {
    int64_t since_us; /* 0: never */
    float limit;
    float deadband;
    uint32_t activations;
    uint8_t state;
    uint8_t priority;
    uint8_t shown;
    uint8_t active;
    uint8_t chattering;
    uint8_t reserved[3];
};
const char* podrate_alarm_name(uint32_t alarm); /* "loss_high", ...; "" where there is none */
podrate_status podrate_read_alarm(const struct podrate_machine* machine, uint32_t alarm,
                                  struct podrate_alarm* told);
podrate_status podrate_acknowledge(struct podrate_machine* machine, uint32_t alarm);
podrate_status podrate_shelve(struct podrate_machine* machine, uint32_t alarm, float for_s); /* to 43200 */
podrate_status podrate_unshelve(struct podrate_machine* machine, uint32_t alarm);

#ifdef __cplusplus
}
#endif

#include "podrate/podrate_bus.h"
#include "podrate/podrate_retained.h"

#endif
