/* The map of registers, and registers to words. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "clench/transducer.h"

/* ---- places of a reading ---- */

/* "pressure 2" of `word` "pressure": 2; 0: it is not that. */
static int numbered(const char *name, const char *word)
{
    const size_t length = strlen(word);
    if (strncmp(name, word, length) != 0 || name[length] != ' ') return 0;
    const char *const digits = name + length + 1;
    if (*digits < '1' || *digits > '9' || strlen(digits) > 2) return 0;
    char *end;
    const long number = strtol(digits, &end, 10);
    return *end ? 0 : (int)number;
}

/* Where the words of a value stand, and what it measures; NULL: no such value. */
static const char **place_of(const char *name, const SiteDay *day, LogbookWords *words,
                             DimensionId *dimension)
{
    const int pressure = numbered(name, "pressure"), move = numbered(name, "move");
    const int sets = day ? day->plan->gear.sets : JACK_SETS;
    const int points = day ? day->point_count : SITE_POINTS;
    *dimension = pressure ? DIM_STRESS : move ? DIM_LENGTH : DIM_TEMPERATURE;
    if (pressure) return pressure <= sets ? &words->pressure[pressure - 1] : NULL;
    if (move) return move <= points ? &words->move[move - 1] : NULL;
    if (strcmp(name, "deck") == 0) return &words->deck;
    if (strcmp(name, "girder") == 0) return &words->girder;
    *dimension = DIM_FORCE;
    return strcmp(name, "cell") == 0 ? &words->cell : NULL;
}

/* ---- the map ---- */

static Status wrong(const Node *node, const char *key, Diagnostics *list, const char *text)
{
    Error err = {0};
    error_at(&err, STATUS_BAD_INPUT, node->from, node->to, key, "%s", text);
    diagnostics_add(list, &err);
    return STATUS_BAD_INPUT;
}

static bool whole(const Node *node, long least, long most, int *value)
{
    char *end;
    if (node->kind != NODE_TEXT || !*node->text || strlen(node->text) > 9) return false;
    const long number = strtol(node->text, &end, 10);
    if (*end || number < least || number > most) return false;
    *value = (int)number;
    return true;
}

/* A plain number, without a unit. */
static bool plain(const Node *node, double *value)
{
    return node->kind == NODE_TEXT && quantity_read(node->text, DIM_NONE, value, NULL) == STATUS_OK;
}

static bool quantity(const Node *node, DimensionId dimension, double *value_SI)
{
    return node->kind == NODE_TEXT &&
           quantity_read(node->text, dimension, value_SI, NULL) == STATUS_OK;
}

static bool one_of(const Node *node, const char *const *word, int count, int *index)
{
    for (int i = 0; node->kind == NODE_TEXT && i < count; i++)
        if (strcmp(node->text, word[i]) == 0) {
            *index = i;
            return true;
        }
    return false;
}

/* What a value may be where the map does not say: nothing beyond what a reading could mean at all. */
static void bounds_usual(DimensionId dimension, TransducerValue *v)
{
    static const double least[DIM_COUNT] = {[DIM_LENGTH] = -2, [DIM_TEMPERATURE] = 200};
    static const double most[DIM_COUNT] = {
        [DIM_STRESS] = 300e6, [DIM_LENGTH] = 2, [DIM_TEMPERATURE] = 400, [DIM_FORCE] = 1e9};
    v->least = dimension == DIM_STRESS  ? -5e6 /* a transducer's zero wanders */
               : dimension == DIM_FORCE ? -1e6
                                        : least[dimension];
    v->most = most[dimension];
}

static const char *key_take(const Node *node, DimensionId dimension, TransducerValue *v,
                            Arena *arena)
{
    static const char *const type[] = {"int16", "uint16", "float"}, *const kind[] = {"holding",
                                                                                     "input"};
    static const char *const order[] = {"big", "little"};
    double probe;
    int index = 0;
    const char *const key = node->key;
    if (strcmp(key, "register") == 0)
        return whole(node, 0, 65535, &v->address) ? NULL : "is no address: 0 to 65535";
    if (strcmp(key, "kind") == 0) {
        const bool good = one_of(node, kind, 2, &index);
        v->input = index == 1;
        return good ? NULL : "is none of holding, input";
    }
    if (strcmp(key, "type") == 0) {
        const bool good = one_of(node, type, 3, &index);
        v->type = (TransducerType)index;
        return good ? NULL : "is none of int16, uint16, float";
    }
    if (strcmp(key, "words") == 0) {
        const bool good = one_of(node, order, 2, &index);
        v->little = index == 1;
        return good ? NULL : "is none of big, little: which word of a float comes first";
    }
    if (strcmp(key, "scale") == 0)
        return plain(node, &v->scale) && v->scale != 0 ? NULL : "is no number other than 0";
    if (strcmp(key, "offset") == 0) return plain(node, &v->offset) ? NULL : "is no number";
    if (strcmp(key, "least") == 0)
        return quantity(node, dimension, &v->least) ? NULL : "does not measure the same";
    if (strcmp(key, "most") == 0)
        return quantity(node, dimension, &v->most) ? NULL : "does not measure the same";
    if (strcmp(key, "unit") != 0)
        return "is none of register, kind, type, words, scale, offset, unit, least, most";
    const bool good = node->kind == NODE_TEXT && strlen(node->text) < 20 &&
                      quantity_read(arena_printf(arena, "300 %s", node->text), dimension, &probe,
                                    NULL) == STATUS_OK;
    v->unit = node->text;
    return good ? NULL : "is no unit of that";
}

static Status value_read(const Node *node, const SiteDay *day, Arena *arena, TransducerMap *map,
                         Diagnostics *list)
{
    LogbookWords words;
    DimensionId dimension;
    TransducerValue v = {.name = node->key, .address = -1, .scale = 1};
    if (!place_of(node->key, day, &words, &dimension))
        return wrong(node, node->key, list,
                     "is none of pressure N, move N, deck, girder, cell of this job, nor station, "
                     "every, silence, baud, parity");
    if (node->kind != NODE_MAP)
        return wrong(node, node->key, list, "is no map: {register: 0, type: int16, unit: psi}");
    bounds_usual(dimension, &v);
    Status status = STATUS_OK;
    for (const Node *part = node->first; part; part = part->next) {
        const char *const why = key_take(part, dimension, &v, arena);
        if (why)
            status = wrong(part, arena_printf(arena, "%s.%s", node->key, part->key), list, why);
    }
    TRY(status);
    if (v.address < 0 || !v.unit || !node_find(node, "type"))
        return wrong(node, node->key, list, "needs register, type and unit");
    if (v.type == TRANSDUCER_FLOAT && (!node_find(node, "words") || v.address == 65535))
        return wrong(node, node->key, list,
                     "a float has two registers: say words: big, or words: little");
    if (!(v.least < v.most)) return wrong(node, node->key, list, "least is not below most");
    map->value[map->count++] = v;
    return STATUS_OK;
}

static const char *line_take(const Node *node, TransducerMap *map)
{
    static const char *const parity[] = {"N", "E", "O"};
    int index = 0;
    if (strcmp(node->key, "station") == 0)
        return whole(node, 1, 247, &map->station) ? NULL : "is no station: 1 to 247";
    if (strcmp(node->key, "baud") == 0)
        return whole(node, 1200, 115200, &map->baud) ? NULL : "is no speed: 1200 to 115200";
    if (strcmp(node->key, "every") == 0)
        return quantity(node, DIM_TIME, &map->every_day) && map->every_day >= 1.0 / 86400 &&
                       map->every_day <= 1.0 / 24
                   ? NULL
                   : "is no time from 1 s to 1 h";
    if (strcmp(node->key, "silence") == 0)
        return quantity(node, DIM_TIME, &map->silence_day) && map->silence_day >= 0.1 / 86400 &&
                       map->silence_day <= 60.0 / 86400
                   ? NULL
                   : "is no time from 0.1 s to 60 s";
    if (strcmp(node->key, "parity") != 0) return "";
    const bool good = one_of(node, parity, 3, &index);
    map->parity = *parity[index];
    return good ? NULL : "is none of N, E, O";
}

Status transducer_map(const Node *root, const SiteDay *day, Arena *arena, TransducerMap *map,
                      Diagnostics *list)
{
    TransducerMap m = {.station = 1,
                       .every_day = 10.0 / 86400,
                       .silence_day = 1.0 / 86400,
                       .baud = 9600,
                       .parity = 'N'};
    Status status = STATUS_OK;
    if (root->kind != NODE_MAP) return wrong(root, "map", list, "is not a map of values");
    for (const Node *node = root->first; node; node = node->next) {
        const char *const why = line_take(node, &m);
        if (why && *why) status = wrong(node, node->key, list, why);
        if (why && !*why && value_read(node, day, arena, &m, list) != STATUS_OK)
            status = STATUS_BAD_INPUT;
    }
    TRY(status);
    if (m.count == 0) return wrong(root, "map", list, "names no value");
    *map = m;
    return STATUS_OK;
}

/* ---- registers to words ---- */

/* IEEE 754 binary32 over two registers. Which word comes first differs from device to device; the bytes of a
 * word are big-endian on the wire (Modbus application protocol V1.1b3, 4.2). */
double transducer_decode(const TransducerValue *value, const uint16_t word[2])
{
    const uint32_t high = value->little ? word[1] : word[0],
                   low = value->little ? word[0] : word[1];
    const uint32_t bits = high << 16 | low;
    float number;
    memcpy(&number, &bits, sizeof number);
    const double raw = value->type == TRANSDUCER_FLOAT   ? (double)number
                       : value->type == TRANSDUCER_INT16 ? (double)(int16_t)word[0]
                                                         : (double)word[0];
    const double made = raw * value->scale + value->offset;
    return isfinite(made) ? made : (double)NAN;
}

/* A remark has its bound in the log; what is beyond is told as such. */
static void tell(LogbookWords *words, Arena *arena, const char *what)
{
    enum { TOLD_MAX = 900 };
    static const char more[] = "and more";
    const char *const before = words->remark && *words->remark ? words->remark : NULL;
    const size_t length = before ? strlen(before) : 0;
    if (length >= sizeof more - 1 && !strcmp(before + length - (sizeof more - 1), more)) return;
    if (length + strlen(what) > TOLD_MAX) what = more;
    words->remark = before ? arena_printf(arena, "%s; %s", before, what) : what;
}

void transducer_words(const TransducerMap *map, const double *number, Arena *arena,
                      LogbookWords *words)
{
    for (int i = 0; i < map->count; i++) {
        const TransducerValue *const v = &map->value[i];
        DimensionId dimension;
        double value_SI = 0;
        const char **const place = place_of(v->name, NULL, words, &dimension);
        const char *const text =
            isfinite(number[i]) ? arena_printf(arena, "%.7g %s", number[i], v->unit) : NULL;
        *place = "-";
        if (!text)
            tell(words, arena, arena_printf(arena, "%s not read", v->name));
        else if (quantity_read(text, dimension, &value_SI, NULL) != STATUS_OK ||
                 value_SI < v->least || value_SI > v->most)
            tell(words, arena, arena_printf(arena, "%s left out: %s cannot be", v->name, text));
        else
            *place = text;
    }
}
