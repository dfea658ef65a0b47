/* How many tendons keep the joints closed: whole numbers, tried by runs of the line that governs the
 * thrust. What is left to the limits is nearly straight in their number. */
#include <math.h>

#include "work.h"

enum { TRIES_MAX = 12 };
static const size_t trials_bytes = (size_t)1 << 30;

typedef struct Count {
    CompareWork *work;
    Arena *trials;
    double too_few_margin_Pa, enough_margin_Pa; /* at these numbers; */
    int too_few, enough;                        /* 0: none yet; -1: none yet */
    int *runs;
} Count;

static Status margin_of(Count *c, int tendons, double *margin_Pa, Error *err)
{
    const WayWish wish = {WAY_TENDON, tendons, 1};
    const size_t mark = arena_mark(c->trials);
    WayLine *line;
    int count;
    TRY(way_follow(c->work, &wish, c->work->answer->line, c->trials, &line, &count, err));
    *margin_Pa = compare_margin_Pa(&line[c->work->answer->line]);
    ++*c->runs;
    arena_reset(c->trials, mark);
    return STATUS_OK;
}

/* Force of one tendon in the middle of the line's unit, all its width. */
static double one_N(const BridgeLine *line)
{
    const LineTendons *t = line->tendons;
    const double mid_m = 0.5 * t->path.x_m[t->path.count - 1];
    return tendon_at(&t->pull, &t->path, &t->seat, mid_m).seated_Pa * t->area_m2 / line->share_1 /
           t->count;
}

/* The number that gives the thrust's force, and the most that the section bears. */
static Status first_count(Count *c, int *first, int *most, Error *err)
{
    const WayWish wish = {WAY_TENDON, 1, 1};
    const size_t mark = arena_mark(c->trials);
    const BridgeLine *lines;
    int count;
    TRY(bridge_way_lines(c->work->bridge, &wish, c->trials, &lines, &count, err));
    const BridgeLine *line = &lines[c->work->answer->line];
    const double one = one_N(line);
    const double section_m2 = line->width_m * line->model.deck_thickness_m / line->share_1;
    *first = (int)fmax(1, ceil(c->work->thrust->thrust_N / one));
    *most = (int)fmax(1, floor(0.45 * line->deck_strength_Pa * section_m2 / one));
    arena_reset(c->trials, mark);
    return STATUS_OK;
}

/* Straight through the last two margins, kept between what is too few and what is enough. */
static int next_count(const Count *c, int last, double margin_Pa, int before, double margin_before)
{
    const double per = last == before ? 0 : (margin_Pa - margin_before) / (last - before);
    const int more = last / 4 > 1 ? last / 4 : 1, less = last / 5 > 1 ? last / 5 : 1;
    double guess = margin_Pa < 0 ? last + more : last - less;
    if (per > 0) guess = ceil(last - margin_Pa / per - 1e-6);
    if (c->enough > 0 && guess >= c->enough) guess = c->enough - 1;
    if (guess <= c->too_few) guess = c->too_few + 1;
    return (int)fmax(1, fmin(guess, 10000));
}

static Status count_up(Count *c, int first, int most, Error *err)
{
    int last = first < most ? first : most, before = last;
    double margin_before = 0;
    for (int tries = 0; tries < TRIES_MAX; tries++) {
        double margin_Pa;
        TRY(margin_of(c, last, &margin_Pa, err));
        if (margin_Pa < 0) {
            c->too_few = last;
        } else {
            c->enough = last;
        }
        if (c->too_few >= most || (c->enough > 0 && c->enough == c->too_few + 1)) break;
        const int next = next_count(c, last, margin_Pa, tries ? before : last, margin_before);
        before = last;
        margin_before = margin_Pa;
        last = next < most ? next : most;
    }
    return STATUS_OK;
}

Status way_tendons_find(CompareWork *work, WayAnswer *way, Error *err)
{
    int first = 1, most = 1;
    way->tendons = bridge_tendons(work->bridge);
    way->tendons_given = way->tendons > 0;
    if (way->tendons_given) return STATUS_OK;
    Count c = {
        .work = work, .trials = arena_create(trials_bytes), .enough = -1, .runs = &way->runs};
    Status status = first_count(&c, &first, &most, err);
    if (status == STATUS_OK) status = count_up(&c, first, most, err);
    arena_free(c.trials);
    way->enough = c.enough > 0;
    way->tendons = way->enough ? c.enough : most;
    return status;
}
