#include "unit_symbols.h"

#include <math.h>
#include <string.h>

#define DIMENSION(name, p)                                                                         \
    {                                                                                              \
        .power = { [LS_##name] = (p) }                                                             \
    }
#define NONE                                                                                       \
    {                                                                                              \
        .power = { 0 }                                                                             \
    }

/* Exact by definition: 1 in = 2.54 cm, 1 lb = 0.45359237 kg (international yard and pound
 * agreement, 1959), 1 gal = 231 in3, 1 mi = 5,280 ft, 1 ac = 43,560 ft2. So 1 ft2 = 0.09290304 m2
 * and 1 ft3 = 0.028316846592 m3. */
static const ls_unit symbols[] = {
    {"lb", DIMENSION(MASS, 1), 1},
    {"lbs", DIMENSION(MASS, 1), 1},
    {"oz", DIMENSION(MASS, 1), 1.0 / 16},
    {"ton", DIMENSION(MASS, 1), 2000},
    {"tons", DIMENSION(MASS, 1), 2000},
    {"tonne", DIMENSION(MASS, 1), 1000 / 0.45359237},
    {"tonnes", DIMENSION(MASS, 1), 1000 / 0.45359237},
    {"kg", DIMENSION(MASS, 1), 1 / 0.45359237},
    {"g", DIMENSION(MASS, 1), 1 / 453.59237},
    {"mg", DIMENSION(MASS, 1), 1 / 453592.37},
    {"in", DIMENSION(LENGTH, 1), 1.0 / 12},
    {"ft", DIMENSION(LENGTH, 1), 1},
    {"yd", DIMENSION(LENGTH, 1), 3},
    {"mi", DIMENSION(LENGTH, 1), 5280},
    {"mile", DIMENSION(LENGTH, 1), 5280},
    {"miles", DIMENSION(LENGTH, 1), 5280},
    {"mm", DIMENSION(LENGTH, 1), 1 / 304.8},
    {"cm", DIMENSION(LENGTH, 1), 1 / 30.48},
    {"m", DIMENSION(LENGTH, 1), 1 / 0.3048},
    {"km", DIMENSION(LENGTH, 1), 1000 / 0.3048},
    {"ft2", DIMENSION(LENGTH, 2), 1},
    {"yd2", DIMENSION(LENGTH, 2), 9},
    {"ac", DIMENSION(LENGTH, 2), 43560},
    {"acre", DIMENSION(LENGTH, 2), 43560},
    {"acres", DIMENSION(LENGTH, 2), 43560},
    {"m2", DIMENSION(LENGTH, 2), 1 / 0.09290304},
    {"ha", DIMENSION(LENGTH, 2), 10000 / 0.09290304},
    {"ft3", DIMENSION(LENGTH, 3), 1},
    {"yd3", DIMENSION(LENGTH, 3), 27},
    {"gal", DIMENSION(LENGTH, 3), 231.0 / 1728},
    {"cm3", DIMENSION(LENGTH, 3), 1 / 28316.846592},
    {"l", DIMENSION(LENGTH, 3), 1 / 28.316846592},
    {"L", DIMENSION(LENGTH, 3), 1 / 28.316846592},
    {"m3", DIMENSION(LENGTH, 3), 1 / 0.028316846592},
    {"s", DIMENSION(TIME, 1), 1.0 / 86400},
    {"min", DIMENSION(TIME, 1), 1.0 / 1440},
    {"h", DIMENSION(TIME, 1), 1.0 / 24},
    {"hour", DIMENSION(TIME, 1), 1.0 / 24},
    {"hours", DIMENSION(TIME, 1), 1.0 / 24},
    {"day", DIMENSION(TIME, 1), 1},
    {"days", DIMENSION(TIME, 1), 1},
    {"week", DIMENSION(TIME, 1), 7},
    {"weeks", DIMENSION(TIME, 1), 7},
    {"year", DIMENSION(TIME, 1), 365}, /* the year of the published tables, not the astronomers' */
    {"years", DIMENSION(TIME, 1), 365},
    {"bird-day", {.power = {[LS_BIRD] = 1, [LS_TIME] = 1}}, 1},
    {"bird-days", {.power = {[LS_BIRD] = 1, [LS_TIME] = 1}}, 1},
    {"mph", {.power = {[LS_LENGTH] = 1, [LS_TIME] = -1}}, 5280 * 24},
    {"$", DIMENSION(MONEY, 1), 1},
    {"bird", DIMENSION(BIRD, 1), 1},
    {"birds", DIMENSION(BIRD, 1), 1},
    {"hen", DIMENSION(BIRD, 1), 1},
    {"hens", DIMENSION(BIRD, 1), 1},
    {"head", DIMENSION(BIRD, 1), 1},
    {"egg", DIMENSION(EGG, 1), 1},
    {"eggs", DIMENSION(EGG, 1), 1},
    {"load", DIMENSION(LOAD, 1), 1},
    {"loads", DIMENSION(LOAD, 1), 1},
    {"bu", DIMENSION(BUSHEL, 1), 1},
    {"bushel", DIMENSION(BUSHEL, 1), 1},
    {"bushels", DIMENSION(BUSHEL, 1), 1},
    {"bale", DIMENSION(BALE, 1), 1},
    {"bales", DIMENSION(BALE, 1), 1},
    {"%", NONE, 0.01},
    {"ppm", NONE, 1e-6},
};

enum { SYMBOLS = sizeof symbols / sizeof *symbols };

const ls_unit *ls_unit_symbol(size_t index) {
    return index < SYMBOLS ? &symbols[index] : NULL;
}

static const ls_unit *find(const char *s, size_t n) {
    for (size_t i = 0; i < SYMBOLS; i++)
        if (strlen(symbols[i].text) == n && memcmp(symbols[i].text, s, n) == 0)
            return &symbols[i];
    return NULL;
}

/* a x b or a / b into *out; false where a power leaves the int8. */
static bool combine(ls_dimension a, ls_dimension b, int sign, ls_dimension *out) {
    for (size_t i = 0; i < LS_DIMENSIONS; i++) {
        int power = a.power[i] + sign * b.power[i];
        if (power < INT8_MIN || power > INT8_MAX)
            return false;
        out->power[i] = (int8_t)power;
    }
    return true;
}

ls_dimension ls_dimension_times(ls_dimension a, ls_dimension b, int sign) {
    ls_dimension product = NONE;
    if (!combine(a, b, sign, &product))
        ls_fail("a dimension is out of range");
    return product;
}

bool ls_dimension_same(ls_dimension a, ls_dimension b) {
    return memcmp(a.power, b.power, sizeof a.power) == 0;
}

bool ls_dimension_none(ls_dimension d) {
    return ls_dimension_same(d, (ls_dimension)NONE);
}

/* Multiply (first symbol) or divide (the others) one symbol into out. */
static ls_unit_status take(const char *s, size_t n, bool first, ls_unit *out) {
    if (n == 0)
        return LS_UNIT_MALFORMED;
    const ls_unit *symbol = find(s, n);
    if (symbol == NULL)
        return n == 1 && s[0] == 't' ? LS_UNIT_T : LS_UNIT_UNKNOWN;
    if (!combine(out->dimension, symbol->dimension, first ? 1 : -1, &out->dimension))
        return LS_UNIT_MALFORMED;
    out->factor = first ? symbol->factor : out->factor / symbol->factor;
    return isnormal(out->factor) ? LS_UNIT_OK : LS_UNIT_MALFORMED;
}

/* Reads all of it; out->text stays unset. */
static ls_unit_status read_unit(const char *s, size_t n, ls_unit *out) {
    *out = (ls_unit){NULL, NONE, 1};
    for (size_t at = 0; at <= n;) {
        const char *slash = at < n ? memchr(s + at, '/', n - at) : NULL;
        size_t end = slash == NULL ? n : (size_t)(slash - s);
        ls_unit_status status = take(s + at, end - at, at == 0, out);
        if (status != LS_UNIT_OK)
            return status;
        at = end + 1;
    }
    return LS_UNIT_OK;
}

ls_unit_status ls_unit_parse(ls_arena *a, const char *s, size_t n, ls_unit *out) {
    ls_unit unit;
    ls_unit_status status = read_unit(s, n, &unit);
    if (status != LS_UNIT_OK)
        return status;
    unit.text = ls_arena_copy_n(a, s, n);
    *out = unit;
    return LS_UNIT_OK;
}

ls_unit ls_unit_of(const char *text) {
    ls_unit unit = {text, NONE, 1};
    if (text[0] != '\0' && read_unit(text, strlen(text), &unit) != LS_UNIT_OK)
        ls_fail("the program itself asks for the unknown unit \"%s\"", text);
    unit.text = text;
    return unit;
}

/* Whole texts: a unit of the metric system is made of no parts. */
static const struct {
    const char *us, *metric;
} metric_pairs[] = {
    {"lb", "kg"},
    {"oz", "g"},
    {"ton", "tonne"},
    {"in", "cm"},
    {"ft", "m"},
    {"yd", "m"},
    {"mi", "km"},
    {"mile", "km"},
    {"ft2", "m2"},
    {"yd2", "m2"},
    {"ac", "ha"},
    {"acre", "ha"},
    {"ft3", "m3"},
    {"yd3", "m3"},
    {"gal", "L"},
    {"mph", "km/h"},
    {"mi/h", "km/h"},
    {"ft/min", "m/min"},
    {"lb/ton", "kg/tonne"},
    {"lb/lb", "kg/kg"},
    {"ton/ac", "tonne/ha"},
    {"ton/ft3", "tonne/m3"},
    {"ton/yd3", "tonne/m3"},
    {"ton/load", "tonne/load"},
    {"ton/h", "tonne/h"},
    {"yd3/h", "m3/h"},
    {"ton/day", "tonne/day"},
    {"ton/year", "tonne/year"},
    {"lb/ac", "kg/ha"},
    {"lb/ft2", "kg/m2"},
    {"lb/ft3", "kg/m3"},
    {"lb/yd3", "kg/m3"},
    {"lb/bu", "kg/bu"},
    {"lb/bale", "kg/bale"},
    {"lb/day", "kg/day"},
    {"lb/h", "kg/h"},
    {"lb/bird", "kg/bird"},
    {"lb/hen", "kg/hen"},
    {"lb/egg", "kg/egg"},
    {"lb/bird/day", "kg/bird/day"},
    {"lb/hen/day", "kg/hen/day"},
    {"lb/bird/year", "kg/bird/year"},
    {"ft2/bird", "m2/bird"},
    {"ft3/bird", "m3/bird"},
    {"ft3/load", "m3/load"},
    {"ac/h", "ha/h"},
    {"ac/day", "ha/day"},
    {"ac/load", "ha/load"},
    {"bu/ac", "bu/ha"},
    {"bale/ac", "bale/ha"},
    {"mi/load", "km/load"},
    {"$/lb", "$/kg"},
    {"$/ton", "$/tonne"},
    {"$/ac", "$/ha"},
    {"$/mi", "$/km"},
};

/* The same unit, one or many: "ton/ac", "tons/ac". */
static bool one_or_many(const char *one, const char *text) {
    size_t n = strcspn(one, "/");
    return strncmp(one, text, n) == 0 && strcmp(one + n, text + n + (text[n] == 's')) == 0;
}

ls_unit ls_unit_metric(ls_unit u) {
    for (size_t i = 0; i < sizeof metric_pairs / sizeof *metric_pairs; i++)
        if (one_or_many(metric_pairs[i].us, u.text))
            return ls_unit_of(metric_pairs[i].metric);
    return u;
}
