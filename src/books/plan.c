/* The plan of a farm with what its haul log tells. */
#include "books.h"

ls_date ls_books_next_day(const ls_farm *farm, ls_date after) {
    ls_date day = LS_NO_DATE;
    for (size_t i = 0; i < farm->hauled.n; i++) {
        ls_date of = farm->hauled.at[i].day;
        if ((after == LS_NO_DATE || of > after) && (day == LS_NO_DATE || of < day))
            day = of;
    }
    return day;
}

/* Loads of lots that the files do not name: they are gone from nowhere. */
static void note_strays(const ls_books *books, ls_plan *plan) {
    ls_coded_lots lots = ls_books_lots(books->arena, books->farm);
    ls_text *t = ls_text_new(books->arena);
    for (size_t i = 0; books->log != NULL && i < books->log->entries.n; i++) {
        const ls_log_entry *e = &books->log->entries.at[i];
        if (ls_log_stands(e) && ls_books_lot(&lots, e->ticket.code) == NULL)
            ls_text_addf(t, "%s%ld (%s)", t->n > 0 ? ", " : "", e->number, e->ticket.text);
    }
    if (t->n > 0)
        *LS_PUSH(books->arena, &plan->notes) = ls_arena_printf(
            books->arena,
            "The farm files name no side or house of these entries of the haul log, so they count "
            "in no plan: %s. Was it renamed? Fix: formerly names it as it was.",
            t->s);
}

const ls_plan *ls_books_plan(ls_books *books, const ls_plan_terms *terms) {
    const ls_plan *now =
        ls_haul_plan(books->sheet, books->reference, books->estimate, books->agronomy, terms);
    if (now == NULL)
        return NULL;
    ls_plan *plan = LS_NEW(books->arena, ls_plan, 1);
    *plan = *now;
    note_strays(books, plan);
    return plan;
}
