/* Records to a job; its dials. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "words.h"

static const char *const point_name[] = {"gap", "slip", "rise", "bearing"};

/* A rule is read to half a millimetre, a dial to a hundredth (common practice, no source). */
static const double division_m[] = {5e-4, 2.5e-5, 5e-4, 5e-4};

/* ---- dials ---- */

static Status point_bad(const char *text, Error *err)
{
    return error_set(
        err, STATUS_BAD_INPUT,
        "--points: '%.60s' is no dial: gap and its place across the deck (gap -18 ft), "
        "slip left or slip right, rise N or bearing N with N of the plan's watched",
        text);
}

/* The n-th watched girder or bearing, counted from 1. */
static int watch_find(const JackPlan *plan, bool bearing, long number)
{
    for (int i = 0; i < plan->watch_count; i++)
        if (plan->watch[i].bearing == bearing && --number == 0) return i;
    return -1;
}

static Status point_read(const char *text, const JackPlan *plan, SitePoint *point, Error *err)
{
    const size_t length = strcspn(text, " ");
    const char *const rest = text + length + (text[length] == ' ');
    int kind = 0;
    while (kind < 4 &&
           (strlen(point_name[kind]) != length || strncmp(text, point_name[kind], length) != 0))
        kind++;
    if (kind == 4 || !*rest) return point_bad(text, err);
    *point = (SitePoint){.kind = (SitePointKind)kind, .division_m = division_m[kind]};
    char *end;
    switch (point->kind) {
    case SITE_GAP:
        if (quantity_read(rest, DIM_LENGTH, &point->across_m, err) != STATUS_OK ||
            fabs(point->across_m) > 0.5 * plan->width_m)
            return point_bad(text, err);
        break;
    case SITE_SLIP:
        point->side = strcmp(rest, "right") == 0;
        if (!point->side && strcmp(rest, "left") != 0) return point_bad(text, err);
        break;
    default:
        point->watch = watch_find(plan, point->kind == SITE_BEARING, strtol(rest, &end, 10));
        if (*end || point->watch < 0) return point_bad(text, err);
    }
    return STATUS_OK;
}

/* The gap at the outer jacks, and between: trade practice asks for three stations at least. */
static void points_usual(const JackPlan *plan, SiteDay *day)
{
    double left_m = 0, right_m = 0;
    for (int i = 0; i < plan->gear.count; i++) {
        left_m = fmin(left_m, plan->gear.across_m[i]);
        right_m = fmax(right_m, plan->gear.across_m[i]);
    }
    const double across_m[] = {left_m, 0.5 * (left_m + right_m), right_m};
    day->point_count = 3;
    for (int p = 0; p < 3; p++)
        day->point[p] = (SitePoint){
            .kind = SITE_GAP, .across_m = across_m[p], .division_m = division_m[SITE_GAP]};
}

Status logbook_points(const char *text, const JackPlan *plan, SiteDay *day, Error *err)
{
    day->plan = plan;
    day->point_count = 0;
    if (!text) {
        points_usual(plan, day);
        return STATUS_OK;
    }
    while (*text) {
        char one[80];
        while (*text == ' ') text++;
        const size_t length = strcspn(text, ",");
        snprintf(one, sizeof one, "%.*s", (int)(length < 79 ? length : 79), text);
        for (size_t end = strlen(one); end > 0 && one[end - 1] == ' ';) one[--end] = 0;
        if (day->point_count == SITE_POINTS)
            return error_set(err, STATUS_BAD_INPUT, "--points: more than %d dials",
                             (int)SITE_POINTS);
        TRY(point_read(one, plan, &day->point[day->point_count], err));
        day->point_count++;
        text += length + (text[length] == ',');
    }
    return day->point_count ? STATUS_OK : point_bad("", err);
}

const char *logbook_plan_body(const SiteDay *day, const char *name, const char *file, Arena *arena)
{
    Text text = text_start(arena);
    Json j = json_start(&text);
    json_open_map(&j, NULL);
    json_text(&j, "program", "clench");
    json_text(&j, "version", clench_version());
    json_text(&j, "name", name);
    json_text(&j, "file", file);
    json_text(&j, "units", day->units == UNITS_SI ? "SI" : "US");
    json_open_list(&j, "points");
    for (int p = 0; p < day->point_count; p++) {
        const SitePoint *const point = &day->point[p];
        json_open_map(&j, NULL);
        json_text(&j, "kind", point_name[point->kind]);
        json_number(&j, "across_m", point->across_m);
        json_int(&j, "side", point->side);
        json_int(&j, "watch", point->watch);
        json_number(&j, "division_m", point->division_m);
        json_close_map(&j);
    }
    json_close_list(&j);
    json_open_map(&j, "plan");
    report_jacking_plan_json(day->plan, &j);
    json_close_map(&j);
    json_close_map(&j);
    return text.bytes;
}

/* ---- loading ---- */

static Status record_bad(const LogbookRecord *record, const char *why, Error *err)
{
    return error_set(err, STATUS_BAD_INPUT, "record %ld (%.20s) does not read: %.200s",
                     record->number, record->kind, why);
}

static const char *text_of(const Node *map, const char *key)
{
    const Node *const node = map && map->kind == NODE_MAP ? node_find(map, key) : NULL;
    return node && node->kind == NODE_TEXT ? node->text : "";
}

static Status points_take(const LogbookRecord *record, const Node *root, SiteDay *day, Error *err)
{
    const Node *const list = node_find(root, "points");
    if (!list || list->kind != NODE_LIST || list->count < 1 || list->count > SITE_POINTS)
        return record_bad(record, "points", err);
    day->point_count = list->count;
    const Node *node = list->first;
    for (int p = 0; p < list->count; p++, node = node->next) {
        SitePoint *const point = &day->point[p];
        int kind = 0;
        while (kind < 4 && strcmp(text_of(node, "kind"), point_name[kind]) != 0) kind++;
        *point = (SitePoint){.kind = (SitePointKind)kind,
                             .across_m = strtod(text_of(node, "across_m"), NULL),
                             .side = (int)strtol(text_of(node, "side"), NULL, 10),
                             .watch = (int)strtol(text_of(node, "watch"), NULL, 10),
                             .division_m = strtod(text_of(node, "division_m"), NULL)};
        const bool watches = kind == SITE_RISE || kind == SITE_BEARING;
        if (kind == 4 || !(point->division_m > 0) || point->side < 0 || point->side > 1 ||
            (watches && (point->watch < 0 || point->watch >= day->plan->watch_count)))
            return record_bad(record, "points", err);
    }
    return STATUS_OK;
}

static Status plan_load(const LogbookRecord *record, const Node *root, Arena *arena, Logbook *book,
                        Error *err)
{
    JackPlan *const plan = ARENA_NEW(arena, JackPlan, 1);
    Error why = {0};
    if (report_jacking_plan_read(node_find(root, "plan"), arena, plan, &why) != STATUS_OK)
        return record_bad(record, why.text, err);
    book->day.plan = plan;
    book->day.units = strcmp(text_of(root, "units"), "SI") == 0 ? UNITS_SI : UNITS_US;
    book->name = text_of(root, "name");
    book->file = text_of(root, "file");
    return points_take(record, root, &book->day, err);
}

static Status reading_load(const LogbookRecord *record, const Node *root, Arena *arena,
                           Logbook *book, Error *err)
{
    Error why = {0};
    LogbookReading *const r = &book->reading[book->count];
    if (!book->day.plan) return record_bad(record, "no plan stands before it", err);
    *r = (LogbookReading){.record = record, .words = words_take(root, arena)};
    if (words_value(&r->words, &book->day, &book->value[book->count], &why) != STATUS_OK)
        return record_bad(record, why.text, err);
    book->count++;
    return STATUS_OK;
}

static LogbookReading *reading_find(const Logbook *book, const char *number)
{
    const long wanted = strtol(number, NULL, 10);
    int low = 0, high = book->count - 1; /* numbers grow */
    while (low <= high) {
        const int middle = (low + high) / 2;
        const long found = book->reading[middle].record->number;
        if (found == wanted) return &book->reading[middle];
        if (found < wanted)
            low = middle + 1;
        else
            high = middle - 1;
    }
    return NULL;
}

static Status mark_load(const LogbookRecord *record, const Node *root, Logbook *book, Error *err)
{
    const bool strike = strcmp(record->kind, "strike") == 0;
    LogbookReading *const r = reading_find(book, text_of(root, strike ? "strikes" : "of"));
    if (!r) return record_bad(record, "there is no such reading before it", err);
    if (strike && !r->struck) {
        r->struck = record->number;
        r->struck_why = text_of(root, "why");
        r->struck_who = text_of(root, "who");
        book->value[r - book->reading].struck = true;
    } else if (!strike) {
        r->call = text_of(root, "call");
        r->reason = text_of(root, "reason");
    }
    return STATUS_OK;
}

static Status record_load(const LogbookRecord *record, Arena *arena, Logbook *book, Error *err)
{
    Node *root;
    Error why = {0};
    if (strcmp(record->kind, "bridge") == 0) {
        book->bridge = record->body;
        return STATUS_OK;
    }
    if (json_read(record->body, strlen(record->body), arena, &root, &why) != STATUS_OK)
        return record_bad(record, why.text, err);
    if (strcmp(record->kind, "plan") == 0) return plan_load(record, root, arena, book, err);
    if (strcmp(record->kind, "reading") == 0) return reading_load(record, root, arena, book, err);
    if (strcmp(record->kind, "strike") == 0 || strcmp(record->kind, "verdict") == 0)
        return mark_load(record, root, book, err);
    return record_bad(record, "a kind that this program does not know", err);
}

Status logbook_load(const LogbookRecord *record, int count, Arena *arena, Logbook *book, Error *err)
{
    *book = (Logbook){.reading = ARENA_NEW(arena, LogbookReading, count + 1),
                      .value = ARENA_NEW(arena, SiteReading, count + 1)};
    for (int i = 0; i < count; i++) TRY(record_load(&record[i], arena, book, err));
    if (!book->day.plan)
        return error_set(err, STATUS_BAD_INPUT,
                         "the log has no plan: start it with clench site open");
    book->next = record[count - 1].number;
    return STATUS_OK;
}

void logbook_judge(const Logbook *book, int index, Arena *arena, SiteVerdict *verdict)
{
    site_judge(&book->day, book->value, index + 1, arena, verdict);
}
