/* Numbers drawn by their place, and how the points of a study fill the unit cube. */
#include <string.h>

#include "clench/numeric.h"

void philox(const uint32_t counter[4], const uint32_t key[2], uint32_t word[4])
{
    uint32_t c[4] = {counter[0], counter[1], counter[2], counter[3]}, k0 = key[0], k1 = key[1];
    for (int round = 0; round < 10; round++) {
        const uint64_t a = (uint64_t)0xD2511F53u * c[0], b = (uint64_t)0xCD9E8D57u * c[2];
        const uint32_t next[4] = {(uint32_t)(b >> 32) ^ c[1] ^ k0, (uint32_t)b,
                                  (uint32_t)(a >> 32) ^ c[3] ^ k1, (uint32_t)a};
        memcpy(c, next, sizeof c);
        k0 += 0x9E3779B9u;
        k1 += 0xBB67AE85u;
    }
    memcpy(word, c, sizeof c);
}

static void draw(uint32_t index, int dimension, uint32_t use, uint64_t seed, uint32_t word[4])
{
    const uint32_t counter[4] = {index, (uint32_t)dimension, use, 0};
    const uint32_t key[2] = {(uint32_t)seed, (uint32_t)(seed >> 32)};
    philox(counter, key, word);
}

enum { USE_VALUE, USE_SHUFFLE };

/* 53 bits in the middle of their step: never 0, never 1. */
static double open_share(uint32_t high, uint32_t low)
{
    const uint64_t bits = ((uint64_t)high << 32 | low) >> 12;
    return ((double)bits + 0.5) * 0x1p-52;
}

/* ---- Latin hypercube: a permutation without a table ---- */

/* Four rounds of a Feistel network shuffle the least even number of bits that holds `count`; what
 * falls outside walks on along its cycle (Black and Rogaway 2002). */
static uint32_t shuffled(uint32_t index, uint32_t count, int dimension, uint64_t seed)
{
    int half = 1;
    while (half < 16 && (uint64_t)1 << (2 * half) < count) half++;
    const uint32_t mask = ((uint32_t)1 << half) - 1;
    uint32_t at = index;
    do {
        uint32_t left = at >> half, right = at & mask;
        for (uint32_t round = 0; round < 4; round++) {
            uint32_t word[4];
            draw(right, dimension, USE_SHUFFLE + round, seed, word);
            const uint32_t kept = right;
            right = left ^ (word[0] & mask);
            left = kept;
        }
        at = left << half | right;
    } while (at >= count);
    return at;
}

/* ---- Sobol's sequence ---- */

enum { SOBOL_BITS = 32, SOBOL_DEGREE = 6 };

/* Degree, coefficients and first direction numbers of the primitive polynomials: Joe and Kuo, SIAM J. Sci.
 * Comput. 30 (2008) 2635, from memory, held against a general-purpose library's points. */
static const struct {
    int degree;
    unsigned coefficients, first[SOBOL_DEGREE];
} polynomial[SAMPLE_DIMENSIONS] = {
    {0, 0, {0}},
    {1, 0, {1}},
    {2, 1, {1, 3}},
    {3, 1, {1, 3, 1}},
    {3, 2, {1, 1, 1}},
    {4, 1, {1, 1, 3, 3}},
    {4, 4, {1, 3, 5, 13}},
    {5, 2, {1, 1, 5, 5, 17}},
    {5, 4, {1, 1, 5, 5, 5}},
    {5, 7, {1, 1, 7, 11, 19}},
    {5, 11, {1, 1, 5, 1, 1}},
    {5, 13, {1, 1, 1, 3, 11}},
    {5, 14, {1, 3, 5, 5, 31}},
    {6, 1, {1, 3, 3, 9, 7, 49}},
    {6, 13, {1, 1, 1, 15, 21, 21}},
    {6, 16, {1, 3, 1, 13, 27, 49}},
};

static void sobol_directions(int dimension, uint32_t direction[SOBOL_BITS])
{
    const int degree = polynomial[dimension].degree;
    for (int k = 0; k < SOBOL_BITS; k++) {
        if (degree == 0) {
            direction[k] = (uint32_t)1 << (31 - k);
        } else if (k < degree) {
            direction[k] = (uint32_t)polynomial[dimension].first[k] << (31 - k);
        } else {
            uint32_t value = direction[k - degree] ^ direction[k - degree] >> degree;
            for (int j = 1; j < degree; j++)
                if (polynomial[dimension].coefficients >> (degree - 1 - j) & 1)
                    value ^= direction[k - j];
            direction[k] = value;
        }
    }
}

static uint32_t sobol_word(uint32_t index, int dimension)
{
    uint32_t direction[SOBOL_BITS], word = 0;
    sobol_directions(dimension, direction);
    const uint32_t gray = index ^ index >> 1;
    for (int k = 0; k < SOBOL_BITS; k++)
        if (gray >> k & 1) word ^= direction[k];
    return word;
}

double sobol_share(uint32_t index, int dimension) { return sobol_word(index, dimension) * 0x1p-32; }

double sample_share(SampleKind kind, uint32_t index, uint32_t count, int dimension, uint64_t seed)
{
    uint32_t word[4];
    if (kind == SAMPLE_SOBOL) { /* one shift for all points: digits exclusive-or */
        draw(0, dimension, USE_VALUE, seed, word);
        return open_share(sobol_word(index, dimension) ^ word[0], word[1]);
    }
    draw(index, dimension, USE_VALUE, seed, word);
    const double share = open_share(word[0], word[1]);
    if (kind == SAMPLE_PLAIN) return share;
    return (shuffled(index, count, dimension, seed) + share) / count;
}
