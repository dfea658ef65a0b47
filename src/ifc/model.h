/* The model while it is written. Private to ifc. */
#ifndef CLENCH_IFC_MODEL_H
#define CLENCH_IFC_MODEL_H

#include "step.h"

/* Elements of one part of the bridge, or of one assembly. */
typedef struct Members {
    int *id;
    int count, room;
} Members;

/* Where an element stands: its origin and the direction of its x in plan. */
typedef struct ModelPlace {
    double x_m, y_m, z_m, heading_rad;
} ModelPlace;

typedef struct Model {
    Step step;
    const Bridge *bridge;
    const PanelPlan *plan;
    IfcSummary *summary;
    double thickness_m, haunch_m,
        radius_m;        /* radius: signed, positive: centre to the left; 0: straight */
    double skew_all_rad; /* of all joints; 0: ends alone */
    int body, axis;      /* contexts of representations */
    int origin;          /* IfcAxis2Placement3D at the origin */
    int deck, superstructure, substructure; /* parts */
    int deck_place, superstructure_place, substructure_place;
    Members on_deck, of_superstructure;
    Members panel_material, cast_material, girder_material;
    int note_room;
    const char **note;
} Model;

typedef struct Point2 {
    double x_m, y_m;
} Point2;

/* ---- ifc.c ---- */
double model_value(const Model *model, const char *path); /* NAN: open */
const char *model_words(const Model *model, const char *path);
void model_note(Model *model, const char *note);
void members_add(Model *model, Members *members, int id);
/* Station along the bridge, across to the left; level of the deck's top is 0. */
ModelPlace model_place(const Model *model, double station_m, double left_m, double z_m);

/* ---- project.c ---- */
void project_write(Model *model);
void project_close(Model *model); /* what is where, materials */
/* Properties: name and value, "IFCLABEL('A')", in pairs. */
void model_properties(Model *model, int element, const char *mark, const char *set,
                      const char *const (*property)[2], int count);
void model_aggregate(Model *model, const char *mark, int whole, const Members *part);

/* ---- shapes.c ---- */
int shape_place(Model *model, int parent, ModelPlace place);
int shape_outline(Model *model, const Point2 *point, int count, const Point2 (*hole)[4], int holes);
/* A prism over a profile, from its plane up. */
int shape_prism(Model *model, int profile, double height_m);
/* The same along x: profile x is to the left, profile y up. */
int shape_along(Model *model, int profile, double length_m);
int shape_clip_roof(Model *model, int solid, double ridge_m, double rise_1);
int shape_product(Model *model, int solid, bool clipped);
int shape_line(Model *model, const double (*point_m)[3], int count); /* an axis */

/* ---- deck.c, girders.c ---- */
void deck_write(Model *model);
Status girders_write(Model *model, Error *err);

#endif
