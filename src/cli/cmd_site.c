/* The log of the jacking day. */
#define _GNU_SOURCE
#include <errno.h>
#include <math.h>
#include <signal.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <sys/random.h>
#include <time.h>

#include "site.h"

static const size_t arena_bytes = (size_t)2 << 30;

/* ---- the file, the clock, ids ---- */

static Status unit_of(const Request *request, int *unit, Error *err)
{
    const char *const text = request->value[OPTION_UNIT];
    char *end = NULL;
    const long number = text ? strtol(text, &end, 10) : 1;
    *unit = (int)number - 1;
    if (number < 1 || number > 99 || (end && (*end || end == text)))
        return error_set(err, STATUS_BAD_INPUT, "--unit: '%.40s' is no structural unit: 1, 2, ...",
                         text);
    return STATUS_OK;
}

/* "bridge.yaml.site.db"; of another unit than the first "bridge.yaml.site-2.db". */
static Status log_path(const Request *request, Arena *arena, const char **path, Error *err)
{
    int unit;
    TRY(unit_of(request, &unit, err));
    if (!strcmp(request->file, "-"))
        return error_set(err, STATUS_BAD_INPUT, "a log lies beside its bridge file: name the file");
    *path = unit ? arena_printf(arena, "%s.site-%d.db", request->file, unit + 1)
                 : arena_printf(arena, "%s.site.db", request->file);
    return STATUS_OK;
}

const char *site_now(Arena *arena)
{
    char text[32];
    struct tm parts;
    const time_t seconds = time(NULL);
    gmtime_r(&seconds, &parts);
    strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts);
    return arena_text(arena, text);
}

static Status id_make(const Request *request, Arena *arena, const char **id, Error *err)
{
    unsigned char bytes[16];
    *id = request->value[OPTION_ID];
    if (*id) return STATUS_OK;
    if (getrandom(bytes, sizeof bytes, 0) != (ssize_t)sizeof bytes)
        return error_set(err, STATUS_IO, "no random number for an id: %s", strerror(errno));
    Text text = text_start(arena);
    for (int i = 0; i < 16; i++) text_printf(&text, "%02x", bytes[i]);
    *id = text.bytes;
    return STATUS_OK;
}

/* ---- from the file to the job ---- */

Status site_load(Site *site, Error *err)
{
    TRY(store_log_read(site->log, 0, site->arena, &site->record, &site->count, err));
    return logbook_load(site->record, site->count, site->arena, &site->book, err);
}

static Status log_open(const Request *request, bool make, Site *site, Error *err)
{
    const char *path = NULL;
    signal(SIGXFSZ, SIG_IGN); /* a full quota is an error to tell, not an end */
    TRY(log_path(request, site->arena, &path, err));
    TRY(store_log_open(path, make, &site->log, err));
    if (!site->log)
        return error_set(err, STATUS_BAD_INPUT,
                         "there is no log \"%.160s\": start it with clench site open %.100s", path,
                         request->file);
    return STATUS_OK;
}

/* Runs an action with its memory and its log; `make`: open. */
Status site_act(const Request *request, bool make,
                Status (*action)(const Request *, Site *, Error *), Error *err)
{
    Site site = {.arena = arena_create(arena_bytes), .scratch = arena_create(arena_bytes)};
    Status status = log_open(request, make, &site, err);
    if (status == STATUS_OK && !make) status = site_load(&site, err);
    if (status == STATUS_OK) status = action(request, &site, err);
    store_log_close(site.log);
    arena_free(site.arena);
    arena_free(site.scratch);
    return status;
}

Status site_say(Site *site, Error *err, const char *format, ...)
{
    char line[4096];
    va_list list;
    va_start(list, format);
    vsnprintf(line, sizeof line, format, list);
    va_end(list);
    Text text = text_start(site->arena);
    text_add(&text, line);
    return output_print(&text, err);
}

/* ---- open ---- */

static Status plan_records(const Request *request, Answer *answer, Site *site,
                           StoreRecord record[2], const JackPlan **plan, Error *err)
{
    int unit;
    SiteDay day = {.units = answer->source.units};
    TRY(unit_of(request, &unit, err));
    const int units = jacking_units(answer->source.answer);
    if (unit >= units) {
        error_set(err, STATUS_BAD_INPUT, "--unit: the bridge has %d structural unit%s", units,
                  units == 1 ? "" : "s");
        return STATUS_BAD_INPUT;
    }
    const JackWish wish = {answer->source.bridge, answer->source.answer, unit};
    TRY(jacking_plan(&wish, answer->arena, answer->scratch, plan, err));
    TRY(logbook_points(request->value[OPTION_POINTS], *plan, &day, err));
    const char *const at = site_now(site->arena), *const slash = strrchr(request->file, '/');
    record[0] = (StoreRecord){.id = "bridge", .kind = "bridge", .at = at, .body = answer->bytes};
    record[1] =
        (StoreRecord){.id = "plan",
                      .kind = "plan",
                      .at = at,
                      .body = logbook_plan_body(&day, answer->source.name,
                                                slash ? slash + 1 : request->file, site->arena)};
    return STATUS_OK;
}

static Status open_with(const Request *request, Answer *answer, Error *err)
{
    StoreRecord record[2];
    const JackPlan *plan;
    Site site = {.arena = answer->arena, .scratch = answer->scratch};
    TRY(plan_records(request, answer, &site, record, &plan, err));
    if (strlen(answer->bytes) != answer->size)
        return error_set(err, STATUS_BAD_INPUT, "the bridge file has a zero byte in it");
    TRY(log_open(request, true, &site, err));
    Status status = store_log_add(site.log, record, 2, err);
    store_log_close(site.log);
    if (status == STATUS_BAD_INPUT)
        return error_set(
            err, status,
            "this job is open with another bridge file, plan or dials; another plan is another "
            "job: move its log \"%.160s.site.db\" away",
            request->file);
    TRY(status);
    const CheckState state = checks_verdict(plan->rows);
    TRY(site_say(&site, err, "%s: %s, %d jacks in %d sets, %d steps\nrecord %ld, %s\n",
                 record[1].repeated ? "open already" : "open", plan->unit, plan->gear.count,
                 plan->gear.sets, plan->step_count, record[1].number, record[1].hash));
    if (state != CHECK_PASS)
        TRY(site_say(&site, err, "the margins of the plan: %s; clench jacking %s lists them\n",
                     check_state_name(state), request->file));
    if (state == CHECK_FAIL || !answer->source.answer->met) return STATUS_NOT_MET;
    return state == CHECK_UNPROVEN ? STATUS_UNPROVEN : STATUS_OK;
}

static Status site_open(const Request *request, Error *err)
{
    Answer answer;
    TRY(answer_find(request, &answer, err));
    const Status status = open_with(request, &answer, err);
    answer_free(&answer);
    return status;
}

/* ---- readings ---- */

static int index_of(const Logbook *book, long number)
{
    for (int i = book->count - 1; i >= 0; i--)
        if (book->reading[i].record->number == number) return i;
    return -1;
}

/* The verdict on a reading is a record too, once. */
static Status verdict_keep(Site *site, int index, const SiteVerdict *v, Error *err)
{
    const LogbookReading *const r = &site->book.reading[index];
    if (r->call) return STATUS_OK;
    StoreRecord record = {.id = arena_printf(site->arena, "verdict of %ld", r->record->number),
                          .kind = "verdict",
                          .at = site_now(site->arena),
                          .body = logbook_verdict_body(r->record->number, v, site->arena)};
    return store_log_add(site->log, &record, 1, err);
}

Status site_verdict_say(Site *site, const SiteVerdict *v, Error *err)
{
    TRY(site_say(site, err, "%s\n%s\n", site_call_name(v->call), v->reason));
    return v->call == SITE_GO ? STATUS_OK : STATUS_NOT_MET;
}

/* "4250 psi, -, 4300 psi" to its words. */
static Status list_split(const char *text, const char *option, int most, const char **word,
                         Arena *arena, Error *err)
{
    for (int i = 0; text && *text; i++) {
        while (*text == ' ') text++;
        size_t length = strcspn(text, ",");
        const char *const next = text + length + (text[length] == ',');
        while (length && text[length - 1] == ' ') length--;
        if (i == most)
            return error_set(err, STATUS_BAD_INPUT, "%s: more than %d values", option, most);
        word[i] = arena_textn(arena, text, length);
        text = next;
    }
    return STATUS_OK;
}

Status site_words(const Request *request, Site *site, LogbookWords *words, Error *err)
{
    *words = (LogbookWords){.time = request->value[OPTION_TIME],
                            .step = request->value[OPTION_STEP],
                            .phase = request->value[OPTION_PHASE],
                            .deck = request->value[OPTION_DECK],
                            .girder = request->value[OPTION_GIRDER],
                            .cell = request->value[OPTION_CELL],
                            .who = request->value[OPTION_WHO],
                            .remark = request->value[OPTION_REMARK]};
    TRY(list_split(request->value[OPTION_PRESSURE], "--pressure", JACK_SETS, words->pressure,
                   site->arena, err));
    return list_split(request->value[OPTION_MOVE], "--move", SITE_POINTS, words->move, site->arena,
                      err);
}

static Status add(const Request *request, Site *site, Error *err)
{
    LogbookWords words;
    SiteVerdict v;
    StoreRecord record = {.kind = "reading", .at = site_now(site->arena)};
    TRY(site_words(request, site, &words, err));
    if (!words.time && request->given[OPTION_ID])
        return error_set(err, STATUS_BAD_INPUT,
                         "--id without --time: the same id again must say the same");
    if (!words.time) words.time = record.at;
    TRY(id_make(request, site->arena, &record.id, err));
    TRY(logbook_reading_body(&words, &site->book.day, site->arena, &record.body, err));
    TRY(store_log_add(site->log, &record, 1, err));
    TRY(site_say(site, err, "record %ld%s, %s\n", record.number, record.repeated ? " already" : "",
                 record.hash));
    TRY(site_load(site, err));
    const int index = index_of(&site->book, record.number);
    if (index < 0)
        return error_set(err, STATUS_BAD_INPUT, "record %ld is no reading: take another --id",
                         record.number);
    logbook_judge(&site->book, index, site->scratch, &v);
    TRY(verdict_keep(site, index, &v, err));
    return site_verdict_say(site, &v, err);
}

static Status site_add(const Request *request, Error *err)
{
    return site_act(request, false, add, err);
}

static Status strike(const Request *request, Site *site, Error *err)
{
    const char *const text = request->value[OPTION_RECORD], *const why = request->value[OPTION_WHY];
    char *end = NULL;
    const long number = text ? strtol(text, &end, 10) : 0;
    const int index = text && !*end ? index_of(&site->book, number) : -1;
    if (index < 0)
        return error_set(err, STATUS_BAD_INPUT, "--record: '%.40s' is no reading of this log",
                         text ? text : "");
    if (!why || !*why || !request->value[OPTION_WHO])
        return error_set(err, STATUS_BAD_INPUT, "a strike says --why, and --who strikes");
    StoreRecord record = {
        .id = arena_printf(site->arena, "strike of %ld", number),
        .kind = "strike",
        .at = site_now(site->arena),
        .body = logbook_strike_body(number, why, request->value[OPTION_WHO], site->arena)};
    if (site->book.reading[index].struck &&
        strcmp(site->record[site->book.reading[index].struck - 1].body, record.body) != 0)
        return error_set(err, STATUS_BAD_INPUT, "record %ld is struck already, by record %ld",
                         number, site->book.reading[index].struck);
    TRY(store_log_add(site->log, &record, 1, err));
    TRY(site_say(site, err, "record %ld strikes %ld, %s\n", record.number, number, record.hash));
    TRY(site_load(site, err));
    SiteVerdict v;
    logbook_judge(&site->book, site->book.count - 1, site->scratch, &v);
    return site_verdict_say(site, &v, err);
}

static Status site_strike(const Request *request, Error *err)
{
    return site_act(request, false, strike, err);
}

/* ---- looking ---- */

static void row_show(const Site *site, int i, Text *text)
{
    const LogbookReading *const r = &site->book.reading[i];
    const UnitSystem u = site->book.day.units;
    const char *const force = quantity_unit(u, DIM_FORCE), *const length =
                                                               u == UNITS_SI ? "mm" : "in";
    SiteVerdict v;
    logbook_judge(&site->book, i, site->arena, &v);
    text_printf(text, "%6ld  %-20.29s %4s  %-5s", r->record->number, r->words.time, r->words.step,
                r->words.phase);
    if (r->struck) {
        text_printf(text, "  struck by %ld: %s (%s)\n", r->struck, r->struck_why, r->struck_who);
        return;
    }
    if (isfinite(v.force_N))
        text_printf(text, " %8.0f %s", quantity_in(v.force_N, force), force);
    else
        text_printf(text, " %8s %s", "-", force);
    if (isfinite(v.opening_m))
        text_printf(text, "  %7.3f %s", quantity_in(v.opening_m, length), length);
    else
        text_printf(text, "  %7s %s", "-", length);
    text_printf(text, "  %s\n", r->call ? r->call : "-");
}

enum { SHOWN = 20 };
static Status show(const Request *request, Site *site, Error *err)
{
    (void)request;
    StoreChain chain;
    const Logbook *const book = &site->book;
    Text text = text_start(site->arena);
    TRY(store_log_verify(site->log, NULL, &chain, err));
    text_printf(&text, "%s, %s: %d readings\n", book->name, book->day.plan->unit, book->count);
    if (chain.broken)
        text_printf(&text, "THE CHAIN IS BROKEN at record %ld: %s\n", chain.broken, chain.why);
    text_printf(&text, "last record %ld, %s\n\n", chain.count, chain.last);
    for (int i = book->count > SHOWN ? book->count - SHOWN : 0; i < book->count; i++)
        row_show(site, i, &text);
    TRY(output_print(&text, err));
    if (chain.broken) return STATUS_NOT_MET;
    if (book->count == 0) return STATUS_OK;
    SiteVerdict v;
    logbook_judge(book, book->count - 1, site->scratch, &v);
    return site_verdict_say(site, &v, err);
}

static Status site_show(const Request *request, Error *err)
{
    return site_act(request, false, show, err);
}

static Status export(const Request *request, Site *site, Error *err)
{
    Text text = text_start(site->arena);
    if (request->given[OPTION_JSON])
        logbook_json(&site->book, site->arena, &text);
    else
        logbook_csv(&site->book, site->arena, &text);
    if (request->given[OPTION_OUT])
        return file_write(request->value[OPTION_OUT], text.bytes, text.length, err);
    return output_print(&text, err);
}

static Status site_export(const Request *request, Error *err)
{
    return site_act(request, false, export, err);
}

static Status chain_say(const Request *request, Site *site, Error *err)
{
    StoreChain chain;
    const char *const known = request->value[OPTION_HASH];
    TRY(store_log_verify(site->log, known, &chain, err));
    if (chain.broken) {
        TRY(site_say(site, err, "broken at record %ld of %ld: %s\n", chain.broken, chain.count,
                     chain.why));
        return STATUS_NOT_MET;
    }
    TRY(site_say(site, err, "%ld records, the chain is whole, last %s\n", chain.count, chain.last));
    if (!known) return STATUS_OK;
    TRY(chain.known
            ? site_say(site, err, "the hash is that of record %ld\n", chain.known)
            : site_say(site, err,
                       "no record has the hash %.80s: the log is not the one it was noted from\n",
                       known));
    return chain.known ? STATUS_OK : STATUS_NOT_MET;
}

/* Without loading: a log that does not load can be broken. */
static Status site_verify(const Request *request, Error *err)
{
    Site site = {.arena = arena_create(arena_bytes)};
    Status status = log_open(request, false, &site, err);
    if (status == STATUS_OK) status = chain_say(request, &site, err);
    store_log_close(site.log);
    arena_free(site.arena);
    return status;
}

#define READING \
    (TAKES(STEP) | TAKES(PHASE) | TAKES(DECK) | TAKES(GIRDER) | TAKES(WHO) | TAKES(REMARK))

const Command cli_site[] = {
    {"site open", site_open, FILE_NEEDED,
     TAKES(THRUST) | TAKES(UNITS) | TAKES(UNIT) | TAKES(POINTS),
     "start the log: the plan as it is now",
     "Makes the plan of clench jacking and keeps it with the text of the bridge file in\n"
     "FILE.site.db; the log stands alone from then on. Again with the same: nothing."},
    {"site add", site_add, FILE_NEEDED,
     READING | TAKES(UNIT) | TAKES(ID) | TAKES(TIME) | TAKES(PRESSURE) | TAKES(MOVE) | TAKES(CELL),
     "keep a reading and judge it",
     "Keeps a reading for good, then says go on, read again, hold or stop, and why.\n"
     "Exit status 0 to go on, else 1."},
    {"site strike", site_strike, FILE_NEEDED, TAKES(UNIT) | TAKES(RECORD) | TAKES(WHY) | TAKES(WHO),
     "strike a wrong reading",
     "Strikes a reading by a record of its own: it stays and is judged no more."},
    {"site import", site_import, FILE_NEEDED, READING | TAKES(UNIT) | TAKES(ROWS) | TAKES(MAP),
     "readings of a logger",
     "Keeps the rows of a CSV file, all or none, and judges each. Heads carry units,\n"
     "\"Pump A [psi]\", \"Time [UTC]\". Rows that are missing or repeated are told."},
    {"site show", site_show, FILE_NEEDED, TAKES(UNIT), "the last readings and the verdict",
     "Prints the last readings, the state of the chain and the verdict now."},
    {"site export", site_export, FILE_NEEDED, TAKES(UNIT) | TAKES(JSON) | TAKES(OUT),
     "all readings as CSV or JSON",
     "Writes all readings, those struck too, as CSV with units in the heads, or as JSON."},
    {"site verify", site_verify, FILE_NEEDED, TAKES(UNIT) | TAKES(HASH),
     "whether the chain is whole",
     "Checks every record against the chain. Exit status 1 if it is broken, or has no\n"
     "record with the hash that was noted."},
};
const int cli_site_count = (int)(sizeof cli_site / sizeof *cli_site);
