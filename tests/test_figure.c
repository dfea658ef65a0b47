#include <string.h>

#include "check.h"
#include "show_fixture.h"

static const char law[] = "law: a picture stays on its sheet and says what its table says";
static const char practice[] = "common practice, no source";

static int set_up(void **state)
{
    Arena *arena = arena_create((size_t)1 << 30);
    *state = arena;
    return 0;
}

static int tear_down(void **state)
{
    arena_free(*state);
    return 0;
}

/* ---- numbers ---- */

static void test_ticks_are_round_and_inside(void **state)
{
    (void)state;
    double tick[16];
    assert_int_equal(figure_ticks(-317.2, 1441.9, 6, tick), 3);
    check_near(tick[0], 0, 0, 1e-9, practice);
    check_near(tick[2], 1000, 1e-12, 0, practice);
    for (int k = -12; k < 12; k++) {
        const double from = -2.385 * pow(10, k), to = 7.31 * pow(10, k);
        const int count = figure_ticks(from, to, 7, tick);
        assert_in_range(count, 2, 7);
        for (int i = 0; i < count; i++) {
            assert_true(tick[i] >= from - 1e-9 * to && tick[i] <= to * (1 + 1e-9));
            const double step =
                (tick[1] - tick[0]) / pow(10, floor(log10(tick[1] - tick[0]) + 1e-9));
            assert_true(fabs(step - 1) < 1e-6 || fabs(step - 2) < 1e-6 || fabs(step - 5) < 1e-6);
        }
    }
}

static void test_durations_read_as_people_say_them(void **state)
{
    static const struct {
        double day;
        const char *text;
    } row[] = {{0.2, "0.2 d"},        {1, "1 d"},      {7, "7 d"},      {90, "90 d"}, {365, "1 yr"},
               {365 * 1.5, "1.5 yr"}, {3650, "10 yr"}, {27375, "75 yr"}};
    for (size_t i = 0; i < sizeof row / sizeof *row; i++)
        assert_string_equal(figure_duration(*state, row[i].day), row[i].text);
}

static void test_stress_has_words_and_no_sign(void **state)
{
    const double psi = 6894.757293168; /* NIST SP 811 */
    assert_string_equal(figure_stress(*state, -318.2 * psi, UNITS_US), "318 psi compression");
    assert_string_equal(figure_stress(*state, 20.4 * psi, UNITS_US), "20 psi tension");
    assert_string_equal(figure_stress(*state, -0.2 * psi, UNITS_US), "0 psi");
    assert_string_equal(figure_stress_short(*state, -2.385e6, UNITS_SI), "C 2.38");
    assert_string_equal(figure_stress_short(*state, 0.5e6, UNITS_SI), "T 0.50");
    assert_string_equal(figure_quantity(*state, 1441.2 * 4448.2216152605, "kip"), "1441 kip");
    assert_string_equal(figure_quantity(*state, INFINITY, "kip"), "none");
}

/* ---- moments and margins ---- */

static void test_moments_count_from_jacking(void **state)
{
    const LineAnswer *line = &show_answer(*state)->line[0];
    FigureMoment moment[5];
    assert_int_equal(figure_moments(line, moment), 5);
    check_near(moment[0].after_day, 0, 0, 0, "fixture: jacked on day 100");
    check_near(moment[3].after_day, 50, 1e-12, 0, "fixture: opened on day 150");
    assert_string_equal(figure_when(*state, line, 150), "opening, 50 d");
    assert_string_equal(figure_when(*state, line, 100), "jacked");
    assert_string_equal(figure_when(*state, line, 128), "28 d");
    assert_string_equal(figure_when(*state, line, 97), "3 d before jacking");
}

static void test_margin_is_limit_minus_stress(void **state)
{
    const LineAnswer *line = &show_answer(*state)->line[0];
    const int joint = 9, end = stage_time_named(line->history, "end");
    FibreStress left, right;
    const int station = line->line->joint[joint].station;
    assert_true(stage_stress(line->history, end, CHAIN_DECK, station, -1, &left));
    assert_true(stage_stress(line->history, end, CHAIN_DECK, station, 1, &right));
    const double permanent =
        fmax(fmax(left.top_Pa, left.bottom_Pa), fmax(right.top_Pa, right.bottom_Pa));
    check_near(figure_margin_Pa(line, 2, joint, end), -permanent, 1e-12, 0,
               "closed form: rule without loads and limit 0");
    const JointLoad *load = &line->end[(size_t)2 * (size_t)joint];
    const double top =
        fmax(left.top_Pa, right.top_Pa) + load->live_top_max_Pa + 0.5 * load->cold_top_Pa;
    const double bottom = fmax(left.bottom_Pa, right.bottom_Pa) + load->live_bottom_max_Pa +
                          0.5 * load->warm_bottom_Pa;
    check_near(figure_margin_Pa(line, 1, joint, end), -fmax(top, bottom), 1e-12, 0,
               "closed form: live load, half the gradient, limit 0");
    const int bonded = stage_time_named(line->history, "bonded");
    check_near(figure_margin_Pa(line, 1, joint, bonded), figure_margin_Pa(line, 2, joint, bonded),
               1e-12, 0, "law: no traffic before opening");
}

static void test_joints_at_faces_are_judged_from_their_panel(void **state)
{
    const LineAnswer *line = &show_answer(*state)->line[0];
    const int last = line->line->joint_count - 1;
    assert_int_equal(thrust_joint_side(line->line, 0), 1);
    assert_int_equal(thrust_joint_side(line->line, last), -1);
    for (int j = 1; j < last; j++) {
        const int station = line->line->joint[j].station;
        const int expected = station == line->line->model.gap[0].left_station    ? -1
                             : station == line->line->model.gap[0].right_station ? 1
                                                                                 : 0;
        assert_int_equal(thrust_joint_side(line->line, j), expected);
    }
}

/* ---- pictures ---- */

static void inside(const Figure *f, double x, double y)
{
    check_near(x, f->width_px / 2, 0, f->width_px / 2 + 0.5, law);
    check_near(y, f->height_px / 2, 0, f->height_px / 2 + 0.5, law);
}

static void check_item(const Figure *f, const FigureItem *item)
{
    const FigurePoint *p = item->point;
    assert_in_range(item->role, 0, FIGURE_ROLE_COUNT - 1);
    if (item->role == FIGURE_HEAT) check_near(item->heat_1, 0.5, 0, 0.5, "law: heat from 0 to 1");
    if (item->kind == FIGURE_RECT) {
        inside(f, p[0].x_px, p[0].y_px);
        inside(f, p[0].x_px + p[1].x_px, p[0].y_px + p[1].y_px);
    } else if (item->kind == FIGURE_TEXT) {
        const double width = figure_text_width_px(item->text, item->size);
        const double left = item->anchor == FIGURE_START    ? p->x_px
                            : item->anchor == FIGURE_MIDDLE ? p->x_px - width / 2
                                                            : p->x_px - width;
        if (left < -0.5 || left + width > f->width_px + 0.5)
            print_message("%s: '%s'\n", f->id, item->text);
        inside(f, left, p->y_px);
        inside(f, left + width, p->y_px);
    } else {
        for (int i = 0; i < (item->kind == FIGURE_DOT ? 1 : item->point_count); i++)
            inside(f, p[i].x_px, p[i].y_px);
    }
}

static void check_figure(const Figure *f, double width_px)
{
    int count = 0;
    check_near(f->width_px, width_px, 0, 0, law);
    assert_true(f->height_px > 100 && f->item_count > 5 && f->title[0] && f->description[0]);
    for (const FigureItem *item = f->first; item; item = item->next, count++) check_item(f, item);
    assert_int_equal(count, f->item_count);
    assert_non_null(f->table);
    assert_true(f->table->row_count > 0);
    for (int i = 0; i < f->table->row_count * f->table->column_count; i++)
        assert_non_null(f->table->cell[i]);
    for (int c = 0; c < f->table->column_count; c++) assert_non_null(f->table->head[c]);
}

static void test_pictures_stay_on_their_sheet(void **state)
{
    const ThrustAnswer *answer = show_answer(*state);
    for (int k = 0; k < figure_kind_count(); k++)
        for (int units = 0; units < 2; units++) {
            const LineAnswer *line = &answer->line[units];
            const FigureView sheet = figure_paper(line, (UnitSystem)units, REPORT_WIDE_PX);
            const FigureView phone = figure_paper(line, (UnitSystem)units, REPORT_NARROW_PX);
            check_figure(figure_kind(k)->draw(&sheet, *state), REPORT_WIDE_PX);
            check_figure(figure_kind(k)->draw(&phone, *state), REPORT_NARROW_PX);
        }
}

/* Every moment of a line and every joint, wide and narrow. */
static void test_pictures_of_a_page_stay_on_their_sheet(void **state)
{
    const ThrustAnswer *answer = show_answer(*state);
    const LineAnswer *line = &answer->line[0];
    for (int k = 0; k < figure_page_count(); k++)
        for (int time = 0; time < line->history->time_count; time++) {
            const size_t mark = arena_mark(*state);
            const double width_px = time % 2 ? REPORT_WIDE_PX : REPORT_NARROW_PX;
            const FigureView view = {.line = line,
                                     .units = time % 3 ? UNITS_US : UNITS_SI,
                                     .width_px = width_px,
                                     .page = true,
                                     .answer = answer,
                                     .time = time,
                                     .joint = time % line->line->joint_count,
                                     .predicted = time % 2 == 1,
                                     .move_m = 0.05};
            check_figure(figure_page(k)->draw(&view, *state), width_px);
            arena_reset(*state, mark);
        }
}

/* Wedges are drawn where a limit is passed and nowhere else. */
static void test_wedges_stand_where_a_limit_is_passed(void **state)
{
    LineAnswer *line = (LineAnswer *)&show_answer(*state)->line[0];
    JointLoad *load = (JointLoad *)line->end; /* the fixture's own: heavier, so that joints open */
    for (int j = 0; j < 2 * line->line->joint_count; j++) load[j].live_top_max_Pa *= 3;
    assert_string_equal(figure_page(0)->id, "bridge");
    const int times[] = {line->moments.jacked, line->moments.opening, line->moments.end};
    int all = 0;
    for (int i = 0; i < 3; i++) {
        const FigureView view = {
            .line = line, .width_px = REPORT_WIDE_PX, .page = true, .time = times[i], .joint = -1};
        const Figure *f = figure_page(0)->draw(&view, *state);
        int passed = 0, wedges = 0;
        for (int j = 0; j < line->line->joint_count; j++)
            passed += thrust_margin_Pa(line, j, times[i], NULL) < -1e-4 * line->average_Pa;
        for (const FigureItem *item = f->first; item; item = item->next)
            wedges += item->role == FIGURE_OPEN && item->kind == FIGURE_POLYGON;
        assert_int_equal(wedges, passed);
        all += passed;
    }
    assert_true(all > 0); /* else nothing was looked at */
}

static int count_role(const Figure *f, FigureRole role, FigureKind kind)
{
    int count = 0;
    for (const FigureItem *item = f->first; item; item = item->next)
        count += item->role == role && item->kind == kind;
    return count;
}

static void test_falling_bars_meet_end_to_end(void **state)
{
    const FigureView view = figure_paper(&show_answer(*state)->line[0], UNITS_US, REPORT_WIDE_PX);
    const Figure *f = figure_split(&view, *state);
    double at = 0; /* where the next bar starts */
    int totals = 0;
    for (const FigureItem *item = f->first; item; item = item->next) {
        if (item->kind != FIGURE_RECT) continue;
        const double left = item->point[0].x_px, right = left + item->point[1].x_px;
        const bool first = item->role == FIGURE_TOTAL && totals++ % 2 == 0;
        if (!first && item->role != FIGURE_GAIN)
            check_near(right, at, 0, 2.5, "law: the bars add up (under 0.5 psi none is drawn)");
        at = item->role == FIGURE_LOSS ? left : right;
    }
    assert_int_equal(count_role(f, FIGURE_TOTAL, FIGURE_RECT), 4);
}

static void test_window_shows_a_clash_where_it_is_empty(void **state)
{
    LineAnswer line = show_answer(*state)->line[0];
    const FigureView view = figure_paper(&line, UNITS_SI, REPORT_WIDE_PX);
    const Figure *open = figure_window(&view, *state);
    line.most_N = 0.7 * line.need_N;
    const Figure *shut = figure_window(&view, *state);
    assert_int_equal(count_role(open, FIGURE_WINDOW, FIGURE_RECT), 2); /* legend and window */
    assert_int_equal(count_role(open, FIGURE_CLASH, FIGURE_RECT), 0); /* the legend has one alone */
    assert_int_equal(count_role(shut, FIGURE_WINDOW, FIGURE_RECT), 0);
    assert_int_equal(count_role(shut, FIGURE_CLASH, FIGURE_RECT), 2);
}

/* The force of the jacks pushes: its axis has plain numbers, no T of tension. */
static void test_gap_does_not_call_a_thrust_tension(void **state)
{
    const FigureView view = figure_paper(&show_answer(*state)->line[0], UNITS_US, REPORT_WIDE_PX);
    const Figure *f = figure_gap(&view, *state);
    for (const FigureItem *item = f->first; item; item = item->next)
        if (item->kind == FIGURE_TEXT) assert_int_not_equal(strncmp(item->text, "T ", 2), 0);
}

/* The number that matters most is never the one that had no room. */
static void test_map_writes_the_margin_of_the_joint_that_governs(void **state)
{
    const LineAnswer *line = &show_answer(*state)->line[0];
    const Joint *joint = &line->line->joint[line->finish.joint];
    const FigureView view = figure_paper(line, UNITS_US, REPORT_NARROW_PX);
    const Figure *f = figure_map(&view, *state);
    const StageModel *m = &line->line->model;
    const double share = m->x_m[joint->station] / m->x_m[m->station_count - 1];
    const double x_px = 62 + share * (REPORT_NARROW_PX - 62 - 14);
    bool near = false;
    for (const FigureItem *item = f->first; item; item = item->next)
        if (item->kind == FIGURE_TEXT && item->role == FIGURE_HEAT_TEXT)
            near = near || fabs(item->point->x_px - x_px) < 8;
    assert_true(near);
}

static void test_roles_have_names_of_their_own(void **state)
{
    (void)state;
    for (int a = 0; a < FIGURE_ROLE_COUNT; a++)
        for (int b = 0; b < a; b++)
            assert_string_not_equal(figure_role_name((FigureRole)a),
                                    figure_role_name((FigureRole)b));
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_ticks_are_round_and_inside),
        cmocka_unit_test_setup_teardown(test_durations_read_as_people_say_them, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_stress_has_words_and_no_sign, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_moments_count_from_jacking, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_margin_is_limit_minus_stress, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_joints_at_faces_are_judged_from_their_panel, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_pictures_stay_on_their_sheet, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_pictures_of_a_page_stay_on_their_sheet, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_wedges_stand_where_a_limit_is_passed, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_falling_bars_meet_end_to_end, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_window_shows_a_clash_where_it_is_empty, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_gap_does_not_call_a_thrust_tension, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_map_writes_the_margin_of_the_joint_that_governs,
                                        set_up, tear_down),
        cmocka_unit_test(test_roles_have_names_of_their_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
