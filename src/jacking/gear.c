/* The jacks: as the file gives them, else proposed; where they stand; pressure and force. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "work.h"

double jack_force_N(const JackGear *gear, double pressure_Pa)
{
    return gear->zero_N + gear->slope_m2 * pressure_Pa;
}

double jack_pressure_Pa(const JackGear *gear, double force_N)
{
    return fmax(0, (force_N - gear->zero_N) / gear->slope_m2);
}

/* Gauge (of full scale) and calibration line (of the force), independent of each other. */
double jack_force_error_N(const JackGear *gear, double force_N)
{
    const double gauge_N = gear->count * gear->slope_m2 * gear->accuracy_1 * gear->range_Pa;
    return hypot(gauge_N, gear->off_1 * force_N);
}

static const BridgeValue *value_at(const Work *work, const char *path)
{
    const BridgeValue *value = bridge_value_at(work->wish->bridge, path);
    assert(value);
    return value;
}

double jack_value(const Work *work, const char *path) { return value_at(work, path)->value; }

static const BridgeValue *item_at(const Work *work, const char *list, int index, const char *key)
{
    char path[96];
    snprintf(path, sizeof path, "%s[%d]%s%s", list, index, key[0] ? "." : "", key);
    return bridge_value_at(work->wish->bridge, path);
}

double jack_value_in(const Work *work, const char *list, int index, const char *key)
{
    const BridgeValue *value = item_at(work, list, index, key);
    assert(value);
    return value->value;
}

int jack_list_count(const Work *work, const char *list, const char *key)
{
    int count = 0;
    while (item_at(work, list, count + 1, key)) count++;
    return count;
}

static const char *words_at(const Work *work, const char *path)
{
    const char *text = value_at(work, path)->text;
    return strcmp(text, "none") == 0 ? NULL : text;
}

static void read_product(const Work *work, JackGear *gear)
{
    gear->size = value_at(work, "jacks.size")->text;
    gear->certificate = words_at(work, "jacks.certificate");
    gear->certificate_date = words_at(work, "jacks.certificate_date");
    gear->count = (int)lround(jack_value(work, "jacks.count"));
    gear->sets = (int)lround(jack_value(work, "jacks.sets"));
    gear->rated_N = jack_value(work, "jacks.rated");
    gear->area_m2 = jack_value(work, "jacks.area");
    gear->stroke_m = jack_value(work, "jacks.stroke");
    gear->closed_m = jack_value(work, "jacks.closed_height");
    gear->packing_m = jack_value(work, "jacks.packing");
    gear->highest_Pa = jack_value(work, "jacks.highest_pressure");
    gear->zero_N = jack_value(work, "jacks.calibration_zero");
    gear->slope_m2 = jack_value(work, "jacks.calibration_slope");
    gear->off_1 = jack_value(work, "jacks.calibration_off");
    gear->division_Pa = jack_value(work, "jacks.gauge_division");
    gear->range_Pa = jack_value(work, "jacks.gauge_range");
    gear->accuracy_1 = jack_value(work, "jacks.gauge_accuracy");
    gear->use_1 = jack_value(work, "jacks.use");
}

/* One every 4 ft across (common practice, no source). */
static int count_by_width(const Work *work)
{
    return (int)ceil(work->plan->width_m / (4 * 0.3048) - 1e-9);
}

/* Rated and pumped as far as margins and use allow, with all jacks and with one out. */
static bool size_does(const Work *work, const JackGear *gear, const JackSize *size)
{
    const double all_N = work->plan->thrust_N / gear->count;
    const double others_N = work->plan->thrust_N / fmax(gear->count - 1, 1);
    const double slope_m2 = size->area_m2 * (1 - jack_value(work, "jacks.bore_friction"));
    const double pumped_Pa = (others_N - gear->zero_N) / slope_m2;
    return size->rated_N >= jack_value(work, "jacks.margin") * all_N &&
           size->rated_N >= jack_value(work, "jacks.one_out_margin") * others_N &&
           size->rated_N * gear->use_1 >= others_N && pumped_Pa <= gear->use_1 * gear->highest_Pa &&
           (all_N - gear->zero_N) / slope_m2 <= 0.75 * gear->range_Pa;
}

/* Of jacks whose rated force is given: the size that reaches it; margins are judged after. */
static const JackSize *size_of_rated(const JackGear *gear)
{
    const int count = bridge_jack_size_count();
    for (int i = 0; i < count; i++)
        if (bridge_jack_size(i)->rated_N * (1 + 1e-9) >= gear->rated_N) return bridge_jack_size(i);
    return bridge_jack_size(count - 1);
}

static const JackSize *size_propose(const Work *work, const JackGear *gear)
{
    if (!isnan(gear->rated_N)) return size_of_rated(gear);
    for (int i = 0; i < bridge_jack_size_count(); i++)
        if (size_does(work, gear, bridge_jack_size(i))) return bridge_jack_size(i);
    return NULL;
}

/* More jacks where the largest size is too small, as long as there is room for them. */
static Status propose(const Work *work, JackGear *gear, Error *err)
{
    const int most = (int)fmin(JACKS_MAX, floor(work->plan->width_m / (1.5 * 0.3048)));
    const bool free_count = gear->count == 0;
    if (free_count) gear->count = count_by_width(work);
    const JackSize own = {gear->size, gear->rated_N, gear->area_m2};
    if (!isnan(own.area_m2)) {
        while (free_count && gear->count < most && !isnan(own.rated_N) &&
               !size_does(work, gear, &own))
            gear->count++;
        return STATUS_OK;
    }
    const JackSize *size = size_propose(work, gear);
    while (!size && free_count && gear->count < most) {
        gear->count++;
        size = size_propose(work, gear);
    }
    if (!size)
        return error_set(err, STATUS_BAD_INPUT,
                         "no generic size of jack does for %d jacks and this thrust: give more "
                         "jacks.count, or jacks.area and jacks.rated of your own",
                         gear->count);
    gear->size = size->name;
    gear->area_m2 = size->area_m2;
    gear->slope_m2 = size->area_m2 * (1 - jack_value(work, "jacks.bore_friction"));
    if (isnan(gear->rated_N)) gear->rated_N = size->rated_N;
    return STATUS_OK;
}

/* Of an own area without a rated force: what the highest pressure gives. */
static void fill_rated(JackGear *gear)
{
    if (isnan(gear->rated_N)) gear->rated_N = gear->area_m2 * gear->highest_Pa;
}

static const BridgeValue *place_at(const Bridge *bridge, int index, const char *key)
{
    char path[64];
    snprintf(path, sizeof path, "jacks.places[%d].%s", index + 1, key);
    return bridge_value_at(bridge, path);
}

void jack_places(const Bridge *bridge, int count, double across_m[], int set[])
{
    const double width_m = bridge_value_at(bridge, "deck.width")->value;
    const int given_sets = (int)lround(bridge_value_at(bridge, "jacks.sets")->value);
    const int sets = given_sets < count ? given_sets : count;
    for (int i = 0; i < count; i++) {
        const BridgeValue *given = place_at(bridge, i, "across");
        const double step_m = width_m / count;
        across_m[i] = given ? given->value : (i + 0.5) * step_m - width_m / 2;
        set[i] = given ? (int)lround(place_at(bridge, i, "set")->value) : 1 + i * sets / count;
    }
}

Status gear_choose(Work *work, Error *err)
{
    JackGear *gear = &work->plan->gear;
    read_product(work, gear);
    gear->proposed = gear->count == 0 || isnan(gear->area_m2);
    if (gear->proposed) TRY(propose(work, gear, err));
    fill_rated(gear);
    if (gear->sets > gear->count) gear->sets = gear->count;
    jack_places(work->wish->bridge, gear->count, gear->across_m, gear->set);
    return STATUS_OK;
}
