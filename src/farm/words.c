#include "schema.h"

const char *const ls_farm_zones[] = {"slats", "scratch", "floor", NULL};
const char *const ls_farm_manures[] = {"belt", "pit", "scraped", "litter", NULL};
const char *const ls_farm_takens[] = {"cake", "litter", NULL};
const char *const ls_farm_bases[] = {"as received", "dry", NULL};
const char *const ls_farm_ratings[] = {"low", "medium", "high", "very high", NULL};
const char *const ls_farm_soil_levels[] = {"low", "medium", "sufficient", "high", "very high", "excessive", NULL};
const char *const ls_farm_uses[] = {"cut", "grazed by beef", "grazed by dairy", "not harvested", NULL};
const char *const ls_farm_weathers[] = {"average", "cool wet", "cool dry", "warm wet", "warm dry", NULL};
const char *const ls_farm_without_labs[] = {"90 %", "expected", NULL};
const char *const ls_farm_grown_for[] = {"feed", "food", "organic food in the soil", "organic food off the soil", NULL};

const char *const ls_farm_only[] = {"road", NULL}; /* as ls_only */
const char *const ls_farm_records[] = {"federal", "state", "federal and state", NULL};
const char *const ls_farm_papers[] = {"map",           "permit",    "plan",  "soil report",
                                      "litter report", "agreement", "other", NULL};

const char *ls_quantity_words(ls_arena *a, const ls_quantity *q) {
    enum { DIGITS = 6 };
    if (q->form != LS_PLAIN || q->how != NULL) return q->text;
    return ls_unit_amount(a, ls_number_text(a, q->value / q->unit.factor, DIGITS), q->unit.text);
}

/* The word of an enumerator, "" for 0 and for what is none. */
static const char *word(const char *const *words, int is) {
    for (int i = 1; words[i - 1]; i++)
        if (i == is) return words[i - 1];
    return "";
}

#define NAMED(function, words)                                                                                         \
    const char *function(int is) { return word(words, is); }
NAMED(ls_zone_name, ls_farm_zones)
NAMED(ls_attached_name, ls_farm_papers)
NAMED(ls_manure_name, ls_farm_manures)
NAMED(ls_weather_name, ls_farm_weathers)
NAMED(ls_use_name, ls_farm_uses)
NAMED(ls_rating_name, ls_farm_ratings)
NAMED(ls_soil_level_name, ls_farm_soil_levels)
