/* The books of earlier years. */
#include "books.h"

#include <stdlib.h>
#include <string.h>

static const char *beside(const ls_books *books, const ls_name *name) {
    return ls_farm_beside(books->arena, ls_diag_input_at(books->diag, name->at.file)->name, name->text);
}

/* What each field was planned to take; these lines stay. */
static bool rates(ls_books *year) {
    if (!ls_books_has_fields(year)) return true;
    if (!ls_books_agronomy(year)) return false;
    LS_EACH (const ls_buyer, buyer, year->farm->buyers)
        LS_EACH (const ls_field, field, buyer->fields) {
            const ls_field_rates *one = ls_agronomy_field(year->agronomy, buyer, field);
            if (one == NULL) return false;
            *LS_PUSH(year->arena, &year->rates) = one;
        }
    return true;
}

/* The file with its log. */
static bool read_year(ls_books *books, const ls_earlier_files *files) {
    ls_books *year = LS_NEW(books->arena, ls_books, 1);
    *year = (ls_books){.arena = books->arena,
                       .published = books->published,
                       .seed = books->seed,
                       .draws = LS_BLOCK, /* only stated figures are asked of it */
                       .name = files->file.text};
    *LS_PUSH(books->arena, &books->earlier) = year;
    const char *paths[2] = {beside(books, &files->file)};
    size_t n = 1;
    if (files->fields.text != NULL) paths[n++] = beside(books, &files->fields);
    return ls_books_read(year, paths, n) && ls_books_log(year, LS_NO_DATE);
}

/* ---- loads that stand in two files ---- */

typedef LS_LIST(ls_hauled) loads;

static int by_ticket(const void *left, const void *right) {
    const ls_hauled *a = left, *b = right;
    return a->day != b->day ? (a->day < b->day ? -1 : 1) : strcmp(a->ticket, b->ticket);
}

/* A load counts where the latest file has it: it is left out of this earlier one. */
static void count_once(ls_books *year, loads *later) {
    ls_farm *farm = LS_NEW(year->arena, ls_farm, 1);
    *farm = *year->farm;
    memset(&farm->hauled, 0, sizeof farm->hauled);
    LS_EACH (const ls_hauled, load, year->farm->hauled) {
        if (later->n > 0 && bsearch(load, later->at, later->n, sizeof *later->at, by_ticket))
            year->doubled++;
        else
            *LS_PUSH(year->arena, &farm->hauled) = *load;
    }
    year->farm = farm;
}

static void add_loads(const ls_books *books, const ls_farm *farm, loads *later) {
    for (size_t i = 0; i < farm->hauled.n; i++) *LS_PUSH(books->arena, later) = farm->hauled.at[i];
    if (later->n > 1) qsort(later->at, later->n, sizeof *later->at, by_ticket);
}

/* ---- which is older ---- */

/* Its first load; else the day the crew comes; else the first bird: LS_NO_DATE, if none is told. */
static ls_date begins(const ls_books *year) {
    const ls_farm *farm = year->farm;
    ls_coded_lots lots = ls_books_lots(year->arena, farm);
    loads sorted = {0};
    add_loads(year, farm, &sorted);
    return sorted.n > 0                                          ? sorted.at[0].day
           : farm->crew != NULL && LS_GIVEN(farm->crew->arrives) ? farm->crew->arrives.day
           : lots.n > 0                                          ? lots.at[0].since
                                                                 : LS_NO_DATE;
}

/* The newest first; one that tells no day stays behind the one it is listed after. */
static void sort_years(ls_books **at, size_t n) {
    for (size_t i = 1, k; i < n; i++) {
        ls_books *year = at[i];
        ls_date day = begins(year);
        for (k = i; k > 0 && day != LS_NO_DATE && begins(at[k - 1]) < day; k--) at[k] = at[k - 1];
        at[k] = year;
    }
}

bool ls_books_earlier(ls_books *books) {
    const ls_farm_facts *facts = books->farm->facts;
    loads later = {0};
    if (facts == NULL || facts->earlier.n == 0 || books->earlier.n > 0) return true;
    LS_EACH (const ls_earlier_files, files, facts->earlier)
        if (!read_year(books, files)) return false;
    sort_years(books->earlier.at, books->earlier.n);
    add_loads(books, books->farm, &later);
    LS_EACH (ls_books *, year, books->earlier) {
        count_once(*year, &later);
        add_loads(books, (*year)->farm, &later);
        if (!ls_books_estimate(*year) || !rates(*year)) return false;
    }
    ls_books_past(books);
    return true;
}
