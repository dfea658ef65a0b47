/* Names, units, and lines in words. */
#include <math.h>
#include <string.h>

#include "clench/takeoff.h"

const char *takeoff_group_name(TakeoffGroup group)
{
    static const char *const name[] = {
#define X(id, words) words,
        TAKEOFF_GROUP_LIST(X)
#undef X
    };
    return name[group];
}

const char *takeoff_unit(UnitSystem units, DimensionId dimension, double size_SI)
{
    const bool us = units == UNITS_US;
    switch (dimension) {
    case DIM_NONE: return "";
    case DIM_AREA:
        if (fabs(size_SI) < 0.05) return us ? "in^2" : "mm^2";
        return us ? "ft^2" : "m^2";
    case DIM_VOLUME: return us ? "ft^3" : "m^3";
    case DIM_LENGTH: return quantity_shown_unit(units, dimension, size_SI);
    default: return quantity_unit(units, dimension);
    }
}

const char *takeoff_left_out(void)
{
    return "Not counted: longitudinal bars, laps, hooks, chairs and bars that the file does not "
           "name; "
           "bolts' seats and lifting inserts; diaphragms, ties, bracing, bearings, piers and "
           "abutments; expansion joints, drains, rails and lights; pumps, hoses, gauges and "
           "packing "
           "of the jacks; falsework, traffic and labour.";
}

const char *takeoff_print_unit(const char *unit, Arena *arena)
{
    Text text = text_start(arena);
    for (const char *at = unit; *at; at++) {
        const bool raised = *at == '^' && (at[1] == '2' || at[1] == '3');
        if (raised)
            text_add(&text, *++at == '2' ? "\xC2\xB2" : "\xC2\xB3");
        else
            text_addn(&text, at, 1);
    }
    return text.bytes;
}

const char *takeoff_reckoned(const TakeoffLine *line, UnitSystem units, bool plain, Arena *arena)
{
    Text text = text_start(arena);
    for (int i = 0; i < line->factor_count; i++) {
        const TakeoffFactor *f = &line->factor[i];
        const char *unit = takeoff_unit(units, f->dimension, f->value);
        const double value = *unit ? quantity_in(f->value, unit) : f->value;
        if (!plain) unit = takeoff_print_unit(unit, arena);
        text_printf(&text, "%s%.6g%s%s %s",
                    !i      ? ""
                    : plain ? " x "
                            : " \xC3\x97 ",
                    value, *unit ? " " : "", unit, f->name);
    }
    return text.bytes;
}
