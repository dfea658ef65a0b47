/* Links, supports and events of a case. */
#include <string.h>

#include "case_parts.h"
#include "check.h"

static void links(CaseModel *c, Arena *arena)
{
    const json_t *shim = json_object_get(c->input, "shim");
    const int n = c->model.station_count;
    Link *link = ARENA_NEW(arena, Link, n);
    for (int i = 0; i < n; i++) {
        double bed = 0, all = 0;
        for (int e = i - 1; e <= i; e++) {
            if (e < 0 || e + 1 >= n) continue;
            const double half = 0.5 * (c->model.x_m[e + 1] - c->model.x_m[e]);
            all += half;
            bed += half;
        }
        const json_t *capacity = json_object_get(shim, "friction_capacity");
        link[i] = (Link){case_get(c, shim, "kv") * bed,
                         case_get(c, shim, "kx") * bed,
                         1e12 * all,
                         1e12 * all,
                         case_get(c, shim, "mu"),
                         !json_is_true(json_object_get(shim, "compression_only")),
                         capacity != NULL};
    }
    c->model.link = link;
}

static void supports(CaseModel *c, Arena *arena)
{
    const json_t *spans = case_array(c, c->input, "spans");
    const int n = case_count(spans) + 1,
              fixed = (int)json_integer_value(json_object_get(c->input, "fixed_support"));
    Support *support = ARENA_NEW(arena, Support, n);
    double x = 0;
    for (int s = 0; s < n; s++) {
        support[s] = (Support){case_station(c, x), 1e13, s == fixed ? 1e13 : 0, 0, -1, -1};
        if (s < n - 1) x += case_item(spans, s) * case_length(c);
    }
    c->model.support = support;
    c->model.support_count = n;
}

static void gaps(CaseModel *c, Arena *arena)
{
    const json_t *runs = json_object_get(c->input, "runs");
    Gap *gap = ARENA_NEW(arena, Gap, case_count(runs) + 1);
    for (int r = 0; r < case_count(runs); r++) {
        const json_t *run = json_array_get(runs, (size_t)r), *strut = json_object_get(run, "strut");
        const json_t *at = case_array(c, run, "gap");
        const double a = case_item(at, 0) * case_length(c), b = case_item(at, 1) * case_length(c);
        gap[r] =
            (Gap){case_station(c, a), case_station(c, b), case_get_or(c, run, "jack_y_from_mid", 0),
                  case_get(c, strut, "E") * case_get(c, strut, "A") / (b - a), 0};
    }
    c->model.gap = gap;
    c->model.gap_count = case_count(runs);
}

/* ---- events ---- */

static Event *next(CaseModel *c, double day, EventKind kind, Cause cause)
{
    if (c->model.event_count == EVENTS_MAX) fail_msg("case file: too many events");
    Event *event = (Event *)c->model.event + c->model.event_count++;
    *event =
        (Event){.day = day, .kind = kind, .cause = cause, .to_station = c->model.station_count - 1};
    return event;
}

static void birth(CaseModel *c, double day, int phase, Cause cause)
{
    next(c, day, EVENT_BIRTH, cause)->phase = phase;
}

static void load(CaseModel *c, double day, int from, int to, double w, bool on_deck, Cause cause)
{
    Event *event = next(c, day, EVENT_LOAD, cause);
    event->from_station = from;
    event->to_station = to;
    event->line_load_N_per_m = w;
    event->on_deck = on_deck;
}

static void girder_weight(CaseModel *c, double day)
{
    size_t i;
    json_t *v;
    json_array_foreach(json_object_get(json_object_get(c->input, "girder"), "sections"), i, v)
        load(c, day, case_station(c, case_get(c, v, "x0")), case_station(c, case_get(c, v, "x1")),
             case_get(c, v, "w"), false, CAUSE_WEIGHT);
}

static void panel_weight(CaseModel *c, double day)
{
    const double w = case_get(c, json_object_get(c->input, "deck"), "w");
    int from = 0;
    for (int g = 0; g < c->model.gap_count; g++) {
        load(c, day, from, c->model.gap[g].left_station, w, true, CAUSE_WEIGHT);
        from = c->model.gap[g].right_station;
    }
    load(c, day, from, c->model.station_count - 1, w, true, CAUSE_WEIGHT);
}

static void bond(CaseModel *c, double day, double from, double to)
{
    Event *event = next(c, day, EVENT_BOND, CAUSE_WEIGHT);
    event->from_station = case_station(c, from);
    event->to_station = case_station(c, to);
}

/* What one event does once, whatever the number of runs. */
static void line_event(CaseModel *c, const json_t *v, const char *what, double day)
{
    const json_t *deck = json_object_get(c->input, "deck");
    const int last = c->model.station_count - 1;
    if (strcmp(what, "girder") == 0 || strcmp(what, "transfer") == 0) {
        birth(c, day, 0, CAUSE_PRESTRESS);
        girder_weight(c, day);
    } else if (strcmp(what, "panels") == 0) {
        panel_weight(c, day);
    } else if (strcmp(what, "joints") == 0) {
        birth(c, day, 1, CAUSE_WEIGHT);
        next(c, day, EVENT_SHIMS, CAUSE_WEIGHT);
    } else if (strcmp(what, "haunch") == 0) {
        load(c, day, 0, last, case_get_or(c, deck, "w_haunch", 0), false, CAUSE_CLOSURE);
        next(c, day, EVENT_BOND, CAUSE_CLOSURE);
    } else if (strcmp(what, "sdl") == 0) {
        load(c, day, 0, last, case_get(c, v, "w"), false, CAUSE_SUPERIMPOSED);
    } else if (strcmp(what, "wet_deck") == 0) {
        load(c, day, 0, last, case_get(c, deck, "w") + case_get_or(c, deck, "w_haunch", 0), false,
             CAUSE_WEIGHT);
    } else if (strcmp(what, "composite") == 0) {
        birth(c, day, 1, CAUSE_WEIGHT);
        next(c, day, EVENT_BOND, CAUSE_WEIGHT);
    } else if (strcmp(what, "tendons") == 0) {
        Event *event = next(c, day, EVENT_TENDON, CAUSE_THRUST);
        event->phase = CASE_TENDON_PHASE;
        event->steps = (int)json_integer_value(json_object_get(v, "steps"));
    }
}

static void jack(CaseModel *c, const json_t *v, int r, double day)
{
    Event *event = next(c, day, EVENT_JACK, CAUSE_THRUST);
    event->gap = r;
    event->thrust_N = case_get(c, v, "P");
    event->steps = (int)json_integer_value(json_object_get(v, "steps"));
}

static void closure(CaseModel *c, int r, double day)
{
    birth(c, day, 2 + 2 * r, CAUSE_CLOSURE);
    Event *event = next(c, day, EVENT_SHIMS_EMPTY, CAUSE_CLOSURE);
    event->from_station = c->model.gap[r].left_station + 1;
    event->to_station = c->model.gap[r].right_station - 1;
}

/* What it does to each run. */
static void run_event(CaseModel *c, const json_t *v, const char *what, double day, int r)
{
    const json_t *run = json_array_get(json_object_get(c->input, "runs"), (size_t)r);
    const double unit = case_length(c);
    if (strcmp(what, "anchors") == 0) {
        const json_t *left = case_array(c, run, "anchor_left"),
                     *right = case_array(c, run, "anchor_right");
        bond(c, day, case_item(left, 0) * unit, case_item(left, 1) * unit);
        bond(c, day, case_item(right, 0) * unit, case_item(right, 1) * unit);
    } else if (strcmp(what, "jack") == 0) {
        jack(c, v, r, day);
    } else if (strcmp(what, "lock") == 0) {
        next(c, day, EVENT_LOCK, CAUSE_THRUST)->gap = r;
    } else if (strcmp(what, "release") == 0) {
        next(c, day, EVENT_RELEASE, CAUSE_RELEASE)->gap = r;
    } else if (strcmp(what, "closure_weight") == 0) {
        load(c, day, c->model.gap[r].left_station, c->model.gap[r].right_station,
             case_get(c, json_object_get(c->input, "deck"), "w"), false, CAUSE_CLOSURE);
    } else if (strcmp(what, "closure") == 0) {
        closure(c, r, day);
    } else if (strcmp(what, "fill") == 0) {
        birth(c, day, 3 + 2 * r, CAUSE_CLOSURE);
    }
}

void case_add_events(CaseModel *c)
{
    size_t i;
    json_t *v;
    json_array_foreach(json_object_get(c->input, "events"), i, v)
    {
        const char *what = json_string_value(json_object_get(v, "do"));
        const char *name = json_string_value(json_object_get(v, "record"));
        const double day = case_get(c, v, "t");
        line_event(c, v, what, day);
        for (int r = 0; r < c->model.gap_count; r++) run_event(c, v, what, day, r);
        if (name) next(c, day, EVENT_NOTE, CAUSE_WEIGHT)->name = name;
    }
}

CaseModel case_read(const char *name, double refine, Arena *arena)
{
    char path[128];
    json_error_t why;
    CaseModel c = {0};
    snprintf(path, sizeof path, "tests/cases/%s.json", name);
    c.root = json_load_file(path, 0, &why);
    if (!c.root) fail_msg("%s: %s", path, why.text);
    c.input = json_object_get(c.root, "input");
    c.results = json_object_get(c.root, "results");
    const char *units = json_string_value(json_object_get(c.root, "units"));
    c.us = units && strcmp(units, "US") == 0;
    c.model.material = ARENA_NEW(arena, Material, MATERIALS_MAX);
    c.model.section = ARENA_NEW(arena, PartSection, SECTIONS_MAX);
    c.model.part = ARENA_NEW(arena, Part, PARTS_MAX);
    c.model.event = ARENA_NEW(arena, Event, EVENTS_MAX);
    const json_t *deck = json_object_get(c.input, "deck");
    c.model.deck_thickness_m = case_get(&c, deck, "t");
    c.model.haunch_m = case_get(&c, deck, "haunch");
    case_lay_mesh(&c, refine, arena);
    case_add_parts(&c);
    links(&c, arena);
    supports(&c, arena);
    gaps(&c, arena);
    case_add_events(&c);
    c.settings = stage_settings_default();
    if (json_object_get(c.input, "dt0")) {
        c.settings.first_step_day = case_get(&c, c.input, "dt0");
        c.settings.step_growth_1 = case_get(&c, c.input, "dt_growth");
    }
    return c;
}

void case_free(CaseModel *c) { json_decref(c->root); }
