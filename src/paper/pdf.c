/* The file around the pages. */
#include "paper_data.h"

#include <fontconfig/fontconfig.h>
#include <string.h>

PaperSize paper_size(UnitSystem units) { return units == UNITS_US ? PAPER_LETTER : PAPER_A4; }

void paper_revision(const char *bytes, size_t size, char out[PAPER_REVISION])
{
    char *const sum = g_compute_checksum_for_data(G_CHECKSUM_SHA256, (const guchar *)bytes, size);
    snprintf(out, PAPER_REVISION, "%.12s", sum);
    g_free(sum);
}

static cairo_status_t write_bytes(void *to, const unsigned char *bytes, unsigned int count)
{
    text_addn(to, (const char *)bytes, count);
    return CAIRO_STATUS_SUCCESS;
}

/* Glyphs where their outlines want to be, not on a grid of pixels: the same at every size. */
static void context_start(Paper *paper)
{
    cairo_font_options_t *const options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    paper->context = pango_cairo_create_context(paper->cr);
    pango_cairo_context_set_font_options(paper->context, options);
    pango_cairo_context_set_resolution(paper->context, 72);
    pango_context_set_round_glyph_positions(paper->context, FALSE);
    pango_context_set_language(paper->context, pango_language_from_string("en"));
    cairo_font_options_destroy(options);
}

static void metadata_set(const Paper *paper, const PaperFile *file)
{
    cairo_surface_t *const pdf = paper->surface;
    const char *const date = arena_printf(paper->arena, "%sT00:00:00Z", file->date);
    cairo_pdf_surface_set_metadata(
        pdf, CAIRO_PDF_METADATA_TITLE,
        arena_printf(paper->arena, "%s: %s", file->title, file->subject));
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_SUBJECT,
                                   arena_printf(paper->arena, "revision %s", file->revision));
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATOR,
                                   arena_printf(paper->arena, "clench %s", file->version));
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATE_DATE, date);
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_MOD_DATE, date);
}

void paper_open(Paper *paper, const PaperFile *file, Text *pdf)
{
    paper->surface =
        cairo_pdf_surface_create_for_stream(write_bytes, pdf, paper->width_pt, paper->height_pt);
    cairo_pdf_surface_restrict_to_version(paper->surface, CAIRO_PDF_VERSION_1_5);
    paper->cr = cairo_create(paper->surface);
    paper->layouts = g_ptr_array_new_with_free_func(g_object_unref);
    context_start(paper);
    metadata_set(paper, file);
}

Status paper_fonts(const Paper *paper, Error *err)
{
    const char *missing;
    if (words_fonts_there(paper, &missing)) return STATUS_OK;
    return error_set(err, STATUS_IO,
                     "the font %s is missing: install fonts-stix and fonts-dejavu-core", missing);
}

Status paper_finish(const Paper *paper, Error *err)
{
    cairo_surface_finish(paper->surface);
    const cairo_status_t cairo = cairo_surface_status(paper->surface);
    if (cairo == CAIRO_STATUS_SUCCESS) return STATUS_OK;
    return error_set(err, STATUS_IO, "the PDF cannot be drawn: %s", cairo_status_to_string(cairo));
}

void paper_shut(Paper *paper)
{
    g_ptr_array_free(paper->layouts, TRUE);
    g_object_unref(paper->context);
    cairo_destroy(paper->cr);
    cairo_surface_destroy(paper->surface);
}

static Paper paper_start(const Report *report, const PaperSettings *settings)
{
    const bool a4 = settings->size == PAPER_A4;
    Paper paper = {.report = report,
                   .settings = settings,
                   .arena = report->arena,
                   .width_pt = a4 ? 595.276 : 612,
                   .height_pt = a4 ? 841.890 : 792,
                   .left_pt = a4 ? 62 : 66,
                   .top_pt = 66};
    paper.measure_pt = paper.width_pt - 2 * paper.left_pt;
    paper.bottom_pt = paper.height_pt - 58;
    return paper;
}

void paper_close(void)
{
    pango_cairo_font_map_set_default(NULL);
    /* For the leak sanitizer alone: FcFini ends the process where a thread of pango's still holds a font. */
#ifdef __SANITIZE_ADDRESS__
    FcFini();
#endif
}

static void blocks_add(Paper *paper)
{
    bool new_page = false;
    flow_cover(paper);
    for (const ReportBlock *b = paper->report->first; b; b = b->next) {
        if (b->place == REPORT_SCREEN) continue;
        Box *const before = paper->last;
        flow_add(paper, b);
        if (new_page && before->next) {
            before->next->new_page = true;
            new_page = false;
        }
        new_page = new_page || b->kind == REPORT_BREAK;
    }
    flow_contents(paper);
}

Status paper_pdf(const Report *report, const PaperSettings *settings, Text *pdf, Error *err)
{
    const ReportSource *const source = report->source;
    const PaperFile file = {.title = source->name && *source->name ? source->name : source->file,
                            .subject = report->title,
                            .revision = settings->revision,
                            .date = settings->date,
                            .version = source->version};
    Paper paper = paper_start(report, settings);
    paper_open(&paper, &file, pdf);
    Status status = paper_fonts(&paper, err);
    if (status == STATUS_OK) {
        blocks_add(&paper);
        pages_break(&paper);
        pages_draw(&paper);
        status = paper_finish(&paper, err);
    }
    paper_shut(&paper);
    return status;
}
