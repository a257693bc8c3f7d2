/* Which cautions stand on which ticket, and that each is as strong as its source: figures and
 * orders typed from the sources apart from the tables. */
#include "program.h"

#include "littershed/command.h"
#include "littershed/reference.h"

#include <jansson.h>
#include <string.h>

/* ---- texts ---- */

static const struct {
    const char *row, *holds[7]; /* what may not be lost */
} texts[] = {
    {"ammonia", {"air it before", "170 ppm", "25 ppm", "35 ppm for 15 minutes", "300 ppm"}},
    {"dust", {"Wear a respirator", "program", "2.4 mg", "0.16 mg", "12 ppm"}},
    {"histoplasmosis", {"Wet dry litter down", "little dust", "respirator"}},
    {"heat", {"103 F", "15 F", "if you can"}},
    {"lifting", {"51 lb at most", "ideal", "machine or a team"}},
    {"raised_bed",
     {"power lines before", "10 ft", "50 kV", "Never drive with the bed up", "Never get under it unless it is blocked",
      "stay in the cab"}},
    {"stack_fire",
     {"5 to 7 ft", "no wet litter on dry", "not pack", "wooden walls", "fuel and machines out", "170 F",
      "flare when opened"}},
    {"avian_influenza", {"nothing moves without a permit", "before you disinfect", "2 weeks"}},
    {"covered_load", {"drop, sift, leak or escape"}},
    {"carcasses", {"Never spread dead birds, least of all near cattle", "botulism"}},
    {"gas_in_pit", {"confined space", "hydrogen sulfide", "air is tested", "second person"}},
};

/* Words of the longest sentence; a full stop within a number ends none. */
static size_t longest(const char *text) {
    size_t most = 0, n = 1;
    for (const char *s = text; *s != '\0'; s++) {
        n += *s == ' ';
        most = n > most ? n : most;
        if (s[0] == '.' && s[1] == ' ') n = 0;
    }
    return most;
}

static void orders(void) {
    ls_arena *a = ls_arena_new();
    const ls_table *t = ls_reference_table(ls_reference_load(a), "caution", "");
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        const char *words = ls_row_word(ls_table_row(t, texts[i].row), "text");
        CU_ASSERT_PTR_NOT_NULL_FATAL(words);
        for (size_t k = 0; k < 7 && texts[i].holds[k] != NULL; k++) TEST_HOLDS(words, texts[i].holds[k]);
        CU_ASSERT(longest(words) <= 25);
    }
    TEST_SAME(t->n, sizeof texts / sizeof *texts + 1); /* alum is no danger */
    ls_arena_free(a);
}

/* ---- which stand where ---- */

/* A farm of one house; its ground, its crew's day, its stack and its field. */
#define FARM(house, day, stack, field)                                                                                 \
    "farm: {name: F}\nhouses:\n  - {name: One, length: 440 ft, width: 40 ft,\n     " house                             \
    "     measured: {weighed: 30 ton, loose_density: 40 lb/ft3},\n"                                                    \
    "     lab: [{date: 2026-01-10, basis: as received, moisture: 30 %, N: 20 lb/ton, "                                 \
    "NH4N: 5 lb/ton, P2O5: 22 lb/ton, K2O: 24 lb/ton}]}\n"                                                             \
    "trucks: [{name: T, count: 1, payload: 11 ton}]\ncrew: {arrives: " day "}\n" stack                                 \
    "buyers:\n  - {name: Ann, distance: 3 mi, fields: [{name: Flat, area: 100 ac, " field                              \
    ", nitrogen: 200 lb/ac, phosphorus: {rating: low}, most: 2 ton/ac}]}\n"
#define STACK "stack: {roofed: yes, length: 100 ft, width: 50 ft, height: 6 ft, kept_until: 2026-12-30}\n"
#define COLD "2026-02-16"
#define CORN "crop: corn grain, yield: 100 bu/ac"
#define LAYERS "flocks: [{birds: layer, count: 9000, placed: 2025-01-10, removed: 2026-02-01}],\n"

/* Of the first ticket or the last; plan: of the plan's page. */
static const struct {
    const char *farm, *ids, *plan;
    bool last;
} farms[] = {
    {FARM("", COLD, "", CORN), "covered_load raised_bed dust ammonia carcasses", "histoplasmosis", false},
    {FARM("", COLD, "", "crop: tall fescue hay, yield: 3 ton/ac"),
     "covered_load raised_bed dust ammonia carcasses sheep no_feed", "histoplasmosis", false},
    {FARM("", COLD, "", CORN ", use: grazed by beef"), "covered_load raised_bed dust ammonia carcasses sheep no_feed",
     "histoplasmosis", false},
    {FARM("", "2026-06-15", "", CORN), "covered_load raised_bed dust ammonia heat carcasses", "histoplasmosis", false},
    {FARM("floor: {slats: 64 %, scratch: 36 %},\n", COLD, "", CORN), "covered_load raised_bed dust ammonia carcasses",
     "histoplasmosis lifting", false},
    {FARM(LAYERS "manure: pit,\n", COLD, "", CORN), "covered_load raised_bed dust ammonia carcasses",
     "histoplasmosis gas_in_pit", false},
    {FARM(LAYERS "manure: litter,\n", COLD, "", CORN), "covered_load raised_bed dust ammonia carcasses",
     "histoplasmosis", false},
    {FARM(LAYERS, COLD, "", CORN), "covered_load raised_bed dust ammonia carcasses", "histoplasmosis gas_in_pit",
     false},
    {FARM("", COLD, STACK, CORN ", open: 2026-05-01..2026-08-31"),
     "raised_bed dust ammonia stack_fire carcasses no_feed", "histoplasmosis covered_load heat", false},
    {FARM("", COLD, STACK, CORN ", open: 2026-05-01..2026-08-31"),
     "covered_load raised_bed dust heat stack_fire carcasses no_feed", "histoplasmosis ammonia", true},
};

static const char *ids_of(ls_arena *a, const json_t *cautions) {
    ls_text *t = ls_text_new(a);
    size_t i;
    const json_t *one;
    json_array_foreach(cautions, i, one)
        ls_text_addf(t, "%s%s", i > 0 ? " " : "", json_string_value(json_object_get(one, "id")));
    return t->s;
}

static size_t words_in(const char *s) {
    size_t n = s[0] != '\0';
    for (; *s != '\0'; s++) n += *s == ' ';
    return n;
}

static json_t *document(ls_arena *a, const char *command, const char *path) {
    test_run run = PROGRAM(a, command, path, "--format", "json", FEW);
    TEST_TEXT(run.err, "");
    json_t *d = json_loads(run.out, 0, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    return d;
}

/* The plan's page has the cautions of all tickets once, and those of the crew's work. */
static void what_stands_where(void) {
    for (size_t i = 0; i < sizeof farms / sizeof *farms; i++) {
        ls_arena *a = ls_arena_new();
        const char *folder = test_folder(a), *path = test_file(a, folder, "f.yaml", farms[i].farm);
        json_t *tickets = document(a, "tickets", path), *plan = document(a, "plan", path);
        const json_t *all = json_object_get(tickets, "tickets");
        size_t at = farms[i].last ? json_array_size(all) - 1 : 0;
        TEST_TEXT(ids_of(a, json_object_get(json_array_get(all, at), "cautions")), farms[i].ids);
        const char *ids = ids_of(a, json_object_get(plan, "cautions"));
        TEST_SAME(words_in(ids), words_in(farms[i].ids) + words_in(farms[i].plan));
        const char *more = farms[i].plan;
        for (size_t n; *more != '\0'; more += n + (more[n] == ' ')) {
            n = strcspn(more, " ");
            TEST_HOLDS(ids, ls_arena_copy_n(a, more, n));
        }
        json_decref(tickets);
        json_decref(plan);
        test_folder_end(folder);
        ls_arena_free(a);
    }
}

TEST_SUITE(cautions) = {{"orders", orders}, {"what stands where", what_stands_where}, CU_TEST_INFO_NULL};
