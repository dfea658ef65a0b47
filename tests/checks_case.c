#include "checks_case.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *example_text(const char *path, const char *old, const char *fresh, Arena *arena)
{
    const char *bytes = NULL;
    size_t size = 0;
    Error err = {0};
    check_status(file_read(path, YAML_SIZE_MAX, arena, &bytes, &size, &err), STATUS_OK, &err);
    if (!old) return bytes;
    const size_t room = size + strlen(fresh) + 1;
    return bridge_replace(bytes, old, fresh, ARENA_NEW(arena, char, room), room);
}

void checks_from_text(ChecksCase *c, const char *text, double given_N)
{
    Error err = {0};
    memset(c, 0, sizeof *c);
    c->arena = arena_create((size_t)2 << 30);
    c->scratch = arena_create((size_t)1 << 30);
    bridge_from_text(&c->file, text);
    for (int i = 0; i < c->file.found.count; i++) print_error("%s\n", c->file.found.item[i].text);
    assert_int_equal(c->file.status, STATUS_OK);
    const BridgeLine *line;
    int count;
    check_status(bridge_lines(c->file.bridge, 1, c->arena, &line, &count, &err), STATUS_OK, &err);
    const ThrustWish wish = {.given_N = given_N, .settings = stage_settings_default()};
    check_status(thrust_find(line, count, &wish, c->arena, c->scratch, &c->answer, &err), STATUS_OK,
                 &err);
    const CheckCase with = {.bridge = c->file.bridge, .answer = c->answer, .arena = c->arena};
    check_status(checks_run(&with, &c->list, &err), STATUS_OK, &err);
}

void checks_from_example(ChecksCase *c, const char *path, double given_N, const char *old,
                         const char *fresh)
{
    Arena *arena = arena_create((size_t)64 << 20);
    checks_from_text(c, example_text(path, old, fresh, arena), given_N);
    arena_free(arena);
}

void checks_close(ChecksCase *c)
{
    bridge_close(&c->file);
    arena_free(c->arena);
    arena_free(c->scratch);
}

const CheckRow *checks_row(const ChecksCase *c, const char *name, const char *line)
{
    for (int i = 0; i < c->list->count; i++) {
        const CheckRow *row = &c->list->row[i];
        if (strcmp(row->name, name) == 0 && (!line || strcmp(row->line, line) == 0)) return row;
    }
    return NULL;
}

static void print_sheet(const Sheet *sheet, Arena *arena)
{
    for (int i = 0; i < sheet->count; i++) {
        const SheetLine *l = &sheet->line[i];
        if (l->kind == SHEET_WORDS)
            printf("      %s\n", l->words);
        else
            printf("      %-8s = %s%s%.6g %s   (%s) [%s]\n", l->symbol,
                   l->formula ? l->formula : "", l->formula ? " = " : "", l->value, l->unit,
                   l->words ? l->words : "", l->source ? l->source : "");
    }
    (void)arena;
}

void checks_print(const ChecksCase *c)
{
    for (int i = 0; i < c->list->count; i++) {
        const CheckRow *r = &c->list->row[i];
        const char *unit = quantity_unit(bridge_units(c->file.bridge), r->dimension);
        printf("%-8s %6.3f  %-50s %-14s %s | %s | %s | %.5g / %.5g %s | %s\n",
               check_state_name(r->state), r->ratio_1, r->name, r->part, r->line, r->where, r->when,
               quantity_in(r->demand, unit), quantity_in(r->capacity, unit), unit, r->clause);
        if (r->why) printf("      WHY %s\n", r->why);
        if (getenv("CLENCH_SHEETS")) print_sheet(r->sheet, c->arena);
    }
}
