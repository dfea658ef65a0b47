/* Words of the command line to a request, by the table of options. */
#include <string.h>

#include "cli.h"

enum { USAGE_COLUMNS = 79 };

static const struct {
    const char *name, *argument, *help;
} option[OPTION_COUNT] = {
#define X(id, name, argument, help) {name, argument, help},
    OPTION_LIST(X)
#undef X
};

static bool takes(const Command *command, int id) { return command->options >> id & 1; }

static Status unknown_option(const Command *command, const char *word, Error *err)
{
    const char *names[OPTION_COUNT + 1];
    int count = 0;
    for (int id = 0; id < OPTION_COUNT; id++)
        if (takes(command, id)) names[count++] = option[id].name;
    names[count++] = "--help";
    error_set(err, STATUS_BAD_INPUT, "clench %s has no option '%s'", command->name, word);
    const char *nearest = name_nearest(word, names, count);
    if (nearest) snprintf(err->suggestion, sizeof err->suggestion, "%s", nearest);
    return STATUS_BAD_INPUT;
}

/* "--html=OUT" and "--html OUT" are the same; `next` is the word behind, NULL at the end. */
static Status option_read(const Command *command, const char *word, const char *next, bool *used,
                          Request *request, Error *err)
{
    const size_t length = strcspn(word, "=");
    for (int id = 0; id < OPTION_COUNT; id++) {
        if (!takes(command, id) || strlen(option[id].name) != length ||
            strncmp(option[id].name, word, length) != 0)
            continue;
        const char *value = word[length] ? word + length + 1 : NULL;
        if (!option[id].argument && value)
            return error_set(err, STATUS_BAD_INPUT, "%s takes no value", option[id].name);
        if (option[id].argument && !value) {
            if (!next)
                return error_set(err, STATUS_BAD_INPUT, "%s needs a value: %s %s", option[id].name,
                                 option[id].name, option[id].argument);
            value = next;
            *used = true;
        }
        if (request->given[id] && id != OPTION_JOINT)
            return error_set(err, STATUS_BAD_INPUT, "%s is given twice", option[id].name);
        if (id == OPTION_JOINT && request->joint_count == JOINTS_MAX)
            return error_set(err, STATUS_BAD_INPUT, "more than %d joints", (int)JOINTS_MAX);
        if (id == OPTION_JOINT) request->joint[request->joint_count++] = value;
        request->given[id] = true;
        request->value[id] = value;
        return STATUS_OK;
    }
    return unknown_option(command, word, err);
}

Status arguments_read(const Command *command, int count, char *const *word, Request *request,
                      Error *err)
{
    Request r = {0};
    bool options = true; /* until the word "--" */
    for (int i = 0; i < count; i++) {
        if (options && !strcmp(word[i], "--")) {
            options = false;
        } else if (options && word[i][0] == '-' && word[i][1]) {
            bool used = false;
            TRY(option_read(command, word[i], i + 1 < count ? word[i + 1] : NULL, &used, &r, err));
            if (used) i++;
        } else if (command->takes_file && !r.file) {
            r.file = word[i];
        } else {
            return error_set(err, STATUS_BAD_INPUT, "clench %s does not take '%s'", command->name,
                             word[i]);
        }
    }
    if (command->takes_file == FILE_NEEDED && !r.file)
        return error_set(err, STATUS_BAD_INPUT, "clench %s needs a bridge file: clench %s FILE",
                         command->name, command->name);
    *request = r;
    return STATUS_OK;
}

static const char *file_word(const Command *command)
{
    static const char *const word[] = {
        [FILE_NONE] = "", [FILE_NEEDED] = " FILE", [FILE_OPTIONAL] = " [FILE]"};
    return word[command->takes_file];
}

void arguments_usage(const Command *command, FILE *out)
{
    const int indent = (int)strlen("usage: clench ") + (int)strlen(command->name);
    int at = indent + (int)strlen(file_word(command));
    fprintf(out, "usage: clench %s%s", command->name, file_word(command));
    for (int id = 0; id < OPTION_COUNT; id++) {
        if (!takes(command, id)) continue;
        char word[64];
        snprintf(word, sizeof word, "[%s%s%s]%s", option[id].name, option[id].argument ? " " : "",
                 option[id].argument ? option[id].argument : "", id == OPTION_JOINT ? "..." : "");
        if (at + 1 + (int)strlen(word) > USAGE_COLUMNS) {
            fprintf(out, "\n%*s", indent, "");
            at = indent;
        }
        fprintf(out, " %s", word);
        at += 1 + (int)strlen(word);
    }
    fputs("\n", out);
}

void arguments_help(const Command *command, FILE *out)
{
    arguments_usage(command, out);
    fprintf(out, "\n%s\n", command->help);
    if (command->options) fputs("\n", out);
    for (int id = 0; id < OPTION_COUNT; id++) {
        if (!takes(command, id)) continue;
        char left[64];
        snprintf(left, sizeof left, "%s %s", option[id].name,
                 option[id].argument ? option[id].argument : "");
        fprintf(out, "  %-18s %s\n", left, option[id].help);
    }
    if (strncmp(command->name, "site ", 5) == 0)
        fputs("\nexit status: 0 done, go on; 1 read again, hold or stop, a margin of the plan "
              "fails,\n"
              "the chain is broken; 2 the input needs a correction; 4 the machine refused a\n"
              "file; 5 a margin of the plan needs an input not given\n",
              out);
    else if (command->takes_file == FILE_NEEDED)
        fputs("\nexit status: 0 done; 1 done, but no thrust meets rules and limits, or the given\n"
              "one does not; 2 the input needs a correction; 3 the mathematics did not come to\n"
              "an end; 4 the machine refused a file; 5 a check needs an input not given\n",
              out);
}
