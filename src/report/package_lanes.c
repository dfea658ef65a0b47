/* The package: lanes of live load on a girder line, and how the lines share the thrust. */
#include <math.h>
#include <string.h>

#include "document.h"

static const char moment[] = "AASHTO LRFD table 4.6.2.2.2b-1 (from memory)";
static const char shear[] = "AASHTO LRFD table 4.6.2.2.3a-1 (from memory)";
static const char outer[] = "AASHTO LRFD 4.6.2.2.2d and 3b (from memory)";
static const char rigid[] = "AASHTO LRFD C4.6.2.2.2d-1 (from memory)";
static const char lever[] = "AASHTO LRFD C4.6.2.2.1 (from memory): deck hinged at the girders";

/* ---- what goes in ---- */

static void write_stiffness(Sheet *s, const LineSharing *l)
{
    sheet_given_from(s, "n", l->modular_1, "", "moduli of girder and deck at 28 days",
                     "section properties");
    sheet_given_from(s, "A", l->area_m2, "in^2", "girder near the middle of the first span",
                     "section properties");
    sheet_given_from(s, "I", l->inertia_m4, "in^4", "its second moment", "section properties");
    sheet_given_from(s, "e_g", l->apart_m, "in", "its centroid to the deck's middle",
                     "section properties");
    sheet_formula(s, "K_g", "n (I + A e_g^2)", "in^4", "stiffness",
                  "AASHTO LRFD 4.6.2.2.1-1 (from memory)");
    sheet_empirical(s, "k", "K_g / (12 L t^3)", "", "as the formulas have it", moment);
}

static void write_inputs(Sheet *s, const LineSharing *l)
{
    const Distribution *const in = &l->in;
    sheet_given_from(s, "N_b", in->girder_count, "", "girders", "girders.count");
    sheet_given_from(s, "w_r", in->roadway_m, "ft", "roadway",
                     "deck.width less both loads.barrier_width");
    sheet_given_from(s, "N_L", l->found.lane_count, "", "design lanes on it",
                     "AASHTO LRFD 3.6.1.1.1 (from memory): w_r / 12, two from 20 ft on");
    if (in->kind == CROSS_STEEL_BOX) return;
    sheet_given_from(s, "S", in->spacing_m, "ft", "between girders", "girders.spacing");
    sheet_given_from(s, "L", in->span_m, "ft", "shortest span of the unit", "spans");
    sheet_given_from(s, "t", in->deck_thickness_m, "in", "deck that carries",
                     "deck.thickness less deck.wearing_allowance");
    write_stiffness(s, l);
}

/* ---- I-girders and bulb-tees ---- */

/* Of three girders the lever rule bounds the formulas: AASHTO LRFD, the same tables, row Nb = 3. */
static bool few(const LineSharing *l) { return l->in.girder_count <= 3; }

static void write_few(Sheet *s, const LineSharing *l)
{
    const DistributionFactors *const f = &l->found;
    static const char words[] =
        "three girders: at most the lever rule, wheels where they are worst";
    if (!few(l)) return;
    sheet_given_from(s, "g_1", f->interior_moment_one_1, "", words, lever);
    sheet_given_from(s, "v_1", f->interior_shear_one_1, "", words, lever);
    if (f->lane_count < 2) return;
    sheet_given_from(s, "g_2", f->interior_moment_many_1, "", words, lever);
    sheet_given_from(s, "v_2", f->interior_shear_many_1, "", words, lever);
}

static void write_interior(Sheet *s, const LineSharing *l)
{
    const bool many = l->found.lane_count > 1;
    sheet_empirical(s, "g_1", "0.06 + (S / 14)^0.4 (S / L)^0.3 k^0.1", "",
                    "moment, one lane, presence in", moment);
    sheet_empirical(s, "v_1", "0.36 + S / 25", "", "shear, one lane, presence in", shear);
    sheet_empirical(s, "g_2", many ? "0.075 + (S / 9.5)^0.6 (S / L)^0.2 k^0.1" : "0 g_1", "",
                    "moment, two lanes or more", moment);
    sheet_empirical(s, "v_2", many ? "0.2 + S / 12 - (S / 35)^2" : "0 v_1", "",
                    "shear, two lanes or more", shear);
    write_few(s, l);
}

static void write_skew(Sheet *s, const LineSharing *l)
{
    sheet_given_from(s, "s_v", l->skew_shear_1, "",
                     "shear at the obtuse corner: 1 + 0.2 k^-0.3 tan(skew)",
                     "AASHTO LRFD table 4.6.2.2.3c-1");
}

static void write_interior_line(Sheet *s)
{
    sheet_formula(s, "g_m", "max(g_1, g_2)", "", "lanes for moment", moment);
    sheet_formula(s, "g_v", "s_v max(v_1, v_2)", "", "lanes for shear", shear);
    sheet_formula(s, "g_f", "min(g_1 / 1.2, g_m)", "", "one truck, moment, presence taken out",
                  "AASHTO LRFD 3.6.1.1.2 (from memory)");
    sheet_formula(s, "g_vf", "s_v min(v_1 / 1.2, max(v_1, v_2))", "",
                  "one truck, shear, presence taken out", "AASHTO LRFD 3.6.1.1.2 (from memory)");
}

/* Worst number of lanes on a cross-section that stays straight, as line R. */
static void write_rigid(Sheet *s, const LineSharing *l)
{
    Text sum = text_start(s->arena);
    sheet_given_from(s, "w_l",
                     l->in.roadway_m < 24 * 0.3048 ? l->in.roadway_m / l->found.lane_count
                                                   : 12 * 0.3048,
                     "ft", "width of a lane", "AASHTO LRFD 3.6.1.1.1 (from memory)");
    sheet_formula(s, "X", "(N_b - 1) S / 2", "ft", "exterior girder from the middle",
                  "closed form");
    sheet_formula(s, "Q", "S^2 N_b (N_b^2 - 1) / 12", "ft^2", "sum of the squares of x",
                  "closed form: equal spacing");
    const int lanes = l->found.lane_count < 8 ? l->found.lane_count : 8;
    for (int n = 1; n <= lanes; n++) {
        char symbol[8];
        snprintf(symbol, sizeof symbol, "R_%d", n);
        text_printf(&sum, "%sX + d_e - %d * w_l - 5 [ft]", n > 1 ? " + " : "", n - 1);
        sheet_formula(
            s, symbol,
            arena_printf(s->arena, "%.2f (%d / N_b + X (%s) / Q)", traffic_presence_1(n), n,
                         sum.bytes),
            "", arena_printf(s->arena, "%d lanes, trucks 2 ft from the edge of theirs", n), rigid);
    }
}

static void write_most_rigid(Sheet *s, const LineSharing *l)
{
    const int lanes = l->found.lane_count < 8 ? l->found.lane_count : 8;
    sheet_formula(s, "R", "R_1", "", "the worst of them", rigid);
    for (int n = 2; n <= lanes; n++)
        sheet_formula(s, "R", arena_printf(s->arena, "max(R, R_%d)", n), "", "the worst of them",
                      rigid);
}

static void write_exterior_line(Sheet *s, const LineSharing *l)
{
    const DistributionFactors *const f = &l->found;
    sheet_given_from(s, "d_e", l->in.overhang_m - l->in.barrier_width_m, "ft",
                     "exterior girder to the face of the barrier",
                     "girders.overhang less loads.barrier_width");
    sheet_formula(s, "R_L",
                  "1.2 (max(S + d_e - 2 [ft], 0 [ft]) + max(S + d_e - 8 [ft], 0 [ft])) / (2 S)", "",
                  "lever rule, one lane: wheels 2 and 8 ft from the barrier", lever);
    write_rigid(s, l);
    write_most_rigid(s, l);
    sheet_empirical(s, "g_e", "(0.77 + d_e / 9.1) g_2", "", "moment, formula", outer);
    sheet_empirical(s, "v_e", "(0.6 + d_e / 10) v_2", "", "shear, formula", outer);
    if (few(l) && f->lane_count > 1) {
        sheet_given_from(s, "g_e", f->exterior_formula_1, "",
                         "three girders: at most the lever rule", lever);
        sheet_given_from(s, "v_e", f->exterior_shear_formula_1, "", "three girders: lever rule",
                         lever);
    }
    sheet_formula(s, "g_m", "max(R_L, max(R, g_e))", "", "lanes for moment", outer);
    sheet_formula(s, "g_v", "s_v max(R_L, max(R, v_e))", "", "lanes for shear", outer);
    sheet_formula(s, "R_f", "1 / N_b + X (X + d_e - 5 [ft]) / Q", "",
                  "one truck on the straight cross-section, no presence", rigid);
    sheet_formula(s, "g_f", "min(max(R_L / 1.2, R_f), g_m)", "", "one truck, moment", outer);
    sheet_formula(s, "g_vf", "s_v min(max(R_L / 1.2, R_f), max(R_L, max(R, v_e)))", "",
                  "one truck, shear", outer);
}

/* ---- boxes and tubs ---- */

static void write_boxes(Sheet *s)
{
    sheet_formula(s, "g_m", "0.05 + 0.85 * N_L / N_b + 0.425 / N_L", "", "lanes for moment",
                  moment);
    sheet_formula(s, "g_1", "0.05 + 0.85 / N_b + 0.425", "", "of one lane, presence in", moment);
    sheet_formula(s, "g_v", "s_v g_m", "", "lanes for shear: alike", shear);
    sheet_formula(s, "g_f", "min(g_1 / 1.2, g_m)", "", "one truck, presence taken out",
                  "AASHTO LRFD 3.6.1.1.2 (from memory)");
    sheet_formula(s, "g_vf", "s_v g_f", "", "one truck, shear: alike", shear);
}

static Sheet *lanes_sheet(const Report *r, const LineAnswer *line)
{
    const LineSharing *const l = &line->line->sharing;
    Sheet *const s = ARENA_NEW(r->arena, Sheet, 1);
    *s = sheet_start(arena_printf(r->arena, "Lanes on %s", document_name(r, line)), r->arena);
    write_inputs(s, l);
    write_skew(s, l);
    if (l->in.kind == CROSS_STEEL_BOX) {
        write_boxes(s);
        return s;
    }
    write_interior(s, l);
    if (strncmp(line->line->name, "exterior", 8) == 0)
        write_exterior_line(s, l);
    else
        write_interior_line(s);
    return s;
}

/* ---- share of the thrust ---- */

/* Movement of the gap per thrust of a line with a deck of width b: docs/theory.md, one span. */
static void write_flexibility(Sheet *s, const char *mark)
{
    const char *const of[] = {arena_printf(s->arena, "A_%s", mark),
                              arena_printf(s->arena, "I_%s", mark),
                              arena_printf(s->arena, "F_%s", mark)};
    sheet_formula(s, of[0], arena_printf(s->arena, "b_%s t", mark), "in^2", "its area",
                  "closed form");
    sheet_formula(s, of[1], arena_printf(s->arena, "b_%s t^3 / 12", mark), "in^4",
                  "its second moment", "closed form");
    sheet_formula(s, of[2],
                  arena_printf(s->arena,
                               "(L_a - c) / (E_d %s) + L_a / (E_g A_g) + e^2 ((L_a - c) / (E_g I_g "
                               "+ E_d %s) + c / (E_g I_g))",
                               of[0], of[1]),
                  "in/kip", "movement of the gap per thrust", "closed form: one span, no friction");
}

static Sheet *share_sheet(const Report *r, const LineAnswer *line)
{
    const LineSharing *const l = &line->line->sharing;
    const bool exterior = strncmp(line->line->name, "exterior", 8) == 0;
    const double S_m = bridge_value_at(r->source->bridge, "girders.spacing")->value;
    const double o_m = bridge_value_at(r->source->bridge, "girders.overhang")->value;
    static const char section[] = "section properties";
    Sheet *const s = ARENA_NEW(r->arena, Sheet, 1);
    *s = sheet_start(arena_printf(r->arena, "Share of the thrust of %s", document_name(r, line)),
                     r->arena);
    sheet_given_from(s, "B", bridge_value_at(r->source->bridge, "deck.width")->value, "in",
                     "width of the deck", "deck.width");
    sheet_given_from(s, "N_b", bridge_value_at(r->source->bridge, "girders.count")->value, "",
                     "girders", "girders.count");
    sheet_given_from(s, "b_i", S_m, "in", "deck on an interior line", "girders.spacing");
    sheet_given_from(s, "b_o", S_m / 2 + o_m, "in", "on an exterior one",
                     "girders.spacing / 2 + girders.overhang");
    sheet_formula(s, "r_w", exterior ? "b_o / B" : "b_i / B", "", "share by tributary width",
                  "closed form");
    sheet_given_from(s, "L_a", l->anchors_m, "in", "between the anchor panels", "layout");
    sheet_given_from(s, "c", l->gap_m, "in", "open gap", "panels.gap");
    sheet_given_from(s, "t", line->line->model.deck_thickness_m, "in", "deck that carries",
                     section);
    sheet_given_from(s, "A_g", l->area_m2, "in^2", "girder near the middle of the first span",
                     section);
    sheet_given_from(s, "I_g", l->inertia_m4, "in^4", "its second moment", section);
    sheet_given_from(s, "e", l->apart_m, "in", "its centroid to the deck's middle", section);
    sheet_given_from(s, "E_g", l->girder_Pa, "ksi", "girder at 28 days", section);
    sheet_given_from(s, "E_d", l->deck_Pa, "ksi", "deck at 28 days", section);
    write_flexibility(s, "i");
    write_flexibility(s, "o");
    sheet_formula(s, "r_s",
                  exterior ? "1 / F_o / (2 / F_o + (N_b - 2) / F_i)"
                           : "1 / F_i / (2 / F_o + (N_b - 2) / F_i)",
                  "", "share by stiffness, a deck that stays straight at the gap",
                  "law: equal movement");
    return s;
}

/* ---- the chapter ---- */

static void sheet_add(Report *r, Sheet *s)
{
    package_section(r, s->title);
    document_add(r, REPORT_SHEET, s->title)->sheet = s;
}

void package_lanes(Report *r)
{
    const ThrustAnswer *const answer = r->source->answer;
    if (!r->source->bridge) return; /* an answer without its inputs */
    document_add(r, REPORT_HEADING, "Lanes and thrust on a girder line");
    for (int i = 0; i < answer->line_count; i++) {
        if (package_seen(answer, i)) continue;
        if (answer->line[i].line->sharing.derived)
            sheet_add(r, lanes_sheet(r, &answer->line[i]));
        else
            document_add(r, REPORT_TEXT,
                         arena_printf(r->arena, "%s: the file gives the lanes.",
                                      document_name(r, &answer->line[i])));
        sheet_add(r, share_sheet(r, &answer->line[i]));
    }
}
