/* What a fuzz target offers to libFuzzer and to replay.c, and how it says that a property fails. */
#ifndef CLENCH_FUZZ_FUZZ_H
#define CLENCH_FUZZ_FUZZ_H

#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

#define MUST_HOLD(property)                                                               \
    do {                                                                                  \
        if (!(property)) {                                                                \
            fprintf(stderr, "%s:%d: does not hold: %s\n", __FILE__, __LINE__, #property); \
            abort();                                                                      \
        }                                                                                 \
    } while (0)

#endif
