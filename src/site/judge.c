/* The verdict: findings of the last three readings, which of them stand, and what to say. */
#include <math.h>
#include <string.h>

#include "look.h"

static void findings_of(const Look *look, int at, Findings *list, SiteVerdict *verdict)
{
    list->count = 0;
    find_impossible(look, at, list);
    if (list->count > 0) {
        /* what else gauge and gap say is worth nothing; but an anchor that goes opens the gap as no plan
         * has it, and a gauge that is believed in vain costs a reading, one that is not a jack */
        find_slips(look, at, list);
        find_pressure(look, &look->seen[at], list);
        return;
    }
    find_limits(look, at, list);
    find_movement(look, at, list);
    find_slope(look, at, list);
    find_hold(look, at, list, verdict);
    find_nuts(look, at, list);
}

static bool shown(const Findings *list, const SiteFinding *f)
{
    for (int i = 0; i < list->count; i++)
        if (list->item[i].kind == f->kind && list->item[i].point == f->point) return true;
    return false;
}

/* Shown once: read again. Read again, and shown again: it stands. */
static void settle(Findings *now, const Findings *before, int befores)
{
    for (int i = 0; i < now->count; i++) {
        SiteFinding *f = &now->item[i];
        bool twice = false;
        for (int k = 0; k < befores; k++) twice = twice || shown(&before[k], f);
        if (f->call == SITE_AGAIN && twice && f->kind != SITE_MISSING)
            f->call = SITE_HOLD;
        else if (!now->stands[i] && !twice)
            f->call = SITE_AGAIN;
    }
}

static bool graver(const SiteFinding *a, const SiteFinding *b)
{
    return a->call != b->call ? a->call > b->call : a->sure_1 > b->sure_1;
}

static void verdict_take(SiteVerdict *verdict, const Findings *list)
{
    for (int i = 0; i < list->count; i++) {
        int at = verdict->finding_count++;
        while (at > 0 && graver(&list->item[i], &verdict->finding[at - 1])) {
            verdict->finding[at] = verdict->finding[at - 1];
            at--;
        }
        verdict->finding[at] = list->item[i];
    }
    verdict->call = verdict->finding_count ? verdict->finding[0].call : SITE_GO;
}

static void numbers_fill(const Look *look, SiteVerdict *v)
{
    const Seen *s = &look->seen[look->count - 1];
    Line line;
    v->force_N = s->force_N;
    v->opening_m = s->open_m;
    v->tilt_m = s->tilt_m;
    v->warm_K = s->warm_K;
    if (look_read(s->force_N)) {
        const JackExpect e = jacking_expect(look->day->plan, fmax(0, s->force_N));
        v->force_off_N = e.error_N;
        v->expected_m = e.opening.expected_m;
        v->low_m = e.opening.low_m;
        v->high_m = e.opening.high_m;
    }
    if (look_line(look, look->count, &line)) {
        v->slope_1 = line.fit.slope;
        v->slope_low_1 = line.fit.low;
        v->slope_high_1 = line.fit.high;
    }
}

/* Go on: that the opening lies in its band, for errors of reading. */
static double sure_of_go(const Look *look, const SiteVerdict *v)
{
    const Seen *s = &look->seen[look->count - 1];
    if (!s->first || !look_read(v->opening_m) || !look_read(v->low_m)) return 1;
    return normal_share(fmin(v->opening_m - v->low_m, v->high_m - v->opening_m) / s->off_m);
}

static void say_guesses(const SiteVerdict *v, Text *text)
{
    for (int i = 0; i < v->guess_count; i++)
        text_printf(text, "%s%s", i == 0 ? " It may be: " : "; or ",
                    site_cause_name(v->guess[i].cause));
    if (v->guess_count == 0) return;
    text_add(text, ".");
    if (v->guess_count == 1) return;
    text_add(text, " The readings cannot tell which. Measure");
    for (int i = 0, said = 0; i < v->guess_count; i++) {
        bool repeated = !v->guess[i].measure;
        for (int k = 0; k < i && !repeated; k++)
            repeated = v->guess[k].measure && strcmp(v->guess[k].measure, v->guess[i].measure) == 0;
        if (repeated) continue;
        text_printf(text, "%s %s", said++ ? ";" : ":", v->guess[i].measure);
    }
    text_add(text, ".");
}

static void say_reset(const Look *look, Text *text)
{
    const Seen *s = &look->seen[look->count - 1];
    int said = 0;
    if (s->r->phase != SITE_RESET || !s->shift_m) return;
    for (int p = 0; p < look->day->point_count; p++)
        if (s->shift_m[p] != 0)
            text_printf(text, "%s dial %d by %s", said++ ? "," : " Set anew:", p + 1,
                        say_move(look, s->shift_m[p]));
    text_add(text, said ? "; they count from where they stood." : " No dial was moved.");
}

const char *site_call_act(SiteCall call)
{
    static const char *const act[] = {"Go on", "Read again, pump still, valves shut",
                                      "Hold: pump still, valves shut, nuts down, ask the engineer; "
                                      "never raise the pressure to chase "
                                      "a movement",
                                      "Stop: back to the end of the stage before, nuts following"};
    return act[call];
}

static const char *reason_of(const Look *look, const SiteVerdict *v)
{
    Text text = text_start(look->arena);
    text_printf(&text, "%s", site_call_act(v->call));
    for (int i = 0; i < v->finding_count; i++)
        text_printf(&text, "%s%s", i == 0 ? ": " : "; ", v->finding[i].words);
    text_add(&text, ".");
    say_reset(look, &text);
    if (v->finding_count > 0) {
        say_guesses(v, &text);
        return text.bytes;
    }
    if (look->seen[look->count - 1].r->phase == SITE_NUTS)
        text_add(&text, " The gap stands; on the nuts it alone tells of the force.");
    if (look_read(v->opening_m) && look_read(v->low_m))
        text_printf(&text, " %s, gap %s open; %s to %s is expected.", say_force(look, v->force_N),
                    say_move(look, v->opening_m), say_move(look, v->low_m),
                    say_move(look, v->high_m));
    if (!look_read(v->slope_1))
        text_add(&text, " The slope is not known yet: five readings of the seated deck tell it.");
    return text.bytes;
}

void site_judge(const SiteDay *day, const SiteReading *reading, int count, Arena *arena,
                SiteVerdict *verdict)
{
    Look look;
    Findings *list = ARENA_NEW(arena, Findings, 3);
    SiteVerdict *v = verdict;
    *v = (SiteVerdict){.reason = ""};
    v->force_N = v->force_off_N = v->opening_m = v->low_m = v->expected_m = v->high_m = NAN;
    v->tilt_m = v->warm_K = v->slope_1 = v->slope_low_1 = v->slope_high_1 = NAN;
    v->fall_N = v->fall_most_N = NAN;
    look_make(day, reading, count, arena, &look);
    if (look.count == 0) {
        v->call = SITE_AGAIN;
        v->sure_1 = 1;
        v->reason = "There is no reading that is not struck.";
        return;
    }
    const int at = look.count - 1, befores = at < 2 ? at : 2;
    for (int k = 1; k <= befores; k++) findings_of(&look, at - k, &list[k], NULL);
    findings_of(&look, at, &list[0], v);
    settle(&list[0], &list[1], befores);
    numbers_fill(&look, v);
    verdict_take(v, &list[0]);
    v->sure_1 = v->finding_count ? v->finding[0].sure_1 : sure_of_go(&look, v);
    guess_causes(&look, &list[0], v);
    v->reason = reason_of(&look, v);
}
