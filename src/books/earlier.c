/* The books of earlier years. */
#include "books.h"

#include <string.h>

static const char *beside(const ls_books *books, const ls_name *name) {
    return ls_farm_beside(books->arena, ls_diag_input_at(books->diag, name->at.file)->name,
                          name->text);
}

/* What each field was planned to take; these lines stay. */
static bool rates(ls_books *year) {
    if (!ls_books_has_fields(year))
        return true;
    if (!ls_books_agronomy(year))
        return false;
    for (size_t b = 0; b < year->farm->buyers.n; b++)
        for (size_t f = 0; f < year->farm->buyers.at[b].fields.n; f++) {
            const ls_buyer *buyer = &year->farm->buyers.at[b];
            const ls_field_rates *one =
                ls_agronomy_field(year->agronomy, buyer, &buyer->fields.at[f]);
            if (one == NULL)
                return false;
            *LS_PUSH(year->arena, &year->rates) = one;
        }
    return true;
}

/* Only stated figures are asked of it: one block of draws. */
static bool one_year(ls_books *books, const ls_earlier_files *files) {
    ls_books *year = LS_NEW(books->arena, ls_books, 1);
    *year = (ls_books){.arena = books->arena,
                       .published = books->published,
                       .seed = books->seed,
                       .draws = LS_BLOCK,
                       .name = files->file.text};
    *LS_PUSH(books->arena, &books->earlier) = year;
    const char *paths[2] = {beside(books, &files->file)};
    size_t n = 1;
    if (files->fields.text != NULL)
        paths[n++] = beside(books, &files->fields);
    return ls_books_read(year, paths, n) && ls_books_log(year, LS_NO_DATE) &&
           ls_books_estimate(year) && rates(year);
}

bool ls_books_earlier(ls_books *books) {
    const ls_farm_facts *facts = books->farm->facts;
    if (facts == NULL || facts->earlier.n == 0 || books->earlier.n > 0)
        return true;
    for (size_t i = 0; i < facts->earlier.n; i++)
        if (!one_year(books, &facts->earlier.at[i]))
            return false;
    ls_books_past(books);
    return true;
}
