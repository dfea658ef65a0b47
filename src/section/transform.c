/* Transformed sections: parts of different moduli over one datum. */
#include "clench/section.h"

#include <assert.h>

/* Law: plane sections; A = sum n A, S = sum n A y, I = sum n (I + A d^2) (parallel axes). */
TransformedSection section_transform(const SectionPart *part, int part_count)
{
    double A = 0, S = 0, I = 0;
    for (int i = 0; i < part_count; i++) {
        A += part[i].modular_ratio_1 * part[i].area_m2;
        S += part[i].modular_ratio_1 * part[i].area_m2 * part[i].centroid_m;
    }
    assert(A > 0);
    const double centroid = S / A;
    for (int i = 0; i < part_count; i++) {
        const double d = part[i].centroid_m - centroid;
        I += part[i].modular_ratio_1 * (part[i].inertia_m4 + part[i].area_m2 * d * d);
    }
    return (TransformedSection){A, I, centroid};
}
