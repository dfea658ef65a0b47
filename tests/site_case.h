/* A plan to jack by, for the tests of `site`: an example with jacks in two sets. */
#ifndef CLENCH_TESTS_SITE_CASE_H
#define CLENCH_TESTS_SITE_CASE_H

#include "bridge_file.h"
#include "clench/site.h"

typedef struct SiteCase {
    BridgeFile file;
    Arena *arena, *scratch;
    const ThrustAnswer *answer;
    Node *root;
    SiteDay day; /* four dials across the gap, two at the anchor panels */
} SiteCase;

void site_case_open(SiteCase *c);
void site_case_close(SiteCase *c);

#endif
