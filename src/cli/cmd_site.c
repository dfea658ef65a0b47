/* The log of the jacking day. */
#define _GNU_SOURCE
#include <errno.h>
#include <math.h>
#include <signal.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <sys/random.h>

#include "site.h"

static const size_t arena_bytes = (size_t)2 << 30;

/* ---- the file, the clock, ids ---- */

Status site_unit(const Request *request, int *unit, Error *err)
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

/* A log lies beside its file. A full quota is an error to tell, not an end. */
static Status file_check(const Request *request, Error *err)
{
    signal(SIGXFSZ, SIG_IGN);
    if (strcmp(request->file, "-") != 0) return STATUS_OK;
    return error_set(err, STATUS_BAD_INPUT, "a log lies beside its bridge file: name the file");
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

static Status log_open(const Request *request, SiteLog *site, Error *err)
{
    int unit;
    TRY(site_unit(request, &unit, err));
    TRY(file_check(request, err));
    return sitelog_open(request->file, unit, site, err);
}

/* Runs an action with its memory and its log; `load`: with its records. */
Status site_act(const Request *request, bool load,
                Status (*action)(const Request *, SiteLog *, Error *), Error *err)
{
    SiteLog site = {.arena = arena_create(arena_bytes), .scratch = arena_create(arena_bytes)};
    Status status = log_open(request, &site, err);
    if (status == STATUS_OK && load) status = sitelog_load(&site, err);
    if (status == STATUS_OK) status = action(request, &site, err);
    sitelog_close(&site);
    arena_free(site.arena);
    arena_free(site.scratch);
    return status;
}

Status site_say(SiteLog *site, Error *err, const char *format, ...)
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

static Status open_with(const Request *request, Answer *answer, Error *err)
{
    StoreRecord record[2];
    const JackPlan *plan;
    bool other;
    SiteStart start = {.file = request->file,
                       .text = answer->bytes,
                       .size = answer->size,
                       .points = request->value[OPTION_POINTS],
                       .source = &answer->source};
    TRY(site_unit(request, &start.unit, err));
    TRY(file_check(request, err));
    TRY(sitelog_start(&start, answer->arena, answer->scratch, record, &plan, &other, err));
    const CheckState state = checks_verdict(plan->rows);
    SiteLog site = {.arena = answer->arena};
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

Status site_verdict_say(SiteLog *site, const SiteVerdict *v, Error *err)
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

Status site_words(const Request *request, SiteLog *site, LogbookWords *words, Error *err)
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

/* The reading is safe, and what it says was said. */
static Status verdict_lost(Error *err)
{
    const Error why = *err;
    return error_set(err, STATUS_IO, "the reading is kept, its verdict is not: %.250s", why.text);
}

static Status add(const Request *request, SiteLog *site, Error *err)
{
    LogbookWords words;
    SiteTold told;
    StoreRecord record = {.kind = "reading", .at = sitelog_now(site->arena)};
    TRY(site_words(request, site, &words, err));
    if (!words.time && request->given[OPTION_ID])
        return error_set(err, STATUS_BAD_INPUT,
                         "--id without --time: the same id again must say the same");
    if (!words.time) words.time = record.at;
    TRY(id_make(request, site->arena, &record.id, err));
    TRY(sitelog_id(record.id, err));
    TRY(logbook_reading_body(&words, &site->book.day, site->arena, &record.body, err));
    TRY(store_log_add(site->log, &record, 1, err));
    TRY(site_say(site, err, "record %ld%s, %s\n", record.number, record.repeated ? " already" : "",
                 record.hash));
    TRY(sitelog_judge(site, record.number, &told, err));
    const Status said = site_verdict_say(site, &told.verdict, err);
    return told.kept ? said : verdict_lost(err);
}

static Status site_add(const Request *request, Error *err)
{
    return site_act(request, true, add, err);
}

static Status strike(const Request *request, SiteLog *site, Error *err)
{
    const char *const text = request->value[OPTION_RECORD], *const why = request->value[OPTION_WHY];
    char *end = NULL;
    bool other;
    StoreRecord record;
    const long number = text ? strtol(text, &end, 10) : 0;
    if (!text || *end || sitelog_find(&site->book, number) < 0)
        return error_set(err, STATUS_BAD_INPUT, "--record: '%.40s' is no reading of this log",
                         text ? text : "");
    if (!why || !*why || !request->value[OPTION_WHO])
        return error_set(err, STATUS_BAD_INPUT, "a strike says --why, and --who strikes");
    TRY(sitelog_strike(site, number, why, request->value[OPTION_WHO], &record, &other, err));
    TRY(site_say(site, err, "record %ld strikes %ld, %s\n", record.number, number, record.hash));
    TRY(sitelog_load(site, err));
    SiteVerdict v;
    logbook_judge(&site->book, site->book.count - 1, site->scratch, &v);
    return site_verdict_say(site, &v, err);
}

static Status site_strike(const Request *request, Error *err)
{
    return site_act(request, true, strike, err);
}

/* ---- looking ---- */

static void row_show(const SiteLog *site, int i, Text *text)
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
static Status show(const Request *request, SiteLog *site, Error *err)
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
    return site_act(request, true, show, err);
}

static Status export(const Request *request, SiteLog *site, Error *err)
{
    Text text = text_start(site->arena);
    if (request->given[OPTION_JSON])
        logbook_json(&site->book, site->scratch, &text);
    else
        logbook_csv(&site->book, site->scratch, &text);
    if (request->given[OPTION_OUT])
        return file_write(request->value[OPTION_OUT], text.bytes, text.length, err);
    return output_print(&text, err);
}

static Status site_export(const Request *request, Error *err)
{
    return site_act(request, true, export, err);
}

static Status chain_say(const Request *request, SiteLog *site, Error *err)
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
    return site_act(request, false, chain_say, err);
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
    {"site watch", site_watch, FILE_NEEDED,
     READING | TAKES(UNIT) | TAKES(MODBUS) | TAKES(MAP) | TAKES(TIMES), "readings of a transducer",
     "Reads the registers that the map names over Modbus, keeps and judges each reading,\n"
     "until Ctrl-C. A silent device is told and tried again. Watch one step at a time."},
    {"site show", site_show, FILE_NEEDED, TAKES(UNIT), "the last readings and the verdict",
     "Prints the last readings, the state of the chain and the verdict now."},
    {"site export", site_export, FILE_NEEDED, TAKES(UNIT) | TAKES(JSON) | TAKES(OUT),
     "all readings as CSV or JSON",
     "Writes all readings, those struck too, as CSV with units in the heads, or as JSON."},
    {"site fit", site_fit_command, FILE_NEEDED, TAKES(UNIT) | TAKES(JSON) | TAKES(CALENDAR),
     "what was built, by the readings, and its life",
     "Prints what the readings tell of stiffness, friction, seating, gauge and locked\n"
     "force, with intervals, and what to measure where they cannot; then the compression\n"
     "of a life with that beside the design's. Exit status 1 if a joint opens or a limit\n"
     "is passed whatever they leave open."},
    {"site record", site_record, FILE_NEEDED,
     TAKES(UNIT) | TAKES(OUT) | TAKES(HTML) | TAKES(DATE) | TAKES(CALENDAR),
     "the record that is signed, as PDF",
     "Writes readings, verdicts, strikes, pictures, the locked force with its interval,\n"
     "the life as built, the last hash and blanks for signatures."},
    {"site verify", site_verify, FILE_NEEDED, TAKES(UNIT) | TAKES(HASH),
     "whether the chain is whole",
     "Checks every record against the chain. Exit status 1 if it is broken, or has no\n"
     "record with the hash that was noted."},
};
const int cli_site_count = (int)(sizeof cli_site / sizeof *cli_site);
