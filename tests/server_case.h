/* A server with a bridge file of its own in a new folder, for tests. */
#ifndef CLENCH_TESTS_SERVER_CASE_H
#define CLENCH_TESTS_SERVER_CASE_H

#include "check.h"
#include "clench/server.h"
#include "http_client.h"

typedef struct ServerCase {
    Arena *arena;
    char folder[64], file[96];
    Server *server;
    int port;
} ServerCase;

/* For cmocka: *state is a ServerCase; the folder is removed afterwards with its files. */
int server_case_setup(void **state);
int server_case_teardown(void **state);
/* The bytes of an example of the project. */
const char *example_text(const char *path, Arena *arena);
void case_file_write(const ServerCase *c, const char *text);
/* As http_ask, on the server of the case. */
HttpReply case_ask(const ServerCase *c, const char *request, const char *fields, const char *body);
/* {"text": ..., key: value}: JSON for a request; a key that is NULL is left out. */
const char *json_of(Arena *arena, const char *text, const char *key, const char *value);

/* Of the object in a reply: the text of a key, "" where there is none. */
const char *text_of(const HttpReply *r, const char *key, Arena *arena);
/* A whole number of the first of its errors. */
int error_number(const HttpReply *r, const char *key);
/* The mark of the file now, as the server tells it. */
const char *file_mark(const ServerCase *c);

#define check_has(text, part) check_has_at((text), (part), __FILE__, __LINE__)
void check_has_at(const char *text, const char *part, const char *file, int line);

#endif
