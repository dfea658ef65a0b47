/* Camber of the girders at mid-span at every stage: told, since the haunches are made to fit it. */
#include <math.h>

#include "moments.h"
#include "spans.h"
#include "table.h"
#include "values.h"

int spans_of(const KitLine *k, Span span[SPANS_MAX])
{
    const StageModel *model = k->model;
    int count = 0;
    double last_m = NAN;
    for (int i = 0; i < model->station_count; i++)
        for (int s = 0; s < model->support_count; s++) {
            if (model->support[s].station != i || !(model->support[s].vertical_N_per_m > 0))
                continue;
            const double x_m = model->x_m[i];
            /* the two bearings of a tied pier stand closer than any span */
            if (!isnan(last_m) && x_m - last_m > 3 && count < SPANS_MAX)
                span[count++] = (Span){last_m, x_m, 0};
            last_m = x_m;
            break;
        }
    for (int n = 0; n < count; n++) {
        const double middle_m = (span[n].from_m + span[n].to_m) / 2;
        for (int i = 0; i < model->station_count; i++)
            if (fabs(model->x_m[i] - middle_m) < fabs(model->x_m[span[n].middle] - middle_m))
                span[n].middle = i;
    }
    return count;
}

double span_camber_m(const KitLine *k, int time, const Span *span)
{
    return k->history
        ->move[((size_t)time * (size_t)k->model->station_count + (size_t)span->middle) * 2]
        .v_m;
}

/* What brought the camber since the girder lies there: changes of v by their events, the time between
 * them apart. */
typedef struct Brought {
    double weights_m, superimposed_m, thrust_m, other_m, time_m;
} Brought;

static double *share_of(Brought *b, const Event *event)
{
    if (!event) return &b->time_m;
    if (event->kind == EVENT_JACK) return &b->thrust_m;
    if (event->cause == CAUSE_SUPERIMPOSED) return &b->superimposed_m;
    return event->cause == CAUSE_WEIGHT || event->cause == CAUSE_CLOSURE ? &b->weights_m
                                                                         : &b->other_m;
}

static Brought brought(const KitLine *k, int from, const Span *span)
{
    Brought b = {0, 0, 0, 0, 0};
    for (int t = from + 1; t <= k->end; t++)
        *share_of(&b, moments_event(k->history, t)) +=
            span_camber_m(k, t, span) - span_camber_m(k, t - 1, span);
    return b;
}

static void write_brought(Sheet *s, const char *unit, const Brought *b, const char *first)
{
    sheet_given_from(s, "v_W", b->weights_m, unit,
                     "change the moment weights come on: panels, closure, grout", from_stages);
    sheet_given_from(s, "v_S", b->superimposed_m, unit, "likewise barrier, overlay, future surface",
                     from_stages);
    sheet_given_from(s, "v_J", b->thrust_m, unit, "likewise thrust of the jacks", from_stages);
    sheet_given_from(s, "v_O", b->other_m, unit, "likewise shims, locking, release, temperature",
                     from_stages);
    sheet_given_from(s, "v_C", b->time_m, unit,
                     "by creep, shrinkage and relaxation between the events", from_stages);
    sheet_formula(s, "v_e", arena_printf(s->arena, "%s + v_W + v_S + v_J + v_O + v_C", first), unit,
                  "camber at the end of life, all together", "law: sum of the changes");
}

const char check_camber_name[] = "camber that the thrust brings";

/* The stages that a table of them has room for; each bridge has the first or the second. */
static const char *const moments[] = {"transfer", "girders erected", "panels set",
                                      "jacked",   "jacks released",  "haunches grouted",
                                      "opening",  "end of life"};

static void add_span(const CheckCase *with, CheckList *list, const KitLine *k, const Span *span,
                     int number)
{
    const char *unit = bridge_units(with->bridge) == UNITS_US ? "in" : "mm";
    Sheet s = kit_sheet(with, k, "camber at mid-span");
    int index = 0, first = -1;
    for (size_t m = 0; m < sizeof moments / sizeof *moments; m++) {
        const int t = stage_time_named(k->history, moments[m]);
        if (t < 0) continue;
        if (first < 0) first = t;
        char symbol[16];
        snprintf(symbol, sizeof symbol, "v_%d", ++index);
        sheet_given_from(
            &s, symbol, span_camber_m(k, t, span), unit,
            arena_printf(with->arena, "girder above its unstressed shape: %s", moments[m]),
            from_stages);
    }
    const Brought b = brought(k, first, span);
    write_brought(&s, unit, &b, "v_1");
    sheet_given_from(&s, "v_0", span_camber_m(k, k->before_jack, span), unit,
                     "right before jacking", from_stages);
    sheet_given_from(&s, "v_P", span_camber_m(k, k->jacked, span), unit, "right after",
                     from_stages);
    sheet_formula(&s, "dv", "v_P - v_0", unit, "camber that the thrust brings", NULL);
    CheckRow *row = check_tell(list, with, &s, check_camber_name, sheet_SI(&s, "dv"), DIM_LENGTH);
    check_place(row, k->name, arena_printf(with->arena, "mid-span %d", number), "jacked", NULL);
}

Status check_camber(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        Span span[SPANS_MAX];
        const int count = spans_of(k, span);
        for (int n = 0; n < count; n++) add_span(with, list, k, &span[n], n + 1);
    }
    return STATUS_OK;
}
