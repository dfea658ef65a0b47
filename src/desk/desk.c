/* What lies on the desk: opened once, then looked at under many thrusts. */
#include <math.h>
#include <string.h>

#include "desk_data.h"

Desk *desk_create(size_t room_bytes)
{
    Arena *first = arena_create(sizeof(Desk) + 4096);
    Desk *desk = ARENA_NEW(first, Desk, 1);
    desk->home = first;
    desk->room_bytes = room_bytes;
    return desk;
}

static void clear(Desk *desk)
{
    Arena *const home = desk->home;
    const size_t room = desk->room_bytes;
    arena_free(desk->kept);
    arena_free(desk->looked);
    arena_free(desk->spare);
    arena_free(desk->scratch);
    arena_free(desk->drawn);
    memset(desk, 0, sizeof *desk);
    desk->home = home;
    desk->room_bytes = room;
}

void desk_free(Desk *desk)
{
    if (!desk) return;
    clear(desk);
    arena_free(desk->home);
}

bool desk_is_open(const Desk *desk) { return desk->open; }

/* Kept: two histories a line, the one between them and tables of joints; looked at: one more. */
static Status check_room(const Desk *desk, Error *err)
{
    size_t bytes = 0;
    for (int k = 0; k < desk->found->line_count; k++)
        bytes += blend_bytes(desk->found->line[k].history);
    if (3 * bytes < arena_room(desk->kept) && bytes < desk->room_bytes) return STATUS_OK;
    return error_set(err, STATUS_TOO_LARGE,
                     "histories of %d girder lines need %zu MB, the page has room for %zu: ask the "
                     "command line, or shorten the units",
                     desk->found->line_count, 4 * bytes >> 20, desk->room_bytes >> 20);
}

/* The other thrust: the far end of the window, at least a fifth away, at most half as much again. */
static double other_thrust(const ThrustAnswer *found)
{
    double whole_N = found->thrust_N;
    if (!(whole_N > 0))
        for (int k = 0; k < found->line_count; k++)
            whole_N =
                fmax(whole_N, found->line[k].line->first_guess_N / found->line[k].line->share_1);
    return fmax(1.2 * whole_N, fmin(1.5 * whole_N, found->most_N));
}

static double largest_move_m(const StageHistory *h)
{
    double most_m = 0;
    for (int i = 0; i < 2 * h->time_count * h->model->station_count; i += 2)
        most_m = fmax(most_m, fabs(h->move[i].v_m));
    return most_m;
}

static void keep_line(Desk *desk, int k)
{
    DeskLine *line = &desk->line[k];
    LineAnswer *between = &desk->predicted->line[k];
    const LineAnswer *a = &desk->found->line[k], *b = &desk->other->line[k];
    const size_t cells = 2 * (size_t)a->line->joint_count * (size_t)a->history->time_count;
    line->joint = ARENA_NEW(desk->kept, FibreStress, cells);
    line->move_m = largest_move_m(a->history);
    blend_make(&line->blend, a->history, b->history, desk->kept);
    between->history = &line->blend.history;
    between->joint_stress = line->joint;
    if (a->open != b->open) {
        between->open = line->open = ARENA_NEW(desk->kept, JointLoad, 2 * a->line->joint_count);
        between->end = line->end = ARENA_NEW(desk->kept, JointLoad, 2 * a->line->joint_count);
    }
    line->standing = thrust_standing(a, desk->scratch);
}

static Status keep(Desk *desk, Error *err)
{
    const StageSettings settings = stage_settings_default();
    const ThrustStart *start[LINES_MAX];
    desk->found = desk->source.answer;
    TRY(check_room(desk, err));
    for (int k = 0; k < desk->found->line_count; k++) {
        TRY(thrust_start(desk->found->line[k].line, &settings, desk->kept, desk->scratch, &start[k],
                         err));
        desk->line[k].start = start[k];
    }
    TRY(thrust_again(desk->found, start, other_thrust(desk->found), desk->kept, desk->scratch,
                     &desk->other, err));
    desk->predicted = ARENA_NEW(desk->kept, ThrustAnswer, 1);
    *desk->predicted = *desk->found;
    for (int k = 0; k < desk->found->line_count; k++) keep_line(desk, k);
    desk->shown = desk->found;
    return STATUS_OK;
}

static Status open_tree(Desk *desk, const char *bytes, size_t size, Diagnostics *list, Error *err)
{
    Node *root;
    TRY(node_unpack(bytes, size, desk->kept, &root, err));
    TRY(report_find(root, 0, desk->kept, desk->scratch, &desk->source, list, err));
    return keep(desk, err);
}

Status desk_open(Desk *desk, const char *bytes, size_t size, DeskUnits units, Diagnostics *list,
                 Error *err)
{
    clear(desk);
    desk->kept = arena_create(desk->room_bytes);
    desk->looked = arena_create(desk->room_bytes);
    desk->spare = arena_create(desk->room_bytes);
    desk->scratch = arena_create(desk->room_bytes);
    desk->drawn = arena_create(desk->room_bytes);
    const Status status = open_tree(desk, bytes, size, list, err);
    if (status != STATUS_OK) {
        clear(desk);
        return status;
    }
    if (units != DESK_UNITS_FILE) desk->source.units = units == DESK_UNITS_US ? UNITS_US : UNITS_SI;
    desk->open = true;
    return STATUS_OK;
}

/* ---- looks ---- */

static void lay_joints(Desk *desk, int k, double share_1)
{
    const LineAnswer *line = &desk->found->line[k];
    const size_t cells = 2 * (size_t)line->line->joint_count * (size_t)line->history->time_count;
    const double *a = &line->joint_stress->top_Pa, *b = &desk->other->line[k].joint_stress->top_Pa;
    double *out = &desk->line[k].joint->top_Pa;
    for (size_t i = 0; i < 4 * cells; i++) out[i] = a[i] + share_1 * (b[i] - a[i]);
}

/* Live load and gradient hang on the thrust where strips gape (docs/theory/thrust.md): between the two. */
static void lay_loads(JointLoad *out, const JointLoad *a, const JointLoad *b, int count,
                      double share_1)
{
    enum { NUMBERS = 8 };
    for (int i = 0; i < count; i++) {
        const double *x = &a[i].live_top_max_Pa, *y = &b[i].live_top_max_Pa;
        double *z = &out[i].live_top_max_Pa;
        out[i].there = a[i].there && b[i].there;
        for (int k = 0; k < NUMBERS; k++) z[k] = x[k] + share_1 * (y[k] - x[k]);
    }
}

/* Rows that a description reads: the jacked moment, opening and the end with their causes. */
static void predict_line(Desk *desk, int k, double share_1)
{
    DeskLine *line = &desk->line[k];
    LineAnswer *answer = &desk->predicted->line[k];
    const Moments *m = &answer->moments;
    answer->thrust_N = desk->predicted->thrust_N * answer->line->share_1;
    lay_joints(desk, k, share_1);
    if (line->open) {
        const LineAnswer *a = &desk->found->line[k], *b = &desk->other->line[k];
        lay_loads(line->open, a->open, b->open, 2 * a->line->joint_count, share_1);
        lay_loads(line->end, a->end, b->end, 2 * a->line->joint_count, share_1);
    }
    blend_share(&line->blend, share_1);
    blend_row(&line->blend, m->jacked, true);
    blend_row(&line->blend, m->opening, true);
    blend_row(&line->blend, m->end, true);
    thrust_describe(answer);
    line->standing = thrust_standing(answer, desk->scratch);
}

static void predict(Desk *desk, double whole_N)
{
    const double from_N = desk->found->thrust_N, to_N = desk->other->thrust_N;
    desk->predicted->thrust_N = whole_N;
    desk->predicted->given = true;
    for (int k = 0; k < desk->predicted->line_count; k++)
        predict_line(desk, k, (whole_N - from_N) / (to_N - from_N));
    desk->predicted->met = thrust_met(desk->predicted);
    desk->shown = desk->predicted;
}

/* Into the spare arena: what was seen before stays until the run is done. */
static Status run_again(Desk *desk, double whole_N, const ThrustAnswer **answer, Error *err)
{
    const ThrustStart *start[LINES_MAX];
    for (int k = 0; k < desk->found->line_count; k++) start[k] = desk->line[k].start;
    arena_reset(desk->spare, 0);
    TRY(thrust_again(desk->found, start, whole_N, desk->spare, desk->scratch, answer, err));
    Arena *const before = desk->looked;
    desk->looked = desk->spare;
    desk->spare = before;
    return STATUS_OK;
}

static Status look_fully(Desk *desk, double whole_N, Error *err)
{
    const ThrustAnswer *answer = desk->found;
    const bool needed = fabs(whole_N - desk->found->thrust_N) <= 1e-12 * whole_N;
    if (!needed) TRY(run_again(desk, whole_N, &answer, err));
    desk->source.answer = desk->shown = answer;
    for (int k = 0; k < answer->line_count; k++)
        desk->line[k].standing = thrust_standing(&answer->line[k], desk->scratch);
    return STATUS_OK;
}

Status desk_look(Desk *desk, double whole_N, bool full, Error *err)
{
    if (!isfinite(whole_N) || whole_N <= 0 || whole_N > 1e12)
        return error_set(err, STATUS_BAD_INPUT,
                         "a thrust is a force above nothing, in newton, not %g", whole_N);
    if (full) return look_fully(desk, whole_N, err);
    predict(desk, whole_N);
    return STATUS_OK;
}

/* Of one line: largest difference of a stress at a joint in service. */
static double prediction_off_Pa(const Desk *desk, int k, double share_1)
{
    const LineAnswer *line = &desk->source.answer->line[k];
    const int times = line->history->time_count;
    double off_Pa = 0;
    for (int row = 0; row < 2 * line->line->joint_count; row++)
        for (int t = line->moments.opening; t <= line->moments.end; t++) {
            const int i = row * times + t;
            const FibreStress *full = &line->joint_stress[i];
            const FibreStress *a = &desk->found->line[k].joint_stress[i];
            const FibreStress *b = &desk->other->line[k].joint_stress[i];
            if (isnan(full->N_N)) continue;
            const double top_Pa = a->top_Pa + share_1 * (b->top_Pa - a->top_Pa);
            const double bottom_Pa = a->bottom_Pa + share_1 * (b->bottom_Pa - a->bottom_Pa);
            off_Pa =
                fmax(off_Pa, fmax(fabs(top_Pa - full->top_Pa), fabs(bottom_Pa - full->bottom_Pa)));
        }
    return off_Pa;
}

double desk_prediction_error_1(const Desk *desk)
{
    const ThrustAnswer *full = desk->source.answer;
    const double share_1 =
        (full->thrust_N - desk->found->thrust_N) / (desk->other->thrust_N - desk->found->thrust_N);
    double worst_1 = 0;
    for (int k = 0; k < full->line_count; k++)
        worst_1 = fmax(worst_1, prediction_off_Pa(desk, k, share_1) / full->line[k].average_Pa);
    return worst_1;
}
