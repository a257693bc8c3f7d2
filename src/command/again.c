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
    return g != NULL ? ls_haul_plan(w, v->reference, e, g, &terms) : NULL;
}

/* The first day after that one on which loads went out; LS_NO_DATE: there is none. */
static ls_date next_day(const ls_farm *farm, ls_date after) {
    ls_date day = LS_NO_DATE;
    for (size_t i = 0; i < farm->hauled.n; i++) {
        ls_date of = farm->hauled.at[i].day;
        if ((after == LS_NO_DATE || of > after) && (day == LS_NO_DATE || of < day))
            day = of;
    }
    return day;
}

/* Every morning of the log planned on from the morning before it, as tickets were printed. Gives
 * the plan of the newest morning, and its day. NULL: a mistake, noted. */
static const ls_plan *last_plan(const ls_run *r, ls_plan_terms terms, ls_date *since) {
    const ls_farm *farm = r->view.farm;
    ls_date day = next_day(farm, LS_NO_DATE);
    terms.only_loads = true;
    const ls_plan *plan = plan_before(r, LS_NO_DATE, terms);
    for (*since = day; plan != NULL; *since = day) {
        day = next_day(farm, day);
        if (day == LS_NO_DATE)
            break;
        terms.before = plan;
        plan = plan_before(r, day, terms);
    }
    return plan;
}

const ls_plan *ls_run_plan_later(ls_run *r, const ls_plan *morning, ls_date day) {
    ls_plan_terms terms = {
        .aim = r->options->aim, .from = LS_NO_DATE, .before = morning, .only_loads = true};
    return ls_run_log(r, day + 1) ? plan_before(r, day + 1, terms) : NULL;
}

const ls_plan *ls_run_plan_again(ls_run *r) {
    const ls_view *v = &r->view;
    ls_run_progress *progress = ls_run_progress_new(r);
    ls_plan_terms terms = {
        .aim = r->options->aim, .from = LS_NO_DATE, .progress = ls_run_progress_hook(progress)};
    const ls_plan *now = NULL, *last = NULL;
    ls_date since = LS_NO_DATE;
    if (v->farm->hauled.n > 0)
        terms.before = last = last_plan(r, terms, &since);
    terms.from = r->options->from;
    if (v->farm->hauled.n == 0 || last != NULL)
        now = ls_haul_plan(v->sheet, v->reference, r->estimate, r->agronomy, &terms);
    ls_run_progress_end(progress);
    if (now == NULL || last == NULL)
        return now;
    ls_plan *plan = LS_NEW(r->arena, ls_plan, 1);
    *plan = *now;
    plan->since = since;
    plan->last = last;
    return plan;
}
