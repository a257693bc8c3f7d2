/* What a value that cannot be read was meant to be. What is offered reads as it stands, and is the
 * same amount, or one of several that the grower is asked about. */
#include "reader.h"

#include <math.h>
#include <string.h>

/* A number with what stands behind it. */
typedef struct {
    const char *number; /* in plain digits; a minus only where the key takes one */
    ls_said_unit unit;
    char before; /* ' ', ',' a range '-', '~' for +/- */
} term;

typedef struct {
    ls_arena *arena;
    const ls_farm_key *key; /* NULL: a count */
    const char *t;          /* what a bare t stands for */
    LS_LIST(term) terms;
    bool minus;
    bool comma; /* one stands for a decimal point */
    bool odd;   /* thousands are not set apart as they are, or a word leads that is no money */
    ls_unit_status status;
} said;

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

static bool starts_number(const char *s) { return is_digit(s[0]) || (s[0] == '.' && is_digit(s[1])); }

/* In plain digits, of as many as matter. */
static const char *digits_of(ls_arena *a, double n) {
    enum { DIGITS = 6 };
    const char *shown = ls_number_text(a, n, DIGITS);
    ls_text *t = ls_text_new(a);
    for (; *shown != '\0'; shown++)
        if (*shown != ',') ls_text_add_n(t, shown, 1);
    return t->s;
}

/* Commas between thousands go; one that stands for a decimal point becomes it. Moves on. */
static const char *take_digits(said *v, const char **s) {
    ls_arena *a = v->arena;
    ls_text *t = ls_text_new(a);
    bool thousands = false;
    for (; is_digit(**s) || **s == '.' || **s == ','; ++*s) {
        size_t n = strspn(*s + 1, "0123456789");
        bool leading = t->n == 0 || strcmp(t->s, "0") == 0;
        if (**s == '.' && (*s)[1] == '.') break;
        if (t->n == 0 && **s == '.') ls_text_add(t, "0");
        if (**s == ',' && n == 0) break;
        if (**s == ',' && n == 3 && !leading) {
            v->odd = v->odd || (!thousands && t->n > 3);
            thousands = true;
            continue;
        }
        v->comma = v->comma || **s == ',';
        ls_text_add(t, **s == ',' ? "." : ls_arena_copy_n(a, *s, 1));
    }
    return t->s;
}

/* "3/4" or "2 3/4" behind the digits of its whole part; "24k", "1 million". */
static const char *take_fraction(ls_arena *a, const char *digits, const char **s) {
    static const struct {
        const char *words;
        double n;
    } many[] = {{"k", 1e3}, {"thousand", 1e3}, {"million", 1e6}, {"dozen", 12}};
    double whole = 0, over = 0, under = 0;
    const char *at = *s + strspn(*s, " ");
    if (!ls_number_parse(digits, strlen(digits), &whole)) return digits;
    size_t n = strspn(at, "0123456789"), word = strcspn(at, " /,");
    if (n > 0 && at > *s && at[n] == '/' && is_digit(at[n + 1]))
        ls_number_parse(at, n, &over);
    else if (at == *s && at[0] == '/' && is_digit(at[1]))
        over = whole, whole = 0, n = 0;
    if (over > 0) {
        size_t m = strspn(at + n + 1, "0123456789");
        ls_number_parse(at + n + 1, m, &under);
        *s = at + n + 1 + m;
        return under > 0 ? digits_of(a, whole + over / under) : digits;
    }
    for (size_t i = 0; i < sizeof many / sizeof *many; i++)
        if (ls_text_among(many[i].words, ls_arena_copy_n(a, at, word))) {
            *s = at + word;
            return digits_of(a, whole * many[i].n);
        }
    return digits;
}

/* The words behind a number up to the next one; moves on. */
static const char *take_words(ls_arena *a, const char **s) {
    const char *start = *s, *end = start;
    bool divides = false;
    for (const char *w = start + strspn(start, " "); *w != '\0'; w += strspn(w, " ")) {
        size_t n = strcspn(w, " "), quote = strcspn(w, "'\"");
        bool next = (starts_number(w) && !divides) || strncmp(w, "+/-", 3) == 0 || strncmp(w, "±", 2) == 0 ||
                    strchr("-.,;", w[0]) || ls_text_among("to|and", ls_arena_copy_n(a, w, n));
        if (next) break;
        if (quote < n && starts_number(w + quote + 1)) n = quote + 1; /* 43'6" */
        divides = w[n - 1] == '/' || ls_text_among("per|a|each", ls_arena_copy_n(a, w, n));
        end = w += n;
        if (!divides && n > 1 && (w[-1] == ',' || w[-1] == ';')) {
            end--;
            break;
        }
        if (starts_number(w)) break;
    }
    *s = end;
    return ls_arena_copy_n(a, start, (size_t)(end - start));
}

/* What stands between two numbers; moves on. '!' for what no number follows. */
static char take_join(const char **s) {
    static const struct {
        const char *mark;
        char is;
    } marks[] = {{"+/-", '~'}, {"±", '~'}, {"..", '-'}, {"-", '-'}, {"–", '-'},
                 {"to ", '-'}, {",", ','}, {";", ','},  {"", ' '}};
    *s += strspn(*s, " ");
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++)
        if (strncmp(*s, marks[i].mark, strlen(marks[i].mark)) == 0) {
            *s += strlen(marks[i].mark);
            *s += strspn(*s, " ");
            return starts_number(*s) ? marks[i].is : '!';
        }
    return '!';
}

/* Leading words that change no amount, a minus, and "$" before the number. */
static const char *skip_lead(said *v, const char *s, const char **money) {
    static const char *const leads[] = {"about ",  "approx. ", "approx ", "approximately ",
                                        "around ", "ca. ",     "ca ",     "~"};
    for (size_t i = 0; i < sizeof leads / sizeof *leads; i++)
        if (strncmp(s, leads[i], strlen(leads[i])) == 0) s += strlen(leads[i]);
    v->minus = s[0] == '-';
    s += v->minus || s[0] == '+';
    size_t n = 0;
    while (s[n] != '\0' && s[n] != ' ' && !is_digit(s[n]) && s[n] != '.' && s[n] != '-') n++;
    *money = ls_arena_copy_n(v->arena, s, n);
    v->odd = n > 0 && strchr(*money, '$') == NULL;
    s += n + strspn(s + n, " ");
    v->minus = v->minus || s[0] == '-';
    return s + (s[0] == '-');
}

/* The unit as the key has it, if it is the same: "mph" for "mi/h". */
static const char *as_of_key(const said *v, const char *text) {
    ls_unit unit, own;
    const char *part;
    if (v->key == NULL || ls_unit_parse(v->arena, text, strlen(text), &unit) != LS_UNIT_OK) return text;
    for (size_t i = 0; (part = ls_farm_part(v->arena, v->key->units, i)) != NULL; i++) {
        own = ls_unit_of(part);
        if (text[0] != '%' && part[0] != '%' && own.factor == unit.factor &&
            ls_dimension_same(own.dimension, unit.dimension))
            return part;
    }
    return text;
}

/* Read all of it; false: no numbers with units. */
static bool read_said(said *v, const char *s) {
    const char *money;
    char before = ' ';
    s = skip_lead(v, s, &money);
    while (*s != '\0') {
        if (!starts_number(s)) return false;
        term *one = LS_PUSH(v->arena, &v->terms);
        one->before = before;
        one->number = take_digits(v, &s);
        if (money[0] == '\0') /* "$30/50 lb" is no fraction */
            one->number = take_fraction(v->arena, one->number, &s);
        if (v->minus && v->key != NULL && v->key->least < 0) {
            one->number = ls_arena_printf(v->arena, "-%s", one->number);
            v->minus = false;
        }
        const char *words = take_words(v->arena, &s);
        v->status = ls_unit_said(v->arena, ls_arena_printf(v->arena, "%s %s", v->terms.n == 1 ? money : "", words),
                                 v->t, &one->unit);
        if (v->status != LS_UNIT_OK) return false;
        one->unit.text = as_of_key(v, one->unit.text);
        before = *s == '\0' ? ' ' : take_join(&s);
        if (before == '!') return false;
    }
    return v->terms.n > 0;
}

/* Its number times the scale of its unit. */
static const char *scaled(ls_arena *a, const term *t, double scale) {
    double n = 0;
    const char *sign = t->number[0] == '-' ? "-" : "", *digits = t->number + strlen(sign);
    if (scale == 1 || !ls_number_parse(digits, strlen(digits), &n)) return t->number;
    return ls_arena_printf(a, "%s%s", sign, digits_of(a, n * scale));
}

/* Terms from..to-1 with one unit behind them, or each with its own. */
static void write_terms(ls_text *t, const said *v, size_t from, size_t to) {
    const ls_said_unit *unit = &v->terms.at[to - 1].unit;
    bool each = false;
    for (size_t i = from; i < to; i++)
        each = each || (v->terms.at[i].unit.text[0] != '\0' && strcmp(v->terms.at[i].unit.text, unit->text) != 0);
    for (size_t i = from; i < to; i++) {
        const term *one = &v->terms.at[i];
        const ls_said_unit *own = each ? &one->unit : unit;
        const char *number = scaled(v->arena, one, own->scale);
        ls_text_addf(t, "%s%s", i == from ? "" : one->before == '-' ? ".." : " ", number);
        if ((each || i + 1 == to) && own->text[0] != '\0')
            ls_text_addf(t, " %s", strcmp(number, "1") == 0 ? own->text : ls_unit_many(v->arena, own->text));
    }
}

/* As a farm file has it. */
static const char *write_said(const said *v) {
    ls_text *t = ls_text_new(v->arena);
    size_t half = 0;
    while (half < v->terms.n && v->terms.at[half].before != '~') half++;
    write_terms(t, v, 0, half);
    if (half < v->terms.n) {
        ls_text *with = ls_text_new(v->arena);
        bool bare = v->terms.at[half - 1].unit.text[0] == '\0';
        write_terms(with, v, half, v->terms.n);
        ls_text_addf(t, "%s%s +/- %s", bare ? " " : "", bare ? v->terms.at[v->terms.n - 1].unit.text : "", with->s);
    }
    return t->s;
}

/* ---- what reads ---- */

typedef struct {
    ls_farm_reader *reader;
    ls_farm_value value;
    ls_text *offers;
    size_t n;
    ls_quantity last; /* what was offered last */
} offering;

static bool reads(const offering *o, const char *text, ls_quantity *out) {
    ls_node node = *o->value.node;
    ls_farm_value as = {o->value.key, o->value.label, o->value.name, &node};
    node.text = text;
    return ls_farm_try_quantity(o->reader, as, out).message == NULL;
}

/* But for what a conversion misses by. */
static bool alike(double a, double b) { return fabs(a - b) <= 1e-9 * fabs(a); }

/* Offer a text that reads, once, with the amount in the usual unit. */
static bool offer(offering *o, const char *text) {
    enum { DIGITS = 3 };
    ls_arena *a = o->reader->arena;
    ls_quantity q;
    if (!reads(o, text, &q) ||
        (o->n > 0 && alike(q.value, o->last.value) && ls_dimension_same(q.unit.dimension, o->last.unit.dimension)))
        return false;
    const char *quoted = ls_arena_printf(a, "\"%s\"", text);
    o->last = q;
    ls_text_addf(o->offers, "%s%s", o->n++ > 0 ? " or " : "", quoted);
    ls_unit usual = ls_farm_limit_unit(a, o->value.key, q.unit);
    if (q.form == LS_PLAIN && !alike(q.unit.factor, usual.factor))
        ls_text_addf(o->offers, " (%s)",
                     ls_unit_amount(a, ls_number_text(a, q.value / usual.factor, DIGITS), usual.text));
    return true;
}

/* The number in a unit, or where that is beyond the limits in the smaller one in its place. */
static void offer_in(offering *o, const char *number, const char *unit) {
    static const char *const smaller[][2] = {{"tonne", "kg"}, {"ton", "lb"}};
    ls_arena *a = o->reader->arena;
    bool one = strcmp(number, "1") == 0;
    if (offer(o, ls_arena_printf(a, "%s %s", number, one ? unit : ls_unit_many(a, unit)))) return;
    for (size_t i = 0, n; i < sizeof smaller / sizeof *smaller; i++)
        if (n = strcspn(unit, "/"), n == strlen(smaller[i][0]) && strncmp(unit, smaller[i][0], n) == 0)
            offer(o, ls_arena_printf(a, "%s %s%s", number, smaller[i][1], unit + n));
}

/* The number with each unit that it may have. */
static const char *with_units(offering *o, const char *number) {
    ls_arena *a = o->reader->arena;
    const ls_farm_key *key = o->value.key;
    const char *part;
    double n = 0;
    if (key->per != NULL) offer(o, ls_arena_printf(a, "%s %s", number, key->per));
    for (size_t i = 0; key->per == NULL && (part = ls_farm_part(a, key->units, i)) != NULL; i++) {
        ls_unit unit = ls_unit_of(part);
        offer_in(o, number, part);
        if (unit.dimension.power[LS_BUSHEL] == 0 && unit.dimension.power[LS_BALE] == 0)
            offer_in(o, number, ls_unit_metric(a, unit).text);
        if (strcmp(part, "%") == 0 && ls_number_parse(number, strlen(number), &n) && n < 1)
            offer(o, ls_arena_printf(a, "%s %%", digits_of(a, 100 * n)));
    }
    return o->n == 0   ? NULL
           : o->n == 1 ? ls_arena_printf(a, "write it with its unit: %s", o->offers->s)
                       : ls_arena_printf(a, "which unit is it? write %s", o->offers->s);
}

/* A unit that lacks what it counts for ("9 h" for "9 h/day"), or has too much of it. */
static const char *with_tails(offering *o, const char *text) {
    ls_arena *a = o->reader->arena;
    const char *unit, *last = strrchr(text, '/');
    for (size_t i = 0; (unit = ls_farm_part(a, o->value.key->units, i)) != NULL; i++) {
        const char *first = strchr(unit, '/'), *second = first ? strchr(first + 1, '/') : NULL;
        const char *slash = strchr(text, '/');
        if (first != NULL) offer(o, ls_arena_printf(a, "%s%s", text, first));
        if (second != NULL) {
            offer(o, ls_arena_printf(a, "%s%s", text, second));
            if (slash != NULL) /* "3.5 oz/day" */
                offer(o,
                      ls_arena_printf(a, "%.*s%.*s%s", (int)(slash - text), text, (int)(second - first), first, slash));
        }
    }
    if (last != NULL && o->n == 0) offer(o, ls_arena_copy_n(a, text, (size_t)(last - text)));
    return o->n == 0 ? NULL : ls_arena_printf(a, "did you mean %s?", o->offers->s);
}

/* Is a nutrient in the unit the one of the key? A key of pounds an acre that names none takes any.
 */
static bool same_nutrient(const ls_farm_key *key, const char *of) {
    static const char *const same[] = {"N|nitrogen|organic_nitrogen|total_nitrogen|available_nitrogen",
                                       "P2O5|phosphate", "K2O|potash", "P|phosphorus", "K|potassium"};
    for (size_t i = 0; i < sizeof same / sizeof *same; i++)
        if (ls_text_among(same[i], key->name)) return ls_text_among(same[i], of);
    return strcmp(key->units, "lb/ac") == 0;
}

/* Other units in which the number is within the limits of the key. */
static const char *within_limits(offering *o, const term *t) {
    ls_arena *a = o->reader->arena;
    ls_unit unit;
    if (ls_unit_parse(a, t->unit.text, strlen(t->unit.text), &unit) != LS_UNIT_OK ||
        (ls_dimension_none(unit.dimension) && strchr(t->unit.text, '/') != NULL) ||
        !ls_dimension_same(unit.dimension, ls_farm_limit_unit(a, o->value.key, unit).dimension) ||
        with_units(o, t->number) == NULL)
        return NULL;
    return ls_arena_printf(a, "check number and unit: did you mean %s?", o->offers->s);
}

/* "200 g/kg" of what is given in %: a weight in a weight. */
static bool offer_share(offering *o, const term *t) {
    ls_arena *a = o->reader->arena;
    ls_unit whole, first;
    double n;
    const char *unit = t->unit.text, *usual = ls_farm_part(a, o->value.key->units, 0);
    return strcmp(usual, "%") == 0 && strchr(unit, '/') != NULL &&
           ls_unit_parse(a, unit, strlen(unit), &whole) == LS_UNIT_OK &&
           ls_unit_parse(a, unit, strcspn(unit, "/"), &first) == LS_UNIT_OK && ls_dimension_none(whole.dimension) &&
           ls_dimension_same(first.dimension, ls_unit_of("lb").dimension) &&
           ls_number_parse(t->number, strlen(t->number), &n) &&
           offer(o, ls_arena_printf(a, "%s %%", digits_of(a, n * t->unit.scale * whole.factor * 100)));
}

/* Is it for a hen, or an hour, as the key is? */
static bool is_per(const ls_farm_key *key, const term *t) {
    const char *last = strrchr(t->unit.text, '/');
    return key->per != NULL && last != NULL && strcmp(last + 1, strcmp(key->per, "per hen") == 0 ? "hen" : "h") == 0;
}

static const char *explain(offering *o, const said *v) {
    ls_arena *a = o->reader->arena;
    const ls_farm_key *key = o->value.key;
    const term *one = v->terms.n == 1 ? &v->terms.at[0] : NULL;
    const char *text = write_said(v), *of = v->terms.at[v->terms.n - 1].unit.of;
    if (of != NULL && !same_nutrient(key, of))
        return ls_arena_printf(a, "it counts %s, not %s: change it first%s, then %s", of, o->value.label,
                               of[0] == 'N' || of[0] == 'n' ? "" : " (P2O5 = 2.2914 P, K2O = 1.2046 K)",
                               ls_farm_for_example(o->reader, key));
    if (one != NULL && (one->unit.text[0] == '\0' || is_per(key, one))) return with_units(o, one->number);
    if (offer(o, text) || (one != NULL && offer_share(o, one)))
        return ls_arena_printf(a, v->minus ? "it cannot be below 0: did you mean %s?" : "write %s", o->offers->s);
    const char *tails = with_tails(o, text);
    return tails == NULL && one != NULL ? within_limits(o, one) : tails;
}

const char *ls_farm_whole_number(ls_arena *a, const char *text) {
    said v = {.arena = a, .t = "ton"};
    ls_unit unit = {0};
    bool read = read_said(&v, text);
    if (v.terms.n != 1 || v.minus || strchr(v.terms.at[0].number, '.') || (!read && v.status != LS_UNIT_UNKNOWN))
        return NULL;
    const char *words = v.terms.at[0].unit.text;
    if (read && words[0] != '\0' && strcmp(words, "day") != 0 &&
        (ls_unit_parse(a, words, strlen(words), &unit) != LS_UNIT_OK || unit.factor != 1 ||
         unit.dimension.power[LS_MASS] != 0 || unit.dimension.power[LS_LENGTH] != 0))
        return NULL; /* 24 tons are no count of 24 */
    return v.terms.at[0].number;
}

/* "22 lb/pail": 1.5 level pails of 5 gallons make a cubic foot (5 gal = 0.668 ft3). */
static bool by_pail(offering *o) {
    const double pails = 1.5;
    double n = 0;
    const char *s = o->value.node->text, *words = s + strspn(s, "0123456789. ");
    bool pail = strncmp(words, "lb", 2) == 0 && (strstr(words, "pail") || strstr(words, "bucket"));
    size_t digits = strspn(s, "0123456789.");
    if (!pail || strcmp(o->value.key->units, "lb/ft3") != 0 || !ls_number_parse(s, digits, &n)) return false;
    ls_text_add(o->offers, "if the pail holds 5 gallons, level, did you mean ");
    return offer(o, ls_arena_printf(o->reader->arena, "%s lb/ft3", digits_of(o->reader->arena, n * pails)));
}

/* "310 $/load" of what is paid for a ton: what a load weighs is not known here. */
static bool by_load(offering *o) {
    const double tons = 10;
    double n = 0;
    const char *s = o->value.node->text;
    s += s[0] == '$';
    size_t digits = strspn(s, "0123456789.");
    ls_arena *a = o->reader->arena;
    if (strcmp(o->value.key->units, "$/ton") != 0 || strstr(s, "load") == NULL || !ls_number_parse(s, digits, &n))
        return false;
    ls_text_addf(o->offers, "divide it by the tons of a load: of 10 tons for example \"%s $/ton\"",
                 digits_of(a, n / tons));
    return true;
}

static const char *meant(ls_farm_reader *reader, ls_farm_value value) {
    static const char *const ts[] = {NULL, "ton", "tonne"};
    ls_arena *a = reader->arena;
    offering o = {.reader = reader, .value = value, .offers = ls_text_new(a)};
    const char *whole_number = value.key->kind == LS_FARM_BARE ? ls_farm_whole_number(a, value.node->text) : NULL;
    if (value.key->kind == LS_FARM_BARE)
        return whole_number && offer(&o, whole_number) ? ls_arena_printf(a, "write %s", o.offers->s) : NULL;
    if (by_pail(&o) || by_load(&o)) return o.offers->s;
    for (size_t i = 0; i < sizeof ts / sizeof *ts; i++) {
        said v = {.arena = a, .key = value.key, .t = ts[i]};
        bool whole = read_said(&v, value.node->text);
        if (v.status == LS_UNIT_MONEY)
            return ls_arena_printf(a,
                                   "money is in dollars here: change it at today's rate, then "
                                   "%s",
                                   ls_farm_for_example(reader, value.key));
        if (i == 0 && v.status != LS_UNIT_T) return whole ? explain(&o, &v) : NULL;
        if (whole) offer(&o, write_said(&v));
    }
    return o.n == 0 ? NULL : ls_arena_printf(a, "a ton is 2,000 lb, a tonne 1,000 kg: write %s", o.offers->s);
}

/* The same amount in a form that reads, if it can be meant in one way alone; else NULL. */
static const char *surely_meant(ls_farm_reader *reader, ls_farm_value value) {
    /* in a metric file a t is what the International System calls so */
    said v = {.arena = reader->arena, .key = value.key, .t = reader->metric ? "tonne" : NULL};
    if (value.key->kind == LS_FARM_BARE) return ls_farm_whole_number(reader->arena, value.node->text);
    if (!read_said(&v, value.node->text) || v.minus || v.odd ||
        (v.comma && (value.key->flags & LS_FARM_READINGS))) /* or two readings */
        return NULL;
    const char *of = v.terms.at[v.terms.n - 1].unit.of;
    return of != NULL && !same_nutrient(value.key, of) ? NULL : write_said(&v);
}

/* What is wrong with the value, or with what it surely means. */
static ls_farm_fault try_either(ls_farm_reader *reader, ls_farm_value value, ls_quantity *out) {
    ls_farm_fault fault = ls_farm_try_quantity(reader, value, out);
    ls_node plain = *value.node;
    plain.text = fault.message == NULL ? NULL : surely_meant(reader, value);
    value.node = &plain;
    return plain.text == NULL ? fault : ls_farm_try_quantity(reader, value, out);
}

bool ls_farm_fits(ls_farm_reader *reader, ls_farm_value value) {
    ls_quantity q;
    return try_either(reader, value, &q).message == NULL;
}

bool ls_farm_read_quantity(ls_farm_reader *reader, ls_farm_value value, ls_quantity *out) {
    *out = (ls_quantity){.text = value.node->text, .at = value.node->at};
    if (!ls_farm_is_scalar(reader, value)) return false;
    ls_farm_fault fault = try_either(reader, value, out);
    if (fault.message == NULL) return true;
    const char *better = meant(reader, value);
    return LS_FARM_MISTAKE(reader, value, better ? better : fault.hint, "%s", fault.message);
}
