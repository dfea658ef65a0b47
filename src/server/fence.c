/* Who may speak to the server: only pages that it served itself, and programs. A page from elsewhere
 * that is open in the same browser is refused by Origin; one whose name was pointed at this machine
 * afterwards (DNS rebinding) by Host. */
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "server_data.h"

enum { HTTPS_PORT = 443 };

/* "localhost:8347"; a browser leaves the port of https out. */
static bool names_us(const Fence *fence, const char *authority)
{
    for (int i = 0; i < 2; i++) {
        char own[FENCE_NAME + 8];
        if (!fence->name[i][0]) continue;
        snprintf(own, sizeof own, "%s:%d", fence->name[i], fence->port);
        if (!strcasecmp(authority, own)) return true;
        if (fence->secure && fence->port == HTTPS_PORT && !strcasecmp(authority, fence->name[i]))
            return true;
    }
    return false;
}

int fence_check(const Call *call, const Fence *fence, Error *err)
{
    if (!call->host || !names_us(fence, call->host)) {
        error_set(err, STATUS_BAD_INPUT, "this server answers to %.100s:%d alone", fence->name[0],
                  fence->port);
        return 421;
    }
    const char *const scheme = fence->secure ? "https://" : "http://";
    const bool own = !call->origin || (!strncmp(call->origin, scheme, strlen(scheme)) &&
                                       !strcasecmp(call->origin + strlen(scheme), call->host));
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

/* ---- the names of a server that is reached from elsewhere ---- */

bool name_good(const char *name)
{
    static const char letters[] =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.-";
    const size_t length = strlen(name);
    return length > 0 && length < FENCE_NAME && strspn(name, letters) == length;
}
