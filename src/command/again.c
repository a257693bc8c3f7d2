/* Plans before the newest loads: what tickets were printed from, and what has changed since. */
#include "run.h"

#include <string.h>

/* The plan as if only loads of days before that one were gone; LS_NO_DATE: none at all. In a
 * worksheet of its own. NULL: a mistake, noted. */
static const ls_plan *plan_before(const ls_run *r, ls_date day, const ls_plan *before) {
    const ls_view *v = &r->view;
    ls_farm *farm = LS_NEW(r->arena, ls_farm, 1);
    *farm = *v->farm;
    memset(&farm->hauled, 0, sizeof farm->hauled);
    for (size_t i = 0; day != LS_NO_DATE && i < v->farm->hauled.n; i++)
        if (v->farm->hauled.at[i].day < day)
            *LS_PUSH(r->arena, &farm->hauled) = v->farm->hauled.at[i];
    ls_worksheet *w = ls_worksheet_new(r->arena);
    const ls_estimate *e = ls_litter_estimate(w, farm, v->reference, v->seed, v->draws);
    ls_agronomy *g = e != NULL ? ls_agronomy_new(w, v->reference, e) : NULL;
    return g != NULL ? ls_haul_plan_again(w, v->reference, e, g, before) : NULL;
}

static ls_date newest_day(const ls_farm *farm) {
    ls_date day = LS_NO_DATE;
    for (size_t i = 0; i < farm->hauled.n; i++)
        if (day == LS_NO_DATE || farm->hauled.at[i].day > day)
            day = farm->hauled.at[i].day;
    return day;
}

const ls_plan *ls_run_plan_again(ls_run *r) {
    const ls_view *v = &r->view;
    if (v->farm->hauled.n == 0)
        return ls_haul_plan(v->sheet, v->reference, r->estimate, r->agronomy);
    ls_date since = newest_day(v->farm);
    const ls_plan *first = plan_before(r, LS_NO_DATE, NULL);
    const ls_plan *last = first != NULL ? plan_before(r, since, first) : NULL;
    const ls_plan *now =
        last != NULL ? ls_haul_plan_again(v->sheet, v->reference, r->estimate, r->agronomy, first)
                     : NULL;
    if (now == NULL)
        return NULL;
    ls_plan *plan = LS_NEW(r->arena, ls_plan, 1);
    *plan = *now;
    plan->since = since;
    plan->last = last;
    return plan;
}
