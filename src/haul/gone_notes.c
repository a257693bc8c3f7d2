/* What the haul log leaves open, said beside the plan. */
#include "plan.h"

enum { MOST_NAMES = 8 };

/* "A, B, C and 2 more" of what is told one by one. */
typedef struct {
    ls_text *t;
    size_t n;
} names;

static void add(names *s, const char *name) {
    if (s->n < MOST_NAMES) ls_text_addf(s->t, "%s%s", s->n > 0 ? ", " : "", name);
    s->n++;
}

static const char *listed(const names *s) {
    if (s->n > MOST_NAMES) ls_text_addf(s->t, " and %zu more", s->n - MOST_NAMES);
    return s->t->s;
}

/* Litter that lies nobody knows where: the plan may send more on top of it. */
static void say_open_places(ls_haul_planner *p) {
    names open = {ls_text_new(p->arena), 0};
    LS_EACH (const ls_hauled, load, p->farm->hauled)
        if (load->n == 0) add(&open, load->ticket);
    if (open.n == 0) return;
    ls_haul_note(
        p,
        "The haul log does not say where %s went (%s). The plan takes %s off no field and no "
        "order, so it may send too much there. Fix: record --replaces with --field.",
        open.n == 1 ? "a load" : "some loads", listed(&open), open.n == 1 ? "it" : "them");
}

/* A load into it may not be logged yet. */
static void say_overdrawn(ls_haul_planner *p) {
    names lots = {ls_text_new(p->arena), 0};
    for (size_t i = 0; i < p->e->n; i++)
        if (p->gone->in_stack[i] <= -0.01) add(&lots, p->e->lots[i].name);
    if (lots.n > 0)
        ls_haul_note(p,
                     "By the haul log, more litter of %s came out of the stack than went into it. "
                     "Check the log for a missing load.",
                     listed(&lots));
}

static bool is_planned(const ls_haul_planner *p, size_t lot) {
    LS_EACH_OF (const ls_load, load, p->loads, p->plan->loads_n)
        if (load->lot == &p->e->lots[lot]) return true;
    return false;
}

/* Nobody knows whether they are back already. */
static void say_slats(ls_haul_planner *p) {
    names off = {ls_text_new(p->arena), 0};
    for (size_t i = 0; i < p->e->n; i++)
        if (p->gone->last[i] != LS_NO_DATE && p->clock.slats[ls_haul_house_lot(p, i, 0)] > 0 &&
            !is_planned(p, i))
            add(&off, p->e->lots[i].name);
    if (off.n > 0)
        ls_haul_note(p,
                     "Loads of %s are gone and no more are planned. The days count no time to "
                     "move slats back there.",
                     listed(&off));
}

void ls_haul_say_open(ls_haul_planner *p) {
    if (p->gone == NULL) return;
    say_open_places(p);
    say_overdrawn(p);
    say_slats(p);
}
