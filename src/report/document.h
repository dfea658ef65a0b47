/* Building a document. Private to report. */
#ifndef CLENCH_REPORT_DOCUMENT_H
#define CLENCH_REPORT_DOCUMENT_H

#include "clench/report.h"

Report *document_start(const ReportSource *source, const char *title, Arena *arena);
ReportBlock *document_add(Report *report, ReportKind kind, const char *text);
ReportBlock *document_table(Report *report, const FigureTable *table);

/* "needed" and what is to be said of it. */
void document_fact(Report *report, const char *label, const char *text);

/* The line that the report looks at: the governing one. */
const LineAnswer *document_line(const ReportSource *source);
double document_deck_area_m2(const LineAnswer *line); /* of a line */
/* "span 1 (4 alike)" of "span 1 (alike: span 2, span 3, span 4)". */
const char *document_unit(const Report *report, const LineAnswer *line);
/* "interior line", with its unit where the report has lines of several. */
const char *document_name(const Report *report, const LineAnswer *line);
bool document_one_unit(const Report *report);
/* Names of the rule and the limit that bound the window of a line; "none". */
const char *document_need_name(const LineAnswer *line);
const char *document_most_name(const LineAnswer *line);
/* Share of the compression of the day of jacking that is left; NAN where there was none. */
double document_left_1(const Split *then, const Split *jacked, bool top);

/* Stress of the deck at a joint, of the side nearer to opening at its top; false without deck. */
bool document_joint_state(const LineAnswer *line, int joint, int time, FibreStress *stress);

/* Blocks of the report on the thrust, in their order. */
void blocks_lead(Report *report); /* the answer in one sentence */
void blocks_answer(Report *report);
void blocks_lines(Report *report);
void blocks_rules(Report *report, const LineAnswer *line);
void blocks_limits(Report *report, const LineAnswer *line);
void blocks_left(Report *report, const LineAnswer *line);
void blocks_sources(Report *report, const LineAnswer *line);
void blocks_defaults(Report *report);
void blocks_all_defaults(Report *report); /* their table alone */
void blocks_cautions(Report *report);

/* A sheet as plain lines and as MathML. */
/* "60 delta_degF" as "60 °F", the rest as it is. */
const char *report_degrees(const char *text, Arena *arena);
/* "kip*in^2" as kip·in², "1/delta_degF" as 1/°F. */
const char *report_unit(const char *unit, Arena *arena);
void sheet_lines(const Sheet *sheet, UnitSystem units, Text *out);
void sheet_html(const Sheet *sheet, UnitSystem units, Text *out);

/* Chapters of the package. */
void package_section(Report *report, const char *text);
void package_inputs(Report *report);
void package_sections(Report *report);
/* A line before it has the same name, so the same sections and lanes. */
bool package_seen(const ThrustAnswer *answer, int index);
void package_time(Report *report);
/* Of t, t_i and t_e that stand above: concrete by EN 1992-1-1. */
void package_time_en(Sheet *sheet, const ConcreteMix *mix);
void package_stages(Report *report);
void package_lanes(Report *report);
void package_live(Report *report, const CheckList *checks);
void package_thrust(Report *report, const PackageSource *package);
void package_checks(Report *report, const CheckList *checks);
/* Their table, whose numbers lead to the workings behind it. */
void package_rows(Report *report, const CheckList *checks, const char *caption);
void package_sources(Report *report, const CheckList *checks);
/* "1234", at least three digits that matter; "-" where it is no number. */
const char *package_number(const Report *report, double value_SI, const char *unit);
const char *package_day(const Report *report, double day);
const char *package_unit(const Report *report, const char *unit);
const char *package_head(const Report *report, const char *name, const char *unit);
const char *package_stress_head(const Report *report, const char *name);

extern const char document_style[];     /* CSS of the page */
extern const char document_svg_style[]; /* CSS of the marks alone */

#endif
