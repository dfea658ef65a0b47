/* Replies: errors as JSON, texts. */
#include <string.h>
#include <zlib.h>

#include "server_data.h"

void error_write(Json *json, const Error *err)
{
    json_open_map(json, NULL);
    json_int(json, "line", err->from.line);
    json_int(json, "column", err->from.column);
    json_int(json, "to_line", err->to.line);
    json_int(json, "to_column", err->to.column);
    json_text(json, "key", err->key);
    json_text(json, "expected", err->expected);
    json_text(json, "suggestion", err->suggestion);
    json_text(json, "text", err->text);
    json_close_map(json);
}

void reply_text(Reply *reply, const char *type, const Text *text)
{
    *reply = (Reply){.status = 200,
                     .type = type,
                     .bytes = text->length ? text->bytes : "",
                     .size = text->length};
}

void reply_errors(const Call *call, int status, const Diagnostics *list, const Error *err,
                  Reply *reply)
{
    Text text = text_start(call->arena);
    Json json = json_start(&text);
    json_open_map(&json, NULL);
    json_open_list(&json, "errors");
    for (int i = 0; list && i < list->count; i++) error_write(&json, &list->item[i]);
    if (!list || list->count == 0) error_write(&json, err);
    json_close_list(&json);
    json_close_map(&json);
    reply_text(reply, "application/json", &text);
    reply->status = status;
}

void reply_pack(const Call *call, Reply *reply)
{
    enum { GZIP_WINDOW = 15 + 16, MEMORY_LEVEL = 9 }; /* zlib.h: 16 more asks for a gzip header */
    z_stream stream = {0};
    if (reply->encoding || !encoding_welcome(call->encodings, "gzip")) return;
    if (deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, GZIP_WINDOW, MEMORY_LEVEL,
                     Z_DEFAULT_STRATEGY) != Z_OK)
        return;
    const size_t room = deflateBound(&stream, (uLong)reply->size);
    char *const packed = arena_take(call->arena, room);
    stream.next_in = (Bytef *)(size_t)reply->bytes;
    stream.avail_in = (uInt)reply->size;
    stream.next_out = (Bytef *)packed;
    stream.avail_out = (uInt)room;
    const bool done = deflate(&stream, Z_FINISH) == Z_STREAM_END;
    const size_t size = stream.total_out;
    deflateEnd(&stream);
    if (!done) return;
    reply->bytes = packed;
    reply->size = size;
    reply->encoding = "gzip";
}

void reply_unchanged(const Call *call, Reply *reply)
{
    if (!reply->mark || !mark_listed(call->none_match, reply->mark)) return;
    reply->status = 304;
    reply->bytes = "";
    reply->size = 0;
}

int reply_status(Status status)
{
    switch (status) {
    case STATUS_BAD_INPUT:
    case STATUS_TOO_LARGE: return 400;
    case STATUS_UNSTABLE:
    case STATUS_NO_CONVERGENCE: return 422;
    default: return 500;
    }
}
