/* The drawings: all sheets as one PDF, each sheet as SVG and DXF. No run of the stages is needed. */
#include <dirent.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "clench/drawing.h"
#include "cli.h"

/* Bearing of the bridge, "37.5" degrees clockwise from north. */
static Status north_read(const Request *request, double *north_rad, Error *err)
{
    const char *const text = request->value[OPTION_NORTH];
    char *end;
    *north_rad = NAN;
    if (!text) return STATUS_OK;
    const double degrees = strtod(text, &end);
    if (end == text || *end || !(degrees >= 0 && degrees <= 360))
        return error_set(
            err, STATUS_BAD_INPUT,
            "--north: '%.40s' is no bearing: write degrees clockwise from north, 0 to 360", text);
    *north_rad = degrees * acos(-1) / 180;
    return STATUS_OK;
}

typedef struct Written {
    const char *folder;
    Text list; /* of what was written */
    Arena *arena;
} Written;

static Status put(Written *w, const char *name, const Text *bytes, Error *err)
{
    const char *const path = arena_printf(w->arena, "%s/%s", w->folder, name);
    text_printf(&w->list, "  %s\n", path);
    return file_write(path, bytes->bytes, bytes->length, err);
}

/* All bytes are there before the first file is written. */
static Status write_all(Written *w, const DrawingSet *set, Error *err)
{
    Text pdf = text_start(w->arena);
    Text *svg = ARENA_NEW(w->arena, Text, set->sheet_count);
    Text *dxf = ARENA_NEW(w->arena, Text, set->sheet_count);
    /* no paper_close: the process ends, and a thread of the font library may still be at its last word */
    TRY(paper_drawings(set, w->arena, &pdf, err));
    for (int i = 0; i < set->sheet_count; i++) {
        svg[i] = text_start(w->arena);
        dxf[i] = text_start(w->arena);
        drawing_svg(set, &set->sheet[i], &svg[i]);
        drawing_dxf(set, &set->sheet[i], &dxf[i]);
    }
    TRY(directory_make(w->folder, err));
    TRY(put(w, "drawings.pdf", &pdf, err));
    for (int i = 0; i < set->sheet_count; i++) {
        TRY(put(w, arena_printf(w->arena, "%s.svg", set->sheet[i].id), &svg[i], err));
        TRY(put(w, arena_printf(w->arena, "%s.dxf", set->sheet[i].id), &dxf[i], err));
    }
    return STATUS_OK;
}

/* ---- sheets of an earlier run ---- */

static bool of_set(const DrawingSet *set, const char *name, size_t length)
{
    for (int i = 0; i < set->sheet_count; i++)
        if (strlen(set->sheet[i].id) == length && !strncmp(set->sheet[i].id, name, length))
            return true;
    return false;
}

/* Named as ours are: "panel-c.dxf". */
static bool like_ours(const char *name)
{
    static const char *const family[] = {"panel-", "panels-", "shims-", "beds-", "order-"};
    const char *const dot = strrchr(name, '.');
    if (!dot || (strcmp(dot, ".svg") != 0 && strcmp(dot, ".dxf") != 0)) return false;
    for (size_t i = 0; i < sizeof family / sizeof *family; i++)
        if (!strncmp(name, family[i], strlen(family[i]))) return true;
    return false;
}

/* They are left alone, but nobody shall build by them. */
static void tell_earlier(const Written *w, const DrawingSet *set, Text *out)
{
    DIR *const folder = opendir(w->folder);
    if (!folder) return;
    for (const struct dirent *file; (file = readdir(folder));)
        if (like_ours(file->d_name) &&
            !of_set(set, file->d_name, (size_t)(strrchr(file->d_name, '.') - file->d_name)))
            text_printf(out, "not of this set, perhaps of an earlier run: %s/%s\n", w->folder,
                        file->d_name);
    closedir(folder);
}

static Status draw(const Request *request, const Answer *answer, Error *err)
{
    const ReportSource *const r = &answer->source;
    PanelSource panels;
    char date[PAPER_DATE], revision[PAPER_REVISION];
    double north_rad;
    TRY(north_read(request, &north_rad, err));
    TRY(output_date(request, date, err));
    TRY(report_panels_find(r, answer->arena, &panels, err));
    const SeatPlan *seat = NULL;
    if (request->given[OPTION_SURVEY]) TRY(answer_seats(request, answer, &seat, err));
    paper_revision(answer->bytes, answer->size, revision);
    const DrawingSource source = {.bridge = r->bridge,
                                  .plan = panels.plan,
                                  .lift = panels.lift,
                                  .seat = seat,
                                  .units = r->units,
                                  .title = r->name && *r->name ? r->name : r->file,
                                  .file = r->file,
                                  .revision = revision,
                                  .date = date,
                                  .version = r->version,
                                  .half = request->given[OPTION_HALF],
                                  .north_rad = north_rad};
    const DrawingSet *set;
    TRY(drawing_make(&source, answer->arena, &set, err));
    Written w = {request->value[OPTION_OUT], text_start(answer->arena), answer->arena};
    TRY(write_all(&w, set, err));
    Text out = text_start(answer->arena);
    text_printf(&out, "%d sheets of %s:\n%s", set->sheet_count, set->paper, w.list.bytes);
    tell_earlier(&w, set, &out);
    TRY(output_print(&out, err));
    const bool seats_met = !seat || seating_met(seat);
    return report_panels_met(&panels) && seats_met ? STATUS_OK : STATUS_NOT_MET;
}

Status cmd_draw(const Request *request, Error *err)
{
    Answer answer;
    if (!request->given[OPTION_OUT])
        return error_set(err, STATUS_BAD_INPUT, "clench draw needs a folder to write to: -o DIR");
    if (!request->given[OPTION_SURVEY] &&
        (request->given[OPTION_THRUST] || request->given[OPTION_DAY]))
        return error_set(err, STATUS_BAD_INPUT,
                         "--thrust and --day are for the shims: they need --survey CSV");
    if (request->given[OPTION_SURVEY] && !request->given[OPTION_THRUST])
        TRY(answer_find(request, &answer, err));
    else
        TRY(answer_read(request, &answer, err));
    const Status status = draw(request, &answer, err);
    answer_free(&answer);
    return status;
}
