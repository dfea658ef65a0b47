/* The plan: its parts in their order, and what to expect at a force. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "work.h"

const char *jack_band_name(JackBandPart part)
{
    static const char *const name[JACK_BAND_PARTS] = {
        "modulus of the panels",   "stiffness of the girders", "deck warmer or colder",
        "gauge and calibration",   "seating of the joints",    "friction at the shims",
        "sharing across the width"};
    return name[part];
}

/* ---- units ---- */

static bool starts_unit(const ThrustAnswer *answer, int line)
{
    return line == 0 ||
           strcmp(answer->line[line].line->unit, answer->line[line - 1].line->unit) != 0;
}

int jacking_units(const ThrustAnswer *answer)
{
    int count = 0;
    for (int k = 0; k < answer->line_count; k++) count += starts_unit(answer, k);
    return count;
}

/* Interior line, then exterior; of two girders the exterior alone. */
static void lines_take(Work *work)
{
    const ThrustAnswer *answer = work->wish->answer;
    const int girders = (int)lround(jack_value(work, "girders.count"));
    int unit = -1;
    for (int k = 0; k < answer->line_count; k++) {
        unit += starts_unit(answer, k);
        if (unit != work->wish->unit || work->line_count == JACK_LINES) continue;
        work->line[work->line_count++] = answer->line[k].line;
    }
    for (int k = 0; k < work->line_count; k++) {
        JackLine *line = &work->plan->line[k];
        const bool outer = k == work->line_count - 1;
        work->girders[k] = outer ? 2 : girders - 2;
        *line = (JackLine){.name = work->line[k]->name,
                           .girders = work->girders[k],
                           .share_1 = work->line[k]->share_1,
                           .thrust_N = work->line[k]->share_1 * answer->thrust_N};
    }
    work->plan->line_count = work->line_count;
}

/* ---- what the file says ---- */

static void alarms_read(const Work *work, JackAlarms *alarm)
{
    alarm->movement_1 = jack_value(work, "jacking.alarm_movement");
    alarm->sides_m = jack_value(work, "jacking.alarm_sides");
    alarm->force_1 = jack_value(work, "jacking.alarm_force");
    alarm->drop_1 = jack_value(work, "jacking.alarm_drop");
    alarm->slip_m = jack_value(work, "jacking.alarm_slip");
    alarm->abort_slip_m = jack_value(work, "jacking.abort_slip");
    alarm->camber_m = jack_value(work, "jacking.alarm_camber");
    alarm->bearing_1 = jack_value(work, "jacking.alarm_bearing");
    alarm->exclusion_m = jack_value(work, "jacking.exclusion");
}

static int closing_joints(const BridgeLine *line)
{
    int count = 0;
    for (int j = 0; j < line->joint_count; j++) count += !line->joint[j].at_gap;
    return count;
}

/* Of the deck beside the left face of the gap. */
static double deck_modulus_Pa(const StageModel *model)
{
    const int element = model->gap[0].left_station - 1;
    double day = 0;
    for (int e = 0; e < model->event_count; e++)
        if (model->event[e].kind == EVENT_JACK) day = model->event[e].day;
    for (int p = 0; p < model->part_count; p++) {
        const Material *m = &model->material[model->part[p].material];
        if (model->part[p].element == element && model->part[p].chain == CHAIN_DECK &&
            m->kind == MATERIAL_CONCRETE && m->cast_day < day)
            return concrete_modulus_Pa(&m->mix, day - m->cast_day);
    }
    return NAN;
}

static void inputs_read(Work *work)
{
    JackPlan *plan = work->plan;
    assert(work->line_count > 0);
    const StageModel *model = &work->line[0]->model;
    const Gap *gap = &model->gap[0];
    plan->unit = work->line[0]->unit;
    plan->thrust_N = work->wish->answer->thrust_N;
    plan->width_m = jack_value(work, "deck.width");
    plan->thickness_m = model->deck_thickness_m;
    plan->gap_m = model->x_m[gap->right_station] - model->x_m[gap->left_station];
    plan->above_mid_m = gap->jack_above_mid_m;
    plan->height_off_m = jack_value(work, "jacks.off_mid");
    plan->height_Pa = 6 * plan->thrust_N * plan->height_off_m /
                      (plan->width_m * plan->thickness_m * plan->thickness_m);
    work->deck_E_Pa = deck_modulus_Pa(model);
    plan->joint_count = closing_joints(work->line[0]);
    plan->seating_least_m = plan->joint_count * jack_value(work, "jacking.seating_least");
    plan->seating_most_m = plan->joint_count * jack_value(work, "jacking.seating_most");
    plan->friction_most_1 = jack_value(work, "shims.friction");
    plan->friction_least_1 = jack_value(work, "shims.friction_least");
    plan->warmth.window_K = jack_value(work, "jacking.difference");
    plan->warmth.rate_K = jack_value(work, "jacking.rate");
    plan->warmth.swing_K = jack_value(work, "jacking.swing");
    alarms_read(work, &plan->alarm);
    work->middle = (Variant){1, 1, (plan->friction_least_1 + plan->friction_most_1) / 2, 0, false};
}

static void room_fill(const Work *work)
{
    JackPlan *plan = work->plan;
    double expected_m = 0;
    for (int i = 0; i < plan->step_count; i++)
        expected_m = fmax(expected_m, plan->step[i].opening.expected_m);
    plan->stroke_need_m = expected_m * jack_value(work, "jacking.movement_margin") +
                          jack_value(work, "jacking.movement_reserve");
    plan->gap_need_m =
        plan->gear.closed_m + plan->gear.packing_m + jack_value(work, "jacking.uneven");
}

Status jacking_plan(const JackWish *wish, Arena *result, Arena *scratch, const JackPlan **plan,
                    Error *err)
{
    Work *work = ARENA_NEW(result, Work, 1);
    *work = (Work){.wish = wish, .arena = result, .scratch = scratch};
    work->plan = ARENA_NEW(result, JackPlan, 1);
    lines_take(work);
    inputs_read(work);
    TRY(gear_choose(work, err));
    ladder_build(work);
    watch_list(work);
    work->plan->seated_N = work->plan->step[0].force_N;
    TRY(band_fill(work, err));
    TRY(after_fill(work, err));
    TRY(out_fill(work, err));
    room_fill(work);
    TRY(rows_fill(work, err));
    *plan = work->plan;
    return STATUS_OK;
}

/* ---- what to expect at a force ---- */

static double between(double from, double to, double part_1) { return from + part_1 * (to - from); }

JackExpect jacking_expect(const JackPlan *plan, double force_N)
{
    int p = 1;
    while (p < plan->point_count - 1 && force_N > plan->point[p].force_N) p++;
    const JackPoint *a = &plan->point[p - 1], *b = &plan->point[p];
    const double length_N = b->force_N - a->force_N;
    const double part_1 = (force_N - a->force_N) / length_N;
    const JackBand *from = &a->opening, *to = &b->opening;
    JackExpect out = {.left_m = between(a->left_m, b->left_m, part_1),
                      .right_m = between(a->right_m, b->right_m, part_1),
                      .slope_m_per_N = (to->expected_m - from->expected_m) / length_N,
                      .error_N = jack_force_error_N(&plan->gear, fabs(force_N))};
    out.opening.expected_m = between(from->expected_m, to->expected_m, part_1);
    out.opening.low_m = between(from->low_m, to->low_m, part_1);
    out.opening.high_m = between(from->high_m, to->high_m, part_1);
    for (int i = 0; i < JACK_BAND_PARTS; i++) {
        out.opening.below_m[i] = between(from->below_m[i], to->below_m[i], part_1);
        out.opening.above_m[i] = between(from->above_m[i], to->above_m[i], part_1);
    }
    return out;
}
