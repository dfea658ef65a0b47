/* Drawings of whole bridge files: words keep clear of each other and of the border, chains add up, what is
 * drawn of panels has the areas and numbers of their schedule. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bridge_file.h"

#include "clench/drawing.h"
#include "clench/report.h"

typedef struct Made {
    BridgeFile file;
    const char *name;
    const DrawingSet *set;
    const PanelPlan *plan;
} Made;

static void set_make(Made *m, UnitSystem units)
{
    Error err = {0};
    PanelSource panels;
    const ReportSource report = {.bridge = m->file.bridge, .units = units};
    check_status(report_panels_find(&report, m->file.arena, &panels, &err), STATUS_OK, &err);
    const DrawingSource source = {.bridge = m->file.bridge,
                                  .plan = panels.plan,
                                  .lift = panels.lift,
                                  .units = units,
                                  .title = "A bridge with a name that is rather long, over a river",
                                  .file = "file.yaml",
                                  .revision = "0123456789ab",
                                  .date = "2031-05-04",
                                  .version = "0.0.0",
                                  .north_rad = 0.7};
    check_status(drawing_make(&source, m->file.arena, &m->set, &err), STATUS_OK, &err);
    m->plan = panels.plan;
}

/* ---- bridges ---- */

static const char *const examples[] = {"single-span",      "causeway",        "two-span-metric",
                                       "steel-continuous", "made-continuous", "single-tub"};

/* Of steel-continuous: what is put behind a line of it. */
typedef struct Change {
    const char *name, *deck, *panels, *more;
} Change;
static const Change changes[] = {
    {"skewed", "skew_degrees: 17", "skew: all\n  layout: least panels", ""},
    {"ends", "skew_degrees: -25\n  crossfall: 1.5 %", "crown: thickened", ""},
    {"curve", "plan_radius: 900 ft",
     "layout: least kinds\n  blockouts:\n    - {at: 45 ft, across: 17 ft, along: 18 in, wide: 2 "
     "ft}",
     ""},
    {"closure", "crossfall: 2 %", "crown: longitudinal closure\n  joint: narrow cast",
     "jacks: {count: 8, rated: 400 kip, sets: 2}\n"},
    {"narrow", "haunch: 3 in", "layout: least panels\n  longest: 4 ft\n  shortest: 3 ft", ""},
    {"bars", "haunch: 3 in",
     "top_bar: 0.44 in^2\n  top_bar_spacing: 5 in\n  bottom_bar: 0.31 in^2\n  bottom_bar_spacing: "
     "7 in",
     "connectors: {per_cluster: 12, anchor_count: 63}\ncasting: {bed: 120 ft, beds: 2}\n"},
};

static void put_behind(char *text, size_t size, const char *line, const char *more)
{
    static char copy[1 << 16];
    char old[64], fresh[512];
    snprintf(copy, sizeof copy, "%s", text);
    snprintf(old, sizeof old, "\n%s:", line);
    snprintf(fresh, sizeof fresh, "\n%s:\n  %s", line, more);
    bridge_replace(copy, old, fresh, text, size);
}

static void made_changed(Made *m, const Change *c)
{
    static char text[1 << 16];
    Arena *arena = arena_create((size_t)16 << 20);
    const char *bytes;
    size_t size;
    Error err = {0};
    check_status(
        file_read("examples/steel-continuous.yaml", YAML_SIZE_MAX, arena, &bytes, &size, &err),
        STATUS_OK, &err);
    snprintf(text, sizeof text, "%s%s", bytes, c->more);
    arena_free(arena);
    put_behind(text, sizeof text, "deck", c->deck);
    put_behind(text, sizeof text, "panels", c->panels);
    bridge_from_text(&m->file, text);
    for (int i = 0; i < m->file.found.count; i++) print_error("%s\n", m->file.found.item[i].text);
    assert_int_equal(m->file.status, STATUS_OK);
    m->name = c->name;
}

/* Each example and each change, in the units of the file and in the others. */
static void of_all(void (*look)(const Made *m))
{
    const int count = (int)(sizeof examples / sizeof *examples);
    const int more = (int)(sizeof changes / sizeof *changes);
    for (int i = 0; i < count + more; i++)
        for (int units = 0; units < 2; units++) {
            Made m = {0};
            char path[128];
            if (i < count) {
                snprintf(path, sizeof path, "examples/%s.yaml", examples[i]);
                bridge_from_example(&m.file, path);
                m.name = examples[i];
            } else {
                made_changed(&m, &changes[i - count]);
            }
            set_make(&m, units ? UNITS_SI : UNITS_US);
            look(&m);
            bridge_close(&m.file);
        }
}

/* ---- words ---- */

typedef struct Box {
    double x_m, y_m, to_x_m, to_y_m;
    const char *text;
} Box;

static Box box_of(const DrawingView *view, const DrawingItem *item)
{
    const double x = view->origin.x_m + item->point[0].x_m / view->scale_1;
    const double y = view->origin.y_m + item->point[0].y_m / view->scale_1;
    const double long_m = drawing_text_width_1(item->text) * item->height_m;
    const double back_m = item->align == DRAWING_END      ? long_m
                          : item->align == DRAWING_MIDDLE ? long_m / 2
                                                          : 0;
    if (item->upright)
        return (Box){x - item->height_m, y - back_m, x, y - back_m + long_m, item->text};
    return (Box){x - back_m, y, x - back_m + long_m, y + item->height_m, item->text};
}

static int boxes_of(const DrawingSheet *sheet, Box *box, int room)
{
    int count = 0;
    for (const DrawingView *v = sheet->first; v; v = v->next)
        for (const DrawingItem *i = v->first; i; i = i->next)
            if (i->kind == DRAWING_WORDS && i->text[0]) {
                assert_true(count < room);
                box[count++] = box_of(v, i);
            }
    return count;
}

static const double clear_m = 0.0002;

static bool apart(const Box *a, const Box *b)
{
    return a->to_x_m <= b->x_m + clear_m || b->to_x_m <= a->x_m + clear_m ||
           a->to_y_m <= b->y_m + clear_m || b->to_y_m <= a->y_m + clear_m;
}

static int clashes;

static void words_look(const Made *m)
{
    enum { ROOM = 20000 };
    static Box box[ROOM];
    for (int s = 0; s < m->set->sheet_count; s++) {
        const DrawingSheet *sheet = &m->set->sheet[s];
        const int count = boxes_of(sheet, box, ROOM);
        for (int i = 0; i < count; i++) {
            const Box *b = &box[i];
            if (b->x_m < 0.02 || b->y_m < 0.01 || b->to_x_m > sheet->width_m - 0.01 ||
                b->to_y_m > sheet->height_m - 0.01) {
                print_error("%s %s: '%s' is beyond the border\n", m->name, sheet->id, b->text);
                clashes++;
            }
            for (int k = 0; k < i; k++)
                if (!apart(b, &box[k])) {
                    print_error("%s %s: '%s' on '%s'\n", m->name, sheet->id, b->text, box[k].text);
                    clashes++;
                }
        }
    }
}

static void test_words_keep_clear_of_each_other(void **state)
{
    (void)state;
    clashes = 0;
    of_all(words_look);
    assert_int_equal(clashes, 0);
}

/* ---- dimensions ---- */

/* "9'-11 3/4\"" in sixteenths, or millimetres: read by its own rules. */
static long steps_read(const char *text, UnitSystem units)
{
    long feet = 0, inches = 0, part = 0, of = 1;
    if (units == UNITS_SI) return strtol(text, NULL, 10);
    const char *at = strchr(text, '\'');
    if (at) feet = strtol(text, NULL, 10);
    at = at ? at + 2 : text;
    if (strchr(at, ' ')) {
        assert_int_equal(sscanf(at, "%ld %ld/%ld\"", &inches, &part, &of), 3);
    } else if (strchr(at, '/')) {
        assert_int_equal(sscanf(at, "%ld/%ld\"", &part, &of), 2);
    } else {
        assert_int_equal(sscanf(at, "%ld\"", &inches), 1);
    }
    assert_int_equal(16 % of, 0);
    return 192 * feet + 16 * inches + part * (16 / of);
}

static void chains_look(const Made *m)
{
    int chains = 0;
    for (const DrawingChain *c = m->set->chain; c; c = c->next, chains++) {
        long sum = 0;
        for (int i = 0; i < c->count; i++) sum += steps_read(c->part[i], m->set->units);
        assert_int_equal(sum, steps_read(c->whole, m->set->units));
    }
    assert_true(chains > 10);
}

static void test_parts_of_a_chain_add_up_to_its_whole(void **state)
{
    (void)state;
    of_all(chains_look);
}

static void test_lengths_are_written_to_a_sixteenth(void **state)
{
    (void)state;
    static const struct {
        double inch;
        const char *text;
    } of[] = {
        {119.75, "9'-11 3/4\""}, {0, "0\""},        {0.75, "3/4\""},          {8.5, "8 1/2\""},
        {12, "1'-0\""},          {11.99, "1'-0\""}, {24.0625, "2'-0 1/16\""}, {-6.25, "-6 1/4\""},
        {4512, "376'-0\""},      {0.02, "0\""}};
    Arena *arena = arena_create((size_t)1 << 20);
    for (size_t i = 0; i < sizeof of / sizeof *of; i++)
        assert_string_equal(drawing_length(of[i].inch * 0.0254, UNITS_US, arena), of[i].text);
    assert_string_equal(drawing_length(9.8765, UNITS_SI, arena), "9877");
    arena_free(arena);
}

/* ---- panels ---- */

static double area_of(const DrawingItem *item)
{
    double twice = 0;
    for (int i = 0; i < item->point_count; i++) {
        const DrawingPoint a = item->point[i], b = item->point[(i + 1) % item->point_count];
        twice += a.x_m * b.y_m - b.x_m * a.y_m;
    }
    return fabs(twice) / 2;
}

static int outlines(const DrawingSheet *sheet, double *area_m2, int room)
{
    int count = 0;
    for (const DrawingView *v = sheet->first; v; v = v->next)
        for (const DrawingItem *i = v->first; i; i = i->next)
            if (i->kind == DRAWING_AREA &&
                (i->layer == DRAWING_PANEL || i->layer == DRAWING_ANCHOR)) {
                assert_true(count < room);
                area_m2[count++] = area_of(i);
            }
    return count;
}

static int layer_count(const DrawingSheet *sheet, DrawingLayer layer, DrawingKind kind)
{
    int count = 0;
    for (const DrawingView *v = sheet->first; v; v = v->next)
        for (const DrawingItem *i = v->first; i; i = i->next)
            count += i->layer == layer && i->kind == kind;
    return count;
}

static void panels_look(const Made *m)
{
    double area_m2[1000] = {0}, all_m2 = 0;
    int in_plan = 0, kinds = 0;
    for (int s = 0; s < m->set->sheet_count; s++) {
        const DrawingSheet *sheet = &m->set->sheet[s];
        if (strncmp(sheet->id, "panels-", 7) == 0) {
            const int count = outlines(sheet, area_m2, 1000);
            for (int i = 0; i < count; i++) all_m2 += area_m2[i];
            in_plan += count;
        }
        if (strncmp(sheet->id, "panel-", 6) != 0) continue;
        const PanelKind *kind = &m->plan->kind[kinds++];
        const PanelPiece *piece = &m->plan->piece[kind->like];
        assert_int_equal(outlines(sheet, area_m2, 1000), 1);
        check_near(area_m2[0], piece->body.area_m2, 1e-9, 0, "law: one panel, one area");
        assert_int_equal(layer_count(sheet, DRAWING_POCKET, DRAWING_AREA), piece->pocket_count);
        assert_int_equal(layer_count(sheet, DRAWING_BLOCKOUT, DRAWING_AREA), piece->blockout_count);
        assert_true(layer_count(sheet, DRAWING_DIMENSION, DRAWING_WORDS) > 8);
        assert_true(layer_count(sheet, DRAWING_LIFTING, DRAWING_CIRCLE) >= 4);
    }
    double want_m2 = 0;
    for (int i = 0; i < m->plan->piece_count; i++) want_m2 += m->plan->piece[i].body.area_m2;
    assert_int_equal(kinds, m->plan->kind_count);
    assert_int_equal(in_plan, m->plan->piece_count);
    check_near(all_m2, want_m2, 1e-9, 0, "law: turned and moved, an area stays");
}

static void test_panels_have_the_areas_and_pockets_of_their_schedule(void **state)
{
    (void)state;
    of_all(panels_look);
}

/* ---- what is said on every sheet ---- */

static void sheets_look(const Made *m)
{
    for (int s = 0; s < m->set->sheet_count; s++) {
        bool preliminary = false, units = false;
        for (const DrawingItem *i = m->set->sheet[s].first->first; i; i = i->next) {
            if (i->kind != DRAWING_WORDS) continue;
            preliminary = preliminary || strstr(i->text, "PRELIMINARY");
            units = units || strstr(i->text, "units: ");
        }
        assert_true(preliminary && units);
        for (int k = 0; k < s; k++)
            assert_string_not_equal(m->set->sheet[s].id, m->set->sheet[k].id);
    }
}

static void test_every_sheet_says_its_units_and_that_it_is_preliminary(void **state)
{
    (void)state;
    of_all(sheets_look);
}

/* Two runs over the same bridge give the same bytes; half size prints the same sheet smaller. */
static void test_the_same_bridge_gives_the_same_bytes(void **state)
{
    (void)state;
    Made a = {0}, b = {0};
    bridge_from_example(&a.file, "examples/single-tub.yaml");
    bridge_from_example(&b.file, "examples/single-tub.yaml");
    set_make(&a, UNITS_US);
    set_make(&b, UNITS_US);
    for (int s = 0; s < a.set->sheet_count; s++) {
        Text one = text_start(a.file.arena), two = text_start(b.file.arena);
        drawing_svg(a.set, &a.set->sheet[s], &one);
        drawing_dxf(a.set, &a.set->sheet[s], &one);
        drawing_svg(b.set, &b.set->sheet[s], &two);
        drawing_dxf(b.set, &b.set->sheet[s], &two);
        assert_int_equal(one.length, two.length);
        assert_memory_equal(one.bytes, two.bytes, one.length);
        assert_null(strstr(one.bytes, "nan"));
    }
    bridge_close(&a.file);
    bridge_close(&b.file);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_lengths_are_written_to_a_sixteenth),
        cmocka_unit_test(test_parts_of_a_chain_add_up_to_its_whole),
        cmocka_unit_test(test_panels_have_the_areas_and_pockets_of_their_schedule),
        cmocka_unit_test(test_every_sheet_says_its_units_and_that_it_is_preliminary),
        cmocka_unit_test(test_the_same_bridge_gives_the_same_bytes),
        cmocka_unit_test(test_words_keep_clear_of_each_other),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
