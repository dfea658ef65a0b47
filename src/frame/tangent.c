/* The tangent of the frame: assembled into a symmetric band, widened to a general band only where
 * friction couples slip to lift, struts by a low-rank update (Woodbury). */
#include "clench/frame.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "clench/numeric.h"

enum { B = FRAME_BAND, ROW = FRAME_BAND + 1, GENERAL_ROW = 3 * FRAME_BAND + 1 };

/* A pivot this small beside the diagonal that it came from is rounding, not stiffness. The softest
 * real ones stay above: a deck that slides as a whole has 1e-7 of its shims' stiffness along x, and
 * what holds a rotation is at least h/4L of what an element has. */
static const double tiny_move = 1e-11, tiny_turn = 1e-8;

Frame *frame_new(int station_count, Arena *arena)
{
    Frame *frame = ARENA_NEW(arena, Frame, 1);
    frame->station_count = station_count;
    frame->n = FRAME_UNKNOWNS * station_count;
    const size_t n = (size_t)frame->n;
    frame->band = ARENA_NEW(arena, double, n *ROW);
    frame->own = ARENA_NEW(arena, double, n);
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

/* Entry (i, i); left of it stands row i. */
static inline double *diagonal(Frame *frame, int i) { return frame->band + (ptrdiff_t)i * ROW + B; }

static inline void add(Frame *frame, int i, int j, double value)
{
    diagonal(frame, i)[j - i] += value;
}

/* Axis: EA/L c c', c = (-1, -s, y1, 1, s, -y2) with s the rise of the axis over L; a fibre's own
 * length and direction bring the cube of its cosine. Bending: the
 * cubic beam, EI/L^3 [12 6L -12 6L; 6L 4L^2 -6L 2L^2; ...] on (v1, t1, v2, t2). */
void frame_add_bar(Frame *frame, const BarPlace *place, double EA, double EI)
{
    const double L = place->length_m, y1 = place->from_height_m, y2 = place->to_height_m;
    const double cosine = place->cosine_1 > 0 ? place->cosine_1 : 1;
    const double s = (y2 - y1) / L, a = EA * cosine * cosine * cosine / L,
                 b = 12 * EI / (L * L * L), c = 0.5 * L * b;
    const double c1 = L * L * b / 3, c2 = 0.5 * c1;
    double *u1 = diagonal(frame, frame_unknown(place->station, place->chain, 0));
    double *v1 = u1 + ROW, *t1 = v1 + ROW;
    double *u2 = diagonal(frame, frame_unknown(place->station + 1, place->chain, 0));
    double *v2 = u2 + ROW, *t2 = v2 + ROW;
    u1[0] += a;
    v1[-1] += a * s;
    v1[0] += a * s * s + b;
    t1[-2] -= a * y1;
    t1[-1] -= a * s * y1 - c;
    t1[0] += a * y1 * y1 + c1;
    u2[-6] -= a;
    u2[-5] -= a * s;
    u2[-4] += a * y1;
    u2[0] += a;
    v2[-7] -= a * s;
    v2[-6] -= a * s * s + b;
    v2[-5] += a * s * y1 - c;
    v2[-1] += a * s;
    v2[0] += a * s * s + b;
    t2[-8] += a * y2;
    t2[-7] += a * s * y2 + c;
    t2[-6] -= a * y1 * y2 - c2;
    t2[-2] -= a * y2;
    t2[-1] -= a * s * y2 + c;
    t2[0] += a * y2 * y2 + c1;
}

/* GA L g g', g = (-1/L, -1/2, 1/L, -1/2) on (v1, t1, v2, t2). */
void frame_add_shear(Frame *frame, const BarPlace *place, double GA)
{
    const double a = GA / place->length_m, c = 0.5 * GA, d = 0.25 * GA * place->length_m;
    const int v1 = frame_unknown(place->station, place->chain, 1), t1 = v1 + 1;
    const int v2 = v1 + FRAME_UNKNOWNS, t2 = v2 + 1;
    add(frame, v1, v1, a);
    add(frame, t1, v1, c);
    add(frame, t1, t1, d);
    add(frame, v2, v1, -a);
    add(frame, v2, t1, -c);
    add(frame, v2, v2, a);
    add(frame, t2, v1, c);
    add(frame, t2, t1, d);
    add(frame, t2, v2, -c);
    add(frame, t2, t2, d);
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
    const double g = arms.girder_arm_m, d = arms.deck_arm_m, h = H_slip, v = V_lift;
    const int first = frame_unknown(station, 0, 0);
    double *uG = diagonal(frame, first), *vG = diagonal(frame, first + 1);
    double *tG = diagonal(frame, first + 2), *uD = diagonal(frame, first + 3);
    double *vD = diagonal(frame, first + 4), *tD = diagonal(frame, first + 5);
    uG[0] += h;
    tG[-2] -= h * g;
    tG[0] += h * g * g;
    uD[-3] -= h;
    uD[-1] += h * g;
    uD[0] += h;
    tD[-5] -= h * d;
    tD[-3] += h * d * g;
    tD[-2] += h * d;
    tD[0] += h * d * d;
    vG[0] += v;
    vD[-3] -= v;
    vD[0] += v;
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
    for (int i = 0; i < n; i++) { /* columns i-B .. i+B; the room for fill needs no value */
        const double *row = frame->band + (ptrdiff_t)i * ROW;
        double *out = g + (ptrdiff_t)i * GENERAL_ROW;
        for (int k = 0; k <= B; k++) out[k] = row[k];
        for (int k = 1; k <= B; k++)
            out[B + k] = i + k < n ? frame->band[(i + k) * (B + 1) + B - k] : 0;
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

/* Woodbury: (K + sum k a a')^-1 = K^-1 - Z (diag(1/k) + a' Z)^-1 Z', Z = K^-1 a. Returns the first
 * strut whose gap opens without end or against its force, or -1. */
static int prepare_struts(Frame *frame)
{
    const int m = frame->strut_count, n = frame->n;
    double matrix[FRAME_STRUTS * FRAME_STRUTS], any[FRAME_STRUTS] = {0};
    memset(frame->strut_move, 0, sizeof(double) * (size_t)m * (size_t)n);
    for (int s = 0; s < m; s++)
        frame_strut_force(&frame->strut[s], 1, frame->strut_move + (ptrdiff_t)s * n);
    solve_bare(frame, frame->strut_move, m);
    for (int i = 0; i < m; i++)
        for (int j = 0; j < m; j++)
            frame->strut_matrix[i * m + j] =
                frame_strut_opening(&frame->strut[i], frame->strut_move + (ptrdiff_t)j * n) +
                (i == j ? 1 / frame->strut[i].stiffness_N_per_m : 0);
    for (int s = 0; s < m; s++)
        if (!(frame->strut_matrix[s * m + s] > 0)) return s;
    memcpy(matrix, frame->strut_matrix, sizeof(double) * (size_t)m * (size_t)m);
    return dense_solve(m, matrix, any) ? -1 : 0;
}

/* The first unknown whose pivot is rounding beside its own diagonal, or -1. */
static int first_loose(const Frame *frame)
{
    for (int i = 0; i < frame->n; i++) {
        const double pivot = frame->unsymmetric ? frame->general[(ptrdiff_t)i * GENERAL_ROW + B]
                                                : 1 / frame->band[(ptrdiff_t)i * ROW + B];
        const double tiny = i % 3 == 2 ? tiny_turn : tiny_move;
        if (!(fabs(pivot) > tiny * frame->own[i])) return i;
    }
    return -1;
}

Status frame_factor(Frame *frame, const double *x_m, Error *err)
{
    int row;
    for (int i = 0; i < frame->n; i++) frame->own[i] = frame->band[(ptrdiff_t)i * ROW + B];
    if (frame->unsymmetric) {
        widen(frame);
        row = band_lu_factor(frame->n, B, frame->general, frame->pivot, tiny_move);
    } else {
        row = band_factor(frame->n, B, frame->band, tiny_move, &frame->negative_pivots);
    }
    if (row < 0) row = first_loose(frame);
    if (row >= 0) return loose(row, frame, x_m, err);
    const int strut = frame->strut_count > 0 ? prepare_struts(frame) : -1;
    if (strut < 0) return STATUS_OK;
    return loose(frame_unknown(frame->strut[strut].left_station, 1, 0), frame, x_m, err);
}

void frame_solve(const Frame *frame, double *right, int count)
{
    const int m = frame->strut_count, n = frame->n;
    solve_bare(frame, right, count);
    for (int c = 0; c < count && m > 0; c++) {
        double *x = right + (ptrdiff_t)c * n;
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
