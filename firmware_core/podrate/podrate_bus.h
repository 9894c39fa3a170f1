/* From a CAN bus and a receiver's NMEA 0183 to samples: the third part of podrate.h, which includes it.
 *
 *     if (podrate_bus_take(&bus, &frame, &heard) == PODRATE_OK)
 *         for (i = 0; i < heard.count; ++i) podrate_feed(&machine, &heard.sample[i]);
 *     if (heard.utc_told) podrate_clock_told(&clock, frame.time_us, heard.utc_us);
 *
 * Which messages are known stands in podrate/bus/numbers.hpp. As everywhere, one call at a time on one
 * object: an interrupt puts frames, with their times, into a queue.
 */
#ifndef PODRATE_PODRATE_BUS_H
#define PODRATE_PODRATE_BUS_H

#include "podrate/podrate.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- What a frame or a sentence gave ---- */

/* podrate_heard.result */
enum {
    PODRATE_TAKEN = 0,         /* understood; it may hold samples */
    PODRATE_NOT_OURS = 1,      /* a message that nobody here needs */
    PODRATE_NOT_AVAILABLE = 2, /* the sender says that it does not know, or that it is broken */
    PODRATE_NOT_ALLOWED = 3,   /* a value that the message's definition, or a viner, does not allow */
    PODRATE_OTHER_SENDER = 4,  /* another sender of the same quantity is listened to */
    PODRATE_INCOMPLETE = 5,    /* part of a longer message, of a round of cells, of a sentence */
    PODRATE_MALFORMED = 6,     /* too short, remote, or its checksum is wrong */
    PODRATE_REFUSED_TIME = 7,  /* its time was refused, as the status says */
    PODRATE_DUPLICATE = 8,     /* the frame before once more within 2 ms */
    PODRATE_RESULT_COUNT
};

struct podrate_heard {
    struct podrate_sample sample[4]; /* for podrate_feed(), in this order */
    int64_t utc_us;                  /* where utc_told is 1: the time of day, for podrate_clock_told() */
    float drum_rpm;                  /* newest told; 0 where none was */
    uint8_t count;                   /* of sample[], 0 to 4 */
    uint8_t result;
    uint8_t utc_told; /* 1: this very frame or sentence told it */
    uint8_t reserved;
};

/* ---- The bus ---- */

/* Whom to listen to. An address, 0 to 253, stands for the device that claims it and is followed by its NAME;
 * 255: whoever tells it best and is not silent. Elements of ISO 11783-10 are 0 to 4095. */
struct podrate_senders {
    uint8_t speed_from;
    uint8_t position_from; /* for the time of day too */
    uint8_t tilt_from;
    uint8_t weight_from;
    uint8_t heading_from;
    uint8_t reel_from;
    uint8_t hits_from;
    uint8_t cells;               /* of the scale, 1 to 4; 0: as many as are heard in the first second */
    uint16_t hopper_element;     /* whose weight is the hopper's */
    uint16_t first_cell_element; /* cells have this one and the next three */
    uint16_t reel_element;       /* whose work state tells of the reel */
    uint8_t reserved[2];
};
podrate_status podrate_default_senders(struct podrate_senders* senders);

#define PODRATE_BUS_WORDS 208
struct podrate_bus {
    uint64_t words[PODRATE_BUS_WORDS];
};

/* now_us: as for podrate_init(). PODRATE_OUT_OF_RANGE where an address, an element or `cells` is. */
podrate_status podrate_bus_init(struct podrate_bus* bus, const struct podrate_senders* senders,
                                int64_t now_us);

struct podrate_can_frame {
    int64_t time_us;  /* when it came, by the clock that stamps all samples */
    uint32_t id;      /* the identifier alone, without flags */
    uint8_t extended; /* 1: of 29 bits */
    uint8_t remote;
    uint8_t length; /* 0 to 8 */
    uint8_t reserved;
    uint8_t data[8];
};

/* Takes each frame that comes, whatever it is. PODRATE_OK: heard.result says what became of it. A time that
 * is refused, _TIME_BACK, _TIME_AHEAD or _OUT_OF_RANGE, is refused as podrate_feed() does it; heard.count is
 * 0. */
podrate_status podrate_bus_take(struct podrate_bus* bus, const struct podrate_can_frame* frame,
                                struct podrate_heard* heard);

/* What the CAN controller says of itself, ISO 11898-1. */
enum {
    PODRATE_CAN_ACTIVE = 0,
    PODRATE_CAN_PASSIVE = 1, /* more than 127 errors */
    PODRATE_CAN_OFF = 2      /* so many that it has left the bus */
};
podrate_status podrate_bus_controller(struct podrate_bus* bus, uint32_t state);

struct podrate_bus_health {
    int64_t age_us[8];   /* since the newest sample of each channel, by PODRATE_WEIGHT ...; -1: none yet */
    uint32_t results[9]; /* frames so far, by podrate_heard.result */
    uint32_t most_per_s; /* frames in the busiest second */
    uint8_t silent;      /* 1: no frame for a second, or none yet */
    uint8_t flooded;     /* 1: more than 2000 frames in the last second */
    uint8_t controller;  /* as last told */
    uint8_t reserved[5];
};
podrate_status podrate_bus_look(const struct podrate_bus* bus, int64_t now_us,
                                struct podrate_bus_health* health);

/* ---- A receiver's serial line: GGA, RMC and VTG of NMEA 0183 ---- */

#define PODRATE_RECEIVER_WORDS 88
struct podrate_receiver {
    uint64_t words[PODRATE_RECEIVER_WORDS];
};

podrate_status podrate_receiver_init(struct podrate_receiver* receiver, int64_t now_us);
/* Takes each byte, with the time at which it came. Most give PODRATE_INCOMPLETE; the end of a line gives what
 * the sentence held. Times as for podrate_bus_take(). */
podrate_status podrate_receiver_take(struct podrate_receiver* receiver, int64_t time_us, uint8_t byte,
                                     struct podrate_heard* heard);

#ifdef __cplusplus
}
#endif

#endif
