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
        figure_table_row(t, (const char *[]){v->path, v->text,
                                             v->origin == ORIGIN_DEFAULT ? "default" : "derived",
                                             v->row && v->row->help ? v->row->help : ""});
    }
    return t;
}

static bool is_default(const BridgeValue *v) { return v->origin == ORIGIN_DEFAULT; }

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

static bool alike(const BridgeValue *a, const BridgeValue *b)
{
    return is_default(b) && group_length(a) == group_length(b) &&
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

/* "deck: thickness 8.5 in, ...": a paragraph a group, for the screen. */
static void defaults_lines(Report *r)
{
    Text text = text_start(r->arena);
    const BridgeValue *last = NULL;
    for (int i = 0; i < r->source->value_count; i++) {
        const BridgeValue *v = r->source->value[i];
        if (!is_default(v)) continue;
        const size_t length = group_length(v);
        const bool same =
            last && length == group_length(last) && !strncmp(v->path, last->path, length);
        if (!same && text.length) {
            document_add(r, REPORT_ITEM, text.bytes)->place = REPORT_SCREEN;
            text = text_start(r->arena);
        }
        if (!same && v->path[length]) text_printf(&text, "%.*s:", (int)length, v->path);
        if (value_add(r->source, i, !same ? (text.length ? " " : "") : ", ", &text)) last = v;
    }
    if (text.length) document_add(r, REPORT_ITEM, text.bytes)->place = REPORT_SCREEN;
}

void blocks_defaults(Report *r)
{
    int count = 0;
    for (int i = 0; i < r->source->value_count; i++)
        count += r->source->value[i]->origin == ORIGIN_DEFAULT;
    if (count == 0) return;
    document_add(r, REPORT_HEADING, arena_printf(r->arena, "Defaults used: %d", count));
    ReportBlock *block = document_table(r, defaults_table(r));
    block->folded = true;
    block->place = r->source->all_defaults ? REPORT_BOTH : REPORT_PAGE;
    if (!r->source->all_defaults) defaults_lines(r);
}

/* clang-format off */
#define CAUTION_LIST(X)                                                                            \
    X("No published provision is known that covers decks compressed this way; every limit is "     \
      "borrowed and names its clause.")                                                            \
    X("A locked deck stores energy: nobody stands in line with the jacks or over the gap while "   \
      "they carry.")                                                                               \
    X("The thrust passes through girders, anchor panels and bearings: they must be checked for it.") \
    X("For use under the responsibility of a licensed engineer.")
/* clang-format on */

void blocks_cautions(Report *r)
{
    document_add(r, REPORT_HEADING, "Cautions");
#define X(text) document_add(r, REPORT_ITEM, text);
    CAUTION_LIST(X)
#undef X
}
