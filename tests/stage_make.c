#include "stage_make.h"

#include <string.h>

#include "check.h"

enum { STATIONS_MAX = 2500, PARTS_MAX = 9000, FEW_MAX = 24, EVENTS_MAX = 160 };
static const double same_m = 1e-9;

/* ---- pieces ---- */

static void sort(double *x, int count)
{
    for (int i = 1; i < count; i++)
        for (int k = i; k > 0 && x[k] < x[k - 1]; k--) {
            const double keep = x[k];
            x[k] = x[k - 1];
            x[k - 1] = keep;
        }
}

Make make_start(Arena *arena, double longest_m, const double *mark_m, int mark_count)
{
    Make make = {.arena = arena};
    double *mark = ARENA_NEW(arena, double, mark_count),
           *x = ARENA_NEW(arena, double, STATIONS_MAX);
    int n = 0;
    memcpy(mark, mark_m, sizeof *mark * (size_t)mark_count);
    sort(mark, mark_count);
    for (int k = 0; k + 1 < mark_count; k++) {
        const double length = mark[k + 1] - mark[k];
        if (length <= same_m) continue;
        const int pieces = (int)ceil(length / longest_m - 1e-9);
        for (int i = 0; i < pieces; i++) x[n++] = mark[k] + length * i / pieces;
        assert_true(n < STATIONS_MAX - 1);
    }
    x[n++] = mark[mark_count - 1];
    make.model.x_m = x;
    make.model.station_count = n;
    make.model.part = ARENA_NEW(arena, Part, PARTS_MAX);
    make.model.material = ARENA_NEW(arena, Material, FEW_MAX);
    make.model.section = ARENA_NEW(arena, PartSection, FEW_MAX);
    make.model.support = ARENA_NEW(arena, Support, FEW_MAX);
    make.model.gap = ARENA_NEW(arena, Gap, FEW_MAX);
    make.model.event = ARENA_NEW(arena, Event, EVENTS_MAX);
    make.model.link = ARENA_NEW(arena, Link, n);
    return make;
}

int make_station(const Make *make, double x_m)
{
    for (int i = 0; i < make->model.station_count; i++)
        if (fabs(make->model.x_m[i] - x_m) <= 2 * same_m) return i;
    fail_msg("no station at %g m", x_m);
    return -1;
}

int make_material(Make *make, Material material)
{
    assert_true(make->model.material_count < FEW_MAX);
    if (!material.name) material.name = "material";
    ((Material *)make->model.material)[make->model.material_count] = material;
    return make->model.material_count++;
}

int make_elastic(Make *make, double E_Pa)
{
    return make_material(
        make, (Material){.kind = MATERIAL_ELASTIC, .E_Pa = E_Pa, .expansion_per_K = 1e-5});
}

int make_section(Make *make, PartSection section)
{
    assert_true(make->model.section_count < FEW_MAX);
    ((PartSection *)make->model.section)[make->model.section_count] = section;
    return make->model.section_count++;
}

PartSection make_rectangle(double width_m, double depth_m)
{
    return (PartSection){.area_m2 = width_m * depth_m,
                         .inertia_m4 = width_m * depth_m * depth_m * depth_m / 12,
                         .top_m = depth_m / 2,
                         .bottom_m = depth_m / 2,
                         .profile = {2, {0, depth_m}, {width_m, width_m}}};
}

void make_parts(Make *make, double from_m, double to_m, Part part)
{
    for (int e = make_station(make, from_m); e < make_station(make, to_m); e++) {
        assert_true(make->model.part_count < PARTS_MAX);
        part.element = e;
        ((Part *)make->model.part)[make->model.part_count++] = part;
    }
}

void make_links(Make *make, Link per_m)
{
    const int last = make->model.station_count - 1;
    const double *x = make->model.x_m;
    Link *link = (Link *)make->model.link;
    for (int i = 0; i <= last; i++) {
        const double length = 0.5 * (x[i < last ? i + 1 : last] - x[i > 0 ? i - 1 : 0]);
        link[i] = per_m;
        link[i].shim_vertical_N_per_m *= length;
        link[i].shim_horizontal_N_per_m *= length;
        link[i].bond_vertical_N_per_m *= length;
        link[i].bond_horizontal_N_per_m *= length;
    }
}

int make_support(Make *make, double x_m, bool fixed)
{
    assert_true(make->model.support_count < FEW_MAX);
    ((Support *)make->model.support)[make->model.support_count] =
        (Support){make_station(make, x_m), 1e13, fixed ? 1e13 : 0, 0, -1, -1};
    return make->model.support_count++;
}

int make_gap(Make *make, double from_m, double to_m, double strut_N_per_m)
{
    assert_true(make->model.gap_count < FEW_MAX);
    ((Gap *)make->model.gap)[make->model.gap_count] =
        (Gap){make_station(make, from_m), make_station(make, to_m), 0, strut_N_per_m, 0};
    return make->model.gap_count++;
}

/* ---- events ---- */

Event *make_event(Make *make, double day, EventKind kind, Cause cause)
{
    assert_true(make->model.event_count < EVENTS_MAX);
    Event *event = (Event *)make->model.event + make->model.event_count++;
    *event = (Event){
        .day = day, .kind = kind, .cause = cause, .to_station = make->model.station_count - 1};
    return event;
}

void make_birth(Make *make, double day, int phase)
{
    make_event(make, day, EVENT_BIRTH, CAUSE_WEIGHT)->phase = phase;
}

void make_load(Make *make, double day, double from_m, double to_m, Chain chain, double w_N_per_m)
{
    Event *event = make_event(make, day, EVENT_LOAD, CAUSE_SUPERIMPOSED);
    event->from_station = make_station(make, from_m);
    event->to_station = make_station(make, to_m);
    event->chain = (int)chain;
    event->line_load_N_per_m = w_N_per_m;
}

void make_bond(Make *make, double day, double from_m, double to_m)
{
    Event *event = make_event(make, day, EVENT_BOND, CAUSE_CLOSURE);
    event->from_station = make_station(make, from_m);
    event->to_station = make_station(make, to_m);
}

void make_jack(Make *make, double day, int gap, double thrust_N, int steps)
{
    Event *event = make_event(make, day, EVENT_JACK, CAUSE_THRUST);
    event->gap = gap;
    event->thrust_N = thrust_N;
    event->steps = steps;
}

void make_note(Make *make, double day, const char *name)
{
    make_event(make, day, EVENT_NOTE, CAUSE_WEIGHT)->name = name;
}

const StageHistory *make_run_with(const Make *make, const StageSettings *settings)
{
    Error err;
    const StageHistory *history = NULL;
    Arena *scratch = arena_create((size_t)1 << 30);
    check_status(stage_run(&make->model, settings, make->arena, scratch, &history, &err), STATUS_OK,
                 &err);
    arena_free(scratch);
    return history;
}

const StageHistory *make_run(const Make *make)
{
    const StageSettings settings = stage_settings_default();
    return make_run_with(make, &settings);
}

int make_time(const StageHistory *history, const char *name)
{
    const int time = stage_time_named(history, name);
    if (time < 0) fail_msg("no moment named %s", name);
    return time;
}

/* ---- a thrust line ---- */

LineSpec line_spec(void)
{
    const Material concrete = {.kind = MATERIAL_ELASTIC, .E_Pa = 33e9, .expansion_per_K = 1e-5};
    return (LineSpec){.span_count = 3,
                      .span_m = {32, 40, 32},
                      .longest_m = 1,
                      .girder_E_Pa = 200e9,
                      .girder_A_m2 = 0.05,
                      .girder_I_m4 = 0.02,
                      .girder_top_m = 0.9,
                      .girder_bottom_m = 0.7,
                      .deck_width_m = 2.8,
                      .deck_depth_m = 0.23,
                      .deck_I_1 = 1,
                      .deck_arm_m = 0.23,
                      .haunch_m = 0.05,
                      .anchor_m = 3,
                      .gap_from_m = 51,
                      .gap_to_m = 53,
                      .strut_N_per_m = 2e9,
                      .closure_share_1 = 0.6,
                      .link_per_m = {1e9, 5e8, 1e12, 1e12, 0.1, false, false},
                      .deck = concrete,
                      .closure = concrete};
}

double line_length(const LineSpec *spec)
{
    double length = 0;
    for (int s = 0; s < spec->span_count; s++) length += spec->span_m[s];
    return length;
}

static PartSection deck_section(const LineSpec *spec, double share)
{
    PartSection section = make_rectangle(spec->deck_width_m * share, spec->deck_depth_m);
    section.inertia_m4 *= spec->deck_I_1;
    return section;
}

static void line_parts(Make *make, const LineSpec *spec)
{
    const double L = line_length(spec);
    Part part = {.chain = CHAIN_GIRDER,
                 .material = make_elastic(make, spec->girder_E_Pa),
                 .section = make_section(make, (PartSection){spec->girder_A_m2,
                                                             spec->girder_I_m4,
                                                             spec->girder_top_m,
                                                             spec->girder_bottom_m,
                                                             {0}}),
                 .from_height_m = -spec->girder_top_m,
                 .to_height_m = -spec->girder_top_m};
    make_parts(make, 0, L, part);
    part = (Part){.chain = CHAIN_DECK,
                  .material = make_material(make, spec->deck),
                  .section = make_section(make, deck_section(spec, 1)),
                  .phase = 1};
    make_parts(make, 0, spec->gap_from_m, part);
    make_parts(make, spec->gap_to_m, L, part);
    const double share[2] = {spec->closure_share_1, 1 - spec->closure_share_1};
    const int closure = make_material(make, spec->closure);
    for (int k = 0; k < 2; k++) {
        if (share[k] <= 0) continue;
        part.material = closure;
        part.section = make_section(make, deck_section(spec, share[k]));
        part.phase = 2 + k;
        make_parts(make, spec->gap_from_m, spec->gap_to_m, part);
    }
}

Make line_make(const LineSpec *spec, Arena *arena)
{
    const double L = line_length(spec);
    double mark[12] = {0, L, spec->anchor_m, L - spec->anchor_m, spec->gap_from_m, spec->gap_to_m};
    int marks = 6;
    double x = 0;
    for (int s = 0; s + 1 < spec->span_count; s++) mark[marks++] = x += spec->span_m[s];
    Make make = make_start(arena, spec->longest_m, mark, marks);
    make.model.deck_thickness_m = spec->deck_arm_m;
    make.model.haunch_m = spec->haunch_m;
    line_parts(&make, spec);
    make_links(&make, spec->link_per_m);
    x = 0;
    for (int s = 0; s <= spec->span_count; x += spec->span_m[s < 4 ? s : 3], s++)
        make_support(&make, x, s == 0);
    make_gap(&make, spec->gap_from_m, spec->gap_to_m, spec->strut_N_per_m);
    return make;
}

void line_set_up(Make *make, const LineSpec *spec, double day, double girder_w_N_per_m,
                 double deck_w_N_per_m)
{
    const double L = line_length(spec);
    const double panel[2][2] = {{0, spec->gap_from_m}, {spec->gap_to_m, L}};
    make_birth(make, day, 0);
    if (girder_w_N_per_m > 0) make_load(make, day, 0, L, CHAIN_GIRDER, girder_w_N_per_m);
    for (int k = 0; k < 2 && deck_w_N_per_m > 0; k++) {
        make_load(make, day, panel[k][0], panel[k][1], CHAIN_GIRDER, deck_w_N_per_m);
        ((Event *)make->model.event)[make->model.event_count - 1].on_deck = true;
    }
    make_birth(make, day, 1);
    make_event(make, day, EVENT_SHIMS, CAUSE_WEIGHT);
    make_bond(make, day, 0, spec->anchor_m);
    make_bond(make, day, L - spec->anchor_m, L);
}

/* ---- sums ---- */

static double beams_N(const StageHistory *history, int time, Chain chain, int element)
{
    const StageModel *model = history->model;
    const PartForce *force = history->force + (size_t)time * (size_t)model->part_count;
    double sum = 0;
    for (int p = 0; p < model->part_count; p++)
        if (model->part[p].chain == chain && model->part[p].element == element &&
            model->section[model->part[p].section].inertia_m4 > 0)
            sum += force[p].N;
    return sum;
}

double line_deck_N(const StageHistory *history, int time, int element)
{
    return beams_N(history, time, CHAIN_DECK, element);
}

double line_girder_N(const StageHistory *history, int time, int element)
{
    return beams_N(history, time, CHAIN_GIRDER, element);
}

double line_girder_M(const StageHistory *history, int time, int element, bool at_end)
{
    const StageModel *model = history->model;
    for (int p = 0; p < model->part_count; p++) {
        if (model->part[p].chain != CHAIN_GIRDER || model->part[p].element != element) continue;
        const PartForce *force =
            &history->force[(size_t)time * (size_t)model->part_count + (size_t)p];
        return at_end ? force->M_to : force->M_from;
    }
    fail_msg("no girder in element %d", element);
    return 0;
}
