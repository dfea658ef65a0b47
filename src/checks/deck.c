/* Compression of the deck: while jacked, under permanent loads, in service. Each place is held against
 * the strength that its own concrete has on that day, at most f'c. */
#include <math.h>

#include "cite.h"
#include "fibre.h"
#include "table.h"
#include "values.h"

/* A compression against a share of a strength. */
typedef struct Limited {
    const char *name, *factor, *clause;
} Limited;

typedef struct Pressed {
    double permanent_Pa, live_Pa, gradient_Pa; /* tension positive */
    bool cold;                                 /* the gradient that counts is the negative one */
    double strength_Pa;
    int station, side, joint, time; /* joint -1: a station */
    bool top, there;
} Pressed;

static double pressure_Pa(const Pressed *p)
{
    return fmax(0, -(p->permanent_Pa + p->live_Pa + p->gradient_Pa));
}

static void take(Pressed one, Pressed *worst)
{
    if (!(one.strength_Pa > 0)) return;
    one.there = true;
    if (!worst->there ||
        pressure_Pa(&one) / one.strength_Pa > pressure_Pa(worst) / worst->strength_Pa)
        *worst = one;
}

static void write_row(const CheckCase *with, CheckList *list, const KitLine *k,
                      const Limited *limit, const Pressed *p, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    sheet_given_from(s, "f'c", p->strength_Pa, u->stress,
                     "strength of that concrete on that day, at most the specified one", from_time);
    value_give(s, with, "k_c", limit->factor, "", "share of the strength");
    sheet_formula(s, "f_lim", "k_c f'c", u->stress, "largest compression allowed", limit->clause);
    sheet_formula(s, "r", "f_c / f_lim", "", "demand over capacity", NULL);
    CheckRow *row =
        check_add(list, with, s, limit->name, pressure_Pa(p), sheet_SI(s, "f_lim"), DIM_STRESS);
    const char *place = p->joint >= 0 ? k->line->joint[p->joint].mark : kit_x(with, k, p->station);
    check_place(row, k->name, arena_printf(with->arena, "%s, %s", place, p->top ? "top" : "soffit"),
                kit_when(with, k, p->time), limit->clause);
}

static void add_scan(const CheckCase *with, CheckList *list, const KitLine *k, int from, int to,
                     const Limited *limit)
{
    Pressed worst = {.there = false};
    for (int t = from; t <= to; t++)
        for (int i = 0; i < k->model->station_count; i++)
            for (int side = -1; side <= 1; side += 2) {
                FibreStress at;
                if (kit_in_gap(k, i, side) ||
                    !stage_stress(k->history, t, CHAIN_DECK, i, side, &at))
                    continue;
                Pressed one = {.station = i, .side = side, .joint = -1, .time = t};
                one.strength_Pa = kit_strength_Pa(k, t, CHAIN_DECK, i, side);
                one.permanent_Pa = at.bottom_Pa;
                take(one, &worst);
                one.permanent_Pa = at.top_Pa;
                one.top = true;
                take(one, &worst);
            }
    if (!worst.there) return;
    Sheet s = kit_sheet(with, k, limit->name);
    const Fibre at = {CHAIN_DECK, worst.station, worst.side, worst.time, worst.top};
    fibre_write(&s, with, k, &at, "f_c", -1,
                worst.top ? "largest compression of a panel, at its top"
                          : "largest compression of a panel, at its soffit");
    write_row(with, list, k, limit, &worst, &s);
}

/* ---- in service: at the joints, where live load and gradient are known ---- */

static void try_joint(const KitLine *k, Pressed one, int side, Pressed *worst)
{
    for (int late = 0; late < 2; late++) {
        const JointLoad *load =
            &(late ? k->answer->end : k->answer->open)[2 * one.joint + (side > 0)];
        FibreStress at;
        one.station = thrust_joint_station(k->line, one.joint);
        one.side = side;
        one.time = late ? k->end : k->opening;
        if (!load->there || !stage_stress(k->history, one.time, CHAIN_DECK, one.station, side, &at))
            continue;
        const double cold = one.top ? load->cold_top_Pa : load->cold_bottom_Pa;
        const double warm = one.top ? load->warm_top_Pa : load->warm_bottom_Pa;
        one.strength_Pa = kit_strength_Pa(k, one.time, CHAIN_DECK, one.station, side);
        one.permanent_Pa = one.top ? at.top_Pa : at.bottom_Pa;
        one.live_Pa = one.top ? load->live_top_min_Pa : load->live_bottom_min_Pa;
        one.gradient_Pa = 0.5 * fmin(0, fmin(cold, warm));
        one.cold = cold <= warm;
        take(one, worst);
    }
}

static void write_loads(const CheckCase *with, const KitLine *k, const Pressed *p, Sheet *s)
{
    Cite cite = {.k = k,
                 .effect = {CHAIN_DECK, p->station, p->side, p->top},
                 .late = p->time == k->end,
                 .load = &k->line->live,
                 .sign = -1,
                 .positive = -1};
    cite_stress(s, with, &cite, "f_1", "of one lane of live load with impact");
    give_lanes(s, with, k);
    cite.load = NULL;
    if (p->gradient_Pa < 0) cite.gradient = p->cold ? &k->line->cold : &k->line->warm;
    cite_gradient(s, with, &cite);
}

static void add_service(const CheckCase *with, CheckList *list, const KitLine *k,
                        const Limited *limit)
{
    const char *unit = with->shared->unit.stress;
    Pressed worst = {.there = false};
    for (int j = 0; j < k->line->joint_count; j++)
        for (int side = -1; side <= 1; side += 2)
            for (int top = 0; top < 2; top++)
                if (thrust_joint_side(k->line, j) != -side)
                    try_joint(k, (Pressed){.joint = j, .top = top}, side, &worst);
    if (!worst.there) return;
    Sheet s = kit_sheet(with, k, limit->name);
    const Fibre at = {CHAIN_DECK, worst.station, worst.side, worst.time, worst.top};
    fibre_write(&s, with, k, &at, "f_p", -1, "compression under permanent loads");
    write_loads(with, k, &worst, &s);
    sheet_formula(&s, "f_c", "max(f_p + g_m f_1 + f_TG / 2, 0)", unit,
                  "compression in service, half the gradient", NULL);
    write_row(with, list, k, limit, &worst, &s);
}

Status check_deck_compression(const CheckCase *with, CheckList *list, Error *err)
{
    static const Limited jacking = {"deck compression at jacking", "criteria.deck_jacking",
                                    "AASHTO LRFD 5.9.2.3.1a (from memory)"};
    static const Limited permanent = {"deck compression, permanent loads",
                                      "criteria.deck_permanent",
                                      "AASHTO LRFD 5.9.2.3.2a (from memory)"};
    static const Limited service = {"deck compression in service", "criteria.deck_service",
                                    "AASHTO LRFD 5.9.2.3.2a (from memory)"};
    (void)err;
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        add_scan(with, list, k, k->jacked, k->bonded, &jacking);
        add_scan(with, list, k, k->opening, k->end, &permanent);
        add_service(with, list, k, &service);
    }
    return STATUS_OK;
}
