/* Plans before the newest loads: what tickets were printed from, and what has changed since. */
#include "progress.h"

#include <string.h>

/* The plan as if only loads of days before that one were gone; LS_NO_DATE: none at all. In a
 * worksheet of its own. NULL: a mistake, noted. */
static const ls_plan *plan_before(const ls_run *r, ls_date day, ls_plan_terms terms) {
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
    return g != NULL ? ls_haul_plan_on(w, v->reference, e, g, &terms) : NULL;
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
    ls_run_progress *progress = ls_run_progress_new(r);
    ls_plan_terms terms = {.aim = r->options->aim, .progress = ls_run_progress_hook(progress)};
    const ls_plan *now = NULL, *last = NULL;
    ls_date since = newest_day(v->farm);
    if (v->farm->hauled.n > 0) {
        terms.before = plan_before(r, LS_NO_DATE, terms);
        last = terms.before != NULL ? plan_before(r, since, terms) : NULL;
    }
    if (v->farm->hauled.n == 0 || last != NULL)
        now = ls_haul_plan_on(v->sheet, v->reference, r->estimate, r->agronomy, &terms);
    ls_run_progress_end(progress);
    if (now == NULL || last == NULL)
        return now;
    ls_plan *plan = LS_NEW(r->arena, ls_plan, 1);
    *plan = *now;
    plan->since = since;
    plan->last = last;
    return plan;
}
