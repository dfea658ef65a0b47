#include "lanes.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>

#include "clench/traffic.h"

/* AASHTO LRFD 3.6.1.2.2 and figure 3.6.1.2.2-1: wheels 6 ft apart; 3.6.1.3.1: 2 ft from the edge of
 * the lane, so that wheels of neighbouring trucks come as near as 4 ft. */
static const double gauge_ft = 6, edge_ft = 2;

/* AASHTO LRFD table 3.6.1.1.2-1; more than three lanes alike. */
double traffic_presence_1(int lanes)
{
    static const double m[4] = {1.20, 1.00, 0.85, 0.65};
    assert(lanes >= 1);
    return m[lanes < 4 ? lanes - 1 : 3];
}

void lanes_count(double roadway_ft, int *lane_count, double *lane_ft)
{
    const bool two_narrow = roadway_ft >= 20 && roadway_ft < 24; /* each half of the roadway */
    *lane_count = two_narrow ? 2 : (int)fmax(1, floor(roadway_ft / 12 + 1e-9));
    *lane_ft = two_narrow ? roadway_ft / 2 : fmin(12, roadway_ft);
}

int traffic_lane_count(double roadway_m)
{
    int count;
    double lane_ft;
    lanes_count(quantity_in(roadway_m, "ft"), &count, &lane_ft);
    return count;
}

/* ---- lever rule, AASHTO LRFD C4.6.2.2.1: deck hinged at every interior girder ---- */

/* Share of a wheel line (half a lane) that the exterior girder takes: straight from 0 at the first
 * interior girder through 1 at the exterior one and beyond. */
static double exterior_share(const Deck *d, double from_curb)
{
    return fmax(0, d->spacing_ft + d->curb_ft - from_curb) / d->spacing_ft / 2;
}

double lanes_lever_exterior(const Deck *d, int most)
{
    double sum = 0, worst = 0;
    for (int lane = 0; lane < d->lane_count && lane < most; lane++) {
        const double wheel = lane * d->lane_ft + edge_ft;
        sum += exterior_share(d, wheel) + exterior_share(d, wheel + gauge_ft);
        worst = fmax(worst, traffic_presence_1(lane + 1) * sum);
    }
    return worst;
}

static double interior_share(const Deck *d, double from_girder)
{
    return fmax(0, 1 - fabs(from_girder) / d->spacing_ft) / 2;
}

/* Two trucks as near as their lanes allow, a third in its own lane; some wheel on the girder, since
 * the share is straight between girders. Curbs are not looked at: the conservative side. */
double lanes_lever_interior(const Deck *d, int most)
{
    const double near = fmax(d->lane_ft - 2 * edge_ft - gauge_ft, 0); /* play of a truck */
    const double truck[3] = {0, d->lane_ft - near, 2 * d->lane_ft - near};
    double worst = 0;
    for (int lanes = 1; lanes <= d->lane_count && lanes <= most && lanes <= 3; lanes++)
        for (int on_girder = 0; on_girder < 2 * lanes; on_girder++) {
            const double at = truck[on_girder / 2] + on_girder % 2 * gauge_ft;
            double sum = 0;
            for (int i = 0; i < lanes; i++)
                sum +=
                    interior_share(d, truck[i] - at) + interior_share(d, truck[i] + gauge_ft - at);
            worst = fmax(worst, traffic_presence_1(lanes) * sum);
        }
    return worst;
}

/* ---- rigid cross-section, AASHTO LRFD C4.6.2.2.2d-1 ---- */

double lanes_rigid_exterior(const Deck *d)
{
    const double Nb = d->girder_count, S = d->spacing_ft;
    const double Xext = (Nb - 1) * S / 2;
    const double sum_x2 = S * S * Nb * (Nb * Nb - 1) / 12; /* closed form: equal spacing */
    double sum_e = 0, worst = 0;
    for (int lane = 0; lane < d->lane_count; lane++) {
        const int NL = lane + 1;
        sum_e += Xext + d->curb_ft - lane * d->lane_ft - edge_ft - gauge_ft / 2;
        const double R = NL / Nb + Xext * sum_e / sum_x2;
        worst = fmax(worst, traffic_presence_1(NL) * R);
    }
    return worst;
}
