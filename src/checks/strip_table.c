/* AASHTO LRFD table A4-1, maximum live load moments per width, kip*ft/ft, multiple presence and impact
 * in. The whole table is from memory: confirm it on paper before a calculation is signed. */
#include "strip.h"

#include <math.h>

enum { ROWS = 13, PLACES = 7 };
/* clang-format off */
static const double place_in[PLACES] = {0, 3, 6, 9, 12, 18, 24};
static const struct { double S_ft, positive, negative[PLACES]; } table[ROWS] = {
    { 4.00, 4.68, { 2.68,  2.07,  1.74,  1.60, 1.50, 1.34, 1.25}},
    { 5.00, 4.65, { 3.74,  3.20,  2.66,  2.24, 1.83, 1.26, 1.12}},
    { 6.00, 4.83, { 4.88,  4.19,  3.50,  2.88, 2.31, 1.39, 1.07}},
    { 7.00, 5.21, { 5.98,  5.17,  4.36,  3.56, 2.84, 1.63, 1.37}},
    { 8.00, 5.69, { 6.48,  5.65,  4.81,  3.98, 3.43, 2.49, 2.16}},
    { 9.00, 6.29, { 6.81,  5.97,  5.13,  4.28, 3.71, 3.31, 3.00}},
    { 9.75, 6.74, { 7.51,  6.65,  5.80,  4.94, 4.21, 3.89, 3.58}},
    {10.00, 6.89, { 7.85,  6.99,  6.13,  5.26, 4.41, 4.09, 3.77}},
    {11.00, 7.46, { 9.14,  8.26,  7.38,  6.50, 5.62, 4.86, 4.52}},
    {12.00, 8.01, {10.28,  9.40,  8.51,  7.63, 6.74, 5.56, 5.21}},
    {13.00, 8.54, {11.31, 10.43,  9.55,  8.67, 7.79, 6.38, 5.86}},
    {14.00, 9.02, {12.24, 11.37, 10.50,  9.63, 8.76, 7.18, 6.45}},
    {15.00, 9.47, {13.09, 12.23, 11.37, 10.51, 9.65, 7.94, 7.02}},
};
/* clang-format on */

static const char source[] = "AASHTO LRFD table A4-1 (whole table from memory)";
static const double kip_N = 4448.2216152605; /* kip*ft/ft is a force: NIST SP 811 B.8 */

bool strip_covers(double spacing_m)
{
    const double S = quantity_in(spacing_m, "ft");
    return S >= table[0].S_ft - 1e-9 && S <= table[ROWS - 1].S_ft + 1e-9;
}

/* Row at or before S, so that the next one exists. */
static int row_of(double S)
{
    int i = 0;
    while (i < ROWS - 2 && table[i + 1].S_ft <= S) i++;
    return i;
}

static int give_rows(Sheet *s)
{
    const int i = row_of(sheet_value(s, "S"));
    sheet_given_from(s, "S_1", table[i].S_ft / quantity_in(1, "ft"), "ft", "row of the table",
                     source);
    sheet_given_from(s, "S_2", table[i + 1].S_ft / quantity_in(1, "ft"), "ft", "the next row",
                     source);
    return i;
}

static void between_rows(Sheet *s)
{
    sheet_formula(s, "M_L", "M_1 + (M_2 - M_1) (S - S_1) / (S_2 - S_1)", "kip*ft/ft",
                  "live load with impact and presence", "AASHTO LRFD A4 allows interpolation");
}

void strip_positive(Sheet *s)
{
    const int i = give_rows(s);
    sheet_given_from(s, "M_1", table[i].positive * kip_N, "kip*ft/ft", "of that row", source);
    sheet_given_from(s, "M_2", table[i + 1].positive * kip_N, "kip*ft/ft", "of the next", source);
    between_rows(s);
}

/* One row between its two places, as line `symbol`. */
static void along_row(Sheet *s, int row, int place, const char *symbol)
{
    sheet_given_from(s, "M_a", table[row].negative[place] * kip_N, "kip*ft/ft", "at x_a", source);
    sheet_given_from(s, "M_b", table[row].negative[place + 1] * kip_N, "kip*ft/ft", "at x_b",
                     source);
    sheet_formula(s, symbol, "M_a + (M_b - M_a) (min(x, 24 [in]) - x_a) / (x_b - x_a)", "kip*ft/ft",
                  "of that row", "AASHTO LRFD A4 allows interpolation");
}

void strip_negative(Sheet *s)
{
    const double x = sheet_value(s, "x");
    int place = 0;
    while (place < PLACES - 2 && place_in[place + 1] <= x) place++;
    const int i = give_rows(s);
    sheet_given_from(s, "x_a", place_in[place] / quantity_in(1, "in"), "in", "place of the table",
                     "AASHTO LRFD table A4-1 (from memory)");
    sheet_given_from(s, "x_b", place_in[place + 1] / quantity_in(1, "in"), "in", "the next place",
                     "AASHTO LRFD table A4-1 (from memory)");
    along_row(s, i, place, "M_1");
    along_row(s, i + 1, place, "M_2");
    between_rows(s);
}
