/* The working of what live load brings to connectors: change of the deck's force from its influence line, and V Q/I
 * or M Q/I of full interaction, which is the least that counts. */
#include "cite.h"
#include "pockets.h"

static const char steiner[] = "closed form: parallel axes, elastic moduli of opening";
static const char superposed[] = "AASHTO LRFD 3.6 (from memory); the larger of both";

static void write_section(Sheet *s, const KitLine *k, const PocketSection *p)
{
    sheet_given_from(s, "A_g", p->girder->area_m2, "in^2", "girder, area", from_sections);
    sheet_given_from(s, "I_g", p->girder->inertia_m4, "in^4", "girder, second moment of area",
                     from_sections);
    sheet_given_from(s, "y_g", p->girder->bottom_m, "in", "its centroid above the soffit",
                     from_sections);
    sheet_given_from(s, "b_d", p->width_m, "in", "deck on the line", from_width(k));
    sheet_given_from(s, "t_d", p->deck_m, "in", "deck that carries", from_thickness);
    sheet_given_from(s, "y_d", p->above_m, "in",
                     "its middle above the soffit: girder, haunch, deck",
                     "girder, haunch and half of the deck");
    sheet_given_from(s, "E_g", p->girder_Pa, "ksi", "girder, modulus at opening", from_time);
    sheet_given_from(s, "E_d", p->deck_Pa, "ksi", "deck, modulus at opening", from_time);
    sheet_formula(s, "n_E", "E_g / E_d", "", "modular ratio", "closed form");
    sheet_formula(s, "y_C", "(n_E A_g y_g + b_d t_d y_d) / (n_E A_g + b_d t_d)", "in",
                  "centroid of both", steiner);
    sheet_formula(s, "I_C",
                  "n_E (I_g + A_g (y_C - y_g)^2) + b_d t_d^3 / 12 + b_d t_d (y_d - y_C)^2", "in^4",
                  "second moment of both in deck material", steiner);
    sheet_formula(s, "q", "b_d t_d (y_d - y_C) / I_C", "1/in",
                  "first over second moment: the deck's force over the moment",
                  "closed form: full interaction");
}

/* Both extremes of an effect of one lane as `name`_a and `name`_b. */
static void cite_both(Sheet *s, const CheckCase *with, Cite cite, char name, const char *words)
{
    const char symbol[2][4] = {{name, '_', 'a', 0}, {name, '_', 'b', 0}};
    cite.positive = 1;
    const char *unit = cite.other->kind == LIVE_MOMENT ? "kip*in" : "kip";
    for (int i = 0; i < 2; i++) {
        cite.sign = i ? -1 : 1;
        cite_effect(s, with, &cite, symbol[i], unit, i ? "the same, least" : words);
    }
}

static void write_lines(Sheet *s, const CheckCase *with, const KitLine *k, const PocketForce *f,
                        const LiveLoad *load)
{
    const bool pocket = f->kind == POCKET;
    const LiveEffect whole = {pocket ? LIVE_SHEAR : LIVE_MOMENT, .at = f->station, .side = 1};
    const Cite cite = {.k = k, .load = load, .other = &f->deck};
    Cite full = cite;
    full.other = &whole;
    if (pocket) {
        sheet_given_from(s, "s_p", f->to_m - f->from_m, "in", "tributary length",
                         "connectors.spacing, at most the panel");
        sheet_given_from(s, "l_p", kit_middle_m(k, f->deck.to) - kit_middle_m(k, f->deck.at), "in",
                         "length that the influence line is of", "between the middles of elements");
    }
    cite_both(s, with, cite, 'N', "change of the deck's force, one lane with impact, most");
    if (pocket)
        cite_both(s, with, full, 'V', "shear of girder and deck, one lane with impact, most");
    else
        cite_both(s, with, full, 'M', "moment at the inner face, one lane with impact, most");
    const PocketSection section = pocket_section(k, f->station);
    write_section(s, k, &section);
}

/* Of full interaction shear and moment press the deck where they are positive: N = -M q. */
void pocket_write_live(Sheet *s, const CheckCase *with, const KitLine *k, const PocketForce *f)
{
    static const char *const most[] = {"g_v max(N_a s_p / l_p, -V_b q s_p)", "g_v max(N_a, -M_b q)",
                                       "g_v max(N_a, M_a q)"};
    static const char *const least[] = {"g_v min(N_b s_p / l_p, -V_a q s_p)",
                                        "g_v min(N_b, -M_a q)", "g_v min(N_b, M_b q)"};
    write_lines(s, with, k, f, &k->line->live);
    give_shear_lanes(s, with, k);
    sheet_formula(s, "F_c", most[f->kind], "kip", "live load, most", superposed);
    sheet_formula(s, "F_d", least[f->kind], "kip", "live load, least", superposed);
}

void pocket_write_fatigue(Sheet *s, const CheckCase *with, const KitLine *k, const PocketForce *f)
{
    static const char source[] = "AASHTO LRFD 3.6.1.4 (from memory); the larger of both";
    write_lines(s, with, k, f, &k->fatigue);
    give_fatigue_shear_lanes(s, with, k);
    if (f->kind != POCKET) {
        sheet_formula(s, "F_r", "g_vf max(N_a - N_b, (M_a - M_b) q)", "kip",
                      "range under the fatigue truck, 15 % in: all of the panel's force", source);
        return;
    }
    if (f->over_1 == 1) {
        sheet_formula(s, "F_r", "g_vf max((N_a - N_b) s_p / l_p, (V_a - V_b) q s_p)", "kip",
                      "range under the fatigue truck, 15 % in", source);
        return;
    }
    sheet_given_from(s, "L_a", f->over_1 * (f->to_m - f->from_m), "in",
                     "length of the anchor panel", "layout of the panels");
    sheet_formula(s, "F_r", "g_vf max((N_a - N_b) / l_p, (V_a - V_b) q) L_a", "kip",
                  "range under the fatigue truck, 15 % in: the largest shear flow inside the panel "
                  "over all of it",
                  source);
}
