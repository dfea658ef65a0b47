/* transducer: pressures, movements and temperatures read from the registers of a device over Modbus (TCP, or RTU
 * on a serial line), as readings in words. The map says which register is what; nothing of a device is known here.
 *
 * The line is part of the build where libmodbus is there (transducer_built); the map and the decoding always are.
 * A value that cannot be, or was not read, is left out and told in the remark, never guessed. docs/site.md. */
#ifndef CLENCH_TRANSDUCER_H
#define CLENCH_TRANSDUCER_H

#include "clench/logbook.h"

enum { TRANSDUCER_VALUES = JACK_SETS + SITE_POINTS + 3 };

typedef enum TransducerType {
    TRANSDUCER_INT16,
    TRANSDUCER_UINT16,
    TRANSDUCER_FLOAT
} TransducerType;

/* One value of a reading: number = raw * scale + offset, in `unit`. */
typedef struct TransducerValue {
    const char *name; /* "pressure 1", "move 2", "deck", "girder", "cell" */
    int address;      /* as on the wire, from 0 */
    bool input;       /* an input register (function 4), else a holding register (3) */
    TransducerType type;
    bool little;          /* FLOAT: the low word first */
    double scale, offset; /* unit: per count, and of `unit` */
    const char *unit;     /* "psi" */
    double least, most;   /* beyond: cannot be; unit: SI of the value */
} TransducerValue;

typedef struct TransducerMap {
    int station; /* of the device, 1 to 247; over TCP mostly not looked at */
    double every_day, silence_day;
    int baud, count;
    char parity; /* 'N', 'E', 'O' */
    TransducerValue value[TRANSDUCER_VALUES];
} TransducerMap;

/* Lives in `arena`. Errors: BAD_INPUT, in the list with their places. */
MUST_USE Status transducer_map(const Node *root, const SiteDay *day, Arena *arena,
                               TransducerMap *map, Diagnostics *list);
/* Of one or two registers; NAN where it is no finite number. */
double transducer_decode(const TransducerValue *value,
                         const uint16_t word[2]); /* unit: value->unit */
/* Numbers to words; what is NAN or cannot be is "-" and told in the remark. Also the remark of `words` is kept. */
void transducer_words(const TransducerMap *map, const double *number, Arena *arena,
                      LogbookWords *words); /* unit: as in the map */

/* ---- the line ---- */

typedef struct Transducer Transducer;
bool transducer_built(void);
/* "tcp:192.168.1.40:502" or "rtu:/dev/ttyUSB0". Nothing is sent yet. Errors: BAD_INPUT, IO. */
MUST_USE Status transducer_open(const char *where, const TransducerMap *map, Transducer **device,
                                Error *err);
/* All values once, connecting first where the line is down. A value that the device refuses is NAN; where it
 * does not answer, the line is given up, so that a late answer is not taken for the next one's. Errors: IO. */
MUST_USE Status transducer_read(Transducer *device, double *number, /* unit: as in the map */
                                Error *err);
void transducer_close(Transducer *device); /* NULL is allowed */

#endif
