/* The bridge as an open model. No run of the stages is needed. */
#include <string.h>

#include "clench/ifc.h"
#include "cli.h"

static void say(const IfcSummary *sum, const char *path, Text *out)
{
    text_printf(
        out,
        "%s: %d panels, %d joints, %d closures, %d pieces of girders, %d barriers; %d entities of "
        "IFC4X3_ADD2.\n",
        path, sum->panels, sum->joints, sum->gaps + sum->strips, sum->girders, sum->barriers,
        sum->entities);
    for (int i = 0; i < sum->note_count; i++) text_printf(out, "%s\n", sum->note[i]);
}

static Status show(const Request *request, const Answer *answer, Error *err)
{
    char date[PAPER_DATE], revision[PAPER_REVISION];
    TRY(output_date(request, date, err));
    paper_revision(answer->bytes, answer->size, revision);
    const char *const path = request->value[OPTION_OUT];
    const IfcSettings settings = {answer->source.name, answer->source.file, revision, date,
                                  answer->source.units};
    Text model = text_start(answer->arena), out = text_start(answer->arena);
    IfcSummary summary;
    TRY(ifc_write(answer->source.bridge, &settings, &model, &summary, err));
    TRY(file_write(path, model.bytes, model.length, err));
    say(&summary, path, &out);
    return output_print(&out, err);
}

Status cmd_model(const Request *request, Error *err)
{
    Answer answer;
    if (!request->given[OPTION_OUT])
        return error_set(err, STATUS_BAD_INPUT,
                         "clench model needs a file to write: -o bridge.ifc");
    TRY(answer_read(request, &answer, err));
    const Status status = show(request, &answer, err);
    answer_free(&answer);
    return status;
}
