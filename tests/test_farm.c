/* The demo farm as plain structs; what is made from the schema table. */
#include "farm_keys.h"
#include "program.h"
#include "suite.h"

#include "littershed/farm.h"

#include <stdlib.h>
#include <string.h>

static const char *const demo[] = {"fixtures/demo-house.yaml", "fixtures/demo-fields.yaml"};

/* A farm read for a test. */
typedef struct {
    ls_arena *arena;
    ls_diag *diag;
    const ls_farm *farm;
} reading;

static reading read_files(const char *const *paths, size_t n) {
    reading r = {.arena = ls_arena_new()};
    r.diag = ls_diag_new(r.arena);
    r.farm = ls_farm_read(r.arena, r.diag, ls_reference_load(r.arena), paths, n);
    return r;
}

/* The demo farm; NULL (and a failed test) if it has mistakes. */
static const ls_farm *read_demo(reading *r) {
    *r = read_files(demo, 2);
    TEST_TEXT(test_messages(r->arena, r->diag), "");
    CU_ASSERT_PTR_NOT_NULL(r->farm);
    return r->farm;
}

static ls_date day(const char *iso) {
    ls_date d = LS_NO_DATE;
    ls_date_parse(iso, strlen(iso), &d);
    return d;
}

/* A quantity as written: its number in the unit, and the unit. */
#define TEST_QUANTITY(q, number, symbol)                                                                               \
    do {                                                                                                               \
        TEST_NEAR((q).value / ls_unit_of(symbol).factor, number, 1e-12);                                               \
        CU_ASSERT(ls_dimension_same((q).unit.dimension, ls_unit_of(symbol).dimension));                                \
    } while (0)

static void test_facts(void) {
    reading r;
    const ls_farm *farm = read_demo(&r);
    if (!farm) return;
    TEST_TEXT(farm->facts->name.text, "Cedar Fork Flocks");
    TEST_TEXT(farm->facts->permit.text, "none");
    TEST_SAME(farm->facts->next_flock.day, day("2026-03-23"));
    CU_ASSERT_FALSE(LS_GIVEN(farm->facts->quarantine));
    TEST_TEXT(farm->tables->removal.text, "us-crops");
    TEST_TEXT(farm->tables->soil.text, "piedmont");
    TEST_TEXT(ls_diag_where(r.arena, r.diag, farm->facts->name.at), "fixtures/demo-house.yaml:3");
    TEST_SAME(farm->facts->name.at.column, 9);
    ls_arena_free(r.arena);
}

static void test_house(void) {
    reading r;
    const ls_farm *farm = read_demo(&r);
    if (!farm) return;
    TEST_SAME(farm->houses.n, 2);
    const ls_house *north = &farm->houses.at[0], *south = &farm->houses.at[1];
    TEST_TEXT(north->name.text, "North");
    TEST_TEXT(north->slug, "north");
    TEST_QUANTITY(north->length, 432, "ft");
    TEST_QUANTITY(north->width, 40, "ft");
    TEST_SAME(north->sides.n, 2);
    TEST_TEXT(north->sides.at[1].name.text, "right");
    TEST_TEXT(north->sides.at[1].slug, "right");
    TEST_NEAR(ls_house_share(north, LS_SLATS), 0.64, 1e-12);
    TEST_NEAR(ls_house_share(north, LS_SCRATCH), 0.36, 1e-12);
    TEST_NEAR(ls_house_share(north, LS_FLOOR), 0, 0);
    TEST_TEXT(north->bedding.at[0].material.text, "pine shavings");
    TEST_QUANTITY(north->bedding.at[0].depth, 3, "in");
    TEST_SAME(north->bedding.at[0].zone.is, LS_SCRATCH);
    TEST_SAME(north->bedding.at[0].date.day, day("2025-04-14"));
    TEST_QUANTITY(north->last_cleanout.at[0].weighed, 128, "ton");
    TEST_NEAR(north->last_cleanout.at[0].bird_days.value, 2280000, 0);
    CU_ASSERT_PTR_NULL(south->measured);
    TEST_SAME(south->last_cleanout.n, 0);
    TEST_SAME(south->lab.n, 0);
    TEST_TEXT(south->bedding.at[0].material.text, "rice hulls");
    ls_arena_free(r.arena);
}

static void test_flock(void) {
    reading r;
    const ls_farm *farm = read_demo(&r);
    if (!farm) return;
    const ls_flock *flock = &farm->houses.at[0].flocks.at[0];
    TEST_SAME(flock->birds.is, LS_BROILER_BREEDER);
    TEST_SAME(flock->hens.n, 7800);
    TEST_SAME(flock->males.n, 780);
    CU_ASSERT_FALSE(LS_GIVEN(flock->count));
    TEST_SAME(flock->placed.day, day("2025-04-21"));
    TEST_SAME(flock->removed.day, day("2026-02-09"));
    TEST_NEAR(flock->lost.value, 0.085, 1e-12);
    TEST_QUANTITY(flock->feed.at[0].eaten, 138, "g/bird/day");
    TEST_NEAR(flock->feed.at[0].eaten.value, 138 / 453.59237, 1e-12); /* a pound is 453.59237 g, by definition */
    TEST_NEAR(flock->feed.at[0].protein.value, 0.15, 1e-12);
    TEST_NEAR(flock->feed.at[0].potassium.value, 0.0065, 1e-12);
    TEST_QUANTITY(flock->eggs, 158, "egg/hen");
    TEST_TEXT(flock->eggs.unit.text, "per hen");
    CU_ASSERT_FALSE(LS_GIVEN(farm->houses.at[1].flocks.at[0].eggs));
    TEST_SAME(farm->houses.at[1].flocks.at[0].hens.n, 7200);
    ls_arena_free(r.arena);
}

static void test_measured(void) {
    reading r;
    const ls_farm *farm = read_demo(&r);
    if (!farm) return;
    const ls_measured *m = farm->houses.at[0].measured;
    TEST_SAME(m->depth.of[LS_SLATS].form, LS_READINGS);
    TEST_SAME(m->depth.of[LS_SLATS].n, 6);
    TEST_QUANTITY(m->depth.of[LS_SLATS], 33.5 / 6, "in");
    TEST_NEAR(m->depth.of[LS_SLATS].readings[2], 4.5 / 12, 1e-12);
    TEST_QUANTITY(m->density.of[LS_SCRATCH], 30, "lb/ft3");
    TEST_QUANTITY(m->loose_density, 32, "lb/ft3");
    TEST_SAME(m->loose_density.n, 3);
    TEST_NEAR(m->moisture.of[LS_SCRATCH].value, 0.255, 1e-12);
    CU_ASSERT_FALSE(LS_GIVEN(m->depth.of[LS_FLOOR]));
    CU_ASSERT_FALSE(LS_GIVEN(m->weighed));
    const ls_lab *lab = &farm->houses.at[0].lab.at[0];
    TEST_TEXT(lab->by.text, "State Soil and Manure Laboratory");
    TEST_SAME(lab->basis.is, LS_AS_RECEIVED);
    TEST_SAME(lab->date.day, day("2026-01-29"));
    TEST_NEAR(lab->N.value, 0.019, 1e-12); /* 38 lb in 2,000 lb */
    TEST_TEXT(lab->N.text, "38 lb/ton");
    TEST_SAME(lab->N.form, LS_PLAIN);
    TEST_NEAR(lab->NH4N.value, 0.004, 1e-12);
    TEST_NEAR(lab->P2O5.value, 0.028, 1e-12);
    ls_arena_free(r.arena);
}

static void test_work(void) {
    reading r;
    const ls_farm *farm = read_demo(&r);
    if (!farm) return;
    const ls_truck *truck = &farm->trucks.at[0];
    TEST_SAME(truck->count.n, 2);
    TEST_QUANTITY(truck->payload, 11, "ton");
    TEST_QUANTITY(truck->body, 20, "yd3");
    TEST_QUANTITY(truck->spreading, 6, "mph");
    TEST_QUANTITY(truck->rate->step, 0.25, "ton/ac");
    TEST_SAME(farm->crew->arrives.day, day("2026-02-16"));
    TEST_NEAR(farm->crew->hours.value, 9.0 / 24, 1e-12);
    TEST_SAME(farm->crew->days_off, 1);
    TEST_QUANTITY(farm->crew->loader->load_and_dump, 30, "s");
    TEST_SAME(farm->crew->slats->people.n, 6);
    TEST_NEAR(farm->crew->slats->pace.value, 90 * 24, 1e-12);
    CU_ASSERT_TRUE(farm->stack->roofed.yes);
    TEST_SAME(farm->stack->kept_until.day, day("2026-09-30"));
    TEST_QUANTITY(farm->costs->haul, 2.10, "$/mi");
    CU_ASSERT_FALSE(LS_GIVEN(farm->costs->stacking));
    TEST_SAME(farm->fertilizer.n, 3);
    TEST_TEXT(farm->fertilizer.at[1].product.text, "DAP"); /* the order of the table */
    TEST_QUANTITY(farm->fertilizer.at[1].price, 790, "$/ton");
    ls_arena_free(r.arena);
}

static void test_fields(void) {
    reading r;
    const ls_farm *farm = read_demo(&r);
    if (!farm) return;
    TEST_SAME(farm->buyers.n, 3);
    const ls_buyer *hay = &farm->buyers.at[0], *crops = &farm->buyers.at[1], *pasture = &farm->buyers.at[2];
    TEST_TEXT(hay->address.text, "212 Ferry Road, Millrace");
    TEST_TEXT(hay->slug, "larkspur_hay");
    TEST_QUANTITY(hay->distance, 6.5, "mi");
    TEST_QUANTITY(hay->price, 31, "$/ton");
    TEST_QUANTITY(hay->order->most, 14, "load");
    CU_ASSERT_FALSE(LS_GIVEN(crops->order->least));
    CU_ASSERT_PTR_NULL(pasture->order);
    const ls_field *meadow = &hay->fields.at[0], *forty = &crops->fields.at[0], *ridge = &pasture->fields.at[0];
    TEST_QUANTITY(meadow->area, 26, "ac");
    TEST_QUANTITY(meadow->setbacks.at[0].edge, 980, "ft");
    TEST_SAME(meadow->phosphorus->rating.is, LS_RATING_MEDIUM);
    TEST_SAME(meadow->incorporated.days, LS_NEVER);
    TEST_SAME(meadow->weather.is, LS_COOL_WET);
    TEST_SAME(meadow->open.days.from, day("2026-02-16"));
    TEST_SAME(meadow->open.days.to, day("2026-04-15"));
    TEST_QUANTITY(hay->fields.at[1].phosphorus->bank, 3, "years");
    TEST_QUANTITY(forty->setbacks.at[0].radius, 100, "ft");
    CU_ASSERT_FALSE(LS_GIVEN(forty->nitrogen));
    TEST_SAME(forty->for_crop.n, 2026);
    TEST_SAME(forty->incorporated.days, 2);
    TEST_QUANTITY(forty->yield, 165, "bu/ac");
    TEST_QUANTITY(forty->credits->starter, 25, "lb/ac");
    TEST_SAME(forty->earlier_litter.at[0].for_crop.n, 2025);
    TEST_NEAR(forty->earlier_litter.at[0].organic_nitrogen.value, 0.0145, 1e-12);
    TEST_SAME(ridge->use.is, LS_GRAZED_BEEF);
    TEST_SAME(ridge->phosphorus->rating.is, LS_RATING_VERY_HIGH);
    TEST_QUANTITY(ridge->soil->P, 120, "lb/ac");
    TEST_TEXT(ridge->soil->method.text, "Mehlich-1");
    ls_arena_free(r.arena);
}

/* A house file alone is a farm; its fields may come from another file, and sections may not come
 * twice. */
static void test_joining(void) {
    reading r = read_files(demo, 1);
    CU_ASSERT_PTR_NOT_NULL(r.farm);
    ls_arena_free(r.arena);
    static const char *const twice[] = {"fixtures/demo-fields.yaml", "fixtures/demo-house.yaml",
                                        "./fixtures/demo-fields.yaml"};
    r = read_files(twice, 3);
    CU_ASSERT_PTR_NULL(r.farm);
    TEST_TEXT(test_messages(r.arena, r.diag), "./fixtures/demo-fields.yaml:2:1: error: buyers is given twice\n"
                                              "    buyers:\n"
                                              "    ^~~~~~\n"
                                              "    hint: it stands at fixtures/demo-fields.yaml:2 too: keep one\n");
    ls_arena_free(r.arena);
}

static void write_file(const char *path, const char *text) {
    ls_arena *a = ls_arena_new();
    const char *why = NULL;
    CU_ASSERT_TRUE(ls_file_write(a, path, text, strlen(text), &why));
    ls_arena_free(a);
}

/* What a farm file of this text prints. */
static const char *messages_of(ls_arena *a, const char *folder, const char *text) {
    const char *path = ls_arena_printf(a, "%s/farm.yaml", folder);
    write_file(path, text);
    reading r = read_files(&path, 1);
    const char *copy = ls_arena_copy(a, test_messages(r.arena, r.diag));
    CU_ASSERT_EQUAL(*copy == '\0', r.farm != NULL);
    ls_arena_free(r.arena);
    return copy;
}

static void test_starters(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    for (int bird = 1; bird < LS_BIRDS; bird++)
        for (const char *const *housing = ls_farm_housings(a, bird); *housing != NULL; housing++)
            for (int metric = 0; metric < 2; metric++) {
                ls_starter is = {bird, *housing, metric == 1, .example = true};
                TEST_TEXT(messages_of(a, folder, ls_farm_starter(a, is)), "");
            }
    TEST_HOLDS(test_starter(a, 0), "birds: broiler breeder");
    TEST_HOLDS(test_starter(a, LS_DUCK), "birds: duck");
    TEST_HOLDS(test_starter(a, LS_LAYER), "\n    manure: belt");
    CU_ASSERT_PTR_NULL(strstr(test_starter(a, LS_DUCK), "manure:"));
    CU_ASSERT_PTR_NULL(strstr(test_starter(a, LS_DUCK), "hens:"));
    test_folder_end(folder);
    ls_arena_free(a);
}

/* The keys that a starter file has commented out may be used as they stand, one at a time; but
 * these need something else changed first: counts stand instead of lost, other amounts of bedding
 * instead of its depth, a bank goes with the rating high, days before planting need the day of
 * planting, trucks that stay on the road one that spreads, an age goes with the dates,
 * takes stands instead of the most of an order, and like
 * with another one above.
 */
static bool needs_more(const char *key) {
    static const char *const keys[] = {
        "counts:",    "bank:", "floor:", "volume:", "bales:", "weight: 14 ton", "days_before_planting:",
        "only: road", "age:",  "takes:", "like:"};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (strncmp(key, keys[i], strlen(keys[i])) == 0) return true;
    return false;
}

static void test_starter_options(void) {
    ls_arena *a = ls_arena_new();
    static const char tables[] = "tables: []\n"; /* the file that own_tables names */
    const char *folder = test_folder(a), *why;
    CU_ASSERT_TRUE(ls_file_write(a, ls_arena_printf(a, "%s/my-tables.yaml", folder), tables, sizeof tables - 1, &why));
    size_t tried = 0;
    for (int bird = 1; bird < LS_BIRDS; bird++) {
        char *text = ls_arena_copy(a, test_starter(a, bird));
        for (char *mark = strchr(text, '#'); mark; mark = strchr(mark + 1, '#')) {
            bool option = mark[1] >= 'a' && mark[1] <= 'z' && !needs_more(mark + 1);
            if (!option) continue;
            char *line = mark;
            while (line > text && line[-1] != '\n') line--;
            const char *used = ls_arena_printf(a, "%.*s%s", (int)(mark - text), text, mark + 1);
            TEST_TEXT(messages_of(a, folder, used), "");
            tried++;
        }
    }
    CU_ASSERT(tried > 200);
    test_folder_end(folder);
    ls_arena_free(a);
}

static void test_descriptions(void) {
    ls_arena *a = ls_arena_new();
    const char *schema = ls_farm_json_schema(a, ls_reference_load(a)), *manual = test_farm_keys(a);
    TEST_HOLDS(schema, "https://json-schema.org/draft/2020-12/schema");
    static const char *const keys[] = {"loose_density", "already_out", "earlier_litter", "kept_until", "without_lab"};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        TEST_HOLDS(schema, ls_arena_printf(a, "\"%s\": {", keys[i]));
        TEST_HOLDS(manual, ls_arena_printf(a, ".It Ic %s\n", keys[i]));
    }
    TEST_HOLDS(manual, "Written: a number per hen, +/- or range; from 0 to 400.\n");
    ls_arena_free(a);
}

static void test_words(void) {
    TEST_TEXT(ls_bird_name(LS_TURKEY_HEN), "turkey hen");
    TEST_TEXT(ls_bird_name(0), "");
    TEST_TEXT(ls_bird_name(LS_BIRDS), "");
    TEST_TEXT(ls_zone_name(LS_SCRATCH), "scratch");
    TEST_TEXT(ls_manure_name(LS_MANURE_LITTER), "litter");
    TEST_TEXT(ls_manure_name(LS_MANURES), "");
    TEST_TEXT(ls_weather_name(LS_WARM_DRY), "warm dry");
    TEST_TEXT(ls_use_name(LS_GRAZED_DAIRY), "grazed by dairy");
    TEST_TEXT(ls_rating_name(LS_RATING_VERY_HIGH), "very high");
    CU_ASSERT_TRUE(ls_bird_is_breeder(LS_BROILER_BREEDER));
    CU_ASSERT_FALSE(ls_bird_is_breeder(LS_BREEDER_PULLET));
}

/* Keys the demo farm does not use. */
static void test_other_keys(void) {
    static const char text[] =
        "farm: {name: A, quarantine: yes}\n"
        "houses:\n"
        "  - name: One\n"
        "    length: 500 ft\n"
        "    width: 50 ft\n"
        "    code: H1\n"
        "    alike: no\n"
        "    flocks:\n"
        "      - {birds: broiler, count: 24000, placed: 2025-10-01, removed: 2025-11-20, weight: "
        "6.2 lb}\n"
        "      - birds: broiler\n"
        "        count: 24000\n"
        "        placed: 2025-12-08\n"
        "        removed: 2026-01-26\n"
        "        counts: [{date: 2025-12-20, birds: 23600}, {date: 2026-01-10, birds: 23300}]\n"
        "    already_out: [{date: 2025-11-22, weighed: 6 ton, moisture: 45 %}]\n"
        "    measured: {depth: 4 5 in, density: 30 lb/ft3}\n"
        "  - name: Two\n"
        "    sides: [{name: a, measured: {weighed: 40 ton}}, {name: b, measured: {weighed: 41 ton "
        "+/- 1 ton}}]\n"
        "    lab: [{date: 2026-01-02, basis: dry, moisture: 30 %, N: 4 %, P2O5: 3 %, K2O: 3 %}]\n"
        "crew: {arrives: 2026-02-02, hours: 8 h/day, days_off: [sunday, saturday], hold_days: "
        "[2026-02-05]}\n";
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *path = ls_arena_printf(a, "%s/farm.yaml", folder);
    write_file(path, text);
    reading r = read_files(&path, 1);
    TEST_TEXT(test_messages(r.arena, r.diag), "");
    if (r.farm) {
        const ls_house *one = &r.farm->houses.at[0], *two = &r.farm->houses.at[1];
        CU_ASSERT_TRUE(r.farm->facts->quarantine.yes);
        CU_ASSERT_TRUE(LS_GIVEN(one->alike) && !one->alike.yes);
        TEST_TEXT(one->code.text, "H1");
        TEST_SAME(one->flocks.at[1].counts.at[1].birds.n, 23300);
        TEST_QUANTITY(one->flocks.at[0].weight, 6.2, "lb");
        TEST_QUANTITY(one->already_out.at[0].weighed, 6, "ton");
        TEST_QUANTITY(one->measured->depth.of[LS_FLOOR], 4.5, "in");
        TEST_NEAR(ls_house_share(one, LS_FLOOR), 1, 0);
        TEST_QUANTITY(two->sides.at[1].measured->weighed, 41, "ton");
        TEST_NEAR(two->sides.at[1].measured->weighed.half, 2000, 1e-12);
        TEST_SAME(two->lab.at[0].basis.is, LS_DRY);
        TEST_SAME(r.farm->crew->days_off, 1 | 1 << 6);
        TEST_SAME(r.farm->crew->hold_days.at[0].day, day("2026-02-05"));
    }
    ls_arena_free(r.arena);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* Flocks alike, the way manure is kept, bedding told as none, feed in tons, cake. */
static void test_flocks_alike(void) {
    static const char text[] =
        "houses:\n"
        "  - name: One\n"
        "    length: 500 ft\n"
        "    width: 50 ft\n"
        "    bedding: none\n"
        "    flocks:\n"
        "      - {birds: broiler, count: 24000, placed: 2025-12-08, removed: 2026-01-26, flocks: "
        "5, "
        "feed: {total: 120 ton +/- 5 %}}\n"
        "    already_out:\n"
        "      - {loads: 3, times: 5}\n"
        "      - {date: 2026-01-20, weighed: 9 ton, what: litter}\n"
        "    last_cleanout:\n"
        "      date: 2025-03-01\n"
        "      weighed: 300 ton\n"
        "      feed: 640 ton\n"
        "      cake: [{weighed: 20 ton, times: 4}, {date: 2025-02-20, depth: 2 in, area: 40 %}]\n"
        "  - {name: Two, length: 500 ft, width: 50 ft, like: One}\n"
        "  - {name: Three, length: 500 ft, width: 50 ft, like: Two, manure: litter}\n"
        "  - name: Four\n"
        "    length: 500 ft\n"
        "    width: 50 ft\n"
        "    manure: scraped\n"
        "    flocks:\n"
        "      - {birds: layer, count: 24000, placed: 2024-12-08, removed: 2026-01-26}\n"
        "    last_cleanout: {date: 2025-06-01, weighed: 300 ton, bird_days: 4000000}\n"
        "trucks: [{name: spreader, count: 1, payload: 10 ton}]\n";
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *path = ls_arena_printf(a, "%s/farm.yaml", folder);
    write_file(path, text);
    reading r = read_files(&path, 1);
    TEST_TEXT(test_messages(r.arena, r.diag), "");
    CU_ASSERT_PTR_NOT_NULL(r.farm);
    if (r.farm) {
        const ls_house *house = r.farm->houses.at, *one = &house[0], *four = &house[3];
        const ls_flock *flock = &one->flocks.at[0];
        CU_ASSERT_TRUE(LS_GIVEN(one->no_bedding) && one->no_bedding.yes);
        CU_ASSERT_FALSE(LS_GIVEN(four->no_bedding));
        TEST_SAME(ls_flock_times(flock), 5);
        TEST_SAME(ls_flock_times(&four->flocks.at[0]), 1);
        TEST_QUANTITY(flock->feed.at[0].total, 120, "ton");
        CU_ASSERT_FALSE(LS_GIVEN(flock->feed.at[0].eaten));
        TEST_SAME(one->already_out.at[0].loads.n, 3);
        TEST_SAME(one->already_out.at[0].times.n, 5);
        CU_ASSERT_TRUE(ls_taken_is_cake(&one->already_out.at[0], LS_BROILER));
        CU_ASSERT_FALSE(ls_taken_is_cake(&one->already_out.at[0], LS_LAYER));
        CU_ASSERT_FALSE(ls_taken_is_cake(&one->already_out.at[1], LS_BROILER));
        TEST_QUANTITY(one->last_cleanout.at[0].feed, 640, "ton");
        TEST_SAME(one->last_cleanout.at[0].cake.n, 2);
        TEST_SAME(one->last_cleanout.at[0].cake.at[0].times.n, 4);
        for (size_t k = 1; k < 3; k++) { /* records of one house are no other's */
            TEST_SAME(house[k].flocks.n, 1);
            TEST_SAME(house[k].flocks.at[0].count.n, 24000);
            TEST_SAME(ls_flock_times(&house[k].flocks.at[0]), 5);
            CU_ASSERT_TRUE(house[k].no_bedding.yes);
            TEST_SAME(house[k].already_out.n + house[k].last_cleanout.n, 0);
        }
        TEST_SAME(house[2].manure.is, LS_MANURE_LITTER);
        TEST_TEXT(ls_manure_name(four->manure.is), "scraped");
        TEST_SAME(ls_house_since(four, &four->flocks.at[0]), day("2025-06-01"));
        TEST_SAME(ls_house_since(one, flock), day("2025-12-08"));
    }
    ls_arena_free(r.arena);
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(farm) = {{"the farm itself and its tables", test_facts},
                    {"houses", test_house},
                    {"flocks", test_flock},
                    {"what was measured", test_measured},
                    {"trucks, crew, stack, costs", test_work},
                    {"buyers and fields", test_fields},
                    {"files are joined", test_joining},
                    {"keys the demo farm does not use", test_other_keys},
                    {"flocks alike, feed in tons, cake", test_flocks_alike},
                    {"starter files load", test_starters},
                    {"what a starter file has commented out loads", test_starter_options},
                    {"schema and manual hold the keys", test_descriptions},
                    {"words", test_words},
                    CU_TEST_INFO_NULL};
