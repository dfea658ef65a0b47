/* report: answers as documents. One document, a list of blocks, goes to the terminal as text and to
 * a page as HTML with its figures inside; answers also go to JSON. Computes nothing. */
#ifndef CLENCH_REPORT_H
#define CLENCH_REPORT_H

#include "clench/checks.h"
#include "clench/compare.h"
#include "clench/figure.h"
#include "clench/jacking.h"
#include "clench/odds.h"
#include "clench/takeoff.h"

/* What is reported on. `value`: values of the bridge with their origin, for the list of defaults. */
typedef struct ReportSource {
    const char *name, *file, *version;
    const Bridge *bridge; /* of report_find; for checks */
    const ThrustAnswer *answer;
    int value_count;
    const BridgeValue *const *value;
    UnitSystem units;
    bool all_defaults; /* on the screen too; the page always has all */
    int columns;       /* of the screen; 0: REPORT_COLUMNS */
} ReportSource;

/* From a tree (of a reader, or unpacked) to everything that is reported on. source->file is the
 * caller's to set. given_N: a thrust of the whole deck to judge, 0 to find the needed one. Errors of the schema are in
 * `diagnostics`, then err->text is empty; all others are in err. Lives in `result`. */
MUST_USE Status report_find(const Node *root, double given_N, Arena *result, Arena *scratch,
                            ReportSource *source, Diagnostics *diagnostics, Error *err);

/* The bridge alone, without an answer: source->answer is NULL. */
MUST_USE Status report_read(const Node *root, Arena *result, ReportSource *source,
                            Diagnostics *diagnostics);

typedef enum ReportKind {
    REPORT_HEADING,
    REPORT_LEAD,    /* the answer in one sentence */
    REPORT_FACT,    /* a part of the answer behind its label */
    REPORT_CAUTION, /* what the answer is not */
    REPORT_TEXT,
    REPORT_ITEM, /* of a list */
    REPORT_TABLE,
    REPORT_FIGURE,
    REPORT_SECTION,  /* a heading below a heading */
    REPORT_SHEET,    /* a calculation: symbols = numbers = result */
    REPORT_BREAK,    /* paper: what follows starts a page */
    REPORT_CONTENTS, /* paper: the headings with their pages */
    REPORT_SIGN      /* a blank line for the signature of the one named in the text */
} ReportKind;
typedef enum ReportPlace { REPORT_BOTH, REPORT_SCREEN, REPORT_PAGE } ReportPlace;

typedef struct ReportBlock ReportBlock;
struct ReportBlock {
    ReportKind kind;
    ReportPlace place;
    const char *text;
    const char *label; /* FACT: "needed" */
    const FigureTable *table;
    bool folded; /* TABLE on the page: opens on demand; SECTION: not in the contents */
    const Figure *wide, *narrow; /* FIGURE: for the sheet and for the phone */
    const Sheet *sheet;
    const Sheet *like; /* SHEET on paper: the formulas stand there, here the values alone */
    ReportBlock *next;
};

typedef struct Report {
    const ReportSource *source;
    const char *title;
    ReportBlock *first, *last;
    Arena *arena;
} Report;

/* What stands beside every answer: every limit is borrowed, a window is no approval. */
const char *report_caution(void);

enum {
    REPORT_COLUMNS_LEAST = 60,
    REPORT_COLUMNS = 100,
    REPORT_WIDE_PX = 860,
    REPORT_NARROW_PX = 340,
    REPORT_PAPER_PX = 680
};

/* The answer of `clench thrust`; with figures where they are asked for. */
const Report *report_thrust(const ReportSource *source, bool figures, Arena *arena);
/* The history at joints (indices) of one line. */
const Report *report_life(const ReportSource *source, int line, const int *joint, int joint_count,
                          Arena *arena);

/* The whole calculation for those who check and sign: cover, assumptions, inputs, sections, time
 * functions, stages, live load, the needed thrust worked out, every check with its working. */
typedef struct PackageSource {
    const ReportSource *report;
    const CheckList *checks;
    /* Governing line at another thrust, for the line sigma(P) = a + b P; NULL leaves it out. */
    const LineAnswer *other;
    const char *revision; /* of the input: report_package prints it as it stands */
    const char *date;     /* "2031-05-04" */
} PackageSource;
const Report *report_package(const PackageSource *package, Arena *arena);
/* The governing line once more with `ratio_1` times its thrust, without causes. */
MUST_USE Status report_other(const ReportSource *source, double ratio_1, Arena *result,
                             Arena *scratch, const LineAnswer **other, Error *err);

/* The checks, worst first: the worst of each, or with `all` those of every line and what is told. */
const Report *report_checks(const ReportSource *source, const CheckList *list, bool all,
                            Arena *arena);

/* The jacking plan for the site: `sheets` adds what the terminal has no use for: sheets to write on,
 * pictures and all workings. One plan a structural unit. */
const Report *report_jacking(const ReportSource *source, const JackPlan *const *plan,
                             int plan_count, bool sheets, Arena *arena);

/* What the log of the jacking day says; the words are those that were written. */
typedef struct SiteRow {
    long number; /* of the log */
    const char *time, *step, *phase, *who, *remark;
    const char *gauge, *degrees, *cell; /* "385 psi, 380 psi", "-" where nothing was read */
    const char *move[SITE_POINTS];
    const char *call, *reason; /* said on the spot; NULL: nothing was */
    long struck;               /* by that record; 0: it stands */
    const char *struck_why, *struck_who;
} SiteRow;
typedef struct SiteSource {
    const ReportSource *report; /* of the bridge in the log, at the plan's thrust */
    const SiteDay *day;
    int count;
    const SiteReading *reading;
    const SiteRow *row;
    const SiteFit *fit;     /* NULL: fit_why says why not */
    const SiteBuilt *built; /* NULL: built_why says why not; without a fit there is none */
    const char *fit_why, *built_why;
    const char *calendar; /* date of day 0 of the bridge file; NULL: the life runs as planned */
    long records;         /* of the log */
    const char *hash;     /* of the last one */
    const char *broken;   /* how the chain is; NULL: whole */
} SiteSource;
/* What was built, and its life with that. */
const Report *report_site_fit(const SiteSource *source, Arena *arena);
void report_site_fit_json(const SiteSource *source, Text *text);
/* The record that is signed: readings, verdicts, strikes, pictures, locked force, life as built. */
const Report *report_site_record(const SiteSource *source, Arena *arena);

/* The panels for yard and crew; `report` needs no answer. */
typedef struct PanelSource {
    const ReportSource *report;
    const PanelPlan *plan;
    const PanelLiftAnswer *lift; /* [kind * PANEL_LIFT_COUNT + PanelLift] */
} PanelSource;
MUST_USE Status report_panels_find(const ReportSource *source, Arena *arena, PanelSource *panels,
                                   Error *err);
/* Every limit is kept, and the bridge is one that the girder lines bear. */
bool report_panels_met(const PanelSource *panels);
/* `sheets` adds the workings of lifting. */
const Report *report_panels(const PanelSource *panels, bool sheets, Arena *arena);
void report_panels_json(const PanelSource *panels, Text *text);

/* Quantities; `report` needs no answer. */
typedef struct TakeoffSource {
    const ReportSource *report;
    const Takeoff *takeoff;
} TakeoffSource;
const Report *report_takeoff(const TakeoffSource *source, Arena *arena);
void report_takeoff_json(const TakeoffSource *source, Text *text);
void report_takeoff_csv(const TakeoffSource *source,
                        Text *text); /* ASCII but for names of the file */

/* The seats of the panels: `sheets` adds the pictures. */
const Report *report_seating(const ReportSource *source, const SeatPlan *plan, bool sheets,
                             Arena *arena);
void report_seating_json(const ReportSource *source, const SeatPlan *plan, Text *text);
void report_seating_csv(const ReportSource *source, const SeatPlan *plan, Text *text);

void report_text(const Report *report, Text *text); /* for a terminal */
void report_html(const Report *report, Text *text); /* a page of its own, no script, no link */
/* The reference of the bridge file as Markdown: docs/bridge-file.md. */
void report_reference(Text *text);
/* One figure as SVG. `prefix` keeps its ids apart from others of the page; `alone`: a file of its
 * own with its styles inside. */
void report_svg(const Figure *figure, const char *prefix, bool alone, Text *text);
/* CSS of the roles of pictures that stand in a page: light and dark as the reader's machine asks, or as
 * data-theme="light" or "dark" of the root says. */
void report_picture_style(Text *text);
/* A formula as MathML, and one of its symbols ("f'c" as a prime with the index c). */
void report_math(const Term *term, Text *text);
/* Text for XML and HTML: & < > " ' escaped, bytes that XML forbids left out. */
void report_escape(Text *text, const char *piece);

/* Values in SI, the unit in the key. */
void report_thrust_json(const ReportSource *source, Text *text);
void report_checks_json(const ReportSource *source, const CheckList *list, Text *text);
void report_jacking_json(const ReportSource *source, const JackPlan *const *plan, int plan_count,
                         Text *text);
/* The plan and one row of checks, into a map that is open. */
void report_jacking_plan_json(const JackPlan *plan, Json *json);
/* That plan back, the same to the last bit; without margins, and of what is only worked out on the way
 * what JSON does not have is 0. */
MUST_USE Status report_jacking_plan_read(const Node *map, Arena *arena, JackPlan *plan, Error *err);
void report_check_json(const CheckRow *row, Json *json);
void report_life_json(const ReportSource *source, int line, const int *joint, int joint_count,
                      Text *text);

/* The four ways to connect the panels side by side, and in JSON with the deck's history at the joints. */
const Report *report_compare(const ReportSource *source, const CompareAnswer *answer, Arena *arena);
void report_compare_json(const ReportSource *source, const CompareAnswer *answer, Text *text);

/* What many lives say of the joints. */
const Report *report_odds(const ReportSource *source, const OddsAnswer *odds, bool figures,
                          Arena *arena);
void report_odds_json(const ReportSource *source, const OddsAnswer *odds, Text *text);

#endif
