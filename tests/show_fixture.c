#include "show_fixture.h"

#include <stdio.h>
#include <string.h>

#include "check.h"

enum { STATIONS = 101, PARTS = 300, GAP_LEFT = 24, GAP_RIGHT = 27, ANCHOR = 6, JOINTS = 20 };

static const double element_m = 0.6, span_m = 30, thrust_N = 4e6;

static void materials(StageModel *m, Arena *arena)
{
    Material *material = ARENA_NEW(arena, Material, 3);
    material[0] = (Material){
        .kind = MATERIAL_ELASTIC, .name = "steel", .E_Pa = 200e9, .expansion_per_K = 1.2e-5};
    material[1] = (Material){.kind = MATERIAL_CONCRETE,
                             .name = "panel",
                             .mix = concrete_mix_default(TIME_AASHTO2015),
                             .expansion_per_K = 1e-5};
    material[2] = material[1];
    material[2].name = "closure";
    material[2].cast_day = 103;
    PartSection *section = ARENA_NEW(arena, PartSection, 2);
    section[0] = (PartSection){0.05, 0.012, 0.7, 0.7, {0}};
    section[1] = (PartSection){2.6 * 0.2, 2.6 * 0.008 / 12, 0.1, 0.1, {2, {0, 0.2}, {2.6, 2.6}}};
    m->material = material;
    m->material_count = 3;
    m->section = section;
    m->section_count = 2;
}

static void parts(StageModel *m, Arena *arena)
{
    Part *part = ARENA_NEW(arena, Part, PARTS);
    int n = 0;
    for (int e = 0; e < STATIONS - 1; e++) {
        const bool gap = e >= GAP_LEFT && e < GAP_RIGHT;
        part[n++] =
            (Part){.element = e, .chain = CHAIN_GIRDER, .from_height_m = -0.7, .to_height_m = -0.7};
        part[n++] = (Part){.element = e,
                           .chain = CHAIN_DECK,
                           .material = gap ? 2 : 1,
                           .section = 1,
                           .phase = gap ? 2 : 1};
    }
    m->part = part;
    m->part_count = n;
}

static void places(StageModel *m, Arena *arena)
{
    double *x = ARENA_NEW(arena, double, STATIONS);
    Link *link = ARENA_NEW(arena, Link, STATIONS);
    for (int i = 0; i < STATIONS; i++) {
        x[i] = element_m * i;
        link[i] = (Link){3e8, 1e8, 1e12, 1e12, 0.2, false, false};
    }
    Support *support = ARENA_NEW(arena, Support, 3);
    for (int s = 0; s < 3; s++) support[s] = (Support){50 * s, 1e12, s ? 0 : 1e12, 1.4, -1, -1};
    Gap *gap = ARENA_NEW(arena, Gap, 1);
    gap[0] = (Gap){GAP_LEFT, GAP_RIGHT, 0, 2e9, 2e-5};
    m->x_m = x;
    m->station_count = STATIONS;
    m->link = link;
    m->support = support;
    m->support_count = 3;
    m->gap = gap;
    m->gap_count = 1;
}

static void events(StageModel *m, Arena *arena)
{
    const int end = STATIONS - 1;
    const Event list[] = {
        {.day = 60, .kind = EVENT_BIRTH, .cause = CAUSE_WEIGHT, .phase = 0},
        {.day = 60,
         .kind = EVENT_LOAD,
         .cause = CAUSE_WEIGHT,
         .to_station = end,
         .line_load_N_per_m = 4000},
        {.day = 90,
         .kind = EVENT_LOAD,
         .cause = CAUSE_WEIGHT,
         .to_station = GAP_LEFT,
         .on_deck = true,
         .line_load_N_per_m = 12500},
        {.day = 90,
         .kind = EVENT_LOAD,
         .cause = CAUSE_WEIGHT,
         .from_station = GAP_RIGHT,
         .to_station = end,
         .on_deck = true,
         .line_load_N_per_m = 12500},
        {.day = 92, .kind = EVENT_BIRTH, .cause = CAUSE_WEIGHT, .phase = 1},
        {.day = 92, .kind = EVENT_SHIMS, .cause = CAUSE_WEIGHT, .name = "panels"},
        {.day = 95, .kind = EVENT_BOND, .cause = CAUSE_WEIGHT, .to_station = ANCHOR},
        {.day = 95,
         .kind = EVENT_BOND,
         .cause = CAUSE_WEIGHT,
         .from_station = end - ANCHOR,
         .to_station = end},
        {.day = 100,
         .kind = EVENT_JACK,
         .cause = CAUSE_THRUST,
         .thrust_N = thrust_N / 2,
         .steps = 2},
        {.day = 100,
         .kind = EVENT_JACK,
         .cause = CAUSE_THRUST,
         .thrust_N = thrust_N,
         .steps = 2,
         .name = "jacked"},
        {.day = 100, .kind = EVENT_LOCK, .cause = CAUSE_THRUST},
        {.day = 104, .kind = EVENT_BIRTH, .cause = CAUSE_CLOSURE, .phase = 2},
        {.day = 104,
         .kind = EVENT_SHIMS_EMPTY,
         .cause = CAUSE_CLOSURE,
         .from_station = GAP_LEFT + 1,
         .to_station = GAP_RIGHT - 1},
        {.day = 107, .kind = EVENT_RELEASE, .cause = CAUSE_RELEASE, .name = "released"},
        {.day = 110,
         .kind = EVENT_BOND,
         .cause = CAUSE_CLOSURE,
         .to_station = end,
         .name = "bonded"},
        {.day = 125,
         .kind = EVENT_LOAD,
         .cause = CAUSE_SUPERIMPOSED,
         .to_station = end,
         .line_load_N_per_m = 6000},
        {.day = 150, .kind = EVENT_NOTE, .cause = CAUSE_WEIGHT, .name = "opening"},
        {.day = 27475, .kind = EVENT_NOTE, .cause = CAUSE_WEIGHT, .name = "end"},
    };
    m->event = memcpy(arena_take(arena, sizeof list), list, sizeof list);
    m->event_count = (int)(sizeof list / sizeof *list);
}

/* Panels of 3 m; shorter ones at the gap and at the right anchor. */
static int joint_step(int station)
{
    if (station == GAP_LEFT || station == GAP_LEFT - 3) return 3;
    return station == STATIONS - 1 - ANCHOR - 2 ? 2 : 5;
}

static int joints(BridgeLine *b, Arena *arena)
{
    Joint *joint = ARENA_NEW(arena, Joint, JOINTS + 4);
    int n = 0;
    for (int i = ANCHOR; i <= STATIONS - 1 - ANCHOR; i += joint_step(i)) {
        joint[n] = (Joint){.station = i,
                           .mark = arena_printf(arena, "J%02d", n + 1),
                           .at_gap = i == GAP_LEFT || i == GAP_RIGHT,
                           .at_anchor = i == ANCHOR || i == STATIONS - 1 - ANCHOR,
                           .wheel_top_Pa = 3e5,
                           .wheel_bottom_Pa = 4e5};
        n++;
    }
    b->joint = joint;
    b->joint_count = n;
    return n;
}

static const JointRule rules[] = {
    {.name = "average after losses",
     .clause = "a clause <of> \"law\" & custom",
     .average = true,
     .limit_Pa = -1.72e6,
     .counts = true},
    {.name = "Service I with half the gradient",
     .clause = "another clause",
     .live_1 = 1,
     .gradient_1 = 0.5,
     .counts = true},
    {.name = "permanent", .clause = "a third clause"},
};
static const UpperLimit limits[] = {
    {.kind = LIMIT_DECK_JACKING,
     .name = "deck compression while jacked",
     .clause = "clause A",
     .value = 0.6,
     .factor_1 = 1},
    {.kind = LIMIT_GIRDER_TOP_TENSION,
     .name = "tension at the top of the girder",
     .clause = "clause B",
     .value = 250e6,
     .factor_1 = 1},
    {.kind = LIMIT_JACKS,
     .name = "rated force of the jacks",
     .clause = "clause C",
     .value = 5.5e6,
     .factor_1 = 1},
};

static BridgeLine *line_new(const char *name, Arena *arena)
{
    BridgeLine *b = ARENA_NEW(arena, BridgeLine, 1);
    *b = (BridgeLine){.name = name,
                      .unit = "spans 1 and 2",
                      .share_1 = 0.25,
                      .share_stiff_1 = 0.24,
                      .width_m = 2.6};
    b->model.deck_thickness_m = 0.2;
    b->model.haunch_m = 0.05;
    materials(&b->model, arena);
    parts(&b->model, arena);
    places(&b->model, arena);
    events(&b->model, arena);
    joints(b, arena);
    b->deck_strength_Pa = b->deck_jacking_strength_Pa = 30e6;
    b->rule = rules;
    b->rule_count = 3;
    b->limit = limits;
    b->limit_count = 3;
    b->jacked = "jacked";
    b->released = "released";
    b->bonded = "bonded";
    b->opening = "opening";
    b->end = "end";
    return b;
}

static void split_fill(const StageHistory *h, Split *split, int joint, int station,
                       const char *name)
{
    FibreStress stress;
    *split = (Split){.joint = joint, .side = -1, .time = stage_time_named(h, name)};
    for (int c = 0; c < CAUSE_COUNT; c++) {
        if (!stage_stress_by_cause(h, split->time, (Cause)c, station, -1, &stress)) continue;
        split->mean_Pa[c] = 0.5 * (stress.top_Pa + stress.bottom_Pa);
        split->top_Pa[c] = stress.top_Pa;
        split->mean_total_Pa += split->mean_Pa[c];
        split->top_total_Pa += split->top_Pa[c];
    }
}

static void answers_fill(LineAnswer *a, int joint, double scale)
{
    const double day[] = {27475, 27475, 150}, need_N[] = {3.1e6, 4e6, 0};
    for (int k = 0; k < 3; k++) {
        const Governing at = {.joint = joint,
                              .station = a->line->joint[joint].station,
                              .side = -1,
                              .top = k != 0,
                              .day = day[k],
                              .permanent_Pa = -2.2e6,
                              .live_Pa = k == 1 ? 1.8e6 : 0,
                              .gradient_Pa = k == 1 ? 0.4e6 : 0};
        a->rule[k] = (RuleAnswer){.need_N = scale * need_N[k], .reachable = true, .at = at};
        a->limit[k] =
            (LimitAnswer){.most_N = k == 0 ? (double)INFINITY : scale * (4e6 + 5e5 * k), .at = at};
        a->limit[k].at.joint = -1;
    }
    a->need_N = scale * 4e6;
    a->most_N = scale * 4.5e6;
    a->need_rule = a->most_limit = 1;
    a->most_rule = -1;
    a->fill_top_Pa = a->fill_bottom_Pa = NAN;
}

static void line_fill(LineAnswer *a, const char *name, double scale, Arena *arena)
{
    Error err;
    const BridgeLine *b = line_new(name, arena);
    Arena *scratch = arena_create((size_t)256 << 20);
    const StageSettings settings = stage_settings_default();
    check_status(stage_run(&b->model, &settings, arena, scratch, &a->history, &err), STATUS_OK,
                 &err);
    arena_free(scratch);
    a->line = b;
    a->moments = (Moments){.jacked = stage_time_named(a->history, b->jacked),
                           .bonded = stage_time_named(a->history, b->bonded),
                           .opening = stage_time_named(a->history, b->opening),
                           .end = stage_time_named(a->history, b->end)};
    a->thrust_N = thrust_N;
    JointLoad *load = ARENA_NEW(arena, JointLoad, 2 * b->joint_count);
    for (int j = 0; j < 2 * b->joint_count; j++) {
        const double near_pier =
            fmax(0, 1 - fabs(b->model.x_m[b->joint[j / 2].station] - span_m) / span_m);
        load[j] = (JointLoad){.there = true,
                              .live_top_max_Pa = 2.5e6 * near_pier,
                              .live_top_min_Pa = -3e6 * (1 - near_pier),
                              .live_bottom_max_Pa = 2e6 * (1 - near_pier),
                              .live_bottom_min_Pa = -1e6,
                              .cold_top_Pa = 0.8e6,
                              .cold_bottom_Pa = 0.2e6,
                              .warm_top_Pa = -2e6,
                              .warm_bottom_Pa = 0.3e6};
    }
    a->open = a->end = load;
    const int joint = 9, station = b->joint[joint].station;
    split_fill(a->history, &a->jacked, joint, station, "jacked");
    split_fill(a->history, &a->opening, joint, station, "opening");
    split_fill(a->history, &a->finish, joint, station, "end");
    a->reachable = true;
    a->average_Pa = thrust_N / (2.6 * 0.2);
    a->gap_movement_m = 0.0412;
    a->anchor_force_N = 3.7e6;
    answers_fill(a, joint, scale);
}

const ThrustAnswer *show_answer(Arena *arena)
{
    ThrustAnswer *answer = ARENA_NEW(arena, ThrustAnswer, 1);
    answer->line_count = 2;
    line_fill(&answer->line[0], "interior line", 1, arena);
    line_fill(&answer->line[1], "exterior line", 0.9, arena);
    answer->need_N = 16e6;
    answer->most_N = 17e6;
    answer->limiting_line = 1;
    answer->window = true;
    answer->need_stiff_N = 17e6;
    answer->most_stiff_N = INFINITY;
    answer->reachable = answer->met = true;
    answer->thrust_N = 16e6;
    return answer;
}

static const BridgeValue *value_new(Arena *arena, const char *path, const char *text, Origin origin)
{
    static const SchemaRow row = {.help = "Help with <angle> & ampersand."};
    BridgeValue *value = ARENA_NEW(arena, BridgeValue, 1);
    snprintf(value->path, sizeof value->path, "%s", path);
    snprintf(value->text, sizeof value->text, "%s", text);
    value->origin = origin;
    value->row = &row;
    return value;
}

ReportSource show_source(Arena *arena, UnitSystem units)
{
    const BridgeValue **value = ARENA_NEW(arena, const BridgeValue *, 4);
    value[0] = value_new(arena, "deck.thickness", "8.5 in", ORIGIN_DEFAULT);
    value[1] = value_new(arena, "deck.haunch", "2 in", ORIGIN_DEFAULT);
    value[2] = value_new(arena, "girders.count", "4", ORIGIN_GIVEN);
    value[3] = value_new(arena, "panels.length", "10 ft", ORIGIN_DEFAULT);
    return (ReportSource){.name = "A <bridge> & its \"deck\"",
                          .file = "invented.yaml",
                          .version = "0",
                          .answer = show_answer(arena),
                          .value_count = 4,
                          .value = value,
                          .units = units};
}
