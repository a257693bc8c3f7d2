/* Why a plan is as it is: fields that get nothing, full and short things, the limit that would help
 * most, other aims than money, standby fields. Farms small enough to be worked out by hand. */
#include "plan_world.h"
#include "program.h"

#include <math.h>
#include <string.h>

#define CREW "trucks: [{name: T, count: 1, payload: 11 ton}]\ncrew: {arrives: 2026-02-16}\n"
#define BUYER(name, miles, price, more, fields)                                                                        \
    "  - {name: " name ", distance: " miles " mi, price: " price " $/ton, " more "fields: [" fields "]}\n"
#define FIELD(name, acres, more) "{name: " name ", area: " acres " ac, " PLAN_FIELD more "}"

static const char *why(const plan_world *t, const char *field) {
    for (size_t i = 0; i < t->plan->unused.n; i++)
        if (strcmp(t->plan->unused.at[i].field->name.text, field) == 0) return t->plan->unused.at[i].why;
    return NULL;
}

/* 110 ton, 2 ton/ac. Wide takes 60 ton, Ordered 22 of its 80 by order: 28 ton are left. */
static void test_unused(void) {
    plan_world t = plan_world_text(
        PLAN_HOUSE CREW "buyers:\n" BUYER("A", "3", "20", "", FIELD("Wide", "30", ""))
            BUYER("B", "3", "20", "order: {most: 2 loads}, ", FIELD("Ordered", "40", "") ", " FIELD("Second", "40", ""))
                BUYER("C", "3", "20", "",
                      "{name: Steep, area: 9 ac, crop: tall fescue hay, nitrogen: 200 lb/ac, "
                      "phosphorus: {rating: very high}}, " FIELD(
                          "Late", "40", ", open: 2026-06-01..2026-07-01") ", " FIELD("Patch", "0.4", "")));
    CU_ASSERT_FATAL(t.plan != NULL);
    TEST_HOLDS(why(&t, "Steep"), "rated very high");
    TEST_HOLDS(why(&t, "Late"), "open Mon, Jun 1 to Wed, Jul 1, not while you haul");
    TEST_HOLDS(why(&t, "Late"), "no stack");
    TEST_HOLDS(why(&t, "Patch"), "less than the smallest drop");
    TEST_TEXT(why(&t, "Wide"), NULL);
    const char *one = why(&t, "Ordered") != NULL ? why(&t, "Ordered") : why(&t, "Second");
    TEST_HOLDS(one, "order is filled");
    plan_world_end(&t);
}

/* All litter fits on Wide, which pays; Cheap is not needed. */
static void test_not_needed(void) {
    plan_world t = plan_world_text(PLAN_HOUSE CREW "buyers:\n" BUYER("A", "3", "20", "", FIELD("Wide", "80", ""))
                                       BUYER("B", "3", "5", "", FIELD("Cheap", "80", "")));
    CU_ASSERT_FATAL(t.plan != NULL);
    TEST_HOLDS(why(&t, "Cheap"), "brings more");
    TEST_SAME(t.plan->relief.n, 0);
    TEST_SAME(t.plan->firm_kept, false);
    plan_world_end(&t);
}

/* ---- the limit that would help ---- */

static double shown(const plan_world *t, ls_line line) { return ls_line_shown(t->sheet, line); }

/* 110 ton in ten loads of 11. B ordered three at most and its field takes all: ten do it, and 77
 * ton more find a home. */
static void test_order_relief(void) {
    plan_world t = plan_world_text(
        PLAN_HOUSE CREW "buyers:\n" BUYER("B", "3", "20", "order: {most: 3 loads}, ", FIELD("Wide", "80", "")));
    CU_ASSERT_FATAL(t.plan != NULL && t.plan->relief.n > 0);
    const ls_relief *r = t.plan->relief.at;
    TEST_SAME(r->kind, LS_RELIEF_ORDER);
    TEST_NEAR(shown(&t, r->tons), 77, 1e-9);
    TEST_NEAR(shown(&t, r->to), 10, 1e-9);
    plan_world_end(&t);
}

/* The field takes 60 ton a ton and a half an acre; 110 ton need 2.75 ton/ac on its 40 acres, told
 * in tenths. */
static void test_cap_relief(void) {
    plan_world t =
        plan_world_text(PLAN_HOUSE CREW "buyers:\n" BUYER("B", "3", "20", "",
                                                          "{name: F, area: 40 ac, crop: tall fescue hay, nitrogen: "
                                                          "200 lb/ac, phosphorus: {rating: low}, most: 1.5 "
                                                          "ton/ac}"));
    CU_ASSERT_FATAL(t.plan != NULL && t.plan->relief.n > 0);
    const ls_relief *r = t.plan->relief.at;
    TEST_SAME(r->kind, LS_RELIEF_CAP);
    TEST_NEAR(shown(&t, r->tons), 50, 1e-9);
    TEST_NEAR(shown(&t, r->to), 2.8, 1e-9);
    plan_world_end(&t);
}

/* 0.5 ton/ac by the cap of the season on 40 acres: 20 ton; without it nitrogen and the top rate of
 * 3 ton/ac leave room for all 110, at 2.75 ton/ac, told in tenths. */
static void test_season_relief(void) {
    plan_world t = plan_world_text(PLAN_HOUSE CREW "buyers:\n" BUYER(
        "B", "3", "20", "",
        "{name: F, area: 40 ac, crop: tall fescue hay, nitrogen: 200 lb/ac, phosphorus: "
        "{rating: low}, most: 3 ton/ac, open: 2026-02-01..2026-04-01, window_caps: [{between: "
        "2026-02-01..2026-03-31, most: 0.5 ton/ac, rule: Alabama}]}"));
    CU_ASSERT_FATAL(t.plan != NULL && t.plan->relief.n > 0);
    const ls_relief *r = t.plan->relief.at;
    TEST_SAME(r->kind, LS_RELIEF_SEASON);
    CU_ASSERT(r->field == &t.farm->buyers.at[0].fields.at[0]);
    TEST_NEAR(shown(&t, r->tons), 90, 0.5);
    TEST_NEAR(shown(&t, r->to), 2.8, 1e-9);
    plan_world_end(&t);
}

/* A body of 12 yd3 holds 12 x 27 x 40 / 2000 = 6.48 ton, less than the 11 that the truck may carry:
 * 1.25 times the load takes 1.25 times the body. Without a body weight alone is told. The order of
 * two loads is what keeps litter out. */
static void test_body_relief(void) {
    static const char *const farms[] = {
#define TRUCK_OF(body)                                                                                                 \
    PLAN_HOUSE "trucks: [{name: T, count: 1, payload: 11 ton" body "}]\n"                                              \
               "crew: {arrives: 2026-02-16}\nbuyers:\n" BUYER("B", "3", "20", "order: {most: 2 loads}, ",              \
                                                              FIELD("Wide", "80", ""))
        TRUCK_OF(", body: 12 yd3"), TRUCK_OF("")
#undef TRUCK_OF
    };
    for (size_t i = 0; i < 2; i++) {
        plan_world t = plan_world_text(farms[i]);
        CU_ASSERT_FATAL(t.plan != NULL);
        const ls_relief *truck = NULL;
        for (size_t k = 0; k < t.plan->relief.n; k++)
            if (t.plan->relief.at[k].kind == LS_RELIEF_TRUCK) truck = &t.plan->relief.at[k];
        CU_ASSERT_FATAL(truck != NULL);
        if (i == 0)
            TEST_NEAR(shown(&t, truck->body), 15, 1e-9);
        else
            CU_ASSERT_EQUAL(truck->body, LS_NO_LINE);
        plan_world_end(&t);
    }
}

/* The field is closed while litter is hauled; open from the first to the last day of hauling it
 * takes all. */
static void test_window_relief(void) {
    plan_world t = plan_world_text(
        PLAN_HOUSE CREW "buyers:\n" BUYER("B", "3", "20", "", FIELD("F", "80", ", open: 2026-03-10..2026-04-01")));
    CU_ASSERT_FATAL(t.plan != NULL && t.plan->relief.n > 0);
    const ls_relief *r = t.plan->relief.at;
    TEST_SAME(r->kind, LS_RELIEF_WINDOW);
    TEST_NEAR(shown(&t, r->tons), 110, 1e-9);
    TEST_SAME(r->open.from, ls_date_of(2026, 2, 16));
    TEST_SAME(r->open.to, ls_date_of(2026, 4, 1));
    plan_world_end(&t);
}

/* Grass hay takes 10 lb/ton of P2O5 (Alabama Extension): 24 lb/ac at 2.4 ton/ac, or 1.2 ton/ac of
 * litter with 20 lb/ton, where nobody rated the field: 48 ton on 40 acres. Rated low it would take
 * the 2 ton/ac of its plan: 32 ton more. */
static void test_unrated(void) {
    plan_world t = plan_world_text(PLAN_HOUSE CREW "buyers:\n" BUYER(
        "B", "3", "20", "",
        "{name: Rated, area: 5 ac, " PLAN_FIELD "}, {name: F, area: 40 ac, crop: tall fescue hay, "
        "yield: 2.4 ton/ac, nitrogen: 200 lb/ac, most: 2 ton/ac}"));
    CU_ASSERT_FATAL(t.plan != NULL);
    TEST_SAME(t.plan->defaults.n, 1);
    const ls_default_limit *d = t.plan->defaults.at;
    TEST_SAME(d->kind, LS_DEFAULT_PHOSPHORUS);
    CU_ASSERT(d->field == &t.farm->buyers.at[0].fields.at[1]);
    TEST_TEXT(d->what, "no phosphorus rating: held to 1.2 tons/ac");
    TEST_NEAR(shown(&t, d->tons), 32, 1e-9);
    plan_world_end(&t);
}

/* A ton holds 20 lb of nitrogen at most for 200 lb/ac: 10 ton/ac or more may go on, but the file
 * gives no top rate, so 3 ton/ac do, the top of the published range: 33 ton on 11 acres. The other
 * 77 would fit there too. Where all litter has a field the limit stands there with no tons. */
static void test_no_top_rate(void) {
    static const struct {
        const char *area;
        double tons;
    } rows[] = {{"11", 77}, {"60", 0}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < 2; i++) {
        plan_world t = plan_world_text(
            ls_arena_printf(a,
                            "%s" CREW "buyers:\n  - {name: B, distance: 3 mi, fields: [{name: F, area: %s "
                            "ac, crop: tall fescue hay, nitrogen: 200 lb/ac, phosphorus: {rating: "
                            "low}}]}\n",
                            PLAN_HOUSE, rows[i].area));
        CU_ASSERT_FATAL(t.plan != NULL);
        TEST_SAME(t.plan->defaults.n, 1);
        TEST_SAME(t.plan->defaults.at[0].kind, LS_DEFAULT_RATE);
        TEST_TEXT(t.plan->defaults.at[0].what, "no limit in the file: held to 3 tons/ac");
        TEST_NEAR(shown(&t, t.plan->defaults.at[0].tons), rows[i].tons, 1e-9);
        plan_world_end(&t);
    }
    ls_arena_free(a);
}

/* Litter nobody analyzed: the field's rate is set for rich litter. With without_lab: expected it
 * takes what is told, planned anew. */
static void test_rich_litter(void) {
    static const char farm[] =
        "houses:\n  - {name: One, length: 440 ft, width: 40 ft, flocks: [{birds: broiler, count: "
        "20000, placed: 2025-12-01, removed: 2026-01-20}], measured: {weighed: 110 ton, "
        "loose_density: 40 lb/ft3}}\n" CREW
        "buyers:\n  - {name: B, distance: 3 mi, fields: [{name: F, area: 30 ac, crop: tall fescue "
        "hay, nitrogen: 40 lb/ac, phosphorus: {rating: low}%s}]}\n";
    ls_arena *a = ls_arena_new();
    plan_world t = plan_world_text(ls_arena_printf(a, farm, "")),
               u = plan_world_text(ls_arena_printf(a, farm, ", without_lab: expected"));
    CU_ASSERT_FATAL(t.plan != NULL && u.plan != NULL && t.plan->defaults.n == 1);
    TEST_SAME(t.plan->defaults.at[0].kind, LS_DEFAULT_RICH);
    TEST_HOLDS(t.plan->defaults.at[0].what, "no lab report, so set for rich litter: ");
    double more = plan_tons(&u, u.plan->straight[1]) - plan_tons(&t, t.plan->straight[1]);
    CU_ASSERT(more > 1);
    TEST_NEAR(shown(&t, t.plan->defaults.at[0].tons), more, 1e-6);
    TEST_SAME(u.plan->defaults.n, 0);
    plan_world_end(&t);
    plan_world_end(&u);
    ls_arena_free(a);
}

/* Lifting what is told places what is told: the farm with the larger order, planned anew. */
static void test_relief_comes_true(void) {
    plan_world t = plan_world_text(
        PLAN_HOUSE CREW "buyers:\n" BUYER("B", "3", "20", "order: {most: 10 loads}, ", FIELD("Wide", "80", "")));
    CU_ASSERT_FATAL(t.plan != NULL);
    TEST_NEAR(plan_tons(&t, t.plan->unplaced[1]), 0, 1e-9);
    plan_world_end(&t);
}

/* B wants 5 loads, its field takes one: four of 11 ton are missing. */
static void test_short_order(void) {
    plan_world t = plan_world_text(PLAN_HOUSE CREW "buyers:\n" BUYER("A", "3", "20", "", FIELD("Wide", "80", ""))
                                       BUYER("B", "3", "20", "order: {least: 5 loads}, ", FIELD("F", "5.5", "")));
    CU_ASSERT_FATAL(t.plan != NULL);
    TEST_SAME(t.plan->short_orders.n, 1);
    if (t.plan->short_orders.n == 1) TEST_NEAR(shown(&t, t.plan->short_orders.at[0].short_of), 44, 1e-9);
    plan_world_end(&t);
}

/* ---- aims ---- */

static plan_world aimed(const char *yaml, ls_aim aim) {
    return plan_world_on(yaml, &(ls_plan_terms){.aim = aim, .from = LS_NO_DATE});
}

static double tons_for(const plan_world *t, const char *buyer) {
    double sum = 0;
    for (size_t i = 0; i < t->plan->loads_n; i++)
        if (strcmp(t->plan->loads[i].buyer->name.text, buyer) == 0) sum += plan_tons(t, t->plan->loads[i].tons);
    return sum;
}

/* A pays more and is far; B is near; C's soil lacks phosphorus, theirs does not. Each takes all. */
static void test_aims(void) {
    static const char yaml[] =
        PLAN_HOUSE CREW "costs: {haul: 1 $/mi}\n"
                        "buyers:\n" BUYER("A", "12", "40", "", FIELD("F", "60", ", phosphate: 0 lb/ac"))
                            BUYER("B", "2", "10", "", FIELD("G", "60", ", phosphate: 0 lb/ac"))
                                BUYER("C", "9", "5", "", FIELD("H", "60", ", phosphate: 30 lb/ac"));
    static const char *const best[LS_AIMS] = {"A", "B", "C"};
    /* ten loads: 110 ton x $40 - 10 x 24 mi x $1; 10 x 4 mi; 20 lb/ton x 2 ton/ac is 40 lb/ac, of
     * which 30 count: 15 lb in each of 110 ton */
    static const double value[LS_AIMS] = {4160, 40, 1650};
    for (int aim = 0; aim < LS_AIMS; aim++) {
        plan_world t = aimed(yaml, (ls_aim)aim);
        CU_ASSERT_FATAL(t.plan != NULL);
        TEST_NEAR(tons_for(&t, best[aim]), 110, 1e-9);
        const ls_goal *g = &t.plan->goals[LS_GOAL_RETURN];
        TEST_NEAR(g->value, value[aim], 1e-9);
        TEST_NEAR(g->gap, 0, 1e-9);
        TEST_NEAR(shown(&t, t.plan->reached[LS_GOAL_RETURN]), value[aim], 1e-9);
        TEST_TEXT(ls_worksheet_fault(t.sheet), NULL);
        plan_world_end(&t);
    }
}

static void test_goal_lines(void) {
    static const char *const demo[] = {"fixtures/demo-house.yaml", "fixtures/demo-fields.yaml"};
    plan_world t = plan_world_of(demo, 2);
    for (int g = 0; g < LS_GOALS; g++) {
        TEST_NEAR(shown(&t, t.plan->reached[g]), t.plan->goals[g].value, 1e-9);
        TEST_NEAR(shown(&t, t.plan->bound[g]), t.plan->goals[g].bound, 1e-9);
        TEST_NEAR(fabs(shown(&t, t.plan->gap[g])), t.plan->goals[g].gap, 1e-6);
    }
    CU_ASSERT(ls_line_find(t.sheet, "plan.goal-tons") == t.plan->reached[LS_GOAL_TONS]);
    CU_ASSERT(ls_line_find(t.sheet, "plan.working-days") != LS_NO_LINE);
    plan_world_end(&t);
}

/* ---- standby ---- */

/* Litter known to a fifth: firm loads have no standby, others have one where there is room for all
 * of them, and no two loads are sent to the same room: F and G take 160 ton each. */
static void test_standby(void) {
    plan_world t =
        plan_world_text("houses:\n  - {name: One, length: 440 ft, width: 40 ft,\n"
                        "     measured: {weighed: 110 ton +/- 20 %, loose_density: 40 lb/ft3},\n"
                        "     lab: [{date: 2026-01-10, basis: as received, moisture: 30 %, N: 20 lb/ton, NH4N: 5 "
                        "lb/ton, P2O5: 20 lb/ton, K2O: 20 lb/ton}]}\n" CREW
                        "buyers:\n" BUYER("A", "3", "20", "", FIELD("F", "80", "") ", " FIELD("G", "11", "")));
    CU_ASSERT_FATAL(t.plan != NULL);
    double on_standby = 0;
    int others = 0;
    ls_certainty before = LS_FIRM;
    for (size_t i = 0; i < t.plan->loads_n; i++) {
        const ls_load *l = &t.plan->loads[i];
        if (plan_tons(&t, l->tons) > plan_tons(&t, l->lot->payload.line) - 0.01) {
            CU_ASSERT(l->certainty >= before); /* what a short house lacks are the last tickets */
            before = l->certainty;
        }
        others += l->certainty != LS_FIRM;
        if (l->standby == NULL) continue;
        CU_ASSERT(l->certainty != LS_FIRM);
        for (size_t k = 0; k < l->n; k++) CU_ASSERT(l->standby != l->drops[k].field);
        if (strcmp(l->standby->name.text, "G") == 0) on_standby += plan_tons(&t, l->tons);
    }
    CU_ASSERT(others > 0);
    CU_ASSERT(on_standby > 0 && on_standby <= 22 + 1e-6);
    plan_world_end(&t);
}

/* ---- the page ---- */

static void test_page(void) {
    ls_arena *a = ls_arena_new();
    test_run run =
        PROGRAM(a, "plan", FEW, "--full", "--aim", "near", "fixtures/demo-house.yaml", "fixtures/demo-fields.yaml");
    TEST_SAME(run.status, 0);
    TEST_TEXT(run.err, ""); /* no progress where nobody watches */
    TEST_HOLDS(run.out, "truck miles");
    const char *page = test_joined(a, run.out);
    TEST_HOLDS(page, "gets nothing: the field's phosphorus is rated very high");
    TEST_HOLDS(page, "- with Mill Forty open from Mon, Feb 16");
    const char *first = strstr(page, "NO FIELD"), *rest = strstr(page, "Promise today");
    CU_ASSERT(first != NULL && rest != NULL && first < rest);
    TEST_HOLDS(page, " 204 placed. 42 have NO FIELD.");
    TEST_HOLDS(page, "Room left in the likely case under 0.1 tons");
    run = PROGRAM(a, "plan", FEW, "--aim", "far", "fixtures/demo-house.yaml");
    TEST_SAME(run.status, 2);
    TEST_HOLDS(run.err, "\"far\" is not money, near or phosphorus");
    ls_arena_free(a);
}

/* A farm file need not have a section farm: the page still answers. */
static void test_no_farm_section(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *path = test_file(a, folder, "farm.yaml",
                                 PLAN_HOUSE CREW "buyers:\n" BUYER("A", "3", "20", "", FIELD("Wide", "80", "")));
    test_run run = PROGRAM(a, "plan", FEW, path);
    TEST_SAME(run.status, 0);
    TEST_HOLDS(run.out, "The file gives no date.");
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(plan_why) = {{"fields that get nothing", test_unused},
                        {"a field that is not needed", test_not_needed},
                        {"an order that keeps litter out", test_order_relief},
                        {"a top rate that keeps litter out", test_cap_relief},
                        {"a cap of a season that keeps litter out", test_season_relief},
                        {"a larger truck with a larger body", test_body_relief},
                        {"a window that keeps litter out", test_window_relief},
                        {"a field nobody rated", test_unrated},
                        {"a field without a top rate", test_no_top_rate},
                        {"a rate set for rich litter", test_rich_litter},
                        {"what would help helps", test_relief_comes_true},
                        {"an order short of its least", test_short_order},
                        {"aims", test_aims},
                        {"goals as lines", test_goal_lines},
                        {"standby fields", test_standby},
                        {"the page", test_page},
                        {"a farm file without a section farm", test_no_farm_section},
                        CU_TEST_INFO_NULL};
