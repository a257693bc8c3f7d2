/* Quantities: "432 ft", "5.5 6 4.5 in", "4..7 in", "31 % +/- 4 %", "158 per hen". */
#include "reader.h"

#include <stdarg.h>
#include <string.h>

/* A quantity being read: its blank-separated words. */
typedef struct {
    ls_farm_reader *reader;
    ls_farm_value value;
    const char **words;
    size_t n;
    ls_farm_fault *fault;
} phrase;

/* Numbers and the unit behind them. */
typedef struct {
    const double *numbers;
    size_t n;
    bool range;
    ls_unit unit;
    const char *written; /* the numbers as written */
} measure;

/* False, so that who reads can return it. */
static bool wrong(const phrase *p, const char *hint, const char *format, ...) __attribute__((format(printf, 3, 4)));
static bool wrong(const phrase *p, const char *hint, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    *p->fault = (ls_farm_fault){ls_arena_vprintf(p->reader->arena, format, arguments), hint};
    va_end(arguments);
    return false;
}

ls_unit ls_farm_unit(ls_arena *a, const ls_farm_key *key) {
    if (key->kind == LS_FARM_BARE) {
        ls_unit unit = {"bird-days", ls_dimension_times(ls_unit_of("bird").dimension, ls_unit_of("day").dimension, 1),
                        1};
        return unit;
    }
    if (key->per && strcmp(key->per, "per hen") == 0) {
        ls_unit unit = ls_unit_of("egg/hen");
        unit.text = key->per;
        return unit;
    }
    if (key->per) {
        ls_unit hour = ls_unit_of("h");
        ls_unit unit = {key->per, ls_dimension_times(ls_unit_of("").dimension, hour.dimension, -1), 1 / hour.factor};
        return unit;
    }
    return ls_unit_of(ls_farm_part(a, key->units, 0));
}

/* How to write it at all. */
static const char *example_hint(const phrase *p) {
    ls_arena *a = p->reader->arena;
    const ls_farm_key *key = p->value.key;
    const char *example = key->kind == LS_FARM_QUANTITY ? key->example
                          : key->kind == LS_FARM_ZONED  ? key->plain
                                                        : "610 $/ton";
    const char *units = key->per == NULL && strchr(key->units, '|')
                            ? ls_arena_printf(a, " in %s", ls_farm_units(a, key))
                            : " with its unit";
    return ls_arena_printf(a, "write the number%s, for example \"%s: %s\"", units, p->value.name,
                           ls_farm_local(p->reader, example));
}

static void split(phrase *p, const char *s) {
    static const char blanks[] = " \t\r\n";
    LS_LIST(const char *) words = {0};
    for (s += strspn(s, blanks); *s; s += strspn(s, blanks)) {
        size_t length = strcspn(s, blanks);
        *LS_PUSH(p->reader->arena, &words) = ls_arena_copy_n(p->reader->arena, s, length);
        s += length;
    }
    p->words = words.at;
    p->n = words.n;
}

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

/* Does it begin as a number does? */
static bool numberlike(const char *s) {
    return is_digit(s[0]) || (strchr("+-.", s[0]) && (is_digit(s[1]) || s[1] == '.'));
}

static bool read_number(const phrase *p, const char *s, double *out) {
    ls_arena *a = p->reader->arena;
    bool minus = s[0] == '-';
    if (!ls_farm_number(a, s + minus, strlen(s + minus), out))
        return wrong(p, "write it in plain digits, such as 12000 or 0.5", "\"%s\" is not a number", s);
    *out = minus ? -*out : *out;
    return !minus || p->value.key->least < 0 ||
           wrong(p, "write a number without a sign", "%s must not be below zero", p->value.label);
}

/* "low..high" */
static bool read_range(const phrase *p, const char *s, double ends[2]) {
    const char *dots = strstr(s, "..");
    ls_arena *a = p->reader->arena;
    if (!(p->value.key->flags & LS_FARM_SPREAD))
        return wrong(p, "write one number", "%s cannot be a range", p->value.label);
    if (!read_number(p, ls_arena_copy_n(a, s, (size_t)(dots - s)), &ends[0]) || !read_number(p, dots + 2, &ends[1]))
        return false;
    return ends[0] <= ends[1] || wrong(p, "write the lower end first", "this range runs downward");
}

static const char *joined(const phrase *p, size_t from, size_t to) {
    ls_text *text = ls_text_new(p->reader->arena);
    for (size_t i = from; i < to; i++) ls_text_addf(text, "%s%s", i > from ? " " : "", p->words[i]);
    return text->s;
}

/* The dimension of what stands before the first slash: it tells h/day from %. */
static ls_dimension first_dimension(ls_arena *a, ls_unit unit) {
    ls_unit first = ls_unit_of("");
    ls_unit_parse(a, unit.text, strcspn(unit.text, "/"), &first);
    return first.dimension;
}

static bool same_sort(ls_arena *a, ls_unit x, ls_unit y) {
    if (!ls_dimension_same(x.dimension, y.dimension)) return false;
    return !ls_dimension_none(x.dimension) || ls_dimension_same(first_dimension(a, x), first_dimension(a, y));
}

static bool unit_fits(ls_arena *a, const ls_farm_key *key, ls_unit unit) {
    const char *part;
    for (size_t i = 0; (part = ls_farm_part(a, key->units, i)) != NULL; i++)
        if (same_sort(a, ls_unit_of(part), unit)) return true;
    return false;
}

/* Read a unit that stands in words from..to-1, behind numbers as written. */
static bool read_unit(const phrase *p, size_t from, size_t to, const char *numbers, ls_unit *out) {
    ls_arena *a = p->reader->arena;
    const char *text = joined(p, from, to);
    if (p->value.key->per && strcmp(text, p->value.key->per) == 0) {
        *out = ls_farm_unit(a, p->value.key);
        return true;
    }
    if (p->value.key->per && strcmp(text, "%") != 0)
        return wrong(p, example_hint(p), "%s must be a number %s", p->value.label, p->value.key->per);
    ls_unit_status status = ls_unit_parse(a, text, strlen(text), out);
    if (status == LS_UNIT_T) return wrong(p, example_hint(p), "t in \"%s %s\" may be a ton or a tonne", numbers, text);
    return status == LS_UNIT_OK || wrong(p, example_hint(p), "\"%s\" is not a unit", text);
}

/* "43 ft 6 in": a number and its unit, and the rest in a smaller unit of the kind. */
static bool read_two(const phrase *p, size_t from, size_t to, double *number, ls_unit *unit) {
    ls_arena *a = p->reader->arena;
    double rest;
    ls_unit small;
    if (to != from + 4 || strstr(p->words[from], "..") ||
        !ls_farm_number(a, p->words[from], strlen(p->words[from]), number) ||
        !ls_farm_number(a, p->words[from + 2], strlen(p->words[from + 2]), &rest) ||
        ls_unit_parse(a, p->words[from + 1], strlen(p->words[from + 1]), unit) != LS_UNIT_OK ||
        ls_unit_parse(a, p->words[from + 3], strlen(p->words[from + 3]), &small) != LS_UNIT_OK ||
        !ls_dimension_same(unit->dimension, small.dimension) || small.factor >= unit->factor ||
        rest * small.factor >= unit->factor)
        return false;
    *number += rest * small.factor / unit->factor;
    return true;
}

/* "2/3" of a floor: a share. */
static bool read_part(const phrase *p, size_t from, size_t to, double *number, ls_unit *unit) {
    double whole;
    const char *s = p->words[from], *slash = strchr(s, '/');
    const ls_farm_key *key = p->value.key;
    if (to != from + 1 || slash == NULL || key->per || strcmp(key->units, "%") != 0 ||
        !ls_number_parse(s, (size_t)(slash - s), number) || !ls_number_parse(slash + 1, strlen(slash + 1), &whole) ||
        !(whole > 0))
        return false;
    *unit = ls_farm_unit(p->reader->arena, key);
    *number *= 1 / unit->factor / whole;
    return true;
}

/* Words from..to-1 as numbers and a unit of any kind. */
static bool read_measure(const phrase *p, size_t from, size_t to, measure *out) {
    size_t end = from;
    while (end < to && numberlike(p->words[end])) end++;
    if (end == from) return wrong(p, example_hint(p), "%s must begin with a number", p->value.label);
    out->written = joined(p, from, end);
    double *numbers = LS_NEW(p->reader->arena, double, end - from + 1);
    out->numbers = numbers;
    out->n = end - from;
    out->range = out->n == 1 && strstr(p->words[from], "..") != NULL;
    if (read_two(p, from, to, numbers, &out->unit) || read_part(p, from, to, numbers, &out->unit)) return true;
    if (out->range && !read_range(p, p->words[from], numbers)) return false;
    for (size_t i = 0; i < out->n && !out->range; i++)
        if (!read_number(p, p->words[from + i], &numbers[i])) return false;
    if (end == to) return wrong(p, example_hint(p), "%s needs a unit", p->value.label);
    return read_unit(p, end, to, out->written, &out->unit);
}

ls_unit ls_farm_limit_unit(ls_arena *a, const ls_farm_key *key, ls_unit unit) {
    const char *part;
    for (size_t i = 0; key->kind != LS_FARM_BARE && !key->per && (part = ls_farm_part(a, key->units, i)) != NULL; i++)
        if (ls_dimension_same(ls_unit_of(part).dimension, unit.dimension)) return ls_unit_of(part);
    return ls_farm_unit(a, key);
}

static bool within(const phrase *p, double number, ls_unit unit, bool above) {
    const ls_farm_key *key = p->value.key;
    ls_arena *a = p->reader->arena;
    ls_unit limits = ls_farm_limit_unit(a, key, unit);
    double shown = number * unit.factor / limits.factor;
    const double close = 1e-9; /* a conversion may miss a bound by a last digit */
    if ((above ? shown > key->least : shown >= key->least * (1 - close)) && shown <= key->most * (1 + close))
        return true;
    const char *least = ls_number_text(a, key->least, 6),
               *most = ls_unit_amount(a, ls_number_text(a, key->most, 6), limits.text);
    const char *range = above && key->least == 0 ? ls_arena_printf(a, "more than 0 and at most %s", most)
                                                 : ls_arena_printf(a, "between %s and %s", least, most);
    return wrong(p, "check the number and its unit", "%s must be %s, not %s", p->value.label, range,
                 ls_unit_amount(a, ls_number_text(a, number, 6), unit.text));
}

/* Numbers within the limits: single readings may be at the least where the figure itself may not.
 */
static bool all_within(const phrase *p, const measure *m, double middle) {
    bool above = (p->value.key->flags & LS_FARM_ABOVE) != 0;
    for (size_t i = 0; i < (m->range ? 2 : m->n); i++)
        if (!within(p, m->numbers[i], m->unit, above && m->n == 1 && !m->range)) return false;
    return within(p, middle, m->unit, above);
}

static double mean(const double *x, size_t n) {
    double sum = 0;
    for (size_t i = 0; i < n; i++) sum += x[i];
    return sum / (double)n;
}

/* Words before a +/-, or all of them, as a quantity that fits the key. */
static bool read_body(const phrase *p, size_t to, ls_quantity *out) {
    measure m;
    ls_arena *a = p->reader->arena;
    const ls_farm_key *key = p->value.key;
    if (!read_measure(p, 0, to, &m)) return false;
    bool fits = key->per ? strcmp(m.unit.text, key->per) == 0 : unit_fits(a, key, m.unit);
    if (!fits) return wrong(p, example_hint(p), "%s cannot be in %s", p->value.label, m.unit.text);
    if (m.n > 1 && !(key->flags & LS_FARM_READINGS))
        return wrong(p, example_hint(p), "%s takes one number, not several", p->value.label);
    double middle = mean(m.numbers, m.range ? 2 : m.n);
    if (!all_within(p, &m, middle)) return false;
    double *readings = LS_NEW(a, double, m.n);
    for (size_t i = 0; i < m.n; i++) readings[i] = m.numbers[i] * m.unit.factor;
    out->form = m.range ? LS_RANGE : m.n > 1 ? LS_READINGS : LS_PLAIN;
    out->value = middle * m.unit.factor;
    out->low = m.range ? m.numbers[0] * m.unit.factor : 0;
    out->high = m.range ? m.numbers[1] * m.unit.factor : 0;
    out->readings = m.range ? NULL : readings;
    out->n = m.range ? 0 : m.n;
    out->unit = m.unit;
    return true;
}

/* What stands after the +/-: in words at..n-1. */
static bool read_half(const phrase *whole, size_t at, ls_quantity *out) {
    measure m;
    ls_arena *a = whole->reader->arena;
    phrase p = *whole;
    p.value.label = ls_arena_printf(a, "the +/- of %s", whole->value.label);
    if (!read_measure(&p, at, p.n, &m)) return false;
    if (m.range || m.n > 1)
        return wrong(&p, "write one number and its unit after the +/-", "%s is more than one number", p.value.label);
    bool relative = strcmp(m.unit.text, "%") == 0 && strcmp(out->unit.text, "%") != 0;
    if (!relative && !same_sort(a, m.unit, out->unit))
        return wrong(&p, ls_arena_printf(a, "its unit is \"%s\" or \"%%\"", out->unit.text), "%s cannot be in %s",
                     p.value.label, m.unit.text);
    out->half = m.numbers[0] * m.unit.factor * (relative ? out->value : 1);
    if (out->half > out->value)
        return wrong(&p, "write how far it may be off at most", "%s is larger than the figure itself", p.value.label);
    out->form = LS_PLUS_MINUS;
    return true;
}

static bool read_plus_minus(const phrase *p, size_t sign, ls_quantity *out) {
    if (!(p->value.key->flags & LS_FARM_SPREAD)) return wrong(p, "write one number", "%s takes no +/-", p->value.label);
    for (size_t i = 0; i + 1 < sign; i++)
        if (numberlike(p->words[i]) && numberlike(p->words[i + 1]))
            return wrong(p, "readings show their spread by themselves: take the +/- out",
                         "+/- cannot follow several readings");
    if (!read_body(p, sign, out)) return false;
    if (out->form != LS_PLAIN) return wrong(p, "take the +/- out", "+/- cannot follow a range");
    return read_half(p, sign + 1, out);
}

/* A whole number without a unit. */
static bool read_bare(const phrase *p, ls_quantity *out) {
    double number;
    if (p->n != 1)
        return wrong(p, ls_farm_for_example(p->reader, p->value.key), "%s is a whole number without a unit",
                     p->value.label);
    if (!read_number(p, p->words[0], &number)) return false;
    if (strchr(p->words[0], '.'))
        return wrong(p, "write it without a decimal point", "%s must be a whole number", p->value.label);
    out->unit = ls_farm_unit(p->reader->arena, p->value.key);
    if (!within(p, number, out->unit, false)) return false;
    double *reading = LS_NEW(p->reader->arena, double, 1);
    *reading = out->value = number;
    out->readings = reading;
    out->n = 1;
    out->form = LS_PLAIN;
    return true;
}

ls_farm_fault ls_farm_try_quantity(ls_farm_reader *reader, ls_farm_value value, ls_quantity *out) {
    ls_farm_fault fault = {NULL, NULL};
    phrase p = {reader, value, NULL, 0, &fault};
    ls_quantity read = {.text = value.node->text, .at = value.node->at};
    *out = read;
    split(&p, value.node->text);
    size_t sign = 0;
    while (sign < p.n && strcmp(p.words[sign], "+/-") != 0) sign++;
    bool done = value.key->kind == LS_FARM_BARE ? read_bare(&p, &read)
                : sign < p.n                    ? read_plus_minus(&p, sign, &read)
                                                : read_body(&p, p.n, &read);
    if (done) *out = read;
    return fault;
}
