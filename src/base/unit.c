#include "unit_symbols.h"

#include "littershed/base/text.h"

#include <math.h>
#include <string.h>

#define DIMENSION(name, p)                                                                                             \
    {                                                                                                                  \
        .power = { [LS_##name] = (p) }                                                                                 \
    }

/* A symbol; what is counted has a plural with an s. metric: the symbol in its place with --units
 * metric; NULL: itself. */
typedef struct {
    ls_unit unit;
    bool counted;
    const char *metric;
} symbol;

/* Exact by definition: 1 in = 2.54 cm, 1 lb = 0.45359237 kg (international yard and pound agreement, 1959), 1 gal = 231
 * in3, 1 mi = 5,280 ft, 1 ac = 43,560 ft2. So 1 ft2 = 0.09290304 m2 and 1 ft3 = 0.028316846592 m3. */
static const symbol symbols[] = {
    {{"lb", DIMENSION(MASS, 1), 1}, false, "kg"},
    {{"lbs", DIMENSION(MASS, 1), 1}, false, "kg"},
    {{"oz", DIMENSION(MASS, 1), 1.0 / 16}, false, "g"},
    {{"ton", DIMENSION(MASS, 1), 2000}, true, "tonne"},
    {{"tonne", DIMENSION(MASS, 1), 1000 / 0.45359237}, true, NULL},
    {{"kg", DIMENSION(MASS, 1), 1 / 0.45359237}, false, NULL},
    {{"g", DIMENSION(MASS, 1), 1 / 453.59237}, false, NULL},
    {{"mg", DIMENSION(MASS, 1), 1 / 453592.37}, false, NULL},
    {{"in", DIMENSION(LENGTH, 1), 1.0 / 12}, false, "cm"},
    {{"ft", DIMENSION(LENGTH, 1), 1}, false, "m"},
    {{"yd", DIMENSION(LENGTH, 1), 3}, false, "m"},
    {{"mi", DIMENSION(LENGTH, 1), 5280}, false, "km"},
    {{"mile", DIMENSION(LENGTH, 1), 5280}, true, "km"},
    {{"mm", DIMENSION(LENGTH, 1), 1 / 304.8}, false, NULL},
    {{"cm", DIMENSION(LENGTH, 1), 1 / 30.48}, false, NULL},
    {{"m", DIMENSION(LENGTH, 1), 1 / 0.3048}, false, NULL},
    {{"km", DIMENSION(LENGTH, 1), 1000 / 0.3048}, false, NULL},
    {{"ft2", DIMENSION(LENGTH, 2), 1}, false, "m2"},
    {{"yd2", DIMENSION(LENGTH, 2), 9}, false, "m2"},
    {{"ac", DIMENSION(LENGTH, 2), 43560}, false, "ha"},
    {{"acre", DIMENSION(LENGTH, 2), 43560}, true, "ha"},
    {{"m2", DIMENSION(LENGTH, 2), 1 / 0.09290304}, false, NULL},
    {{"ha", DIMENSION(LENGTH, 2), 10000 / 0.09290304}, false, NULL},
    {{"ft3", DIMENSION(LENGTH, 3), 1}, false, "m3"},
    {{"yd3", DIMENSION(LENGTH, 3), 27}, false, "m3"},
    {{"gal", DIMENSION(LENGTH, 3), 231.0 / 1728}, false, "L"},
    {{"cm3", DIMENSION(LENGTH, 3), 1 / 28316.846592}, false, NULL},
    {{"l", DIMENSION(LENGTH, 3), 1 / 28.316846592}, false, NULL},
    {{"L", DIMENSION(LENGTH, 3), 1 / 28.316846592}, false, NULL},
    {{"m3", DIMENSION(LENGTH, 3), 1 / 0.028316846592}, false, NULL},
    {{"s", DIMENSION(TIME, 1), 1.0 / 86400}, false, NULL},
    {{"min", DIMENSION(TIME, 1), 1.0 / 1440}, false, NULL},
    {{"h", DIMENSION(TIME, 1), 1.0 / 24}, false, NULL},
    {{"hour", DIMENSION(TIME, 1), 1.0 / 24}, true, NULL},
    {{"day", DIMENSION(TIME, 1), 1}, true, NULL},
    {{"week", DIMENSION(TIME, 1), 7}, true, NULL},
    {{"year", DIMENSION(TIME, 1), 365}, true, NULL}, /* of the published tables */
    {{"bird-day", {.power = {[LS_BIRD] = 1, [LS_TIME] = 1}}, 1}, true, NULL},
    {{"mph", {.power = {[LS_LENGTH] = 1, [LS_TIME] = -1}}, 5280 * 24}, false, "km/h"},
    {{"$", DIMENSION(MONEY, 1), 1}, false, NULL},
    {{"bird", DIMENSION(BIRD, 1), 1}, true, NULL},
    {{"hen", DIMENSION(BIRD, 1), 1}, true, NULL},
    {{"head", DIMENSION(BIRD, 1), 1}, false, NULL},
    {{"egg", DIMENSION(EGG, 1), 1}, true, NULL},
    {{"load", DIMENSION(LOAD, 1), 1}, true, NULL},
    {{"bu", DIMENSION(BUSHEL, 1), 1}, false, NULL},
    {{"bushel", DIMENSION(BUSHEL, 1), 1}, true, NULL},
    {{"bale", DIMENSION(BALE, 1), 1}, true, NULL},
    {{"%", {{0}}, 0.01}, false, NULL},
    {{"ppm", {{0}}, 1e-6}, false, NULL},
};

enum { SYMBOLS = sizeof symbols / sizeof *symbols };

const ls_unit *ls_unit_symbol(size_t index) { return index < SYMBOLS ? &symbols[index].unit : NULL; }

static const symbol *find(const char *s, size_t n) {
    for (size_t i = 0; i < SYMBOLS; i++) {
        size_t m = strlen(symbols[i].unit.text);
        bool plural = symbols[i].counted && n == m + 1 && s[m] == 's';
        if ((n == m || plural) && memcmp(symbols[i].unit.text, s, m) == 0) return &symbols[i];
    }
    return NULL;
}

static bool is_counted(const char *s, size_t n) {
    const symbol *found = find(s, n);
    return found != NULL && found->counted && strlen(found->unit.text) == n;
}

/* a x b or a / b into *out; false where a power leaves the int8. */
static bool combine(ls_dimension a, ls_dimension b, int sign, ls_dimension *out) {
    for (size_t i = 0; i < LS_DIMENSIONS; i++) {
        int power = a.power[i] + sign * b.power[i];
        if (power < INT8_MIN || power > INT8_MAX) return false;
        out->power[i] = (int8_t)power;
    }
    return true;
}

ls_dimension ls_dimension_times(ls_dimension a, ls_dimension b, int sign) {
    ls_dimension product = {{0}};
    if (!combine(a, b, sign, &product)) ls_fail("a dimension is out of range");
    return product;
}

bool ls_dimension_same(ls_dimension a, ls_dimension b) { return memcmp(a.power, b.power, sizeof a.power) == 0; }

bool ls_dimension_none(ls_dimension d) { return ls_dimension_same(d, (ls_dimension){{0}}); }

/* Multiply (first symbol) or divide (the others) one symbol into out. */
static ls_unit_status take(const char *s, size_t n, bool first, ls_unit *out) {
    if (n == 0) return LS_UNIT_MALFORMED;
    const symbol *found = find(s, n);
    if (found == NULL) return n == 1 && s[0] == 't' ? LS_UNIT_T : LS_UNIT_UNKNOWN;
    if (!combine(out->dimension, found->unit.dimension, first ? 1 : -1, &out->dimension)) return LS_UNIT_MALFORMED;
    out->factor = first ? found->unit.factor : out->factor / found->unit.factor;
    return isnormal(out->factor) ? LS_UNIT_OK : LS_UNIT_MALFORMED;
}

/* Reads all of it; out->text stays unset. */
static ls_unit_status read_unit(const char *s, size_t n, ls_unit *out) {
    *out = (ls_unit){NULL, {{0}}, 1};
    for (size_t at = 0; at <= n;) {
        const char *slash = at < n ? memchr(s + at, '/', n - at) : NULL;
        size_t end = slash == NULL ? n : (size_t)(slash - s);
        ls_unit_status status = take(s + at, end - at, at == 0, out);
        if (status != LS_UNIT_OK) return status;
        at = end + 1;
    }
    return LS_UNIT_OK;
}

ls_unit_status ls_unit_parse(ls_arena *a, const char *s, size_t n, ls_unit *out) {
    ls_unit unit;
    ls_unit_status status = read_unit(s, n, &unit);
    if (status != LS_UNIT_OK) return status;
    unit.text = ls_arena_copy_n(a, s, n);
    *out = unit;
    return LS_UNIT_OK;
}

ls_unit ls_unit_of(const char *text) {
    ls_unit unit = {text, {{0}}, 1};
    if (text[0] != '\0' && read_unit(text, strlen(text), &unit) != LS_UNIT_OK)
        ls_fail("the program itself asks for the unknown unit \"%s\"", text);
    unit.text = text;
    return unit;
}

ls_unit ls_unit_metric(ls_arena *a, ls_unit u) {
    ls_text *t = ls_text_new(a);
    ls_unit metric = u;
    for (const char *s = u.text; *s != '\0';) {
        size_t n = strcspn(s, "/");
        const symbol *part = find(s, n);
        if (part != NULL && part->metric != NULL)
            ls_text_add(t, part->metric);
        else
            ls_text_add_n(t, s, n);
        s += n;
        if (*s == '/') ls_text_add_n(t, s++, 1);
    }
    if (strcmp(t->s, u.text) != 0 && read_unit(t->s, t->n, &metric) == LS_UNIT_OK) metric.text = t->s;
    return ls_dimension_same(metric.dimension, u.dimension) ? metric : u;
}

/* ---- as people write them behind a number: 3 tons, 1 ton, 36%, $61 a ton ---- */

const char *ls_unit_one(ls_arena *a, const char *unit) {
    size_t n = strcspn(unit, "/");
    bool plural = n > 1 && unit[n - 1] == 's' && (is_counted(unit, n - 1) || (n == 3 && strncmp(unit, "lbs", n) == 0));
    return plural ? ls_arena_printf(a, "%.*s%s", (int)(n - 1), unit, unit + n) : unit;
}

const char *ls_unit_many(ls_arena *a, const char *unit) {
    size_t n = strcspn(unit, "/");
    return is_counted(unit, n) ? ls_arena_printf(a, "%.*ss%s", (int)n, unit, unit + n) : unit;
}

/* "/ton/mi" as " a ton a mile". */
static const char *per(ls_arena *a, const char *s) {
    static const char *const names[][2] = {{"mi", "a mile"}, {"h", "an hour"}, {"ac", "an acre"}, {"ha", "a hectare"}};
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
        return ls_arena_printf(a, "%s$%s%s", number[0] == '-' ? "-" : "", number + (number[0] == '-'),
                               per(a, unit + 1));
    const char *one = ls_unit_one(a, unit);
    return ls_arena_printf(a, "%s%s%s", number, unit[0] == '%' ? "" : " ",
                           strcmp(number, "1") == 0 ? one : ls_unit_many(a, one));
}
