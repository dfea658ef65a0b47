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
    PHASE_SUPPORT,
    PHASE_POUR = 32,   /* and on: pours of a cast deck */
    PHASE_TENDON = 128 /* and on: groups of tendons */
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
    ROLE_JOINT,  /* UHPC between panels */
    ROLE_TENDON, /* strand along the deck */
    ROLE_BARS,   /* along a cast deck */
    ROLE_COUNT
} MaterialRole;

enum { DIAPHRAGM_STRIPS = 8, PIECES_MAX = 64, POURS_MAX = 48 };

/* A stretch of a cast deck, from the unit's left end. */
typedef struct Pour {
    double from_m, to_m, day; /* day: of casting */
} Pour;

typedef struct Builder {
    const Bridge *bridge;
    const Unit *unit;
    Arena *arena;
    Mesh mesh;
    bool exterior;
    WayWish wish;
    double composite_day; /* the whole deck is one with the girders from here on */
    int pour_count;
    const Pour *pour;
    int pour_material[POURS_MAX];
    const LineTendons *tendons;
    double width_m;     /* of the deck on this line */
    double thickness_m; /* that carries */
    int piece_count;    /* different girder sections: plates' pieces, or one */
    BeamSection piece[PIECES_MAX];
    double piece_weight_N_per_m[PIECES_MAX];
    double haunch_width_m[PIECES_MAX];
    int material_of[ROLE_COUNT]; /* index, -1: not used */
    Material material[ROLE_COUNT + POURS_MAX];
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
PlateGirder model_plate(const Bridge *bridge, const PlateData *plate);
/* Piece at x of the unit, -1 between the ends of tied girders. */
int model_piece(const Builder *builder, double x_m);
ConcreteMix model_mix(const Bridge *bridge, ConcretePart part);

void model_materials(Builder *builder);
void model_parts(Builder *builder);
Status model_supports(Builder *builder, Error *err);
void model_links(Builder *builder);
void model_events(Builder *builder, double thrust_N);

/* ---- what parts.c and events.c lend to ways.c ---- */
Material model_concrete(const Bridge *bridge, ConcretePart part, const char *name, double cast_day);
void model_add_material(Builder *builder, MaterialRole role, Material material);
int model_add_section(Builder *builder, PartSection section);
void model_add_part(Builder *builder, Part part);
PartSection model_slab(const Builder *builder, double fraction_1);
Event *model_add_event(Builder *builder, double day, EventKind kind, Cause cause, const char *name);
void model_add_load(Builder *builder, double day, Cause cause, Chain chain, double load_N_per_m,
                    int from, int to);
/* The haunches' weight between two stations. */
void model_add_haunch(Builder *builder, double day, Cause cause, int from, int to);
double model_deck_weight_N_per_m(const Builder *builder);

/* ---- ways.c: the ways without jacks ---- */
/* Pours or tendons of the line; the day from which deck and girders are one. */
Status way_start(Builder *builder, Error *err);
/* Stations that the way needs besides those of all: where to put them, at most 2 * POURS_MAX + 2 a joint. */
int way_places(const Unit *unit, Way way, double *x_m);
void way_materials(Builder *builder);
void way_deck(Builder *builder);
void way_tendons(Builder *builder); /* events from the closed joints on */
void way_pours(Builder *builder);   /* events up to the composite deck */
/* Rules, names of moments and faces of joints of the line. */
void way_dress(const Builder *builder, BridgeLine *line, Joint *joint);

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
