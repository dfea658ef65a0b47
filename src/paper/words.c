/* Text by pango, and what is drawn with a pen. */
#include "paper_data.h"

#include <string.h>

const Ink INK_TEXT = {0.114, 0.153, 0.188}, INK_SOFT = {0.302, 0.353, 0.392},
          INK_LINE = {0.80, 0.81, 0.80}, INK_NEED = {0.043, 0.361, 0.561},
          INK_MOST = {0.659, 0.282, 0.039};

static const struct {
    const char *family;
    PangoWeight weight;
    PangoStyle style;
} faces[FACE_COUNT] = {{"STIXGeneral", PANGO_WEIGHT_NORMAL, PANGO_STYLE_NORMAL},
                       {"STIXGeneral", PANGO_WEIGHT_BOLD, PANGO_STYLE_NORMAL},
                       {"STIXGeneral", PANGO_WEIGHT_NORMAL, PANGO_STYLE_ITALIC},
                       {"DejaVu Sans", PANGO_WEIGHT_NORMAL, PANGO_STYLE_NORMAL},
                       {"DejaVu Sans", PANGO_WEIGHT_BOLD, PANGO_STYLE_NORMAL}};

bool words_fonts_there(const Paper *paper, const char **missing)
{
    PangoFontFamily **family;
    int count;
    pango_context_list_families(paper->context, &family, &count);
    *missing = NULL;
    for (int f = 0; f < FACE_COUNT; f++) {
        bool there = false;
        for (int i = 0; i < count && !there; i++)
            there = strcmp(pango_font_family_get_name(family[i]), faces[f].family) == 0;
        if (!there) *missing = faces[f].family;
    }
    g_free(family);
    return !*missing;
}

PangoLayout *words_layout(Paper *paper, const char *text, Face face, double size_pt,
                          double width_pt)
{
    PangoLayout *const layout = pango_layout_new(paper->context);
    PangoFontDescription *const font = pango_font_description_new();
    pango_font_description_set_family_static(font, faces[face].family);
    pango_font_description_set_weight(font, faces[face].weight);
    pango_font_description_set_style(font, faces[face].style);
    pango_font_description_set_absolute_size(font, size_pt * PANGO_SCALE);
    pango_layout_set_font_description(layout, font);
    pango_font_description_free(font);
    pango_layout_set_text(layout, text ? text : "", -1);
    pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
    pango_layout_set_width(layout, width_pt < 0 ? -1 : (int)(width_pt * PANGO_SCALE));
    g_ptr_array_add(paper->layouts, layout);
    return layout;
}

double words_width_pt(PangoLayout *layout)
{
    int width, height;
    pango_layout_get_size(layout, &width, &height);
    return (double)width / PANGO_SCALE;
}

double words_height_pt(PangoLayout *layout)
{
    int width, height;
    pango_layout_get_size(layout, &width, &height);
    return (double)height / PANGO_SCALE;
}

double words_baseline_pt(PangoLayout *layout)
{
    return (double)pango_layout_get_baseline(layout) / PANGO_SCALE;
}

void ink_set(const Paper *paper, Ink ink)
{
    cairo_set_source_rgb(paper->cr, ink.r_1, ink.g_1, ink.b_1);
}

void words_show(const Paper *paper, PangoLayout *layout, double x_pt, double y_pt, Ink ink)
{
    ink_set(paper, ink);
    cairo_move_to(paper->cr, x_pt, y_pt);
    pango_cairo_show_layout(paper->cr, layout);
}

void line_draw(const Paper *paper, double from_x_pt, double from_y_pt, double to_x_pt,
               double to_y_pt, double width_pt)
{
    cairo_set_line_width(paper->cr, width_pt);
    cairo_move_to(paper->cr, from_x_pt, from_y_pt);
    cairo_line_to(paper->cr, to_x_pt, to_y_pt);
    cairo_stroke(paper->cr);
}
