/* Each way on the same bridge: lines, one run of the stages each, how their joints stand. */
#include <math.h>

#include "work.h"

double compare_margin_Pa(const WayLine *line)
{
    const Governing *worst = &line->standing.worst;
    return line->standing.rule < 0 ? (double)INFINITY : worst->limit - worst->demand;
}

/* A history has a row a time: refused while there is room to say so. Times as the jacks' line has them, and
 * half as many again for what differs. */
static Status check_room(const CompareWork *work, const BridgeLine *line, int k, const Arena *into,
                         Error *err)
{
    const StageModel *model = &line->model;
    const size_t part = sizeof(PartForce) + 1,
                 station =
                     sizeof(LinkState) + 2 * sizeof(NodeMove) + CAUSE_COUNT * sizeof(CauseForce),
                 joint = 2 * sizeof(FibreStress);
    const size_t row = (size_t)model->part_count * part + (size_t)model->station_count * station +
                       (size_t)line->joint_count * joint;
    const size_t times = (size_t)work->thrust->line[k].history->time_count;
    if (arena_room(into) > row * (times + times / 2)) return STATUS_OK;
    return error_set(err, STATUS_TOO_LARGE,
                     "%s: four histories of %d stations need more memory than a run may take; "
                     "longer panels or fewer spans in a unit need less",
                     line->name, model->station_count);
}

Status way_follow(CompareWork *work, const WayWish *wish, int only, Arena *into, WayLine **line,
                  int *count, Error *err)
{
    const BridgeLine *lines;
    StageSettings settings = stage_settings_default();
    settings.leave_causes = only >= 0;
    TRY(bridge_way_lines(work->bridge, wish, into, &lines, count, err));
    WayLine *out = ARENA_NEW(into, WayLine, *count);
    for (int k = 0; k < *count; k++) {
        if (only >= 0 && k != only) continue;
        TRY(check_room(work, &lines[k], k, into, err));
        LineAnswer *answer = ARENA_NEW(into, LineAnswer, 1);
        TRY(thrust_follow(&lines[k], &settings, work->thrust->line[k].average_Pa, into,
                          work->scratch, answer, err));
        out[k] = (WayLine){answer, thrust_standing(answer, work->scratch)};
    }
    *line = out;
    return STATUS_OK;
}

static void set_governing(WayAnswer *way)
{
    for (int k = 1; k < way->line_count; k++)
        if (compare_margin_Pa(&way->line[k]) < compare_margin_Pa(&way->line[way->governing]))
            way->governing = k;
}

/* The jacks' histories are there. */
static void take_thrust(CompareWork *work, WayAnswer *way)
{
    WayLine *line = ARENA_NEW(work->result, WayLine, work->thrust->line_count);
    way->line_count = work->thrust->line_count;
    for (int k = 0; k < way->line_count; k++)
        line[k] = (WayLine){&work->thrust->line[k],
                            thrust_standing(&work->thrust->line[k], work->scratch)};
    way->line = line;
    way->runs = work->thrust->runs;
}

static Status follow(CompareWork *work, WayAnswer *way, Error *err)
{
    const WayWish wish = {way->way, way->tendons, 1};
    WayLine *line;
    TRY(way_follow(work, &wish, -1, work->result, &line, &way->line_count, err));
    way->line = line;
    way->runs += way->line_count;
    return STATUS_OK;
}

/* The lines that were not looked at while the tendons were counted may want another few. */
static Status follow_tendons(CompareWork *work, WayAnswer *way, Error *err)
{
    enum { MORE_MAX = 8 };
    TRY(way_tendons_find(work, way, err));
    const bool bounded = !way->enough; /* given, or as many as the deck bears */
    for (int more = 0; more <= MORE_MAX; more++) {
        TRY(follow(work, way, err));
        way->governing = 0;
        set_governing(way);
        way->enough = compare_margin_Pa(&way->line[way->governing]) >=
                      -1e-4 * work->thrust->line[0].average_Pa;
        if (way->enough || bounded) return STATUS_OK;
        if (more < MORE_MAX) way->tendons++;
    }
    return STATUS_OK;
}

/* The joint and side that govern the thrust; where nothing is needed, the first. */
static void set_place(CompareAnswer *out)
{
    const ThrustAnswer *thrust = out->thrust;
    out->line = thrust->governing_line >= 0 ? thrust->governing_line : 0;
    const LineAnswer *line = &thrust->line[out->line];
    out->joint = line->need_rule >= 0 && line->rule[line->need_rule].at.joint >= 0
                     ? line->rule[line->need_rule].at.joint
                     : 0;
    out->side = line->need_rule >= 0 && line->rule[line->need_rule].at.joint >= 0
                    ? line->rule[line->need_rule].at.side
                    : 1;
}

Status compare_find(const Bridge *bridge, const ThrustAnswer *thrust, Arena *result, Arena *scratch,
                    const CompareAnswer **answer, Error *err)
{
    CompareAnswer *out = ARENA_NEW(result, CompareAnswer, 1);
    out->thrust = thrust;
    set_place(out);
    CompareWork work = {bridge, thrust, out, result, scratch};
    for (int w = 0; w < WAY_COUNT; w++) {
        WayAnswer *way = &out->way[w];
        way->way = (Way)w;
        if (w == WAY_THRUST)
            take_thrust(&work, way);
        else if (w == WAY_TENDON)
            TRY(follow_tendons(&work, way, err));
        else
            TRY(follow(&work, way, err));
        set_governing(way);
        way_look(&work, way);
    }
    TRY(way_quantities(&work, &out->quantities, err));
    *answer = out;
    return STATUS_OK;
}
