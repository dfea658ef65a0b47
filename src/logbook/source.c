/* A job as the report on it wants it: the words of its readings, each value with its unit. */
#include <string.h>

#include "clench/logbook.h"

static const char *joined(const char *const *word, int count, Arena *arena)
{
    Text text = text_start(arena);
    bool read = false;
    for (int i = 0; i < count; i++) {
        const bool there = word[i] && *word[i] && strcmp(word[i], "-") != 0;
        text_printf(&text, "%s%s", i ? ", " : "", there ? word[i] : "-");
        read = read || there;
    }
    return read ? text.bytes : "-";
}

static const char *degrees(const LogbookWords *words, Arena *arena)
{
    if (!words->deck && !words->girder) return "-";
    return arena_printf(arena, "%s; %s", words->deck ? words->deck : "-",
                        words->girder ? words->girder : "-");
}

void logbook_source(const Logbook *book, Arena *arena, SiteSource *source)
{
    SiteRow *row = ARENA_NEW(arena, SiteRow, book->count);
    for (int i = 0; i < book->count; i++) {
        const LogbookReading *r = &book->reading[i];
        const LogbookWords *w = &r->words;
        row[i] = (SiteRow){.number = r->record->number,
                           .time = w->time ? w->time : "-",
                           .step = w->step ? w->step : "-",
                           .phase = w->phase,
                           .who = w->who,
                           .remark = w->remark,
                           .gauge = joined(w->pressure, book->day.plan->gear.sets, arena),
                           .degrees = degrees(w, arena),
                           .cell = w->cell,
                           .call = r->call,
                           .reason = r->reason,
                           .struck = r->struck,
                           .struck_why = r->struck_why,
                           .struck_who = r->struck_who};
        memcpy(row[i].move, w->move, sizeof row[i].move);
    }
    source->day = &book->day;
    source->reading = book->value;
    source->count = book->count;
    source->row = row;
}
