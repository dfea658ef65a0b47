/* One girder line through the day: its stages up to the first jacking, then the ladder. */
#include <math.h>
#include <string.h>

#include "work.h"

/* Holds are minutes long: steps of the stages start short. */
static const double first_step_day = 0.02;

enum { EVENTS_MORE = 4 * JACK_POINTS + THEN_MAX + 8 };

typedef struct Tape {
    Event *event;
    int count;
    double day, thrust_N;
    int zero, point[JACK_POINTS], held[JACK_STEPS], then[THEN_MAX]; /* event that ends it; -1 */
} Tape;

static Event *tape_add(Tape *tape, EventKind kind)
{
    Event *event = &tape->event[tape->count++];
    *event = (Event){.day = tape->day, .kind = kind, .cause = CAUSE_THRUST, .steps = 1};
    return event;
}

static int tape_jack(Tape *tape, double share_1)
{
    tape_add(tape, EVENT_JACK)->thrust_N = share_1 * tape->thrust_N;
    return tape->count - 1;
}

static int tape_wait(Tape *tape, double wait_day)
{
    tape->day += wait_day;
    tape_add(tape, EVENT_NOTE);
    return tape->count - 1;
}

static int tape_warm(Tape *tape, double change_K)
{
    Event *event = tape_add(tape, EVENT_TEMPERATURE);
    event->chain = CHAIN_DECK;
    event->change_K = change_K;
    return tape->count - 1;
}

static void tape_before(Tape *tape, const StageModel *model)
{
    while (tape->count < model->event_count && model->event[tape->count].kind != EVENT_JACK) {
        tape->event[tape->count] = model->event[tape->count];
        tape->count++;
    }
    tape->day = model->event[tape->count < model->event_count ? tape->count : tape->count - 1].day;
}

/* Jacks hold a step shut in, or on their locks: both let the force fall as the concrete creeps. */
static void tape_ladder(Tape *tape, const Ladder *ladder, int last_step)
{
    bool shut = false;
    for (int p = 0; p < ladder->point_count; p++) {
        if (ladder->wait_day[p] > 0) {
            if (!shut && p > 0) tape_add(tape, EVENT_LOCK);
            tape_wait(tape, ladder->wait_day[p]);
        }
        tape->point[p] = tape_jack(tape, ladder->share_1[p]);
        shut = false;
        const int step = ladder->step[p];
        if (step < 0) continue;
        tape_add(tape, EVENT_LOCK);
        shut = true;
        tape->held[step] = tape_wait(tape, ladder->hold_day[step]);
        if (step == last_step) return;
    }
}

static void tape_then(Tape *tape, const Then *then)
{
    for (int i = 0; i < then->count; i++) {
        if (then->kind[i] == THEN_JACK)
            tape->then[i] = tape_jack(tape, then->value[i]);
        else if (then->kind[i] == THEN_WAIT)
            tape->then[i] = tape_wait(tape, then->value[i]);
        else
            tape->then[i] = tape_warm(tape, then->value[i]);
    }
}

static void tape_make(Tape *tape, const Work *work, int line, const Variant *variant,
                      const Then *then)
{
    const BridgeLine *b = work->line[line];
    const int room = b->model.event_count + EVENTS_MORE;
    tape->event = ARENA_NEW(work->scratch, Event, room);
    tape->thrust_N = work->plan->thrust_N * b->share_1;
    for (int p = 0; p < JACK_POINTS; p++) tape->point[p] = -1;
    for (int i = 0; i < JACK_STEPS; i++) tape->held[i] = -1;
    tape_before(tape, &b->model);
    tape->zero = tape_jack(tape, 0);
    if (variant->warm_K != 0) tape_warm(tape, variant->warm_K);
    tape_ladder(tape, &work->ladder, then->from);
    tape_then(tape, then);
}

/* ---- the model of a variant ---- */

static bool is_of_chain(const StageModel *model, int material, Chain chain)
{
    for (int p = 0; p < model->part_count; p++)
        if (model->part[p].material == material && model->part[p].chain == chain) return true;
    return false;
}

static void stiffen(Material *material, double factor_1)
{
    if (material->kind == MATERIAL_ELASTIC) material->E_Pa *= factor_1;
    if (material->kind == MATERIAL_CONCRETE)
        material->mix.modulus28_Pa = factor_1 * concrete_modulus_Pa(&material->mix, 28);
}

/* Creep in the first minutes differs most between the laws: AASHTO's starts in proportion to time, that
 * of EN 1992-1-1 Annex B with its 0.3th power. */
static void quicken(Material *material)
{
    if (material->kind != MATERIAL_CONCRETE || material->mix.model == TIME_ELASTIC) return;
    material->mix.modulus28_Pa = concrete_modulus_Pa(&material->mix, 28);
    material->mix.model = TIME_EN1992;
}

static const Material *materials_of(const StageModel *model, const Variant *variant, Arena *arena)
{
    Material *material = ARENA_NEW(arena, Material, model->material_count);
    memcpy(material, model->material, sizeof *material * (size_t)model->material_count);
    for (int m = 0; m < model->material_count; m++) {
        const bool girder = is_of_chain(model, m, CHAIN_GIRDER);
        if (girder && variant->girder_1 != 1) stiffen(&material[m], variant->girder_1);
        if (!girder && variant->deck_1 != 1) stiffen(&material[m], variant->deck_1);
        if (variant->quick) quicken(&material[m]);
    }
    return material;
}

static const Link *links_of(const StageModel *model, const Variant *variant, Arena *arena)
{
    Link *link = ARENA_NEW(arena, Link, model->station_count);
    memcpy(link, model->link, sizeof *link * (size_t)model->station_count);
    for (int i = 0; i < model->station_count; i++)
        if (link[i].friction_1 > 0) link[i].friction_1 = variant->friction_1;
    return link;
}

/* ---- reading ---- */

static int time_of(const StageHistory *history, int event)
{
    for (int t = history->time_count - 1; t >= 0; t--)
        if (history->event[t] == event) return t;
    return -1;
}

static double gap_force_N(const StageHistory *h, int time)
{
    return h->gap_force_N[(size_t)time * (size_t)h->model->gap_count];
}

static double gap_opening_m(const StageHistory *h, int time)
{
    return h->gap_opening_m[(size_t)time * (size_t)h->model->gap_count];
}

static const NodeMove *node_of(const StageHistory *h, int time, int station, Chain chain)
{
    const size_t at = (size_t)time * (size_t)h->model->station_count + (size_t)station;
    return &h->move[2 * at + (size_t)chain];
}

static double slip_of_m(const StageHistory *h, int time, int station)
{
    return h->link[(size_t)time * (size_t)h->model->station_count + (size_t)station].slip_m;
}

/* Movement to the right of a chain at a height above its node, since the zero reading. */
static double moved_m(const StageHistory *h, int time, int zero, int station, Chain chain,
                      double up_m)
{
    const NodeMove *now = node_of(h, time, station, chain);
    const NodeMove *then = node_of(h, zero, station, chain);
    return now->u_m - then->u_m - up_m * (now->theta_rad - then->theta_rad);
}

static void read_point(const StageHistory *h, int time, int zero, LineRead *read, int point)
{
    const Gap *gap = &h->model->gap[0];
    read->opening_m[point] = gap_opening_m(h, time);
    read->left_m[point] =
        -moved_m(h, time, zero, gap->left_station, CHAIN_DECK, gap->jack_above_mid_m);
    read->right_m[point] =
        moved_m(h, time, zero, gap->right_station, CHAIN_DECK, gap->jack_above_mid_m);
}

/* What arrives at both anchor panels, and how far their inner edges slip on the girder. */
static void read_anchors(const BridgeLine *line, const StageHistory *h, int time, int zero,
                         LineRead *read, int step)
{
    for (int j = 0; j < line->joint_count; j++) {
        if (!line->joint[j].at_anchor) continue;
        const int at = line->joint[j].station, right = j > 0;
        read->anchor_N[step][right] =
            stage_deck_compression_N(h, time, at, thrust_joint_side(line, j)) -
            stage_deck_compression_N(h, zero, at, thrust_joint_side(line, j));
        read->slip_m[step][right] = fabs(slip_of_m(h, time, at) - slip_of_m(h, zero, at));
    }
}

static int station_near(const StageModel *model, double x_m)
{
    int best = 0;
    for (int i = 1; i < model->station_count; i++)
        if (fabs(model->x_m[i] - x_m) < fabs(model->x_m[best] - x_m)) best = i;
    return best;
}

static void read_watch(const Work *work, const StageHistory *h, int time, int zero, LineRead *read,
                       int step)
{
    for (int w = 0; w < work->plan->watch_count; w++) {
        const JackWatch *watch = &work->plan->watch[w];
        const int at = station_near(h->model, watch->x_m);
        double below_m = 0;
        for (int s = 0; s < h->model->support_count; s++)
            if (h->model->support[s].station == at) below_m = h->model->support[s].below_top_m;
        read->watch_m[step][w] = watch->bearing ? moved_m(h, time, zero, at, CHAIN_GIRDER, -below_m)
                                                : node_of(h, time, at, CHAIN_GIRDER)->v_m -
                                                      node_of(h, zero, at, CHAIN_GIRDER)->v_m;
    }
}

static void read_all(const Work *work, int line, const StageHistory *h, const Tape *tape,
                     const Then *then, LineRead *read)
{
    const int zero = time_of(h, tape->zero);
    *read = (LineRead){0};
    for (int p = 0; p < work->ladder.point_count && tape->point[p] >= 0; p++) {
        const int time = time_of(h, tape->point[p]), step = work->ladder.step[p];
        read_point(h, time, zero, read, p);
        if (step < 0) continue;
        read_anchors(work->line[line], h, time, zero, read, step);
        read_watch(work, h, time, zero, read, step);
        read->held_N[step] = gap_force_N(h, time_of(h, tape->held[step]));
    }
    for (int i = 0; i < then->count; i++) {
        const int time = time_of(h, tape->then[i]);
        read->then_N[i] = gap_force_N(h, time);
        read->then_m[i] = gap_opening_m(h, time);
    }
}

Status line_read(const Work *work, int line, const Variant *variant, const Then *then,
                 LineRead *read, Error *err)
{
    const size_t mark = arena_mark(work->scratch);
    const StageModel *file = &work->line[line]->model;
    StageModel model = *file;
    StageSettings settings = stage_settings_default();
    Tape tape = {0};
    const StageHistory *history;
    settings.leave_causes = true;
    settings.first_step_day = first_step_day;
    tape_make(&tape, work, line, variant, then);
    model.event = tape.event;
    model.event_count = tape.count;
    model.material = materials_of(file, variant, work->scratch);
    model.link = links_of(file, variant, work->scratch);
    TRY(stage_run(&model, &settings, work->scratch, work->scratch, &history, err));
    read_all(work, line, history, &tape, then, read);
    arena_reset(work->scratch, mark);
    return STATUS_OK;
}

/* ---- places to be watched ---- */

static void watch_add(JackPlan *plan, bool bearing, int number, double x_m)
{
    if (plan->watch_count == JACK_WATCHED) return;
    plan->watch[plan->watch_count++] =
        (JackWatch){.bearing = bearing, .number = number, .x_m = x_m};
}

void watch_list(Work *work)
{
    const StageModel *model = &work->line[0]->model;
    double x_m[JACK_WATCHED];
    int count = 0;
    for (int i = 0; i < model->station_count; i++)
        for (int s = 0; s < model->support_count && count < JACK_WATCHED; s++)
            if (model->support[s].station == i && model->support[s].vertical_N_per_m > 0 &&
                (count == 0 || x_m[count - 1] < model->x_m[i]))
                x_m[count++] = model->x_m[i];
    for (int i = 0, span = 1; i + 1 < count; i++)
        if (x_m[i + 1] - x_m[i] > 3) /* two bearings of one pier are no span */
            watch_add(work->plan, false, span++, (x_m[i] + x_m[i + 1]) / 2);
    for (int i = 0; i < count; i++) watch_add(work->plan, true, i + 1, x_m[i]);
}
