/* Any bytes as a survey give errors with a place, or rows within bounds; and rows, however strange, a plan
 * or a reason. */
#include <math.h>
#include <string.h>

#include "clench/seating.h"
#include "clench/text.h"
#include "fuzz.h"

static const char bridge_text[] =
    "spans:\n  - length: 94 ft\ngirders:\n  count: 2\n  spacing: 10 ft\n  kind: plate girder\n"
    "  plates:\n    - {top_width: 18 in, top_thickness: 1 in, web_depth: 54 in, web_thickness: 0.5 "
    "in, "
    "bottom_width: 18 in, bottom_thickness: 1 in}\n"
    "time_model: elastic\nlive: {lanes_exterior: 1}\nclimate: {humidity: 70 %, gradient_zone: 2}\n"
    "profile:\n  points:\n    - {station: 0 ft, elevation: 100 ft}\n"
    "    - {station: 94 ft, elevation: 101 ft}\n";

static const Bridge *bridge_of(Arena *arena)
{
    Node *root = NULL;
    const Bridge *bridge = NULL;
    Diagnostics *list = ARENA_NEW(arena, Diagnostics, 1);
    MUST_HOLD(yaml_read(bridge_text, strlen(bridge_text), arena, &root, list) == STATUS_OK);
    MUST_HOLD(bridge_read(root, arena, &bridge, list) == STATUS_OK);
    return bridge;
}

static void check_rows(const Survey *survey)
{
    MUST_HOLD(survey->count > 0 && survey->count <= SURVEY_ROWS_MAX);
    for (int i = 0; i < survey->count; i++) {
        const SurveyRow *r = &survey->row[i];
        MUST_HOLD(r->girder >= 0 && r->girder < 2 && r->span >= 0 && r->span <= 24);
        MUST_HOLD(fabs(r->at_m) <= 1e6 && fabs(r->elevation_m) <= 1e6);
        MUST_HOLD(isnan(r->offset_m) || fabs(r->offset_m) <= 1e6);
        MUST_HOLD(r->line >= 2 && (!r->along || r->span >= 1));
    }
}

static void check_plan(const Survey *survey, Arena *arena)
{
    const SeatPlan *plan = NULL;
    Arena *scratch = arena_create((size_t)256 << 20);
    Diagnostics *list = ARENA_NEW(arena, Diagnostics, 1);
    Error err = {0};
    const SeatWish wish = {bridge_of(arena), survey, NULL, 1e6, (double)NAN};
    const Status status = seating_plan(&wish, arena, scratch, &plan, list, &err);
    MUST_HOLD((status == STATUS_OK) == (list->count == 0 && !err.text[0]));
    for (int i = 0; plan && i < plan->line_count * plan->girders; i++) {
        const Seat *s = &plan->seat[i];
        MUST_HOLD(isfinite(s->height_m) && isfinite(s->set_m) && isfinite(s->off_m));
        MUST_HOLD(s->thin_m <= s->height_m && s->height_m <= s->thick_m);
        MUST_HOLD(s->inside_1 >= 0 && s->inside_1 <= 1);
    }
    arena_free(scratch);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    Arena *arena = arena_create((size_t)1 << 30);
    Diagnostics *const list = ARENA_NEW(arena, Diagnostics, 1);
    Survey survey = {.count = -1};
    if (survey_read((const char *)bytes, size, 2, arena, &survey, list) == STATUS_OK) {
        MUST_HOLD(list->count == 0);
        check_rows(&survey);
        check_plan(&survey, arena);
    } else {
        MUST_HOLD(survey.count == -1 && list->count > 0 && list->item[0].text[0]);
        for (int i = 0; i < list->count; i++)
            MUST_HOLD(list->item[i].from.line >= 0 && list->item[i].from.column >= 0);
    }
    arena_free(arena);
    return 0;
}
