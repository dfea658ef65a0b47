/* Pictures that a page has and paper has not: rows of figure_page. Private to figure. */
#ifndef CLENCH_FIGURE_PAGE_H
#define CLENCH_FIGURE_PAGE_H

#include "clench/figure.h"

Figure *page_bridge(const FigureView *view, Arena *arena); /* at one moment */
Figure *page_plan(const FigureView *view, Arena *arena);
Figure *page_joint(const FigureView *view, Arena *arena);  /* its history */
Figure *page_window(const FigureView *view, Arena *arena); /* of the whole deck, as one bar */

#endif
