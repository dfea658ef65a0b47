/* What is read off the histories of a way: the compression and what took it, and the girders. */
#include <math.h>

#include "work.h"

static const LineAnswer *line_of(const CompareWork *work, const WayAnswer *way)
{
    return way->line[work->answer->line].answer;
}

/* Tendons: of the force at the jacks what friction and draw-in leave at that joint. */
static void look_ducts(const LineAnswer *answer, int station, double section_m2, WayKept *kept)
{
    const LineTendons *t = answer->line->tendons;
    const TendonStress at =
        tendon_at(&t->pull, &t->path, &t->seat, answer->line->model.x_m[station]);
    const double per_Pa = t->area_m2 / section_m2;
    kept->pulled_Pa = t->pull.jack_Pa * per_Pa;
    kept->duct_Pa = (t->pull.jack_Pa - at.pulled_Pa) * per_Pa;
    kept->draw_in_Pa = (at.pulled_Pa - at.seated_Pa) * per_Pa;
}

static void look_kept(const CompareWork *work, WayAnswer *way)
{
    const LineAnswer *answer = line_of(work, way);
    const Moments *m = &answer->moments;
    const int joint = work->answer->joint, side = work->answer->side;
    const double section_m2 = answer->line->width_m * answer->line->model.deck_thickness_m;
    WayKept *kept = &way->kept;
    if (way->way == WAY_THRUST) kept->pulled_Pa = answer->thrust_N / section_m2;
    if (answer->line->tendons)
        look_ducts(answer, thrust_joint_face(answer->line, joint, side), section_m2, kept);
    kept->begin = thrust_split(answer, joint, side, m->jacked);
    kept->bonded = thrust_split(answer, joint, side, m->bonded);
    kept->opening = thrust_split(answer, joint, side, m->opening);
    kept->finish = thrust_split(answer, joint, side, m->end);
}

double compare_kept_1(const WayKept *kept)
{
    const double begin = -kept->begin.mean_total_Pa;
    const double end = -(kept->finish.mean_total_Pa - kept->finish.mean_Pa[CAUSE_SUPERIMPOSED]);
    return begin > 1 ? end / begin : (double)NAN;
}

static void look_girder(const LineAnswer *answer, int from, int to, WayGirder *out)
{
    const StageHistory *h = answer->history;
    for (int t = from; t <= to; t++)
        for (int i = 0; i < h->model->station_count; i++)
            for (int side = -1; side <= 1; side += 2) {
                FibreStress s;
                if (!stage_stress(h, t, CHAIN_GIRDER, i, side, &s)) continue;
                out->top_most_Pa = fmax(out->top_most_Pa, s.top_Pa);
                out->top_least_Pa = fmin(out->top_least_Pa, s.top_Pa);
                out->bottom_most_Pa = fmax(out->bottom_most_Pa, s.bottom_Pa);
                out->bottom_least_Pa = fmin(out->bottom_least_Pa, s.bottom_Pa);
            }
}

static const WayGirder no_girder = {-INFINITY, INFINITY, -INFINITY, INFINITY};

/* The panels lie on the girders, or the first pour does. */
static int first_time(const LineAnswer *answer)
{
    const StageHistory *h = answer->history;
    const int panels = stage_time_named(h, "panels set");
    if (panels >= 0) return panels;
    const int erected = stage_time_named(h, "girders erected");
    int t = erected >= 0 ? erected : stage_time_named(h, "transfer");
    for (t = t < 0 ? 0 : t + 1; t < answer->moments.bonded; t++)
        if (h->event[t] >= 0 && h->model->event[h->event[t]].kind == EVENT_LOAD) break;
    return t;
}

void way_look(const CompareWork *work, WayAnswer *way)
{
    look_kept(work, way);
    way->building = way->finish = no_girder;
    for (int k = 0; k < way->line_count; k++) {
        const LineAnswer *answer = way->line[k].answer;
        look_girder(answer, first_time(answer), answer->moments.bonded, &way->building);
        look_girder(answer, answer->moments.end, answer->moments.end, &way->finish);
    }
}
