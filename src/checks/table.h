/* Private to checks: the functions of the rows in table.c, one a file. */
#ifndef CLENCH_CHECKS_TABLE_H
#define CLENCH_CHECKS_TABLE_H

#include "clench/checks.h"

Status check_joints(const CheckCase *with, CheckList *list, Error *err);
Status check_deck_compression(const CheckCase *with, CheckList *list, Error *err);
Status check_steel_building(const CheckCase *with, CheckList *list, Error *err);
Status check_steel_service(const CheckCase *with, CheckList *list, Error *err);
Status check_steel_strength(const CheckCase *with, CheckList *list, Error *err);
Status check_concrete_stress(const CheckCase *with, CheckList *list, Error *err);
Status check_concrete_strength(const CheckCase *with, CheckList *list, Error *err);
Status check_ties(const CheckCase *with, CheckList *list, Error *err);
Status check_tie_fatigue(const CheckCase *with, CheckList *list, Error *err);
Status check_girder_negative(const CheckCase *with, CheckList *list, Error *err);
Status check_decompression(const CheckCase *with, CheckList *list, Error *err);
Status check_fatigue(const CheckCase *with, CheckList *list, Error *err);
Status check_splices(const CheckCase *with, CheckList *list, Error *err);
Status check_bearings(const CheckCase *with, CheckList *list, Error *err);
Status check_deflection(const CheckCase *with, CheckList *list, Error *err);
Status check_camber(const CheckCase *with, CheckList *list, Error *err);
Status check_seats(const CheckCase *with, CheckList *list, Error *err);
Status check_removal(const CheckCase *with, CheckList *list, Error *err);
Status check_anchor(const CheckCase *with, CheckList *list, Error *err);
Status check_connectors(const CheckCase *with, CheckList *list, Error *err);
Status check_details(const CheckCase *with, CheckList *list, Error *err);
Status check_jacks(const CheckCase *with, CheckList *list, Error *err);
Status check_closure(const CheckCase *with, CheckList *list, Error *err);
Status check_strips(const CheckCase *with, CheckList *list, Error *err);
Status check_wheel(const CheckCase *with, CheckList *list, Error *err);
Status check_handling(const CheckCase *with, CheckList *list, Error *err);
Status check_ends(const CheckCase *with, CheckList *list, Error *err);

#endif
