/* Private to base: exact fractions, so that a quantity is rounded once, when all is known. That
 * makes "9 ft 3 in" the same double as "111 in", and lets every double be written with a unit and
 * read back unchanged; a product of two rounded doubles misses some values. */
#ifndef CLENCH_BASE_EXACT_H
#define CLENCH_BASE_EXACT_H

#include <stdbool.h>
#include <stdint.h>

/* 8,192 bits. The longest: a sum of three lengths of 40 digits and 10^+-400 needs under 6,000. */
enum { BIG_WORDS = 256, EXACT_DIGITS_MAX = 40, EXACT_TEN_MAX = 400 };
typedef struct Big {
    int count;                /* words in use, the highest is not 0 */
    uint32_t word[BIG_WORDS]; /* lowest first */
} Big;

typedef struct Exact {
    bool negative;
    Big num, den;
    int ten; /* the value is +-num/den * 10^ten */
} Exact;

void exact_set(Exact *a, uint64_t num, uint64_t den, int ten);
void exact_copy(Exact *a, const Exact *b);
void exact_set_double(Exact *a, double value);
void exact_append_digit(Exact *a, int digit); /* num*10 + digit */
bool exact_is_zero(const Exact *a);
void exact_multiply(Exact *a, const Exact *b);
void exact_divide(Exact *a, const Exact *b); /* b is not 0 */
void exact_add(Exact *a, const Exact *b);
/* The nearest double, ties to even; false where it would be infinite. */
bool exact_to_double(const Exact *a, double *value);
/* |a| = *digits * 10^(the returned power), cut after 17 to 19 digits. `a` is not 0. */
int exact_digits(const Exact *a, uint64_t *digits);

#endif
