/* What the farm files leave out, the worst first. What it is worth comes of the farm estimated
 * again, measured or filled in. */
#include "books.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { NO_ANSWER, NO_TONS, NO_LIMIT, NO_DETAIL };

/* What may not be in the files. */
typedef struct {
    bool missing;
    int rank;
    const char *words, *path;
} question;

typedef struct {
    const ls_books *books;
    ls_arena *arena;
    const ls_next_list *next;
    double loads_per_ton; /* NaN without a truck */
    ls_gap_list gaps;
} search;

/* of: the house or field, NULL: the farm. */
static void add(search *s, const char *of, const question *all, size_t n) {
    for (size_t i = 0, k; i < n; i++) {
        if (!all[i].missing) continue;
        for (k = 0; k < s->gaps.n && strcmp(s->gaps.at[k].words, all[i].words) != 0;) k++;
        if (k == s->gaps.n)
            *LS_PUSH(s->arena, &s->gaps) = (ls_gap){.words = all[i].words, .path = all[i].path, .rank = all[i].rank};
        if (of != NULL) *LS_PUSH(s->arena, &s->gaps.at[k].where) = of;
    }
}

static const char *or_unknown(ls_name n) { return n.text == NULL ? "?" : n.text; }

/* ---- what is missing ---- */

static const char no_depth[] = "no depth readings, no last_cleanout: tons as published",
                  no_lab[] = "no laboratory report (lab): N-P-K as published, safe rates",
                  no_rating[] = "no phosphorus rating: taken as high; ask the plan writer",
                  no_most[] = "no limit of the plan (most)", no_buyers[] = "no buyers: no rates and no plan";

static bool has_lab(const ls_house *h) {
    bool sides = h->sides.n > 0;
    for (size_t i = 0; i < h->sides.n; i++) sides = sides && h->sides.at[i].lab.n > 0;
    return h->lab.n > 0 || sides;
}

static bool has_depth(const ls_measured *m) {
    for (int z = LS_SLATS; m != NULL && z < LS_ZONES; z++)
        if (LS_GIVEN(m->depth.of[z])) return true;
    return m != NULL && m->depth.grid != NULL;
}

static void of_house(search *s, const ls_house *h) {
    const ls_measured *m = h->measured;
    const question all[] = {{!has_depth(m) && h->last_cleanout.n == 0 && !(m != NULL && LS_GIVEN(m->weighed)), NO_TONS,
                             no_depth, "houses.measured"},
                            {!has_lab(h), NO_TONS, no_lab, "houses.lab"}};
    add(s, or_unknown(h->name), all, sizeof all / sizeof *all);
}

bool ls_books_soil_unread(const ls_farm *f, const ls_field *field) {
    return field->soil != NULL && !(LS_GIVEN(field->phosphate) && LS_GIVEN(field->potash)) &&
           (f->tables == NULL || f->tables->soil.text == NULL);
}

static void of_field(search *s, const ls_field *f) {
    const ls_phosphorus *p = f->phosphorus;
    const question all[] = {{p == NULL, NO_LIMIT, no_rating, "buyers.fields.phosphorus"},
                            {p != NULL && (p->rated_by.text == NULL || !LS_GIVEN(p->date)), NO_DETAIL,
                             "who rated the phosphorus, and when (rated_by, date)", "buyers.fields.phosphorus"},
                            {p != NULL && LS_GIVEN(p->bank) && p->ledger.n == 0, NO_LIMIT,
                             "phosphorus is banked, and no ledger; ask the plan writer",
                             "buyers.fields.phosphorus.ledger"},
                            {!LS_GIVEN(f->most), NO_LIMIT, no_most, "buyers.fields.most"},
                            {f->setbacks.n == 0 && !f->no_setbacks.yes, NO_DETAIL,
                             "no setbacks: all acres count as spreadable", "buyers.fields.setbacks"},
                            {ls_books_soil_unread(s->books->farm, f), NO_LIMIT,
                             "no soil table (soil under tables): soil test unread", "tables"},
                            {f->soil == NULL && !(LS_GIVEN(f->phosphate) && LS_GIVEN(f->potash)), NO_DETAIL,
                             "no soil test, no phosphate and potash need", "buyers.fields.soil"},
                            {!LS_GIVEN(f->open), NO_LIMIT, "no dates when it is open (open)", "buyers.fields.open"}};
    add(s, or_unknown(f->name), all, sizeof all / sizeof *all);
}

static void of_farm(search *s, const ls_farm *f) {
    const question all[] = {
        {f->trucks.n == 0, NO_ANSWER, "no trucks: no loads, no plan", "trucks"},
        {f->crew == NULL, NO_ANSWER, "no crew: there is no plan", "crew"},
        {f->buyers.n == 0, NO_ANSWER, no_buyers, "buyers"},
        {f->stack == NULL, NO_LIMIT, "no stack: litter without an open field has no place", "stack"},
        {f->costs == NULL, NO_LIMIT, "no costs: the plan cannot weigh the money", "costs"},
        {f->fertilizer.n == 0, NO_LIMIT, "no fertilizer prices: the worth stays unknown", "fertilizer"},
        {f->facts == NULL || !LS_GIVEN(f->facts->next_flock), NO_LIMIT, "no next_flock: the days to spare stay unknown",
         "farm.next_flock"}};
    add(s, NULL, all, sizeof all / sizeof *all);
}

/* ---- what it is worth ---- */

static void put(search *s, ls_gap *gap, double value, const char *unit, const char *how) {
    const double least = 0.5; /* of what is shown in whole loads or tons */
    if (!(value >= least)) return;
    bool money = strcmp(unit, "$") == 0, loads = strcmp(unit, "load") == 0;
    const char *slug = ls_text_slug(s->arena, gap->words);
    gap->unit = unit;
    gap->worth = ls_leaf_exact(s->books->sheet, ls_printf(s->books->sheet, "whole-farm.gap.%s", slug), gap->words, unit,
                               value, LS_BY_SIMULATION, how);
    gap->loads = money   ? value / s->books->estimate->value.mid * s->books->estimate->tons.mid
                 : loads ? value / s->loads_per_ton
                         : value; /* in tons */
}

/* Tons, or loads of them. */
static void put_tons(search *s, ls_gap *gap, double tons, const char *how) {
    bool loads = s->loads_per_ton > 0;
    put(s, gap, loads ? tons * s->loads_per_ton : tons, loads ? "load" : "ton", how);
}

static bool is_of(const ls_gap *gap, const char *name) {
    for (size_t i = 0; i < gap->where.n; i++)
        if (strcmp(gap->where.at[i], name) == 0) return true;
    return false;
}

/* The most that a depth survey in one of the houses narrows the range of the farm by. */
static void worth_of_depth(search *s, ls_gap *gap) {
    double most = 0;
    bool loads = false;
    for (size_t i = 0; i < s->next->n; i++) {
        const ls_next *n = &s->next->at[i];
        double narrows = (n->now.high - n->now.low) - (n->then.high - n->then.low);
        if (is_of(gap, n->where) && strncmp(n->what, "depth", strlen("depth")) == 0 && narrows > most)
            most = narrows, loads = n->loads;
    }
    put(s, gap, most, loads ? "load" : "ton",
        "the range of the farm as it is less the range with one of the houses measured");
}

/* What the nutrients of the litter without a report may be worth more or less. */
static void worth_of_lab(search *s, ls_gap *gap) {
    const ls_estimate *e = s->books->estimate;
    double tons = 0;
    for (size_t i = 0; i < e->n; i++)
        if (e->lots[i].analysis->report == NULL) tons += e->lots[i].tons.mid;
    const double hundreds = 100;
    if (e->value.line != LS_NO_LINE)
        put(s, gap, hundreds * round((e->value.high - e->value.low) * tons / e->tons.mid / hundreds), "$",
            "high less low worth of the nutrients, by the share of litter without a report");
}

/* Tons that the fields of a farm take, by acres and rates, whatever the days. */
typedef struct {
    const ls_worksheet *sheet;
    double tons;
} room;

static bool add_takes(void *to, const ls_field_rates *rates) {
    room *all = to;
    for (size_t i = 0; rates != NULL && i < rates->n; i++)
        all->tons += ls_line_value(all->sheet, rates->rates[i].takes) / (double)rates->n;
    return true;
}

/* A farm whose fields can be filled in. */
static ls_farm *fillable(search *s) {
    ls_farm *farm = LS_NEW(s->arena, ls_farm, 1);
    *farm = *s->books->farm;
    farm->diag = ls_diag_new(s->arena);
    farm->buyers.at = LS_NEW(s->arena, ls_buyer, farm->buyers.n);
    for (size_t b = 0; b < farm->buyers.n; b++) {
        farm->buyers.at[b] = s->books->farm->buyers.at[b];
        farm->buyers.at[b].fields.at = LS_NEW(s->arena, ls_field, farm->buyers.at[b].fields.n);
    }
    return farm;
}

static void fill_in(search *s, const ls_farm *farm, void (*fill)(ls_arena *, ls_field *)) {
    for (size_t b = 0; b < farm->buyers.n; b++)
        for (size_t i = 0; i < farm->buyers.at[b].fields.n; i++) {
            farm->buyers.at[b].fields.at[i] = s->books->farm->buyers.at[b].fields.at[i];
            fill(s->arena, &farm->buyers.at[b].fields.at[i]);
        }
}

static void as_is(ls_arena *a, ls_field *f) {
    (void)a;
    (void)f;
}

static const ls_place somewhere = {-1, 1, 1, 1};

static void rate_medium(ls_arena *a, ls_field *f) {
    if (f->phosphorus != NULL) return;
    f->phosphorus = LS_NEW(a, ls_phosphorus, 1);
    f->phosphorus->rating = (ls_choice){LS_RATING_MEDIUM, somewhere};
    f->phosphorus->at = somewhere;
}

static void allow_most(ls_arena *a, ls_field *f) {
    const double most = 50; /* the most the key takes */
    (void)a;
    if (!LS_GIVEN(f->most))
        f->most = (ls_quantity){.form = LS_PLAIN,
                                .value = most * ls_unit_of("ton/ac").factor,
                                .unit = ls_unit_of("ton/ac"),
                                .text = "",
                                .at = somewhere};
}

static void plan_by_typical(ls_arena *a, ls_field *f) {
    (void)a;
    f->without_lab = (ls_choice){LS_EXPECTED, somewhere};
}

static const struct {
    const char *words;
    void (*fill)(ls_arena *, ls_field *);
} fills[] = {{NULL, as_is}, {no_rating, rate_medium}, {no_most, allow_most}, {no_lab, plan_by_typical}};
enum { FILLS = sizeof fills / sizeof *fills };

/* Tons of the litter that find a field, filled in; NaN if rates cannot be made. The litter and what
 * it holds are the same whatever is filled in: they are drawn once, on a worksheet of their own. */
static void place(search *s, double tons[FILLS]) {
    ls_books books = *s->books;
    ls_farm *farm = fillable(s);
    fill_in(s, farm, as_is);
    books.farm = farm;
    books.draws = LS_BLOCK; /* an answer in whole loads needs no more */
    books.sheet = ls_worksheet_new(s->arena);
    books.estimate = ls_litter_estimate(books.sheet, farm, books.reference, books.seed, books.draws);
    books.agronomy = books.estimate == NULL ? NULL : ls_agronomy_new(books.sheet, books.reference, books.estimate);
    for (size_t k = 0; k < FILLS; k++) {
        room all = {books.sheet, 0};
        fill_in(s, farm, fills[k].fill);
        bool sound = books.agronomy != NULL && ls_books_each_field(&books, add_takes, &all);
        tons[k] = sound ? fmin(all.tons, s->books->estimate->tons.mid) : NAN;
    }
}

static void weigh(search *s) {
    static const char how[] = "litter that finds a field, by acres and rates, with this filled in at "
                              "its best, less what does now";
    double tons[FILLS];
    if (ls_books_has_fields(s->books)) place(s, tons);
    LS_EACH (ls_gap, gap, s->gaps) {
        if (gap->words == no_depth) worth_of_depth(s, gap);
        if (gap->words == no_buyers) put_tons(s, gap, s->books->estimate->tons.mid, "all of the litter");
        for (size_t k = 1; k < FILLS; k++)
            if (gap->words == fills[k].words && ls_books_has_fields(s->books)) put_tons(s, gap, tons[k] - tons[0], how);
        if (gap->words == no_lab && gap->worth == LS_NO_LINE) worth_of_lab(s, gap);
    }
}

static int by_worth(const void *left, const void *right) {
    const ls_gap *a = left, *b = right;
    if ((a->rank == NO_ANSWER) != (b->rank == NO_ANSWER)) return a->rank == NO_ANSWER ? -1 : 1;
    if (a->loads != b->loads) return a->loads > b->loads ? -1 : 1;
    return a->rank != b->rank ? a->rank - b->rank : strcmp(a->words, b->words);
}

ls_gap_list ls_books_gaps(const ls_books *books, const ls_next_list *next) {
    const ls_farm *f = books->farm;
    search s = {.books = books, .arena = books->arena, .next = next, .loads_per_ton = NAN};
    of_farm(&s, f);
    for (size_t i = 0; i < f->houses.n; i++) of_house(&s, &f->houses.at[i]);
    for (size_t i = 0; i < f->buyers.n; i++)
        for (size_t k = 0; k < f->buyers.at[i].fields.n; k++)
            if (!f->buyers.at[i].fields.at[k].yard) of_field(&s, &f->buyers.at[i].fields.at[k]);
    if (books->estimate != NULL) {
        s.loads_per_ton = ls_line_value(books->sheet, books->estimate->likely) / books->estimate->tons.mid;
        weigh(&s);
    }
    if (s.gaps.n > 1) qsort(s.gaps.at, s.gaps.n, sizeof *s.gaps.at, by_worth);
    return s.gaps;
}
