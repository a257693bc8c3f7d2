/* Trucks of several kinds in one plan: shares by pencil, farms drawn at random with two or three of
 * them, kinds of equal figures beside one kind of as many. */
#include "bound_world.h"
#include "chance.h"
#include "plan_world.h"
#include "program.h"
#include "random_farm.h"

#include <math.h>
#include <string.h>

/* ---- farms ---- */

/* The farm with more kinds of truck behind its first. */
static const char *with_trucks(ls_arena *a, const char *farm, const char *trucks) {
    const char *crew = strstr(farm, "crew:\n");
    return ls_arena_printf(a, "%.*s%s%s", (int)(crew - farm), farm, trucks, crew);
}

static const char *random_fleet(ls_arena *a, uint64_t seed) {
    uint64_t state = seed + 77;
    ls_text *y = ls_text_new(a);
    for (uint64_t k = 0; k < 1 + seed % 2; k++) {
        ls_text_addf(y,
                     "  - {name: kind %c, count: %u, payload: %.1f ton, swath: %.0f ft, spreading: "
                     "%.0f mph, road: %.0f mph",
                     (char)('b' + k), 1 + (unsigned)test_between(&state, 0, 2.9),
                     test_between(&state, 4, 14), test_between(&state, 20, 40),
                     test_between(&state, 4, 8), test_between(&state, 20, 45));
        if (test_between(&state, 0, 1) < .5)
            ls_text_addf(y, ", body: %.0f yd3", test_between(&state, 8, 24));
        if (test_between(&state, 0, 1) < .5)
            ls_text_add(y, ", rate: {least: 0.5 ton/ac, most: 3 ton/ac, step: 0.5 ton/ac}");
        double where = test_between(&state, 0, 1);
        ls_text_add(y, where < .25   ? ", fields: [Field 1]}\n"
                       : where < .45 ? ", only: road}\n"
                                     : "}\n");
    }
    return y->s;
}

static plan_rules rules_of(ls_arena *a, const ls_reference *r, const char *folder, const char *farm,
                           const char *trucks, uint64_t seed) {
    const char *path = test_file(a, folder, "farm.yaml", with_trucks(a, farm, trucks));
    plan_rules t =
        plan_rules_read(a, r, path, NULL, ls_arena_printf(a, "%llu", (unsigned long long)seed));
    if (t.farm != NULL)
        plan_rules_plan(&t, r);
    PLAN_HOLDS(&t, t.plan != NULL);
    if (t.plan == NULL)
        printf("%s%s", test_messages(a, t.diag), with_trucks(a, farm, trucks));
    return t;
}

/* ---- at random ---- */

/* Tickets that were handed out stay with their kind, and a plan as good changes nothing. */
static void handed_out(const ls_reference *r, const char *folder, const plan_rules *was) {
    ls_arena *a = was->arena;
    uint64_t state = 1;
    plan_rules now =
        plan_rules_read(a, r, ls_arena_printf(a, "%s/farm.yaml", folder), NULL, was->seed);
    bound_hand_out(was, &now, 0, 1, &state);
    plan_rules_plan(&now, r);
    PLAN_HOLDS(&now, now.plan != NULL);
    if (now.plan == NULL)
        return;
    plan_rules_hold(&now);
    PLAN_HOLDS(&now, now.plan->recalled.n == 0);
    for (size_t i = 0; i < now.plan->loads_n + now.plan->out_n; i++) {
        const ls_load *load = bound_load(now.plan, i);
        PLAN_HOLDS(&now,
                   load->issued == NULL || load->issued->truck == &now.farm->trucks.at[load->kind]);
    }
}

static void at_random(void) {
    ls_arena *all = ls_arena_new();
    const char *folder = test_folder(all);
    const ls_reference *r = ls_reference_load(all);
    uint64_t first = test_count("FIRST_FLEET", 1), farms = test_count("RANDOM_FLEETS", 8);
    size_t of_others = 0;
    for (uint64_t seed = first; seed < first + farms; seed++) {
        ls_arena *a = ls_arena_new();
        plan_rules t =
            rules_of(a, r, folder, test_random_farm(a, seed), random_fleet(a, seed), seed);
        if (t.plan != NULL) {
            plan_rules_hold(&t);
            handed_out(r, folder, &t);
            for (size_t i = 0; i < t.plan->loads_n; i++)
                of_others += t.plan->loads[i].kind > 0;
        }
        ls_arena_free(a);
    }
    CU_ASSERT_TRUE(of_others > farms);
    test_folder_end(folder);
    ls_arena_free(all);
}

TEST_SUITE(kinds) = {
    {"random farms with several kinds of truck keep every limit", at_random},
    CU_TEST_INFO_NULL,
};
