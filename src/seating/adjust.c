/* A raise of the profile, and a tilt, that brings the haunches within their limits: least squares about the
 * haunch that is aimed at, kept within the room that the limits leave. */
#include <math.h>

#include "work.h"

typedef struct Trial {
    const AdjustPlace *place;
    int count;
    const AdjustWish *wish;
} Trial;

typedef struct Room {
    double low_m, high_m, sum_m, square_m2; /* of aim - height - tilt d: raises that are wanted */
} Room;

static Room room_of(const Trial *t, double tilt)
{
    Room r = {-INFINITY, INFINITY, 0, 0};
    for (int i = 0; i < t->count; i++) {
        const AdjustPlace *p = &t->place[i];
        const double by_m = tilt * p->d_m, want_m = t->wish->aim_m - p->height_m - by_m;
        r.low_m = fmax(r.low_m, t->wish->least_m - p->thin_m - by_m);
        r.high_m = fmin(r.high_m, t->wish->most_m - p->thick_m - by_m);
        r.sum_m += want_m;
        r.square_m2 += want_m * want_m;
    }
    return r;
}

/* Nearest to least squares in the room; without room its middle, which shares what is too much. */
static double raise_in(const Trial *t, const Room *r)
{
    if (r->low_m > r->high_m) return (r->low_m + r->high_m) / 2;
    return fmin(fmax(r->sum_m / t->count, r->low_m), r->high_m);
}

/* What is to be small: first the lack of room, then the sum of squares. Both are convex in the tilt. */
static double lack_m(const Trial *t, double tilt)
{
    const Room r = room_of(t, tilt);
    return r.low_m - r.high_m;
}

static double squares_m2(const Trial *t, double tilt)
{
    const Room r = room_of(t, tilt);
    const double raise = raise_in(t, &r);
    return r.square_m2 - 2 * raise * r.sum_m + t->count * raise * raise;
}

static double golden(const Trial *t, double (*of)(const Trial *t, double tilt), double a, double b)
{
    const double share = (sqrt(5) - 1) / 2;
    double c = b - share * (b - a), d = a + share * (b - a);
    double fc = of(t, c), fd = of(t, d);
    for (int i = 0; i < 60; i++) {
        if (fc < fd) {
            b = d;
            d = c;
            fd = fc;
            c = b - share * (b - a);
            fc = of(t, c);
        } else {
            a = c;
            c = d;
            fc = fd;
            d = a + share * (b - a);
            fd = of(t, d);
        }
    }
    return (a + b) / 2;
}

/* Where the room ends, between a tilt that has some and one that has none. */
static double edge_of(const Trial *t, double inside, double outside)
{
    if (lack_m(t, outside) <= 0) return outside;
    for (int i = 0; i < 60; i++) {
        const double middle = (inside + outside) / 2;
        if (lack_m(t, middle) <= 0)
            inside = middle;
        else
            outside = middle;
    }
    return inside;
}

AdjustAnswer seating_adjust(const AdjustPlace *place, int count, const AdjustWish *wish)
{
    const double most_1 = 0.02; /* as the schema allows */
    const Trial t = {place, count, wish};
    double tilt = 0;
    if (wish->tilt) {
        tilt = golden(&t, lack_m, -most_1, most_1);
        if (lack_m(&t, tilt) <= 0)
            tilt = golden(&t, squares_m2, edge_of(&t, tilt, -most_1), edge_of(&t, tilt, most_1));
    }
    const Room r = room_of(&t, tilt);
    return (AdjustAnswer){raise_in(&t, &r), tilt, r.low_m <= r.high_m + 1e-9};
}

/* ---- of a plan ---- */

/* Haunches widened by so many standard deviations: what is within the limits then has room to be off. */
static AdjustPlace *adjust_places(const Work *w, double deviations_1)
{
    AdjustPlace *at = ARENA_NEW(w->result, AdjustPlace, w->plan->place_count);
    for (int i = 0; i < w->plan->place_count; i++) {
        const SeatPlace *p = &w->place[i];
        const double by_m = deviations_1 * w->place_off_m[i];
        at[i] = (AdjustPlace){p->x_m - w->plan->grade.middle_m, p->thin_m - by_m, p->thick_m + by_m,
                              p->height_m};
    }
    return at;
}

/* Two standard deviations off the limits, or one, or none: what the room allows (two: common practice, no
 * source). A tilt only where a raise alone does not do. */
static AdjustAnswer adjust_find(const Work *w, SeatAdjust *a)
{
    const bool may_tilt = seat_word(w->bridge, "profile.adjust", "raise and tilt");
    AdjustWish wish = {w->plan->limit.least_m, w->plan->limit.most_m, a->aim_m, false};
    AdjustAnswer answer = {0, 0, false};
    for (int off = 2; off >= 0; off--)
        for (int tilt = 0; tilt <= may_tilt; tilt++) {
            wish.tilt = tilt;
            a->deviations_1 = off;
            answer = seating_adjust(adjust_places(w, off), w->plan->place_count, &wish);
            if (answer.fits) return answer;
        }
    return answer;
}

void adjust_make(Work *w)
{
    SeatPlan *plan = w->plan;
    SeatAdjust *a = &plan->adjust;
    const SeatLimits *limit = &plan->limit;
    const bool aim = w->haunch_m > limit->least_m && w->haunch_m < limit->most_m;
    a->aim_m = aim ? w->haunch_m : (limit->least_m + limit->most_m) / 2;
    a->wanted = plan->place[plan->thinnest].thin_m < limit->least_m - 1e-9 ||
                plan->place[plan->thickest].thick_m > limit->most_m + 1e-9;
    if (!a->wanted) return;
    const AdjustAnswer answer = adjust_find(w, a);
    a->tilted = answer.tilt_1 != 0;
    a->fits = answer.fits;
    a->raise_m = answer.raise_m;
    a->tilt_1 = answer.tilt_1;
    a->thin_m = INFINITY;
    a->thick_m = -INFINITY;
    for (int i = 0; i < plan->place_count; i++) {
        const double by_m = a->raise_m + a->tilt_1 * (w->place[i].x_m - plan->grade.middle_m);
        a->thin_m = fmin(a->thin_m, w->place[i].thin_m + by_m);
        a->thick_m = fmax(a->thick_m, w->place[i].thick_m + by_m);
    }
}
