/* clench: reads the command's name and hands the rest to it. */
#include <stdlib.h>
#include <string.h>

#include "cli.h"

const Command cli_command[] = {
    {"thrust", cmd_thrust, FILE_NEEDED,
     TAKES(JSON) | TAKES(HTML) | TAKES(THRUST) | TAKES(UNITS) | TAKES(DEFAULTS),
     "the thrust that keeps every joint closed, and what limits it",
     "Reads the bridge, follows construction and life of its girder lines and prints\n"
     "the thrust that keeps every joint closed, the limits above it, every rule side\n"
     "by side with its clause, what becomes of the compression, and what the file\n"
     "leaves to defaults."},
    {"life", cmd_life, FILE_NEEDED, TAKES(JSON) | TAKES(JOINT) | TAKES(THRUST) | TAKES(UNITS),
     "the history of the deck at its joints",
     "Prints stress, force and margins of the line that governs at every event and\n"
     "between, at the needed thrust or at a given one. Without --joint: the joint\n"
     "that governs and the ones nearest to piers and mid-spans."},
    {"checks", cmd_checks, FILE_NEEDED, TAKES(JSON) | TAKES(ALL) | TAKES(THRUST) | TAKES(UNITS),
     "every check with demand, capacity and clause",
     "Checks deck, joints, girders, anchor panels, piers, bearings, jacks and panels at\n"
     "the needed thrust or at a given one: demand, capacity, ratio and clause, worst\n"
     "first; then what is unproven and why, and what is not checked. Exit status 1 if a\n"
     "check fails, 5 if none fails but some need an input that the file does not give."},
    {"jacking", cmd_jacking, FILE_NEEDED,
     TAKES(OUT) | TAKES(JSON) | TAKES(HTML) | TAKES(THRUST) | TAKES(UNITS) | TAKES(DATE),
     "the plan of the jacking day: gauge, gap, holds, alarms",
     "Prints what gauge and gap should read at every step, with bands from runs of the\n"
     "stages, when to hold and when to go back, what a jack shut off changes, holds and\n"
     "temperature, the way back and the margins of the jacks. -o writes it for the site,\n"
     "with pictures, workings and sheets to write on. Exit status 1 if a margin fails or\n"
     "the thrust does not meet rules and limits, 5 if the file does not name the jacks."},
    {"panels", cmd_panels, FILE_NEEDED,
     TAKES(OUT) | TAKES(JSON) | TAKES(HTML) | TAKES(UNITS) | TAKES(DATE),
     "the panels: sizes, casting, lifting, closing of joints",
     "Lists the panels of every run with marks, kinds, weights, centres of gravity and\n"
     "pockets; what other layouts would come to; fillings of the casting beds with\n"
     "their days, who is cast against whom, and the age of each panel when it is set;\n"
     "lifting of each kind; force and glue that close a joint. No thrust is looked for.\n"
     "Exit status 1 if a limit is not kept, or if skew, curve or crown leave what the\n"
     "girder lines are judged by."},
    {"seat", cmd_seat, FILE_NEEDED,
     TAKES(SURVEY) | TAKES(DAY) | TAKES(OUT) | TAKES(JSON) | TAKES(HTML) | TAKES(THRUST) |
         TAKES(UNITS) | TAKES(DATE),
     "shims, haunches and grout from a survey of the girders",
     "From the surveyed tops of the girders and the road's profile to the shim at every\n"
     "girder and joint, so that the deck meets the profile after all that moves it later,\n"
     "by the stages; haunches and their limits, a raise of the profile that would keep\n"
     "them, grout, load of the shims, what flat panels leave of a curve, and how sure it\n"
     "is. -o writes OUT.pdf for the crew, OUT.json or OUT.csv. With --thrust that thrust\n"
     "is taken as it is, else the needed one is found. Exit status 1 if a haunch, a shim\n"
     "or a joint passes its limit."},
    {"odds", cmd_odds, FILE_NEEDED,
     TAKES(JSON) | TAKES(HTML) | TAKES(THRUST) | TAKES(UNITS) | TAKES(LIVES) | TAKES(DRAW) |
         TAKES(SEED) | TAKES(THREADS),
     "how sure it is that every joint stays closed",
     "Runs many lives of the deck, each with its own creep, shrinkage, moduli, friction,\n"
     "force, weights, loads, air and age, and prints how likely every joint stays closed\n"
     "until each year, which thrust gives the wanted chance, and what the uncertainty\n"
     "comes from. Exit status 1 if the chance for life is below odds.wanted."},
    {"draw", cmd_draw, FILE_NEEDED,
     TAKES(SURVEY) | TAKES(DAY) | TAKES(OUT) | TAKES(HALF) | TAKES(NORTH) | TAKES(THRUST) |
         TAKES(UNITS) | TAKES(DATE),
     "drawings to scale: bridge, panels, gap, beds (PDF, DXF, SVG)",
     "Draws general plan, section, panel plan, each kind of panel, jacking gap, shim table,\n"
     "casting beds and order of erection to scale with dimensions, and writes them to a\n"
     "folder: drawings.pdf, and each sheet as SVG and as DXF in real inches or mm. Files of\n"
     "those names are replaced, others stay. With --survey the shim table has the heights of\n"
     "clench seat, else it is blank. Exit status as clench panels: 1 if a limit is not kept."},
    {"compare", cmd_compare, FILE_NEEDED, TAKES(JSON) | TAKES(THRUST) | TAKES(UNITS),
     "jacks, tendons, UHPC joints, cast deck: the same bridge",
     "Follows the same deck with the panels connected four ways: by jacks, by tendons in\n"
     "ducts, by UHPC joints without compression, and cast in place. Prints how near each\n"
     "comes to opening, or to cracking, what becomes of the compression and what takes\n"
     "it, what each is built of and its hours of work, and where the jacked way is worse.\n"
     "Exit status 0: it is no check."},
    {"quantities", cmd_quantities, FILE_NEEDED,
     TAKES(OUT) | TAKES(JSON) | TAKES(HTML) | TAKES(UNITS) | TAKES(DATE),
     "what the deck is made of, with every quantity worked out",
     "Prints concrete, bars, grout, glue, connectors, seats, jacks and barriers, a run at\n"
     "a time and in all, with waste and weight, and the product behind every line. -o\n"
     "FILE.xlsx writes a spreadsheet whose sums and products are formulas over inputs that\n"
     "can be changed, -o FILE.csv a table. What the file leaves open is named, not guessed."},
    {"model", cmd_model, FILE_NEEDED, TAKES(OUT) | TAKES(UNITS) | TAKES(DATE),
     "the bridge as an open model (IFC 4.3)",
     "Writes panels with their pockets and holes, joints, closures, girders and barriers as\n"
     "bodies of an IFC 4.3 model to the file of -o, each with its mark, kind, weight and days,\n"
     "and says what the model does not show."},
    {"site", NULL, FILE_NONE, 0, "the log of the jacking day: readings kept and judged",
     "Keeps the readings of the jacking day in FILE.site.db, judges each at once and shows\n"
     "that nothing was changed since. What clench site says is advice to who leads the\n"
     "jacking: nobody raises pressure because a program says so."},
    {"report", cmd_report, FILE_NEEDED,
     TAKES(OUT) | TAKES(HTML) | TAKES(THRUST) | TAKES(UNITS) | TAKES(DATE),
     "the calculation package as PDF",
     "Writes the whole calculation for those who check and sign it: assumptions,\n"
     "inputs, sections, concrete with time, results stage by stage, the needed thrust\n"
     "worked out, every check with its working, pictures, sources. Exit status 1 if a\n"
     "check fails, 5 if none fails but some need an input that the file does not give."},
    {"schema", cmd_schema, FILE_NONE, TAKES(MARKDOWN), "the keys of the bridge file",
     "Prints the JSON Schema (2020-12) of the bridge file, for editors and checks."},
    {"serve", cmd_serve, FILE_OPTIONAL,
     TAKES(PORT) | TAKES(NO_BROWSER) | TAKES(LISTEN) | TAKES(NAME) | TAKES(CERTIFICATE) |
         TAKES(KEY) | TAKES(TOKENS),
     "the bridge as a page that follows the hand, in your browser",
     "Prints the address of a page on this machine, which shows the bridge file, and\n"
     "opens it in your browser. The file is written when you save in the page, changes\n"
     "by other programs show up there; a file that does not exist yet starts with a\n"
     "form. Without FILE: bridge.yaml of the current folder. Revisions that you keep\n"
     "go to FILE.revisions.db. Only this machine can reach the page; Ctrl-C ends it.\n"
     "With --listen others can, over TLS and with a token alone: see docs/server.md."},
};
const int cli_command_count = (int)(sizeof cli_command / sizeof *cli_command);

static const char cautions[] =
    "Answers are proposals to a licensed engineer, not approvals: no published\n"
    "provision is known that covers decks compressed this way; every limit is\n"
    "borrowed and named with its clause.\n";

static const Command *action_find(const char *name)
{
    char whole[64];
    snprintf(whole, sizeof whole, "site %s", name);
    for (int i = 0; i < cli_site_count; i++)
        if (!strcmp(cli_site[i].name, whole)) return &cli_site[i];
    return NULL;
}

static const Command *command_find(const char *name)
{
    for (int i = 0; i < cli_command_count; i++)
        if (!strcmp(cli_command[i].name, name)) return &cli_command[i];
    return NULL;
}

static void print_help(FILE *out)
{
    fputs("usage: clench COMMAND ...\n\n", out);
    for (int i = 0; i < cli_command_count; i++) {
        const Command *c = &cli_command[i];
        static const char *const file[] = {
            [FILE_NONE] = "", [FILE_NEEDED] = "FILE", [FILE_OPTIONAL] = "[FILE]"};
        fprintf(out, "  %-11s%-9s%s\n", c->name, file[c->takes_file], c->summary);
    }
    fputs("  help       COMMAND  what a command does, and its options\n\n"
          "FILE describes a bridge in YAML; \"-\" reads standard input. Bridges to start\n"
          "from are in examples/, ten steps to one of your own in docs/first-bridge.md.\n"
          "clench --version prints the version.\n\n",
          out);
    fputs(cautions, out);
}

/* The file is named where the error has a place in it. */
static int fail(const Error *err, const char *file)
{
    char text[1024];
    if (err->text[0])
        fprintf(stderr, "error: %s\n",
                error_format(err, err->from.line ? file : NULL, text, sizeof text));
    return status_exit_code(err->status);
}

static int unknown_command(const char *name)
{
    const char *names[16];
    int count = 0;
    for (; count < cli_command_count; count++) names[count] = cli_command[count].name;
    names[count++] = "help";
    const char *nearest = name_nearest(name, names, count);
    Error err = {0};
    error_set(&err, STATUS_BAD_INPUT, "there is no command '%s'", name);
    snprintf(err.expected, sizeof err.expected, "a command of clench help");
    if (nearest) snprintf(err.suggestion, sizeof err.suggestion, "%s", nearest);
    return fail(&err, NULL);
}

static int unknown_action(const char *name)
{
    const char *names[16];
    int count = 0;
    for (; count < cli_site_count; count++) names[count] = cli_site[count].name + strlen("site ");
    const char *nearest = name_nearest(name, names, count);
    Error err = {0};
    error_set(&err, STATUS_BAD_INPUT, "clench site does not know '%s'", name);
    snprintf(err.expected, sizeof err.expected, "an action of clench help site");
    if (nearest) snprintf(err.suggestion, sizeof err.suggestion, "%s", nearest);
    return fail(&err, NULL);
}

/* Of one action, or of all. */
static int help_actions(const Command *command, int count, char *const *word)
{
    if (count > 0) {
        const Command *const action = action_find(word[0]);
        if (!action) return unknown_action(word[0]);
        arguments_help(action, stdout);
        return 0;
    }
    printf("usage: clench site ACTION FILE ...\n\n%s\n", command->help);
    for (int i = 0; i < cli_site_count; i++) {
        printf("\n");
        arguments_help(&cli_site[i], stdout);
    }
    return 0;
}

static int help(int count, char *const *word)
{
    if (count == 0 || !strcmp(word[0], "help")) {
        print_help(stdout);
        return 0;
    }
    const Command *command = command_find(word[0]);
    if (!command) return unknown_command(word[0]);
    if (!command->run) return help_actions(command, count - 1, word + 1);
    arguments_help(command, stdout);
    return 0;
}

static bool is_help(const char *word)
{
    return !strcmp(word, "help") || !strcmp(word, "--help") || !strcmp(word, "-h");
}

static int run(const Command *command, int count, char *const *word)
{
    for (int i = 0; i < count; i++)
        if (!strcmp(word[i], "--help") || !strcmp(word[i], "-h")) {
            arguments_help(command, stdout);
            return 0;
        }
    Error err = {0};
    Request request;
    Status status = arguments_read(command, count, word, &request, &err);
    if (status != STATUS_OK) return fail(&err, NULL);
    status = command->run(&request, &err);
    if (status != STATUS_OK && err.status == status) return fail(&err, request.file);
    return status_exit_code(status);
}

int main(int count, char **word)
{
    if (count < 2) {
        print_help(stderr);
        return status_exit_code(STATUS_BAD_INPUT);
    }
    if (is_help(word[1])) return help(count - 2, word + 2);
    if (!strcmp(word[1], "--version")) {
        printf("clench %s\n", clench_version());
        return 0;
    }
    const Command *command = command_find(word[1]);
    if (!command) return unknown_command(word[1]);
    if (command->run) return run(command, count - 2, word + 2);
    if (count < 3) return help_actions(command, 0, NULL) + status_exit_code(STATUS_BAD_INPUT);
    if (is_help(word[2])) return help_actions(command, 0, NULL);
    const Command *const action = action_find(word[2]);
    return action ? run(action, count - 3, word + 3) : unknown_action(word[2]);
}
