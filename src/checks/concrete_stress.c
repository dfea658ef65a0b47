/* Stresses of pretensioned girders: at transfer, with the panels on, while the jacks act, permanent and in
 * service. */
#include <math.h>

#include "cite.h"
#include "fibre.h"
#include "table.h"
#include "values.h"

/* Stress of a fibre with its parts, factors in. */
typedef struct Found {
    double permanent_Pa, live_Pa, gradient_Pa;
    const Gradient *gradient; /* that counts; NULL: none */
    int station, side, time;
    bool top, there;
} Found;

static double total(const Found *f) { return f->permanent_Pa + f->live_Pa + f->gradient_Pa; }

static const char *place(const CheckCase *with, const KitLine *k, const Found *f)
{
    return arena_printf(with->arena, "%s, %s", kit_x(with, k, f->station),
                        f->top ? "top" : "bottom");
}

typedef struct Asked {
    const char *name, *clause;
    int from, to, sign;
    double live_1, gradient_1;
    const char *live, *gradient; /* inputs of the factors; NULL: the clause has it */
} Asked;

/* Live load and gradient of both fibres beside a station that go with the sign. */
static void add_loads(const KitLine *k, const Asked *asked, Found *f)
{
    const int i = 2 * f->station + (f->side > 0);
    if (asked->live_1 <= 0 || !k->girder_live[i].there) return;
    const LiveRange live = f->top ? k->girder_live[i].top_Pa : k->girder_live[i].bottom_Pa;
    const FibreStress *cold = &k->girder_cold[i], *warm = &k->girder_warm[i];
    f->live_Pa = asked->live_1 * k->line->lanes_1 * (asked->sign > 0 ? live.most : live.least);
    if (isnan(cold->N_N) || isnan(warm->N_N)) return;
    const double a = f->top ? cold->top_Pa : cold->bottom_Pa;
    const double b = f->top ? warm->top_Pa : warm->bottom_Pa;
    const bool by_cold = asked->sign * a >= asked->sign * b;
    const double worst = by_cold ? a : b;
    if (asked->sign * worst <= 0 || asked->gradient_1 <= 0) return;
    f->gradient = by_cold ? &k->line->cold : &k->line->warm;
    f->gradient_Pa = asked->gradient_1 * worst;
}

static Found find(const KitLine *k, const Asked *asked)
{
    Found worst = {.there = false};
    for (int i = 0; i < k->model->station_count; i++)
        for (int side = -1; side <= 1; side += 2)
            for (int top = 0; top < 2; top++) {
                Found one = {.station = i, .side = side, .top = top, .there = true};
                add_loads(k, asked, &one);
                for (one.time = asked->from; one.time <= asked->to; one.time++) {
                    FibreStress at;
                    if (!stage_stress(k->history, one.time, CHAIN_GIRDER, i, side, &at)) continue;
                    one.permanent_Pa = top ? at.top_Pa : at.bottom_Pa;
                    if (!worst.there || asked->sign * total(&one) > asked->sign * total(&worst))
                        worst = one;
                }
            }
    return worst;
}

static Cite cite_of(const KitLine *k, const Asked *asked, const Found *f)
{
    return (Cite){.k = k,
                  .effect = {CHAIN_GIRDER, f->station, f->side, f->top},
                  .sign = asked->sign,
                  .positive = asked->sign};
}

static void write_live(const CheckCase *with, const KitLine *k, const Asked *asked, const Found *f,
                       Sheet *s)
{
    Cite cite = cite_of(k, asked, f);
    cite.load = &k->line->live;
    cite_stress(s, with, &cite, "f_1", "of one lane of live load with impact");
    give_lanes(s, with, k);
    if (asked->live)
        value_give(s, with, "g_LL", asked->live, "", "factor on live load");
    else
        sheet_given_from(s, "g_LL", asked->live_1, "", "factor on live load", asked->clause);
}

/* The gradient that goes with the sign, or none. */
static void write_gradient(const CheckCase *with, const KitLine *k, const Asked *asked,
                           const Found *f, Sheet *s)
{
    Cite cite = cite_of(k, asked, f);
    cite.gradient = f->gradient;
    cite_gradient(s, with, &cite);
    value_give(s, with, "g_TG", asked->gradient, "", "factor on the gradient beside live load");
}

static void write_stress(const CheckCase *with, const KitLine *k, const Asked *asked,
                         const Found *f, Sheet *s)
{
    const char *unit = with->shared->unit.stress;
    const char *what = asked->sign > 0 ? "tension" : "compression";
    const Fibre at = {CHAIN_GIRDER, f->station, f->side, f->time, f->top};
    if (asked->live_1 <= 0) {
        fibre_write(s, with, k, &at, "f", asked->sign,
                    arena_printf(with->arena, "largest %s of the concrete", what));
        return;
    }
    fibre_write(s, with, k, &at, "f_p", asked->sign,
                arena_printf(with->arena, "%s under permanent loads, prestress and thrust", what));
    write_live(with, k, asked, f, s);
    write_gradient(with, k, asked, f, s);
    sheet_formula(s, "f", "f_p + g_LL g_m f_1 + g_TG f_TG", unit,
                  arena_printf(with->arena, "%s in service", what), asked->clause);
}

/* ---- limits ---- */

/* A share of a strength for compression, or a stress that is given. */
typedef struct Limit {
    double strength_Pa; /* 0: the stress */
    const char *path;   /* input of the share, or of the stress */
    bool transfer;      /* tension at transfer, worked out */
    const char *words;
    const char *strength; /* input of the strength; NULL: none gives it as it is */
} Limit;

static void write_strength(const CheckCase *with, const Limit *limit, Sheet *s)
{
    const char *unit = with->shared->unit.stress;
    if (limit->strength)
        value_give(s, with, "f'c", limit->strength, unit, limit->words);
    else
        sheet_given_from(s, "f'c", limit->strength_Pa, unit, limit->words, from_time);
    value_give(s, with, "k_c", limit->path, "", "share of it");
}

/* The clause has it in ksi. */
static void write_transfer(const CheckCase *with, const Limit *limit, const char *clause, Sheet *s)
{
    const bool bars = kit_flag(with, "girders.top_bars");
    value_give(s, with, "f'ci", limit->strength, "ksi", "strength at transfer");
    sheet_empirical(s, "f_lim", bars ? "0.24 sqrt(f'ci)" : "min(0.0948 sqrt(f'ci), 0.2)", "ksi",
                    limit->words, clause);
}

static void add_row(const CheckCase *with, CheckList *list, const KitLine *k, const Asked *asked,
                    const Limit *limit)
{
    const char *unit = with->shared->unit.stress;
    const Found f = find(k, asked);
    if (!f.there) return;
    Sheet s = kit_sheet(with, k, asked->name);
    write_stress(with, k, asked, &f, &s);
    if (limit->transfer) {
        write_transfer(with, limit, asked->clause, &s);
    } else if (limit->strength_Pa > 0) {
        write_strength(with, limit, &s);
        sheet_formula(&s, "f_lim", "k_c f'c", unit, "limit", asked->clause);
    } else {
        value_give(&s, with, "f_lim", limit->path, unit, limit->words);
    }
    const double demand_Pa = fmax(0, asked->sign * total(&f));
    CheckRow *row =
        check_add(list, with, &s, asked->name, demand_Pa, sheet_SI(&s, "f_lim"), DIM_STRESS);
    check_place(row, k->name, place(with, k, &f), kit_when(with, k, f.time), asked->clause);
    check_needs(row, with, "girders.strand_area", "the prestress hangs on the size of the strand");
    check_needs(row, with, "girders.strand_jacking",
                "the prestress hangs on the stress at tensioning");
}

static void add_transfer(const CheckCase *with, CheckList *list, const KitLine *k)
{
    const int t = stage_time_named(k->history, "transfer");
    if (t < 0) return;
    const double fci_Pa = kit_value(with, "concrete.girder.strength_at_loading");
    const Asked tension = {"girder tension at transfer",
                           "AASHTO LRFD 5.9.2.3.1b (from memory)",
                           t,
                           t,
                           1,
                           0,
                           0,
                           NULL,
                           NULL};
    const Asked pressed = {"girder compression at transfer",
                           "AASHTO LRFD 5.9.2.3.1a (from memory)",
                           t,
                           t,
                           -1,
                           0,
                           0,
                           NULL,
                           NULL};
    const bool bars = kit_flag(with, "girders.top_bars");
    add_row(with, list, k, &tension,
            &(Limit){0, NULL, true,
                     bars ? "limit with bonded bars in the top (girders.top_bars), in ksi"
                          : "limit without bonded bars in the top (girders.top_bars), in ksi",
                     "concrete.girder.strength_at_loading"});
    add_row(with, list, k, &pressed,
            &(Limit){fci_Pa, "criteria.girder_transfer", 0, "strength at transfer",
                     "concrete.girder.strength_at_loading"});
}

static double least_strength_Pa(const KitLine *k, int time)
{
    double least = INFINITY;
    for (int i = 0; i < k->model->station_count; i++) {
        const double strength_Pa = kit_strength_Pa(k, time, CHAIN_GIRDER, i, 1);
        if (strength_Pa > 0) least = fmin(least, strength_Pa);
    }
    return least;
}

/* On their bearings with the panels on, before the jacks act. Between transfer and then the concrete
 * only gains strength and the prestress only loses: transfer is worse. */
static void add_erected(const CheckCase *with, CheckList *list, const KitLine *k)
{
    const int set = stage_time_named(k->history, "panels set");
    if (set < 0 || set > k->before_jack) return;
    const Asked tension = {"girder tension with the panels on",
                           "AASHTO LRFD 5.9.2.3.1b (from memory)",
                           set,
                           k->before_jack,
                           1,
                           0,
                           0,
                           NULL,
                           NULL};
    const Asked pressed = {"girder compression with the panels on",
                           "AASHTO LRFD 5.9.2.3.1a (from memory)",
                           set,
                           k->before_jack,
                           -1,
                           0,
                           0,
                           NULL,
                           NULL};
    add_row(with, list, k, &tension,
            &(Limit){0, "criteria.girder_tension", 0, "tension allowed before losses end", NULL});
    add_row(with, list, k, &pressed,
            &(Limit){least_strength_Pa(k, set), "criteria.girder_compression", 0,
                     "strength when the panels are set, at most the specified one", NULL});
}

static void add_jacking(const CheckCase *with, CheckList *list, const KitLine *k)
{
    const Asked tension = {"girder tension while jacked",
                           "AASHTO LRFD 5.9.2.3.1b (from memory)",
                           k->jacked,
                           k->bonded,
                           1,
                           0,
                           0,
                           NULL,
                           NULL};
    const Asked pressed = {"girder compression while jacked",
                           "AASHTO LRFD 5.9.2.3.1a (from memory)",
                           k->jacked,
                           k->bonded,
                           -1,
                           0,
                           0,
                           NULL,
                           NULL};
    add_row(with, list, k, &tension,
            &(Limit){0, "criteria.girder_tension", 0, "tension allowed while the jacks act", NULL});
    add_row(with, list, k, &pressed,
            &(Limit){kit_value(with, "concrete.girder.strength"), "criteria.girder_compression", 0,
                     "strength", "concrete.girder.strength"});
}

static void add_service(const CheckCase *with, CheckList *list, const KitLine *k)
{
    const double strength_Pa = kit_value(with, "concrete.girder.strength");
    const double gradient_1 = kit_value(with, "criteria.girder_gradient");
    const Asked permanent = {"girder compression, permanent loads",
                             "AASHTO LRFD 5.9.2.3.2a (from memory)",
                             k->opening,
                             k->end,
                             -1,
                             0,
                             0,
                             NULL,
                             NULL};
    const Asked pressed = {"girder compression in service",
                           "AASHTO LRFD 5.9.2.3.2a, Service I (from memory)",
                           k->opening,
                           k->end,
                           -1,
                           1,
                           gradient_1,
                           NULL,
                           "criteria.girder_gradient"};
    const Asked tension = {"girder tension in service",
                           "AASHTO LRFD 5.9.2.3.2b, Service III (from memory)",
                           k->opening,
                           k->end,
                           1,
                           kit_value(with, "criteria.girder_service_live"),
                           gradient_1,
                           "criteria.girder_service_live",
                           "criteria.girder_gradient"};
    add_row(with, list, k, &permanent,
            &(Limit){strength_Pa, "criteria.girder_permanent", 0, "strength",
                     "concrete.girder.strength"});
    add_row(with, list, k, &pressed,
            &(Limit){strength_Pa, "criteria.girder_service", 0, "strength",
                     "concrete.girder.strength"});
    add_row(with, list, k, &tension,
            &(Limit){0, "criteria.girder_service_tension", 0, "tension allowed in service", NULL});
}

Status check_concrete_stress(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    if (with->shared->steel) return STATUS_OK;
    for (int i = 0; i < with->shared->count; i++) {
        add_transfer(with, list, &with->shared->line[i]);
        add_erected(with, list, &with->shared->line[i]);
        add_jacking(with, list, &with->shared->line[i]);
        add_service(with, list, &with->shared->line[i]);
    }
    return STATUS_OK;
}
