/* Wheels on a cross-section: lever rule and rigid cross-section. Private to traffic. */
#ifndef CLENCH_TRAFFIC_LANES_H
#define CLENCH_TRAFFIC_LANES_H

/* Cross-section in feet, as AASHTO LRFD chapter 4 writes it. */
typedef struct Deck {
    int girder_count, lane_count;
    double spacing_ft;
    double curb_ft; /* de: from the exterior girder out to the face of the barrier */
    double lane_ft; /* width of a design lane */
} Deck;

/* Design lanes of a roadway, AASHTO LRFD 3.6.1.1.1. */
void lanes_count(double roadway_ft, int *lane_count, double *lane_ft);
/* Multiple presence in. One loaded lane up to `most` (at most all of them), the worst counts. */
double lanes_lever_exterior(const Deck *deck, int most);
double lanes_lever_interior(const Deck *deck, int most);
double lanes_rigid_exterior(const Deck *deck);

#endif
