/* Crops by the names growers call them, and what is asked for where the tables cannot tell a need.
 */
#include "agronomy_world.h"

#include "farm/reader.h"

#include <string.h>

/* ---- names ---- */

/* What reading a farm with one field says; *crop: what the field's crop is taken as. */
static const char *says(ls_arena *a, const char *top, const char *keys, const char **crop) {
    const char *folder = test_folder(a);
    const char *path = ls_arena_printf(a, "%s/farm.yaml", folder), *why;
    const char *yaml = ls_arena_printf(a,
                                       "%sbuyers:\n  - name: Buyer\n    fields:\n      - {name: "
                                       "Field, area: 10 ac, phosphorus: {rating: low}, %s}\n",
                                       top, keys);
    CU_ASSERT_TRUE(ls_file_write(a, path, yaml, strlen(yaml), &why));
    ls_diag *d = ls_diag_new(a);
    const ls_farm *farm = ls_farm_read(a, d, ls_reference_load(a), &path, 1);
    *crop = farm ? farm->buyers.at[0].fields.at[0].crop.text : NULL;
    test_folder_end(folder);
    return test_messages(a, d);
}

/* Every other word for a crop is taken as that crop, or, if several have it, each is asked about.
 */
static void every_name(void) {
    ls_arena *a = ls_arena_new();
    const ls_table *crops = ls_reference_table(ls_reference_load(a), "crop", "");
    const char *word, *crop;
    for (size_t i = 0; i < crops->n; i++)
        for (size_t k = 0; (word = ls_farm_part(a, ls_row_word(&crops->rows[i], "also"), k)) != NULL; k++) {
            size_t n = 0;
            const char *text = says(a, "", ls_arena_printf(a, "crop: %s, nitrogen: 50 lb/ac", word), &crop);
            for (size_t j = 0; j < crops->n; j++) n += ls_text_among(ls_row_word(&crops->rows[j], "also"), word);
            if (n == 1)
                TEST_TEXT(crop, crops->rows[i].name);
            else
                TEST_HOLDS(text, crops->rows[i].name);
            TEST_SAME(crop == NULL, n > 1);
        }
    ls_arena_free(a);
}

/* As growers say it. */
static void names_of_growers(void) {
    static const struct {
        const char *said, *is, *asks;
    } cases[] = {{"corn", "corn grain", NULL},
                 {"Corn", "corn grain", NULL},
                 {"winter wheat", "wheat grain", NULL},
                 {"cotton", "cotton", NULL},
                 {"soybeans", "soybean", NULL},
                 {"milo", "sorghum grain", NULL},
                 {"coastal hay", "bermudagrass hay", NULL},
                 {"fescue pasture", "tall fescue pasture", NULL},
                 {"oats", "oat grain", NULL},
                 {"fescue and clover hay", "grass-clover hay", NULL},
                 {"silage", NULL, "corn silage, small grain forage"},
                 {"pasture", NULL, "tall fescue pasture, orchardgrass pasture, bermudagrass pasture"},
                 {"fescue", NULL, "tall fescue hay, tall fescue pasture"},
                 {"tobacco", NULL, "flue-cured tobacco, burley tobacco"},
                 {"small grain", NULL, "wheat grain, barley grain, oat grain, rye grain"},
                 {"soybaens", NULL, "did you mean \"soybean\"?"},
                 {"hybrid sudangrass", NULL, "did you mean \"sudangrass\"?"}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *crop, *text = says(a, "", ls_arena_printf(a, "crop: %s, nitrogen: 50 lb/ac", cases[i].said), &crop);
        TEST_TEXT(crop, cases[i].is);
        if (cases[i].asks) TEST_HOLDS(text, cases[i].asks);
    }
    ls_arena_free(a);
}

/* ---- what is asked for ---- */

static const char own[] = "write \"nitrogen: ... lb/ac\" from your laboratory or plan";

static void asked_for(void) {
    static const struct {
        const char *top, *keys, *says;
    } cases[] = {
        {"", "crop: wheat grain, yield: 60 bu/ac", "depends on the state"},
        {"", "crop: cotton, yield: 2 bale/ac", "depends on the state"},
        {"farm: {name: F, state: SC}\n", "crop: cotton, yield: 2 bale/ac",
         "\"grown: dryland\" (70 to 126.4 lb/ac), \"grown: irrigated\" (100 lb/ac)"},
        {"farm: {name: F, state: FL}\n", "crop: bahia pasture",
         "\"grown: at the low rate\" (50 lb/ac), \"grown: at the medium rate\" (100 lb/ac), "
         "\"grown: at the high rate\" (160 lb/ac)"},
        {"farm: {name: F, state: GA}\n", "crop: orchardgrass pasture, grown: wild",
         "without grown (50 to 100 lb/ac), \"grown: cut for hay as well\" (100 lb/ac)"},
        {"", "crop: corn silage", "no table says what corn silage needs"},
        {"farm: {name: F, state: AL}\n", "crop: wheat, yield: 60 bu/ac",
         "no table says what wheat grain in Alabama needs"},
        {"farm: {name: F, state: AL}\n", "crop: corn, grown: irrigated, yield: 179 bu/ac", "is for 180 bu/ac or more"},
        /* grazed hay is a pasture; no page was read that prints a need of bermudagrass pasture */
        {"farm: {name: F, state: GA}\n", "crop: bermudagrass hay, use: grazed by beef",
         "no table says what bermudagrass pasture in Georgia needs"},
    };
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *crop, *text = says(a, cases[i].top, cases[i].keys, &crop);
        TEST_TEXT(crop, NULL);
        TEST_HOLDS(text, cases[i].says);
        TEST_HOLDS(text, own);
        text = says(a, cases[i].top, ls_arena_printf(a, "%s, nitrogen: 50 lb/ac", cases[i].keys), &crop);
        CU_ASSERT_PTR_NOT_NULL(crop);
    }
    ls_arena_free(a);
}

/* The buyer's state goes before the farm's. Without a state the row named as the crop serves, and
 * that is said. */
static void states(void) {
    static const struct {
        const char *top, *buyer;
        double need;
        bool said;
    } cases[] = {{"", "", 180, true},
                 {"farm: {name: F, state: Georgia}\n", "", 180, false},
                 {"farm: {name: F, state: va}\n", "", 150, false},
                 {"farm: {name: F, state: Georgia}\n", "    state: Virginia\n", 150, false}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = world_of_text(
            ls_arena_printf(a,
                            "%shouses:\n  - {name: House, length: 400 ft, width: 40 ft, measured: {weighed: 100 "
                            "ton}, "
                            "flocks: [{birds: broiler, count: 24000, placed: 2025-12-08, removed: 2026-01-26}]}\n"
                            "buyers:\n  - name: Buyer\n%s    fields:\n      - {name: F, area: 10 ac, crop: corn, "
                            "yield: 150 bu/ac}\n",
                            cases[i].top, cases[i].buyer));
        const ls_field_rates *f = rates_of(&t, 0, 0);
        TEST_NEAR(shown(&t, f->need[LS_FIELD_N]), cases[i].need, 1e-9);
        TEST_SAME(has_flag(f, "no state is given"), cases[i].said);
        world_end(&t);
    }
    ls_arena_free(a);
}

TEST_SUITE(crop_names) = {{"every name of a crop", every_name},
                          {"names as growers say them", names_of_growers},
                          {"what is asked for", asked_for},
                          {"states", states},
                          CU_TEST_INFO_NULL};
