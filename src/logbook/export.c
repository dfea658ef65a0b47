/* The log as CSV (RFC 4180) and as JSON. */
#include <math.h>
#include <string.h>

#include "words.h"

/* ---- CSV ---- */

static void cell(Text *text, const char *words)
{
    if (text->length && text->bytes[text->length - 1] != '\n') text_add(text, ",");
    csv_cell(text, *words ? words : "-"); /* never empty: the first of a row neither */
}

static void number(Text *text, double value_SI, const char *unit)
{
    char out[64] = "-";
    if (isfinite(value_SI)) snprintf(out, sizeof out, "%.9g", quantity_in(value_SI, unit));
    cell(text, out);
}

static const char *const length_unit[] = {[UNITS_US] = "in", [UNITS_SI] = "mm"};

static void head(const Logbook *book, Arena *arena, Text *text)
{
    const UnitSystem u = book->day.units;
    const char *const force = quantity_unit(u, DIM_FORCE), *const length = length_unit[u];
    static const char *const first[] = {"record",         "written", "id",   "struck by",
                                        "struck because", "time",    "step", "phase"};
    for (int i = 0; i < 8; i++) cell(text, first[i]);
    for (int i = 0; i < book->day.plan->gear.sets; i++)
        cell(text, arena_printf(arena, "pressure %d [%s]", i + 1, quantity_unit(u, DIM_STRESS)));
    for (int i = 0; i < book->day.point_count; i++)
        cell(text, arena_printf(arena, "move %d [%s]", i + 1, length));
    cell(text, arena_printf(arena, "deck [%s]", quantity_unit(u, DIM_TEMPERATURE)));
    cell(text, arena_printf(arena, "girder [%s]", quantity_unit(u, DIM_TEMPERATURE)));
    cell(text, arena_printf(arena, "cell [%s]", force));
    cell(text, "who");
    cell(text, "remark");
    cell(text, "as written");
    cell(text, "said");
    cell(text, arena_printf(arena, "force [%s]", force));
    static const char *const made[] = {"opening", "least", "expected", "most"};
    for (int i = 0; i < 4; i++) cell(text, arena_printf(arena, "%s [%s]", made[i], length));
    cell(text, "verdict now");
    text_add(text, "\n");
}

static const char *or_dash(const char *text) { return word_read(text) ? text : "-"; }

/* The words with their own units, as they stand in the record. */
static const char *as_written(const Logbook *book, const LogbookWords *w, Arena *arena)
{
    Text text = text_start(arena);
    for (int i = 0; i < book->day.plan->gear.sets; i++)
        text_printf(&text, "%s%s", i ? "; " : "", or_dash(w->pressure[i]));
    for (int i = 0; i < book->day.point_count; i++) text_printf(&text, "; %s", or_dash(w->move[i]));
    text_printf(&text, "; %s; %s; %s", or_dash(w->deck), or_dash(w->girder), or_dash(w->cell));
    return text.bytes;
}

static void row(const Logbook *book, int index, const SiteVerdict *v, Arena *arena, Text *text)
{
    const LogbookReading *const r = &book->reading[index];
    const SiteReading *const value = &book->value[index];
    const UnitSystem u = book->day.units;
    const char *const force = quantity_unit(u, DIM_FORCE), *const length = length_unit[u];
    const char *const warmth = quantity_unit(u, DIM_TEMPERATURE);
    cell(text, arena_printf(arena, "%ld", r->record->number));
    cell(text, r->record->at);
    cell(text, r->record->id);
    cell(text, r->struck ? arena_printf(arena, "%ld", r->struck) : "-");
    cell(text, or_dash(r->struck_why));
    cell(text, r->words.time);
    cell(text, r->words.step);
    cell(text, r->words.phase);
    for (int i = 0; i < book->day.plan->gear.sets; i++)
        number(text, value->pressure_Pa[i], quantity_unit(u, DIM_STRESS));
    for (int i = 0; i < book->day.point_count; i++) number(text, value->move_m[i], length);
    number(text, value->deck_K, warmth);
    number(text, value->girder_K, warmth);
    number(text, value->cell_N, force);
    cell(text, or_dash(r->words.who));
    cell(text, or_dash(r->words.remark));
    cell(text, as_written(book, &r->words, arena));
    cell(text, or_dash(r->call));
    number(text, v->force_N, force);
    number(text, v->opening_m, length);
    number(text, v->low_m, length);
    number(text, v->expected_m, length);
    number(text, v->high_m, length);
    cell(text, r->struck ? "-" : site_call_name(v->call));
    text_add(text, "\n");
}

void logbook_csv(const Logbook *book, Arena *scratch, Text *text)
{
    const size_t level = arena_mark(scratch);
    head(book, scratch, text);
    for (int i = 0; i < book->count; i++) {
        SiteVerdict v;
        logbook_judge(book, i, scratch, &v);
        row(book, i, &v, scratch, text);
        arena_reset(scratch, level);
    }
}

/* ---- JSON ---- */

static void reading_json(const Logbook *book, int index, Arena *scratch, Json *j)
{
    const LogbookReading *const r = &book->reading[index];
    const SiteReading *const value = &book->value[index];
    SiteVerdict v;
    json_open_map(j, NULL);
    json_int(j, "record", r->record->number);
    json_text(j, "id", r->record->id);
    json_text(j, "written", r->record->at);
    json_text(j, "hash", r->record->hash);
    json_text(j, "time", r->words.time);
    json_int(j, "step", value->step);
    json_text(j, "phase", r->words.phase);
    json_numbers(j, "pressure_Pa", value->pressure_Pa, book->day.plan->gear.sets);
    json_numbers(j, "move_m", value->move_m, book->day.point_count);
    json_number(j, "deck_K", value->deck_K);
    json_number(j, "girder_K", value->girder_K);
    json_number(j, "cell_N", value->cell_N);
    json_text(j, "as_written", as_written(book, &r->words, scratch));
    json_text(j, "who", r->words.who);
    json_text(j, "remark", r->words.remark);
    if (r->struck) {
        json_int(j, "struck_by_record", r->struck);
        json_text(j, "struck_because", r->struck_why);
        json_text(j, "struck_who", r->struck_who);
    }
    json_text(j, "said", r->call);
    json_text(j, "said_because", r->reason);
    if (!r->struck) {
        logbook_judge(book, index, scratch, &v);
        json_open_map(j, "verdict_now");
        site_verdict_json(&v, j);
        json_close_map(j);
    }
    json_close_map(j);
}

void logbook_json(const Logbook *book, Arena *scratch, Text *text)
{
    const size_t level = arena_mark(scratch);
    Json j = json_start(text);
    json_open_map(&j, NULL);
    json_text(&j, "program", "clench");
    json_text(&j, "version", clench_version());
    json_text(&j, "name", book->name);
    json_text(&j, "file", book->file);
    json_text(&j, "caution", report_caution());
    json_open_list(&j, "readings");
    for (int i = 0; i < book->count; i++) {
        reading_json(book, i, scratch, &j);
        arena_reset(scratch, level);
    }
    json_close_list(&j);
    json_open_map(&j, "plan");
    report_jacking_plan_json(book->day.plan, &j);
    json_close_map(&j);
    json_close_map(&j);
    text_add(text, "\n");
}
