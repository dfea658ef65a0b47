/* The one table of checks: a check is a file and a row here. */
#include "table.h"

/* clang-format off */
const Check checks_table[] = {
    {"joints", "joint",
     "every rule of the file at every joint, both fibres and all times in service", check_joints},
    {"deck compression", "deck",
     "panels while jacked, under permanent loads and in service", check_deck_compression},
    {"steel girders while building", "girder",
     "both flanges at every stage: yield, local and lateral buckling, bend buckling of the web",
     check_steel_building},
    {"steel girders in service", "girder",
     "both flanges under Service II, and fatigue of their details", check_steel_service},
    {"strength of steel girders", "girder",
     "plastic moment of the composite section with its ductility; the steel alone over the piers",
     check_steel_strength},
    {"anchor panels", "anchor panel",
     "connectors for the factored thrust, their group, the inner edge held down, the tie between girders",
     check_anchor},
    {"connectors", "deck",
     "pockets in strength and fatigue, full composite action, connectors of anchor panels in service",
     check_connectors},
    {"details of connectors", "deck",
     "spacing, rows, edge, reach into the panel, cover and least area", check_details},
    {"jacks on the panel", "jacks",
     "bearing, bursting and spalling behind jacks, their height, one of them out", check_jacks},
    {"closure", "deck", "strength and stress of the closure when the jacks are released",
     check_closure},
    {"strips", "panel", "the panel across the bridge: between and over girders, and the overhang",
     check_strips},
    {"wheel", "joint", "local bending along the bridge under a wheel that stands on a joint",
     check_wheel},
    {"handling", "panel", "lifting off the bed and onto the girders, inserts, road, crane",
     check_handling},
    {"ends", "bearing", "clearance at the unit's ends, movement at bearings, what they hold",
     check_ends},
};
/* clang-format on */
const int checks_count = (int)(sizeof checks_table / sizeof *checks_table);

const char *const checks_left_out[] = {
    "seismic design, vessel or vehicle collision, and fire",
    "the stability of girders during their own lifting and transport",
    "substructures and foundations, beyond the reactions that are told",
    "girder webs in shear, stiffeners, and steel connections other than flange splices",
    "skew and horizontal curvature",
    "vehicles against the barrier: the overhang is looked at without collision",
    "width of cracks, punching and shear of the panel across the bridge; panels prestressed across "
    "it",
    "breakout of connectors in tension, and slip of an anchor panel under sustained thrust",
    "web and stiffeners of the girder under the force of an anchor panel",
    NULL};
