/* Names and numbers as people see them. */
#include <math.h>

#include "look.h"

const char *site_call_name(SiteCall call)
{
    static const char *const name[] = {"go on", "read again", "hold", "stop"};
    return name[call];
}

const char *site_phase_name(SitePhase phase)
{
    static const char *const name[SITE_PHASES] = {"pump", "held", "back", "nuts", "reset"};
    return name[phase];
}

const char *site_kind_name(SiteKind kind)
{
    static const char *const name[SITE_KINDS] = {
        "reading that cannot be",
        "reading not complete",
        "pressure beyond the jacks",
        "force beyond the step",
        "too little movement",
        "too much movement",
        "slope flatter than the plan",
        "slope steeper than the plan",
        "slope became flatter",
        "slope became steeper",
        "one side ahead",
        "sets apart",
        "gauge and load cell apart",
        "force falls in the hold",
        "force rises in the hold",
        "stroke runs out",
        "anchor panel slips",
        "deck and girders apart in temperature",
        "girder or bearing off the plan",
        "one dial off",
        "temperature changes too fast",
    };
    return name[kind];
}

const char *site_cause_name(SiteCause cause)
{
    static const char *const name[SITE_CAUSE_COUNT] = {
        "friction at the shims",
        "a bearing is locked",
        "an anchor panel slips",
        "a joint crushes",
        "a bolted splice slips",
        "stiffness of the girders",
        "modulus of the panels",
        "a jack shut, stuck or off the middle",
        "gauge reads low",
        "gauge reads high",
        "deck warmer or colder than the girders",
        "a leak",
        "a joint that was open, or set too early",
        "misread or mistyped",
        "nuts or packing that give",
    };
    return name[cause];
}

const char *say_force(const Look *look, double force_N)
{
    const char *unit = quantity_unit(look->day->units, DIM_FORCE);
    return arena_printf(look->arena, "%.0f %s", quantity_in(force_N, unit), unit);
}

const char *say_move(const Look *look, double move_m)
{
    const bool us = look->day->units == UNITS_US;
    const char *unit = us ? "in" : "mm";
    return arena_printf(look->arena, us ? "%.3f %s" : "%.1f %s", quantity_in(move_m, unit), unit);
}

const char *say_pressure(const Look *look, double pressure_Pa)
{
    const bool us = look->day->units == UNITS_US;
    const char *unit = us ? "psi" : "MPa";
    return arena_printf(look->arena, us ? "%.0f %s" : "%.2f %s", quantity_in(pressure_Pa, unit),
                        unit);
}

const char *say_kelvin(const Look *look, double difference_K)
{
    const bool us = look->day->units == UNITS_US;
    return arena_printf(look->arena, "%.1f \xC2\xB0%c",
                        quantity_in(difference_K, us ? "delta_degF" : "delta_degC"),
                        us ? 'F' : 'C');
}
