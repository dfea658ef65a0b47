/* A log by hand: readings as the plan has them, without noise. One case for all tests of a program. */
#ifndef CLENCH_TESTS_SITE_LOG_H
#define CLENCH_TESTS_SITE_LOG_H

#include "site_case.h"

extern SiteCase site_shared;
extern const char log_by_plan[];

typedef struct Log {
    SiteReading r[200];
    int count;
    double slope_1, minute;
} Log;

int log_setup(void **state);
int log_teardown(void **state);
void log_force(SiteReading *r, double force_N);
void log_gap(SiteReading *r, double open_m);
SiteReading *log_add(Log *log, int step, SitePhase phase, double force_N);
void log_climb(Log *log, int to_step);
void log_hold(Log *log, int step, int readings, double fall_1, double closes_m, double warms_K);
SiteVerdict log_judged(const Log *log);
const SiteFinding *log_found(const SiteVerdict *v, SiteKind kind);
bool log_may_be(const SiteVerdict *v, SiteCause cause);

#endif
