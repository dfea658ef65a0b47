/* Private to the case reader: what its two files share. */
#ifndef CLENCH_TESTS_CASE_PARTS_H
#define CLENCH_TESTS_CASE_PARTS_H

#include "case_model.h"

enum { MATERIALS_MAX = 16, SECTIONS_MAX = 400, PARTS_MAX = 12000, EVENTS_MAX = 200 };
enum { CASE_TENDON_PHASE = 90 };

double case_item(const json_t *array, int i);
int case_count(const json_t *array);
double case_get_or(const CaseModel *c, const json_t *object, const char *key, double otherwise);
void case_lay_mesh(CaseModel *c, double refine, Arena *arena);
void case_add_parts(CaseModel *c); /* girder, strands, deck, closure, fill, bars, tendons */
void case_add_events(CaseModel *c);

#endif
