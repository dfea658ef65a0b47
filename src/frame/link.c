/* Links between the chains and struts across gaps: both are pairs of points on rigid arms. */
#include "clench/frame.h"

/* A point at height y of a node moves u - y theta. Slip plane: y = -deck_arm at D, +girder_arm at G. */
void frame_link_strain(LinkArms arms, int station, const double *x, double *slip, double *lift)
{
    const double *G = x + frame_unknown(station, 0, 0), *D = G + 3;
    *slip = (D[0] + arms.deck_arm_m * D[2]) - (G[0] - arms.girder_arm_m * G[2]);
    *lift = D[1] - G[1];
}

void frame_link_force(LinkArms arms, int station, double H, double V, double *nodal)
{
    double *G = nodal + frame_unknown(station, 0, 0), *D = G + 3;
    D[0] += H;
    D[1] += V;
    D[2] += arms.deck_arm_m * H;
    G[0] -= H;
    G[1] -= V;
    G[2] += arms.girder_arm_m * H;
}

double frame_strut_opening(const Strut *strut, const double *x)
{
    const double *left = x + frame_unknown(strut->left_station, 1, 0);
    const double *right = x + frame_unknown(strut->right_station, 1, 0);
    return (right[0] - strut->height_m * right[2]) - (left[0] - strut->height_m * left[2]);
}

void frame_strut_force(const Strut *strut, double force, double *nodal)
{
    double *left = nodal + frame_unknown(strut->left_station, 1, 0);
    double *right = nodal + frame_unknown(strut->right_station, 1, 0);
    left[0] -= force;
    left[2] += strut->height_m * force;
    right[0] += force;
    right[2] -= strut->height_m * force;
}
