/* A case of the independent model as a girder line to judge: its joints, loads and rule. */
#ifndef CLENCH_TESTS_CASE_LINE_H
#define CLENCH_TESTS_CASE_LINE_H

#include "case_model.h"
#include "clench/bridge.h"

/* Joints of the case but those at gap and anchors, as its own rule has them; permanent, live load
 * and gamma_grad times the negative gradient, no tension. */
BridgeLine case_line(const CaseModel *c, Arena *arena);

#endif
