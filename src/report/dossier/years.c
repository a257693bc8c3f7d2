/* Year by year, and the newest twelve months of all files. */
#include "chapters.h"

static const ls_doc_column year_columns[] = {DATA("loads"),
                                             HEAD("loads"),
                                             IN("birds", NULL, "bird"),
                                             IN("house_tons", "out of houses", "ton"),
                                             IN("own_tons", "on own fields", "ton"),
                                             IN("moved_tons", "moved", "ton"),
                                             IN("plan_ac", "in the plan", "ac"),
                                             IN("used_ac", "used", "ac"),
                                             DATA("file")};

static void years(ls_doc_group *g, const ls_dossier *d) {
    const ls_dossier_months *m = &d->months;
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "years", "Totals of this file and of earlier ones",
                                     year_columns);
    for (size_t i = 0; i < d->years.n; i++) {
        const ls_dossier_year *y = &d->years.at[i];
        LS_DOC_ROW(t, year_columns, W(y->name), W(y->words), L(y->birds), BOOKED(y->out, NULL),
                   BOOKED(y->own, NULL), BOOKED(y->moved, NULL), L(y->acres), L(y->used),
                   W(y->file));
    }
    if (m->to != LS_NO_DATE)
        LS_DOC_DATA_ROW(
            t, year_columns,
            W(ls_arena_printf(d->arena, "12 months, %s to %s", ls_date_iso(d->arena, m->from),
                              ls_date_iso(d->arena, m->to))),
            W(NULL), L(m->housed), BOOKED(m->out, NULL), BOOKED(m->own, NULL),
            BOOKED(m->moved, NULL), L(m->acres), L(m->used), W("all files"));
    ls_doc_say(g, LS_FULL, W("Birds: the largest flock of its kind in each house."));
}

/* ---- twelve months ---- */

static const ls_doc_column month_columns[] = {DATA("what"),
                                              DATA("birds"),
                                              HEAD(NULL),
                                              DATA("from"),
                                              DATA("to"),
                                              DATA("ends_at"),
                                              {.key = NULL, .number = true},
                                              DATA_IN("bird", "bird"),
                                              DATA_IN("tons", "ton"),
                                              DATA_IN("acres", "ac"),
                                              DATA("count")};

typedef struct {
    ls_doc_table table;
    const ls_dossier_months *months;
    const char *ends_at;
} month_rows;

static void birds(const month_rows *r, const char *what, const char *of, const char *words,
                  ls_line line) {
    LS_DOC_ROW(r->table, month_columns, W(what), W(of), T("{} {}", W(of), W(words)),
               DAY(r->months->from), DAY(r->months->to), W(r->ends_at), F(line, "bird"), L(line),
               W(NULL), W(NULL), W(NULL));
}

static void tons(const month_rows *r, const char *what, const char *words, ls_line line) {
    LS_DOC_ROW(r->table, month_columns, W(what), W(NULL), W(words), DAY(r->months->from),
               DAY(r->months->to), W(r->ends_at), BOOKED(line, "ton"), W(NULL), BOOKED(line, NULL),
               W(NULL), W(NULL));
}

static void acres(const month_rows *r, const char *what, const char *words, ls_line line) {
    LS_DOC_ROW(r->table, month_columns, W(what), W(NULL), W(words), DAY(r->months->from),
               DAY(r->months->to), W(r->ends_at), F(line, "ac"), W(NULL), W(NULL), L(line),
               W(NULL));
}

static void counted(const month_rows *r, const char *what, size_t n) {
    LS_DOC_DATA_ROW(r->table, month_columns, W(what), W(NULL), W(NULL), DAY(r->months->from),
                    DAY(r->months->to), W(r->ends_at), W(NULL), W(NULL), W(NULL), W(NULL), N(n));
}

static void month_words(ls_doc_group *g, const ls_dossier_months *m) {
    ls_doc_say(g, LS_FULL,
               T("The 12 months end with {}. All files are joined (40 CFR 122.42(e)(4)). Birds are "
                 "counted as placed, hens and males of breeders, each flock once.",
                 W(m->by_option ? "the day of printing" : "the newest entry of a haul log")));
    if (m->undated > 0)
        ls_doc_item(g, LS_FULL,
                    T("Not counted: {} {} without a placing date.", N(m->undated),
                      W(m->undated == 1 ? "flock" : "flocks")));
    if (m->doubled > 0)
        ls_doc_item(g, LS_FULL,
                    T("{} in two files (same ticket, same day): counted once here and in the "
                      "ledgers. This file goes first, then the first one named. Each file's own "
                      "totals above count all of its loads.",
                      T(m->doubled == 1 ? "{} load is" : "{} loads are", N(m->doubled))));
}

static void months(ls_doc_group *g, const ls_dossier *d) {
    const ls_dossier_months *m = &d->months;
    const char *caption =
        ls_arena_printf(d->arena, "The 12 months from %s to %s",
                        ls_date_words(d->arena, m->from, 0), ls_date_words(d->arena, m->to, 0));
    month_rows r = {LS_DOC_TABLE_IN(g, LS_FULL, "months", caption, month_columns), m,
                    m->by_option ? "day of printing" : "newest entry"};
    if (m->to == LS_NO_DATE)
        return;
    for (size_t i = 0; i < m->birds.n; i++) {
        const ls_dossier_birds *b = &m->birds.at[i];
        birds(&r, "placed", b->birds, "placed in those months", b->placed);
        birds(&r, "in a house", b->birds, "in a house in those months", b->housed);
    }
    tons(&r, "out of houses", "litter out of the houses", m->out);
    tons(&r, "in houses", "litter still in the houses, by this file", m->in_houses);
    tons(&r, "made", "litter made (the two above)", m->made);
    tons(&r, "moved", "litter moved to others", m->moved);
    tons(&r, "own fields", "litter on own fields", m->own);
    acres(&r, "in the plan", "acres in the plan, by this file", m->acres);
    acres(&r, "in the plan, own", "of these, the farm's own", m->own_acres);
    acres(&r, "used", "acres used", m->used);
    acres(&r, "used, own", "of these, the farm's own", m->own_used);
    counted(&r, "loads in two files", m->doubled);
    counted(&r, "flocks without a date", m->undated);
    month_words(g, m);
}

void ls_dossier_put_years(ls_doc_group *top, const ls_dossier *d) {
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "Year by year");
    years(g, d);
    months(g, d);
}
