/* wasm_site FILE OUT: the plan of a bridge file and a day of readings in words, with what this build says
 * after each: {"records", "day", "pages"}. The other build must say the same of the same records. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "../draw.h"
#include "clench/logbook.h"
#include "clench/text.h"

enum { READINGS = 70 };

typedef struct Day {
    Arena *arena, *scratch;
    ReportSource source;
    SiteDay day;
    LogbookRecord record[READINGS + 3];
    int count;
    double minute;
} Day;

static Status plan_find(const char *path, Day *d, Error *err)
{
    const char *bytes;
    size_t size;
    Node *root;
    Diagnostics *list = ARENA_NEW(d->arena, Diagnostics, 1);
    TRY(file_read(path, YAML_SIZE_MAX, d->arena, &bytes, &size, err));
    TRY(yaml_read(bytes, size, d->arena, &root, list));
    TRY(report_find(root, 0, d->arena, d->scratch, &d->source, list, err));
    const JackWish wish = {d->source.bridge, d->source.answer, 0};
    const JackPlan *plan;
    TRY(jacking_plan(&wish, d->arena, d->scratch, &plan, err));
    d->day.units = d->source.units;
    return logbook_points("gap -2 m, gap 0.5 m, gap 2 m, slip left, rise 1", plan, &d->day, err);
}

static Status record_add(Day *d, const char *kind, const char *body)
{
    if (d->count == READINGS + 3) return STATUS_TOO_LARGE;
    d->record[d->count] = (LogbookRecord){.id = arena_printf(d->arena, "id %d", d->count),
                                          .kind = kind,
                                          .at = "2031-05-04T05:00:00Z",
                                          .number = d->count + 1,
                                          .body = body};
    d->count++;
    return STATUS_OK;
}

/* Noise of a hundredth, and now and then a reading that is far off. */
static Status reading_add(Day *d, int step, const char *phase, double force_N, Error *err)
{
    const JackPlan *plan = d->day.plan;
    const double open_m = jacking_expect(plan, force_N).opening.expected_m;
    const double far_1 = draw(0, 1) > 0.94 ? draw(0.7, 1.4) : 1;
    Arena *a = d->arena;
    char step_text[16];
    snprintf(step_text, sizeof step_text, "%d", step);
    d->minute += draw(0.6, 2.7);
    LogbookWords w = {.time =
                          arena_printf(a, "2031-05-04T%02d:%02d:%02dZ", 5 + (int)(d->minute / 60),
                                       (int)d->minute % 60, (int)(60 * d->minute) % 60),
                      .step = arena_text(a, step_text),
                      .phase = phase,
                      .deck = arena_printf(a, "%.1f degC", 14 + d->minute * 0.02),
                      .girder = draw(0, 1) > 0.9 ? "-" : "13.7 degC",
                      .who = "A. B."};
    for (int s = 0; s < plan->gear.sets; s++)
        w.pressure[s] =
            arena_printf(a, "%.2f MPa",
                         jack_pressure_Pa(&plan->gear, far_1 * force_N / plan->gear.count) * 1e-6);
    for (int p = 0; p < 3; p++)
        w.move[p] = arena_printf(a, "%.2f mm", 1000 * (0.003 * p + open_m * draw(0.985, 1.015)));
    w.move[3] = arena_printf(a, "%.3f mm", step * draw(0, 0.05));
    w.move[4] = "-";
    const char *body;
    TRY(logbook_reading_body(&w, &d->day, a, &body, err));
    return record_add(d, "reading", body);
}

/* Up with three readings a step, a hold of five at each third; one reading struck. */
static Status day_make(Day *d, const char *file, Error *err)
{
    const JackPlan *plan = d->day.plan;
    const char *strike;
    TRY(record_add(d, "plan", logbook_plan_body(&d->day, d->source.name, file, d->arena)));
    TRY(reading_add(d, 0, "pump", 0, err));
    for (int i = 0; i < plan->step_count && d->count < READINGS - 9; i++) {
        const double from_N = i ? plan->step[i - 1].force_N : 0, to_N = plan->step[i].force_N;
        for (int k = 1; k <= 3; k++)
            TRY(reading_add(d, i + 1, "pump", from_N + (to_N - from_N) * k / 3, err));
        for (int k = 0; k < 5 && i % 3 == 2; k++)
            TRY(reading_add(d, i + 1, "held", to_N * (1 - 0.002 * k), err));
        if (i != 3) continue;
        TRY(logbook_strike_body(9, "wrong dial", "A", d->arena, &strike, err));
        TRY(record_add(d, "strike", strike));
    }
    return reading_add(d, plan->step_count, "back", 0.6 * plan->thrust_N, err);
}

static void records_write(const Day *d, Json *j)
{
    json_open_list(j, "records");
    for (int i = 0; i < d->count; i++) {
        json_open_map(j, NULL);
        json_int(j, "number", d->record[i].number);
        json_text(j, "id", d->record[i].id);
        json_text(j, "kind", d->record[i].kind);
        json_text(j, "at", d->record[i].at);
        json_text(j, "body", d->record[i].body);
        json_close_map(j);
    }
    json_close_list(j);
}

static Status page_write(Day *d, int count, Json *j, Error *err)
{
    Logbook book;
    arena_reset(d->scratch, 0);
    Text page = text_start(d->scratch);
    TRY(logbook_load(d->record, count, d->scratch, &book, err));
    if (count == 1)
        logbook_day_json(&book, d->scratch, &page);
    else
        logbook_page_json(&book, 360, d->scratch, &page);
    json_text(j, count == 1 ? "day" : NULL, page.bytes);
    return STATUS_OK;
}

static Status day_write(const char *from, const char *to, Day *d, Error *err)
{
    TRY(plan_find(from, d, err));
    TRY(day_make(d, from, err));
    Text text = text_start(d->arena);
    Json j = json_start(&text);
    json_open_map(&j, NULL);
    records_write(d, &j);
    TRY(page_write(d, 1, &j, err));
    json_open_list(&j, "pages");
    for (int count = 2; count <= d->count; count++) TRY(page_write(d, count, &j, err));
    json_close_list(&j);
    json_close_map(&j);
    return file_write(to, text.bytes, text.length, err);
}

int main(int count, char **word)
{
    if (count != 3) return 2;
    Day d = {.arena = arena_create((size_t)1 << 30), .scratch = arena_create((size_t)1 << 30)};
    Error err = {0};
    char text[1024];
    seed = 20310504;
    const Status status = day_write(word[1], word[2], &d, &err);
    if (status != STATUS_OK)
        fprintf(stderr, "%s\n", error_format(&err, word[1], text, sizeof text));
    arena_free(d.arena);
    arena_free(d.scratch);
    return status_exit_code(status);
}
