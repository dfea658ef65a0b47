/* Private to checks: a stress of the stages worked out from the forces of its part. */
#ifndef CLENCH_CHECKS_FIBRE_H
#define CLENCH_CHECKS_FIBRE_H

#include "kit.h"

typedef struct Fibre {
    Chain chain;
    int station, side, time;
    bool top;
} Fibre;

/* Adds N, M, A, I and y of the part beside the station and `symbol` = N / A + M y / I, of which the
 * stages made their stress: so the line gives that stress. sign -1: compression positive. */
void fibre_write(Sheet *sheet, const CheckCase *with, const KitLine *k, const Fibre *at,
                 const char *symbol, int sign, const char *words);
/* The same for the mean over the part, N / A. */
void fibre_write_mean(Sheet *sheet, const CheckCase *with, const KitLine *k, const Fibre *at,
                      const char *symbol, int sign, const char *words);

#endif
