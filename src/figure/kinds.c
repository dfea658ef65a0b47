/* The tables of pictures, one row a picture, and what a picture looks at. */
#include <assert.h>

#include "page.h"

static const FigureKindRow paper[] = {
    {"bridge", "The bridge and its stages", figure_bridge},
    {"deck", "Stress of the deck", figure_deck},
    {"window", "Window of the thrust", figure_window},
    {"split", "What became of the compression", figure_split},
    {"map", "Margin through the life", figure_map},
    {"gap", "Force and opening of the gap", figure_gap},
};

static const FigureKindRow page[] = {
    {"bridge", "Elevation", page_bridge},
    {"plan", "Plan of the deck", page_plan},
    {"deck", "Stress of the deck", figure_deck},
    {"map", "Margin through the life", figure_map},
    {"joint", "History of a joint", page_joint},
    {"split", "What ate the compression", figure_split},
    {"window", "Window of the thrust", page_window},
};

int figure_kind_count(void) { return (int)(sizeof paper / sizeof *paper); }

const FigureKindRow *figure_kind(int index)
{
    assert(index >= 0 && index < figure_kind_count());
    return &paper[index];
}

int figure_page_count(void) { return (int)(sizeof page / sizeof *page); }

const FigureKindRow *figure_page(int index)
{
    assert(index >= 0 && index < figure_page_count());
    return &page[index];
}

FigureView figure_paper(const LineAnswer *line, UnitSystem units, double width_px)
{
    return (FigureView){.line = line, .units = units, .width_px = width_px, .joint = -1};
}

int figure_joint(const FigureView *view)
{
    const int count = view->line->line->joint_count;
    if (view->page && view->joint >= 0 && view->joint < count) return view->joint;
    return view->line->finish.joint < count ? view->line->finish.joint : -1;
}

const char *figure_pick(const FigureView *view, Arena *arena, int joint, int time)
{
    if (!view->page) return NULL;
    if (time < 0) return arena_printf(arena, "joint:%d", joint);
    if (joint < 0) return arena_printf(arena, "time:%d", time);
    return arena_printf(arena, "joint:%d time:%d", joint, time);
}
