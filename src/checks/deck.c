/* Compression of the deck: while jacked, under permanent loads, in service. */
#include <math.h>

#include "kit.h"
#include "table.h"

/* One stress against a share of a strength. */
typedef struct Limited {
    const char *name, *factor, *strength_words, *clause;
    double strength_Pa;
} Limited;

static CheckRow *add_row(const CheckCase *with, CheckList *list, const KitLine *k, Sheet *s,
                         const Limited *limit, double demand_Pa)
{
    const KitUnits *u = &with->shared->unit;
    sheet_given(s, "f'c", limit->strength_Pa, u->stress, limit->strength_words);
    sheet_given(s, "k_c", kit_value(with, limit->factor), "", "share of the strength");
    sheet_formula(s, "f_lim", "k_c f'c", u->stress, "largest compression allowed", limit->clause);
    sheet_formula(s, "r", "f_c / f_lim", "", "demand over capacity", NULL);
    (void)k;
    return check_add(list, with, s, limit->name, demand_Pa, sheet_SI(s, "f_lim"), DIM_STRESS);
}

static void add_scan(const CheckCase *with, CheckList *list, const KitLine *k, int from, int to,
                     const Limited *limit)
{
    const KitStress worst = kit_worst_stress(k, CHAIN_DECK, from, to, -1, true, true);
    if (!worst.there) return;
    Sheet s = kit_sheet(with, k, limit->name);
    sheet_given(&s, "f_c", fmax(0, -worst.value_Pa), with->shared->unit.stress,
                worst.top ? "largest compression of a panel, at its top"
                          : "largest compression of a panel, at its soffit");
    CheckRow *row = add_row(with, list, k, &s, limit, fmax(0, -worst.value_Pa));
    check_place(row, k->name, kit_x(with, k, worst.station), kit_when(with, k, worst.time),
                limit->clause);
}

/* At the joints, where live load and gradient are known. */
typedef struct Service {
    double permanent_Pa, live_Pa, gradient_Pa;
    int joint, time;
    bool top, there;
} Service;

static void try_joint(const KitLine *k, Service one, int side, double gradient_1, Service *worst)
{
    for (int late = 0; late < 2; late++) {
        const JointLoad *load =
            &(late ? k->answer->end : k->answer->open)[2 * one.joint + (side > 0)];
        FibreStress at;
        one.time = late ? k->end : k->opening;
        if (!load->there || !stage_stress(k->history, one.time, CHAIN_DECK,
                                          k->line->joint[one.joint].station, side, &at))
            continue;
        one.permanent_Pa = one.top ? at.top_Pa : at.bottom_Pa;
        one.live_Pa = one.top ? load->live_top_min_Pa : load->live_bottom_min_Pa;
        one.gradient_Pa =
            gradient_1 * fmin(0, one.top ? fmin(load->cold_top_Pa, load->warm_top_Pa)
                                         : fmin(load->cold_bottom_Pa, load->warm_bottom_Pa));
        if (!worst->there || one.permanent_Pa + one.live_Pa + one.gradient_Pa <
                                 worst->permanent_Pa + worst->live_Pa + worst->gradient_Pa)
            *worst = one;
        worst->there = true;
    }
}

static void add_service(const CheckCase *with, CheckList *list, const KitLine *k,
                        const Limited *limit)
{
    const char *unit = with->shared->unit.stress;
    Service worst = {.there = false};
    for (int j = 0; j < k->line->joint_count; j++)
        for (int side = -1; side <= 1; side += 2)
            for (int top = 0; top < 2; top++)
                if (thrust_joint_side(k->line, j) != -side)
                    try_joint(k, (Service){.joint = j, .top = top}, side, 0.5, &worst);
    if (!worst.there) return;
    Sheet s = kit_sheet(with, k, limit->name);
    sheet_given(&s, "f_p", -worst.permanent_Pa, unit, "compression under permanent loads");
    sheet_given(&s, "f_LL", -worst.live_Pa, unit, "of live load with impact, compression");
    sheet_given(&s, "f_TG", -worst.gradient_Pa, unit, "of half the temperature gradient");
    sheet_formula(&s, "f_c", "f_p + f_LL + f_TG", unit, "compression in service", NULL);
    CheckRow *row = add_row(with, list, k, &s, limit, fmax(0, sheet_SI(&s, "f_c")));
    check_place(row, k->name,
                arena_printf(with->arena, "%s, %s", k->line->joint[worst.joint].mark,
                             worst.top ? "top" : "soffit"),
                kit_when(with, k, worst.time), limit->clause);
}

Status check_deck_compression(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        const Limited jacking = {"deck compression at jacking", "criteria.deck_jacking",
                                 "strength of the younger panels on the day of jacking",
                                 "AASHTO LRFD 5.9.2.3.1a (from memory)",
                                 k->line->deck_jacking_strength_Pa};
        const Limited permanent = {"deck compression, permanent loads", "criteria.deck_permanent",
                                   "strength of the panels", "AASHTO LRFD 5.9.2.3.2a (from memory)",
                                   k->line->deck_strength_Pa};
        const Limited service = {"deck compression in service", "criteria.deck_service",
                                 "strength of the panels", "AASHTO LRFD 5.9.2.3.2a (from memory)",
                                 k->line->deck_strength_Pa};
        add_scan(with, list, k, k->jacked, k->bonded, &jacking);
        add_scan(with, list, k, k->opening, k->end, &permanent);
        add_service(with, list, k, &service);
    }
    return STATUS_OK;
}
