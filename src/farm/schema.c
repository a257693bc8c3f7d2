#include "farm/schema.h"

#include <string.h>

#define OF(type, member) .offset = offsetof(type, member)
#define COUNT_OF(keys) (sizeof(keys) / sizeof *(keys))

static const ls_farm_key facts_keys[] = {
    {.name = "name", .kind = LS_FARM_TEXT, .flags = LS_FARM_REQUIRED, OF(ls_farm_facts, name), .help = "name of the farm",
     .example = "Cedar Fork Flocks"},
    {.name = "place", .kind = LS_FARM_TEXT, .flags = LS_FARM_STARTED, OF(ls_farm_facts, place), .help = "where it is",
     .example = "near Millrace, Alabama"},
    {.name = "permit", .kind = LS_FARM_TEXT, .flags = LS_FARM_STARTED, OF(ls_farm_facts, permit), .help = "permit number, or none",
     .example = "none"},
    {.name = "prepared_by", .kind = LS_FARM_TEXT, .flags = LS_FARM_STARTED, OF(ls_farm_facts, prepared_by), .help = "who prepared this file",
     .example = "R. Alder"},
    {.name = "next_flock", .kind = LS_FARM_DATE, .flags = LS_FARM_STARTED, OF(ls_farm_facts, next_flock), .help = "day the next flock comes",
     .example = "2026-03-23"},
    {.name = "quarantine", .kind = LS_FARM_YESNO, OF(ls_farm_facts, quarantine),
     .help = "yes while the farm is under a disease control order: no tickets are printed; left out: no", .example = "no"},
    {.name = "haul_log", .kind = LS_FARM_TEXT, OF(ls_farm_facts, haul_log),
     .help = "file name of the haul log beside this file; left out: named after this file", .example = "cedar-fork.haul.csv"},
};
static const ls_farm_section facts_section = {
    .name = "farm section", .size = sizeof(ls_farm_facts), .at = offsetof(ls_farm_facts, at), .n = COUNT_OF(facts_keys),
    .keys = facts_keys, .check = ls_farm_check_facts};

static const ls_farm_key tables_keys[] = {
    {.name = "removal", .kind = LS_FARM_TABLE, .tables = "removal", OF(ls_table_names, removal),
     .help = "what a crop takes off the field", .example = "ipni"},
    {.name = "nitrogen", .kind = LS_FARM_TABLE, .tables = "nitrogen", OF(ls_table_names, nitrogen),
     .help = "share of the nitrogen a crop can use in the first year", .example = "psu-pan"},
    {.name = "ammonium", .kind = LS_FARM_TABLE, .tables = "ammonium", OF(ls_table_names, ammonium),
     .help = "share of the ammonium kept, by delay and weather", .example = "alberta"},
    {.name = "carryover", .kind = LS_FARM_TABLE, .tables = "carryover", OF(ls_table_names, carryover),
     .help = "nitrogen released in the years after", .example = "cornell-n"},
    {.name = "soil", .kind = LS_FARM_TABLE, .tables = "soil", OF(ls_table_names, soil), .help = "classes of soil-test phosphorus and potassium",
     .example = "piedmont"},
};
static const ls_farm_section tables_section = {
    .name = "tables section", .size = sizeof(ls_table_names), .at = offsetof(ls_table_names, at), .n = COUNT_OF(tables_keys),
    .keys = tables_keys};

#define PER_TON(key, what, text, figure)                                                                                       \
    {.name = key, .kind = LS_FARM_QUANTITY, .flags = LS_FARM_STARTED, .units = "$/ton", .least = 0, .most = 10000,              \
     OF(ls_costs, what), .help = text, .example = figure}

static const ls_farm_key costs_keys[] = {
    PER_TON("take_out", take_out, "taking litter out of the house and loading it", "9 $/ton"),
    {.name = "haul", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_STARTED, .units = "$/mi", .least = 0, .most = 1000, OF(ls_costs, haul),
     .help = "a truck's cost for each mile driven, full or empty", .example = "2.10 $/mi"},
    PER_TON("spread", spread, "spreading", "8 $/ton"),
    PER_TON("reload", reload, "loading again out of the stack", "4 $/ton"),
    {.name = "stacking", .kind = LS_FARM_QUANTITY, .units = "$/ton", .least = 0, .most = 10000, OF(ls_costs, stacking),
     .help = "putting litter into the stack", .example = "2 $/ton"},
};
static const ls_farm_section costs_section = {
    .name = "costs section", .size = sizeof(ls_costs), .at = offsetof(ls_costs, at), .n = COUNT_OF(costs_keys), .keys = costs_keys};

static const ls_farm_key top_keys[] = {
    {.name = "farm", .kind = LS_FARM_SECTION, .flags = LS_FARM_STARTED, .section = &facts_section, OF(ls_farm, facts), .help = "the farm itself",
     .example = "{name: Cedar Fork Flocks, next_flock: 2026-03-23}"},
    {.name = "tables", .kind = LS_FARM_SECTION, .section = &tables_section, OF(ls_farm, tables),
     .help = "which published tables to use; see littershed sources", .example = "{removal: ipni, nitrogen: psu-pan}"},
    {.name = "houses", .kind = LS_FARM_SECTIONS, .flags = LS_FARM_REQUIRED, .section = &ls_farm_house, OF(ls_farm, houses),
     .help = "the houses to be emptied", .example = "[{name: North, length: 432 ft, width: 40 ft}]"},
    {.name = "trucks", .kind = LS_FARM_SECTIONS, .flags = LS_FARM_STARTED, .section = &ls_farm_truck, OF(ls_farm, trucks),
     .help = "the spreader trucks", .example = "[{name: spreader truck, count: 2, payload: 11 ton}]"},
    {.name = "crew", .kind = LS_FARM_SECTION, .flags = LS_FARM_STARTED, .section = &ls_farm_crew, OF(ls_farm, crew), .help = "the cleanout crew",
     .example = "{arrives: 2026-02-16, hours: 9 h/day}"},
    {.name = "stack", .kind = LS_FARM_SECTION, .section = &ls_farm_stack, OF(ls_farm, stack),
     .help = "where litter can wait for a field to open",
     .example = "{roofed: yes, length: 80 ft, width: 40 ft, height: 6 ft, kept_until: 2026-09-30}"},
    {.name = "costs", .kind = LS_FARM_SECTION, .flags = LS_FARM_STARTED, .section = &costs_section, OF(ls_farm, costs),
     .help = "what the work costs", .example = "{take_out: 9 $/ton, haul: 2.10 $/mi, spread: 8 $/ton, reload: 4 $/ton}"},
    {.name = "fertilizer", .kind = LS_FARM_PRICES, .flags = LS_FARM_STARTED | LS_FARM_ABOVE, .units = "$/ton", .most = 100000,
     .tables = "fertilizer", OF(ls_farm, fertilizer), .help = "local prices, to value the nutrients by",
     .example = "{urea: 610 $/ton, DAP: 790 $/ton, muriate of potash: 480 $/ton}"},
    {.name = "buyers", .kind = LS_FARM_SECTIONS, .flags = LS_FARM_STARTED, .section = &ls_farm_buyer, OF(ls_farm, buyers),
     .help = "who takes the litter, and their fields", .example = "[{name: Larkspur Hay, distance: 6.5 mi, price: 31 $/ton}]"},
};
const ls_farm_section ls_farm_top = {
    .name = "farm file", .size = sizeof(ls_farm), .at = LS_FARM_NO_PLACE, .n = COUNT_OF(top_keys), .keys = top_keys};

const ls_farm_key *ls_farm_key_of(const ls_farm_section *section, const char *name) {
    for (size_t i = 0; i < section->n; i++)
        if (strcmp(section->keys[i].name, name) == 0)
            return &section->keys[i];
    return NULL;
}

const char *ls_farm_part(ls_arena *a, const char *parts, size_t i) {
    for (; i > 0 && parts; i--) {
        parts = strchr(parts, '|');
        parts = parts ? parts + 1 : NULL;
    }
    return parts ? ls_arena_copy_n(a, parts, strcspn(parts, "|")) : NULL;
}

bool ls_farm_key_for(const ls_farm_key *key, int bird) {
    return key->birds == 0 || bird == 0 || (key->birds & LS_FARM_FOR(bird)) != 0;
}

const char *ls_farm_example(ls_arena *a, const ls_farm_key *key) {
    return ls_arena_printf(a, "%s: %s", key->name, key->example);
}
