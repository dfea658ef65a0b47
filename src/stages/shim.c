/* The law of one link: contact that lifts, friction that reverses, or bond. */
#include <math.h>

#include "march.h"

/* A sliding or open link keeps this share of its stiffness in the tangent only, never in its force:
 * a deck that slides as a whole stays solvable. */
static const double tangent_left = 1e-7;

static ShimState bonded(const Link *link, const ShimState *start, double slip, double lift)
{
    ShimState end = *start;
    end.now.H_N += link->bond_horizontal_N_per_m * slip;
    end.now.V_N += link->bond_vertical_N_per_m * lift;
    end.now.slip_m += slip;
    return end;
}

/* Return map: elastic trial, then friction takes no more than its present capacity. The contact's
 * own measure z = V/k + gape moves with the lift; z < 0 presses, z > 0 gapes. */
ShimState shim_trial(const Link *link, const ShimState *start, double slip, double lift)
{
    if (start->now.state == LINK_BONDED) return bonded(link, start, slip, lift);
    ShimState end = *start;
    const double kv = link->shim_vertical_N_per_m, kx = link->shim_horizontal_N_per_m;
    const double z = start->now.V_N / kv + start->now.lift_m + lift;
    end.now.slip_m += slip;
    if (link->two_way) {
        end.now.V_N = kv * z;
    } else {
        end.now.V_N = kv * fmin(z, 0);
        end.now.lift_m = fmax(z, 0);
        if (z > 0) {
            end.now.H_N = 0;
            end.now.state = LINK_OPEN;
            return end;
        }
    }
    const double capacity = !start->friction         ? 0
                            : link->initial_capacity ? start->capacity_N
                                                     : link->friction_1 * fmax(-end.now.V_N, 0);
    const double trial = start->now.H_N + kx * slip;
    const bool slides = fabs(trial) > capacity || capacity == 0;
    end.now.H_N = slides ? copysign(capacity, trial) : trial;
    end.now.state = slides ? LINK_SLIDE : LINK_STICK;
    return end;
}

void shim_tangent(const Link *link, const ShimState *state, double *H_slip, double *H_lift,
                  double *V_lift)
{
    const double kv = link->shim_vertical_N_per_m, kx = link->shim_horizontal_N_per_m;
    *H_lift = 0;
    switch ((LinkMode)state->now.state) {
    case LINK_BONDED:
        *H_slip = link->bond_horizontal_N_per_m;
        *V_lift = link->bond_vertical_N_per_m;
        return;
    case LINK_STICK:
        *H_slip = kx;
        *V_lift = kv;
        return;
    case LINK_SLIDE: /* |H| = mu (-V), V = kv lift: dH = -sgn(H) mu kv dlift */
        *H_slip = tangent_left * kx;
        *V_lift = kv;
        if (state->friction && !link->initial_capacity && state->now.H_N != 0)
            *H_lift = -copysign(link->friction_1, state->now.H_N) * kv;
        return;
    case LINK_OPEN:
    case LINK_NONE:
        *H_slip = tangent_left * kx;
        *V_lift = tangent_left * kv;
        return;
    }
}
