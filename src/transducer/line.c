/* The line to the device, by libmodbus; without it in the build, the words that say so. */
#define _DEFAULT_SOURCE
#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "clench/transducer.h"

#ifdef CLENCH_MODBUS
#include <modbus.h>

struct Transducer {
    modbus_t *line;
    bool up;
    char where[200];
    TransducerMap map;
};

bool transducer_built(void) { return true; }

static Status where_bad(const char *where, Error *err)
{
    return error_set(err, STATUS_BAD_INPUT,
                     "'%.80s' is no line: tcp:192.168.1.40:502, or rtu:/dev/ttyUSB0", where);
}

static Status line_make(const char *where, const TransducerMap *map, modbus_t **line, Error *err)
{
    enum { DATA_BITS = 8, STOP_BITS = 1 };
    char host[160];
    *line = NULL;
    if (strncmp(where, "rtu:", 4) == 0 && where[4]) {
        *line = modbus_new_rtu(where + 4, map->baud, map->parity, DATA_BITS, STOP_BITS);
    } else if (strncmp(where, "tcp:", 4) == 0) {
        const char *const colon = strrchr(where + 4, ':');
        if (!colon || colon == where + 4 || !colon[1] || (size_t)(colon - where) > sizeof host)
            return where_bad(where, err);
        snprintf(host, sizeof host, "%.*s", (int)(colon - where - 4), where + 4);
        *line = modbus_new_tcp_pi(host, colon + 1);
    } else {
        return where_bad(where, err);
    }
    if (*line) return STATUS_OK;
    return error_set(err, STATUS_IO, "\"%.100s\" cannot be used: %s", where,
                     modbus_strerror(errno));
}

Status transducer_open(const char *where, const TransducerMap *map, Transducer **device, Error *err)
{
    modbus_t *line;
    if (strlen(where) >= sizeof(*device)->where) return where_bad(where, err);
    TRY(line_make(where, map, &line, err));
    const double silence_s = map->silence_day * 86400;
    const uint32_t seconds = (uint32_t)silence_s;
    modbus_set_slave(line, map->station);
    modbus_set_response_timeout(line, seconds, (uint32_t)(1e6 * (silence_s - seconds)));
    modbus_set_byte_timeout(line, seconds, (uint32_t)(1e6 * (silence_s - seconds)));
    Transducer *const d = calloc(1, sizeof *d);
    if (!d) {
        modbus_free(line);
        return error_set(err, STATUS_IO, "no memory left");
    }
    *d = (Transducer){.line = line, .map = *map};
    snprintf(d->where, sizeof d->where, "%s", where);
    *device = d;
    return STATUS_OK;
}

void transducer_close(Transducer *device)
{
    if (!device) return;
    if (device->up) modbus_close(device->line);
    modbus_free(device->line);
    free(device);
}

static Status line_lost(Transducer *d, const char *doing, Error *err)
{
    const int fault = errno;
    if (d->up) modbus_close(d->line);
    d->up = false;
    return error_set(err, STATUS_IO, "%.100s %s: %s", d->where, doing, modbus_strerror(fault));
}

/* The device answered, and refused: an address that it has not, and the like. */
static bool refused(int fault)
{
    return fault > MODBUS_ENOBASE && fault <= MODBUS_ENOBASE + MODBUS_EXCEPTION_GATEWAY_TARGET;
}

Status transducer_read(Transducer *d, double *number, Error *err)
{
    if (!d->up && modbus_connect(d->line) != 0) return line_lost(d, "cannot be reached", err);
    d->up = true;
    for (int i = 0; i < d->map.count; i++) {
        const TransducerValue *const v = &d->map.value[i];
        uint16_t word[2] = {0};
        const int count = v->type == TRANSDUCER_FLOAT ? 2 : 1;
        const int got = v->input ? modbus_read_input_registers(d->line, v->address, count, word)
                                 : modbus_read_registers(d->line, v->address, count, word);
        if (got != count && !refused(errno)) return line_lost(d, "does not answer", err);
        number[i] = got == count ? transducer_decode(v, word) : (double)NAN;
    }
    return STATUS_OK;
}

#else
bool transducer_built(void) { return false; }

Status transducer_open(const char *where, const TransducerMap *map, Transducer **device, Error *err)
{
    (void)where;
    (void)map;
    (void)device;
    return error_set(err, STATUS_IO,
                     "this build of clench has no Modbus: build it where libmodbus is (Debian: "
                     "libmodbus-dev)");
}

Status transducer_read(Transducer *device, double *number, Error *err)
{
    (void)device;
    (void)number;
    return error_set(err, STATUS_IO, "this build of clench has no Modbus");
}

void transducer_close(Transducer *device) { (void)device; }
#endif
