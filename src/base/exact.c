#include "exact.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* ---- whole numbers ---- */

static void big_set(Big *a, uint64_t value)
{
    a->count = 0;
    for (; value; value >>= 32) a->word[a->count++] = (uint32_t)value;
}

static void big_copy(Big *a, const Big *b)
{
    a->count = b->count;
    memcpy(a->word, b->word, (size_t)b->count * sizeof *b->word);
}

static void big_push(Big *a, uint32_t word)
{
    assert(a->count < BIG_WORDS);
    a->word[a->count++] = word;
}

/* a = a*factor + carry */
static void big_scale(Big *a, uint32_t factor, uint32_t carry)
{
    for (int i = 0; i < a->count; i++) {
        const uint64_t product = (uint64_t)a->word[i] * factor + carry;
        a->word[i] = (uint32_t)product;
        carry = (uint32_t)(product >> 32);
    }
    if (carry) big_push(a, carry);
}

static void big_trim(Big *a)
{
    while (a->count > 0 && a->word[a->count - 1] == 0) a->count--;
}

static void big_multiply(Big *a, const Big *b)
{
    Big product;
    product.count = a->count + b->count;
    assert(product.count <= BIG_WORDS);
    memset(product.word, 0, (size_t)product.count * sizeof *product.word);
    for (int i = 0; i < a->count; i++) {
        uint32_t carry = 0;
        for (int k = 0; k < b->count; k++) {
            const uint64_t sum = (uint64_t)a->word[i] * b->word[k] + product.word[i + k] + carry;
            product.word[i + k] = (uint32_t)sum;
            carry = (uint32_t)(sum >> 32);
        }
        product.word[i + b->count] = carry;
    }
    big_trim(&product);
    big_copy(a, &product);
}

static void big_ten_power(Big *a, int power)
{
    for (; power >= 9; power -= 9) big_scale(a, 1000000000u, 0);
    for (; power > 0; power--) big_scale(a, 10, 0);
}

static void big_add(Big *a, const Big *b)
{
    uint64_t carry = 0;
    for (int i = 0; i < b->count || (carry && i <= a->count); i++) {
        if (i >= a->count) big_push(a, 0);
        carry += (uint64_t)a->word[i] + (i < b->count ? b->word[i] : 0);
        a->word[i] = (uint32_t)carry;
        carry >>= 32;
    }
    big_trim(a);
}

static int big_compare(const Big *a, const Big *b)
{
    if (a->count != b->count) return a->count < b->count ? -1 : 1;
    for (int i = a->count - 1; i >= 0; i--)
        if (a->word[i] != b->word[i]) return a->word[i] < b->word[i] ? -1 : 1;
    return 0;
}

/* a -= b, where a >= b */
static void big_subtract(Big *a, const Big *b)
{
    uint64_t borrow = 0;
    for (int i = 0; i < a->count; i++) {
        const uint64_t taken = (i < b->count ? b->word[i] : 0) + borrow;
        borrow = a->word[i] < taken;
        a->word[i] = (uint32_t)(a->word[i] - taken);
    }
    assert(!borrow);
    big_trim(a);
}

static int bits64(uint64_t value) { return value ? 64 - __builtin_clzll(value) : 0; }

static int big_bits(const Big *a)
{
    return a->count ? 32 * (a->count - 1) + bits64(a->word[a->count - 1]) : 0;
}

static void big_shift_left(Big *a, int bits)
{
    const int words = bits / 32;
    big_scale(a, 1u << bits % 32, 0);
    if (words == 0 || a->count == 0) return;
    assert(a->count + words <= BIG_WORDS);
    memmove(a->word + words, a->word, (size_t)a->count * sizeof *a->word);
    memset(a->word, 0, (size_t)words * sizeof *a->word);
    a->count += words;
}

static void big_shift_right_one(Big *a)
{
    for (int i = 0; i < a->count; i++) {
        const uint32_t above = i + 1 < a->count ? a->word[i + 1] : 0;
        a->word[i] = a->word[i] >> 1 | above << 31;
    }
    big_trim(a);
}

/* Whole part of a/b, which must be below 2^64; a keeps the remainder, b is used up. */
static uint64_t big_divide(Big *a, Big *b)
{
    uint64_t quotient = 0;
    int shift = big_bits(a) - big_bits(b);
    assert(b->count > 0 && shift <= 64);
    if (shift < 0) return 0;
    big_shift_left(b, shift);
    for (; shift >= 0; shift--) {
        assert(quotient >> 63 == 0);
        quotient <<= 1;
        if (big_compare(a, b) >= 0) {
            big_subtract(a, b);
            quotient |= 1;
        }
        big_shift_right_one(b);
    }
    return quotient;
}

/* ---- fractions ---- */

void exact_set(Exact *a, uint64_t num, uint64_t den, int ten)
{
    assert(den > 0);
    a->negative = false;
    big_set(&a->num, num);
    big_set(&a->den, den);
    a->ten = ten;
}

/* Only the words in use: most numbers are short. */
void exact_copy(Exact *a, const Exact *b)
{
    a->negative = b->negative;
    a->ten = b->ten;
    big_copy(&a->num, &b->num);
    big_copy(&a->den, &b->den);
}

void exact_set_double(Exact *a, double value)
{
    int exponent;
    assert(isfinite(value));
    const double mantissa = ldexp(frexp(fabs(value), &exponent), 53); /* a whole number */
    exponent -= 53;
    exact_set(a, (uint64_t)mantissa, 1, 0);
    a->negative = value < 0;
    big_shift_left(exponent > 0 ? &a->num : &a->den, exponent > 0 ? exponent : -exponent);
}

void exact_append_digit(Exact *a, int digit) { big_scale(&a->num, 10, (uint32_t)digit); }

bool exact_is_zero(const Exact *a) { return a->num.count == 0; }

void exact_multiply(Exact *a, const Exact *b)
{
    a->negative = a->negative != b->negative;
    a->ten += b->ten;
    big_multiply(&a->num, &b->num);
    big_multiply(&a->den, &b->den);
}

void exact_divide(Exact *a, const Exact *b)
{
    assert(!exact_is_zero(b));
    a->negative = a->negative != b->negative;
    a->ten -= b->ten;
    big_multiply(&a->num, &b->den);
    big_multiply(&a->den, &b->num);
}

/* The power of ten goes into the fraction. */
static void exact_settle(Exact *a)
{
    big_ten_power(a->ten > 0 ? &a->num : &a->den, a->ten > 0 ? a->ten : -a->ten);
    a->ten = 0;
}

void exact_add(Exact *a, const Exact *b)
{
    Exact other;
    exact_copy(&other, b);
    exact_settle(a);
    exact_settle(&other);
    big_multiply(&a->num, &other.den);
    big_multiply(&other.num, &a->den);
    big_multiply(&a->den, &other.den);
    if (a->negative == other.negative)
        big_add(&a->num, &other.num);
    else if (big_compare(&a->num, &other.num) >= 0)
        big_subtract(&a->num, &other.num);
    else {
        big_subtract(&other.num, &a->num);
        big_copy(&a->num, &other.num);
        a->negative = other.negative;
    }
}

/* quotient * 2^power, with `rest` where more bits follow, to the nearest double. Double precision
 * has 53 bits and no bit below 2^-1074: IEEE 754-2019, Table 3.5. */
static bool round_to_double(uint64_t quotient, int power, bool rest, double *value)
{
    int drop = bits64(quotient) - 53;
    if (drop < -1074 - power) drop = -1074 - power;
    if (drop > 64) drop = 65;
    uint64_t kept = drop <= 0 ? quotient : drop < 64 ? quotient >> drop : 0;
    if (drop > 0 && drop <= 64) {
        const uint64_t half = (uint64_t)1 << (drop - 1), cut = quotient & (2 * half - 1);
        if (cut > half || (cut == half && (rest || kept % 2 == 1))) kept++;
    }
    if (drop < 0) drop = 0;
    if (bits64(kept) + power + drop > 1024) return false;
    *value = ldexp((double)kept, power + drop);
    return true;
}

bool exact_to_double(const Exact *a, double *value)
{
    Exact work;
    exact_copy(&work, a);
    exact_settle(&work);
    *value = 0;
    if (exact_is_zero(&work)) return true;
    const int shift = 63 - (big_bits(&work.num) - big_bits(&work.den));
    big_shift_left(shift > 0 ? &work.num : &work.den, shift > 0 ? shift : -shift);
    const uint64_t quotient = big_divide(&work.num, &work.den); /* 63 or 64 bits */
    if (!round_to_double(quotient, -shift, work.num.count > 0, value)) return false;
    if (a->negative) *value = -*value;
    return true;
}

int exact_digits(const Exact *a, uint64_t *digits)
{
    Exact work;
    exact_copy(&work, a);
    exact_settle(&work);
    assert(!exact_is_zero(&work));
    const double log10_2 = 0.30103;
    const int bits = big_bits(&work.num) - big_bits(&work.den); /* a is 2^(bits +- 1) */
    const int power = (int)floor(bits * log10_2) - 17;
    work.ten = -power;
    exact_settle(&work);
    *digits = big_divide(&work.num, &work.den);
    return power;
}
