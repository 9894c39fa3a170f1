/* A small log made up in C, so that both sides feed the very same bits. */
#ifndef PODRATE_TESTS_C_API_CALLER_H
#define PODRATE_TESTS_C_API_CALLER_H

#include "podrate/podrate.h"

#ifdef __cplusplus
extern "C" {
#endif

#define CALLER_START_US 1000000

/* Calls `take` with each sample of twelve minutes: two bouts, a turn, a tip, a tray, hits, places. */
void caller_log(void (*take)(void* to, const struct podrate_sample* sample), void* to);

/* Feeds that log to a machine; returns how many samples were refused. */
int caller_feed(struct podrate_machine* machine);

#ifdef __cplusplus
}
#endif

#endif
