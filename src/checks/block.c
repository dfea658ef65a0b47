/* The stress block of concrete, for all checks that bend a section to its strength. Above 10 ksi it has less
 * than 0.85 f'c. */
#include "block.h"

#include <math.h>

static const char source[] = "AASHTO LRFD 5.6.2.2, 8th edition (from memory)";

double block_stress_1(double fc_Pa)
{
    return fmax(0.75, fmin(0.85, 0.85 - 0.02 * (quantity_in(fc_Pa, "ksi") - 10)));
}

double block_depth_1(double fc_Pa)
{
    return fmax(0.65, fmin(0.85, 0.85 - 0.05 * (quantity_in(fc_Pa, "ksi") - 4)));
}

void block_give(Sheet *sheet, double fc_Pa, bool depth)
{
    sheet_given_from(sheet, "f'k", fc_Pa, "ksi", "f'c as the clause has it", "f'c above, in ksi");
    sheet_empirical(sheet, "a_1", "max(0.75, min(0.85, 0.85 - 0.02 (f'k - 10)))", "",
                    "stress of the block over f'c", source);
    if (depth)
        sheet_empirical(sheet, "b_1", "max(0.65, min(0.85, 0.85 - 0.05 (f'k - 4)))", "",
                        "depth of the block over that of the neutral axis", source);
}
