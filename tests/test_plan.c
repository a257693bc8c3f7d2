/* The plan of a farm: loads, tickets, stages, stack, days. */
#include "plan_world.h"

#include "haul/plan.h"

#include <math.h>
#include <string.h>

static const char *const demo[] = {"fixtures/demo-house.yaml", "fixtures/demo-fields.yaml"};

/* ---- tickets ---- */

/* The Global Release Identifier A1-2425G-ABC1234002-M carries a check character by ISO 7064 MOD
 * 37,36 (example of its standard, from memory). */
static void test_check_character(void) { TEST_SAME(ls_check_character("A1-2425G-ABC1234002"), 'M'); }

/* The standard promises that any one wrong character, and any two neighbors exchanged, are found.
 */
static void test_slips_of_the_pen(void) {
    static const char right[] = "NORTHLEFT07";
    char wrong[sizeof right];
    char check = ls_check_character(right);
    for (size_t i = 0; i + 1 < sizeof right; i++)
        for (const char *c = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"; *c != '\0'; c++) {
            memcpy(wrong, right, sizeof right);
            wrong[i] = *c;
            CU_ASSERT(*c == right[i] || ls_check_character(wrong) != check);
        }
    for (size_t i = 0; i + 2 < sizeof right; i++) {
        memcpy(wrong, right, sizeof right);
        wrong[i] = right[i + 1], wrong[i + 1] = right[i];
        CU_ASSERT(right[i] == right[i + 1] || ls_check_character(wrong) != check);
    }
}

/* ---- the demo farm ---- */

/* Tons of the loads of a kind. */
static double loads_tons(const plan_world *t, ls_certainty most, bool to_stack) {
    double sum = 0;
    for (size_t i = 0; i < t->plan->loads_n; i++) {
        const ls_load *l = &t->plan->loads[i];
        if (l->certainty <= most && (l->buyer == NULL) == to_stack) sum += plan_tons(t, l->tons);
    }
    return sum;
}

static void test_stages_add_up(void) {
    plan_world t = plan_world_of(demo, 2);
    const ls_q all = t.estimate->tons;
    const double point[] = {all.low / 2000, all.mid / 2000, all.high / 2000};
    for (int s = 0; s < LS_STAGES; s++) {
        double sum =
            plan_tons(&t, t.plan->straight[s]) + plan_tons(&t, t.plan->stacked[s]) + plan_tons(&t, t.plan->unplaced[s]);
        TEST_NEAR(sum, point[s], 1e-12);
        CU_ASSERT(plan_tons(&t, t.plan->unplaced[s]) >= 0);
    }
    TEST_NEAR(loads_tons(&t, LS_LIKELY, false), plan_tons(&t, t.plan->straight[1]), 1e-12);
    TEST_NEAR(loads_tons(&t, LS_LIKELY, true), plan_tons(&t, t.plan->stacked[1]), 1e-12);
    TEST_NEAR(loads_tons(&t, LS_POSSIBLE, false), plan_tons(&t, t.plan->straight[2]), 1e-12);
    TEST_NEAR(loads_tons(&t, LS_POSSIBLE, true), plan_tons(&t, t.plan->stacked[2]), 1e-12);
    TEST_NEAR(ls_line_value(t.sheet, t.plan->net_return), t.plan->goals[LS_GOAL_RETURN].value, 1e-9);
    plan_world_end(&t);
}

/* Firm loads are full, come first in their lot, and are no more than the lot is sure of. */
static void test_firm_loads(void) {
    plan_world t = plan_world_of(demo, 2);
    for (size_t i = 0; i < t.estimate->n; i++) {
        const ls_lot *lot = &t.estimate->lots[i];
        double payload = floor(ls_line_shown(t.sheet, lot->payload.line) * 100 + 1e-6) / 100;
        long firm = 0;
        ls_certainty before = LS_FIRM;
        for (size_t k = 0; k < t.plan->loads_n; k++) {
            const ls_load *l = &t.plan->loads[k];
            if (l->lot != lot) continue;
            CU_ASSERT(l->certainty >= before);
            before = l->certainty;
            firm += l->certainty == LS_FIRM;
            if (l->certainty == LS_FIRM) TEST_NEAR(plan_tons(&t, l->tons), payload, 1e-9);
        }
        CU_ASSERT(firm > 0 && (double)firm <= ls_line_value(t.sheet, lot->firm));
    }
    plan_world_end(&t);
}

/* What each drop covers; none twice. Every drop on a day its field is open; none on Ridge, rated
 * very high. */
static void check_drops(const plan_world *t, const ls_load *l, double *covered) {
    for (size_t k = 0; k < l->n; k++) {
        const ls_drop *d = &l->drops[k];
        double acres = ls_line_shown(t->sheet, d->acres);
        TEST_NEAR(acres * ls_line_shown(t->sheet, d->rate), plan_tons(t, d->tons), 1e-9);
        CU_ASSERT(plan_tons(t, d->tons) >= 1 - 1e-9);
        CU_ASSERT(strcmp(d->field->name.text, "Ridge") != 0);
        CU_ASSERT(d->buyer == l->buyer);
        ls_date day = l->from_stack ? l->from : l->day;
        CU_ASSERT(d->field->open.days.from <= day && day <= d->field->open.days.to);
        size_t at = 0;
        for (const ls_buyer *b = t->farm->buyers.at; b != d->buyer; b++) at += b->fields.n;
        covered[at + (size_t)(d->field - d->buyer->fields.at)] += acres;
    }
}

static void test_fields(void) {
    plan_world t = plan_world_of(demo, 2);
    double covered[16] = {0};
    for (size_t i = 0; i < t.plan->loads_n; i++) check_drops(&t, &t.plan->loads[i], covered);
    for (size_t i = 0; i < t.plan->out_n; i++) check_drops(&t, &t.plan->out[i], covered);
    CU_ASSERT(t.plan->out_n > 0);
    size_t at = 0;
    for (size_t b = 0; b < t.farm->buyers.n; b++)
        for (size_t f = 0; f < t.farm->buyers.at[b].fields.n; f++, at++) {
            const ls_buyer *buyer = &t.farm->buyers.at[b];
            const char *key = ls_arena_printf(t.arena, "%s.%s.spreadable", buyer->slug, buyer->fields.at[f].slug);
            ls_line acres = ls_line_find(t.sheet, key); /* stands for fields that get litter */
            if (covered[at] > 0) CU_ASSERT(acres != LS_NO_LINE && covered[at] <= ls_line_shown(t.sheet, acres) + 1e-6);
        }
    plan_world_end(&t);
}

static void test_tickets(void) {
    plan_world t = plan_world_of(demo, 2);
    for (size_t i = 0; i < t.plan->loads_n; i++) {
        const char *ticket = t.plan->loads[i].ticket;
        size_t n = strlen(ticket), code = strlen(t.plan->loads[i].lot->code);
        CU_ASSERT(strncmp(ticket, t.plan->loads[i].lot->code, code) == 0 && ticket[code] == '-');
        const char *rest = ls_arena_copy_n(t.arena, ticket, n - 2);
        TEST_SAME(ticket[n - 1], ls_check_character(rest));
        for (size_t k = 0; k < i; k++) CU_ASSERT(strcmp(ticket, t.plan->loads[k].ticket) != 0);
    }
    plan_world_end(&t);
}

/* USDA NRCS Alabama, AL-ENG-25G: cross-section = height x (width - 12 ft) - 1.5 height^2, length of
 * the pile = length - 12 ft - 0.75 height, which is one end slope: the other end leans on the wall.
 * 80 ft by 40 ft by 6 ft: 6 x 28 - 1.5 x 36 = 114 ft2; 80 - 12 = 68 ft, a slope takes 4.5 ft. Lots
 * apart, foot at foot, a pile more is two slopes more, (2 n - 1) x 4.5 ft in all. At 32 lb/ft3, so
 * 114 x 32 / 2000 = 1.824 tons a foot:
 *   1 pile   68 -  4.5 = 63.5 ft   115.8 tons
 *   2 piles  68 - 13.5 = 54.5 ft    99.4 tons
 *   3 piles  68 - 22.5 = 45.5 ft    83.0 tons
 *   4 piles  68 - 31.5 = 36.5 ft    66.6 tons
 * The plan's two piles and their slopes take no more than the 68 ft, and one more would take 9 ft,
 * 16.4 tons. */
static void test_stack_room(void) {
    plan_world t = plan_world_of(demo, 2);
    ls_line density = ls_line_find(t.sheet, "plan.stack.density");
    double foot = 114 * ls_line_value(t.sheet, density) / 2000, feet = 0, tons = 0;
    TEST_NEAR(ls_line_shown(t.sheet, ls_line_find(t.sheet, "plan.stack.section")), 114, 1e-12);
    TEST_SAME(t.plan->piles.n, 2);
    TEST_NEAR(ls_line_shown(t.sheet, t.plan->stack_room), 54.5 * foot, 1e-9);
    TEST_NEAR(ls_line_shown(t.sheet, t.plan->stack_room), 99.408, 1e-3);
    TEST_NEAR(ls_line_shown(t.sheet, t.plan->another_pile), 9 * foot, 1e-9);
    TEST_NEAR(ls_line_shown(t.sheet, ls_line_find(t.sheet, "plan.stack.room-4")), 36.5 * foot, 1e-9);
    for (size_t k = 0; k < t.plan->piles.n; k++) {
        double of_pile = ls_line_shown(t.sheet, t.plan->piles.at[k].tons);
        TEST_NEAR(ls_line_shown(t.sheet, t.plan->piles.at[k].length),
                  of_pile / foot + (k + 1 == t.plan->piles.n ? 4.5 : 9), 1e-9);
        feet += ls_line_shown(t.sheet, t.plan->piles.at[k].length);
        tons += of_pile;
    }
    CU_ASSERT(tons > 90 && feet <= 68 + 1e-6);
    TEST_NEAR(ls_line_shown(t.sheet, t.plan->stack_left), 54.5 * foot - tons, 1e-9);
    plan_world_end(&t);
}

/* ---- small farms ---- */

#define BUYERS_AB                                                                                                      \
    "buyers:\n  - {name: A, distance: 3 mi, price: 20 $/ton, fields: [{name: F, area: 30 "                             \
    "ac, " PLAN_FIELD "}]}\n"                                                                                          \
    "  - {name: B, distance: 3 mi, price: 20 $/ton, fields: [{name: F, area: 30 ac, " PLAN_FIELD "}]}\n"
#define BUYERS_BA                                                                                                      \
    "buyers:\n  - {name: B, distance: 3 mi, price: 20 $/ton, fields: [{name: F, area: 30 "                             \
    "ac, " PLAN_FIELD "}]}\n"                                                                                          \
    "  - {name: A, distance: 3 mi, price: 20 $/ton, fields: [{name: F, area: 30 ac, " PLAN_FIELD "}]}\n"
#define CREW "trucks: [{name: T, count: 1, payload: 11 ton}]\ncrew: {arrives: 2026-02-16}\n"

/* Two buyers alike in all but name: which comes first in the file decides nothing. */
static void test_order_of_the_file(void) {
    plan_world t = plan_world_text(PLAN_HOUSE CREW BUYERS_AB), u = plan_world_text(PLAN_HOUSE CREW BUYERS_BA);
    CU_ASSERT_FATAL(t.plan != NULL && u.plan != NULL);
    TEST_SAME(t.plan->loads_n, u.plan->loads_n);
    for (size_t i = 0; i < t.plan->loads_n && i < u.plan->loads_n; i++) {
        TEST_TEXT(t.plan->loads[i].ticket, u.plan->loads[i].ticket);
        TEST_TEXT(t.plan->loads[i].buyer->name.text, u.plan->loads[i].buyer->name.text);
    }
    plan_world_end(&t);
    plan_world_end(&u);
}

/* Off a scale: nothing is merely possible. */
static void test_weighed(void) {
    plan_world t = plan_world_text(PLAN_HOUSE CREW BUYERS_AB);
    CU_ASSERT_FATAL(t.plan != NULL);
    TEST_SAME(t.plan->loads_n, 10);
    for (size_t i = 0; i < t.plan->loads_n; i++) TEST_SAME(t.plan->loads[i].certainty, LS_FIRM);
    TEST_NEAR(plan_tons(&t, t.plan->straight[0]), 110, 1e-12);
    TEST_NEAR(ls_line_value(t.sheet, t.plan->income), 2200, 1e-12);
    plan_world_end(&t);
}

/* A loader bucket of 27 ft3 at 40 lb/ft3 is 1,080 lb: 21 of them make 11 ton; each takes 60 s and
 * 440 ft at 5 mph, another 60 s: 42 minutes a load. 5 mi at 30 mph: 10 min out, 10 back. 5.5 ac at
 * 5 mph x 33 ft / 8.25 x 0.615 = 12.3 ac/h: 26.83 min. A trip is 88.83 min: in a day of 8 h = 480
 * min one truck is back at 88.83, 177.67, 266.5, 355.33 and 444.17 min, 5 loads, then the next day.
 * Two trucks are loaded at 0 and 42 min, and each again when it is back: 0, 88.83, 177.67, 266.5,
 * 355.33 and 42, 130.83, 219.67, 308.5 min; the tenth load, at 397.33, would be back at 486.17. */
static const ls_plan *days_of(plan_world *t, const char *trucks, const char *more) {
    ls_arena *a = ls_arena_new();
    *t = plan_world_text(ls_arena_printf(a,
                                         "%strucks: [{name: T, count: %s, payload: 11 ton, swath: 33 ft, spreading: "
                                         "5 mph, road: 30 mph}]\n"
                                         "crew: {arrives: 2026-02-16, hours: 8 h/day, %sloader: {bucket: 1 yd3, "
                                         "fill: 100 %%, load_and_dump: 60 s, travel: 5 mph}}\n"
                                         "farm: {name: X, next_flock: 2026-03-01}\n"
                                         "buyers:\n  - {name: A, distance: 5 mi, price: 20 $/ton, fields: [{name: "
                                         "F, area: 80 ac, " PLAN_FIELD "}]}\n",
                                         PLAN_HOUSE, trucks, more));
    ls_arena_free(a);
    CU_ASSERT_PTR_NOT_NULL_FATAL(t->plan);
    return t->plan;
}

static void test_days(void) {
    plan_world t;
    const ls_plan *p = days_of(&t, "1", "");
    TEST_SAME(p->days_n, 2);
    TEST_SAME(p->days[0].loads, 5);
    TEST_SAME(p->finish, ls_date_of(2026, 2, 17));
    TEST_SAME(p->slack_days, 12);
    plan_world_end(&t);
    p = days_of(&t, "2", "");
    TEST_SAME(p->days_n, 2);
    TEST_SAME(p->days[0].loads, 9);
    TEST_TEXT(p->days[0].work, "One: 9 loads");
    TEST_SAME(p->loads[8].start.second, 7 * 3600 + 355 * 60 + 20);
    TEST_SAME(p->loads[9].start.second, 7 * 3600);
    TEST_SAME(p->loads[9].back.second, 7 * 3600 + 88 * 60 + 50);
    plan_world_end(&t);
    p = days_of(&t, "1", "days_off: [monday], hold_days: [2026-02-18], "); /* the 16th is a Monday */
    TEST_SAME(p->start, ls_date_of(2026, 2, 17));
    TEST_SAME(p->finish, ls_date_of(2026, 2, 19));
    TEST_SAME(p->working_days, 2);
    plan_world_end(&t);
}

/* 10 loads at 20 minutes and more take one truck several half days: the wider window holds them,
 * the one that ends after the first day takes nothing. */
static void test_windows(void) {
    static const char *const windows[] = {"2026-02-16..2026-02-28", "2026-02-16..2026-02-16"};
    for (int k = 0; k < 2; k++) {
        ls_arena *a = ls_arena_new();
        plan_world t =
            plan_world_text(ls_arena_printf(a,
                                            "%strucks: [{name: T, count: 1, payload: 11 ton}]\n"
                                            "crew: {arrives: 2026-02-16, hours: 2 h/day}\n"
                                            "buyers:\n  - {name: A, distance: 1 mi, price: 20 $/ton, fields: "
                                            "[{name: F, area: 80 ac, open: %s, %s}]}\n",
                                            PLAN_HOUSE, windows[k], PLAN_FIELD));
        CU_ASSERT_FATAL(t.plan != NULL);
        TEST_NEAR(plan_tons(&t, t.plan->straight[1]), k == 0 ? 110 : 0, 1e-9);
        TEST_NEAR(plan_tons(&t, t.plan->unplaced[1]), k == 0 ? 0 : 110, 1e-9);
        CU_ASSERT(k == 1 || (t.plan->days_n > 1 && t.plan->days_n < 13));
        plan_world_end(&t);
        ls_arena_free(a);
    }
}

static void test_missing(void) {
    plan_world t = plan_world_text(PLAN_HOUSE BUYERS_AB);
    CU_ASSERT_PTR_NULL(t.plan);
    TEST_HOLDS(test_messages(t.arena, t.diag), "a plan needs the trucks");
    TEST_HOLDS(test_messages(t.arena, t.diag), "a plan needs the day the crew comes");
    plan_world_end(&t);
}

TEST_SUITE(plan) = {{"check character of a published number", test_check_character},
                    {"a slip of the pen shows", test_slips_of_the_pen},
                    {"every ton of every stage is somewhere", test_stages_add_up},
                    {"firm loads", test_firm_loads},
                    {"fields, windows, acres", test_fields},
                    {"tickets", test_tickets},
                    {"room of the stack", test_stack_room},
                    {"the order of the file decides nothing", test_order_of_the_file},
                    {"litter off a scale", test_weighed},
                    {"days by hand", test_days},
                    {"a window that is too short", test_windows},
                    {"what a plan needs", test_missing},
                    CU_TEST_INFO_NULL};
