/* Every name may be given: farms drawn at random whose houses, sides, buyers, fields, trucks and
 * laboratories are called as parts of the program's own keys are (taken from the lines of the same
 * farm under plain names), or like each other. Line for line such a farm has the figures of its
 * plain twin, and every command runs. */
#include "chance.h"
#include "program.h"

#include "littershed/agronomy.h"
#include "littershed/command.h"
#include "littershed/litter.h"

#include <jansson.h>
#include <stdlib.h>
#include <string.h>

enum { FARMS = 6, EACH = 20 }; /* of so many farms all commands run on one, the first */

/* Houses, their sides, buyers, their fields, and what has no key of its own. */
enum { HOUSES = 2, SIDES = 2, BUYERS = 2, FIELDS = 2, MOST_WORDS = 4000, LOADS = 3 };
typedef struct {
    const char *house[HOUSES], *side[HOUSES][SIDES], *buyer[BUYERS], *field[BUYERS][FIELDS];
    const char *lab, *truck;
} names;

static const names plain = {.house = {"xhouse0", "xhouse1"},
                            .side = {{"xside0", "xside1"}, {"xside0", "xside1"}},
                            .buyer = {"xbuyer0", "xbuyer1"},
                            .field = {{"xfield0", "xfield1"}, {"xfield0", "xfield1"}},
                            .lab = "xlab",
                            .truck = "xtruck"};

/* ---- names ---- */

typedef struct {
    const char *at[MOST_WORDS];
    size_t n;
} words;

static void add_word(words *w, const char *word) {
    for (size_t i = 0; i < w->n; i++)
        if (strcmp(w->at[i], word) == 0) return;
    if (w->n < MOST_WORDS) w->at[w->n++] = word;
}

/* The parts of a key that a slug could read like, but those of the plain names. */
static void add_parts(ls_arena *a, words *w, const char *key) {
    for (const char *s = key; s != NULL; s = strchr(s, '.') ? strchr(s, '.') + 1 : NULL) {
        const char *part = ls_arena_copy_n(a, s, strcspn(s, "."));
        if (strcmp(ls_text_slug(a, part), part) == 0 && part[0] != 'x') add_word(w, part);
    }
}

static const words hostile = {{"account",    "total",
                               "plan",       "stack",
                               "whole farm", "lot",
                               "wet",        "dry",
                               "dossier",    "share",
                               "left",       "right",
                               "Setback 1",  "2025",
                               "1",          "#!",
                               "load 1",     "S01",
                               "all",        "none",
                               "left/over",  "\"; drop (2 ton)",
                               "=1+1",       "buyer",
                               "field",      "house",
                               "truck 1"},
                              27};

static bool is_slashed(const char *name) { return strchr(name, '/') != NULL; }

/* A name whose slug and ticket code are of none of those before it. */
static const char *name_of(ls_arena *a, uint64_t *state, const words *w, const char *const *other, size_t n,
                           bool slashed) {
    for (;;) {
        const words *from = test_pick(state, 3) ? w : &hostile;
        const char *name = from->at[test_pick(state, (unsigned)from->n)];
        bool taken = is_slashed(name) && !slashed;
        for (size_t i = 0; i < n; i++) taken |= strcmp(ls_text_slug(a, other[i]), ls_text_slug(a, name)) == 0;
        if (!taken) return name;
    }
}

/* Some are called like what they belong to, or like what has nothing to do with them. */
static names drawn_names(ls_arena *a, uint64_t *state, const words *w) {
    names out = {0};
    for (size_t i = 0; i < HOUSES; i++) out.house[i] = name_of(a, state, w, out.house, i, false);
    for (size_t i = 0; i < HOUSES; i++)
        for (size_t k = 0; k < SIDES; k++)
            out.side[i][k] =
                k == 0 && test_pick(state, 4) == 0 ? out.house[i] : name_of(a, state, w, out.side[i], k, false);
    for (size_t b = 0; b < BUYERS; b++) out.buyer[b] = name_of(a, state, w, out.buyer, b, false);
    if (test_pick(state, 3) == 0) out.buyer[0] = out.house[0], out.buyer[1] = out.house[1];
    for (size_t b = 0; b < BUYERS; b++)
        for (size_t f = 0; f < FIELDS; f++)
            out.field[b][f] = f == 0 && test_pick(state, 3) == 0 ? (test_pick(state, 2) ? out.buyer[b] : out.side[0][0])
                                                                 : name_of(a, state, w, out.field[b], f, true);
    out.lab = name_of(a, state, w, NULL, 0, true);
    out.truck = name_of(a, state, w, NULL, 0, true);
    return out;
}

/* ---- the farm ---- */

static const char *quoted(ls_arena *a, const char *name) {
    return ls_arena_printf(a, "\"%s\"", test_replace(a, name, "\"", "\\\""));
}

static void add_lab(ls_arena *a, ls_text *t, const names *n, const char *indent, unsigned pounds) {
    ls_text_addf(t,
                 "%slab: [{date: 2026-01-20, by: %s, moisture: 30 %%, N: %u lb/ton, NH4N: 7 "
                 "lb/ton, P2O5: 50 lb/ton, K2O: 36 lb/ton, Cu: 250 ppm}]\n",
                 indent, quoted(a, n->lab), pounds);
}

static void add_house(ls_arena *a, ls_text *t, const names *n, size_t i, uint64_t *state) {
    ls_text_addf(t, "  - name: %s\n    code: %c\n    length: 400 ft\n    width: 40 ft\n", quoted(a, n->house[i]),
                 (char)('J' + i));
    bool slatted = test_pick(state, 2);
    if (slatted) ls_text_add(t, "    floor: {slats: 60 %, scratch: 40 %}\n");
    if (test_pick(state, 2)) {
        ls_text_addf(t, "    sides:\n      - name: %s\n", quoted(a, n->side[i][0]));
        if (test_pick(state, 2)) add_lab(a, t, n, "        ", 31);
        ls_text_addf(t, "      - name: %s\n", quoted(a, n->side[i][1]));
    }
    ls_text_add(t, "    flocks: [{birds: broiler breeder, hens: 7800, males: 780, placed: "
                   "2025-04-21, removed: 2026-02-09, lost: 8 %}]\n");
    if (test_pick(state, 2)) ls_text_add(t, "    already_out: [{date: 2025-11-22, weighed: 6 ton, moisture: 45 %}]\n");
    if (test_pick(state, 2))
        ls_text_add(t, slatted ? "    measured: {depth: {slats: 20 22 in, scratch: 5 6 in}, density: "
                                 "{slats: 38 lb/ft3, scratch: 40 lb/ft3}, loose_density: 33 lb/ft3, "
                                 "moisture: {slats: 40 43 %, scratch: 30 %}}\n"
                               : "    measured: {depth: 5 6 4 in, density: 38 40 lb/ft3, "
                                 "loose_density: 33 lb/ft3, moisture: 30 33 %}\n");
    if (test_pick(state, 2)) add_lab(a, t, n, "    ", 38);
}

static void add_field(ls_arena *a, ls_text *t, const char *name, uint64_t *state) {
    static const char *const more[] = {
        ", setbacks: [{from: stream, edge: 300 ft, width: 100 ft}, {from: well, radius: 100 ft, "
        "share: 50 %}]",
        ", credits: {legume: 20 lb/ac, starter: 25 lb/ac}",
        ", for_crop: 2026, phosphorus: {rating: high, bank: 3 years, ledger: [{year: 2025, P2O5: 5 "
        "lb/ac, removed: 55 lb/ac}]}",
        ", window_caps: [{between: 2025-11-15..2026-03-15, total_nitrogen: 300 lb/ac}]",
        ", days_before_grazing: 30, days_before_harvest: 60, use: grazed by beef",
    };
    ls_text_addf(t,
                 "      - {name: %s, area: 20 ac, crop: tall fescue hay, yield: 3.5 ton/ac, "
                 "nitrogen: 150 lb/ac, open: 2026-02-16..2026-05-31",
                 quoted(a, name));
    for (size_t i = 0; i < sizeof more / sizeof *more; i++)
        if (test_pick(state, 2)) ls_text_add(t, more[i]);
    ls_text_add(t, "}\n");
}

/* The same farm whatever it is called. */
static const char *farm_text(ls_arena *a, const names *n, uint64_t seed) {
    uint64_t state = seed;
    ls_text *t = ls_text_new(a);
    ls_text_add(t, "farm: {name: Cedar Fork Flocks, next_flock: 2026-05-01}\nhouses:\n");
    for (size_t i = 0; i < HOUSES; i++) add_house(a, t, n, i, &state);
    ls_text_addf(t,
                 "trucks: [{name: %s, count: 2, payload: 9 ton, body: 18 yd3, swath: 30 ft, rate: "
                 "{least: 0.01 ton/ac, most: 9 ton/ac}}]\n"
                 "crew: {arrives: 2026-02-16, hours: 9 h/day, loader: {bucket: 2.2 yd3, fill: 95 "
                 "%%, load_and_dump: 30 s, travel: 5 mph}}\n"
                 "stack: {roofed: yes, length: 60 ft, width: 40 ft, height: 5 ft, kept_until: "
                 "2026-08-01}\n"
                 "costs: {take_out: 9 $/ton, haul: 2.10 $/mi, spread: 8 $/ton}\nbuyers:\n",
                 quoted(a, n->truck));
    for (size_t b = 0; b < BUYERS; b++) {
        ls_text_addf(t, "  - name: %s\n    distance: 4 mi\n    price: 20 $/ton\n    fields:\n", quoted(a, n->buyer[b]));
        for (size_t f = 0; f < FIELDS; f++) add_field(a, t, n->field[b][f], &state);
    }
    return t->s;
}

/* ---- line for line ---- */

typedef struct {
    ls_arena *a;
    ls_diag *diag;
    ls_worksheet *w;
    ls_farm farm;
    ls_estimate *estimate;
    ls_agronomy *agronomy;
} world;

/* Loads of the first lot, of a house without sides where there is one. */
static void haul(world *t) {
    size_t house = t->farm.houses.at[0].sides.n == 0 ? 0 : 1;
    const ls_house *h = &t->farm.houses.at[house];
    const char *lot = ls_lot_code(t->a, h, h->sides.n > 0 ? &h->sides.at[0] : NULL);
    for (size_t i = 0; i < LOADS; i++)
        *LS_PUSH(t->a, &t->farm.hauled) = (ls_hauled){.lot = lot,
                                                      .ticket = "T",
                                                      .tons = 8.5 * 2000,
                                                      .weighed = i > 0,
                                                      .day = ls_date_of(2026, 2, 16),
                                                      .entry = "entry of a test"};
}

static world world_of(const char *folder, const char *text) {
    world t = {.a = ls_arena_new()};
    const char *path = test_file(t.a, folder, "farm.yaml", text);
    const ls_reference *r = ls_reference_load(t.a);
    t.diag = ls_diag_new(t.a);
    const ls_farm *farm = ls_farm_read(t.a, t.diag, r, &path, 1);
    if (farm == NULL) printf("%s%s", test_messages(t.a, t.diag), text);
    CU_ASSERT_PTR_NOT_NULL_FATAL(farm);
    t.farm = *farm;
    haul(&t);
    t.w = ls_worksheet_new(t.a);
    t.estimate = ls_litter_estimate(t.w, &t.farm, r, 1, LS_BLOCK);
    CU_ASSERT_PTR_NOT_NULL_FATAL(t.estimate);
    t.agronomy = ls_agronomy_new(t.w, r, t.estimate);
    CU_ASSERT_PTR_NOT_NULL_FATAL(t.agronomy);
    for (size_t b = 0; b < BUYERS; b++)
        for (size_t f = 0; f < FIELDS; f++)
            CU_ASSERT_PTR_NOT_NULL(
                ls_agronomy_field(t.agronomy, &t.farm.buyers.at[b], &t.farm.buyers.at[b].fields.at[f]));
    TEST_TEXT(ls_worksheet_fault(t.w), NULL);
    return t;
}

static bool same_line(const ls_entry *a, const ls_entry *b) {
    return a->op == b->op && a->n == b->n && a->spread.kind == b->spread.kind &&
           (a->n == 0 || memcmp(a->in, b->in, a->n * sizeof *a->in) == 0) && a->origin.kind == b->origin.kind;
}

static void line_for_line(const world *plain_one, const world *named, const char *text) {
    size_t n = ls_worksheet_lines(plain_one->w);
    TEST_SAME(ls_worksheet_lines(named->w), n);
    for (size_t i = 1; i < n && i < ls_worksheet_lines(named->w); i++) {
        const ls_entry *a = ls_line_at(plain_one->w, (ls_line)i), *b = ls_line_at(named->w, (ls_line)i);
        CU_ASSERT_TRUE(same_line(a, b));
        if (!same_line(a, b)) {
            printf("\n%s is not %s\n%s", b->key, a->key, text);
            return;
        }
    }
}

/* ---- every command ---- */

static const char *log_of(const world *t) {
    ls_text *log = ls_text_new(t->a);
    ls_text_add(log, "entry,replaces,ticket,when,tons,weighed,cleared,field,truck,driver,"
                     "received_by,analysis,incorporated,weather_before,weather,weather_after,soil,"
                     "note\r\n");
    for (size_t i = 0; i < LOADS; i++) {
        const char *number = ls_arena_printf(t->a, "%s-%02zu", t->farm.hauled.at[i].lot, i + 1);
        const ls_buyer *b = &t->farm.buyers.at[i % BUYERS];
        const char *place = ls_arena_printf(t->a, "%s/%s", b->name.text, b->fields.at[0].name.text);
        ls_text_addf(log, "%zu,,%s-%c,2026-02-16T09:10,8.5,yes,,\"%s\",,,,,,,,,,\r\n", i + 1, number,
                     ls_check_character(number), test_replace(t->a, place, "\"", "\"\""));
    }
    return log->s;
}

static void all_commands(const world *t, const char *folder, const char *text) {
    static const char *const commands[][2] = {{"check", "text"},  {"estimate", "json"}, {"rates", "text"},
                                              {"plan", "json"},   {"tickets", "html"},  {"dossier", "json"},
                                              {"explain", "text"}};
    const char *path = test_file(t->a, folder, "farm.yaml", text);
    test_file(t->a, folder, "farm.haul.csv", log_of(t));
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++) {
        test_run run = strcmp(commands[i][0], "check") == 0
                           ? PROGRAM(t->a, "check", path)
                           : PROGRAM(t->a, commands[i][0], path, "--format", commands[i][1], FEW);
        TEST_SAME(run.status, LS_DONE);
        CU_ASSERT_PTR_NULL(strstr(run.err, "name no"));
        if (run.status != LS_DONE) printf("\n%s: %s\n%s", commands[i][0], run.err, text);
    }
    TEST_SAME(PROGRAM(t->a, "record", path, "--list").status, LS_DONE);
}

static void one_farm(uint64_t seed) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    uint64_t state = seed;
    world twin = world_of(folder, farm_text(a, &plain, seed));
    words w = {.n = 0};
    for (size_t i = 1; i < ls_worksheet_lines(twin.w); i++) add_parts(a, &w, ls_line_at(twin.w, (ls_line)i)->key);
    names n = drawn_names(a, &state, &w);
    const char *text = farm_text(a, &n, seed);
    world named = world_of(folder, text);
    line_for_line(&twin, &named, text);
    if (seed % EACH == 1) all_commands(&named, folder, text);
    ls_arena_free(twin.a);
    ls_arena_free(named.a);
    test_folder_end(folder);
    ls_arena_free(a);
}

static void any_name(void) {
    uint64_t farms = test_count("NAMED_FARMS", FARMS);
    for (uint64_t seed = 1; seed <= farms; seed++) one_farm(seed);
}

/* ---- every part ---- */

/* A part of a key without a '-', where a name may stand: first or behind a field; behind a house,
 * of the house itself or of its litter on a field. */
static void sort_key(ls_arena *a, const char *key, words *leads, words *behind_house) {
    enum { PARTS = 5 };
    const char *part[PARTS] = {"", "", "", "", ""};
    size_t n = 0;
    for (const char *s = key; s != NULL && n < PARTS; n++) {
        part[n] = ls_arena_copy_n(a, s, strcspn(s, "."));
        s = strchr(s, '.') != NULL ? strchr(s, '.') + 1 : NULL;
    }
    size_t at = strncmp(part[0], "xbuyer", 6) == 0 ? 2 : 0;
    words *to = leads;
    if (strncmp(part[at], "xhouse", 6) == 0) to = behind_house, at++;
    const char *one = part[at];
    /* slugs are of small letters; a number stands for a thing of the file, never for one of these
     */
    if (one[0] != 'x' && one[0] != '\0' && strcmp(ls_text_slug(a, one), one) == 0) add_word(to, one);
}

static void sort_keys(ls_arena *a, const char *folder, words *leads, words *behind_house) {
    for (uint64_t seed = 1; seed <= 12; seed++) {
        const char *text = farm_text(a, &plain, seed);
        world t = world_of(folder, text);
        for (size_t i = 1; i < ls_worksheet_lines(t.w); i++)
            sort_key(a, ls_line_at(t.w, (ls_line)i)->key, leads, behind_house);
        ls_arena_free(t.a);
    }
    test_run run = PROGRAM(a, "dossier", ls_arena_printf(a, "%s/farm.yaml", folder), "--format", "json", FEW);
    json_t *d = json_loads(run.out, 0, NULL), *line;
    size_t i;
    json_array_foreach(json_object_get(d, "worksheet"), i, line) {
        sort_key(a, json_string_value(json_object_get(line, "key")), leads, behind_house);
    }
    json_decref(d);
}

static bool is_marked(const char *slug) { return slug[0] != '\0' && slug[strlen(slug) - 1] == '_'; }

/* Houses, buyers and sides called so get parts that no line of the program has. */
static void parts_are_marked(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    words leads = {.n = 0}, behind_house = {.n = 0};
    sort_keys(a, folder, &leads, &behind_house);
    CU_ASSERT_TRUE(leads.n >= 15 && behind_house.n >= 40);
    ls_text *all = ls_text_new(a);
    ls_text_add(all, "houses:\n");
    for (size_t i = 0; i < leads.n; i++)
        ls_text_addf(all,
                     "  - {name: '%s', length: 400 ft, width: 40 ft, flocks: [{birds: broiler, "
                     "count: 24000, placed: 2025-12-08, removed: 2026-01-26}]}\n",
                     leads.at[i]);
    ls_text_add(all, "  - name: xsided\n    length: 400 ft\n    width: 40 ft\n    flocks: "
                     "[{birds: broiler, count: 24000, placed: 2025-12-08, removed: "
                     "2026-01-26}]\n    sides:\n");
    for (size_t i = 0; i < behind_house.n; i++) ls_text_addf(all, "      - '%s'\n", behind_house.at[i]);
    const char *path = test_file(a, folder, "all.yaml", all->s);
    ls_diag *d = ls_diag_new(a);
    const ls_farm *farm = ls_farm_read(a, d, ls_reference_load(a), &path, 1);
    TEST_TEXT(test_messages(a, d), "");
    CU_ASSERT_PTR_NOT_NULL_FATAL(farm);
    const ls_house *sided = &farm->houses.at[leads.n];
    for (size_t i = 0; i < leads.n; i++)
        if (!is_marked(farm->houses.at[i].slug)) TEST_TEXT(farm->houses.at[i].slug, "a part with a mark");
    for (size_t i = 0; i < sided->sides.n; i++)
        if (!is_marked(sided->sides.at[i].slug)) TEST_TEXT(sided->sides.at[i].slug, "a part with a mark");
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(names) = {
    {"parts of keys are marked", parts_are_marked},
    {"any name, line for line", any_name},
    CU_TEST_INFO_NULL,
};
