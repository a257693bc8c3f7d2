/* What was promised and handed out stays true whatever becomes of it: slips balance in loads and in
 * tons, papers that are out are told, and a load that goes astray is said. */
#include "record_world.h"

#include "littershed/command.h"

#include <jansson.h>
#include <string.h>

#define RUN(t, command, ...) PROGRAM((t)->a, command, (t)->house, (t)->fields, __VA_ARGS__)

/* The run ends well; what it wrote. */
static const char *good(test_run run) {
    TEST_SAME(run.status, LS_DONE);
    return run.out;
}

static void edit(world *t, const char *name, const char *old, const char *new) {
    const char *path = strcmp(name, "h.yaml") == 0 ? t->house : t->fields;
    test_file(t->a, t->folder, name, test_replace(t->a, test_file_text(t->a, path), old, new));
}

/* A buyer's new name, once a slip is out, is no second buyer. */
static void renamed(void) {
    world t = begin();
    good(RUN(&t, "tickets", "--issue"));
    good(RUN(&t, "tickets", "--promise", "--issue"));
    edit(&t, "f.yaml", "name: Larkspur Hay\n", "name: Lark Farms\n    formerly: Larkspur Hay\n");
    TEST_HOLDS(good(RUN(&t, "plan", NULL)), "Lark Farms: had 0 of 8 loads, 8 to come.");
    TEST_SAME(RUN(&t, "tickets", "--issue").status, LS_DONE);
    const char *slip = good(RUN(&t, "tickets", "--promise", "--buyer", "Lark Farms"));
    TEST_HOLDS(slip, "COPY, issued ");
    TEST_HOLDS(slip, "\nFOR           Lark Farms, ");
    TEST_HOLDS(slip, "\nPRICE         $31 a ton, ");
    end(&t);
}

TEST_SUITE(promised) = {{"a buyer is renamed", renamed}, CU_TEST_INFO_NULL};
