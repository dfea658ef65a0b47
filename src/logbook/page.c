/* What the page on site shows, as JSON: the day in words, then verdict and pictures of the readings. */
#include <math.h>
#include <string.h>

#include "words.h"

/* ---- words of the form ---- */

/* "move 3" of a name and a number; 0: it is another name. */
static int numbered(const char *key, const char *name, int most)
{
    const size_t length = strlen(name);
    if (strncmp(key, name, length) != 0 || key[length] != ' ') return 0;
    for (int i = 1; i <= most; i++) {
        char number[8];
        snprintf(number, sizeof number, "%d", i);
        if (strcmp(key + length + 1, number) == 0) return i;
    }
    return 0;
}

static const char **word_place(LogbookWords *words, const char *key)
{
    const struct {
        const char *name, **place;
    } one[] = {{"time", &words->time}, {"step", &words->step},     {"phase", &words->phase},
               {"deck", &words->deck}, {"girder", &words->girder}, {"cell", &words->cell},
               {"who", &words->who},   {"remark", &words->remark}};
    for (size_t i = 0; i < sizeof one / sizeof *one; i++)
        if (strcmp(key, one[i].name) == 0) return one[i].place;
    const int set = numbered(key, "pressure", JACK_SETS),
              point = numbered(key, "move", SITE_POINTS);
    return set ? &words->pressure[set - 1] : point ? &words->move[point - 1] : NULL;
}

Status logbook_words(const Node *map, Arena *arena, LogbookWords *words, Error *err)
{
    LogbookWords made = {0};
    if (!map || map->kind != NODE_MAP)
        return error_set(err, STATUS_BAD_INPUT, "a reading is a map of texts");
    for (const Node *node = map->first; node; node = node->next) {
        const char **const place = word_place(&made, node->key);
        if (!place || node->kind != NODE_TEXT || node->plain)
            return error_at(err, STATUS_BAD_INPUT, (Place){0}, (Place){0}, node->key,
                            "'%.40s' is no text that a reading has: time, step, phase, pressure N, "
                            "move N, deck, girder, cell, who, remark",
                            node->key);
        *place = arena_text(arena, node->text);
    }
    *words = made;
    return STATUS_OK;
}

/* ---- numbers in words ---- */

typedef struct Page {
    const Logbook *book;
    const JackPlan *plan;
    UnitSystem units;
    Arena *arena;
    Json *json;
} Page;

static Page page_of(const Logbook *book, Arena *arena, Json *json)
{
    return (Page){book, book->day.plan, book->day.units, arena, json};
}

static const char *move_unit(const Page *p) { return p->units == UNITS_SI ? "mm" : "in"; }

/* As a dial shows it: without its unit, that stands once over all. */
static void move_add(const Page *p, const char *key, double move_m)
{
    if (!isfinite(move_m)) {
        json_none(p->json, key);
        return;
    }
    const double shown = quantity_in(move_m, move_unit(p));
    const int places = p->units == UNITS_SI ? 2 : 3;
    const bool zero = fabs(shown) < 0.5 * pow(10, -places); /* never "-0.000" */
    json_text(p->json, key, arena_printf(p->arena, "%.*f", places, zero ? 0 : shown));
}

static void pressure_add(const Page *p, const char *key, double pressure_Pa)
{
    const int places = p->units == UNITS_SI ? 1 : 0;
    json_text(p->json, key,
              arena_printf(p->arena, "%.*f", places,
                           quantity_in(pressure_Pa, quantity_unit(p->units, DIM_STRESS))));
}

static void force_add(const Page *p, const char *key, double force_N)
{
    const char *const unit = quantity_unit(p->units, DIM_FORCE);
    if (isfinite(force_N))
        json_text(p->json, key,
                  arena_printf(p->arena, "%.0f %s", quantity_in(force_N, unit), unit));
    else
        json_none(p->json, key);
}

/* ---- the day ---- */

static const char *length_words(const Page *p, double length_m)
{
    const char *const unit = quantity_unit(p->units, DIM_LENGTH);
    return arena_printf(p->arena, "%.4g %s", quantity_in(length_m, unit), unit);
}

static const char *point_name(const Page *p, const SitePoint *point)
{
    static const char *const side[] = {"left", "right"};
    const JackWatch *const watch = &p->plan->watch[point->watch];
    switch (point->kind) {
    case SITE_GAP:
        if (fabs(point->across_m) < 1e-6) return "gap, middle";
        return arena_printf(p->arena, "gap, %s %s", length_words(p, fabs(point->across_m)),
                            side[point->across_m > 0]);
    case SITE_SLIP: return arena_printf(p->arena, "slip of the %s anchor panel", side[point->side]);
    case SITE_RISE: return arena_printf(p->arena, "rise of the girders, span %d", watch->number);
    default: return arena_printf(p->arena, "bearing, support %d, to the right", watch->number);
    }
}

static const char *set_name(const Page *p, int set)
{
    Text text = text_start(p->arena);
    int said = 0;
    for (int i = 0; i < p->plan->gear.count; i++)
        if (p->plan->gear.set[i] == set)
            text_printf(&text, "%s%d", said++ ? ", " : said ? "" : "jacks ", i + 1);
    return text.bytes;
}

static void step_json(const Page *p, const JackStep *step)
{
    json_open_map(p->json, NULL);
    json_int(p->json, "stage", step->stage);
    json_bool(p->json, "stage_end", step->stage_end);
    json_number(p->json, "share", step->share_1);
    force_add(p, "force", step->force_N);
    pressure_add(p, "pressure", step->pressure_Pa);
    move_add(p, "low", step->opening.low_m);
    move_add(p, "expected", step->opening.expected_m);
    move_add(p, "high", step->opening.high_m);
    json_number(p->json, "hold_min", step->hold_day * 1440);
    json_close_map(p->json);
}

static void cautions_json(const Page *p)
{
    json_open_list(p->json, "cautions");
    json_text(p->json, NULL,
              arena_printf(p->arena,
                           "Nobody within %s of the gap, in line with the jacks, below the deck or "
                           "over a joint. No hand on a hose.",
                           length_words(p, p->plan->alarm.exclusion_m)));
    json_text(p->json, NULL,
              "Lock as you go: nuts or shims follow every movement, at most 1/16 in (1.5 mm) "
              "behind.");
    json_text(p->json, NULL,
              "Advice to who leads the jacking. It does not replace the engineer of record; never "
              "raise the pressure to chase a movement.");
    json_close_list(p->json);
}

void logbook_day_json(const Logbook *book, Arena *arena, Text *text)
{
    Json json = json_start(text), *const j = &json;
    const Page page = page_of(book, arena, j), *const p = &page;
    json_open_map(j, NULL);
    json_text(j, "name", book->name);
    json_text(j, "file", book->file);
    json_text(j, "unit", p->plan->unit);
    json_text(j, "pressure_unit", quantity_unit(p->units, DIM_STRESS));
    json_text(j, "move_unit", move_unit(p));
    json_text(j, "temperature_unit", quantity_unit(p->units, DIM_TEMPERATURE));
    json_text(j, "force_unit", quantity_unit(p->units, DIM_FORCE));
    json_open_list(j, "sets");
    for (int s = 1; s <= p->plan->gear.sets; s++) json_text(j, NULL, set_name(p, s));
    json_close_list(j);
    json_open_list(j, "dials");
    for (int i = 0; i < book->day.point_count; i++)
        json_text(j, NULL, point_name(p, &book->day.point[i]));
    json_close_list(j);
    json_open_list(j, "phases");
    for (int i = 0; i < SITE_PHASES; i++) json_text(j, NULL, site_phase_name((SitePhase)i));
    json_close_list(j);
    json_open_list(j, "steps");
    for (int i = 0; i < p->plan->step_count; i++) step_json(p, &p->plan->step[i]);
    json_close_list(j);
    cautions_json(p);
    json_close_map(j);
}

/* ---- what each dial should show ---- */

/* Since the zero reading; the anchor's most is where the plan's alarm begins. */
static JackBand dial_band(const Page *p, const SitePoint *point, int step)
{
    const JackStep *const s = &p->plan->step[step];
    JackBand band = {.low_m = NAN, .high_m = NAN};
    switch (point->kind) {
    case SITE_GAP: return s->opening;
    case SITE_SLIP:
        band.expected_m = fabs(s->anchor_slip_m[point->side]);
        band.high_m = band.expected_m + p->plan->alarm.slip_m;
        break;
    default: band.expected_m = p->plan->watch[point->watch].move_m[step];
    }
    return band;
}

static void dials_json(const Page *p)
{
    const SiteDay *const day = &p->book->day;
    double zero_m[SITE_POINTS];
    bool known = false;
    site_dials(day, p->book->value, p->book->count, p->arena, zero_m);
    for (int i = 0; i < day->point_count; i++) known = known || isfinite(zero_m[i]);
    json_open_list(p->json, "dials"); /* of each step; none without a zero reading */
    for (int step = 0; known && step < p->plan->step_count; step++) {
        json_open_list(p->json, NULL);
        for (int i = 0; i < day->point_count; i++) {
            const JackBand band = dial_band(p, &day->point[i], step);
            json_open_map(p->json, NULL);
            move_add(p, "low", zero_m[i] + band.low_m);
            move_add(p, "expected", zero_m[i] + band.expected_m);
            move_add(p, "high", zero_m[i] + band.high_m);
            json_close_map(p->json);
        }
        json_close_list(p->json);
    }
    json_close_list(p->json);
}

/* ---- readings, verdict, pictures ---- */

static void readings_json(const Page *p)
{
    const SiteSeen *seen;
    const Logbook *const book = p->book;
    const int count = site_see(&book->day, book->value, book->count, p->arena, &seen);
    json_open_list(p->json, "readings");
    for (int i = 0; i < count; i++) {
        const LogbookReading *const r = &book->reading[seen[i].index];
        json_open_map(p->json, NULL);
        json_text(p->json, "id", r->record->id);
        force_add(p, "force", seen[i].force_N);
        move_add(p, "opening", seen[i].opening_m);
        json_close_map(p->json);
    }
    json_close_list(p->json);
}

static int judged_index(const Logbook *book)
{
    int at = book->count - 1;
    while (at >= 0 && book->value[at].struck) at--;
    return at;
}

static void verdict_json(const Page *p)
{
    const int at = judged_index(p->book);
    SiteVerdict v;
    if (at < 0) {
        json_none(p->json, "verdict");
        return;
    }
    logbook_judge(p->book, at, p->arena, &v);
    json_open_map(p->json, "verdict");
    json_text(p->json, "id", p->book->reading[at].record->id);
    json_text(p->json, "act", site_call_act(v.call));
    site_verdict_json(&v, p->json);
    json_close_map(p->json);
}

static void table_json(const Page *p, const FigureTable *t)
{
    json_open_map(p->json, "table");
    json_text(p->json, "caption", t->caption);
    json_open_list(p->json, "head");
    for (int c = 0; c < t->column_count; c++) json_text(p->json, NULL, t->head[c]);
    json_close_list(p->json);
    json_open_list(p->json, "rows");
    for (int r = 0; r < t->row_count; r++) {
        json_open_list(p->json, NULL);
        for (int c = 0; c < t->column_count; c++)
            json_text(p->json, NULL, t->cell[r * t->column_count + c]);
        json_close_list(p->json);
    }
    json_close_list(p->json);
    json_close_map(p->json);
}

static void picture_json(const Page *p, const Figure *f)
{
    if (!f) return;
    Text svg = text_start(p->arena);
    report_svg(f, "site", false, &svg);
    json_open_map(p->json, NULL);
    json_text(p->json, "id", f->id);
    json_text(p->json, "title", f->title);
    json_text(p->json, "description", f->description);
    json_text(p->json, "svg", svg.bytes);
    table_json(p, f->table);
    json_close_map(p->json);
}

void logbook_page_json(const Logbook *book, double width_px, Arena *arena, Text *text)
{
    Json json = json_start(text);
    const Page page = page_of(book, arena, &json), *const p = &page;
    const FigureSite site = {&book->day, book->value, book->count, width_px};
    json_open_map(&json, NULL);
    verdict_json(p);
    dials_json(p);
    readings_json(p);
    json_open_list(&json, "pictures");
    picture_json(p, figure_site_force(&site, arena));
    picture_json(p, figure_site_hold(&site, arena));
    json_close_list(&json);
    json_close_map(&json);
}
