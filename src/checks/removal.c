/* What a later cut through the deck releases: the force, and the camber that comes or goes with it.
 * Whoever replaces a panel or the deck must know both from the as-built record. */
#include <math.h>

#include "spans.h"
#include "table.h"
#include "values.h"

/* Largest compression of the deck at its joints. */
static double largest_N(const KitLine *k, int time, int *joint)
{
    double largest = 0;
    for (int j = 0; j < k->line->joint_count; j++) {
        const int only = thrust_joint_side(k->line, j);
        const double N =
            stage_deck_compression_N(k->history, time, k->line->joint[j].station, only ? only : 1);
        if (N <= largest) continue;
        largest = N;
        *joint = j;
    }
    return largest;
}

static void tell_force(const CheckCase *with, CheckList *list, const KitLine *k)
{
    const char *unit = with->shared->unit.force;
    int joint = 0;
    Sheet s = kit_sheet(with, k, "force that a cut through the deck releases");
    sheet_given_from(&s, "N_t", largest_N(k, k->jacked, &joint), unit, "in the deck when jacked",
                     from_stages);
    sheet_given_from(&s, "N_e", largest_N(k, k->end, &joint), unit, "at the end of life",
                     from_stages);
    sheet_given_from(&s, "N_o", largest_N(k, k->opening, &joint), unit, "at opening", from_stages);
    sheet_formula(&s, "N_r", "max(N_o, N_e)", unit,
                  "released by a cut across this line: to be held by jacks or tendons before",
                  NULL);
    CheckRow *row = check_tell(list, with, &s, "force that a cut through the deck releases",
                               sheet_SI(&s, "N_r"), DIM_FORCE);
    check_place(row, k->name, k->line->joint[joint].mark, "in service", NULL);
}

/* Steel forgets nothing and creeps not: without its deck it goes back to where it was erected. */
static void tell_steel(const CheckCase *with, CheckList *list, const KitLine *k, const Span *span,
                       int number)
{
    const int erected = stage_time_named(k->history, "girders erected");
    const char *unit = bridge_units(with->bridge) == UNITS_US ? "in" : "mm";
    if (erected < 0) return;
    Sheet s = kit_sheet(with, k, "camber after removal of the deck");
    sheet_given_from(&s, "v_e", span_camber_m(k, erected, span), unit, "girder as erected",
                     from_stages);
    sheet_given_from(&s, "v_s", span_camber_m(k, k->end, span), unit, "at the end of life",
                     from_stages);
    sheet_formula(&s, "dv", "v_e - v_s", unit,
                  "change when deck, barriers and overlay are taken away: steel is elastic",
                  "law: elastic steel on the same supports");
    CheckRow *row = check_tell(list, with, &s, "camber change when the deck is removed",
                               sheet_SI(&s, "dv"), DIM_LENGTH);
    check_place(row, k->name, arena_printf(with->arena, "mid-span %d", number), "end of life",
                NULL);
}

static double modulus_of_girder_Pa(const KitLine *k, int part, int time)
{
    const Material *law = &k->model->material[k->model->part[part].material];
    if (law->kind != MATERIAL_CONCRETE) return law->E_Pa;
    return concrete_modulus_Pa(&law->mix, k->history->day[time] - law->cast_day);
}

/* Simple span of concrete: closed forms with the gross section and the deck's force at mid-span. */
static void tell_concrete(const CheckCase *with, CheckList *list, const KitLine *k,
                          const Span *span)
{
    const KitUnits *u = &with->shared->unit;
    const int part = kit_girder_part(k, k->end, span->middle, 1);
    if (part < 0) return;
    const PartSection *girder = &k->model->section[k->model->part[part].section];
    const KitMoment *m = &k->moment[2 * span->middle + 1];
    const int transfer = stage_time_named(k->history, "transfer");
    Sheet s = kit_sheet(with, k, "camber change when the deck is removed");
    sheet_given_from(&s, "N_d", stage_deck_compression_N(k->history, k->end, span->middle, 1),
                     u->force, "compression of the deck at mid-span, end of life", from_stages);
    sheet_given_from(&s, "e", girder->top_m + k->model->haunch_m + k->model->deck_thickness_m / 2,
                     u->length, "girder centroid to deck middle",
                     "section properties: to top, haunch, half of the deck");
    sheet_given_from(&s, "L", span->to_m - span->from_m, u->length, "span",
                     "spans, between bearings");
    sheet_given_from(&s, "E", modulus_of_girder_Pa(k, part, k->end), u->stress,
                     "modulus of the girder", from_time);
    sheet_given_from(&s, "I", girder->inertia_m4, u->inertia, "second moment of the girder, gross",
                     from_sections);
    sheet_given_from(&s, "M_r",
                     m->dead_Nm + m->wearing_Nm -
                         (transfer < 0 ? 0 : kit_weight_Nm(k, transfer, span->middle)),
                     u->moment, "moment at mid-span of what is removed", from_stages);
    sheet_formula(&s, "v_P", "-N_d e L^2 / (8 * E I)", u->length, "drop as the compression leaves",
                  "closed form: constant moment");
    sheet_formula(&s, "v_w", "5 * M_r L^2 / (48 * E I)", u->length, "rise as the weight leaves",
                  "closed form: uniform load");
    sheet_formula(&s, "dv", "v_P + v_w", u->length, "both", NULL);
    CheckRow *row = check_tell(list, with, &s, "camber change when the deck is removed",
                               sheet_SI(&s, "dv"), DIM_LENGTH);
    check_place(row, k->name, "mid-span", "end of life", NULL);
}

Status check_removal(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        Span span[SPANS_MAX];
        const int count = spans_of(k, span);
        tell_force(with, list, k);
        for (int n = 0; n < count && with->shared->steel; n++)
            tell_steel(with, list, k, &span[n], n + 1);
        if (count == 1 && !with->shared->steel) tell_concrete(with, list, k, &span[0]);
    }
    return STATUS_OK;
}
