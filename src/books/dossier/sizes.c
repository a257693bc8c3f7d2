/* Birds beside the federal sizes of 40 CFR 122.23. */
#include "room.h"

static const char *const names[LS_SIZES] = {"laying hens", "chickens other than layers", "turkeys", "ducks"};

static bool is_open(int bird) { return ls_bird_row_of(bird)->size == LS_SIZE_OPEN; }

/* As what a bird counts; breeders: as laying hens or as other chickens. */
static ls_size size_of(int bird, ls_size breeders) { return is_open(bird) ? breeders : ls_bird_row_of(bird)->size; }

/* All birds of the kind; breeders among them is told. LS_NO_LINE: none. */
static ls_line birds_of(const ls_dossier *d, ls_size of, ls_size breeders, bool *with_breeders) {
    ls_worksheet *w = d->sheet;
    ls_books_lines x = {0};
    *with_breeders = false;
    LS_EACH (const ls_house, h, d->farm->houses)
        for (int bird = 1; bird < LS_BIRDS; bird++) {
            if (size_of(bird, breeders) != of) continue;
            ls_line line = *LS_PUSH(d->arena, &x) = ls_dossier_housed(d, 0, h, bird);
            *with_breeders = *with_breeders || (line != LS_NO_LINE && is_open(bird));
        }
    return ls_sum(w, ls_printf(w, "size.reading-%d.%d", breeders + 1, of + 1),
                  ls_printf(w, "%s on the farm", names[of]), "bird", x.at, x.n);
}

static ls_line threshold(const ls_dossier *d, const char *size, ls_size of) {
    ls_worksheet *w = d->sheet;
    const char *key = ls_printf(w, "size.%s.%d", size, of + 1);
    const char *row = ls_arena_printf(d->arena, "federal %s %s", size, names[of]);
    return ls_leaf_figure(w, key, ls_printf(w, "%s: at least, %s", size, names[of]), "bird",
                          ls_reference_need(d->books->reference, "rule", "", row, "least"));
}

/* One row; is it large? */
static bool add(ls_dossier *d, ls_line count, ls_size of, const char *birds) {
    const ls_worksheet *w = d->sheet;
    ls_dossier_size s = {birds, "below medium", count, threshold(d, "large", of), threshold(d, "medium", of), false};
    double n = ls_line_value(w, count);
    s.is_large = n >= ls_line_value(w, s.large);
    s.size = s.is_large ? "large" : n >= ls_line_value(w, s.medium) ? "medium" : "below medium";
    *LS_PUSH(d->arena, &d->sizes) = s;
    return s.is_large;
}

/* The whole farm, with breeders counted so; is it large? again: rows without breeders stand already. */
static bool reading(ls_dossier *d, ls_size breeders, bool again) {
    bool large = false;
    for (ls_size of = 0; of < LS_SIZES; of++) {
        bool with_breeders;
        ls_line count = birds_of(d, of, breeders, &with_breeders);
        if (count == LS_NO_LINE) continue;
        const char *words = with_breeders ? ls_arena_printf(d->arena, "%s, breeders among them", names[of]) : names[of];
        /* layers stood with breeders, and now by themselves */
        bool known = again && !with_breeders && of != LS_SIZE_LAYING_HENS;
        double n = ls_line_value(d->sheet, count), least = ls_line_value(d->sheet, threshold(d, "large", of));
        large = (known ? n >= least : add(d, count, of, words)) || large;
    }
    return large;
}

void ls_dossier_make_sizes(ls_dossier *d) {
    bool breeders = false;
    for (int bird = 1; bird < LS_BIRDS; bird++)
        for (size_t i = 0; is_open(bird) && i < d->farm->houses.n; i++)
            breeders = breeders || ls_dossier_housed(d, 0, &d->farm->houses.at[i], bird) != LS_NO_LINE;
    bool one = reading(d, LS_SIZE_LAYING_HENS, false);
    bool other = breeders ? reading(d, LS_SIZE_OTHER_CHICKENS, true) : one;
    d->large = one || other;
    d->size_open = one != other;
    d->two_readings = breeders;
}
