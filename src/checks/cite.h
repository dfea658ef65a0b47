/* Private to checks: stresses of live load and gradients that rows cite from workings of their own. */
#ifndef CLENCH_CHECKS_CITE_H
#define CLENCH_CHECKS_CITE_H

#include "kit.h"

/* What is cited: a fibre under one lane of `load`, or under `gradient` where load is NULL. */
typedef struct Cite {
    const KitLine *k;
    StageEffect effect;
    bool late; /* structure at the end of life, else at opening */
    const LiveLoad *load;
    const Gradient *gradient;
    int sign;     /* of live load: largest (+1) or smallest (-1) stress */
    int positive; /* what is written positive: tension (+1) or compression (-1) */
} Cite;

/* Adds `symbol`, the stress, with the mark of its working as source. Each working is made once. */
void cite_stress(Sheet *sheet, const CheckCase *with, const Cite *cite, const char *symbol,
                 const char *words);
/* Adds f_TG, the gradient's stress; 0 where `gradient` is NULL: none counts, or it relieves. */
void cite_gradient(Sheet *sheet, const CheckCase *with, const Cite *cite);
/* The workings that were cited, in the order of their marks. */
void cite_all(const CheckCase *with, CheckList *list);

#endif
