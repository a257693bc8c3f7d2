#include "columns.h"

#include <string.h>

#define SHARE "%"
#define YES_NO "yes|no"
#define MANURE "pit|belt|scraped|litter|"

static const ls_reference_column growth[] = {
    {"days", "day", NULL},
    {"weight", "lb/bird", NULL},
    {"feed", "lb/bird", NULL},
    {"default", NULL, YES_NO},
};

static const ls_reference_column droppings[] = {
    {"litter", "lb/bird/day|lb/bird|%", NULL},
    {"moisture", SHARE, NULL},
    {"feed_share", SHARE, NULL},
    {"kept", SHARE, NULL},
    {"own_bedding", "lb/bird", NULL},
    {"own_days", "day", NULL},
    {"own_weight", "lb/bird", NULL},
    {"own_feed", "lb/bird|g/bird/day", NULL},
    {"per", NULL, "bird-day|hen-day|bird|live-weight|bird-year"},
    {"state", NULL, "dry|wet"},
    {"manure", NULL, MANURE},
    {"default", NULL, YES_NO},
};

static const ls_reference_column composition[] = {
    {"moisture", SHARE, NULL},
    {"manure", NULL, MANURE},
    {"default", NULL, YES_NO},
    {"*", "lb/ton", NULL},
};

#define EXCRETED "lb/bird/day|lb/bird|%/day"
static const ls_reference_column excreted[] = {
    {"per", NULL, "bird-day|hen-day|bird|bird-year|live-weight-day"},
    {"default", NULL, YES_NO},
    {"own_days", "day", NULL},
    {"own_mean_weight", "lb/bird", NULL},
    {"own_weight", "lb/bird", NULL},
    {"own_feed", "lb/bird|g/bird/day", NULL},
    {"N", EXCRETED, NULL},
    {"P", EXCRETED, NULL},
    {"K", EXCRETED, NULL},
};

static const ls_reference_column kept[] = {
    {"default", NULL, YES_NO}, {"manure", NULL, MANURE}, {"N", SHARE, NULL},
    {"P", SHARE, NULL},        {"K", SHARE, NULL},       {"dry_matter", SHARE, NULL},
};

static const ls_reference_column bird[] = {
    {"days", "day", NULL},           {"start_weight", "lb/bird", NULL},
    {"end_weight", "lb/bird", NULL}, {"feed", "g/bird/day", NULL},
    {"excreted_share", SHARE, NULL}, {"bedding", "lb/bird", NULL},
    {"eggs", "egg/bird", NULL},      {"egg_weight", "g/egg", NULL},
    {"retained_N", SHARE, NULL},     {"retained_P", SHARE, NULL},
    {"retained_K", SHARE, NULL},     {"lost", SHARE, NULL},
    {"body_N", SHARE, NULL},         {"body_P", SHARE, NULL},
    {"body_K", SHARE, NULL},         {"egg_N", SHARE, NULL},
    {"egg_P", SHARE, NULL},          {"egg_K", SHARE, NULL},
};

static const ls_reference_column moisture[] = {
    {"moisture", SHARE, NULL},
    {"low", SHARE, NULL},
    {"high", SHARE, NULL},
};

static const ls_reference_column density[] = {
    {"density", "lb/ft3", NULL},
    {"low", "lb/ft3", NULL},
    {"high", "lb/ft3", NULL},
    {"ratio", "", NULL},
};

static const ls_reference_column bedding[] = {
    {"density", "lb/ft3", NULL}, {"moisture", SHARE, NULL}, {"N", SHARE, NULL},
    {"P", SHARE, NULL},          {"K", SHARE, NULL},        {"lost", SHARE, NULL},
    {"bale", "lb/bale", NULL},
};

static const ls_reference_column removal[] = {
    {"N", "lb/bu|lb/ton|lb/bale", NULL},
    {"P2O5", "lb/bu|lb/ton|lb/bale", NULL},
    {"K2O", "lb/bu|lb/ton|lb/bale", NULL},
};

static const ls_reference_column bushel[] = {{"weight", "lb/bu", NULL}};

static const ls_reference_column grazing[] = {
    {"N", SHARE, NULL},
    {"P2O5", SHARE, NULL},
    {"K2O", SHARE, NULL},
};

static const ls_reference_column need[] = {
    {"crop", NULL, ""},
    {"state", NULL, ""},
    {"grown", NULL, ""},
    {"split", NULL, ""},
    {"per_bu", "lb/bu", NULL},
    {"most_per_bu", "lb/bu", NULL},
    {"least", "lb/ac", NULL},
    {"most", "lb/ac", NULL},
    {"yield_least", "ton/ac|bu/ac|bale/ac", NULL},
    {"yield_most", "ton/ac|bu/ac|bale/ac", NULL},
};

static const ls_reference_column crop[] = {{"also", NULL, ""}};
static const ls_reference_column state[] = {{"also", NULL, ""}};

static const ls_reference_column nitrogen[] = {
    {"form", NULL, "organic+ammonium|total|per ton"},
    {"organic", SHARE, NULL},
    {"ammonium_at_once", SHARE, NULL},
    {"ammonium_never", SHARE, NULL},
    {"NH4N_share", SHARE, NULL},
    {"total", SHARE, NULL},
    {"total_incorporated", SHARE, NULL},
    {"total_surface", SHARE, NULL},
    {"per_ton_incorporated", "lb/ton", NULL},
    {"per_ton_surface", "lb/ton", NULL},
    {"P", SHARE, NULL},
    {"K", SHARE, NULL},
};

static const ls_reference_column ammonium[] = {
    {"average", SHARE, NULL},  {"cool wet", SHARE, NULL}, {"cool dry", SHARE, NULL},
    {"warm wet", SHARE, NULL}, {"warm dry", SHARE, NULL},
};

static const ls_reference_column carryover[] = {{"organic", SHARE, NULL}};

static const ls_reference_column soil[] = {
    {"low", "lb/ac", NULL},
    {"medium", "lb/ac", NULL},
    {"high", "lb/ac", NULL},
    {"method", NULL, ""},
};

static const ls_reference_column recommended[] = {{"rate", "lb/ac", NULL}};

static const ls_reference_column extra[] = {
    {"above_N", "lb/ac", NULL},
    {"each_N", "lb/ac", NULL},
    {"adds", "lb/ac", NULL},
};

static const ls_reference_column fertilizer[] = {
    {"N", "lb/ton", NULL},
    {"P2O5", "lb/ton", NULL},
    {"K2O", "lb/ton", NULL},
};

static const ls_reference_column practice[] = {{"value", "|ft|lb|ton/ac|year|mph|lb/ac/in", NULL}};

static const ls_reference_column plausible[] = {
    {"low", "|ft2/bird|day|bu/ac|ton/ac|lb/ac|mi", NULL},
    {"high", "|ft2/bird|day|bu/ac|ton/ac|lb/ac|mi", NULL},
};
static const ls_reference_column weights[] = {{"value", "lb|lb/ft|ft", NULL}};
static const ls_reference_column metals[] = {{"content", "ppm", NULL}};

static const ls_reference_column caution[] = {{"text", NULL, ""}};

static const ls_reference_column rule[] = {
    {"group", NULL, ""},
    {"item", NULL, ""},
    {"required_by", NULL, "federal|state|good practice"},
    {"cite", NULL, ""},
    {"text", NULL, ""},
    {"value", "ft|day", NULL},
    {"least", "|bird|lb/ac", NULL},
    {"most", "|bird|lb/ac", NULL},
};

#define KIND(kind, names, rows)                                                                    \
    { #kind, sizeof kind / sizeof *kind, kind, names, rows }
#define ONE ""    /* one table of the kind */
#define KNOWN "=" /* the names of the built-in ones */
#define ANY "*"
#define SOIL "P|K|peanut P|peanut K|alfalfa hay P|alfalfa hay K"

static const ls_reference_kind kinds[] = {
    KIND(growth, KNOWN, ANY),       KIND(droppings, KNOWN, ANY),
    KIND(composition, KNOWN, ANY),  KIND(excreted, KNOWN, ANY),
    KIND(kept, KNOWN, ANY),         KIND(bird, ONE, KNOWN),
    KIND(moisture, ONE, KNOWN),     KIND(density, ONE, KNOWN),
    KIND(bedding, ONE, ANY),        KIND(removal, ANY, ANY),
    KIND(grazing, ONE, KNOWN),      KIND(need, ONE, ANY),
    KIND(nitrogen, ANY, "factors"), KIND(ammonium, ANY, "at once|within # day|within # days|never"),
    KIND(carryover, ANY, "year #"), KIND(soil, ANY, SOIL),
    KIND(recommended, ANY, ANY),    KIND(extra, ONE, ANY),
    KIND(fertilizer, ONE, ANY),     KIND(practice, ONE, KNOWN),
    KIND(plausible, ONE, KNOWN),    KIND(caution, ONE, KNOWN),
    KIND(rule, ONE, KNOWN),         KIND(weights, ONE, KNOWN),
    KIND(metals, ONE, KNOWN),       KIND(crop, ONE, ANY),
    KIND(state, ONE, KNOWN),        KIND(bushel, ONE, ANY),
};

const ls_reference_kind *ls_reference_kind_at(size_t index) {
    return index < sizeof kinds / sizeof *kinds ? &kinds[index] : NULL;
}

const ls_reference_kind *ls_reference_kind_of(const char *kind) {
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (strcmp(kinds[i].kind, kind) == 0)
            return &kinds[i];
    return NULL;
}

const ls_reference_column *ls_reference_column_of(const ls_reference_kind *kind, const char *name) {
    for (size_t i = 0; i < kind->n; i++)
        if (strcmp(kind->columns[i].name, name) == 0 || strcmp(kind->columns[i].name, "*") == 0)
            return &kind->columns[i];
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
        if (length == n && memcmp(at, word, n) == 0)
            return true;
        at += length;
        if (*at == '\0')
            return choices[0] == '\0';
    }
}
