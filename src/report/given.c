/* What the file did not give, and what to be careful about. */
#include <string.h>

#include "document.h"

static FigureTable *defaults_table(const Report *r)
{
    FigureTable *t = figure_table_start(r->arena, "Values that the file does not give", 4);
    static const char *const plain[] = {"value", "taken", "origin", "meaning"};
    for (int c = 0; c < 4; c++) figure_table_column(t, c, false, plain[c]);
    for (int i = 0; i < r->source->value_count; i++) {
        const BridgeValue *v = r->source->value[i];
        if (v->origin == ORIGIN_GIVEN) continue;
        figure_table_row(t, (const char *[]){v->path, report_degrees(v->text, r->arena),
                                             v->origin == ORIGIN_DEFAULT ? "default" : "derived",
                                             v->row && v->row->help ? v->row->help : ""});
    }
    return t;
}

static size_t group_length(const BridgeValue *v) { return strcspn(v->path, ".["); }

static const char *leaf_of(const BridgeValue *v)
{
    const char *dot = strrchr(v->path, '.');
    return dot ? dot + 1 : v->path;
}

/* "panel" of "concrete.panel.cement", "[2]" of "supports[2].kind"; false where there is none. */
static bool middle_of(const BridgeValue *v, const char **middle, int *length)
{
    *middle = v->path + group_length(v);
    if (**middle == '.') *middle += 1;
    *length = (int)(leaf_of(v) - *middle) - 1;
    return *length > 0;
}

/* What weighs most in the answer, as paths or their beginnings; the choice is common practice, no
 * source. The screen shows these, --defaults and the page all. */
static const char *const heavy[] = {
    "time_model",
    "girders.top_bars",
    "deck.thickness",
    "deck.wearing_allowance",
    "deck.haunch",
    "panels.joint",
    "panels.length",
    "panels.anchor_length",
    "panels.gap",
    "panels.phases",
    "jacks.count",
    "jacks.rated",
    "jacks.margin",
    "shims.friction",
    "shims.connectors",
    "concrete.girder.strength",
    "concrete.panel.strength",
    "concrete.closure.strength",
    "closure.fraction",
    "days.phase_2_cast",
    "days.panels_set",
    "days.jacking",
    "days.release",
    "days.opening",
    "loads.",
    "live.",
    "climate.",
    "criteria.average",
    "criteria.tension",
};

static bool is_heavy(const BridgeValue *v)
{
    for (size_t i = 0; i < sizeof heavy / sizeof *heavy; i++) {
        const size_t length = strlen(heavy[i]);
        const bool group = heavy[i][length - 1] == '.';
        if (group ? !strncmp(v->path, heavy[i], length) : !strcmp(v->path, heavy[i])) return true;
    }
    return false;
}

static bool is_shown(const BridgeValue *v)
{
    return v->origin != ORIGIN_GIVEN && is_heavy(v) && strcmp(v->text, "none") != 0;
}

static bool alike(const BridgeValue *a, const BridgeValue *b)
{
    return is_shown(b) && group_length(a) == group_length(b) &&
           !strncmp(a->path, b->path, group_length(a)) && !strcmp(leaf_of(a), leaf_of(b)) &&
           !strcmp(a->text, b->text);
}

/* One value, with all of its group that have the same name and text: "cement normal (girder,
 * panel)". False where an earlier one has said it. */
static bool value_add(const ReportSource *s, int index, const char *before, Text *text)
{
    const BridgeValue *v = s->value[index];
    for (int i = 0; i < index; i++)
        if (alike(v, s->value[i])) return false;
    text_printf(text, "%s%s %s", before, leaf_of(v), v->text);
    const char *middle, *open = " (";
    int length;
    if (!middle_of(v, &middle, &length)) return true;
    for (int i = index; i < s->value_count; i++) {
        if (!alike(v, s->value[i]) || !middle_of(s->value[i], &middle, &length)) continue;
        text_printf(text, "%s%.*s", open, length, middle);
        open = ", ";
    }
    text_add(text, ")");
    return true;
}

/* "deck: thickness 8.5 in, ...": a paragraph a group. */
static void defaults_lines(Report *r)
{
    Text text = text_start(r->arena);
    const BridgeValue *last = NULL;
    for (int i = 0; i < r->source->value_count; i++) {
        const BridgeValue *v = r->source->value[i];
        if (!is_shown(v)) continue;
        const size_t length = group_length(v);
        const bool same =
            last && length == group_length(last) && !strncmp(v->path, last->path, length);
        if (!same && text.length) {
            document_add(r, REPORT_ITEM, text.bytes);
            text = text_start(r->arena);
        }
        if (!same && v->path[length]) text_printf(&text, "%.*s:", (int)length, v->path);
        if (value_add(r->source, i, !same ? (text.length ? " " : "") : ", ", &text)) last = v;
    }
    if (text.length) document_add(r, REPORT_ITEM, text.bytes);
}

void blocks_defaults(Report *r)
{
    const ReportSource *s = r->source;
    int defaults = 0, derived = 0, shown = 0;
    for (int i = 0; i < s->value_count; i++) {
        defaults += s->value[i]->origin == ORIGIN_DEFAULT;
        derived += s->value[i]->origin == ORIGIN_DERIVED;
        shown += is_shown(s->value[i]);
    }
    if (defaults + derived == 0) return;
    document_add(r, REPORT_HEADING,
                 arena_printf(r->arena, "Not in the file: %d values taken by default, %d derived",
                              defaults, derived));
    if (shown) {
        document_add(r, REPORT_TEXT, "Those that weigh most:");
        defaults_lines(r);
    }
    if (!s->all_defaults)
        document_add(r, REPORT_TEXT, "All of them, with what they mean: --defaults")->place =
            REPORT_SCREEN;
    ReportBlock *block = document_table(r, defaults_table(r));
    block->folded = true;
    block->place = s->all_defaults ? REPORT_BOTH : REPORT_PAGE;
}

void blocks_all_defaults(Report *r) { document_table(r, defaults_table(r)); }

/* clang-format off */
#define CAUTION_LIST(X)                                                                            \
    X("A locked deck stores energy: nobody stands in line with the jacks or over the gap while "   \
      "they carry.")                                                                               \
    X("The thrust passes through girders, anchor panels and bearings: they must be checked for it.") \
    X("Creep, shrinkage, friction and gauges scatter: the answer is for the values given, without a " \
      "margin for their scatter.")                                                                 \
    X("Clauses marked \"from memory\" were not seen in the edition in force: look them up.")
/* clang-format on */

void blocks_cautions(Report *r)
{
    document_add(r, REPORT_HEADING, "Cautions");
#define X(text) document_add(r, REPORT_ITEM, text);
    CAUTION_LIST(X)
#undef X
}
