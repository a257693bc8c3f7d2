/* The steps from files to a plan. */
#include "books.h"

#include <string.h>

ls_farm *ls_books_bare(const ls_books *books) {
    ls_farm *farm = LS_NEW(books->arena, ls_farm, 1);
    *farm = *books->farm;
    memset(&farm->hauled, 0, sizeof farm->hauled);
    memset(&farm->hauled_before, 0, sizeof farm->hauled_before);
    memset(&farm->issued, 0, sizeof farm->issued);
    memset(&farm->older, 0, sizeof farm->older);
    memset(&farm->promised, 0, sizeof farm->promised);
    memset(&farm->stacked, 0, sizeof farm->stacked);
    for (size_t i = 0; i < books->farm->stacked.n; i++) {
        ls_stacked *s = LS_PUSH(books->arena, &farm->stacked);
        *s = books->farm->stacked.at[i];
        s->left = s->tons, s->alone = true;
    }
    return farm;
}

ls_books ls_books_of(const ls_books *books, const ls_farm *farm) {
    ls_books other = *books;
    other.farm = farm;
    other.sheet = ls_worksheet_new(books->arena);
    other.agronomy = NULL;
    other.estimate = ls_litter_estimate(other.sheet, farm, other.reference, other.seed, other.draws);
    if (other.estimate != NULL && ls_books_has_fields(&other))
        other.agronomy = ls_agronomy_new(other.sheet, other.reference, other.estimate);
    return other;
}

long ls_books_birds(const ls_flock *f) { return f->hens.n + f->males.n + f->count.n; }

const ls_flock *ls_books_largest(const ls_house *h, int bird) {
    const ls_flock *most = NULL;
    LS_EACH (const ls_flock, f, h->flocks) {
        if (f->birds.is == bird && ls_books_birds(f) > (most == NULL ? 0 : ls_books_birds(most))) most = f;
    }
    return most;
}

bool ls_books_fit(const ls_books *books) {
    const char *fault = ls_worksheet_fault(books->sheet);
    if (fault == NULL) return true;
    if (books->farm->own_tables.n == 0) ls_fail("the worksheet does not fit together: %s", fault);
    ls_diag_add(books->diag, LS_ERROR, books->farm->own_tables.at[0].at,
                "compare the rows of your own with those of littershed sources TABLE: the words "
                "(per, state, form) and units must suit each other",
                "with these tables the figures do not fit together: %s", fault);
    return false;
}

bool ls_books_read(ls_books *books, const char *const *files, size_t n) {
    books->diag = ls_diag_new(books->arena);
    books->sheet = ls_worksheet_new(books->arena);
    /* an earlier year's files are named by another farm file */
    books->farm = books->instead != NULL
                      ? ls_farm_read_instead(books->arena, books->diag, books->published, files, n, books->instead)
                      : (books->name != NULL ? ls_farm_read_named : ls_farm_read)(books->arena, books->diag,
                                                                                  books->published, files, n);
    if (books->farm != NULL) books->reference = books->farm->reference;
    return books->farm != NULL;
}

bool ls_books_estimate(ls_books *books) {
    books->estimate = books->digits == 0
                          ? ls_litter_estimate(books->sheet, books->farm, books->reference, books->seed, books->draws)
                          : ls_litter_estimate_until(books->sheet, books->farm, books->reference, books->seed,
                                                     books->digits, books->draws);
    if (books->estimate == NULL) return false;
    books->draws = books->estimate->draws;
    return ls_books_fit(books);
}

bool ls_books_has_fields(const ls_books *books) {
    for (size_t i = 0; i < books->farm->buyers.n; i++)
        if (books->farm->buyers.at[i].fields.n > 0) return true;
    return false;
}

bool ls_books_can_plan(const ls_books *books) {
    return ls_books_has_fields(books) && books->farm->trucks.n > 0 && books->farm->crew != NULL;
}

bool ls_books_agronomy(ls_books *books) {
    if (!ls_books_has_fields(books)) {
        ls_diag_add(books->diag, LS_ERROR, LS_NOWHERE,
                    "name the files that hold buyers and their fields as well, or add a section buyers",
                    "no fields: the files name no buyer with a field");
        return false;
    }
    books->agronomy = ls_agronomy_new(books->sheet, books->reference, books->estimate);
    return books->agronomy != NULL && ls_diag_count(books->diag, LS_ERROR) == 0 && ls_books_fit(books);
}

bool ls_books_each_field(ls_books *books, ls_books_show *show, void *to) {
    size_t before = ls_worksheet_lines(books->sheet);
    bool sound = true, go_on = true;
    LS_EACH (const ls_buyer, buyer, books->farm->buyers)
        LS_EACH (const ls_field, field, buyer->fields) {
            if (!go_on || field->yard) continue;
            const ls_field_rates *rates = ls_agronomy_field(books->agronomy, buyer, field);
            sound = sound && rates != NULL;
            go_on = show(to, rates);
            ls_worksheet_cut(books->sheet, before);
        }
    return sound;
}
