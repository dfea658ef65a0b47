/* Chapters of the panels' report. */
#include <math.h>
#include <string.h>

#include "panels.h"

static int length_places(const Report *r) { return r->source->units == UNITS_US ? 2 : 3; }

static int stress_places(const Report *r) { return r->source->units == UNITS_US ? 0 : 2; }

static FigureTable *table_of(Report *r, const char *caption, int columns, const char *const *head,
                             const char *numbers)
{
    FigureTable *t = figure_table_start(r->arena, caption, columns);
    for (int c = 0; c < columns; c++) figure_table_column(t, c, numbers[c] == 'n', head[c]);
    return t;
}

static const char *count(const Report *r, int number)
{
    return arena_printf(r->arena, "%d", number);
}

/* ---- kinds ---- */

static void kind_row(Report *r, FigureTable *t, const PanelPlan *plan, int k)
{
    const PanelPiece *p = &plan->piece[plan->kind[k].like];
    const PanelBody *b = &p->body;
    const int places = length_places(r);
    figure_table_row(
        t,
        (const char *[]){
            plan->kind[k].name, count(r, plan->kind[k].count),
            panels_number(r, p->cast_m, DIM_LENGTH, places),
            panels_number(r, b->longest_m, DIM_LENGTH, places),
            panels_number(r, b->shortest_m, DIM_LENGTH, places),
            panels_number(r, fmax(b->left_edge_m, b->right_edge_m), DIM_LENGTH, 2),
            panels_number(r, b->area_m2, DIM_AREA, r->source->units == UNITS_US ? 0 : 1),
            panels_number(r, b->net_m3, DIM_VOLUME, 2), panels_number(r, p->weight_N, DIM_FORCE, 1),
            panels_number(r, b->net_x_m - p->shape.left_m, DIM_LENGTH, places),
            panels_number(r, b->net_z_m, DIM_LENGTH, places), count(r, p->pocket_count),
            count(r, p->blockout_count)});
}

static void yard_row(Report *r, FigureTable *t, const PanelPlan *plan, int k)
{
    const PanelPiece *p = &plan->piece[plan->kind[k].like];
    const int places = length_places(r);
    figure_table_row(
        t, (const char *[]){plan->kind[k].name, p->mark,
                            p->anchor ? "anchor panel"
                            : !strcmp(p->left_joint, "gap") || !strcmp(p->right_joint, "gap")
                                ? "at the gap: jacks bear on it"
                                : "between panels",
                            panels_number(r, p->body.diagonal_1_m, DIM_LENGTH, places),
                            panels_number(r, p->body.diagonal_2_m, DIM_LENGTH, places),
                            panels_number(r, p->body.haul_m, DIM_LENGTH, 2),
                            panels_number(r, p->gross_N, DIM_FORCE, 1)});
}

void panels_kinds(Report *r, const PanelSource *p)
{
    const PanelPlan *plan = p->plan;
    FigureTable *t = table_of(
        r,
        "One kind comes out of the same forms, turned round if need be. Weight and centre of "
        "gravity "
        "as lifted, pockets and blockouts empty: from the left joint at mid-width, and from "
        "mid-width to the right looking along",
        13,
        (const char *[]){
            "kind", "panels", panels_head(r, "length", DIM_LENGTH),
            panels_head(r, "long side", DIM_LENGTH), panels_head(r, "short side", DIM_LENGTH),
            panels_head(r, "across", DIM_LENGTH), panels_head(r, "area", DIM_AREA),
            panels_head(r, "concrete", DIM_VOLUME), panels_head(r, "weight", DIM_FORCE),
            panels_head(r, "centre along", DIM_LENGTH), panels_head(r, "centre across", DIM_LENGTH),
            "pockets", "holes"},
        "tnnnnnnnnnnnn");
    for (int k = 0; k < plan->kind_count; k++) kind_row(r, t, plan, k);
    document_table(r, t);
    t = table_of(
        r,
        "The same in the yard and on the road; diagonals tell whether a panel is true, the "
        "solid weight is what lifting, truck and crane are looked at with",
        7,
        (const char *[]){"kind", "first", "place", panels_head(r, "diagonal", DIM_LENGTH),
                         panels_head(r, "other one", DIM_LENGTH),
                         panels_head(r, "least width", DIM_LENGTH),
                         panels_head(r, "solid", DIM_FORCE)},
        "tttnnnn");
    for (int k = 0; k < plan->kind_count; k++) yard_row(r, t, plan, k);
    document_table(r, t);
}

/* ---- layout ---- */

static const char *chosen_words(const PanelPlan *plan)
{
    switch (plan->chosen) {
    case PANEL_LEAST_PANELS:
        return "As few panels on each side of a gap as the longest one allows, equal; where a "
               "joint "
               "would then come too near to a pier or splice, one of them shorter, or one more: "
               "fewest "
               "lifts, joints and leaks.";
    case PANEL_LEAST_KINDS:
        return "One length for as many panels as possible over the whole bridge; what is left "
               "stands "
               "in one panel, or two, beside the gap, or farther in where a joint would come too "
               "near to "
               "a pier or splice: fewest forms, and panels that the yard can cast in any bed.";
    default:
        return "Equal panels on each side of a gap, as near to panels.length as fits; from piers "
               "they stay away only where girders are tied.";
    }
}

void panels_layout(Report *r, const PanelSource *p)
{
    const PanelPlan *plan = p->plan;
    const int places = length_places(r);
    document_add(r, REPORT_TEXT, chosen_words(plan));
    document_add(
        r, REPORT_TEXT,
        arena_printf(
            r->arena,
            "The longest panel that the other two choices may take is %s, by %s. Anchor panels "
            "and gaps are as given and not counted here.",
            panels_said(r, plan->longest_allowed_m, DIM_LENGTH, places), plan->longest_by));
    FigureTable *t = table_of(
        r, "What each choice of panels.layout comes to", 6,
        (const char *[]){"choice", "panels", "lengths", panels_head(r, "shortest", DIM_LENGTH),
                         panels_head(r, "longest", DIM_LENGTH), "sides with a joint too near"},
        "tnnnnn");
    for (int c = 0; c < PANEL_CHOICE_COUNT; c++) {
        const PanelOption *o = &plan->option[c];
        figure_table_row(
            t, (const char *[]){arena_printf(r->arena, "%s%s", panels_choice((PanelChoice)c),
                                             plan->chosen == (PanelChoice)c ? ", chosen" : ""),
                                count(r, o->panels), count(r, o->kinds),
                                panels_number(r, o->shortest_m, DIM_LENGTH, places),
                                panels_number(r, o->longest_m, DIM_LENGTH, places),
                                count(r, o->too_near)});
    }
    document_table(r, t);
}

/* ---- casting ---- */

/* Marks of one phase of one filling of one bed, in their order on it. */
static const char *marks(const Report *r, const PanelPlan *plan, int cycle, int bed, int phase)
{
    Text text = text_start(r->arena);
    for (int i = 0; i < plan->piece_count; i++) {
        const PanelCast *c = &plan->piece[i].cast;
        if (c->cycle == cycle && c->bed == bed && c->phase == phase)
            text_printf(&text, "%s%s%s", text.length ? ", " : "", plan->piece[i].mark,
                        c->waits ? "*" : "");
    }
    return text.length ? text.bytes : "-";
}

static void casting_words(Report *r, const PanelPlan *plan)
{
    const PanelSets *s = &plan->sets;
    document_add(r, REPORT_TEXT,
                 arena_printf(r->arena,
                              "%d of %d flat beds of %s, used on %s at most. %s A filling takes %s "
                              "days: %s between the "
                              "phases, %s from the later one until the panels have %s and are "
                              "lifted off, %s until the "
                              "bed is ready. They stay moist until they are %s days old.",
                              s->used_beds, plan->yard.beds,
                              panels_said(r, plan->yard.bed_m, DIM_LENGTH, 0),
                              panels_said(r, s->bed_used_m, DIM_LENGTH, 0),
                              plan->matched ? "Phase 1 is every other panel, between bulkheads; "
                                              "phase 2 fills the spaces against "
                                              "their faces, so that every joint is match-cast."
                                            : "The joints are not match-cast.",
                              panels_day(r, s->cycle_day), panels_day(r, plan->lag_day),
                              panels_day(r, plan->yard.strip_day),
                              panels_said(r, plan->strip_Pa, DIM_STRESS, stress_places(r)),
                              panels_day(r, plan->yard.reset_day), panels_day(r, plan->cure_day)));
    if (plan->lag_day > 0)
        document_add(
            r, REPORT_TEXT,
            arena_printf(r->arena, "When phase 2 is cast against it, a face of phase 1 has %s.",
                         panels_said(r, plan->face_strength_Pa, DIM_STRESS, stress_places(r))));
    document_add(r, REPORT_TEXT,
                 "The calendar counts back: the last filling has the days of the bridge file, that "
                 "the engine takes for all panels; calendar days, without weekends.");
}

void panels_casting(Report *r, const PanelSource *p)
{
    const PanelPlan *plan = p->plan;
    casting_words(r, plan);
    FigureTable *t = table_of(
        r,
        "Fillings of the beds; * goes back to the head of a bed in the next filling of its run, "
        "for "
        "its neighbour to be cast against",
        7,
        (const char *[]){"filling", "bed", "phase 1", "on day", "phase 2", "on day", "off on day"},
        "nntntnn");
    for (int c = 0; c < plan->sets.cycles; c++)
        for (int bed = 0; bed < plan->sets.used_beds; bed++) {
            const char *one = marks(r, plan, c, bed, 0), *two = marks(r, plan, c, bed, 1);
            if (!strcmp(one, "-") && !strcmp(two, "-")) continue;
            const double back_day = (plan->sets.cycles - 1 - c) * plan->sets.cycle_day;
            const double last_day = fmax(plan->yard.phase_day[0], plan->yard.phase_day[1]);
            figure_table_row(
                t, (const char *[]){count(r, c + 1), count(r, bed + 1), one,
                                    panels_day(r, plan->yard.phase_day[0] - back_day), two,
                                    strcmp(two, "-") != 0
                                        ? panels_day(r, plan->yard.phase_day[1] - back_day)
                                        : "",
                                    panels_day(r, last_day + plan->yard.strip_day - back_day)});
        }
    document_table(r, t);
}

/* ---- lifting ---- */

static void lift_row(Report *r, FigureTable *t, const PanelPlan *plan, int k,
                     const PanelLiftAnswer *a)
{
    const int places = stress_places(r);
    figure_table_row(t, (const char *[]){plan->kind[k].name, a->name, count(r, a->points),
                                         panels_number(r, a->strength_Pa, DIM_STRESS, places),
                                         panels_number(r, a->stress_Pa, DIM_STRESS, places),
                                         panels_number(r, a->limit_Pa, DIM_STRESS, places),
                                         arena_printf(r->arena, "%.2f", a->stress_Pa / a->limit_Pa),
                                         panels_number(r, a->leg_N, DIM_FORCE, 1)});
}

void panels_lifting(Report *r, const PanelSource *p)
{
    const PanelPlan *plan = p->plan;
    document_add(
        r, REPORT_TEXT,
        arena_printf(
            r->arena,
            "Two rows of points along the panel, slings at %.3g degrees; stress with pockets "
            "deducted against the modulus of rupture of that day over 1.5 (no cracks), as in "
            "clench "
            "checks. More than two points across need rigging that evens them out. The rows stand "
            "about the centre of gravity, not the middle, where the two differ. Points that are "
            "not chosen in the file are those that are needed. A panel that a skew cuts is looked "
            "at as "
            "the rectangle round it: heavier and longer than it is.",
            p->lift[0].sling_degrees));
    FigureTable *t = table_of(
        r, "Lifting by kind", 8,
        (const char *[]){"kind", "when", "points in a row", panels_head(r, "strength", DIM_STRESS),
                         panels_head(r, "stress", DIM_STRESS), panels_head(r, "limit", DIM_STRESS),
                         "ratio", panels_head(r, "a sling", DIM_FORCE)},
        "ttnnnnnn");
    for (int k = 0; k < plan->kind_count; k++)
        for (int which = 0; which < PANEL_LIFT_COUNT; which++)
            lift_row(r, t, plan, k, &p->lift[k * PANEL_LIFT_COUNT + which]);
    document_table(r, t);
    bool met = true;
    for (int k = 0; k < plan->kind_count * (int)PANEL_LIFT_COUNT; k++)
        met = met && panels_lift_met(&p->lift[k]);
    if (!met)
        document_add(
            r, REPORT_TEXT,
            "Where more points in a row do not help, the panel bends between and beyond the "
            "rows: a third row with rigging that evens out, more strength on that day, or a "
            "shorter panel.");
}

void panels_workings(Report *r, const PanelSource *p)
{
    document_add(r, REPORT_HEADING, "Working of the worst lifts");
    for (int which = 0; which < PANEL_LIFT_COUNT; which++) {
        const PanelLiftAnswer *worst = panels_worst(p, (PanelLift)which);
        package_section(r, worst->name);
        document_add(r, REPORT_SHEET, worst->name)->sheet = worst->sheet;
    }
}

/* ---- closing ---- */

static void closing_row(Report *r, FigureTable *t, const PanelPlan *plan, const char *name,
                        const PanelClosing *c, double wanted_Pa)
{
    const int places = r->source->units == UNITS_US ? 0 : 3;
    figure_table_row(
        t, (const char *[]){name, panels_number(r, wanted_Pa, DIM_STRESS, places),
                            panels_number(r, c->press_N, DIM_FORCE, 1),
                            panels_number(r, c->drag_N, DIM_FORCE, 1),
                            panels_number(r, c->force_N, DIM_FORCE, 1),
                            arena_printf(r->arena, "%d of %s", c->pieces,
                                         panels_said(r, plan->joint.piece_N, DIM_FORCE, 1)),
                            panels_number(r, c->given_Pa, DIM_STRESS, places)});
}

static void glue_words(Report *r, const PanelPlan *plan)
{
    const PanelClosing *c = &plan->closing;
    const bool us = r->source->units == UNITS_US;
    const double glue = quantity_in(plan->joint.glue_K, us ? "degF" : "degC");
    document_add(
        r, REPORT_TEXT,
        arena_printf(
            r->arena,
            "Glue: %s a joint, %s for all %d, %.0f %% of waste in. At %.3g \xC2\xB0%c %s%s. From "
            "mixing "
            "to pressure it allows %s; the work takes %s: spreading %s, setting %s, pulling %s%s. "
            "One mixing serves %d joint%s.",
            panels_volume(r, c->glue_m3), panels_volume(r, plan->glue_all_m3), plan->match_joints,
            100 * plan->joint.waste_1, glue, us ? 'F' : 'C',
            plan->glue_class ? "class " : "no class fits", plan->glue_class ? plan->glue_class : "",
            panels_minutes(r, c->open_day), panels_minutes(r, c->work_day),
            panels_minutes(r, plan->joint.spread_day), panels_minutes(r, plan->joint.place_day),
            panels_minutes(r, plan->joint.pull_day), c->in_time ? "" : "; TOO LONG",
            plan->joints_in_pot, plan->joints_in_pot == 1 ? "" : "s"));
}

void panels_closing(Report *r, const PanelSource *p)
{
    const PanelPlan *plan = p->plan;
    if (!plan->glued) {
        document_add(
            r, REPORT_TEXT,
            "Narrow cast joints: panels stand apart by panels.joint_width and nothing is pulled.");
        return;
    }
    FigureTable *t =
        table_of(r,
                 "The worst joint: pressure over the whole face, and drag of the heaviest panel "
                 "over its shims "
                 "and up the grade",
                 7,
                 (const char *[]){
                     "", panels_head(r, "wanted", DIM_STRESS), panels_head(r, "for it", DIM_FORCE),
                     panels_head(r, "drag", DIM_FORCE), panels_head(r, "both", DIM_FORCE),
                     plan->pullers ? "pullers" : "bolts", panels_head(r, "pressed by", DIM_STRESS)},
                 "tnnnntn");
    closing_row(r, t, plan, "as asked for", &plan->closing, plan->joint.pressure_Pa);
    closing_row(r, t, plan, "long-line practice", &plan->practice, 10 / quantity_in(1, "psi"));
    document_table(r, t);
    document_add(
        r, REPORT_TEXT,
        "A panel that was cast against its neighbour closes under less than 10 psi (common "
        "practice, no source); the segmental provisions ask for 40 on average and 30 anywhere "
        "until the glue is hard (from memory). The pieces stand evenly over the face, their "
        "pull at its mid-depth.");
    glue_words(r, plan);
}

/* ---- schedule ---- */

static const char *against(const Report *r, const PanelPiece *p)
{
    if (p->cast.against_left && p->cast.against_right)
        return arena_printf(r->arena, "%s, %s", p->left_joint, p->right_joint);
    return p->cast.against_left ? p->left_joint : p->cast.against_right ? p->right_joint : "-";
}

static void piece_row(Report *r, FigureTable *t, const PanelPlan *plan, const PanelPiece *p)
{
    const int places = length_places(r);
    figure_table_row(
        t, (const char *[]){
               p->mark, plan->kind[p->kind].name, panels_number(r, p->from_m, DIM_LENGTH, places),
               panels_number(r, p->to_m, DIM_LENGTH, places), p->left_joint, p->right_joint,
               panels_number(r, p->weight_N, DIM_FORCE, 1), against(r, p),
               arena_printf(r->arena, "%d/%d at %s", p->cast.cycle + 1, p->cast.bed + 1,
                            panels_number(r, p->cast.place_m, DIM_LENGTH, 1)),
               panels_day(r, p->cast.cast_day), panels_day(r, p->cast.set_day),
               panels_day(r, p->cast.set_day - p->cast.cast_day)});
}

void panels_schedule(Report *r, const PanelSource *p)
{
    const PanelPlan *plan = p->plan;
    enum { SCREEN_MOST = 120 };
    FigureTable *t = table_of(
        r,
        "Panels in the order in which they are set. Joints at mid-width from the left end of the "
        "bridge, with the numbers of clench thrust; cast against: the joints whose other face had "
        "hardened; bed: filling, bed, and left end from its head",
        12,
        (const char *[]){"mark", "kind", panels_head(r, "from", DIM_LENGTH),
                         panels_head(r, "to", DIM_LENGTH), "left", "right",
                         panels_head(r, "weight", DIM_FORCE), "cast against",
                         panels_head(r, "bed", DIM_LENGTH), "cast on day", "set on day", "age"},
        "ttnnttnttnnn");
    for (int i = 0; i < plan->piece_count; i++) piece_row(r, t, plan, &plan->piece[i]);
    ReportBlock *block = document_table(r, t);
    if (plan->piece_count <= SCREEN_MOST) return;
    block->place = REPORT_PAGE;
    block = document_add(r, REPORT_TEXT,
                         arena_printf(r->arena,
                                      "%d panels: too many for a screen. -o writes them to a PDF, "
                                      "--json lists them.",
                                      plan->piece_count));
    block->place = REPORT_SCREEN;
}
