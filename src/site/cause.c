/* Causes by their pattern: what each needs, what speaks against it, what would tell
 * (which-cause rules of the trade; common practice, no source). */
#include <math.h>
#include <string.h>

#include "look.h"

/* Signs, as bits: seen, or read and not seen, or not read. */
enum {
    LITTLE = 1 << 0,
    MUCH = 1 << 1,
    BENT = 1 << 2, /* the slope changed on the way */
    STEP = 1 << 3, /* at a stroke, or while the force stood */
    SIDES = 1 << 4,
    FALL = 1 << 5,
    CLOSES = 1 << 6,
    OPENS = 1 << 7,
    SLIP = 1 << 8,  /* dial at an anchor panel */
    CELL = 1 << 9,  /* load cells apart from the gauge */
    RISE = 1 << 10, /* girders off the plan */
    BEARING = 1 << 11,
    WARM = 1 << 12,
    OFFSET = 1 << 13, /* more seating than the plan has */
    WRONG = 1 << 14,  /* readings that cannot be */
    STRAIGHT = 1 << 15,
    ON_NUTS = 1 << 16 /* the jacks stand on them: no oil carries */
};

typedef struct Row {
    SiteCause cause;
    int any, not, wants; /* one of them seen; none of them seen; seen where read */
    const char *measure; /* what tells it from the others */
} Row;

/* clang-format off */
static const Row rows[] = {
    {SITE_MISREAD, WRONG, 0, 0, NULL},
    {SITE_LEAK, FALL | CLOSES, OPENS | SLIP | ON_NUTS, 0, "stand of the rams against the lock nuts, hoses and seals"},
    {SITE_NUTS_GIVE, CLOSES, OPENS, ON_NUTS, "turn of every nut against its mark, packing and bearing plates"},
    {SITE_ANCHOR_SLIP, MUCH | FALL | OPENS | SLIP | BENT, CLOSES | LITTLE | CELL, SLIP, "slip of both anchor panels on their girders"},
    {SITE_JOINT_CRUSH, MUCH | OPENS, SLIP | LITTLE | STRAIGHT | CELL | CLOSES, BENT, "every joint by feeler and eye, spalls at the jacks"},
    {SITE_SPLICE_SLIP, STEP, SLIP | LITTLE | CLOSES | CELL, RISE, "bolted splices for bright marks; rise of the girders"},
    {SITE_GAUGE_LOW, MUCH, BENT | STEP | SIDES | SLIP | OPENS, CELL, "load cells, or a second gauge at the jacks"},
    {SITE_GAUGE_HIGH, LITTLE, BENT | STEP | SIDES, CELL, "load cells, or a second gauge at the jacks"},
    {SITE_SHIM_FRICTION, LITTLE, CELL | SLIP | STEP, 0, "down one step and up again: half the loop is friction; strain at the far end"},
    {SITE_LOCKED_BEARING, LITTLE, CELL | SLIP | SIDES | STEP, BEARING, "movement of every bearing"},
    {SITE_SOFT_GIRDER, LITTLE | MUCH, BENT | STEP | SIDES | SLIP | CELL | OPENS, RISE, "rise of the girders in mid-span"},
    {SITE_SOFT_DECK, LITTLE | MUCH, BENT | STEP | SIDES | SLIP | CELL | RISE | OPENS, 0, "strain of the deck, modulus of cylinders"},
    {SITE_ECCENTRIC, SIDES, 0, 0, "pressure at each jack, shut-offs, line of the jacks"},
    {SITE_WARM_DECK, WARM | FALL, CLOSES | SLIP | OPENS, WARM, "temperatures of deck and girders, at three depths"},
    {SITE_OPEN_JOINT, OFFSET, SLIP | STEP | LITTLE, 0, "every joint by feeler, top and bottom"},
};
/* clang-format on */

static int kind_sign(const SiteFinding *f)
{
    switch (f->kind) {
    case SITE_LITTLE:
    case SITE_FLAT: return LITTLE;
    case SITE_MUCH:
    case SITE_STEEP: return MUCH;
    case SITE_BENT_FLAT: return LITTLE | BENT;
    case SITE_BENT_STEEP: return MUCH | BENT;
    case SITE_SIDES:
    case SITE_SETS: return SIDES;
    case SITE_CELL: return CELL;
    case SITE_FALL: return f->dimension == DIM_LENGTH ? FALL | CLOSES : FALL;
    case SITE_LATER: return f->dimension == DIM_LENGTH ? OPENS | STEP | MUCH : WARM;
    case SITE_SLIPPED: return SLIP;
    case SITE_WARM:
    case SITE_WARMING: return WARM;
    case SITE_IMPOSSIBLE:
    case SITE_DIAL: return WRONG;
    default: return 0;
    }
}

static bool has_kind(const SiteDay *day, const Seen *s, SitePointKind kind)
{
    for (int p = 0; p < day->point_count; p++)
        if (day->point[p].kind == kind && look_read(s->point_m[p])) return true;
    return false;
}

/* Signs that the readings would show if they were there. */
static int signs_read(const Look *look, const Seen *s)
{
    Hold hold;
    Line line;
    int read = LITTLE | MUCH | STEP | WRONG | ON_NUTS;
    if (look_read(s->tilt_m)) read |= SIDES;
    if (hold_look(look, look->count - 1, &hold)) read |= FALL | CLOSES | OPENS;
    if (has_kind(look->day, s, SITE_SLIP)) read |= SLIP;
    if (has_kind(look->day, s, SITE_RISE)) read |= RISE;
    if (has_kind(look->day, s, SITE_BEARING)) read |= BEARING;
    if (look_read(s->r->cell_N)) read |= CELL;
    if (look_read(s->warm_K)) read |= WARM;
    if (look_line(look, look->count, &line) && line.used >= 8) read |= BENT | OFFSET;
    return read;
}

/* Rises apart from the plan by a tenth of their own, as the slope's alarm has it. */
static bool rises_off(const Look *look, const Seen *s)
{
    const JackPlan *plan = look->day->plan;
    if (s->r->step < 1 || s->r->step > plan->step_count || !look_read(s->force_N)) return false;
    for (int p = 0; p < look->day->point_count; p++) {
        const SitePoint *point = &look->day->point[p];
        if (point->kind != SITE_RISE || !look_read(s->point_m[p])) continue;
        const double part_1 = s->force_N / plan->step[s->r->step - 1].force_N;
        const double expect_m = part_1 * plan->watch[point->watch].move_m[s->r->step - 1];
        if (fabs(s->point_m[p] - expect_m) >
            plan->alarm.movement_1 * fabs(expect_m) + 2 * fmax(1e-4, 0.5 * point->division_m))
            return true;
    }
    return false;
}

static int signs_seen(const Look *look, const Findings *list, const Seen *s)
{
    const JackPlan *plan = look->day->plan;
    int seen = 0;
    Line line;
    for (int i = 0; i < list->count; i++) {
        const SiteFinding *f = &list->item[i];
        seen |= kind_sign(f);
        if (f->kind == SITE_OFFPLAN)
            seen |= look->day->point[f->point].kind == SITE_RISE ? RISE : BEARING;
    }
    if (look_line(look, look->count, &line) && line.used >= 8) {
        if (line.fit.level > plan->seating_most_m / 2 + 3 * line.spread_m) seen |= OFFSET;
        if (!(seen & BENT)) seen |= STRAIGHT;
    }
    if (rises_off(look, s)) seen |= RISE;
    if (s->r->phase == SITE_NUTS) seen |= ON_NUTS;
    return seen;
}

static int bits(int mask)
{
    int count = 0;
    for (; mask; mask &= mask - 1) count++;
    return count;
}

static bool before_in_order(const SiteGuess *a, const SiteGuess *b)
{
    if (a->for_count != b->for_count) return a->for_count > b->for_count;
    return a->open_count < b->open_count;
}

static void guess_add(SiteVerdict *verdict, SiteGuess guess)
{
    if (verdict->guess_count == SITE_CAUSES) return;
    int at = verdict->guess_count++;
    while (at > 0 && before_in_order(&guess, &verdict->guess[at - 1])) {
        verdict->guess[at] = verdict->guess[at - 1];
        at--;
    }
    verdict->guess[at] = guess;
}

void guess_causes(const Look *look, const Findings *list, SiteVerdict *verdict)
{
    const Seen *s = &look->seen[look->count - 1];
    const int seen = signs_seen(look, list, s), read = signs_read(look, s) | seen;
    if (list->count == 0) return;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const Row *row = &rows[i];
        if (!(seen & row->any) || (seen & row->not )) continue;
        if (row->wants & read & ~seen) continue; /* read, and not there */
        guess_add(verdict, (SiteGuess){.cause = row->cause,
                                       .for_count = bits(seen & (row->any | row->wants)),
                                       .open_count = bits((row->wants | row->not ) & ~read),
                                       .measure = row->measure});
    }
}
