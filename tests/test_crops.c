/* Crops: the nitrogen they need by every row of the table, soil-test classes of their own. */
#include "agronomy_world.h"

#include "farm/reader.h"

#include <math.h>
#include <string.h>

/* ---- every row against its source ---- */

/* What a source prints: lb/ac, or lb in a bushel (per_bu); most: the upper end of a range, 0 if it
 * is none. Three yields and the need by pencil for each. */
typedef struct {
    const char *crops, *state, *grown, *source;
    ls_status status;
    bool per_bu;
    double least, most;
    const char *unit;
    double yield[3], need[3];
} printed;

#define TON                                                                                                            \
    "ton/ac", { 2, 3.5, 6 }
#define BU                                                                                                             \
    "bu/ac", { 40, 65, 90 }
#define BALE                                                                                                           \
    "bale/ac", { 1, 2, 3 }
#define SAME(n)                                                                                                        \
    { n, n, n }
/* Rows of one need for every yield. */
#define FLAT(crops, state, grown, source, status, least, most, in)                                                     \
    { crops, state, grown, source, status, false, least, most, in, SAME(least) }

static const char summer[] = "sorghum-sudan forage|sudangrass forage|millet forage",
                  summer_nc[] = "sorghum-sudan forage|sudangrass forage|millet forage|crabgrass "
                                "forage",
                  grains[] = "wheat grain|oat grain|barley grain|rye grain",
                  grazed[] = "wheat pasture|oat pasture|barley pasture|rye pasture",
                  legume[] = "after a legume|after soybean|after peanut|after clover";

static const printed rows[] = {
    /* corn: University of Georgia 1.2 lb/bu; Virginia 418-016 1.0; Auburn 200 lb irrigated, at
     * least 180 bu */
    {"corn grain", "Georgia", NULL, "uga-corn", LS_READ, true, 1.2, 0, "bu/ac", {100, 150, 205}, {120, 180, 246}},
    {"corn grain", "Virginia", NULL, "vce-418-016", LS_READ, true, 1.0, 0, "bu/ac", {100, 150, 205}, {100, 150, 205}},
    {"corn grain",
     "Alabama",
     "irrigated",
     "auburn-corn-13",
     LS_READ2,
     false,
     200,
     0,
     "bu/ac",
     {180, 190, 220},
     {200, 200, 200}},
    FLAT("sorghum grain", "North Carolina", NULL, "ncda-sorghum", LS_READ2, 120, 0, BU),
    /* Clemson 038: 60 lb before growth and 60 each time it is grazed or cut; NCDA: 50-70, then
     * 40-60 */
    FLAT(summer, "South Carolina", "for one growth", "clemson-038", LS_READ, 60, 0, TON),
    FLAT(summer, "South Carolina", "for two growths", "clemson-038", LS_DERIVED, 120, 0, TON),
    FLAT(summer, "South Carolina", "for three growths", "clemson-038", LS_DERIVED, 180, 0, TON),
    FLAT(summer_nc, "North Carolina", "for one growth", "ncda-circ", LS_READ, 50, 70, TON),
    FLAT(summer_nc, "North Carolina", "for two growths", "ncda-circ", LS_DERIVED, 90, 130, TON),
    FLAT(summer_nc, "North Carolina", "for three growths", "ncda-circ", LS_DERIVED, 130, 190, TON),
    /* Clemson 029: 90 dryland, 20 less in the piedmont, 120 irrigated */
    FLAT("wheat grain", "South Carolina", "dryland", "clemson-029", LS_READ, 90, 0, BU),
    FLAT("wheat grain", "South Carolina", "dryland in the piedmont", "clemson-029", LS_DERIVED, 70, 0, BU),
    FLAT("wheat grain", "South Carolina", "irrigated", "clemson-029", LS_READ, 120, 0, BU),
    /* Delaware: 80-120, the upper end for sandy soil or one spring application */
    FLAT("wheat grain", "Delaware", "on sandy soil|in one spring application", "udel-12832", LS_READ, 120, 0, BU),
    FLAT("wheat grain", "Delaware", "on heavier soil in split applications", "udel-12832", LS_READ, 80, 120, BU),
    {"wheat grain", "Pennsylvania", NULL, "psu-mcall-94", LS_READ2, true, 1.3, 1.5, BU, {52, 84.5, 117}},
    FLAT("barley grain", "Delaware", NULL, "udel-12832", LS_READ, 60, 90, BU),
    FLAT("oat grain|barley grain|rye grain", "South Carolina", NULL, "clemson-029", LS_READ, 90, 0, BU),
    /* Georgia Research Report 710: by the crop before; 60 lb more if grazed */
    FLAT(grains, "Georgia", legume, "uga-rr710", LS_READ, 60, 80, BU),
    FLAT(grains, "Georgia", "after cotton|after corn", "uga-rr710", LS_READ, 80, 100, BU),
    FLAT(grains, "Georgia", "after grain sorghum", "uga-rr710", LS_READ, 100, 120, BU),
    FLAT(grazed, "Georgia", legume, "uga-rr710", LS_DERIVED, 120, 140, TON),
    FLAT(grazed, "Georgia", "after cotton|after corn", "uga-rr710", LS_DERIVED, 140, 160, TON),
    FLAT(grazed, "Georgia", "after grain sorghum", "uga-rr710", LS_DERIVED, 160, 180, TON),
    FLAT(grazed, "South Carolina", "at normal stocking", "clemson-029", LS_DERIVED, 120, 0, TON),
    FLAT(grazed, "South Carolina", "above normal stocking", "clemson-029", LS_DERIVED, 200, 220, TON),
    FLAT("rye pasture|ryegrass pasture", "South Carolina", "on fallow from early September", "clemson-038", LS_DERIVED,
         160, 0, TON),
    FLAT("ryegrass pasture", "Mississippi", NULL, "ms-winter", LS_DERIVED, 195, 204, TON),
    FLAT("small grain forage", "Delaware", NULL, "udel-17650", LS_READ, 60, 90, TON),
    /* legumes */
    FLAT("soybean", "any", NULL, "aces-removal", LS_DERIVED, 0, 0, BU),
    FLAT("peanut", "Georgia", NULL, "uga-010", LS_READ, 0, 0, TON),
    FLAT("peanut", "any", NULL, "aces-removal", LS_DERIVED, 0, 0, TON),
    FLAT("alfalfa hay", "Georgia", NULL, "uga-026", LS_READ, 0, 0, TON),
    FLAT("alfalfa hay", "South Carolina", NULL, "clemson-050", LS_READ, 0, 0, TON),
    FLAT("alfalfa hay|alfalfa pasture", "any", NULL, "aces-removal", LS_DERIVED, 0, 0, TON),
    FLAT("clover hay|clover pasture", "Alabama", NULL, "aces-removal", LS_DERIVED, 0, 0, TON),
    FLAT("grass-clover hay|grass-clover pasture", "North Carolina", NULL, "ncda-circ", LS_READ, 0, 0, TON),
    FLAT("alfalfa-grass hay", "Tennessee", "with less than 25% alfalfa", "ut-alfalfa", LS_DERIVED, 60, 0, TON),
    /* Clemson 001: 70 lb for 500 lb of cotton, 6 for each 100 lb more: 720, 960 and 1,200 lb in
     * 1.5, 2 and 2.5 bales of 480 lb */
    {"cotton",
     "South Carolina",
     "dryland",
     "clemson-001",
     LS_READ,
     false,
     70,
     126.4,
     "bale/ac",
     {1.5, 2, 2.5},
     {83.2, 97.6, 112}},
    FLAT("cotton", "South Carolina", "irrigated", "clemson-002", LS_READ, 100, 0, BALE),
    FLAT("flue-cured tobacco", "South Carolina", NULL, "clemson-tobacco", LS_READ, 60, 80, TON),
    FLAT("flue-cured tobacco", "North Carolina", NULL, "ncsu-tobacco", LS_READ, 50, 80, TON),
    FLAT("burley tobacco", "Kentucky", NULL, "uky-burley", LS_READ, 150, 275, TON),
    /* Clemson 049: 60-75 lb each, two or three times; NCDA: 160, sandy 200, pasture 120 and 150 */
    FLAT("tall fescue hay", "South Carolina", "for two cuts", "clemson-049", LS_DERIVED, 120, 150, TON),
    FLAT("tall fescue hay", "South Carolina", "for three cuts", "clemson-049", LS_DERIVED, 180, 225, TON),
    FLAT("tall fescue hay", "North Carolina", "on fine-textured soil", "ncda-circ", LS_READ, 160, 0, TON),
    FLAT("tall fescue hay", "North Carolina", "on sandy soil", "ncda-circ", LS_READ, 200, 0, TON),
    FLAT("tall fescue pasture", "North Carolina", "on fine-textured soil", "ncda-circ", LS_READ, 120, 0, TON),
    FLAT("tall fescue pasture", "North Carolina", "on sandy soil", "ncda-circ", LS_READ, 150, 0, TON),
    FLAT("orchardgrass hay|timothy hay", "North Carolina", NULL, "ncda-circ", LS_READ, 100, 200, TON),
    FLAT("orchardgrass pasture", "Georgia", NULL, "uga-041", LS_READ, 50, 100, TON),
    FLAT("orchardgrass pasture", "Georgia", "cut for hay as well", "uga-041", LS_READ, 100, 0, TON),
    /* Georgia sheet 037: 200 lb for 4-5 ton, 400 for 7-8: 66.7 lb a ton between 4.5 and 7.5 */
    {"bermudagrass hay",
     "Georgia",
     NULL,
     "uga-037",
     LS_READ,
     false,
     200,
     400,
     "ton/ac",
     {4.5, 6, 7.2},
     {200, 300, 380}},
    /* UF/IFAS: the grower's choice of 50, 100 or 160; 80 for a new stand */
    FLAT("bahiagrass pasture", "Florida", "at the low rate", "ifas-forage", LS_READ, 50, 0, TON),
    FLAT("bahiagrass pasture", "Florida", "at the medium rate", "ifas-forage", LS_READ, 100, 0, TON),
    FLAT("bahiagrass pasture", "Florida", "at the high rate", "ifas-forage", LS_READ, 160, 0, TON),
    FLAT("bahiagrass pasture", "Florida", "newly seeded", "ifas-forage", LS_READ, 80, 0, TON),
    FLAT("sunflower", "Tennessee", "as a double crop", "ut-sunflower", LS_READ, 45, 60, TON),
    FLAT("canola", "North Carolina", NULL, "ncsu-inmc", LS_READ, 140, 0, BU),
    FLAT("sweet corn", "any", NULL, "attra-sweetcorn", LS_DERIVED, 110, 130, TON),
    FLAT("sweet corn", "Wisconsin", "on soil under 2% organic matter", "uwex-sweetcorn", LS_READ, 150, 0, TON),
    FLAT("sweet corn", "Wisconsin", "on soil of 2 to 10% organic matter", "uwex-sweetcorn", LS_READ, 130, 0, TON),
    FLAT("tomato", "Florida", "for fresh market", "ifas-cv236", LS_READ, 200, 0, TON),
    FLAT("watermelon", "Georgia", "in wide rows", "uga-melon", LS_READ2, 100, 0, TON),
    FLAT("watermelon", "Georgia", "on plastic at 5-ft centers", "uga-melon", LS_READ2, 150, 0, TON),
    FLAT("pecans", "Georgia", "for a heavy crop", "uga-pecan-22", LS_READ, 100, 125, TON),
};
enum { ROWS = sizeof rows / sizeof *rows };

static const char *field_of(ls_arena *a, const printed *p, size_t k, const char *crop, const char *grown) {
    return ls_arena_printf(a, "area: 10 ac, crop: %s%s%s, yield: %s %s, phosphorus: {rating: low}", crop,
                           grown ? ", grown: " : "", grown ? grown : "", ls_number_text(a, p->yield[k], 6), p->unit);
}

static const char *farm_in(ls_arena *a, const char *state) {
    return ls_arena_printf(a, "farm: {name: Farm, state: %s}\n", state);
}

/* The row in the table, and what a page says of it. */
static void check_row(const printed *p, const ls_field_rates *f, const ls_row *row) {
    const ls_figure *least = ls_row_figure(row, p->per_bu ? "per_bu" : "least"),
                    *most = ls_row_figure(row, p->per_bu ? "most_per_bu" : "most");
    const double unit = ls_unit_of(p->per_bu ? "lb/bu" : "lb/ac").factor;
    bool by_yield = ls_row_figure(row, "yield_most") != NULL;
    CU_ASSERT_PTR_NOT_NULL_FATAL(least);
    TEST_NEAR(least->value / unit, p->least, 1e-9);
    TEST_NEAR(most ? most->value / unit : 0, p->most, 1e-9);
    TEST_TEXT(least->source->id, p->source);
    TEST_SAME(least->status, p->status);
    CU_ASSERT_TRUE(has_flag(f, p->source));
    TEST_SAME(has_flag(f, "lower end of the published range"), p->most > 0 && !by_yield);
    CU_ASSERT_TRUE(p->status == LS_READ || has_flag(f, ls_status_words(p->status)));
    CU_ASSERT_TRUE(!ls_row_word(row, "split") || has_flag(f, ls_row_word(row, "split")));
    CU_ASSERT_TRUE(!row->note || has_flag(f, row->note));
}

static const ls_row *row_of(const ls_reference *r, const printed *p) {
    const ls_table *t = ls_reference_table(r, "need", "");
    const ls_row *found = NULL;
    for (size_t i = 0; i < t->n; i++) {
        const char *crops = ls_row_word(&t->rows[i], "crop");
        if (strcmp(crops ? crops : t->rows[i].name, p->crops) == 0 &&
            ls_text_same(ls_row_word(&t->rows[i], "state"), p->state) &&
            ls_text_same(ls_row_word(&t->rows[i], "grown"), p->grown))
            found = &t->rows[i];
    }
    CU_ASSERT_PTR_NOT_NULL_FATAL(found);
    return found;
}

/* Every row for every crop it names, by the first word for how it is grown and by the last, at
 * three yields. A row for any state serves where its state has none. */
static void every_row(void) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    TEST_SAME(ls_reference_table(r, "need", "")->n, ROWS);
    for (size_t i = 0; i < ROWS; i++) {
        const printed *p = &rows[i];
        const ls_row *row = row_of(r, p);
        const char *state = strcmp(p->state, "any") == 0 ? "Texas" : p->state, *crop;
        for (size_t c = 0; (crop = ls_farm_part(a, p->crops, c)) != NULL; c++)
            for (size_t k = 0; k < 3; k++) {
                const char *last = p->grown ? strrchr(p->grown, '|') : NULL, *grown = last && k == 2 ? last + 1
                                                                                      : p->grown
                                                                                          ? ls_farm_part(a, p->grown, 0)
                                                                                          : NULL;
                world t = one_field(farm_in(a, state), broiler_litter, field_of(a, p, k, crop, grown));
                const ls_field_rates *f = rates_of(&t, 0, 0);
                TEST_NEAR(shown(&t, f->need[LS_FIELD_N]), p->need[k], 1e-6);
                check_row(p, f, row);
                world_end(&t);
            }
    }
    ls_arena_free(a);
}

/* At least 25 crops; each that a row names is one a farm file can name. */
static void crops_of_the_table(void) {
    enum { AT_LEAST = 25 };
    ls_arena *a = ls_arena_new();
    const ls_table *crops = ls_reference_table(ls_reference_load(a), "crop", "");
    size_t n = 0;
    for (size_t c = 0; c < crops->n; c++) {
        bool served = false;
        for (size_t i = 0; i < ROWS; i++) served = served || ls_text_among(rows[i].crops, crops->rows[c].name);
        n += served;
    }
    CU_ASSERT(n >= AT_LEAST);
    const char *crop;
    for (size_t i = 0; i < ROWS; i++)
        for (size_t c = 0; (crop = ls_farm_part(a, rows[i].crops, c)) != NULL; c++)
            CU_ASSERT_PTR_NOT_NULL(ls_table_row(crops, crop));
    ls_arena_free(a);
}

/* ---- soil-test classes of their own ---- */

/* University of Georgia sheets 010 (peanuts) and 025, 026 (alfalfa): the highest of each class in
 * lb/ac by Mehlich-1. */
static void classes_of_a_crop(void) {
    static const struct {
        const char *crop, *table;
        double P[3], K[3];
    } sheets[] = {{"peanut", "coastal_plain", {15, 30, 60}, {30, 60, 150}},
                  {"peanut", "piedmont", {10, 20, 40}, {50, 100, 200}},
                  {"alfalfa hay", "coastal_plain", {30, 60, 100}, {70, 170, 275}},
                  {"alfalfa hay", "piedmont", {20, 40, 75}, {120, 250, 400}}};
    static const char *const classes[] = {"low", "medium", "high", "very high"};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof sheets / sizeof *sheets; i++)
        for (size_t k = 0; k < 6; k++) {
            double above = k % 2 ? 1 : 0;
            world t =
                one_field(ls_arena_printf(a, "tables: {soil: %s}\n", sheets[i].table), broiler_litter,
                          ls_arena_printf(a,
                                          "area: 10 ac, crop: %s, yield: 3 ton/ac, soil: {date: 2025-10-14, "
                                          "method: Mehlich-1, P: %.0f lb/ac, K: %.0f lb/ac}",
                                          sheets[i].crop, sheets[i].P[k / 2] + above, sheets[i].K[k / 2] + above));
            const ls_field_rates *f = rates_of(&t, 0, 0);
            TEST_TEXT(f->P_class, classes[k / 2 + k % 2]);
            TEST_TEXT(f->K_class, classes[k / 2 + k % 2]);
            world_end(&t);
        }
    ls_arena_free(a);
}

TEST_SUITE(crops) = {{"every row, three yields each", every_row},
                     {"crops of the table", crops_of_the_table},
                     {"soil-test classes of a crop", classes_of_a_crop},
                     CU_TEST_INFO_NULL};
