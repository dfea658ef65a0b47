/* The text is a formula. What is refused has a place inside it; what is read is written and read back
 * to the same text; what has a value has it again from its printed numbers, in the printed digits. */
#include "clench/sheet.h"
#include "fuzz.h"

#include <math.h>
#include <string.h>

static const char *text_of(const Term *term, Arena *arena)
{
    Text text = text_start(arena);
    sheet_text(term, &text);
    return text.bytes;
}

static void check_read_back(const Term *term, Arena *arena)
{
    const char *const once = text_of(term, arena);
    const Term *again;
    if (strlen(once) > SHEET_FORMULA_MAX) return; /* spaces and brackets were added */
    if (sheet_parse(once, arena, &again, NULL) != STATUS_OK) return; /* brackets beyond the depth */
    MUST_HOLD(strcmp(once, text_of(again, arena)) == 0);
}

static void check_printed(const Sheet *sheet, Arena *arena)
{
    const int last = sheet->count - 1;
    const Term *const numbers = sheet_numbers(sheet, last, arena);
    char a[SHEET_NUMBER_MAX], b[SHEET_NUMBER_MAX];
    if (!numbers) return;
    Sheet again = sheet_start("again", arena);
    const double value = sheet_empirical(&again, "x", text_of(numbers, arena), "", "", NULL);
    if (again.status != STATUS_OK) return; /* longer than a formula may be */
    sheet_number(value, SHEET_DIGITS, a);
    MUST_HOLD(strcmp(a, sheet_number(sheet->line[last].value, SHEET_DIGITS, b)) == 0);
}

static void check_value(const char *formula, Arena *arena)
{
    Sheet sheet = sheet_start("fuzz", arena);
    sheet_given(&sheet, "a", 2.385, "in", "");
    sheet_given(&sheet, "b", -0.7071, "ksi", "");
    sheet_given(&sheet, "f'c", 4.1e7, "ksi", "");
    sheet_formula(&sheet, "x", formula, "in", "", NULL);
    MUST_HOLD(sheet.status == STATUS_OK || sheet.err.text[0]);
    sheet.status = STATUS_OK;
    const double value = sheet_empirical(&sheet, "x", formula, "", "", NULL);
    MUST_HOLD((sheet.status == STATUS_OK) == isfinite(value));
    if (sheet.status == STATUS_OK) check_printed(&sheet, arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    char text[SHEET_FORMULA_MAX + 32];
    Error err;
    const Term *term = NULL;
    if (size >= sizeof text) return 0;
    memcpy(text, bytes, size);
    text[size] = 0;
    Arena *const arena = arena_create(64 << 20);
    if (sheet_parse(text, arena, &term, &err) != STATUS_OK) {
        MUST_HOLD(term == NULL && err.text[0]);
        MUST_HOLD(err.status == STATUS_TOO_LARGE ||
                  (err.from.column >= 1 && err.from.column <= (int)strlen(text) + 1));
    } else {
        check_read_back(term, arena);
        check_value(text, arena);
    }
    arena_free(arena);
    return 0;
}
