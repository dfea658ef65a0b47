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
    line->joint_a = thrust_joint_stress(a->line, a->history, &a->moments, desk->kept);
    line->joint_b = thrust_joint_stress(b->line, b->history, &b->moments, desk->kept);
    line->joint = ARENA_NEW(desk->kept, FibreStress, cells);
    line->move_m = largest_move_m(a->history);
    blend_make(&line->blend, a->history, b->history, desk->kept);
    between->history = &line->blend.history;
    line->standing = thrust_standing(a, line->joint_a, desk->scratch);
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

static void lay_joints(DeskLine *line, size_t cells, double share_1)
{
    const double *a = &line->joint_a->top_Pa, *b = &line->joint_b->top_Pa;
    double *out = &line->joint->top_Pa;
    for (size_t i = 0; i < 4 * cells; i++) out[i] = a[i] + share_1 * (b[i] - a[i]);
}

/* Rows that a description reads: the jacked moment, opening and the end with their causes. */
static void predict_line(Desk *desk, int k, double share_1)
{
    DeskLine *line = &desk->line[k];
    LineAnswer *answer = &desk->predicted->line[k];
    const Moments *m = &answer->moments;
    const size_t cells =
        2 * (size_t)answer->line->joint_count * (size_t)answer->history->time_count;
    answer->thrust_N = desk->predicted->thrust_N * answer->line->share_1;
    lay_joints(line, cells, share_1);
    blend_share(&line->blend, share_1);
    blend_row(&line->blend, m->jacked, true);
    blend_row(&line->blend, m->opening, true);
    blend_row(&line->blend, m->end, true);
    thrust_describe(answer);
    line->standing = thrust_standing(answer, line->joint, desk->scratch);
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
    for (int k = 0; k < answer->line_count; k++) {
        const LineAnswer *line = &answer->line[k];
        const size_t mark = arena_mark(desk->scratch);
        const FibreStress *joint =
            thrust_joint_stress(line->line, line->history, &line->moments, desk->scratch);
        desk->line[k].standing = thrust_standing(line, joint, desk->scratch);
        arena_reset(desk->scratch, mark);
    }
    return STATUS_OK;
}

Status desk_look(Desk *desk, double whole_N, bool full, Error *err)
{
    if (!(whole_N > 0) || !(whole_N < 1e12))
        return error_set(err, STATUS_BAD_INPUT,
                         "a thrust is a force above nothing, in newton, not %g", whole_N);
    if (full) return look_fully(desk, whole_N, err);
    predict(desk, whole_N);
    return STATUS_OK;
}

double desk_prediction_error_1(Desk *desk)
{
    const ThrustAnswer *full = desk->source.answer;
    const double share_1 =
        (full->thrust_N - desk->found->thrust_N) / (desk->other->thrust_N - desk->found->thrust_N);
    double worst_1 = 0;
    for (int k = 0; k < full->line_count; k++) {
        const LineAnswer *line = &full->line[k];
        const DeskLine *kept = &desk->line[k];
        const int times = line->history->time_count;
        const size_t mark = arena_mark(desk->scratch);
        const FibreStress *joint =
            thrust_joint_stress(line->line, line->history, &line->moments, desk->scratch);
        for (int row = 0; row < 2 * line->line->joint_count; row++)
            for (int t = line->moments.opening; t <= line->moments.end; t++) {
                const int i = row * times + t;
                if (isnan(joint[i].N_N)) continue;
                const FibreStress *a = &kept->joint_a[i], *b = &kept->joint_b[i];
                const double top_Pa = a->top_Pa + share_1 * (b->top_Pa - a->top_Pa);
                const double bottom_Pa = a->bottom_Pa + share_1 * (b->bottom_Pa - a->bottom_Pa);
                const double off_Pa =
                    fmax(fabs(top_Pa - joint[i].top_Pa), fabs(bottom_Pa - joint[i].bottom_Pa));
                worst_1 = fmax(worst_1, off_Pa / line->average_Pa);
            }
        arena_reset(desk->scratch, mark);
    }
    return worst_1;
}
