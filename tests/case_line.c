#include "case_line.h"

#include <string.h>

#include "check.h"

static double item(const json_t *array, size_t i)
{
    return json_number_value(json_array_get(array, i));
}

static Gradient gradient_of(const CaseModel *c)
{
    const json_t *g = json_object_get(json_object_get(c->input, "load"), "gradient");
    const json_t *depth = json_object_get(g, c->us ? "depth_in" : "depth_mm"),
                 *rise = json_object_get(g, c->us ? "T_degF" : "T_K");
    Gradient out = {.count = (int)json_array_size(depth), .source = "case"};
    for (size_t i = 0; i < json_array_size(depth); i++) {
        out.depth_m[i] = item(depth, i) * (c->us ? 0.0254 : 1e-3);
        out.rise_K[i] = item(rise, i) * (c->us ? 5.0 / 9 : 1);
    }
    return out;
}

static bool at_gap_or_anchor(const CaseModel *c, double x)
{
    static const char *const key[] = {"anchor_left", "anchor_right", "gap"};
    const json_t *runs = json_object_get(c->input, "runs");
    for (size_t r = 0; r < json_array_size(runs); r++)
        for (int k = 0; k < 3; k++)
            for (size_t end = 0; end < 2; end++)
                if (fabs(item(case_array(c, json_array_get(runs, r), key[k]), end) - x) < 1e-3)
                    return true;
    return false;
}

static int joints_of(const CaseModel *c, Joint *joint)
{
    const json_t *list = case_array(c, c->input, "joints");
    int count = 0;
    for (size_t i = 0; i < json_array_size(list); i++) {
        if (at_gap_or_anchor(c, item(list, i))) continue;
        joint[count].station = case_station(c, item(list, i) * case_length(c));
        joint[count++].mark = "J";
    }
    return count;
}

BridgeLine case_line(const CaseModel *c, Arena *arena)
{
    const json_t *load = json_object_get(c->input, "load");
    Joint *joint = ARENA_NEW(arena, Joint, json_array_size(case_array(c, c->input, "joints")));
    JointRule *rule = ARENA_NEW(arena, JointRule, 1);
    *rule = (JointRule){.name = "the case's own",
                        .live_1 = 1,
                        .gradient_1 = case_get(c, load, "gamma_grad"),
                        .counts = true};
    BridgeLine line = {.name = "line",
                       .unit = "all",
                       .model = c->model,
                       .share_1 = 1,
                       .share_stiff_1 = 1,
                       .width_m = 1,
                       .lanes_1 = case_get(c, load, "lanes_per_line"),
                       .joint_count = joints_of(c, joint),
                       .joint = joint,
                       .live = traffic_hl93(),
                       .cold = gradient_of(c),
                       .rule_count = 1,
                       .rule = rule,
                       .jacked = "jacked",
                       .released = "released",
                       .bonded = "haunch",
                       .opening = "open",
                       .end = "end"};
    for (int e = 0; e < c->model.event_count; e++)
        if (c->model.event[e].kind == EVENT_JACK) line.first_guess_N = c->model.event[e].thrust_N;
    return line;
}
