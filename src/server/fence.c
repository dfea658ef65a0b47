/* Who may speak to the server: only pages that it served itself, and programs on this machine. A
 * page from elsewhere that is open in the same browser is refused by Origin; one whose name was
 * pointed at this machine afterwards (DNS rebinding) by Host. */
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "server_data.h"

/* "localhost:8347" or "127.0.0.1:8347". */
static bool names_us(const char *authority, int port)
{
    static const char *const name[] = {"localhost:", "127.0.0.1:"};
    for (size_t i = 0; i < sizeof name / sizeof *name; i++) {
        char own[32];
        snprintf(own, sizeof own, "%s%d", name[i], port);
        if (!strcasecmp(authority, own)) return true;
    }
    return false;
}

int fence_check(const Call *call, int port, Error *err)
{
    if (!call->host || !names_us(call->host, port)) {
        error_set(err, STATUS_BAD_INPUT, "this server answers to 127.0.0.1:%d alone", port);
        return 421;
    }
    static const char scheme[] = "http://";
    const bool own = !call->origin || (!strncmp(call->origin, scheme, sizeof scheme - 1) &&
                                       !strcasecmp(call->origin + sizeof scheme - 1, call->host));
    /* a link from elsewhere may open the page itself, nothing behind it */
    const bool api = !strncmp(call->path, "/api/", 5);
    const bool far = api && call->site && strcmp(call->site, "same-origin") != 0 &&
                     strcmp(call->site, "none") != 0;
    if (!own || far) {
        error_set(err, STATUS_BAD_INPUT, "pages from elsewhere may not use this server");
        return 403;
    }
    return 0;
}
