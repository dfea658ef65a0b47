/* The files of the page, in the binary as they are and compressed. */
#include <string.h>

#include "server_data.h"

#ifdef CLENCH_PAGE
/* clang-format off */
#define ASSET_LIST(X)                                                      \
    X("/",             "text/html; charset=utf-8",       index_html)       \
    X("/index.html",   "text/html; charset=utf-8",       index_html)       \
    X("/app.js",       "text/javascript; charset=utf-8", app_js)           \
    X("/worker.js",    "text/javascript; charset=utf-8", worker_js)        \
    X("/app.css",      "text/css; charset=utf-8",        app_css)          \
    X("/clench.wasm",  "application/wasm",               clench_wasm)      \
    X("/site",         "text/html; charset=utf-8",       site_html)        \
    X("/site.js",      "text/javascript; charset=utf-8", site_js)          \
    X("/site.css",     "text/css; charset=utf-8",        site_css)         \
    X("/site-worker.js", "text/javascript; charset=utf-8", site_worker_js) \
    X("/site.wasm",    "application/wasm",               site_wasm)
/* clang-format on */
/* of the assembler's file that tools/pack-page writes */
#define X(path, type, name)                                                      \
    extern const char asset_##name[], asset_##name##_end[], asset_##name##_gz[], \
        asset_##name##_gz_end[], asset_##name##_br[], asset_##name##_br_end[];
ASSET_LIST(X)
#undef X
const Asset server_asset[] = {
#define X(path, type, name) \
    {path,                  \
     type,                  \
     asset_##name,          \
     asset_##name##_end,    \
     asset_##name##_gz,     \
     asset_##name##_gz_end, \
     asset_##name##_br,     \
     asset_##name##_br_end},
    ASSET_LIST(X)
#undef X
};
const int server_asset_count = (int)(sizeof server_asset / sizeof *server_asset);
#else
const Asset server_asset[] = {{0}};
const int server_asset_count = 0;
#endif

const Asset *asset_find(const char *path)
{
    for (int i = 0; i < server_asset_count; i++)
        if (!strcmp(path, server_asset[i].path)) return &server_asset[i];
    return NULL;
}

static void bytes_set(Reply *reply, const char *from, const char *to, const char *encoding)
{
    reply->bytes = from;
    reply->size = (size_t)(to - from);
    reply->encoding = encoding;
}

void asset_reply(const Asset *asset, const Call *call, Reply *reply)
{
    char mark[MARK_SIZE];
    mark_make(asset->plain, (size_t)(asset->plain_end - asset->plain), mark);
    *reply = (Reply){
        .status = 200, .type = asset->type, .fixed = true, .mark = arena_text(call->arena, mark)};
    if (asset->brotli_end > asset->brotli && encoding_welcome(call->encodings, "br"))
        bytes_set(reply, asset->brotli, asset->brotli_end, "br");
    else if (encoding_welcome(call->encodings, "gzip"))
        bytes_set(reply, asset->gzip, asset->gzip_end, "gzip");
    else
        bytes_set(reply, asset->plain, asset->plain_end, NULL);
    reply_unchanged(call, reply);
}
