/* Stresses of live load and gradients, worked out once for all rows that cite them. */
#include "cite.h"

#include <math.h>
#include <string.h>

static const double nothing_Pa = 10;

struct Cited {
    Cite key;
    double stress_Pa;
    CheckWorking working;
    Cited *next;
};

static bool same(const Cite *a, const Cite *b)
{
    const StageEffect *x = &a->effect, *y = &b->effect;
    return a->k == b->k && a->late == b->late && a->load == b->load && a->gradient == b->gradient &&
           (!a->load || a->sign == b->sign) && x->chain == y->chain && x->station == y->station &&
           x->side == y->side && x->top == y->top;
}

static LiveLines *lines_of(const Cite *cite)
{
    return cite->late ? cite->k->end_live : cite->k->open_live;
}

/* ---- the sheets ---- */

static void write_section(Sheet *s, const KitUnits *u, double area_m2, double inertia_m4,
                          double y_m)
{
    sheet_given(s, "A", area_m2, u->area, "area of the part");
    sheet_given(s, "I", inertia_m4, u->inertia, "its second moment of area");
    sheet_given(s, "y", y_m, u->length, "fibre below its centroid (above: negative)");
}

/* Girder and deck as one section: what a reader's own influence line of moments gives. */
static void write_whole(Sheet *s, const KitUnits *u, const LiveWorking *w, const char *sum)
{
    if (!(w->whole_inertia_m4 > 0)) return;
    double axles_Nm = 0;
    for (int i = 0; i < w->axle_count; i++) axles_Nm += w->axle[i].load_N * w->axle[i].section_m;
    sheet_given(s, "V_S", axles_Nm, u->moment, "sum of P m_S over the axles");
    sheet_given(s, "L_S", w->lane_section_m2, u->area, "area of the line of m_S, loaded lengths");
    sheet_formula(s, "M_S", sum, u->moment, "moment of girder and deck together",
                  "law: statics, from the reactions");
    sheet_given(s, "n", w->modular_1, "", "modulus of the part over the girder's, that day");
    sheet_given(s, "I_S", w->whole_inertia_m4, u->inertia,
                "girder and deck as one section, in girder material, strands apart");
    sheet_given(s, "y_S", w->whole_y_m, u->length, "fibre below the common centroid");
    sheet_formula(
        s, "f_S", "n M_S y_S / I_S", u->stress,
        "for comparison: one plane section. The rest is slip between girder and deck, and "
        "normal force that bearings or ties hold",
        "closed form");
}

static void write_live(const CheckCase *with, const LiveWorking *w, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    double N_N = 0, M_Nm = 0;
    for (int i = 0; i < w->axle_count; i++) {
        N_N += w->axle[i].load_N * w->axle[i].N_1;
        M_Nm += w->axle[i].load_N * w->axle[i].M_m;
    }
    sheet_given(s, "V_N", N_N, u->force, "sum of P n over the axles");
    sheet_given(s, "V_M", M_Nm, u->moment, "sum of P m over the axles");
    sheet_given(s, "L_N", w->lane_N_m, u->length, "area of the line of n, loaded lengths");
    sheet_given(s, "L_M", w->lane_M_m2, u->area, "area of the line of m, loaded lengths");
    sheet_given(s, "w", w->lane_N_per_m, u->line_load, "lane load");
    sheet_given(s, "k_v", w->vehicle_1, "",
                w->train ? "1 + impact, times the factor of two trucks" : "1 + impact");
    sheet_given(s, "k_w", w->lane_1, "", "on the lane load: no impact");
    sheet_formula(s, "N", "k_v V_N + k_w w L_N", u->force, "axial force of the part, one lane",
                  "law: superposition");
    sheet_formula(s, "M", "k_v V_M + k_w w L_M", u->moment, "its moment about its own centroid",
                  "law: superposition");
    write_section(s, u, w->area_m2, w->inertia_m4, w->y_m);
    sheet_formula(s, "f", "N / A + M y / I", u->stress, "of one lane, impact in",
                  "closed form: plane section");
    write_whole(s, u, w, "k_v V_S + k_w w L_S");
}

static void write_gradient(const CheckCase *with, const GradientWorking *w, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    const bool US = bridge_units(with->bridge) == UNITS_US;
    const char *rise = US ? "delta_degF" : "delta_degC";
    const char *slope = US ? "delta_degF/in" : "delta_degC/m";
    static const char fit[] = "integral of the profile over the part's depth and width";
    sheet_given(s, "E", w->E_Pa, u->stress, "modulus of the part that day");
    sheet_given(s, "alpha", w->expansion_per_K, US ? "1/delta_degF" : "1/delta_degC", "expansion");
    sheet_given_from(s, "T_y", w->rise_K, rise, "rise at the fibre", "profile, table above");
    sheet_given_from(s, "T_m", w->mean_K, rise, "mean rise over the part", fit);
    sheet_given_from(s, "T_k", w->slope_K_per_m, slope, "growth downwards of the plane that fits",
                     fit);
    write_section(s, u, w->area_m2, w->inertia_m4, w->y_m);
    sheet_formula(s, "f_0", "-E alpha T_y", u->stress, "fibre held fast", "closed form");
    sheet_formula(s, "f_s", "f_0 + E alpha T_m + E alpha T_k y", u->stress,
                  "the part free to lengthen and to bend: in balance with itself", "closed form");
    sheet_given_from(s, "N_T", w->N_N, u->force, "what the other parts and the supports hold",
                     "structure of that day, warmed over its depth");
    sheet_given_from(s, "M_T", w->M_Nm, u->moment, "its moment about the part's centroid",
                     "structure of that day, warmed over its depth");
    sheet_formula(s, "f", "f_s + N_T / A + M_T y / I", u->stress, "of the gradient",
                  "closed form: plane section");
}

/* ---- the list ---- */

static const char *title_of(const CheckCase *with, const Cite *cite, const char *mark)
{
    const KitLine *k = cite->k;
    const StageEffect *e = &cite->effect;
    const char *part = e->chain == CHAIN_DECK ? "deck" : "girder";
    const char *place = arena_printf(with->arena, "%s: %s, %s of the %s, %s %s", mark, k->name,
                                     e->top ? "top" : "bottom", part, kit_x(with, k, e->station),
                                     e->side < 0 ? "left" : "right");
    const char *when = cite->late ? "end of life" : "opening";
    if (cite->load)
        return arena_printf(with->arena, "%s; most %s, %s, %s", place,
                            cite->sign > 0 ? "tension" : "compression", cite->load->name, when);
    return arena_printf(with->arena, "%s; %s gradient, %s", place,
                        cite->gradient == &k->line->cold ? "negative" : "positive", when);
}

static void work_out(const CheckCase *with, Cited *cited)
{
    const Cite *key = &cited->key;
    Sheet s = sheet_start(cited->working.title, with->arena);
    if (key->load) {
        LiveWorking *w = ARENA_NEW(with->arena, LiveWorking, 1);
        if (!live_working(lines_of(key), key->load, &key->effect, key->sign, w)) return;
        write_live(with, w, &s);
        cited->working.live = w;
        cited->stress_Pa = w->stress_Pa;
    } else {
        GradientWorking w;
        if (!live_gradient(lines_of(key), key->gradient, &key->effect, with->arena, &w)) return;
        write_gradient(with, &w, &s);
        cited->stress_Pa = w.stress_Pa;
    }
    if (fabs(cited->stress_Pa) < nothing_Pa) return; /* an influence line without such a part */
    Sheet *kept = ARENA_NEW(with->arena, Sheet, 1);
    *kept = s;
    cited->working.sheet = kept;
}

static const Cited *cited(const CheckCase *with, const Cite *cite)
{
    CheckShared *shared = with->shared;
    int count = 1;
    Cited **at = &shared->cited;
    for (; *at; at = &(*at)->next) {
        if (same(&(*at)->key, cite)) return *at;
        count += (*at)->working.sheet && !(*at)->key.load == !cite->load;
    }
    Cited *made = ARENA_NEW(with->arena, Cited, 1);
    const char *mark = arena_printf(with->arena, "%c%d", cite->load ? 'L' : 'G', count);
    *made = (Cited){.key = *cite, .stress_Pa = NAN};
    made->working = (CheckWorking){.mark = mark, .title = title_of(with, cite, mark)};
    work_out(with, made);
    *at = made;
    return made;
}

void cite_stress(Sheet *s, const CheckCase *with, const Cite *cite, const char *symbol,
                 const char *words)
{
    const Cited *found = cited(with, cite);
    if (!found->working.sheet) {
        sheet_given_from(s, symbol, 0, with->shared->unit.stress, words,
                         "the influence line of this fibre has no such part");
        return;
    }
    sheet_given_from(s, symbol, cite->positive * found->stress_Pa, with->shared->unit.stress, words,
                     arena_printf(s->arena, "working %s", found->working.mark));
}

void cite_gradient(Sheet *s, const CheckCase *with, const Cite *cite)
{
    if (cite->gradient)
        cite_stress(s, with, cite, "f_TG", "of the temperature gradient");
    else
        sheet_given(s, "f_TG", 0, with->shared->unit.stress,
                    "temperature gradient: none counts, or it relieves");
}

/* Live load first: L1, L2, ... G1, ... */
void cite_all(const CheckCase *with, CheckList *list)
{
    int count = 0;
    for (const Cited *c = with->shared->cited; c; c = c->next) count++;
    CheckWorking *all = ARENA_NEW(with->arena, CheckWorking, count + 1);
    for (int live = 1; live >= 0; live--)
        for (const Cited *c = with->shared->cited; c; c = c->next) {
            if ((c->key.load != NULL) != live || !c->working.sheet) continue;
            all[list->working_count++] = c->working;
            if (list->status != STATUS_OK || c->working.sheet->status == STATUS_OK) continue;
            list->status = c->working.sheet->status;
            list->err = c->working.sheet->err;
        }
    list->working = all;
}
