/* The tangent of the frame: assembled into a symmetric band, widened to a general band only where
 * friction couples slip to lift, struts by a low-rank update (Woodbury). */
#include "clench/frame.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "clench/numeric.h"
#include "frame_bar.h"

enum { B = FRAME_BAND, GENERAL_ROW = 3 * FRAME_BAND + 1 };

/* A pivot this small beside its own diagonal is rounding, not stiffness: the softest real case, a
 * sliding link at 1e-7 of its stiffness beside a bar, stays a thousand times above. */
static const double tiny_pivot = 1e-13;

Frame *frame_new(int station_count, Arena *arena)
{
    Frame *frame = ARENA_NEW(arena, Frame, 1);
    frame->station_count = station_count;
    frame->n = FRAME_UNKNOWNS * station_count;
    const size_t n = (size_t)frame->n;
    frame->band = ARENA_NEW(arena, double, n *(B + 1));
    frame->general = ARENA_NEW(arena, double, n *GENERAL_ROW);
    frame->pivot = ARENA_NEW(arena, int, n);
    frame->coupling = ARENA_NEW(arena, struct FrameCoupling, station_count);
    frame->strut_move = ARENA_NEW(arena, double, n *FRAME_STRUTS);
    return frame;
}

void frame_clear(Frame *frame)
{
    memset(frame->band, 0, sizeof(double) * (size_t)frame->n * (B + 1));
    frame->unsymmetric = false;
    frame->coupling_count = frame->strut_count = frame->negative_pivots = 0;
}

static inline void add(Frame *frame, int i, int j, double value)
{
    if (i >= j) frame->band[i * (B + 1) + B - (i - j)] += value;
}

void frame_add_bar(Frame *frame, const BarPlace *place, double EA, double EI)
{
    double rows[3][6];
    bar_rows(place, rows);
    const double L = place->length_m;
    const double bend = EI * L / 6; /* work of straight moments: L/6 [2 1; 1 2] */
    int at[6];
    for (int k = 0; k < 6; k++) at[k] = bar_unknown(place, k);
    for (int i = 0; i < 6; i++)
        for (int j = 0; j <= i; j++) {
            double k = EA * L * rows[0][i] * rows[0][j];
            if (EI > 0)
                k += bend * (rows[1][i] * (2 * rows[1][j] + rows[2][j]) +
                             rows[2][i] * (rows[1][j] + 2 * rows[2][j]));
            add(frame, at[i], at[j], k);
        }
}

/* Rows of slip and lift in the station's six unknowns. */
static void link_rows(LinkArms arms, double slip[6], double lift[6])
{
    const double s[6] = {-1, 0, arms.girder_arm_m, 1, 0, arms.deck_arm_m};
    const double l[6] = {0, -1, 0, 0, 1, 0};
    memcpy(slip, s, sizeof s);
    memcpy(lift, l, sizeof l);
}

void frame_add_link(Frame *frame, LinkArms arms, int station, double H_slip, double H_lift,
                    double V_lift)
{
    double slip[6], lift[6];
    link_rows(arms, slip, lift);
    const int at = frame_unknown(station, 0, 0);
    for (int i = 0; i < 6; i++)
        for (int j = 0; j <= i; j++)
            add(frame, at + i, at + j, H_slip * slip[i] * slip[j] + V_lift * lift[i] * lift[j]);
    if (H_lift == 0) return;
    frame->unsymmetric = true;
    frame->coupling[frame->coupling_count++] = (struct FrameCoupling){station, arms, H_lift};
}

void frame_add_spring(Frame *frame, int station, double height, double horizontal, double vertical)
{
    const int u = frame_unknown(station, 0, 0), v = u + 1, theta = u + 2;
    add(frame, u, u, horizontal);
    add(frame, theta, u, -height * horizontal);
    add(frame, theta, theta, height * height * horizontal);
    add(frame, v, v, vertical);
}

void frame_add_strut(Frame *frame, const Strut *strut)
{
    assert(frame->strut_count < FRAME_STRUTS);
    frame->strut[frame->strut_count++] = *strut;
}

void frame_hold_node(Frame *frame, int station, int chain)
{
    for (int k = 0; k < 3; k++) {
        const int i = frame_unknown(station, chain, k);
        frame->band[i * (B + 1) + B] = 1;
    }
}

static Status loose(int row, const Frame *frame, const double *x_m, Error *err)
{
    static const char *const way[] = {"along the bridge", "vertically", "in rotation"};
    const int station = row / FRAME_UNKNOWNS, k = row % FRAME_UNKNOWNS;
    (void)frame;
    if (x_m)
        return error_set(err, STATUS_UNSTABLE,
                         "the structure is a mechanism: the %s at x = %.3f m is free to move %s",
                         k < 3 ? "girder" : "deck", x_m[station], way[k % 3]);
    return error_set(err, STATUS_UNSTABLE,
                     "the structure is a mechanism: the %s at station %d is free to move %s",
                     k < 3 ? "girder" : "deck", station, way[k % 3]);
}

/* Copies the symmetric band into a general one and adds p(H) = slip_row' * c * lift_row. */
static void widen(Frame *frame)
{
    const int n = frame->n;
    double *g = frame->general;
    memset(g, 0, sizeof(double) * (size_t)n * GENERAL_ROW);
    for (int i = 0; i < n; i++)
        for (int j = i > B ? i - B : 0; j <= i; j++) {
            const double k = frame->band[i * (B + 1) + B - (i - j)];
            g[i * GENERAL_ROW + j - i + B] = k;
            g[j * GENERAL_ROW + i - j + B] = k;
        }
    for (int c = 0; c < frame->coupling_count; c++) {
        const struct FrameCoupling *link = &frame->coupling[c];
        double slip[6], lift[6];
        link_rows(link->arms, slip, lift);
        const int at = frame_unknown(link->station, 0, 0);
        for (int i = 0; i < 6; i++)
            for (int j = 0; j < 6; j++)
                g[(at + i) * GENERAL_ROW + j - i + B] +=
                    link->H_per_lift_N_per_m * slip[i] * lift[j];
    }
}

static void solve_bare(const Frame *frame, double *right, int count)
{
    if (frame->unsymmetric)
        band_lu_solve(frame->n, B, frame->general, frame->pivot, right, count);
    else
        band_solve(frame->n, B, frame->band, right, count);
}

/* Woodbury: (K + sum k a a')^-1 = K^-1 - Z (diag(1/k) + a' Z)^-1 Z', Z = K^-1 a. */
static void prepare_struts(Frame *frame)
{
    const int m = frame->strut_count, n = frame->n;
    memset(frame->strut_move, 0, sizeof(double) * (size_t)(m * n));
    for (int s = 0; s < m; s++) frame_strut_force(&frame->strut[s], 1, frame->strut_move + s * n);
    solve_bare(frame, frame->strut_move, m);
    for (int i = 0; i < m; i++)
        for (int j = 0; j < m; j++)
            frame->strut_matrix[i * m + j] =
                frame_strut_opening(&frame->strut[i], frame->strut_move + j * n) +
                (i == j ? 1 / frame->strut[i].stiffness_N_per_m : 0);
}

Status frame_factor(Frame *frame, const double *x_m, Error *err)
{
    int row;
    if (frame->unsymmetric) {
        widen(frame);
        row = band_lu_factor(frame->n, B, frame->general, frame->pivot, tiny_pivot);
    } else {
        row = band_factor(frame->n, B, frame->band, tiny_pivot, &frame->negative_pivots);
    }
    if (row >= 0) return loose(row, frame, x_m, err);
    if (frame->strut_count > 0) prepare_struts(frame);
    return STATUS_OK;
}

void frame_solve(const Frame *frame, double *right, int count)
{
    const int m = frame->strut_count, n = frame->n;
    solve_bare(frame, right, count);
    for (int c = 0; c < count && m > 0; c++) {
        double *x = right + c * n;
        double matrix[FRAME_STRUTS * FRAME_STRUTS], part[FRAME_STRUTS];
        memcpy(matrix, frame->strut_matrix, sizeof(double) * (size_t)(m * m));
        for (int s = 0; s < m; s++) part[s] = frame_strut_opening(&frame->strut[s], x);
        const bool regular = dense_solve(m, matrix, part);
        assert(regular); /* 1/k > 0 on the diagonal of a positive matrix */
        (void)regular;
        for (int s = 0; s < m; s++)
            for (int i = 0; i < n; i++) x[i] -= part[s] * frame->strut_move[s * n + i];
    }
}
