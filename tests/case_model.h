/* A case of the independent model (tests/cases/, see its README) as a raw stage model. */
#ifndef CLENCH_TESTS_CASE_MODEL_H
#define CLENCH_TESTS_CASE_MODEL_H

#include <jansson.h>

#include "clench/stages.h"

typedef struct CaseModel {
    json_t *root, *input, *results; /* borrowed views of root */
    bool us;
    StageModel model;
    StageSettings settings;
} CaseModel;

/* `refine` divides the case's largest element; 1: as the case says, below 1: coarser.
 * Fails the test where the file cannot be read. */
CaseModel case_read(const char *name, double refine, Arena *arena);
void case_free(CaseModel *c);
/* Number at a key given without its unit, in SI: case_get(c, object, "P") reads P_kip or P_kN. */
double case_get(const CaseModel *c, const json_t *object, const char *key);
bool case_has(const CaseModel *c, const json_t *object, const char *key);
const json_t *case_array(const CaseModel *c, const json_t *object, const char *key); /* lengths */
double case_length(const CaseModel *c); /* one of the case's long length units, m */
int case_station(const CaseModel *c, double x_m);

#endif
