/* The survey as CSV (RFC 4180): bytes to rows, strictly. */
#include <ctype.h>
#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "clench/seating.h"

enum { CELLS_MAX = 16 };

/* clang-format off */
typedef enum Field { F_STATION, F_SPAN, F_DISTANCE, F_GIRDER, F_ELEVATION, F_OFFSET, F_NOTE, F_COUNT } Field;
static const char *const field_name[] = {"station", "span", "distance", "girder", "elevation", "offset", "note"};
static const bool field_unit[] = {true, false, true, false, true, true, false};
/* clang-format on */

typedef struct Cell {
    const char *text;
    Place from;
} Cell;

typedef struct Reader {
    const char *at, *end;
    char separator;
    int line, column;
    Cell cell[CELLS_MAX];
    int count, columns;
    int of[F_COUNT];        /* column of a field; -1: none */
    double size_m[F_COUNT]; /* of one of its unit */
    const char *unit[F_COUNT];
    int girder_count;
    Arena *arena;
    Diagnostics *list;
} Reader;

static Status PRINTF_LIKE(4, 5)
    wrong(Reader *r, Place place, const char *key, const char *format, ...)
{
    char text[sizeof((Error *)0)->text];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    Error err = {0};
    error_at(&err, STATUS_BAD_INPUT, place, place, key, "%s", text);
    diagnostics_add(r->list, &err);
    return STATUS_BAD_INPUT;
}

/* ---- rows and cells ---- */

static void step(Reader *r)
{
    if (((unsigned char)*r->at & 0xC0) != 0x80) r->column++;
    r->at++;
}

static bool line_ends(const Reader *r)
{
    return r->at == r->end || *r->at == '\n' || *r->at == '\r';
}
static bool cell_ends(const Reader *r) { return line_ends(r) || *r->at == r->separator; }

static Status quoted_read(Reader *r, Place from, Text *text)
{
    step(r);
    for (;;) {
        if (line_ends(r)) return wrong(r, from, "", "the quote is not closed on its line");
        if (*r->at == '"') {
            step(r);
            if (r->at == r->end || *r->at != '"') break;
        }
        text_addn(text, r->at, 1);
        step(r);
    }
    if (cell_ends(r)) return STATUS_OK;
    return wrong(r, (Place){r->line, r->column}, "", "something stands behind the closing quote");
}

static const char *trimmed(Arena *arena, const char *text)
{
    size_t length = strlen(text);
    while (length && text[length - 1] == ' ') length--;
    while (length && *text == ' ') text++, length--;
    return arena_textn(arena, text, length);
}

static Status cell_read(Reader *r)
{
    Text text = text_start(r->arena);
    const Place from = {r->line, r->column};
    text_add(&text, "");
    if (r->count == CELLS_MAX) return wrong(r, from, "", "a row has more than %d cells", CELLS_MAX);
    if (r->at < r->end && *r->at == '"') TRY(quoted_read(r, from, &text));
    while (!cell_ends(r)) {
        if (!*r->at || *r->at == '"')
            return wrong(r, (Place){r->line, r->column}, "",
                         "a quote or a zero byte inside a cell");
        text_addn(&text, r->at, 1);
        step(r);
    }
    if (memchr(text.bytes ? text.bytes : "", 0, text.length))
        return wrong(r, from, "", "a zero byte inside a cell");
    r->cell[r->count++] = (Cell){trimmed(r->arena, text.bytes ? text.bytes : ""), from};
    return STATUS_OK;
}

static void skip_line(Reader *r)
{
    while (!line_ends(r)) r->at++;
}

static bool blank(const Reader *r)
{
    for (int c = 0; c < r->count; c++)
        if (r->cell[c].text[0]) return false;
    return true;
}

/* The next row that says something; *row false at the end. Remarks and empty lines are left out. */
static Status row_read(Reader *r, bool *row)
{
    *row = false;
    for (;;) {
        while (r->at < r->end && (*r->at == '\n' || *r->at == '\r')) r->line += *r->at++ == '\n';
        if (r->at == r->end) return STATUS_OK;
        r->column = 1;
        r->count = 0;
        if (*r->at == '#') {
            skip_line(r);
            continue;
        }
        TRY(cell_read(r));
        while (r->at < r->end && *r->at == r->separator) {
            step(r);
            TRY(cell_read(r));
        }
        *row = !blank(r);
        if (*row) return STATUS_OK;
    }
}

static char separator_of(const char *at, const char *end)
{
    bool remark = false, start = true;
    for (; at < end; at++) {
        if (start) remark = *at == '#';
        start = *at == '\n';
        if (!remark && *at && strchr(",;\t", *at)) return *at;
    }
    return ',';
}

/* ---- heads ---- */

static bool same_word(const char *a, const char *b)
{
    for (; *a && *b; a++, b++)
        if (tolower((unsigned char)*a) != *b) return false;
    return *a == *b;
}

/* "Station [ft]" to "Station" and "ft". */
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

static Status head_take(Reader *r, int column)
{
    const char *name, *unit;
    const Cell *const c = &r->cell[column];
    double one_m = 0;
    head_split(r->arena, c->text, &name, &unit);
    int f = 0;
    while (f < F_COUNT && !same_word(name, field_name[f])) f++;
    if (f == F_COUNT)
        return wrong(r, c->from, "head",
                     "'%.40s' is none of the columns known: station [ft], or span and distance "
                     "[ft], girder, elevation [ft], offset [in], note",
                     c->text);
    if (r->of[f] >= 0)
        return wrong(r, c->from, field_name[f], "a column before gives this already");
    if (!field_unit[f] && unit) return wrong(r, c->from, field_name[f], "it has no unit");
    if (field_unit[f] && (!unit ||
                          quantity_read(arena_printf(r->arena, "1 %.20s", unit), DIM_LENGTH, &one_m,
                                        NULL) != STATUS_OK ||
                          one_m <= 0))
        return wrong(r, c->from, field_name[f],
                     "'%.40s' needs a length's unit in its head, such as %s [ft] or %s [m]",
                     c->text, field_name[f], field_name[f]);
    r->of[f] = column;
    r->size_m[f] = one_m;
    r->unit[f] = unit;
    return STATUS_OK;
}

static Status heads_read(Reader *r)
{
    bool row = false;
    Status status = STATUS_OK;
    for (int f = 0; f < F_COUNT; f++) r->of[f] = -1;
    TRY(row_read(r, &row));
    if (!row) return wrong(r, (Place){1, 1}, "", "there is nothing in it");
    const Place first = r->cell[0].from;
    r->columns = r->count;
    for (int c = 0; c < r->count; c++)
        if (head_take(r, c) != STATUS_OK) status = STATUS_BAD_INPUT;
    TRY(status);
    if (r->of[F_GIRDER] < 0) status = wrong(r, first, "girder", "no column gives the girder");
    if (r->of[F_ELEVATION] < 0) status = wrong(r, first, "elevation", "no column gives it");
    const bool station = r->of[F_STATION] >= 0, along = r->of[F_DISTANCE] >= 0;
    if (station == along || (along && r->of[F_SPAN] < 0))
        status = wrong(r, first, "station",
                       "either station [ft], or span and distance [ft], says where a point lies");
    return status;
}

/* ---- values ---- */

/* Digits with a point, a sign before them: no exponent, no comma. */
static bool number_read(const char *text, double *value)
{
    const char *at = text + (*text == '-' || *text == '+');
    int digits = 0, points = 0;
    for (; *at; at++) {
        if (*at == '.')
            points++;
        else if (isdigit((unsigned char)*at))
            digits++;
        else
            return false;
    }
    if (digits < 1 || digits > 15 || points > 1) return false;
    *value = strtod(text, NULL);
    return true;
}

/* "12+50.25": hundreds of feet, or thousands of metres (12+050.25). */
static bool station_read(const char *text, double size_m, double *value)
{
    const char *const plus = strchr(text + (*text != 0), '+');
    if (!plus) return number_read(text, value);
    const double foot_m = 0.3048;
    const bool feet = fabs(size_m - foot_m) < 1e-12;
    const int wanted = feet ? 2 : 3;
    char head[24];
    double high, low;
    if ((!feet && size_m != 1) || plus - text > 15 || (int)strcspn(plus + 1, ".") != wanted)
        return false;
    snprintf(head, sizeof head, "%.*s", (int)(plus - text), text);
    if (strchr(head, '.') || !number_read(head, &high) || !number_read(plus + 1, &low) ||
        !isdigit((unsigned char)plus[1]))
        return false;
    *value = high * (feet ? 100 : 1000) + (text[0] == '-' ? -low : low);
    return true;
}

static Status length_take(Reader *r, Field f, double *length_m)
{
    const Cell *const c = &r->cell[r->of[f]];
    double value = 0;
    if (!c->text[0]) return wrong(r, c->from, field_name[f], "the cell is empty");
    const bool good =
        f == F_STATION ? station_read(c->text, r->size_m[f], &value) : number_read(c->text, &value);
    if (!good)
        return wrong(r, c->from, field_name[f],
                     "'%.24s' is no number: digits with a decimal point, no unit%s", c->text,
                     f == F_STATION ? ", or 12+50.25 in feet, 1+250.00 in metres" : "");
    *length_m = value * r->size_m[f];
    if (!(fabs(*length_m) <= 1e6))
        return wrong(r, c->from, field_name[f], "'%.24s' is beyond all bridges", c->text);
    return STATUS_OK;
}

/* "G3" or "3". */
static Status count_take(Reader *r, Field f, int most, int *count)
{
    const Cell *const c = &r->cell[r->of[f]];
    const char *at = c->text;
    if (f == F_GIRDER && (*at == 'G' || *at == 'g')) at++;
    const size_t length = strlen(at);
    if (length > 0 && length < 4 && strspn(at, "0123456789") == length) {
        *count = atoi(at);
        if (*count >= 1 && *count <= most) return STATUS_OK;
    }
    return wrong(r, c->from, field_name[f],
                 f == F_GIRDER ? "'%.24s' is no girder: G1 to G%d, from left to right"
                               : "'%.24s' is no span: 1 to %d",
                 c->text, most);
}

static bool word_in(const char *text, const char *word)
{
    const size_t length = strlen(word);
    for (; *text; text++) {
        size_t k = 0;
        while (k < length && tolower((unsigned char)text[k]) == word[k]) k++;
        if (k == length) return true;
    }
    return false;
}

static Status row_take(Reader *r, SurveyRow *row)
{
    Status status = STATUS_OK;
    *row = (SurveyRow){.line = r->cell[0].from.line, .offset_m = NAN};
    if (r->count != r->columns)
        return wrong(r, r->cell[0].from, "", "%d cells where the head has %d", r->count,
                     r->columns);
    row->along = r->of[F_DISTANCE] >= 0;
    if (length_take(r, row->along ? F_DISTANCE : F_STATION, &row->at_m) != STATUS_OK)
        status = STATUS_BAD_INPUT;
    if (length_take(r, F_ELEVATION, &row->elevation_m) != STATUS_OK) status = STATUS_BAD_INPUT;
    if (count_take(r, F_GIRDER, r->girder_count, &row->girder) != STATUS_OK)
        status = STATUS_BAD_INPUT;
    row->girder--;
    const bool span = r->of[F_SPAN] >= 0 && (row->along || r->cell[r->of[F_SPAN]].text[0]);
    if (span && count_take(r, F_SPAN, 24, &row->span) != STATUS_OK) status = STATUS_BAD_INPUT;
    if (r->of[F_OFFSET] >= 0 && r->cell[r->of[F_OFFSET]].text[0] &&
        length_take(r, F_OFFSET, &row->offset_m) != STATUS_OK)
        status = STATUS_BAD_INPUT;
    if (r->of[F_NOTE] >= 0) row->confirmed = word_in(r->cell[r->of[F_NOTE]].text, "confirmed");
    return status;
}

static Status rows_read(Reader *r, Survey *survey)
{
    Status status = STATUS_OK;
    SurveyRow *row = NULL;
    int count = 0, room = 0;
    for (;;) {
        bool more = false;
        if (row_read(r, &more) != STATUS_OK) return STATUS_BAD_INPUT;
        if (!more) break;
        if (count == SURVEY_ROWS_MAX)
            return wrong(r, (Place){r->line, 1}, "", "more than %d rows", SURVEY_ROWS_MAX);
        if (count == room) {
            SurveyRow *wider = ARENA_NEW(r->arena, SurveyRow, room ? 2 * room : 256);
            if (count) memcpy(wider, row, sizeof *row * (size_t)count);
            row = wider;
            room = room ? 2 * room : 256;
        }
        if (row_take(r, &row[count]) != STATUS_OK)
            status = STATUS_BAD_INPUT;
        else
            count++;
    }
    TRY(status);
    if (count == 0) return wrong(r, (Place){1, 1}, "", "there is no row below the head");
    *survey =
        (Survey){count, row, r->unit[F_ELEVATION][0] == 'f' || r->unit[F_ELEVATION][0] == 'i'};
    return STATUS_OK;
}

Status survey_read(const char *bytes, size_t size, int girder_count, Arena *arena, Survey *survey,
                   Diagnostics *diagnostics)
{
    static const char mark[] = "\xEF\xBB\xBF"; /* of UTF-8, as office programs write it */
    Reader *r = ARENA_NEW(arena, Reader, 1);
    *r = (Reader){.at = bytes,
                  .end = bytes + size,
                  .line = 1,
                  .girder_count = girder_count,
                  .arena = arena,
                  .list = diagnostics};
    if (size > SURVEY_BYTES_MAX)
        return wrong(r, (Place){1, 1}, "", "more than %d bytes", (int)SURVEY_BYTES_MAX);
    if (size >= 3 && memcmp(bytes, mark, 3) == 0) r->at += 3;
    r->separator = separator_of(r->at, r->end);
    TRY(heads_read(r));
    return rows_read(r, survey);
}
