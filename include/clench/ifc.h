/* ifc: the bridge as an open model, IFC 4.3 (ISO 16739-1:2024, schema IFC4X3_ADD2) as STEP text (ISO 10303-21):
 * panels, joints, gap, girders and barriers as bodies with their marks and values. A writer of our own; names
 * and order of attributes are from memory of the schema. docs/answers.md. */
#ifndef CLENCH_IFC_H
#define CLENCH_IFC_H

#include "clench/bridge.h"

typedef struct IfcSettings {
    const char *name;     /* of the job */
    const char *file;     /* the bridge file */
    const char *revision; /* of the input: with the mark it makes the GlobalIds */
    const char *date;     /* "2031-05-04" */
    UnitSystem units;     /* of lengths, forces and stresses in the model */
} IfcSettings;

/* What came into the model and what did not. */
typedef struct IfcSummary {
    int panels, openings, joints, gaps, strips, girders, barriers, entities;
    int note_count;
    const char *const *note; /* what the model does not show, or shows otherwise */
} IfcSummary;

/* The whole file, in `text`. Errors: those of bridge_panels and bridge_girders. */
MUST_USE Status ifc_write(const Bridge *bridge, const IfcSettings *settings, Text *text,
                          IfcSummary *summary, Error *err);

#endif
