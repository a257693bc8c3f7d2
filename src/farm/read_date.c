/* Dates, and windows of two. */
#include "reader.h"

#include <string.h>

/* n bytes as a date; what is wrong is noted. */
static ls_date parse_date(ls_farm_reader *reader, ls_farm_value value, const char *s, size_t n) {
    ls_date day = LS_NO_DATE;
    if (ls_date_parse(s, n, &day))
        return day;
    ls_arena *a = reader->arena;
    const char *shown = ls_arena_copy_n(a, s, n);
    bool shaped = n == 10 && strspn(s, "0123456789") == 4 && s[4] == '-' &&
                  strspn(s + 5, "0123456789") == 2 && s[7] == '-';
    if (shaped)
        LS_FARM_MISTAKE(reader, value, "check the year (1900 to 2199), the month and the day",
                        "there is no day %s", shown);
    else
        LS_FARM_MISTAKE(
            reader, value,
            ls_arena_printf(a, "write year, month and day: \"%s\"", ls_farm_example(a, value.key)),
            "\"%s\" is not a date", shown);
    return LS_NO_DATE;
}

void ls_farm_read_date(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ((ls_day *)member)->day = parse_date(reader, value, value.node->text, strlen(value.node->text));
}

void ls_farm_read_window(ls_farm_reader *reader, ls_farm_value value, void *member) {
    const char *text = value.node->text, *dots = strstr(text, "..");
    if (!dots) {
        LS_FARM_MISTAKE(reader, value,
                        ls_arena_printf(reader->arena, "write first and last day: \"%s\"",
                                        ls_farm_example(reader->arena, value.key)),
                        "%s needs two dates with two dots between", value.label);
        return;
    }
    ls_date from = parse_date(reader, value, text, (size_t)(dots - text));
    ls_date to = parse_date(reader, value, dots + 2, strlen(dots + 2));
    if (from == LS_NO_DATE || to == LS_NO_DATE)
        return;
    if (to < from)
        LS_FARM_MISTAKE(reader, value, "write the first day first", "%s ends before it begins",
                        value.label);
    else
        ((ls_open *)member)->days = (ls_window){from, to};
}
