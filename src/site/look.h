/* Private to site: readings as force and opening, and what is made of many. */
#ifndef CLENCH_SITE_LOOK_H
#define CLENCH_SITE_LOOK_H

#include "clench/numeric.h"
#include "clench/site.h"

/* A reading worked up. NAN where not read. */
typedef struct Seen {
    const SiteReading *r;
    double force_N;
    double warm_K;                  /* deck over girders since the zero reading */
    double raw_m, open_m;           /* mean of the width; with temperature taken out */
    double tilt_m;                  /* right edge over left */
    double expect_m, slope_m_per_N; /* of the plan at that force */
    double point_m[SITE_POINTS];    /* since the zero reading */
    double off_N, off_m;            /* one standard deviation by reading */
    bool first;                     /* way up, beyond all forces before: the expected line holds */
    bool odd;                       /* in a hold, and most before it lead elsewhere */
    int wild;                       /* gap dial left out; -1 */
    double wild_m;                  /* how far off it is */
    const double *shift_m; /* RESET: what each dial was moved by; NULL: it cannot be told */
} Seen;

typedef struct Look {
    const SiteDay *day;
    const SiteReading *zero; /* NULL: none */
    Seen *seen;              /* not struck, in order; sampled */
    int count;
    Arena *arena;
} Look;

void look_make(const SiteDay *day, const SiteReading *reading, int count, Arena *arena, Look *look);
bool look_read(double value);                                      /* finite */
void look_one(const Look *look, const SiteReading *r, Seen *seen); /* by itself */
/* Line of opening over expected opening of the seated first loading among seen[0..count), thinned to what
 * robust_line takes; `from` where they begin. Fewer than 5: false. */
typedef struct Line {
    RobustLine fit;
    double centre_m, spread_m, last_m; /* of the expected openings; of the residuals */
    int used;
} Line;
bool look_line(const Look *look, int count, Line *line);
/* What gap dial `point` should show at seen[at], from readings before it; false: too few. */
bool look_point(const Look *look, int at, int point, double *expect_m, double *off_m);
double look_thermal_N_per_K(const JackPlan *plan); /* locked force, deck warming */
double
look_stiff_N_per_m(const JackPlan *plan); /* force that a gap gives back in closing, at most */

/* Findings of one reading by itself and those before it; `list` has room for SITE_FINDINGS. */
typedef struct Findings {
    SiteFinding item[SITE_FINDINGS];
    bool stands[SITE_FINDINGS]; /* needs no second reading */
    int count;
} Findings;
SiteFinding *finding_add(Findings *list, SiteKind kind, SiteCall call, bool stands);
/* value against bounds; fills sure_1. Bounds may be NAN. */
void finding_bounds(SiteFinding *f, DimensionId dimension, double value, double low, double high,
                    double off);
void find_impossible(const Look *look, int at, Findings *list); /* limits.c */
void find_limits(const Look *look, int at, Findings *list);
void find_slips(const Look *look, int at, Findings *list);
void find_movement(const Look *look, int at, Findings *list); /* move.c */
void find_slope(const Look *look, int at, Findings *list);
void find_hold(const Look *look, int at, Findings *list, SiteVerdict *verdict); /* hold.c */
void find_nuts(const Look *look, int at, Findings *list);                       /* nuts.c */
void find_pressure(const Look *look, const Seen *s, Findings *list);            /* limits.c */

/* Movement in the hold of seen[at]. */
typedef struct Hold {
    int from, count;
    double minutes, fall_N, explained_N, off_N; /* unit: minutes, N */
    double closes_m, closes_off_m;
} Hold;
/* One reading of a hold that most of those before it do not lead to. */
typedef struct Odd {
    double lead_N, off_N;
} Odd;
bool hold_odd(const Look *look, int at, Odd *odd);
bool hold_look(const Look *look, int at, Hold *hold);
int hold_start(const Look *look, int at);
/* What is known of force, temperature taken out against `warm0_K` (NAN: none yet). */
double hold_still_N(const Look *look, const Seen *seen, double warm0_K);
double hold_creep_N(const JackPlan *plan, const JackStep *step, double after_day);
double hold_beyond_N(const JackPlan *plan, const JackStep *step, const Hold *hold);
bool hold_counts(const Look *look, int i, int at); /* seen[i] in the hold of seen[at] */

void guess_causes(const Look *look, const Findings *list, SiteVerdict *verdict); /* cause.c */

/* Words. */
const char *say_force(const Look *look, double force_N);
const char *say_move(const Look *look, double move_m);
const char *say_pressure(const Look *look, double pressure_Pa);
const char *say_kelvin(const Look *look, double difference_K);

#endif
