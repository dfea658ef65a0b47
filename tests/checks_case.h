/* An example or a bridge of text, its thrust and all its checks, for the tests of `checks`. */
#ifndef CLENCH_TESTS_CHECKS_CASE_H
#define CLENCH_TESTS_CHECKS_CASE_H

#include "bridge_file.h"

#include "clench/checks.h"

typedef struct ChecksCase {
    BridgeFile file;
    Arena *arena, *scratch;
    const ThrustAnswer *answer;
    const CheckList *list;
} ChecksCase;

/* given_N 0: at the needed thrust. `old` (NULL: none) is replaced by `fresh` in the example. */
void checks_from_example(ChecksCase *c, const char *path, double given_N, const char *old,
                         const char *fresh);
void checks_from_text(ChecksCase *c, const char *text, double given_N);
void checks_close(ChecksCase *c);
/* First row with that name (of a line, NULL: any); NULL where there is none. */
const CheckRow *checks_row(const ChecksCase *c, const char *name, const char *line);
void checks_print(const ChecksCase *c); /* to standard output, for people */

#endif
