/* STEP text, ISO 10303-21, and what all entities of the model share. Private to ifc. */
#ifndef CLENCH_IFC_STEP_H
#define CLENCH_IFC_STEP_H

#include "clench/ifc.h"

enum { STEP_PROPERTIES = 24 };

typedef struct Step {
    Text *text;
    Arena *arena;
    const IfcSettings *settings;
    int last; /* number of the entity written last */
} Step;

/* "#n=...;": the format is the entity without its number. Gives n. */
int step_add(Step *step, const char *format, ...) PRINTF_LIKE(2, 3);
const char *step_text(const Step *step, const char *words); /* 'words', escaped; NULL: $ */
const char *step_real(const Step *step, double value);      /* unit: as it is; "1.", "2.5E-05" */
const char *step_length(const Step *step, double length_m); /* in the model's unit */
const char *step_list(const Step *step, const int *id, int count); /* "(#1,#2)" */
/* 22 characters of revision, kind and mark: alike for the same, else different. Quoted. */
const char *step_id(const Step *step, const char *kind, const char *mark);

/* Units of the model. */
const char *step_unit(const Step *step, DimensionId dimension);
double step_in(const Step *step, double value_SI, DimensionId dimension); /* unit: of the model */

#endif
