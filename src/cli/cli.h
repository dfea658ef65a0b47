/* The command line: translates and calls, computes nothing. Private to cli. */
#ifndef CLENCH_CLI_H
#define CLENCH_CLI_H

#include "clench/bridge.h"
#include "clench/paper.h"
#include "clench/text.h"

/* ---- commands and options: one row each; parser, help and tests read the same rows ---- */

/* clang-format off */
#define OPTION_LIST(X)                                                                            \
    X(JSON,     "--json",     NULL,    "print the answer as JSON, values in SI")                   \
    X(HTML,     "--html",     "OUT",   "also write a page with the figures to the file OUT")       \
    X(THRUST,   "--thrust",   "FORCE", "judge this thrust of the whole deck, \"2800 kip\"")        \
    X(UNITS,    "--units",    "US|SI", "show these units instead of the file's")                   \
    X(HALF,     "--half",     NULL,    "sheets of half the size: 11 x 17 in, A3")                  \
    X(NORTH,    "--north",    "ANGLE", "bearing of the bridge from its left end, degrees clockwise from north") \
    X(DEFAULTS, "--defaults", NULL,    "list every value that the file does not give, explained")  \
    X(JOINT,    "--joint",    "MARK",  "a joint to show, \"J07\"; may be given several times")      \
    X(ALL,      "--all",      NULL,    "checks of every girder line, and what is told")             \
    X(OUT,      "-o",         "OUT",   "write the document to the file OUT (PDF); draw: to the folder OUT") \
    X(DATE,     "--date",     "DAY",   "date of the document, \"2031-05-04\"; else today, or the day\n" \
                                       "                     of SOURCE_DATE_EPOCH")               \
    X(MARKDOWN, "--markdown", NULL,    "print the reference of all keys as Markdown instead")       \
    X(PORT,     "--port",     "N",     "the port of the address; else 8347, or a free one")        \
    X(NO_BROWSER, "--no-browser", NULL, "print the address, open no browser")                   \
    X(LISTEN,   "--listen",   "ADDRESS", "be reached from elsewhere at this address of the machine")  \
    X(NAME,     "--name",     "NAME",  "the name in the certificate, \"site.example\"")             \
    X(CERTIFICATE, "--certificate", "FILE", "of this machine (PEM)")                                \
    X(KEY,      "--key",      "FILE",  "of the certificate (PEM), its owner's alone")               \
    X(TOKENS,   "--tokens",   "FILE",  "lines \"reader TOKEN\" and \"writer TOKEN\"")               \
    X(UNIT,     "--unit",     "N",     "the structural unit, where there are several; else 1")     \
    X(POINTS,   "--points",   "LIST",  "the dials, at most 8: \"gap -18 ft, gap 18 ft, slip left,\n" \
                                       "                     slip right, rise 1, bearing 2\"; else the gap at three places") \
    X(ID,       "--id",       "ID",    "of the record, yours: the same again adds nothing")        \
    X(TIME,     "--time",     "TIME",  "of the reading, \"2031-05-04T09:30:00Z\"; else now")       \
    X(STEP,     "--step",     "N",     "step of the plan, 0 for the zero reading")                  \
    X(PHASE,    "--phase",    "PHASE", "pump, held (valves shut), back, nuts or reset; else pump")  \
    X(PRESSURE, "--pressure", "LIST",  "gauge of each set, \"4250 psi, 4250 psi\"; - where not read") \
    X(MOVE,     "--move",     "LIST",  "dials in their order, \"1.02 in, -, 1.05 in\"")            \
    X(DECK,     "--deck",     "TEMP",  "temperature of the deck, \"61 degF\"")                    \
    X(GIRDER,   "--girder",   "TEMP",  "temperature of the girders")                               \
    X(CELL,     "--cell",     "FORCE", "load cells, scaled to all jacks")                          \
    X(WHO,      "--who",      "NAME",  "who reads, or strikes")                                    \
    X(REMARK,   "--remark",   "TEXT",  "what else was seen")                                       \
    X(RECORD,   "--record",   "N",     "the record to strike")                                     \
    X(WHY,      "--why",      "TEXT",  "why it is struck")                                         \
    X(ROWS,     "--rows",     "CSV",   "the rows of the logger")                                   \
    X(MAP,      "--map",      "YAML",  "our names and the heads of its columns: \"pressure 1: Pump [psi]\"") \
    X(SURVEY,   "--survey",   "CSV",   "the survey of the girder tops")                            \
    X(DAY,      "--day",      "DAY",   "when the profile is to be met: opening (else), \"end of life\"\n" \
                                       "                     or a day of the file's calendar, \"400 day\"") \
    X(MODBUS,   "--modbus",   "LINE",  "of the device, tcp:HOST:PORT or rtu:DEVICE")               \
    X(TIMES,    "--times",    "N",     "readings, then it ends; else until Ctrl-C")                \
    X(HASH,     "--hash",     "HASH",  "one that was noted: must be in the chain")                 \
    X(CALENDAR, "--calendar", "DATE",  "date of day 0 of the bridge file: the life runs from the real day") \
    X(LIVES,    "--lives",    "N",     "lives to run, 20 to 1000000; else 1000")                   \
    X(DRAW,     "--draw",     "WAY",   "how they are drawn: plain, latin or sobol; else latin")    \
    X(SEED,     "--seed",     "N",     "of the draw; else 1: the same seed, the same lives")       \
    X(THREADS,  "--threads",  "N",     "at once; else one a processor. The answer is the same")
/* clang-format on */
typedef enum OptionId {
#define X(id, name, argument, help) OPTION_##id,
    OPTION_LIST(X)
#undef X
        OPTION_COUNT
} OptionId;

enum { JOINTS_MAX = 32 };
typedef struct Request {
    const char *file;
    bool given[OPTION_COUNT];
    const char *value[OPTION_COUNT];
    const char *joint[JOINTS_MAX];
    int joint_count;
} Request;

/* Whether a command reads a bridge file. */
typedef enum TakesFile { FILE_NONE, FILE_NEEDED, FILE_OPTIONAL } TakesFile;

typedef struct Command {
    const char *name;
    Status (*run)(const Request *request, Error *err);
    TakesFile takes_file;
    uint64_t options; /* bit 1 << OptionId */
    const char *summary, *help;
} Command;
#define TAKES(id) ((uint64_t)1 << OPTION_##id)
extern const Command cli_command[]; /* without `run`: the word behind it chooses from cli_site */
extern const int cli_command_count;
extern const Command cli_site[]; /* clench site ACTION */
extern const int cli_site_count;

/* Words after the command. Errors: BAD_INPUT with the nearest name. */
MUST_USE Status arguments_read(const Command *command, int count, char *const *word,
                               Request *request, Error *err);
void arguments_usage(const Command *command, FILE *out);
void arguments_help(const Command *command, FILE *out);

Status cmd_thrust(const Request *request, Error *err);
Status cmd_checks(const Request *request, Error *err);
Status cmd_life(const Request *request, Error *err);
Status cmd_jacking(const Request *request, Error *err);
Status cmd_panels(const Request *request, Error *err);
Status cmd_seat(const Request *request, Error *err);
Status cmd_compare(const Request *request, Error *err);
Status cmd_model(const Request *request, Error *err);
Status cmd_quantities(const Request *request, Error *err);
Status cmd_report(const Request *request, Error *err);
Status cmd_draw(const Request *request, Error *err);
Status cmd_odds(const Request *request, Error *err);
Status cmd_schema(const Request *request, Error *err);
Status cmd_serve(const Request *request, Error *err);

/* ---- from the file to the answer ---- */

typedef struct Answer {
    Arena *arena, *scratch;
    ReportSource source;
    const char *bytes; /* of the input */
    size_t size;
} Answer;
/* Prints all errors of the input itself and then returns BAD_INPUT with an empty text. */
MUST_USE Status answer_find(const Request *request, Answer *answer, Error *err);
/* The bridge alone: answer->source.answer is NULL. */
MUST_USE Status answer_read(const Request *request, Answer *answer, Error *err);
void answer_free(Answer *answer);
/* Shims from the survey of --survey, for the day of --day: of an answer at its thrust, else at --thrust. */
MUST_USE Status answer_seats(const Request *request, const Answer *answer, const SeatPlan **plan,
                             Error *err);
/* All of them; *err gets the status alone. */
Status diagnostics_print(const Diagnostics *list, const char *file, Error *err);
/* OK or NOT_MET: whether the window, or the given thrust, meets rules and limits. */
Status answer_verdict(const Answer *answer);
/* --date, else the day of SOURCE_DATE_EPOCH (reproducible-builds.org), else today; in UTC. */
MUST_USE Status output_date(const Request *request, char date[PAPER_DATE], Error *err);
MUST_USE Status output_pdf(const Report *report, const PaperSettings *settings, const char *path,
                           Error *err);
MUST_USE Status output_page(const Report *report, const char *path, Error *err);
MUST_USE Status output_print(const Text *text, Error *err); /* to standard output */

#endif
