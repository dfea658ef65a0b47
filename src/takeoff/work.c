/* What the items of the list share. */
#include "work.h"

#include <assert.h>
#include <math.h>
#include <string.h>

double work_value(const TakeoffWork *w, const char *path)
{
    const BridgeValue *value = bridge_value_at(w->bridge, path);
    return value ? value->value : (double)NAN;
}

int work_count(const TakeoffWork *w, const char *path)
{
    const double value = work_value(w, path);
    return isfinite(value) ? (int)lround(value) : 0;
}

const char *work_text(const TakeoffWork *w, const char *path)
{
    const BridgeValue *value = bridge_value_at(w->bridge, path);
    return value ? value->text : "";
}

const char *work_from(const TakeoffWork *w, const char *path)
{
    static const char *const origin[] = {"default", "bridge file", "derived"};
    const BridgeValue *value = bridge_value_at(w->bridge, path);
    return value ? arena_printf(w->arena, "%s (%s)", path, origin[value->origin]) : path;
}

void work_open(TakeoffWork *w, const char *why) { w->item->open = why; }

void work_name(TakeoffWork *w, const char *more)
{
    if (*more && !strstr(w->item->name, more))
        w->item->name = arena_printf(w->arena, "%s, %s", w->item->name, more);
}

TakeoffLine *work_line(TakeoffWork *w, const char *what, const char *from)
{
    Takeoff *out = w->out;
    if (out->line_count == w->line_room) {
        w->line_room = w->line_room ? 2 * w->line_room : 64;
        TakeoffLine *more = ARENA_NEW(w->arena, TakeoffLine, w->line_room);
        if (out->line_count) memcpy(more, w->line, sizeof *more * (size_t)out->line_count);
        w->line = more;
        out->line = more;
    }
    TakeoffLine *line = &w->line[out->line_count++];
    *line = (TakeoffLine){
        .item = out->item_count, .run = w->run, .what = what, .from = from, .value = 1};
    w->item->line_count++;
    return line;
}

static void times(TakeoffLine *line, TakeoffFactor factor)
{
    assert(line->factor_count < TAKEOFF_FACTORS);
    line->factor[line->factor_count++] = factor;
    line->value *= factor.value;
}

void work_times(TakeoffLine *line, const char *name, DimensionId dimension, double value_SI)
{
    times(line, (TakeoffFactor){name, value_SI, dimension, TAKEOFF_NO_INPUT});
}

void work_times_input(const TakeoffWork *w, TakeoffLine *line, const char *name,
                      TakeoffInputId input)
{
    const TakeoffInput *in = &w->out->input[input];
    times(line, (TakeoffFactor){name, in->value, in->dimension, input});
}

const PanelRun *work_run(const TakeoffWork *w) { return &w->plan->run[w->run]; }

int work_pieces(const TakeoffWork *w, int kind)
{
    const PanelRun *run = work_run(w);
    int count = 0;
    for (int i = 0; i < run->count; i++) count += w->plan->piece[run->first + i].kind == kind;
    return count;
}

double work_mean_thickness_m(const PanelPiece *p) { return p->body.gross_m3 / p->body.area_m2; }

/* ASTM A615 and A615M, nominal areas from memory; metric bars: area of the circle. */
const char *work_bar_name(double area_m2)
{
    static const struct {
        const char *name;
        double area_in2;
    } bar[] = {{"No. 3", 0.11}, {"No. 4", 0.20}, {"No. 5", 0.31},  {"No. 6", 0.44}, {"No. 7", 0.60},
               {"No. 8", 0.79}, {"No. 9", 1.00}, {"No. 10", 1.27}, {"No. 11", 1.56}};
    static const struct {
        const char *name;
        double diameter_mm;
    } metric[] = {{"8 mm", 8},   {"10 mm", 10}, {"12 mm", 12}, {"14 mm", 14},
                  {"16 mm", 16}, {"20 mm", 20}, {"25 mm", 25}, {"32 mm", 32}};
    const double in2 = quantity_in(area_m2, "in^2");
    for (size_t i = 0; i < sizeof bar / sizeof *bar; i++)
        if (fabs(in2 / bar[i].area_in2 - 1) < 0.004) return bar[i].name;
    for (size_t i = 0; i < sizeof metric / sizeof *metric; i++) {
        const double mm2 = acos(-1) * metric[i].diameter_mm * metric[i].diameter_mm / 4;
        if (fabs(quantity_in(area_m2, "mm^2") / mm2 - 1) < 0.005) return metric[i].name;
    }
    return "";
}

void work_note(TakeoffWork *w, const char *note)
{
    assert(w->out->note_count < w->note_room);
    w->note[w->out->note_count++] = note;
}
