/* Many small farms drawn at random, each taken from its text to its plan; what must hold of every
 * plan is checked from the plan's own loads, apart from the code that made it. */
#include "plan_rules.h"
#include "random_farm.h"

#include <stdlib.h>
#include <string.h>

enum { FARMS = 30 };

static void one_farm(const ls_reference *r, const char *folder, uint64_t seed) {
    ls_arena *a = ls_arena_new();
    const char *path = ls_arena_printf(a, "%s/farm.yaml", folder), *why;
    const char *text = test_random_farm(a, seed);
    CU_ASSERT_TRUE_FATAL(ls_file_write(a, path, text, strlen(text), &why));
    plan_rules t = plan_rules_read(a, r, path, NULL, ls_arena_printf(a, "%llu", (unsigned long long)seed));
    if (t.farm) plan_rules_plan(&t, r);
    PLAN_HOLDS(&t, t.plan != NULL);
    if (t.plan)
        plan_rules_hold(&t);
    else
        printf("%s%s", test_messages(a, t.diag), text);
    ls_arena_free(a);
}

static void random_farms(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const ls_reference *r = ls_reference_load(a);
    uint64_t farms = test_count("RANDOM_FARMS", FARMS);
    for (uint64_t seed = 1; seed <= farms; seed++) one_farm(r, folder, seed);
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(random_farms) = {
    {"every plan keeps every limit", random_farms},
    CU_TEST_INFO_NULL,
};
