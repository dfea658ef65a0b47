/* A sheet as DXF of release 12, ASCII: pairs of a group code and a value, each on its line. Written
 * from the published description of the format (from memory); read back by another program in
 * tests/cli/draw.sh. Every view stands in real lengths; where it stands is its place on the sheet at the
 * largest scale of the sheet. */
#include <math.h>
#include <string.h>

#include "clench/drawing.h"

typedef struct File {
    const DrawingSet *set;
    const DrawingSheet *sheet;
    const DrawingView *view;
    double per_m, base_1; /* drawing units a metre; the largest scale */
    Text *out;
} File;

static void pair(const File *f, int code, const char *value)
{
    text_printf(f->out, "%3d\n%s\n", code, value);
}

static void whole(const File *f, int code, int value)
{
    text_printf(f->out, "%3d\n%6d\n", code, value);
}

static void real(const File *f, int code, double value)
{
    text_printf(f->out, "%3d\n%.12g\n", code, fabs(value) < 1e-9 ? 0.0 : value);
}

/* Letters beyond ASCII as \U+XXXX; signs beyond that as a question mark. */
static void words(const File *f, int code, const char *text)
{
    text_printf(f->out, "%3d\n", code);
    for (const unsigned char *c = (const unsigned char *)text; *c; c++) {
        if (*c < 0x20) continue;
        if (*c < 0x80) {
            text_addn(f->out, (const char *)c, 1);
            continue;
        }
        const int more = *c >= 0xF0 ? 3 : *c >= 0xE0 ? 2 : 1;
        unsigned sign = *c & (0x3Fu >> more);
        for (int i = 0; i < more && (c[1] & 0xC0) == 0x80; i++) sign = sign << 6 | (*++c & 0x3Fu);
        if (sign > 0xFFFF)
            text_add(f->out, "?");
        else
            text_printf(f->out, "\\U+%04X", sign);
    }
    text_add(f->out, "\n");
}

/* ---- header and tables ---- */

static void corner(const File *f, const char *name, double x, double y)
{
    pair(f, 9, name);
    real(f, 10, x);
    real(f, 20, y);
}

static void header(const File *f)
{
    const double to = f->per_m * f->base_1;
    const double x = to * f->sheet->width_m, y = to * f->sheet->height_m;
    words(f, 999, f->set->title);
    words(f, 999, f->sheet->title);
    pair(f, 999, f->set->units == UNITS_US ? "lengths in inches" : "lengths in millimetres");
    pair(f, 0, "SECTION");
    pair(f, 2, "HEADER");
    pair(f, 9, "$ACADVER");
    pair(f, 1, "AC1009");
    corner(f, "$EXTMIN", 0, 0);
    corner(f, "$EXTMAX", x, y);
    corner(f, "$LIMMIN", 0, 0);
    corner(f, "$LIMMAX", x, y);
    pair(f, 9, "$LTSCALE"); /* dashes are in mm of the sheet */
    real(f, 40, to / 1000);
    pair(f, 0, "ENDSEC");
}

static void table_open(const File *f, const char *name, int count)
{
    pair(f, 0, "TABLE");
    pair(f, 2, name);
    whole(f, 70, count);
}

static void line_type(const File *f, const char *name, double on_mm, double off_mm)
{
    pair(f, 0, "LTYPE");
    pair(f, 2, name);
    whole(f, 70, 0);
    pair(f, 3, on_mm > 0 ? "dashes" : "solid line");
    whole(f, 72, 65);
    whole(f, 73, on_mm > 0 ? 2 : 0);
    real(f, 40, on_mm + off_mm);
    if (on_mm <= 0) return;
    real(f, 49, on_mm);
    real(f, 49, -off_mm);
}

/* Each layer with dashes has a line type of its name. */
static void line_types(const File *f)
{
    int count = 1;
    for (int i = 0; i < DRAWING_LAYER_COUNT; i++) count += drawing_look((DrawingLayer)i)->on_m > 0;
    table_open(f, "LTYPE", count);
    line_type(f, "CONTINUOUS", 0, 0);
    for (int i = 0; i < DRAWING_LAYER_COUNT; i++) {
        const DrawingLook *look = drawing_look((DrawingLayer)i);
        if (look->on_m > 0) line_type(f, look->name, 1000 * look->on_m, 1000 * look->off_m);
    }
    pair(f, 0, "ENDTAB");
}

static void layers(const File *f)
{
    table_open(f, "LAYER", DRAWING_LAYER_COUNT + 1);
    for (int i = -1; i < DRAWING_LAYER_COUNT; i++) {
        const DrawingLook *look = i < 0 ? NULL : drawing_look((DrawingLayer)i);
        pair(f, 0, "LAYER");
        pair(f, 2, look ? look->name : "0");
        whole(f, 70, 0);
        whole(f, 62, look ? look->colour : 7);
        pair(f, 6, look && look->on_m > 0 ? look->name : "CONTINUOUS");
    }
    pair(f, 0, "ENDTAB");
}

static void styles(const File *f)
{
    table_open(f, "STYLE", 1);
    pair(f, 0, "STYLE");
    pair(f, 2, "STANDARD");
    whole(f, 70, 0);
    real(f, 40, 0);
    real(f, 41, 1);
    real(f, 50, 0);
    whole(f, 71, 0);
    real(f, 42, 1);
    pair(f, 3, "txt");
    pair(f, 4, "");
    pair(f, 0, "ENDTAB");
}

/* ---- items ---- */

/* Real lengths of a view; of paper, those of the sheet at its largest scale. */
static double size_1(const File *f) { return f->view->scale_1 == 1 ? f->base_1 : 1; }

static void point(const File *f, int code, DrawingPoint p)
{
    const DrawingPoint o = f->view->origin;
    real(f, code, f->per_m * (f->base_1 * o.x_m + size_1(f) * p.x_m));
    real(f, code + 10, f->per_m * (f->base_1 * o.y_m + size_1(f) * p.y_m));
}

static void entity(const File *f, const char *name, DrawingLayer layer)
{
    pair(f, 0, name);
    pair(f, 8, drawing_look(layer)->name);
}

static void lines_add(const File *f, const DrawingItem *item)
{
    if (item->kind == DRAWING_LINES && item->point_count == 2) {
        entity(f, "LINE", item->layer);
        point(f, 10, item->point[0]);
        point(f, 11, item->point[1]);
        return;
    }
    entity(f, "POLYLINE", item->layer);
    whole(f, 66, 1);
    real(f, 10, 0);
    real(f, 20, 0);
    whole(f, 70, item->kind == DRAWING_AREA);
    for (int i = 0; i < item->point_count; i++) {
        entity(f, "VERTEX", item->layer);
        point(f, 10, item->point[i]);
    }
    entity(f, "SEQEND", item->layer);
}

static void round_add(const File *f, const DrawingItem *item)
{
    const double degree = 180 / acos(-1);
    entity(f, item->kind == DRAWING_ARC ? "ARC" : "CIRCLE", item->layer);
    point(f, 10, item->point[0]);
    real(f, 40, f->per_m * size_1(f) * item->radius_m);
    if (item->kind != DRAWING_ARC) return;
    real(f, 50, fmod(item->from_rad * degree + 720, 360));
    real(f, 51, fmod(item->to_rad * degree + 720, 360));
}

static void text_entity(const File *f, const DrawingItem *item)
{
    const double scale = f->view->scale_1 == 1 ? f->base_1 : f->view->scale_1;
    entity(f, "TEXT", item->layer);
    point(f, 10, item->point[0]);
    real(f, 40, f->per_m * scale * item->height_m);
    words(f, 1, item->text);
    if (item->upright) real(f, 50, 90);
    if (item->align == DRAWING_START) return;
    whole(f, 72, (int)item->align);
    point(f, 11, item->point[0]);
}

static void view_add(const File *f)
{
    for (const DrawingItem *item = f->view->first; item; item = item->next) switch (item->kind) {
        case DRAWING_CIRCLE:
        case DRAWING_ARC: round_add(f, item); break;
        case DRAWING_WORDS: text_entity(f, item); break;
        default: lines_add(f, item);
        }
}

void drawing_dxf(const DrawingSet *set, const DrawingSheet *sheet, Text *out)
{
    File f = {.set = set,
              .sheet = sheet,
              .per_m = set->units == UNITS_US ? 1 / 0.0254 : 1000,
              .base_1 = 1,
              .out = out};
    for (const DrawingView *v = sheet->first; v; v = v->next) f.base_1 = fmax(f.base_1, v->scale_1);
    header(&f);
    pair(&f, 0, "SECTION");
    pair(&f, 2, "TABLES");
    line_types(&f);
    layers(&f);
    styles(&f);
    pair(&f, 0, "ENDSEC");
    pair(&f, 0, "SECTION");
    pair(&f, 2, "ENTITIES");
    for (f.view = sheet->first; f.view; f.view = f.view->next) view_add(&f);
    pair(&f, 0, "ENDSEC");
    pair(&f, 0, "EOF");
}
