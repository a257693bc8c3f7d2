/* Plans before the newest loads: what tickets were printed from, and what has changed since. */
#include "books.h"

/* The plan as if only loads of days before that one were gone; LS_NO_DATE: none at all. In a
 * worksheet of its own. NULL: a mistake, noted. */
static const ls_plan *plan_before(const ls_books *books, ls_date day, ls_plan_terms terms) {
    ls_farm *farm = ls_books_bare(books);
    for (size_t i = 0; day != LS_NO_DATE && i < books->farm->hauled.n; i++)
        if (books->farm->hauled.at[i].day < day)
            *LS_PUSH(books->arena, &farm->hauled) = books->farm->hauled.at[i];
    ls_books then = ls_books_of(books, farm);
    return then.agronomy == NULL
               ? NULL
               : ls_haul_plan(then.sheet, then.reference, then.estimate, then.agronomy, &terms);
}

ls_date ls_books_next_day(const ls_farm *farm, ls_date after) {
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
static const ls_plan *last_plan(const ls_books *books, ls_plan_terms terms, ls_date *since) {
    ls_date day = ls_books_next_day(books->farm, LS_NO_DATE);
    terms.from = LS_NO_DATE;
    terms.only_loads = true;
    const ls_plan *plan = plan_before(books, LS_NO_DATE, terms);
    for (*since = day; plan != NULL; *since = day) {
        day = ls_books_next_day(books->farm, day);
        if (day == LS_NO_DATE)
            break;
        terms.before = plan;
        plan = plan_before(books, day, terms);
    }
    return plan;
}

const ls_plan *ls_books_plan_later(ls_books *books, const ls_plan *morning, ls_date day,
                                   ls_aim aim) {
    ls_plan_terms terms = {.aim = aim, .from = LS_NO_DATE, .before = morning, .only_loads = true};
    return ls_books_log(books, day + 1) ? plan_before(books, day + 1, terms) : NULL;
}

const ls_plan *ls_books_plan(ls_books *books, const ls_plan_terms *asked) {
    ls_plan_terms terms = {.aim = asked->aim, .from = asked->from, .progress = asked->progress};
    ls_date since = LS_NO_DATE;
    bool gone = books->farm->hauled.n > 0;
    const ls_plan *last = gone ? last_plan(books, terms, &since) : NULL;
    terms.before = last;
    const ls_plan *now = gone && last == NULL
                             ? NULL
                             : ls_haul_plan(books->sheet, books->reference, books->estimate,
                                            books->agronomy, &terms);
    if (now == NULL)
        return NULL;
    ls_plan *plan = LS_NEW(books->arena, ls_plan, 1);
    *plan = *now;
    if (last != NULL)
        plan->since = since;
    plan->last = last;
    return plan;
}
