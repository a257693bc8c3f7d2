/* What must hold of every plan, checked from the plan's own loads, apart from the code that made
 * it: no field beyond its limits, no acre twice, no order and no truck overfilled, all tons
 * accounted for. */
#pragma once

#include "suite.h"

#include "littershed/haul.h"

/* The limits of a field as the plan finds them: [lot * kinds of truck + kind][limit], and its
 * acres. */
enum { PLAN_LIMITS = 5 };
typedef struct {
    const ls_field *field;
    double acres;
    double (*most)[PLAN_LIMITS];
} plan_bounds;

typedef struct {
    ls_arena *arena;
    ls_diag *diag;
    ls_worksheet *w;
    ls_farm *farm; /* NULL: mistakes in diag */
    ls_estimate *estimate;
    ls_agronomy *agronomy;
    LS_LIST(plan_bounds) bounds; /* of every field */
    const ls_plan *plan;         /* NULL: mistakes in diag */
    const char *seed;            /* told if something does not hold */
} plan_rules;

#define PLAN_HOLDS(t, condition)                                                                                       \
    do {                                                                                                               \
        bool holds_ = (condition);                                                                                     \
        if (!holds_) printf("\nfarm of seed %s: %s\n", (t)->seed, #condition);                                         \
        CU_ASSERT_TRUE(holds_);                                                                                        \
    } while (0)

/* Read a farm, with a change laid over it (a file; NULL: none). */
plan_rules plan_rules_read(ls_arena *a, const ls_reference *r, const char *path, const char *change, const char *seed);
/* Estimate and plan it, with what has been put into t->farm of its haul log. */
void plan_rules_plan(plan_rules *t, const ls_reference *r);
void plan_rules_hold(const plan_rules *t);

double plan_rules_value(const plan_rules *t, ls_line line);
