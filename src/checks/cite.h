/* Private to checks: effects of live load and stresses of gradients that rows cite from workings of their own. */
#ifndef CLENCH_CHECKS_CITE_H
#define CLENCH_CHECKS_CITE_H

#include "kit.h"

/* What is cited: an effect or a fibre's stress under one lane of `load`, or under `gradient` where load is
 * NULL. */
typedef struct Cite {
    const KitLine *k;
    const LiveEffect *other; /* NULL: a fibre's stress, `effect` */
    StageEffect effect;
    bool late;        /* structure at the end of life, else at opening */
    LiveLines *lines; /* NULL: of that moment as usual; else without live load on it */
    const LiveLoad *load;
    const Gradient *gradient;
    int sign;     /* of live load: largest (+1) or smallest (-1) value */
    int positive; /* what is written positive: as the effect (+1), or against it (-1) */
} Cite;

/* Adds `symbol`, the stress, with the mark of its working as source. Each working is made
 * once. */
void cite_stress(Sheet *sheet, const CheckCase *with, const Cite *cite, const char *symbol,
                 const char *words);
/* The same of another effect, in `unit`. */
void cite_effect(Sheet *sheet, const CheckCase *with, const Cite *cite, const char *symbol,
                 const char *unit, const char *words);
/* Adds f_TG, the gradient's stress; 0 where `gradient` is NULL: none counts, or it relieves. */
void cite_gradient(Sheet *sheet, const CheckCase *with, const Cite *cite);
/* The workings that were cited, in the order of their marks. */
void cite_all(const CheckCase *with, CheckList *list);

/* ---- cite_work.c: the workings ---- */

void cite_write_live(const CheckCase *with, const LiveWorking *working, Sheet *sheet);
void cite_write_effect(const CheckCase *with, const LiveWorking *working, Sheet *sheet);
void cite_write_gradient(const CheckCase *with, const GradientWorking *working, Sheet *sheet);

#endif
