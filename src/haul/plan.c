/* The plan of a farm: gather, split, list, find the days, write it all down as lines. */
#include "plan.h"

#include <math.h>
#include <string.h>

enum { MANY_PAIRS = 400 };

const char *ls_certainty_name(ls_certainty c) {
    static const char *const names[] = {"firm", "likely", "possible"};
    return names[c];
}

const char *ls_aim_name(ls_aim aim) {
    static const char *const names[LS_AIMS] = {"money", "near", "phosphorus"};
    return names[aim];
}

/* If the calendar puts a load outside of the days its lot was planned for, those are mended and
 * litter is split again. Only days that hold tell which tickets find their fields closed: on the
 * way there they may be late, and what is recalled stays so. False: the calendar takes too long. */
static bool find_days(ls_haul_planner *p, int *round) {
    size_t notes = p->plan->notes.n;
    for (;;) {
        p->plan->notes.n = notes;
        ls_haul_stages(p);
        ls_haul_list(p);
        ls_haul_number(p);
        ls_haul_pass(p);
        if (!ls_haul_schedule(p)) return false;
        ls_haul_number_out(p);
        if (ls_haul_recall_waiting(p)) {
            *round = 0;
            if (!ls_haul_first_ranges(p)) return false;
        } else if (!ls_haul_ranges_hold(p)) {
            if (!ls_haul_next_ranges(p, (*round)++)) return false;
        } else if (p->quick || !ls_haul_recall_outside(p))
            return true;
    }
}

/* Large farms find their days with answers that are merely rounded, before they are split in earnest. */
static bool decide(ls_haul_planner *p) {
    size_t notes = p->plan->notes.n;
    int round = 0;
    p->quick = p->lots * p->fields > MANY_PAIRS;
    if (p->quick && !find_days(p, &round)) return false;
    p->quick = false;
    p->plan->notes.n = notes;
    if (!find_days(p, &round)) return false;
    const ls_load *outside = ls_haul_outside(p);
    if (outside != NULL) ls_fail("load %s would be spread while its field is closed", outside->ticket);
    return true;
}

static void say(ls_haul_planner *p, const char *lead, const char *told) {
    if (told != NULL) *LS_PUSH(p->arena, &p->plan->notes) = ls_arena_printf(p->arena, "%s: %s.", lead, told);
}

/* The estimate's lines, and what goes on fields. */
static ls_line_list shown(const ls_haul_planner *p) {
    ls_line_list list = {0};
    ls_litter_shown(p->arena, p->e, &list);
    LS_EACH_OF (const ls_load, load, p->loads, p->plan->loads_n)
        LS_EACH_OF (const ls_drop, d, load->drops, load->n) {
            *LS_PUSH(p->arena, &list) = d->rate;
            *LS_PUSH(p->arena, &list) = d->acres;
        }
    LS_EACH (const ls_worth, worth, p->plan->worth) *LS_PUSH(p->arena, &list) = worth->value;
    return list;
}

/* Figures from memory that matter, and rows of the farm's own tables, among all that the plan rests on. */
static void say_where_from(ls_haul_planner *p) {
    if (p->gone != NULL && p->gone->day != LS_NO_DATE && p->from == LS_NO_DATE)
        ls_haul_note(p,
                     "The rest is planned from %s, the day after the last load in the haul log. "
                     "--from sets another day.",
                     ls_date_words(p->arena, ls_haul_first_day(p), ls_farm_year(p->farm)));
    ls_line_list printed = shown(p);
    const char *unverified = ls_lines_from_memory(p->arena, p->w, &printed, "");
    say(p, "Unverified figures", unverified);
    for (const char *s = unverified; s != NULL; s = strchr(s + 1, ';')) p->plan->unverified++;
    if (p->farm->own_tables.n > 0)
        say(p, "Rows of your own tables in use", ls_lines_of_own_rows(p->arena, p->w, 0, NULL));
}

/* What lies in the stack already was paid for: it counts in no plan's return. */
static void leave_out_stacked(ls_haul_planner *p) {
    double paid = 0, per_ton = ls_haul_problem(p).stack_value;
    for (size_t i = p->house_lots; i < p->lots; i++) paid += p->middle->stacked[i] * per_ton;
    ls_goal *g = &p->plan->goals[LS_GOAL_RETURN];
    if (p->aim != LS_AIM_MONEY) return;
    g->value -= paid;
    g->bound -= paid;
}

/* ---- which kinds haul ---- */

typedef struct {
    ls_haul_planner p;
    const ls_plan_terms *terms;
    size_t lines; /* of the worksheet, before any plan */
} tries;

/* Planned with no more tons of each kind of truck than that; whatever was planned before is gone. */
static bool make(tries *t, const double *most) {
    ls_haul_planner *p = &t->p;
    *p = (ls_haul_planner){.w = p->w,
                           .arena = p->arena,
                           .reference = p->reference,
                           .e = p->e,
                           .farm = p->e->farm,
                           .agronomy = p->agronomy,
                           .aim = t->terms->aim,
                           .from = t->terms->from,
                           .from_second = t->terms->from_second,
                           .progress = t->terms->progress,
                           .most_of = most,
                           .away = p->away,
                           .known = p->known};
    ls_worksheet_cut(p->w, t->lines);
    p->plan = LS_NEW(p->arena, ls_plan, 1);
    p->plan->aim = p->aim;
    return ls_haul_gather(p) && ls_haul_first_ranges(p) && decide(p);
}

/* Tons of the likely case on fields. */
static double placed(const ls_haul_planner *p) { return p->aimed[LS_GOAL_TONS].value; }

static bool all_placed(const ls_haul_planner *p) {
    double all = 0;
    for (size_t i = 0; i < p->stacked_lots; i++) all += ls_haul_hundredths(p->tons[1][i]);
    return placed(p) > all - 0.005;
}

/* Each kind whose litter has no home hauls what has one. NULL: all has. */
static const double *less(const ls_haul_planner *p) {
    double *most = LS_NEW(p->arena, double, p->kinds);
    bool any = false;
    for (size_t k = 0; k < p->kinds; k++) {
        double left = 0, tons = 0;
        for (size_t i = k; i < p->house_lots; i += p->kinds) left += p->middle->unplaced[i], tons += p->tons[1][i];
        most[k] = p->away[k] ? 0 : left > 0.005 ? tons - left : INFINITY;
        any = any || left > 0.005;
    }
    return any ? most : NULL;
}

/* All but the kinds of the bits; NULL: then none is there. */
static const double *without(const ls_haul_planner *p, size_t bits) {
    double *most = LS_NEW(p->arena, double, p->kinds);
    bool any = false;
    for (size_t k = 0; k < p->kinds; k++) {
        most[k] = bits >> k & 1 || p->away[k] ? 0 : INFINITY;
        any = any || most[k] > 0;
    }
    return any ? most : NULL;
}

/* By pace all kinds haul. Where not all litter has a field then, other shares or fewer kinds may
 * place more of it: of few kinds all choices are tried, so that one more never makes that less. */
static bool choose_kinds(tries *t) {
    enum { FEW = 4 };
    ls_haul_planner *p = &t->p;
    const double *best = NULL, *tried = NULL;
    if (!make(t, NULL)) return false;
    double most = placed(p);
    size_t n = p->kinds == 1 || all_placed(p) ? 0 : p->kinds > FEW ? 1 : ((size_t)1 << p->kinds) - 1;
    for (size_t bits = 0; bits < n; bits++) {
        const double *next = bits == 0 ? less(p) : without(p, bits);
        if (next == NULL || !make(t, tried = next)) continue;
        if (placed(p) > most + 0.005) most = placed(p), best = tried;
        if (all_placed(p)) break;
    }
    return tried == best || make(t, best);
}

const ls_plan *ls_haul_plan(ls_worksheet *w, const ls_reference *r, const ls_estimate *e, ls_agronomy *g,
                            const ls_plan_terms *terms) {
    tries t = {
        {.w = w, .arena = ls_worksheet_arena(w), .reference = r, .e = e, .agronomy = g}, terms, ls_worksheet_lines(w)};
    ls_haul_planner *p = &t.p;
    if (!choose_kinds(&t)) {
        if (ls_diag_count(p->farm->diag, LS_ERROR) == 0)
            ls_diag_add(p->farm->diag, LS_ERROR, p->farm->crew->arrives.at,
                        "look at the crew's hours, days off and trucks", "the work would take more than %d days",
                        LS_HAUL_MOST_DAYS);
        return NULL;
    }
    memcpy(p->plan->goals, p->aimed, sizeof p->plan->goals);
    leave_out_stacked(p);
    ls_haul_stand_by(p);
    ls_haul_lines(p);
    ls_haul_money(p);
    ls_haul_break_even(p);
    ls_haul_workdays(p);
    ls_haul_empty_houses(p);
    ls_haul_fleets(p);
    ls_haul_orders(p);
    ls_haul_weights(p);
    ls_haul_goal_lines(p);
    ls_haul_tell_unused(p);
    ls_haul_relieve(p);
    ls_haul_say_open(p);
    say_where_from(p);
    return p->plan;
}
