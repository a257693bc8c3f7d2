#include "tables.h"

#include <string.h>

#define YES_NO "default: =yes|no; "
#define MANURE "manure: =pit|belt|scraped|litter|; "
#define ONE ""    /* one table of the kind */
#define KNOWN "=" /* the names of the built-in ones */
#define ANY "*"

static const ls_reference_kind kinds[] = {
    {"growth", KNOWN, ANY, "days: day; weight: lb/bird; feed: lb/bird; " YES_NO},
    {"droppings", KNOWN, ANY,
     "litter: lb/bird/day|lb/bird|%; moisture: %; feed_share: %; kept: %; own_bedding: lb/bird; "
     "own_days: day; own_weight: lb/bird; own_feed: lb/bird|g/bird/day; per: "
     "=bird-day|hen-day|bird|live-weight|bird-year; state: =dry|wet; " MANURE YES_NO},
    {"composition", KNOWN, ANY, "moisture: %; " MANURE YES_NO "*: lb/ton"},
    {"excreted", KNOWN, ANY,
     "per: =bird-day|hen-day|bird|bird-year|live-weight-day; " YES_NO
     "own_days: day; own_mean_weight: lb/bird; own_weight: lb/bird; own_feed: lb/bird|g/bird/day; "
     "N: lb/bird/day|lb/bird|%/day; P: lb/bird/day|lb/bird|%/day; K: lb/bird/day|lb/bird|%/day"},
    {"kept", KNOWN, ANY, YES_NO MANURE "N: %; P: %; K: %; dry_matter: %"},
    {"bird", ONE, KNOWN,
     "days: day; start_weight: lb/bird; end_weight: lb/bird; feed: g/bird/day; excreted_share: %; "
     "bedding: lb/bird; eggs: egg/bird; egg_weight: g/egg; retained_N: %; retained_P: %; "
     "retained_K: %; lost: %; body_N: %; body_P: %; body_K: %; egg_N: %; egg_P: %; egg_K: %"},
    {"moisture", ONE, KNOWN, "moisture: %; low: %; high: %"},
    {"density", ONE, KNOWN, "density: lb/ft3; low: lb/ft3; high: lb/ft3; ratio: ; "},
    {"bedding", ONE, ANY, "density: lb/ft3; moisture: %; N: %; P: %; K: %; lost: %; bale: lb/bale"},
    {"removal", ANY, ANY, "N: lb/bu|lb/ton|lb/bale; P2O5: lb/bu|lb/ton|lb/bale; K2O: lb/bu|lb/ton|lb/bale"},
    {"grazing", ONE, KNOWN, "N: %; P2O5: %; K2O: %"},
    {"need", ONE, ANY,
     "crop: =; state: =; grown: =; split: =; per_bu: lb/bu; most_per_bu: lb/bu; least: lb/ac; "
     "most: lb/ac; yield_least: ton/ac|bu/ac|bale/ac; yield_most: ton/ac|bu/ac|bale/ac"},
    {"nitrogen", ANY, "factors",
     "form: =organic+ammonium|total|per ton; organic: %; ammonium_at_once: %; ammonium_never: %; "
     "NH4N_share: %; total: %; total_incorporated: %; total_surface: %; per_ton_incorporated: "
     "lb/ton; per_ton_surface: lb/ton; P: %; K: %"},
    {"ammonium", ANY, "at once|within # day|within # days|never",
     "average: %; cool wet: %; cool dry: %; warm wet: %; warm dry: %"},
    {"carryover", ANY, "year #", "organic: %"},
    {"soil", ANY, "P|K|peanut P|peanut K|alfalfa hay P|alfalfa hay K",
     "low: lb/ac; medium: lb/ac; high: lb/ac; method: ="},
    {"recommended", ANY, ANY, "rate: lb/ac"},
    {"extra", ONE, ANY, "above_N: lb/ac; each_N: lb/ac; adds: lb/ac"},
    {"fertilizer", ONE, ANY, "N: lb/ton; P2O5: lb/ton; K2O: lb/ton"},
    {"practice", ONE, KNOWN, "value: |ft|lb|ton/ac|year|mph|lb/ac/in"},
    {"plausible", ONE, KNOWN, "low: |ft2/bird|day|bu/ac|ton/ac|lb/ac|mi; high: |ft2/bird|day|bu/ac|ton/ac|lb/ac|mi"},
    {"caution", ONE, KNOWN, "text: ="},
    {"rule", ONE, KNOWN,
     "group: =; item: =; required_by: =federal|state|good practice; cite: =; text: =; value: "
     "ft|day; least: |bird|lb/ac; most: |bird|lb/ac"},
    {"weights", ONE, KNOWN, "value: lb|lb/ft|ft"},
    {"metals", ONE, KNOWN, "content: ppm"},
    {"crop", ONE, ANY, "also: ="},
    {"state", ONE, KNOWN, "also: ="},
    {"bushel", ONE, ANY, "weight: lb/bu"},
};

const ls_reference_kind *ls_reference_kind_at(size_t index) {
    return index < sizeof kinds / sizeof *kinds ? &kinds[index] : NULL;
}

const ls_reference_kind *ls_reference_kind_of(const char *kind) {
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (strcmp(kinds[i].kind, kind) == 0) return &kinds[i];
    return NULL;
}

bool ls_reference_next_column(ls_arena *a, const char **at, ls_reference_column *out) {
    size_t name = strcspn(*at, ":");
    if (**at == '\0') return false;
    const char *of = *at + name + strlen(": "), *end = of + strcspn(of, ";");
    bool words = *of == '=';
    const char *told = ls_arena_copy_n(a, of + words, (size_t)(end - of - words));
    *out = (ls_reference_column){ls_arena_copy_n(a, *at, name), words ? NULL : told, words ? told : NULL};
    *at = end + (*end == ';' ? strlen("; ") : 0);
    return true;
}

const ls_reference_column *ls_reference_column_of(ls_arena *a, const ls_reference_kind *kind, const char *name) {
    ls_reference_column *column = LS_NEW(a, ls_reference_column, 1);
    for (const char *at = kind->columns; ls_reference_next_column(a, &at, column);)
        if (strcmp(column->name, name) == 0 || strcmp(column->name, "*") == 0) return column;
    return NULL;
}

bool ls_reference_may_lack(const ls_reference_column *column) {
    size_t n = column->words == NULL ? 0 : strlen(column->words);
    return n > 0 && column->words[n - 1] == '|';
}

bool ls_reference_is_choice(const char *choices, const char *word) {
    size_t n = strlen(word);
    for (const char *at = choices;; at++) {
        size_t length = strcspn(at, "|");
        if (length == n && memcmp(at, word, n) == 0) return true;
        at += length;
        if (*at == '\0') return choices[0] == '\0';
    }
}
