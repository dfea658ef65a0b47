#define _DEFAULT_SOURCE
#include "http_client.h"

#include <arpa/inet.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

int http_connect(int port)
{
    const struct sockaddr_in address = {.sin_family = AF_INET,
                                        .sin_port = htons((unsigned short)port),
                                        .sin_addr = {htonl(INADDR_LOOPBACK)}};
    const struct timeval minutes = {240, 0};
    const int fd = socket(AF_INET, SOCK_STREAM, 0);
    if (fd < 0) return -1;
    setsockopt(fd, SOL_SOCKET, SO_RCVTIMEO, &minutes, sizeof minutes);
    setsockopt(fd, SOL_SOCKET, SO_SNDTIMEO, &minutes, sizeof minutes);
    if (connect(fd, (const struct sockaddr *)&address, sizeof address) == 0) return fd;
    close(fd);
    return -1;
}

bool http_write(int fd, const char *bytes, size_t size)
{
    while (size > 0) {
        const ssize_t count = send(fd, bytes, size, MSG_NOSIGNAL);
        if (count <= 0) return false;
        bytes += count;
        size -= (size_t)count;
    }
    return true;
}

HttpReply http_read(int fd, Arena *arena)
{
    char piece[1 << 16];
    Text text = text_start(arena);
    for (ssize_t count; (count = recv(fd, piece, sizeof piece, 0)) > 0;)
        text_addn(&text, piece, (size_t)count);
    close(fd);
    const char *const bytes = text.length ? text.bytes : "";
    const char *end = strstr(bytes, "\r\n\r\n");
    if (!end || strncmp(bytes, "HTTP/1.1 ", 9) != 0) return (HttpReply){.head = "", .body = ""};
    end += 4;
    return (HttpReply){.status = atoi(bytes + 9),
                       .head = arena_textn(arena, bytes, (size_t)(end - bytes)),
                       .body = end,
                       .size = text.length - (size_t)(end - bytes)};
}

HttpReply http_ask(int port, const char *request, const char *fields, const char *body,
                   Arena *arena)
{
    const int fd = http_connect(port);
    if (fd < 0) return (HttpReply){.head = "", .body = ""};
    Text text = text_start(arena);
    text_printf(&text, "%s HTTP/1.1\r\nConnection: close\r\n%s", request, fields);
    if (strncasecmp(fields, "Host:", 5) != 0) text_printf(&text, "Host: 127.0.0.1:%d\r\n", port);
    if (body) text_printf(&text, "Content-Length: %zu\r\n", strlen(body));
    text_add(&text, "\r\n");
    if (body) text_add(&text, body);
    (void)http_write(fd, text.bytes, text.length); /* a refusal may come before the body is out */
    return http_read(fd, arena);
}

const char *http_field(const HttpReply *reply, const char *name, Arena *arena)
{
    const size_t length = strlen(name);
    for (const char *line = strstr(reply->head, "\r\n"); line; line = strstr(line, "\r\n")) {
        line += 2;
        if (strncasecmp(line, name, length) != 0 || line[length] != ':') continue;
        const char *const value = line + length + 1 + strspn(line + length + 1, " ");
        return arena_textn(arena, value, strcspn(value, "\r"));
    }
    return NULL;
}
