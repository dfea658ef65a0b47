/* The one table of checks: a check is a file and a row here. */
#include "table.h"

/* clang-format off */
const Check checks_table[] = {
    {"joints", "joint",
     "every rule of the file at every joint, both fibres and all times in service", check_joints},
    {"deck compression", "deck",
     "panels while jacked, under permanent loads and in service", check_deck_compression},
};
/* clang-format on */
const int checks_count = (int)(sizeof checks_table / sizeof *checks_table);

const char *const checks_left_out[] = {
    "seismic design, vessel or vehicle collision, and fire",
    "the stability of girders during their own lifting and transport",
    "substructures and foundations, beyond the reactions that are told",
    "girder webs in shear, stiffeners, and steel connections other than flange splices",
    "skew and horizontal curvature",
    NULL};
