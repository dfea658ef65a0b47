/* The bytes make a small frame and its loads. What solves balances its loads to 1e-6 of the forces
 * that meet in it; what does not names a member and a station. */
#include "clench/frame.h"
#include "fuzz.h"

#include <math.h>
#include <string.h>

enum { STATIONS_MAX = 7, N_MAX = FRAME_UNKNOWNS * STATIONS_MAX, PIECES_MAX = 64 };

typedef struct Bytes {
    const uint8_t *at, *end;
} Bytes;

static int next(Bytes *bytes) { return bytes->at < bytes->end ? *bytes->at++ : 0; }

/* 0, or up to six decades around 1. */
static double size_of(Bytes *bytes)
{
    const int byte = next(bytes);
    const int decade = byte / 8;
    return byte % 8 == 0 ? 0 : pow(10, decade * 6.0 / 31 - 3);
}

static double height(Bytes *bytes) { return (next(bytes) - 128) / 100.0; }

typedef struct Piece {
    enum { BAR, LINK, SPRING } kind;
    BarPlace place;
    LinkArms arms;
    int station;
    double height, a, b, c; /* stiffnesses */
} Piece;

typedef struct Model {
    Frame *frame;
    double x_m[STATIONS_MAX];
    int station_count, count, strut_count;
    Piece piece[PIECES_MAX];
    Strut strut[FRAME_STRUTS];
} Model;

static void add(Model *model, const Piece *piece)
{
    Frame *frame = model->frame;
    if (piece->kind == BAR) frame_add_bar(frame, &piece->place, piece->a, piece->b);
    if (piece->kind == LINK)
        frame_add_link(frame, piece->arms, piece->station, piece->a, piece->b, piece->c);
    if (piece->kind == SPRING)
        frame_add_spring(frame, piece->station, piece->height, piece->a, piece->b);
    model->piece[model->count++] = *piece;
}

static void read_stations(Model *model, Bytes *bytes, Arena *arena)
{
    model->station_count = 2 + next(bytes) % (STATIONS_MAX - 1);
    for (int i = 1; i < model->station_count; i++)
        model->x_m[i] = model->x_m[i - 1] + (1 + next(bytes)) / 32.0;
    model->frame = frame_new(model->station_count, arena);
}

/* A gap has one strut: at most one between the same stations. */
static void read_strut(Model *model, Bytes *bytes, int right)
{
    if (model->strut_count == FRAME_STRUTS || right == 0) return;
    const Strut strut = {next(bytes) % right, right, height(bytes), 1e4 * (1e-3 + size_of(bytes))};
    for (int s = 0; s < model->strut_count; s++)
        if (model->strut[s].right_station == right &&
            model->strut[s].left_station == strut.left_station)
            return;
    frame_add_strut(model->frame, &strut);
    model->strut[model->strut_count++] = strut;
}

/* One piece from the bytes; its kind in the first of them. */
static void read_piece(Model *model, Bytes *bytes)
{
    const int what = next(bytes), stations = model->station_count;
    const int station = next(bytes) % stations, element = station % (stations - 1);
    Piece piece = {.station = station};
    const double length = model->x_m[element + 1] - model->x_m[element];
    switch (what % 4) {
    case 0:
        piece.kind = BAR;
        piece.place = (BarPlace){element, what / 4 % 2, length, height(bytes), height(bytes), 0};
        piece.a = 1e4 * size_of(bytes);
        piece.b = what / 8 % 2 ? 1e3 * size_of(bytes) : 0;
        break;
    case 1:
        piece.kind = LINK;
        piece.arms = (LinkArms){fabs(height(bytes)), fabs(height(bytes))};
        piece.a = 1e4 * size_of(bytes);
        piece.c = 1e4 * size_of(bytes);
        if (what / 8 % 4 == 0) piece.b = (what / 4 % 2 ? 0.5 : -0.5) * piece.c;
        break;
    case 2:
        piece.kind = SPRING;
        piece.height = height(bytes);
        piece.a = 1e5 * size_of(bytes);
        piece.b = 1e5 * size_of(bytes);
        break;
    default: read_strut(model, bytes, station); return;
    }
    int couplings = 0;
    for (int k = 0; k < model->count; k++) couplings += model->piece[k].b != 0;
    if (piece.kind == LINK && couplings >= stations) piece.b = 0; /* room of one a station */
    add(model, &piece);
}

/* Inner forces of one piece at x, added to `nodal`. */
static void piece_force(const Piece *piece, const double *x, double *nodal)
{
    double slip, lift;
    if (piece->kind == BAR) {
        const BarStrain s = frame_bar_strain(&piece->place, x);
        frame_bar_force(&piece->place, piece->a * s.axial_1, piece->b * s.from_per_m,
                        piece->b * s.to_per_m, nodal);
    } else if (piece->kind == LINK) {
        frame_link_strain(piece->arms, piece->station, x, &slip, &lift);
        frame_link_force(piece->arms, piece->station, piece->a * slip + piece->b * lift,
                         piece->c * lift, nodal);
    } else {
        const double *G = x + frame_unknown(piece->station, 0, 0);
        double *p = nodal + frame_unknown(piece->station, 0, 0);
        const double H = piece->a * (G[0] - piece->height * G[2]);
        p[0] += H;
        p[1] += piece->b * G[1];
        p[2] -= piece->height * H;
    }
}

/* Largest force that a displacement puts into any piece: the scale of rounding. Every unknown by
 * itself: parts of a rigid motion cancel in the sum, not in the rounding. */
static double force_scale(const Model *model, const double *x)
{
    double scale = 0;
    for (int i = 0; i < model->frame->n; i++) {
        double one[N_MAX] = {0};
        one[i] = x[i];
        for (int k = 0; k < model->count; k++) {
            double nodal[N_MAX] = {0};
            piece_force(&model->piece[k], one, nodal);
            for (int j = 0; j < model->frame->n; j++) scale = fmax(scale, fabs(nodal[j]));
        }
        for (int s = 0; s < model->strut_count; s++)
            scale = fmax(scale, model->strut[s].stiffness_N_per_m *
                                    fabs(frame_strut_opening(&model->strut[s], one)));
    }
    return scale;
}

static void check_balance(const Model *model, const double *load)
{
    const Frame *frame = model->frame;
    double x[N_MAX], bare[N_MAX], nodal[N_MAX] = {0}, largest = 0;
    memcpy(x, load, sizeof x);
    memcpy(bare, load, sizeof bare);
    frame_solve(frame, x, 1);
    Frame without = *frame; /* the struts answer to what the rest alone would do */
    without.strut_count = 0;
    frame_solve(&without, bare, 1);
    for (int k = 0; k < model->count; k++) piece_force(&model->piece[k], x, nodal);
    for (int s = 0; s < model->strut_count; s++) {
        const Strut *strut = &model->strut[s];
        frame_strut_force(strut, strut->stiffness_N_per_m * frame_strut_opening(strut, x), nodal);
    }
    for (int i = 0; i < frame->n; i++) {
        MUST_HOLD(isfinite(x[i]));
        largest = fmax(largest, fabs(load[i] - nodal[i]));
    }
    MUST_HOLD(largest <= 1e-6 * (force_scale(model, x) + force_scale(model, bare) + 1));
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    Bytes rest = {bytes, bytes + size};
    Model model = {0};
    Error err = {0};
    double load[N_MAX] = {0};
    Arena *arena = arena_create(1 << 20);
    read_stations(&model, &rest, arena);
    for (int i = 0; i < 3; i++) load[next(&rest) % model.frame->n] += 1e3 * height(&rest);
    while (rest.at < rest.end && model.count < PIECES_MAX) read_piece(&model, &rest);
    if (frame_factor(model.frame, model.x_m, &err) == STATUS_OK) {
        check_balance(&model, load);
    } else {
        MUST_HOLD(err.status == STATUS_UNSTABLE);
        MUST_HOLD(strstr(err.text, "girder") || strstr(err.text, "deck"));
        MUST_HOLD(strstr(err.text, " at x = ") && strstr(err.text, " m is free to move "));
    }
    arena_free(arena);
    return 0;
}
