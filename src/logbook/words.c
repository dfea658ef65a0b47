/* A reading in words, as JSON and as numbers. */
#include "words.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

bool word_read(const char *text) { return text && *text && strcmp(text, "-") != 0; }

/* ---- time ---- */

/* Days since 1970-01-01 of the Gregorian calendar; closed form: 1461 days in 4 years, of 1 March. */
static long day_of(int year, int month, int day)
{
    const long y = month <= 2 ? year - 1 : year, era = y / 400, of_era = y % 400;
    const long of_year = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
    return era * 146097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year - 719468;
}

static bool digits(const char **at, int count, int *value)
{
    *value = 0;
    for (int i = 0; i < count; i++, (*at)++) {
        if (**at < '0' || **at > '9') return false;
        *value = 10 * *value + (**at - '0');
    }
    return true;
}

static bool sign(const char **at, char wanted)
{
    if (**at != wanted) return false;
    (*at)++;
    return true;
}

/* "Z", "UTC", "+02:00"; minutes ahead of UTC. */
static bool zone_read(const char *at, int *minutes)
{
    int hour, minute;
    *minutes = 0;
    if (strcmp(at, "Z") == 0 || strcmp(at, "UTC") == 0) return true;
    const bool west = *at == '-';
    if (*at != '+' && *at != '-') return false;
    at++;
    if (!digits(&at, 2, &hour) || !sign(&at, ':') || !digits(&at, 2, &minute) || *at) return false;
    *minutes = (west ? -1 : 1) * (60 * hour + minute);
    return hour <= 14 && minute < 60;
}

static bool date_good(int year, int month, int day)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (year < 1970 || month < 1 || month > 12 || day < 1) return false;
    const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return day <= days[month - 1] + (month == 2 && leap);
}

static bool time_read(const char *at, const char *zone, double *time_day)
{
    int year, month, day, hour, minute, second = 0, ahead = 0;
    double part = 0;
    if (!digits(&at, 4, &year) || !sign(&at, '-') || !digits(&at, 2, &month) || !sign(&at, '-') ||
        !digits(&at, 2, &day) || (*at != 'T' && *at != ' '))
        return false;
    at++;
    if (!digits(&at, 2, &hour) || !sign(&at, ':') || !digits(&at, 2, &minute)) return false;
    if (sign(&at, ':') && !digits(&at, 2, &second)) return false;
    if (sign(&at, '.')) {
        double size = 0.1;
        if (*at < '0' || *at > '9') return false;
        for (; *at >= '0' && *at <= '9'; at++, size /= 10) part += size * (*at - '0');
    }
    while (*at == ' ') at++;
    if (!zone_read(*at || !zone ? at : zone, &ahead)) return false;
    if (!date_good(year, month, day) || hour > 23 || minute > 59 || second > 59) return false;
    *time_day = (double)day_of(year, month, day) +
                (hour * 3600.0 + minute * 60.0 + second + part - ahead * 60.0) / 86400;
    return true;
}

Status logbook_time(const char *text, const char *zone, double *time_day, Error *err)
{
    if (time_read(text, zone, time_day)) return STATUS_OK;
    return error_set(err, STATUS_BAD_INPUT,
                     "'%.60s' is no time: write 2031-05-04T09:30:00Z, or the difference to UTC "
                     "behind it, 2031-05-04T09:30:00-05:00",
                     text);
}

/* ---- numbers ---- */

static Status named(Status status, const char *key, int number, Error *err)
{
    if (status == STATUS_OK || !err) return status;
    err->from = err->to = (Place){0};
    if (number)
        snprintf(err->key, sizeof err->key, "%s %d", key, number);
    else
        snprintf(err->key, sizeof err->key, "%s", key);
    return status;
}

static Status value(const char *text, DimensionId dimension, const char *key, int number,
                    double *out, Error *err)
{
    *out = NAN;
    if (!word_read(text)) return STATUS_OK;
    return named(quantity_read(text, dimension, out, err), key, number, err);
}

static Status step_read(const char *text, const SiteDay *day, int *step, Error *err)
{
    char *end;
    const long number = word_read(text) ? strtol(text, &end, 10) : -1;
    if (number < 0 || number > day->plan->step_count || *end)
        return named(error_set(err, STATUS_BAD_INPUT,
                               "'%.40s' is no step of the plan: 0 for the zero reading, 1 to %d",
                               text ? text : "", day->plan->step_count),
                     "step", 0, err);
    *step = (int)number;
    return STATUS_OK;
}

static Status phase_read(const char *text, SitePhase *phase, Error *err)
{
    *phase = SITE_PUMP;
    if (!word_read(text)) return STATUS_OK;
    for (int i = 0; i < SITE_PHASES; i++)
        if (strcmp(text, site_phase_name((SitePhase)i)) == 0) {
            *phase = (SitePhase)i;
            return STATUS_OK;
        }
    return named(
        error_set(err, STATUS_BAD_INPUT, "'%.40s' is none of pump, held, back, nuts, reset", text),
        "phase", 0, err);
}

/* What goes beyond the jacks or dials there are is an error, never dropped. */
static Status count_check(const char *const *text, int used, int room, const char *key, Error *err)
{
    for (int i = used; i < room; i++)
        if (word_read(text[i]))
            return named(error_set(err, STATUS_BAD_INPUT,
                                   "'%.40s' is one more than the %d of this job", text[i], used),
                         key, i + 1, err);
    return STATUS_OK;
}

Status words_value(const LogbookWords *words, const SiteDay *day, SiteReading *out, Error *err)
{
    SiteReading v = {.who = words->who, .remark = words->remark};
    const int sets = day->plan->gear.sets;
    if (!word_read(words->time)) {
        (void)named(error_set(err, STATUS_BAD_INPUT, "a reading has a time"), "time", 0, err);
        return STATUS_BAD_INPUT;
    }
    TRY(named(logbook_time(words->time, NULL, &v.time_day, err), "time", 0, err));
    TRY(step_read(words->step, day, &v.step, err));
    TRY(phase_read(words->phase, &v.phase, err));
    for (int i = 0; i < JACK_SETS; i++) v.pressure_Pa[i] = NAN;
    for (int i = 0; i < SITE_POINTS; i++) v.move_m[i] = NAN;
    TRY(count_check(words->pressure, sets, JACK_SETS, "pressure", err));
    TRY(count_check(words->move, day->point_count, SITE_POINTS, "move", err));
    for (int i = 0; i < sets; i++)
        TRY(value(words->pressure[i], DIM_STRESS, "pressure", i + 1, &v.pressure_Pa[i], err));
    for (int i = 0; i < day->point_count; i++)
        TRY(value(words->move[i], DIM_LENGTH, "move", i + 1, &v.move_m[i], err));
    TRY(value(words->deck, DIM_TEMPERATURE, "deck", 0, &v.deck_K, err));
    TRY(value(words->girder, DIM_TEMPERATURE, "girder", 0, &v.girder_K, err));
    TRY(value(words->cell, DIM_FORCE, "cell", 0, &v.cell_N, err));
    *out = v;
    return STATUS_OK;
}

/* ---- bodies ---- */

static void list_add(Json *j, const char *key, const char *const *text, int count)
{
    json_open_list(j, key);
    for (int i = 0; i < count; i++) json_text(j, NULL, word_read(text[i]) ? text[i] : "-");
    json_close_list(j);
}

/* What a person types has one line; the words of an option cannot hold others' control codes. */
enum { REMARK_MAX = 1000, VALUE_MAX = 100 }; /* bytes */
static Status plain_check(const char *text, int most, const char *key, int number, Error *err)
{
    for (const char *at = text ? text : ""; *at; at++)
        if ((unsigned char)*at < 0x20 || *at == 0x7F)
            return named(
                error_set(err, STATUS_BAD_INPUT, "has a control character; write one line"), key,
                number, err);
    if (text && strlen(text) > (size_t)most)
        return named(error_set(err, STATUS_BAD_INPUT, "has more than %d bytes", most), key, number,
                     err);
    return STATUS_OK;
}

/* Back through the reader: what would not read later is refused now. */
static Status body_check(const char *body, Arena *arena, Error *err)
{
    Node *root;
    Error why = {0};
    if (json_read(body, strlen(body), arena, &root, &why) == STATUS_OK) return STATUS_OK;
    return error_set(err, STATUS_BAD_INPUT, "the words do not read back: %.200s", why.text);
}

static Status words_check(const LogbookWords *words, Error *err)
{
    TRY(plain_check(words->who, REMARK_MAX, "who", 0, err));
    TRY(plain_check(words->remark, REMARK_MAX, "remark", 0, err));
    TRY(plain_check(words->time, VALUE_MAX, "time", 0, err));
    TRY(plain_check(words->step, VALUE_MAX, "step", 0, err));
    TRY(plain_check(words->deck, VALUE_MAX, "deck", 0, err));
    TRY(plain_check(words->girder, VALUE_MAX, "girder", 0, err));
    TRY(plain_check(words->cell, VALUE_MAX, "cell", 0, err));
    for (int i = 0; i < JACK_SETS; i++)
        TRY(plain_check(words->pressure[i], VALUE_MAX, "pressure", i + 1, err));
    for (int i = 0; i < SITE_POINTS; i++)
        TRY(plain_check(words->move[i], VALUE_MAX, "move", i + 1, err));
    return STATUS_OK;
}

Status logbook_reading_body(const LogbookWords *words, const SiteDay *day, Arena *arena,
                            const char **body, Error *err)
{
    SiteReading v;
    TRY(words_check(words, err));
    TRY(words_value(words, day, &v, err));
    Text text = text_start(arena);
    Json j = json_start(&text);
    json_open_map(&j, NULL);
    json_text(&j, "time", words->time);
    json_text(&j, "step", words->step);
    json_text(&j, "phase", site_phase_name(v.phase));
    list_add(&j, "pressure", words->pressure, day->plan->gear.sets);
    list_add(&j, "move", words->move, day->point_count);
    json_text(&j, "deck", word_read(words->deck) ? words->deck : "-");
    json_text(&j, "girder", word_read(words->girder) ? words->girder : "-");
    json_text(&j, "cell", word_read(words->cell) ? words->cell : "-");
    json_text(&j, "who", words->who ? words->who : "");
    json_text(&j, "remark", words->remark ? words->remark : "");
    json_close_map(&j);
    TRY(body_check(text.bytes, arena, err));
    *body = text.bytes;
    return STATUS_OK;
}

static const char *text_of(const Node *map, const char *key, Arena *arena)
{
    const Node *const node = map->kind == NODE_MAP ? node_find(map, key) : NULL;
    return node && node->kind == NODE_TEXT ? arena_text(arena, node->text) : "";
}

static void list_take(const Node *map, const char *key, const char **text, int most, Arena *arena)
{
    const Node *const list = map->kind == NODE_MAP ? node_find(map, key) : NULL;
    const Node *item = list && list->kind == NODE_LIST ? list->first : NULL;
    for (int i = 0; item && i < most; i++, item = item->next)
        text[i] = item->kind == NODE_TEXT ? arena_text(arena, item->text) : "";
}

LogbookWords words_take(const Node *body, Arena *arena)
{
    LogbookWords w = {.time = text_of(body, "time", arena),
                      .step = text_of(body, "step", arena),
                      .phase = text_of(body, "phase", arena),
                      .deck = text_of(body, "deck", arena),
                      .girder = text_of(body, "girder", arena),
                      .cell = text_of(body, "cell", arena),
                      .who = text_of(body, "who", arena),
                      .remark = text_of(body, "remark", arena)};
    list_take(body, "pressure", w.pressure, JACK_SETS, arena);
    list_take(body, "move", w.move, SITE_POINTS, arena);
    return w;
}

Status logbook_strike_body(long number, const char *why, const char *who, Arena *arena,
                           const char **body, Error *err)
{
    if (!why || !*why || !who || !*who)
        return error_set(err, STATUS_BAD_INPUT, "a strike says why, and who strikes");
    TRY(plain_check(why, REMARK_MAX, "why", 0, err));
    TRY(plain_check(who, REMARK_MAX, "who", 0, err));
    Text text = text_start(arena);
    Json j = json_start(&text);
    json_open_map(&j, NULL);
    json_int(&j, "strikes", number);
    json_text(&j, "why", why);
    json_text(&j, "who", who);
    json_close_map(&j);
    TRY(body_check(text.bytes, arena, err));
    *body = text.bytes;
    return STATUS_OK;
}

const char *logbook_verdict_body(long number, const SiteVerdict *verdict, Arena *arena)
{
    Text text = text_start(arena);
    Json j = json_start(&text);
    json_open_map(&j, NULL);
    json_int(&j, "of", number);
    json_text(&j, "version", clench_version());
    site_verdict_json(verdict, &j);
    json_close_map(&j);
    return text.bytes;
}
