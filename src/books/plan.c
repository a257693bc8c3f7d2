/* The plan of a farm with what its haul log tells. */
#include "books.h"

ls_date ls_books_next_day(const ls_farm *farm, ls_date after) {
    ls_date day = LS_NO_DATE;
    for (size_t i = 0; i < farm->hauled.n; i++) {
        ls_date of = farm->hauled.at[i].day;
        if ((after == LS_NO_DATE || of > after) && (day == LS_NO_DATE || of < day)) day = of;
    }
    return day;
}

const ls_plan *ls_books_plan(ls_books *books, const ls_plan_terms *terms) {
    return ls_haul_plan(books->sheet, books->reference, books->estimate, books->agronomy, terms);
}
