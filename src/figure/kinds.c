/* The table of pictures: one row a picture. */
#include <assert.h>

#include "clench/figure.h"

static const FigureKindRow row[] = {
    {"bridge", figure_bridge}, {"deck", figure_deck}, {"window", figure_window},
    {"split", figure_split},   {"map", figure_map},   {"gap", figure_gap},
};

int figure_kind_count(void) { return (int)(sizeof row / sizeof *row); }

const FigureKindRow *figure_kind(int index)
{
    assert(index >= 0 && index < figure_kind_count());
    return &row[index];
}
