#include <math.h>
#include <string.h>

#include "cli.h"

static void joint_add(int *joint, int *count, int index)
{
    for (int i = 0; i < *count; i++)
        if (joint[i] == index) return;
    if (index >= 0 && *count < JOINTS_MAX) joint[(*count)++] = index;
}

static int joint_nearest(const BridgeLine *b, double x_m)
{
    int nearest = -1;
    double least = INFINITY;
    for (int j = 0; j < b->joint_count; j++) {
        const double off = fabs(b->model.x_m[b->joint[j].station] - x_m);
        if (off < least) nearest = j;
        least = fmin(least, off);
    }
    return nearest;
}

/* The joint that governs, then the nearest to every inner support and every mid-span. */
static int joints_usual(const LineAnswer *line, int *joint)
{
    const BridgeLine *b = line->line;
    int count = 0;
    joint_add(joint, &count, line->finish.joint);
    for (int s = 0; s < b->model.support_count; s++) {
        const double x_m = b->model.x_m[b->model.support[s].station];
        const bool outer =
            x_m <= b->model.x_m[0] + 1 || x_m >= b->model.x_m[b->model.station_count - 1] - 1;
        if (!outer) joint_add(joint, &count, joint_nearest(b, x_m));
        if (s == 0) continue;
        const double before_m = b->model.x_m[b->model.support[s - 1].station];
        if (fabs(x_m - before_m) > 3)
            joint_add(joint, &count, joint_nearest(b, (x_m + before_m) / 2));
    }
    return count;
}

static Status joints_named(const Request *request, const BridgeLine *b, Arena *arena, int *joint,
                           int *count, Error *err)
{
    const char **names = ARENA_NEW(arena, const char *, b->joint_count + 1);
    for (int j = 0; j < b->joint_count; j++) names[j] = b->joint[j].mark;
    *count = 0;
    for (int k = 0; k < request->joint_count; k++) {
        int found = -1;
        for (int j = 0; j < b->joint_count; j++)
            if (!strcmp(names[j], request->joint[k])) found = j;
        if (found < 0) {
            error_set(err, STATUS_BAD_INPUT, "the %s has no joint '%s': it has %s to %s", b->name,
                      request->joint[k], b->joint_count ? names[0] : "none",
                      b->joint_count ? names[b->joint_count - 1] : "none");
            const char *nearest = name_nearest(request->joint[k], names, b->joint_count);
            if (nearest) snprintf(err->suggestion, sizeof err->suggestion, "%s", nearest);
            return STATUS_BAD_INPUT;
        }
        joint_add(joint, count, found);
    }
    return STATUS_OK;
}

static Status show(const Request *request, const Answer *answer, Error *err)
{
    const ThrustAnswer *a = answer->source.answer;
    const int index =
        a->governing_line >= 0 && a->governing_line < a->line_count ? a->governing_line : 0;
    const LineAnswer *line = &a->line[index];
    int joint[JOINTS_MAX], count;
    if (request->joint_count)
        TRY(joints_named(request, line->line, answer->arena, joint, &count, err));
    else
        count = joints_usual(line, joint);
    Text out = text_start(answer->arena);
    if (request->given[OPTION_JSON])
        report_life_json(&answer->source, index, joint, count, &out);
    else
        report_text(report_life(&answer->source, index, joint, count, answer->arena), &out);
    return output_print(&out, err);
}

Status cmd_life(const Request *request, Error *err)
{
    Answer answer;
    TRY(answer_find(request, &answer, err));
    const Status status = show(request, &answer, err);
    answer_free(&answer);
    return status;
}
