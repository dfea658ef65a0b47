/* How an effect of live load or a stress of the gradient comes about: position, ordinates, forces, section. */
#include <math.h>
#include <string.h>

#include "live.h"

/* Lines of one effect: its own; of a fibre's stress also of N and M of its part and of the whole section's
 * moment, else without values. */
typedef struct Ordinates {
    InfluenceLine effect, N, M, section;
} Ordinates;

static double ordinate(const InfluenceLine *line, double x_m)
{
    return line->value ? traffic_at(line, x_m) : 0;
}

static double loaded(const Ordinates *lines, int sign, const InfluenceLine *of, double *length_m)
{
    return of->value ? traffic_loaded_area(&lines->effect, sign, of->value, length_m) : 0;
}

const PartSection *live_section(const LiveLines *lines, const StageEffect *effect)
{
    const int part =
        stage_part(lines->history, lines->time, effect->chain, effect->station, effect->side);
    return part < 0 ? NULL : &lines->line->model.section[lines->line->model.part[part].section];
}

double live_y_m(const PartSection *section, bool top)
{
    return top ? -section->top_m : section->bottom_m;
}

/* f_top = N / A - M c_t / I and f_bottom = N / A + M c_b / I, solved for N and M. */
static bool ordinates_find(LiveLines *lines, const StageEffect *effect, const PartSection *section,
                           Ordinates *out)
{
    const StageModel *model = &lines->line->model;
    const int n = model->station_count;
    StageEffect both[2] = {*effect, *effect};
    bool done[2];
    both[0].top = true;
    both[1].top = false;
    stage_influence(lines->structure, both, 2, lines->value, done, lines->work);
    double *top = lines->value, *bottom = top + n, *N = bottom + n, *M = N + n, *whole = M + n;
    const double depth_m = section->top_m + section->bottom_m;
    if (!done[0] || !done[1] || !(depth_m > 0)) return false;
    for (int i = 0; i < n; i++) {
        M[i] = (bottom[i] - top[i]) * section->inertia_m4 / depth_m;
        N[i] =
            (top[i] * section->bottom_m + bottom[i] * section->top_m) * section->area_m2 / depth_m;
    }
    live_moment_line(lines, effect->station, whole);
    *out = (Ordinates){{n, model->x_m, effect->top ? top : bottom},
                       {n, model->x_m, N},
                       {n, model->x_m, M},
                       {n, model->x_m, whole}};
    return true;
}

static void add_axles(const LiveLoad *load, const Ordinates *lines, int sign,
                      const LiveExtreme *most, double *scan, LiveWorking *w)
{
    AxlePlace place[2 * AXLES_MAX];
    w->axle_count = traffic_places(load, &lines->effect, sign, most, place, scan);
    for (int i = 0; i < w->axle_count; i++) {
        const double x_m = place[i].x_m, P_N = w->vehicle_1 * place[i].load_N;
        w->axle[i] = (LiveAxle){.x_m = x_m,
                                .load_N = place[i].load_N,
                                .ordinate = ordinate(&lines->effect, x_m),
                                .N_1 = ordinate(&lines->N, x_m),
                                .M_m = ordinate(&lines->M, x_m),
                                .section_m = ordinate(&lines->section, x_m)};
        w->N_N += P_N * w->axle[i].N_1;
        w->M_Nm += P_N * w->axle[i].M_m;
        w->section_Nm += P_N * w->axle[i].section_m;
        w->value += P_N * w->axle[i].ordinate;
    }
}

static void add_lane(const Ordinates *lines, int sign, LiveWorking *w)
{
    const double q_N_per_m = w->lane_1 * w->lane_N_per_m;
    double *length_m = &w->lane_length_m;
    w->lane_area = loaded(lines, sign, &lines->effect, length_m);
    w->lane_N_m = loaded(lines, sign, &lines->N, length_m);
    w->lane_M_m2 = loaded(lines, sign, &lines->M, length_m);
    w->lane_section_m2 = loaded(lines, sign, &lines->section, length_m);
    w->N_N += q_N_per_m * w->lane_N_m;
    w->M_Nm += q_N_per_m * w->lane_M_m2;
    w->section_Nm += q_N_per_m * w->lane_section_m2;
    w->value += q_N_per_m * w->lane_area;
}

static double modulus_Pa(const LiveLines *lines, const Part *part)
{
    const Material *law = &lines->line->model.material[part->material];
    if (law->kind != MATERIAL_CONCRETE) return law->E_Pa;
    return concrete_modulus_Pa(&law->mix, lines->history->day[lines->time] - law->cast_day);
}

/* Girder and deck with one plane, in girder material. */
static void add_whole(const LiveLines *lines, const StageEffect *effect, LiveWorking *w)
{
    const StageModel *m = &lines->line->model;
    const int x = effect->station, side = effect->side;
    const int g = stage_part(lines->history, lines->time, CHAIN_GIRDER, x, side);
    const int d = stage_part(lines->history, lines->time, CHAIN_DECK, x, side);
    const int own = effect->chain == CHAIN_DECK ? d : g;
    w->E_Pa = modulus_Pa(lines, &m->part[own]);
    if (g < 0 || d < 0) return;
    const PartSection *girder = &m->section[m->part[g].section];
    const PartSection *deck = &m->section[m->part[d].section];
    const double n = modulus_Pa(lines, &m->part[d]) / modulus_Pa(lines, &m->part[g]);
    const double apart_m = m->haunch_m + 0.5 * m->deck_thickness_m + m->part[d].from_height_m -
                           m->part[g].from_height_m;
    const double up_m = n * deck->area_m2 * apart_m / (girder->area_m2 + n * deck->area_m2);
    const double over_m = apart_m - up_m; /* deck's centroid over the common one */
    w->modular_1 = effect->chain == CHAIN_DECK ? n : 1;
    w->whole_inertia_m4 = girder->inertia_m4 + n * deck->inertia_m4 +
                          girder->area_m2 * up_m * up_m + n * deck->area_m2 * over_m * over_m;
    w->whole_y_m = w->y_m + (effect->chain == CHAIN_DECK ? -over_m : up_m);
}

/* Where the two-truck rule is tried: as live_stress does. */
static bool with_train(const LiveLines *lines, const StageEffect *effect, int sign)
{
    const bool lower = effect->chain == CHAIN_GIRDER && !effect->top;
    return live_in_zone(lines, effect->station) && sign == (lower ? -1 : 1);
}

static void work_out(LiveLines *lines, const LiveLoad *load, const Ordinates *ordinates, int sign,
                     bool train, LiveWorking *out)
{
    const LiveExtreme most = traffic_extreme(load, &ordinates->effect, sign, train, lines->scan);
    const bool moves = most.vehicle_index >= 0;
    *out = (LiveWorking){.vehicle = moves ? load->vehicle[most.vehicle_index].name : NULL,
                         .train = most.train,
                         .lane_N_per_m = load->lane_N_per_m,
                         .lane_1 = most.train ? load->train_factor_1 : 1};
    out->vehicle_1 = out->lane_1 * (1 + load->impact_ratio);
    add_axles(load, ordinates, sign, &most, lines->scan, out);
    add_lane(ordinates, sign, out);
}

bool live_working(LiveLines *lines, const LiveLoad *load, const StageEffect *effect, int sign,
                  LiveWorking *out)
{
    const PartSection *section = live_section(lines, effect);
    Ordinates ordinates;
    if (!section || !ordinates_find(lines, effect, section, &ordinates)) return false;
    work_out(lines, load, &ordinates, sign, with_train(lines, effect, sign), out);
    out->fibre = true;
    out->area_m2 = section->area_m2;
    out->inertia_m4 = section->inertia_m4;
    out->y_m = live_y_m(section, effect->top);
    add_whole(lines, effect, out);
    return true;
}

bool live_effect_working(LiveLines *lines, const LiveLoad *load, const LiveEffect *effect, int sign,
                         LiveWorking *out)
{
    const StageModel *model = &lines->line->model;
    if (!live_line(lines, effect, lines->value)) return false;
    const Ordinates ordinates = {.effect = {model->station_count, model->x_m, lines->value}};
    work_out(lines, load, &ordinates, sign, live_with_train(lines, effect, sign), out);
    out->kind = effect->kind;
    return true;
}
