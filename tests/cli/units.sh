# tools/check-units asks for a unit on each double of a header, and finds it where it may stand.
cat >good.h <<'END'
/* A door. */
typedef struct Good {
    double depth_m, width_m[16], E_Pa;
    const double *load_N_per_m;
    double (*zone_m)[2];
    double value; /* unit: Pa or N, as
                   * the kind says */
    double x_1, per_K_ratio;
    int count;
} Good;
/* unit: all members in the
 * user's own */
typedef struct Told {
    double a, b;
} Told;
#define DOUBLE(x) double x
double good_area_m2(double depth_m, const double *work);
double good_other(double value_SI, /* unit: of the second argument */
                  const char *unit);
/* Sums. unit: of the field. */
void good_sum(const double *field, double *integral);
static inline double good_inline_m(double depth_m)
{
    const double a = depth_m, b = a;
    if (a > 0) {
        const double c = b;
    }
    return a + b;
}
END
"$ROOT/tools/check-units" good.h && echo accepted
cat >bad.h <<'END'
/* unit: this speaks for nothing below the empty line */

typedef struct Bad {
    double depth_m, width;
    double *load[4];
    /* unit: none */
    double fine;
    double next;
} Bad;
static inline double bad_inline(double depth_m)
{
    return depth_m;
}
double bad_area(double depth_m, double (*point)[2], int x);
END
"$ROOT/tools/check-units" bad.h
