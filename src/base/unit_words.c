/* Units as people write them behind a number: 3 tons, 1 ton, 36%, $61 a ton. */
#include "unit_symbols.h"

#include "littershed/base/text.h"

#include <string.h>

const char *ls_unit_one(ls_arena *a, const char *unit) {
    size_t n = strcspn(unit, "/");
    bool plural = n > 1 && unit[n - 1] == 's' &&
                  (ls_unit_counted(unit, n - 1) || (n == 3 && strncmp(unit, "lbs", n) == 0));
    return plural ? ls_arena_printf(a, "%.*s%s", (int)(n - 1), unit, unit + n) : unit;
}

const char *ls_unit_many(ls_arena *a, const char *unit) {
    size_t n = strcspn(unit, "/");
    return ls_unit_counted(unit, n) ? ls_arena_printf(a, "%.*ss%s", (int)n, unit, unit + n) : unit;
}

/* "/ton/mi" as " a ton a mile". */
static const char *per(ls_arena *a, const char *s) {
    static const char *const names[][2] = {
        {"mi", "a mile"}, {"h", "an hour"}, {"ac", "an acre"}, {"ha", "a hectare"}};
    ls_text *t = ls_text_new(a);
    while (*s == '/') {
        const char *part = ls_arena_copy_n(a, s + 1, strcspn(s + 1, "/"));
        const char *words = ls_arena_printf(a, "a %s", part);
        for (size_t i = 0; i < sizeof names / sizeof *names; i++)
            words = strcmp(part, names[i][0]) == 0 ? names[i][1] : words;
        ls_text_addf(t, " %s", words);
        s += 1 + strlen(part);
    }
    return t->s;
}

const char *ls_unit_amount(ls_arena *a, const char *number, const char *unit) {
    if (unit[0] == '\0') return number;
    if (unit[0] == '$' && (unit[1] == '/' || unit[1] == '\0'))
        return ls_arena_printf(a, "%s$%s%s", number[0] == '-' ? "-" : "",
                               number + (number[0] == '-'), per(a, unit + 1));
    const char *one = ls_unit_one(a, unit);
    return ls_arena_printf(a, "%s%s%s", number, unit[0] == '%' ? "" : " ",
                           strcmp(number, "1") == 0 ? one : ls_unit_many(a, one));
}
