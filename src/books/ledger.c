/* The ledger of the years before: what earlier files and their haul logs tell of this farm's
 * fields, as plain figures. */
#include "books.h"

#include <limits.h>
#include <math.h>
#include <string.h>

/* A field of an earlier file. */
typedef struct {
    const ls_books *of;
    const ls_field *field;
    const ls_field_rates *rates;
    const ls_field *now; /* the same field of this farm; NULL: it has none */
    int this_year;       /* the crop of this farm's litter */
    LS_LIST(int) years;  /* crops that the file tells of */
} plot;

/* Of each file between, which may have renamed it, to this one. */
const ls_field *ls_books_same_field(const ls_books *books, size_t file, const ls_buyer *buyer, const ls_field *field) {
    const char *unknown = NULL, *name = ls_dossier_name(books->arena, buyer, field);
    ls_hauled_drops found = {0};
    while (file-- > 0) {
        found = ls_hauled_places(books->arena, ls_books_file(books, file)->farm, name, 1, &unknown);
        if (unknown == NULL && found.n == 1 && found.at[0].field != NULL)
            name = ls_dossier_name(books->arena, found.at[0].buyer, found.at[0].field);
    }
    return unknown == NULL && found.n == 1 ? found.at[0].field : NULL;
}

/* ---- what went on ---- */

/* Of all files together: a crop may have had litter by the logs of two. */
static ls_past *year_of(ls_arena *a, ls_farm *farm, plot *p, int year) {
    ls_past *one = NULL;
    bool told = false;
    for (size_t i = 0; one == NULL && i < farm->past.n; i++)
        if (farm->past.at[i].field == p->now && farm->past.at[i].year == year) one = &farm->past.at[i];
    if (one == NULL) {
        one = LS_PUSH(a, &farm->past);
        *one = (ls_past){.field = p->now, .year = year, .removed = NAN};
    }
    for (size_t i = 0; i < p->years.n; i++) told = told || p->years.at[i] == year;
    if (told) return one;
    *LS_PUSH(a, &p->years) = year;
    one->from = one->from == NULL ? p->of->name : ls_arena_printf(a, "%s, %s", one->from, p->of->name);
    return one;
}

/* In a ton of a lot, by that file's own report or estimate; 0: it tells none. */
static double content(const ls_books *of, const ls_lot *lot, int nutrient) {
    double x = ls_line_value(of->sheet, lot->per_ton[nutrient].line);
    return isfinite(x) ? x : 0;
}

/* Of a load, by the books whose litter it is. */
static void add_litter(ls_arena *a, ls_farm *farm, plot *p, const ls_books *of, const ls_dossier_piece *x) {
    const ls_lot *lot = of->estimate == NULL ? NULL : &of->estimate->lots[x->lot];
    double acres = ls_line_value(p->of->sheet, p->rates->spreadable);
    if (lot == NULL || !(acres > 0)) return;
    ls_past *year = year_of(a, farm, p, ls_crop_year(p->field, x->day));
    double on = x->mass / acres;
    year->tons += on;
    year->P2O5 += on * content(of, lot, LS_P2O5);
    year->organic += on * fmax(0, content(of, lot, LS_N) - content(of, lot, LS_NH4N));
    year->loads += x->n == 0;
}

/* ---- what the crop took ---- */

static bool got(const plot *p, int year) {
    const ls_field *f = p->field;
    return LS_GIVEN(f->yield_got) && LS_GIVEN(f->yield) &&
           (!LS_GIVEN(f->harvested) || ls_date_year(f->harvested.day) == year);
}

/* " (from memory)" if a figure is that the line of an earlier file rests on. */
static const char *memory(ls_arena *a, const ls_books *of, ls_line line) {
    ls_line_list printed = {.at = &line, .n = 1};
    return ls_lines_from_memory(a, of->sheet, &printed, "") == NULL ? "" : " (from memory)";
}

/* Removal at the yield that was got, else at the expected one. */
static void remove_crop(ls_arena *a, const plot *p, ls_past *year) {
    ls_line removal = p->rates->removal_P2O5;
    const ls_field *f = p->field;
    if (!isnan(year->removed)) return; /* by a later file */
    if (year->year >= p->this_year) {
        year->took = "for the crop of this litter: what it removes is counted once, with this "
                     "litter";
        return;
    }
    if (removal == LS_NO_LINE) {
        year->took = "what the crop removed is not known: nothing is counted off";
        return;
    }
    bool yield = got(p, year->year);
    year->removed = ls_line_value(p->of->sheet, removal);
    if (yield) year->removed *= f->yield_got.value / f->yield.value;
    const ls_quantity *q = yield ? &f->yield_got : &f->yield;
    year->took =
        ls_arena_printf(a, "removed at the %s, %s, of %s%s", yield ? "yield got" : "expected yield",
                        LS_GIVEN(*q) ? ls_quantity_words(a, q) : "the table's", p->of->name, memory(a, p->of, removal));
}

/* Bought fertilizer of the file is for the crop it tells of, else for the first that litter fed. */
static void add_bought(ls_arena *a, ls_farm *farm, plot *p) {
    double bought = ls_line_value(p->of->sheet, p->rates->credits[LS_FIELD_P2O5]);
    int told = ls_farm_crop_year(p->of->farm->crew, p->field), year = INT_MAX;
    if (told != 0 && told < p->this_year) year = told;
    for (size_t i = 0; i < p->years.n && year != told; i++)
        year = p->years.at[i] == told || p->years.at[i] < year ? p->years.at[i] : year;
    if (year != INT_MAX) year_of(a, farm, p, year)->bought += bought > 0 ? bought : 0;
}

/* ---- all of them ---- */

typedef LS_LIST(plot) plots;

static plots plots_of(ls_books *books, size_t file) {
    const ls_books *of = ls_books_file(books, file);
    plots all = {0};
    LS_EACH (const ls_buyer, buyer, of->farm->buyers)
        LS_EACH (const ls_field, field, buyer->fields) {
            plot *p = LS_PUSH(books->arena, &all);
            p->of = of;
            p->field = field;
            p->rates = all.n <= of->rates.n ? of->rates.at[all.n - 1] : NULL;
            p->now = p->rates == NULL ? NULL : ls_books_same_field(books, file, buyer, field);
            p->this_year = p->now == NULL ? 0 : ls_farm_crop_year(books->farm->crew, p->now);
            if (p->this_year == 0) p->this_year = INT_MAX;
        }
    return all;
}

static size_t number_of(const ls_farm *farm, const ls_hauled_drop *drop) {
    size_t n = (size_t)(drop->field - drop->buyer->fields.at);
    for (const ls_buyer *b = farm->buyers.at; b < drop->buyer; b++) n += b->fields.n;
    return n;
}

static void add_file(ls_books *books, ls_farm *farm, const ls_litters *litters, size_t file) {
    ls_arena *a = books->arena;
    const ls_books *of = ls_books_file(books, file);
    plots all = plots_of(books, file);
    LS_EACH (const ls_dossier_piece, x, litters->all) {
        if (x->log != file) continue;
        const ls_hauled *load = &of->farm->hauled.at[x->load];
        const ls_hauled_drop *drop = load->n == 0 ? NULL : &load->drops[x->part];
        plot *p = drop == NULL || drop->field == NULL ? NULL : &all.at[number_of(of->farm, drop)];
        if (p != NULL && p->now != NULL) add_litter(a, farm, p, ls_books_file(books, x->file), x);
    }
    for (size_t i = 0; i < all.n; i++) {
        if (all.at[i].now == NULL) continue;
        add_bought(a, farm, &all.at[i]);
        for (size_t k = 0; k < all.at[i].years.n; k++)
            remove_crop(a, &all.at[i], year_of(a, farm, &all.at[i], all.at[i].years.at[k]));
    }
}

void ls_books_past(ls_books *books) {
    ls_farm *farm = LS_NEW(books->arena, ls_farm, 1);
    *farm = *books->farm;
    memset(&farm->past, 0, sizeof farm->past);
    ls_litters litters = ls_books_litters(books);
    for (size_t i = 1; i <= books->earlier.n; i++) add_file(books, farm, &litters, i);
    ls_books_stacked(books, farm, &litters);
    books->farm = farm;
}
