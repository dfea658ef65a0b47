/* What each way is built of beyond what all share, and the crew's time for it: every line a product of named
 * factors. Times and waste are inputs (group ways). */
#include <math.h>
#include <string.h>

#include "work.h"

typedef struct List {
    const CompareWork *work;
    const PanelPlan *plan;
    WayQuantities *out;
    double width_m, thickness_m, length_m; /* of the deck, all runs */
    int joints, panels;                    /* without a gap: its panel counts too */
} List;

static double value(const List *l, const char *path)
{
    return bridge_value_at(l->work->bridge, path)->value;
}

static WayQuantity *start(List *l, Way way, const char *name, DimensionId dimension, const char *us,
                          const char *si)
{
    if (l->out->count == WAY_QUANTITIES_MAX) return &l->out->item[WAY_QUANTITIES_MAX - 1];
    WayQuantity *q = &l->out->item[l->out->count++];
    *q = (WayQuantity){
        .way = way, .name = name, .value = 1, .dimension = dimension, .unit = {us, si}};
    return q;
}

static void times(WayQuantity *q, const char *name, double size, DimensionId dimension)
{
    if (q->factor_count == WAY_FACTORS) return;
    q->factor[q->factor_count++] = (WayFactor){name, size, dimension, false};
    q->value *= size;
}

static WayQuantity *number(List *l, Way way, const char *name)
{
    return start(l, way, name, DIM_NONE, "", "");
}

/* Work: so many of it, each taking a crew this long. */
static void work(List *l, Way way, const char *name, const char *what, double count,
                 const char *path)
{
    if (count <= 0) return;
    WayQuantity *q = start(l, way, name, DIM_TIME, "h", "h");
    q->work = true;
    times(q, what, count, DIM_NONE);
    times(q, "each", value(l, path), DIM_TIME);
    l->out->crew_day[way] += q->value;
}

/* ---- tendons ---- */

static void strand(List *l, int tendons, int strands)
{
    const double weight = 490 / quantity_in(1, "pcf");
    WayQuantity *q = start(l, WAY_TENDON, "strand, tails and waste in", DIM_FORCE, "lbf", "kN");
    times(q, "tendons", tendons, DIM_NONE);
    times(q, "strands", strands, DIM_NONE);
    times(q, "length with tails",
          l->length_m + 2 * l->plan->run_count * value(l, "ways.strand_tail"), DIM_LENGTH);
    times(q, "area", value(l, "ways.tendon.strand_area"), DIM_AREA);
    times(q, "weight of steel", weight, DIM_WEIGHT_DENSITY);
    times(q, "with waste", 1 + value(l, "ways.strand_waste"), DIM_NONE);
}

static void ducts(List *l, int tendons, int strands)
{
    const double inside_m2 =
        value(l, "ways.tendon.duct_width") * value(l, "ways.tendon.duct_height");
    const double steel_m2 = strands * value(l, "ways.tendon.strand_area");
    WayQuantity *q = start(l, WAY_TENDON, "ducts", DIM_LENGTH, "ft", "m");
    times(q, "tendons", tendons, DIM_NONE);
    times(q, "length of all runs", l->length_m, DIM_LENGTH);
    q = number(l, WAY_TENDON, "couplers of ducts at joints");
    times(q, "tendons", tendons, DIM_NONE);
    times(q, "joints", l->joints, DIM_NONE);
    q = number(l, WAY_TENDON, "anchorages");
    times(q, "tendons", tendons, DIM_NONE);
    times(q, "runs", l->plan->run_count, DIM_NONE);
    times(q, "ends", 2, DIM_NONE);
    q = start(l, WAY_TENDON, "grout of ducts, waste in", DIM_VOLUME, "ft^3", "m^3");
    times(q, "tendons", tendons, DIM_NONE);
    times(q, "length of all runs", l->length_m, DIM_LENGTH);
    times(q, "duct less strands", fmax(inside_m2 - steel_m2, 0), DIM_AREA);
    times(q, "with waste", 1 + value(l, "ways.duct_grout_waste"), DIM_NONE);
}

/* Joints as the panels have them: glued against each other, or narrow and cast. */
static void joints(List *l, Way way, int count)
{
    const bool glued = l->plan->glued;
    WayQuantity *q = number(l, way, glued ? "glued joints" : "narrow cast joints");
    times(q, "joints", count, DIM_NONE);
    q = start(l, way, glued ? "glue, waste in" : "concrete of narrow joints", DIM_VOLUME,
              glued ? "gal" : "yd^3", "m^3");
    times(q, "joints", count, DIM_NONE);
    times(q, "width of the deck", l->width_m, DIM_LENGTH);
    times(q, "thickness", l->thickness_m, DIM_LENGTH);
    times(q, glued ? "film" : "width of the joint",
          value(l, glued ? "closing.film" : "panels.joint_width"), DIM_LENGTH);
    if (glued) times(q, "with waste", 1 + value(l, "closing.waste"), DIM_NONE);
    work(l, way, glued ? "glueing joints" : "casting narrow joints", "joints", count,
         glued ? "ways.work.glued_joint" : "ways.work.narrow_joint");
}

static void tendon(List *l)
{
    const WayAnswer *way = &l->work->answer->way[WAY_TENDON];
    const LineTendons *t = way->line[0].answer->line->tendons;
    const int strands = (int)value(l, "ways.tendon.strands");
    const int pulls = way->tendons * l->plan->run_count * (t->pull.left + t->pull.right);
    ducts(l, way->tendons, strands);
    strand(l, way->tendons, strands);
    WayQuantity *q = number(l, WAY_TENDON, "pulls");
    times(q, "tendons", way->tendons, DIM_NONE);
    times(q, "runs", l->plan->run_count, DIM_NONE);
    times(q, "ends pulled", t->pull.left + t->pull.right, DIM_NONE);
    work(l, WAY_TENDON, "setting panels", "panels", l->panels, "ways.work.panel");
    joints(l, WAY_TENDON, l->joints);
    work(l, WAY_TENDON, "splicing ducts", "couplers", (double)way->tendons * l->joints,
         "ways.work.coupler");
    work(l, WAY_TENDON, "threading tendons", "tendons", way->tendons * l->plan->run_count,
         "ways.work.threading");
    work(l, WAY_TENDON, "pulling", "pulls", pulls, "ways.work.pull");
    work(l, WAY_TENDON, "grouting ducts", "ducts", way->tendons * l->plan->run_count,
         "ways.work.duct_grout");
}

/* ---- jacks ---- */

static void thrust(List *l)
{
    const int runs = l->plan->run_count;
    double gaps_m = 0;
    for (int r = 0; r < runs; r++) gaps_m += l->plan->run[r].gap_to_m - l->plan->run[r].gap_from_m;
    WayQuantity *q = number(l, WAY_THRUST, "gaps jacked, closed and filled");
    times(q, "runs", runs, DIM_NONE);
    if (value(l, "jacks.count") > 0) {
        q = number(l, WAY_THRUST, "jacks in a gap");
        times(q, "as the file says", value(l, "jacks.count"), DIM_NONE);
    }
    q = number(l, WAY_THRUST, "anchor panels with their connectors");
    times(q, "runs", runs, DIM_NONE);
    times(q, "ends", 2, DIM_NONE);
    q = start(l, WAY_THRUST, "concrete of closure and fill", DIM_VOLUME, "yd^3", "m^3");
    times(q, "width of all gaps", gaps_m, DIM_LENGTH);
    times(q, "width of the deck", l->width_m, DIM_LENGTH);
    times(q, "thickness", l->thickness_m, DIM_LENGTH);
    work(l, WAY_THRUST, "setting panels", "panels", l->panels - runs, "ways.work.panel");
    joints(l, WAY_THRUST, l->joints - 2 * runs);
    work(l, WAY_THRUST, "grouting anchor panels", "anchor panels", 2 * runs, "ways.work.anchor");
    work(l, WAY_THRUST, "jacking", "gaps", runs, "ways.work.jacking");
    work(l, WAY_THRUST, "closure and fill", "gaps", runs, "ways.work.closure");
}

/* ---- UHPC joints, cast deck ---- */

static void uhpc(List *l)
{
    WayQuantity *q = number(l, WAY_UHPC, "UHPC joints");
    times(q, "joints", l->joints, DIM_NONE);
    q = start(l, WAY_UHPC, "UHPC, keys and waste in", DIM_VOLUME, "yd^3", "m^3");
    times(q, "joints", l->joints, DIM_NONE);
    times(q, "width of the deck", l->width_m, DIM_LENGTH);
    times(q, "thickness", l->thickness_m, DIM_LENGTH);
    times(q, "width of the joint", value(l, "ways.uhpc.joint_width"), DIM_LENGTH);
    times(q, "with waste", 1 + value(l, "ways.uhpc_waste"), DIM_NONE);
    q = start(l, WAY_UHPC, "forms below and above joints", DIM_LENGTH, "ft", "m");
    times(q, "joints", l->joints, DIM_NONE);
    times(q, "width of the deck", l->width_m, DIM_LENGTH);
    times(q, "sides", 2, DIM_NONE);
    work(l, WAY_UHPC, "setting panels", "panels", l->panels, "ways.work.panel");
    work(l, WAY_UHPC, "UHPC joints", "joints", l->joints, "ways.work.uhpc_joint");
}

/* Pours of all runs: alike units are one line of the answer, but run by run here. */
static int pours(const List *l)
{
    const WayAnswer *way = &l->work->answer->way[WAY_CAST];
    int sum = 0;
    for (int r = 0; r < l->plan->run_count; r++) {
        const BridgeLine *line = way->line[0].answer->line;
        for (int k = 0; k < way->line_count; k++)
            if (strncmp(way->line[k].answer->line->unit, l->plan->run[r].unit,
                        strlen(l->plan->run[r].unit)) == 0)
                line = way->line[k].answer->line;
        for (int m = 0; m < line->model.material_count; m++)
            sum += strncmp(line->model.material[m].name, "pour ", 5) == 0;
    }
    return sum;
}

/* Work that goes by the area done in an hour. */
static void area_work(List *l, const char *name, const char *path)
{
    const double done_m2 = value(l, path);
    WayQuantity *q = start(l, WAY_CAST, name, DIM_TIME, "h", "h");
    q->work = true;
    times(q, "length of all runs", l->length_m, DIM_LENGTH);
    times(q, "width of the deck", l->width_m, DIM_LENGTH);
    times(q, "of time", 1.0 / 24, DIM_TIME);
    q->factor[q->factor_count++] = (WayFactor){"done in it", done_m2, DIM_AREA, true};
    q->value /= done_m2;
    l->out->crew_day[WAY_CAST] += q->value;
}

static void cast(List *l)
{
    const int count = pours(l);
    const double weight = 490 / quantity_in(1, "pcf");
    WayQuantity *q = start(l, WAY_CAST, "concrete", DIM_VOLUME, "yd^3", "m^3");
    times(q, "length of all runs", l->length_m, DIM_LENGTH);
    times(q, "width of the deck", l->width_m, DIM_LENGTH);
    times(q, "thickness", l->thickness_m, DIM_LENGTH);
    q = start(l, WAY_CAST, "bars along the deck, laps not in", DIM_FORCE, "lbf", "kN");
    times(q, "length of all runs", l->length_m, DIM_LENGTH);
    times(q, "width of the deck", l->width_m, DIM_LENGTH);
    times(q, "thickness", l->thickness_m, DIM_LENGTH);
    times(q, "share of the section", value(l, "ways.cast.bars"), DIM_NONE);
    times(q, "weight of steel", weight, DIM_WEIGHT_DENSITY);
    q = start(l, WAY_CAST, "formwork", DIM_AREA, "ft^2", "m^2");
    times(q, "length of all runs", l->length_m, DIM_LENGTH);
    times(q, "width of the deck", l->width_m, DIM_LENGTH);
    q = number(l, WAY_CAST, "pours");
    times(q, "pours", count, DIM_NONE);
    area_work(l, "formwork", "ways.work.forming");
    area_work(l, "laying bars", "ways.work.bars");
    work(l, WAY_CAST, "pouring and finishing", "pours", count, "ways.work.pour");
}

Status way_quantities(const CompareWork *cw, const WayQuantities **out, Error *err)
{
    WayQuantities *made = ARENA_NEW(cw->result, WayQuantities, 1);
    List l = {.work = cw, .out = made};
    TRY(bridge_panels(cw->bridge, cw->result, &l.plan, err));
    const int across = l.plan->strip_m > 0 ? 2 : 1;
    l.width_m = l.plan->deck_width_m;
    l.thickness_m = l.plan->thickness_m;
    for (int r = 0; r < l.plan->run_count; r++) {
        l.length_m += l.plan->run[r].length_m;
        l.joints += l.plan->run[r].count / across; /* the gap's panel joins on both sides */
        l.panels += l.plan->run[r].count + across;
    }
    made->persons = (int)value(&l, "ways.work.persons");
    made->spread_1 = value(&l, "ways.work.spread");
    thrust(&l);
    tendon(&l);
    uhpc(&l);
    cast(&l);
    *out = made;
    return STATUS_OK;
}
