/* Units as people write them: "lb per 100 hens per day", "cu. yd", "kg N/ha", "metric tons". */
#include "unit_symbols.h"

#include "littershed/base/text.h"

#include <string.h>

/* Other words for a symbol, capitals aside, each in the singular; scale: how many of it one is. 1
 * cwt = 100 lb, 1 quintal = 100 kg. */
static const struct {
    const char *words, *symbol;
    double scale;
} also[] = {
    {"feet|foot|'|′|’", "ft", 1},
    {"inch|inche|\"|″|”|''", "in", 1},
    {"yard", "yd", 1},
    {"mile", "mi", 1},
    {"meter|metre", "m", 1},
    {"centimeter|centimetre", "cm", 1},
    {"millimeter|millimetre", "mm", 1},
    {"kilometer|kilometre", "km", 1},
    {"pound|#", "lb", 1},
    {"ounce", "oz", 1},
    {"kilo|kilogram|kilogramme", "kg", 1},
    {"gram|gramme|gm", "g", 1},
    {"milligram", "mg", 1},
    {"cwt|hundredweight", "lb", 100},
    {"dt|quintal", "kg", 100},
    {"mt", "tonne", 1},
    {"acre", "ac", 1},
    {"hectare", "ha", 1},
    {"sqft|sf", "ft2", 1},
    {"cuft|cf", "ft3", 1},
    {"cuyd|cy", "yd3", 1},
    {"cc", "cm3", 1},
    {"gallon", "gal", 1},
    {"liter|litre", "L", 1},
    {"second|sec", "s", 1},
    {"minute", "min", 1},
    {"hr|hour", "h", 1},
    {"d", "day", 1},
    {"wk", "week", 1},
    {"yr", "year", 1},
    {"kph|kmh", "km/h", 1},
    {"pcf", "lb/ft3", 1},
    {"dollar|usd|us$", "$", 1},
    {"cent|¢", "$", 0.01},
    {"chicken|broiler|turkey|duck", "bird", 1},
    {"truckload|truck load", "load", 1},
    {"bushel", "bu", 1},
    {"percent|pct", "%", 1},
};
enum { ALSO = sizeof also / sizeof *also };

static const char other_money[] =
    "€|eur|euro|£|gbp|cad|c$|ca$|can$|aud|au$|nzd|mxn|peso|real|reai|¥|yen|yuan|rmb|rupee|inr|zar|"
    "rand|pln|zloty|try|lira";
static const char nutrients[] = "N|P|K|P2O5|K2O|nitrogen|phosphorus|phosphate|potassium|potash";
static const char pers[] = "per|a|an|each|every";

typedef struct {
    ls_arena *arena;
    const char *t; /* what a bare t stands for; NULL: not known */
    ls_said_unit *out;
    ls_text *text;
    int power;            /* of the next word: 2 behind "square" */
    bool metric, divides; /* "metric"; behind a slash */
} saying;

/* How many of the word one is, or 0: not a number. */
static double number_of(ls_arena *a, const char *word) {
    static const struct {
        const char *words;
        double n;
    } named[] = {{"hundred", 100}, {"thousand", 1000}, {"dozen", 12}, {"million", 1e6}};
    double n = 0;
    for (size_t i = 0; i < sizeof named / sizeof *named; i++)
        if (ls_text_among(named[i].words, word)) return named[i].n;
    ls_text *plain = ls_text_new(a);
    for (; *word != '\0'; word++)
        if (*word != ',') ls_text_add_n(plain, word, 1);
    return ls_number_parse(plain->s, plain->n, &n) ? n : 0;
}

/* The symbol of a word without power; NULL: unknown. */
static const char *symbol_of(ls_arena *a, const char *word, double *scale) {
    ls_unit unit;
    size_t n = strlen(word);
    for (int plural = 0; plural < 2; plural++) {
        const char *one = ls_arena_copy_n(a, word, n - (size_t)plural);
        for (size_t i = 0; i < ALSO; i++)
            if (ls_text_among(also[i].words, one)) {
                *scale = also[i].scale;
                return also[i].symbol;
            }
        *scale = 1;
        if (ls_unit_parse(a, one, strlen(one), &unit) == LS_UNIT_OK) return ls_unit_one(a, one);
        for (size_t i = 0; ls_unit_symbol(i) != NULL; i++) /* capitals, but for one letter alone */
            if (strlen(one) > 1 && ls_text_among(ls_unit_symbol(i)->text, one)) return ls_unit_symbol(i)->text;
        if (n < 2 || (word[n - 1] != 's' && word[n - 1] != 'S')) break;
    }
    return NULL;
}

/* A word that counts: a unit. */
static ls_unit_status take_symbol(saying *s, const char *word) {
    double scale;
    const char *symbol;
    bool first = s->text->n == 0;
    if (first == s->divides) return LS_UNIT_UNKNOWN; /* two units side by side, or nothing before the slash */
    if (ls_text_among("t", word) && s->t == NULL && !s->metric) return LS_UNIT_T;
    if (ls_text_among("a", word))
        symbol = "ac", scale = 1; /* "lb/A"; behind a number alone it may be an are */
    else
        symbol = symbol_of(s->arena, ls_text_among("t", word) ? s->t : word, &scale);
    if (symbol == NULL || (first && ls_text_among("a", word))) return LS_UNIT_UNKNOWN;
    if (s->metric) symbol = strcmp(symbol, "ton") == 0 ? "tonne" : symbol;
    if (s->power > 1) symbol = ls_arena_printf(s->arena, "%s%d", strcmp(symbol, "mile") == 0 ? "mi" : symbol, s->power);
    ls_text_addf(s->text, "%s%s", first ? "" : "/", symbol);
    s->out->scale = first ? s->out->scale * scale : s->out->scale / scale;
    s->divides = s->metric = false;
    s->power = 1;
    return LS_UNIT_OK;
}

/* One word between blanks and slashes. */
static ls_unit_status take(saying *s, const char *word) {
    static const char *const powers[][2] = {{"²", "2"}, {"^2", "2"}, {"³", "3"}, {"^3", "3"}};
    size_t n = strlen(word);
    while (n > 1 && word[n - 1] == '.') n--;
    word = ls_arena_copy_n(s->arena, word, n);
    double number = number_of(s->arena, word);
    if (ls_text_among(pers, word) && s->text->n > 0 && !s->divides)
        s->divides = true;
    else if (number > 0 && s->divides)
        s->out->scale /= number;
    else if (ls_text_among("sq|square", word))
        s->power = 2;
    else if (ls_text_among("cu|cubic", word))
        s->power = 3;
    else if (ls_text_among("metric|short|us|of", word))
        s->metric = ls_text_among("metric", word);
    else if (ls_text_among(nutrients, word) && s->text->n > 0 && !s->divides)
        s->out->of = word;
    else if (ls_text_among(other_money, word) ||
             (ls_text_ends(word, "s") && ls_text_among(other_money, ls_arena_copy_n(s->arena, word, n - 1))))
        return LS_UNIT_MONEY;
    else {
        for (size_t i = 0; i < sizeof powers / sizeof *powers; i++)
            if (ls_text_ends(word, powers[i][0])) {
                word = ls_arena_copy_n(s->arena, word, n - strlen(powers[i][0]));
                s->power = powers[i][1][0] - '0';
            }
        return take_symbol(s, word);
    }
    return LS_UNIT_OK;
}

ls_unit_status ls_unit_said(ls_arena *a, const char *words, const char *t, ls_said_unit *out) {
    *out = (ls_said_unit){"", 1, NULL};
    saying s = {.arena = a, .t = t, .out = out, .text = ls_text_new(a), .power = 1};
    ls_unit unit;
    for (const char *w = words; *w != '\0';) {
        size_t n = strcspn(w, " /\t");
        ls_unit_status status = n == 0 ? LS_UNIT_OK : take(&s, ls_arena_copy_n(a, w, n));
        if (status != LS_UNIT_OK) return status;
        s.divides = s.divides || w[n] == '/';
        w += n + (w[n] != '\0');
    }
    out->text = s.text->s;
    if (s.text->n == 0 || s.divides || s.power > 1)
        return s.text->n == 0 && !s.divides ? LS_UNIT_OK : LS_UNIT_MALFORMED;
    return ls_unit_parse(a, s.text->s, s.text->n, &unit);
}
