/* The raw model of one girder line of a unit while it is being built. */
#ifndef CLENCH_BRIDGE_MODEL_H
#define CLENCH_BRIDGE_MODEL_H

#include "layout.h"

/* Phases of birth. The support phase has no parts: released bearings hold from it on. */
typedef enum Phase {
    PHASE_GIRDER,
    PHASE_DECK,
    PHASE_CLOSURE,
    PHASE_FILL,
    PHASE_TIES,
    PHASE_DIAPHRAGM,
    PHASE_SUPPORT
} Phase;

typedef enum MaterialRole {
    ROLE_GIRDER,
    ROLE_STRAND,
    ROLE_PANEL_1,
    ROLE_PANEL_2,
    ROLE_CLOSURE,
    ROLE_FILL,
    ROLE_TIE,
    ROLE_DIAPHRAGM,
    ROLE_COUNT
} MaterialRole;

enum { DIAPHRAGM_STRIPS = 8, PIECES_MAX = 64 };

typedef struct Builder {
    const Bridge *bridge;
    const Unit *unit;
    Arena *arena;
    Mesh mesh;
    bool exterior;
    double width_m;     /* of the deck on this line */
    double thickness_m; /* that carries */
    int piece_count;    /* different girder sections: plates' pieces, or one */
    BeamSection piece[PIECES_MAX];
    double piece_weight_N_per_m[PIECES_MAX];
    double haunch_width_m[PIECES_MAX];
    int material_of[ROLE_COUNT]; /* index, -1: not used */
    Material material[ROLE_COUNT];
    int material_count;
    PartSection *section;
    int section_count, section_room;
    Part *part;
    int part_count, part_room;
    Support *support;
    int support_count;
    Link *link;
    Gap *gap;
    Event *event;
    int event_count, event_room;
} Builder;

/* The girder's sections with their weights, from the left of the bridge. */
Status model_pieces(Builder *builder, Error *err);
/* Piece at x of the unit, -1 between the ends of tied girders. */
int model_piece(const Builder *builder, double x_m);
ConcreteMix model_mix(const Bridge *bridge, ConcretePart part);

void model_materials(Builder *builder);
void model_parts(Builder *builder);
Status model_supports(Builder *builder, Error *err);
void model_links(Builder *builder);
void model_events(Builder *builder, double thrust_N);

/* Local bending across a joint under a wheel: fibre stresses, tension positive, both >= 0. */
typedef struct WheelStress {
    double top_Pa, bottom_Pa;
} WheelStress;
WheelStress model_wheel(const Bridge *bridge);

/* Joint rules, upper limits and live load of a line. */
const JointRule *model_rules(const Bridge *bridge, Arena *arena);
void model_limits(const Builder *builder, BridgeLine *line);
Status model_live(const Builder *builder, BridgeLine *line, Error *err);

#endif
