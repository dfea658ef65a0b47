/* Rows of a logger: CSV (RFC 4180; comma, semicolon or tab) to readings. Strict: all rows or none. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "words.h"

/* What a column gives. */
typedef enum Field {
    F_NONE = -1,
    F_TIME,
    F_STEP,
    F_PHASE,
    F_DECK,
    F_GIRDER,
    F_CELL,
    F_WHO,
    F_REMARK,
    F_STRUCK, /* of an export: such rows are left out */
    F_PRESSURE,
    F_MOVE = F_PRESSURE + JACK_SETS,
    F_COUNT = F_MOVE + SITE_POINTS
} Field;

typedef struct Cell {
    const char *text;
    Place from;
} Cell;

typedef struct Sheetful {
    const char *at, *end;
    char separator;
    int line, column;
    Cell cell[LOGBOOK_CELLS_MAX];
    int count; /* of the row that was read last */
    Arena *arena;
    const SiteDay *day;
    int of[F_COUNT];           /* column of a field; -1: none */
    const char *unit[F_COUNT]; /* put behind a cell; the time's zone */
    Diagnostics *list;
} Sheetful;

static Status wrong(Sheetful *s, Place place, const char *key, const char *text)
{
    Error err = {0};
    error_at(&err, STATUS_BAD_INPUT, place, place, key, "%s", text);
    diagnostics_add(s->list, &err);
    return STATUS_BAD_INPUT;
}

/* ---- rows and cells ---- */

static void next_char(Sheetful *s)
{
    if (((unsigned char)*s->at & 0xC0) != 0x80) s->column++;
    s->at++;
}

static Status quoted_read(Sheetful *s, Place from, Text *text)
{
    next_char(s);
    for (;;) {
        if (s->at == s->end || *s->at == '\n' || *s->at == '\r')
            return wrong(s, from, "", "the quote is not closed on its line");
        if (*s->at == '"') {
            next_char(s);
            if (s->at == s->end || *s->at != '"') return STATUS_OK;
        }
        text_addn(text, s->at, 1);
        next_char(s);
    }
}

static bool cell_ends(const Sheetful *s)
{
    return s->at == s->end || *s->at == s->separator || *s->at == '\n' || *s->at == '\r';
}

static const char *trimmed(Arena *arena, const char *text)
{
    size_t length = strlen(text);
    while (length && text[length - 1] == ' ') length--;
    while (length && *text == ' ') text++, length--;
    return arena_textn(arena, text, length);
}

static Status cell_read(Sheetful *s)
{
    Text text = text_start(s->arena);
    const Place from = {s->line, s->column};
    text_add(&text, "");
    if (s->count == LOGBOOK_CELLS_MAX) return wrong(s, from, "", "a row has more than 64 cells");
    if (s->at < s->end && *s->at == '"') {
        TRY(quoted_read(s, from, &text));
        if (!cell_ends(s))
            return wrong(s, (Place){s->line, s->column}, "",
                         "something stands behind the closing quote");
    }
    while (!cell_ends(s)) {
        if (!*s->at || *s->at == '"')
            return wrong(s, (Place){s->line, s->column}, "",
                         "a quote or a zero byte inside a cell");
        text_addn(&text, s->at, 1);
        next_char(s);
    }
    s->cell[s->count++] = (Cell){csv_words(trimmed(s->arena, text.bytes ? text.bytes : "")), from};
    return STATUS_OK;
}

/* False at the end of the text. An empty line is left out. */
static Status row_read(Sheetful *s, bool *row)
{
    s->count = 0;
    *row = false;
    while (s->at < s->end && (*s->at == '\n' || *s->at == '\r')) {
        s->line += *s->at == '\n';
        s->at++;
    }
    s->column = 1;
    if (s->at == s->end) return STATUS_OK;
    *row = true;
    for (;;) {
        TRY(cell_read(s));
        if (s->at == s->end || *s->at != s->separator) return STATUS_OK;
        next_char(s);
    }
}

static char separator_of(const char *bytes, size_t size)
{
    bool quoted = false;
    for (size_t i = 0; i < size && bytes[i] != '\n'; i++) {
        if (bytes[i] == '"') quoted = !quoted;
        if (!quoted && strchr(",;\t", bytes[i]) && bytes[i]) return bytes[i];
    }
    return ',';
}

/* ---- heads ---- */

static const char *field_name(Arena *arena, int field)
{
    static const char *const name[] = {"time", "step", "phase",  "deck",     "girder",
                                       "cell", "who",  "remark", "struck by"};
    if (field >= F_MOVE) return arena_printf(arena, "move %d", field - F_MOVE + 1);
    if (field >= F_PRESSURE) return arena_printf(arena, "pressure %d", field - F_PRESSURE + 1);
    return name[field];
}

static int field_find(const Sheetful *s, const char *name)
{
    for (int f = 0; f < F_COUNT; f++)
        if (strcmp(field_name(s->arena, f), name) == 0) return f;
    return F_NONE;
}

static bool has_unit(int field)
{
    return field == F_DECK || field == F_GIRDER || field == F_CELL || field >= F_PRESSURE;
}

static DimensionId dimension_of(int field)
{
    if (field >= F_MOVE) return DIM_LENGTH;
    if (field >= F_PRESSURE) return DIM_STRESS;
    return field == F_CELL ? DIM_FORCE : DIM_TEMPERATURE;
}

/* "Pump A [psi]" to "Pump A" and "psi". */
static void head_split(Arena *arena, const char *head, const char **name, const char **unit)
{
    const char *const open = strrchr(head, '[');
    const size_t length = strlen(head);
    *unit = NULL;
    *name = head;
    if (!open || head[length - 1] != ']') return;
    *unit = trimmed(arena, arena_textn(arena, open + 1, (size_t)(head + length - 2 - open)));
    *name = trimmed(arena, arena_textn(arena, head, (size_t)(open - head)));
}

/* The field of a column: by the map, or by our own names. */
static int column_field(const Sheetful *s, const Node *map, const char *name, const char **unit)
{
    if (!map) return field_find(s, name);
    for (const Node *node = map->first; node; node = node->next) {
        const char *wanted, *given;
        if (node->kind != NODE_TEXT) continue;
        head_split(s->arena, node->text, &wanted, &given);
        if (strcmp(wanted, name) != 0) continue;
        if (!*unit) *unit = given;
        return field_find(s, node->key);
    }
    return F_NONE;
}

static Status column_take(Sheetful *s, const Node *map, int column)
{
    const char *name, *unit;
    double value;
    const Cell *const c = &s->cell[column];
    head_split(s->arena, c->text, &name, &unit);
    const int f = column_field(s, map, name, &unit);
    if (f == F_NONE) return STATUS_OK;
    if (s->of[f] >= 0)
        return wrong(s, c->from, field_name(s->arena, f), "a column before gives this already");
    if (has_unit(f) && (!unit || quantity_read(arena_printf(s->arena, "300 %s", unit),
                                               dimension_of(f), &value, NULL) != STATUS_OK))
        return wrong(s, c->from, field_name(s->arena, f),
                     arena_printf(s->arena, "'%.60s' needs %s in its head, such as [%s]", c->text,
                                  dimension_called(dimension_of(f)),
                                  quantity_unit(s->day->units, dimension_of(f))));
    s->of[f] = column;
    s->unit[f] = unit;
    return STATUS_OK;
}

/* What the map asks for must be there; names it does not know are typing errors. */
static Status map_check(Sheetful *s, const Node *map)
{
    Status status = STATUS_OK;
    if (map && map->kind != NODE_MAP)
        return wrong(s, (Place){0}, "map", "is not a list of our names and heads");
    for (const Node *node = map ? map->first : NULL; node; node = node->next) {
        const int f = field_find(s, node->key);
        if (f == F_NONE || node->kind != NODE_TEXT)
            status = wrong(s, (Place){0}, arena_printf(s->arena, "map: %.60s", node->key),
                           "is none of time, step, phase, pressure N, move N, deck, girder, cell, "
                           "who, remark");
        else if (s->of[f] < 0)
            status = wrong(s, (Place){1, 1}, arena_printf(s->arena, "map: %.60s", node->key),
                           arena_printf(s->arena, "no column has the head '%.60s'", node->text));
    }
    if (s->of[F_TIME] < 0) status = wrong(s, (Place){1, 1}, "time", "no column gives the time");
    return status;
}

static Status heads_read(Sheetful *s, const Node *map, int *columns)
{
    bool row = false;
    Status status = STATUS_OK;
    for (int f = 0; f < F_COUNT; f++) s->of[f] = -1;
    TRY(row_read(s, &row));
    if (!row) return wrong(s, (Place){1, 1}, "", "there is nothing in it");
    *columns = s->count;
    for (int c = 0; c < s->count; c++)
        if (column_take(s, map, c) != STATUS_OK) status = STATUS_BAD_INPUT;
    const Status mapped = map_check(s, map);
    return status != STATUS_OK ? status : mapped;
}

/* Columns that give nothing are named, so that none is missed by a typing error. */
static void unused_tell(const Sheetful *s, Text *told)
{
    int said = 0;
    for (int c = 0; c < s->count; c++) {
        bool used = false;
        for (int f = 0; f < F_COUNT; f++) used = used || s->of[f] == c;
        if (!used)
            text_printf(told, "%s%.60s", said++ ? ", " : "columns not taken: ", s->cell[c].text);
    }
    if (said) text_add(told, "\n");
}

/* ---- readings ---- */

static const char *field_words(const Sheetful *s, int field, const char *fixed)
{
    const int column = s->of[field];
    if (column < 0) return fixed;
    const char *const text = s->cell[column].text;
    if (!word_read(text)) return fixed;
    return has_unit(field) ? arena_printf(s->arena, "%s %s", text, s->unit[field]) : text;
}

static LogbookWords row_words(const Sheetful *s, const LogbookWords *fixed)
{
    LogbookWords w = {.time = field_words(s, F_TIME, NULL),
                      .step = field_words(s, F_STEP, fixed->step),
                      .phase = field_words(s, F_PHASE, fixed->phase),
                      .deck = field_words(s, F_DECK, fixed->deck),
                      .girder = field_words(s, F_GIRDER, fixed->girder),
                      .cell = field_words(s, F_CELL, NULL),
                      .who = field_words(s, F_WHO, fixed->who),
                      .remark = field_words(s, F_REMARK, fixed->remark)};
    for (int i = 0; i < JACK_SETS; i++) w.pressure[i] = field_words(s, F_PRESSURE + i, NULL);
    for (int i = 0; i < SITE_POINTS; i++) w.move[i] = field_words(s, F_MOVE + i, NULL);
    if (word_read(w.time) && s->unit[F_TIME] && w.time[strlen(w.time) - 1] != 'Z')
        w.time = arena_printf(s->arena, "%s%s", w.time,
                              strcmp(s->unit[F_TIME], "UTC") == 0 ? "Z" : s->unit[F_TIME]);
    return w;
}

/* Our key of an error to the cell it stands in. */
static Place place_of(const Sheetful *s, const char *key)
{
    const int f = field_find(s, key);
    return f >= 0 && s->of[f] >= 0 ? s->cell[s->of[f]].from : s->cell[0].from;
}

const char *logbook_row_id(const char *body, Arena *arena)
{
    unsigned char digest[SHA256_SIZE];
    char hex[SHA256_TEXT];
    Sha256 sha = sha256_start();
    sha256_add(&sha, body, strlen(body));
    sha256_end(&sha, digest);
    sha256_text(digest, hex);
    return arena_printf(arena, "row:%.32s", hex);
}

static Status row_take(Sheetful *s, const LogbookWords *fixed, const char *at, LogbookRows *rows,
                       double *time_day)
{
    Error err = {0};
    const char *body;
    SiteReading value;
    const LogbookWords w = row_words(s, fixed);
    if (word_read(field_words(s, F_STRUCK, NULL))) {
        text_printf(&rows->told, "line %d: struck, left out\n", s->cell[0].from.line);
        return STATUS_OK;
    }
    Status status = logbook_reading_body(&w, s->day, s->arena, &body, &err);
    if (status == STATUS_OK) status = words_value(&w, s->day, &value, &err);
    if (status != STATUS_OK) return wrong(s, place_of(s, err.key), err.key, err.text);
    *time_day = value.time_day;
    rows->line[rows->count] = s->cell[0].from.line;
    rows->record[rows->count++] = (LogbookRecord){
        .id = logbook_row_id(body, s->arena), .kind = "reading", .at = at, .body = body};
    return STATUS_OK;
}

static int by_id(const void *a, const void *b)
{
    const LogbookRecord *const x = *(const LogbookRecord *const *)a,
                               *const y = *(const LogbookRecord *const *)b;
    const int order = strcmp(x->id, y->id);
    return order ? order : (x > y) - (x < y);
}

/* The same row again, as loggers that were interrupted send it: left out and told. */
static void repeated_drop(LogbookRows *rows, double *time_day, Arena *arena)
{
    const LogbookRecord **sorted = ARENA_NEW(arena, const LogbookRecord *, rows->count + 1);
    for (int i = 0; i < rows->count; i++) sorted[i] = &rows->record[i];
    qsort(sorted, (size_t)rows->count, sizeof(const LogbookRecord *), by_id);
    for (int i = 1; i < rows->count; i++)
        if (strcmp(sorted[i]->id, sorted[i - 1]->id) == 0)
            rows->record[sorted[i] - rows->record].repeated = true;
    int kept = 0;
    for (int i = 0; i < rows->count; i++) {
        if (rows->record[i].repeated) {
            rows->repeated++;
            text_printf(&rows->told, "line %d: the same row stands above, left out\n",
                        rows->line[i]);
            continue;
        }
        rows->record[kept] = rows->record[i];
        rows->line[kept] = rows->line[i];
        time_day[kept++] = time_day[i];
    }
    rows->count = kept;
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Back in time is an error; more than half an interval over the usual one is told as rows that are missing. */
static Status times_check(Sheetful *s, const LogbookRows *rows, const double *time_day, Text *told)
{
    const int n = rows->count;
    Status status = STATUS_OK;
    double *const gap = ARENA_NEW(s->arena, double, n + 1);
    for (int i = 1; i < n; i++) {
        gap[i - 1] = 86400 * (time_day[i] - time_day[i - 1]);
        if (gap[i - 1] < -1e-3)
            status = wrong(
                s, (Place){rows->line[i], 1}, "time",
                "goes back; the clock of the logger was set: give the two parts as two files");
    }
    if (n < 3 || status != STATUS_OK) return status;
    qsort(gap, (size_t)(n - 1), sizeof *gap, by_size);
    const double usual =
        gap[(n - 2) / 2]; /* of n - 1, the lower middle: rather tell once too often */
    for (int i = 1; usual > 0 && i < n; i++) {
        const double here = 86400 * (time_day[i] - time_day[i - 1]);
        if (here > 1.5 * usual)
            text_printf(told,
                        "line %d: %.0f s after the row before, usual are %.3g s: about %.0f rows "
                        "are missing\n",
                        rows->line[i], here, usual, round(here / usual) - 1);
        else if (here < 1e-3)
            text_printf(told, "line %d: same time as the row before, other values: both are kept\n",
                        rows->line[i]);
    }
    return status;
}

/* Lines are no fewer than rows. */
static int rows_room(const char *bytes, size_t size)
{
    int room = 1;
    for (size_t i = 0; i < size && room < LOGBOOK_ROWS_MAX; i++)
        room += bytes[i] == '\n' || bytes[i] == '\r';
    return room;
}

static Status rows_read(Sheetful *s, int columns, const LogbookWords *fixed, const char *at,
                        LogbookRows *rows)
{
    const int room = rows_room(s->at, (size_t)(s->end - s->at));
    double *const time_day = ARENA_NEW(s->arena, double, room);
    Status status = STATUS_OK;
    for (bool row = true;;) {
        TRY(row_read(s, &row));
        if (!row) break;
        if (rows->count == room) return wrong(s, s->cell[0].from, "", "more than 100000 rows");
        if (s->count != columns)
            status = wrong(
                s, s->cell[0].from, "",
                arena_printf(s->arena, "the row has %d cells, the head %d", s->count, columns));
        else if (row_take(s, fixed, at, rows, &time_day[rows->count]) != STATUS_OK)
            status = STATUS_BAD_INPUT;
    }
    if (status != STATUS_OK) return status;
    repeated_drop(rows, time_day, s->arena);
    return times_check(s, rows, time_day, &rows->told);
}

Status logbook_import(const LogbookSource *source, Arena *arena, LogbookRows *rows,
                      Diagnostics *list)
{
    const char *const bytes = source->bytes;
    const size_t size = source->size;
    const size_t mark = size >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0; /* of UTF-8 */
    Sheetful *const s = ARENA_NEW(arena, Sheetful, 1);
    int columns = 0;
    LogbookRows found = {.record = ARENA_NEW(arena, LogbookRecord, rows_room(bytes, size)),
                         .line = ARENA_NEW(arena, int, rows_room(bytes, size)),
                         .told = text_start(arena)};
    *s = (Sheetful){.at = bytes + mark,
                    .end = bytes + size,
                    .line = 1,
                    .column = 1,
                    .arena = arena,
                    .day = source->day,
                    .list = list};
    s->separator = separator_of(s->at, size - mark);
    Status status = size > LOGBOOK_CSV_MAX ? wrong(s, (Place){0}, "", "has more than 32 MB")
                                           : heads_read(s, source->map, &columns);
    if (status == STATUS_OK) unused_tell(s, &found.told);
    if (status == STATUS_OK) status = rows_read(s, columns, source->fixed, source->at, &found);
    diagnostics_sort(list);
    if (status == STATUS_OK) *rows = found;
    return status;
}
