#include "seating_case.h"

#include <string.h>

const char seat_span[] =
    "spans:\n"
    "  - length: 230 ft\n"
    "supports:\n"
    "  - kind: fixed bearing\n"
    "  - kind: free bearing\n"
    "time_model: elastic\n"
    "girders:\n"
    "  count: 2\n"
    "  spacing: 24 ft\n"
    "  overhang: 8 ft\n"
    "  kind: plate girder\n"
    "  details: 0 %\n"
    "  plates:\n"
    "    - {top_width: 40 in, top_thickness: 3 in, web_depth: 100 in, web_thickness: 1 in, "
    "bottom_width: 40 in, bottom_thickness: 3 in}\n"
    "deck:\n"
    "  thickness: 8 in\n"
    "  wearing_allowance: 0 in\n"
    "  haunch: 2 in\n"
    "  density: 150 pcf\n"
    "panels:\n"
    "  length: 10 ft\n"
    "  anchor_length: 12 ft\n"
    "  gap: 6 ft\n"
    "concrete:\n"
    "  panel: {strength: 7 ksi, measured_modulus: 4696 ksi}\n"
    "shims: {friction: 0, friction_least: 0, connectors: 1e7 kip/in/ft, vertical: 1e5 kip/in/ft}\n"
    "live: {lanes_exterior: 1}\n"
    "climate:\n"
    "  humidity: 70 %\n"
    "  gradient_zone: 2\n";

void seat_open(SeatCase *c, const char *more, const char *survey, double thrust_N, double day)
{
    *c = (SeatCase){.arena = arena_create((size_t)1 << 30),
                    .scratch = arena_create((size_t)1 << 30)};
    Text text = text_start(c->arena);
    text_add(&text, seat_span);
    text_add(&text, more);
    bridge_from_text(&c->file, text.bytes);
    for (int i = 0; i < c->file.found.count; i++) print_error("%s\n", c->file.found.item[i].text);
    assert_int_equal(c->file.status, STATUS_OK);
    const int girders = (int)bridge_value_at(c->file.bridge, "girders.count")->value;
    if (survey_read(survey, strlen(survey), girders, c->arena, &c->survey, &c->found) != STATUS_OK)
        return;
    const SeatWish wish = {c->file.bridge, &c->survey, NULL, thrust_N, day};
    const Status status = seating_plan(&wish, c->arena, c->scratch, &c->plan, &c->found, &c->err);
    if (c->found.count) {
        assert_int_equal(status, STATUS_BAD_INPUT);
        c->plan = NULL;
    } else
        check_status(status, STATUS_OK, &c->err);
}

void seat_close(SeatCase *c)
{
    arena_free(c->arena);
    arena_free(c->scratch);
    bridge_close(&c->file);
}

char *seat_survey(Arena *arena, int girders, double length_ft, int parts,
                  double (*top_ft)(double x_ft, int girder))
{
    Text text = text_start(arena);
    text_add(&text, "station [ft],girder,elevation [ft]\n");
    for (int g = 0; g < girders; g++)
        for (int i = 0; i <= parts; i++) {
            const double x_ft = length_ft * i / parts;
            text_printf(&text, "%.6f,G%d,%.9f\n", x_ft, g + 1, top_ft(x_ft, g));
        }
    return text.bytes;
}

void seat_refused(const char *more, const char *survey, const char *words)
{
    SeatCase c;
    seat_open(&c, more, survey, 1e7, (double)NAN);
    assert_null(c.plan);
    assert_true(c.found.count > 0);
    if (!strstr(c.found.item[0].text, words))
        fail_msg("wanted '%s', got '%s'", words, c.found.item[0].text);
    seat_close(&c);
}

const Seat *seat_at(const SeatPlan *plan, const char *mark, int girder)
{
    for (int l = 0; l < plan->line_count; l++)
        if (strcmp(plan->line[l].mark, mark) == 0) return &plan->seat[l * plan->girders + girder];
    fail_msg("no line %s", mark);
    return NULL;
}
