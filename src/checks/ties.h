/* Private to checks: the ties of tied piers. */
#ifndef CLENCH_CHECKS_TIES_H
#define CLENCH_CHECKS_TIES_H

#include "kit.h"

enum { TIE_LEVELS = 8 };
bool tie_is(const KitLine *k, int part);
/* Levels of ties of the element, top down as in the file; 0 where it is no tied pier. */
int ties_of(const KitLine *k, int element, int part[TIE_LEVELS]);
/* "x = 94.0 ft, ties 4 in below the girder top" */
const char *tie_words(const CheckCase *with, const KitLine *k, int part);
/* Adds phi by the strain e_t of the extreme ties; f_y, phi_t and e_t are given above. */
void tie_write_phi(Sheet *s);

#endif
