/* The annual summary, on one page: birds, litter made with its N-P-K, where it went, acres; and
 * year by year; how large the farm is. */
#include "chapters.h"

#include <string.h>

LS_DOC_COLUMNS(year_columns, DATA("loads"), HEAD("loads"), IN("birds", NULL, "bird"),
               IN("house_tons", "out of houses", "ton"), IN("own_tons", "on own fields", "ton"),
               IN("moved_tons", "moved", "ton"), IN("plan_ac", "in the plan", "ac"), IN("used_ac", "fields used", "ac"),
               DATA("file"));

static void years(ls_doc_group *g, const ls_dossier *d) {
    const ls_dossier_months *m = &d->months;
    ls_doc_table t = LS_DOC_TABLE_IN(g, d->years.n > 1 ? LS_FULL : LS_DATA, "years",
                                     "Totals of this file and of earlier ones", year_columns);
    LS_EACH (const ls_dossier_year, y, d->years) {
        LS_DOC_ROW(t, year_columns, W(y->name), W(y->words), L(y->birds), BOOKED(y->out, NULL), BOOKED(y->own, NULL),
                   BOOKED(y->moved, NULL), L(y->acres), L(y->used), W(y->file));
    }
    if (m->to != LS_NO_DATE)
        LS_DOC_DATA_ROW(t, year_columns,
                        W(ls_arena_printf(d->arena, "period, %s to %s", ls_date_iso(d->arena, m->from),
                                          ls_date_iso(d->arena, m->to))),
                        W(NULL), L(m->housed), BOOKED(m->out, NULL), BOOKED(m->own, NULL), BOOKED(m->moved, NULL),
                        L(m->acres), L(m->used), W("all files"));
    if (d->years.n > 1) SAY(g, LS_FULL, "Birds: the largest flock of its kind in each house.");
}

/* ---- twelve months ---- */

LS_DOC_COLUMNS(month_columns, DATA("what"), DATA("birds"), HEAD(NULL), DATA("from"), DATA("to"), DATA("ends_at"),
               {.key = NULL, .number = true}, DATA_IN("bird", "bird"), DATA_IN("tons", "ton"), DATA_IN("acres", "ac"),
               DATA("count"));

static const char *ends_at(const ls_dossier_months *m) { return m->by_option ? "days asked for" : "newest entry"; }

/* A figure of the months, in birds, tons or acres; of: which birds, NULL: none. */
static void month(ls_doc_table t, const ls_dossier_months *m, const char *what, const char *of, const char *words,
                  const char *unit, ls_line line) {
    bool tons = strcmp(unit, "ton") == 0, told = !tons || line == m->out; /* else by the books */
    LS_DOC_GRID_ROW(t, month_columns, told ? LS_FIRST : LS_DATA, NULL, W(what), W(of),
                    of == NULL ? W(words) : T("{} {}", W(of), W(words)), DAY(m->from), DAY(m->to), W(ends_at(m)),
                    tons ? BOOKED(line, unit) : F(line, unit), strcmp(unit, "bird") == 0 ? L(line) : W(NULL),
                    tons ? BOOKED(line, unit) : W(NULL), strcmp(unit, "ac") == 0 ? L(line) : W(NULL), W(NULL));
}

static void counted(ls_doc_table t, const ls_dossier_months *m, const char *what, size_t n) {
    LS_DOC_DATA_ROW(t, month_columns, W(what), W(NULL), W(NULL), DAY(m->from), DAY(m->to), W(ends_at(m)), W(NULL),
                    W(NULL), W(NULL), W(NULL), N(n));
}

static void month_words(ls_doc_group *g, const ls_dossier_months *m) {
    SAY(g, LS_FULL,
        "{} All files are joined (40 CFR 122.42(e)(4)). Birds are counted as placed, hens and "
        "males of breeders, each flock once. Litter is made as the birds stay, by bird-days.",
        W(m->by_option ? "The days are those asked for (--period)."
                       : "The 12 months end with the newest entry of a haul log."));
    if (m->undated > 0)
        ITEM(g, LS_FULL, "Not counted: {} {} without a placing date.", N(m->undated),
             W(m->undated == 1 ? "flock" : "flocks"));
    if (m->doubled > 0)
        ITEM(g, LS_FULL,
             "{} in two files (same ticket, same day): counted once. This file goes first, then "
             "the first one named.",
             T(m->doubled == 1 ? "{} load is" : "{} loads are", N(m->doubled)));
}

LS_DOC_COLUMNS(book_columns, DATA("from"), DATA("to"), WORDS("what", "what"), IN("tons", NULL, "ton"),
               IN("N_lb", "N", "lb"), IN("P2O5_lb", "P2O5", "lb"), IN("K2O_lb", "K2O", "lb"));

/* What was there and was made, and where it is: both sides come to the same. */
void ls_dossier_put_period(ls_doc_group *g, ls_doc_level level, const ls_dossier *d) {
    const ls_dossier_months *m = &d->months;
    ls_doc_table t = LS_DOC_TABLE_IN(
        g, level, "period",
        ls_arena_printf(d->arena, "The books from %s to %s: the first three rows are what the others add up to",
                        ls_date_words(d->arena, m->from, 0), ls_date_words(d->arena, m->to, 0)),
        book_columns);
    for (size_t i = 0; d->period[0].words != NULL && i < LS_PERIOD_BOOKS; i++) {
        const ls_dossier_book *b = &d->period[i];
        bool told = ls_line_value(g->document->view->sheet, b->of[0]) != 0;
        LS_DOC_GRID_ROW(t, book_columns, told ? LS_FIRST : LS_DATA, NULL, DAY(m->from), DAY(m->to), W(b->words),
                        BOOKED(b->of[0], NULL), BOOKED(b->of[1], NULL), BOOKED(b->of[2], NULL), BOOKED(b->of[3], NULL));
    }
}

static void months(ls_doc_group *g, const ls_dossier *d) {
    const ls_dossier_months *m = &d->months;
    const char *caption = ls_arena_printf(d->arena, "From %s to %s", ls_date_words(d->arena, m->from, 0),
                                          ls_date_words(d->arena, m->to, 0));
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "months", caption, month_columns);
    const struct {
        const char *what, *words, *unit;
        ls_line line;
    } rows[] = {{"out of houses", "litter out of the houses", "ton", m->out},
                {"moved", "litter moved to others", "ton", m->moved},
                {"own fields", "litter on own fields", "ton", m->own},
                {"in the plan", "acres in the plan, by this file", "ac", m->acres},
                {"in the plan, own", "of these, the farm's own", "ac", m->own_acres},
                {"used", "acres of the fields used, each whole", "ac", m->used},
                {"used, own", "of these, the farm's own", "ac", m->own_used}};
    if (m->to == LS_NO_DATE) return;
    LS_EACH (const ls_dossier_birds, b, m->birds) {
        month(t, m, "placed", b->birds, "placed in those months", "bird", b->placed);
        month(t, m, "in a house", b->birds, "in a house in those months", "bird", b->housed);
    }
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        month(t, m, rows[i].what, NULL, rows[i].words, rows[i].unit, rows[i].line);
    counted(t, m, "loads in two files", m->doubled);
    counted(t, m, "flocks without a date", m->undated);
    month_words(g, m);
}

/* ---- the federal size ---- */

LS_DOC_COLUMNS(size_columns, WORDS("birds", "birds"), NUMBER("count", "on the farm"),
               NUMBER("medium_from", "medium from"), NUMBER("large_from", "large from"), WORDS("class", "class"));

/* Whose records the plan section says are asked for; NULL: it says nothing. */
static const char *records_asked(const ls_dossier *d) {
    static const char *const whose[] = {
        [LS_RECORDS_FEDERAL] = "federal", [LS_RECORDS_STATE] = "state", [LS_RECORDS_BOTH] = "federal and state"};
    const ls_plan_paper *plan = ls_dossier_facts(d)->plan;
    return plan != NULL && plan->records.is != 0 ? whose[plan->records.is] : NULL;
}

/* Of the size alone. */
static const char *size_alone(const ls_dossier *d) {
    return d->sizes.n == 0 ? "No birds are given, so the federal size is not known."
           : d->size_open  ? "By one reading the farm is at or above the federal figure of a large operation."
           : d->large      ? "The farm is at or above the federal figure of a large operation."
                           : "The farm is below the federal figures of a large operation.";
}

static void sizes(ls_doc_group *top, const ls_dossier *d) {
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "Federal size class");
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "sizes", "Birds on the farm beside the federal sizes (40 CFR 122.23)",
                                     size_columns);
    LS_EACH (const ls_dossier_size, s, d->sizes) {
        LS_DOC_ROW(t, size_columns, W(s->birds), C(s->count), C(s->medium), C(s->large), W(s->size));
    }
    if (d->two_readings)
        SAY(g, LS_FULL,
            "Whether a hatching-egg hen counts as a laying hen was not found: both readings are "
            "shown.");
    const char *asked = records_asked(d);
    SAY(g, LS_FULL, "{} {} The permit authority decides.", W(size_alone(d)),
        asked != NULL ? T("The farm file (records: under farm: plan) asks for records: {}. They "
                          "are treated as required here.",
                          W(asked))
        : d->large    ? W("Federal records are treated as required here.")
                      : W("Federal records count as good practice here. A permit may ask a smaller "
                             "farm for them too: then write records: federal under farm: plan."));
}

/* ---- what is missing ---- */

/* A house without flocks, or a flock without its day, is not counted. */
static void missing(ls_doc_group *g, const ls_dossier *d) {
    ls_doc_table t = ls_dossier_put_missing(g);
    LS_EACH (const ls_house, h, d->farm->houses) {
        const char *under = ls_arena_printf(d->arena, "the house %s", h->name.text);
        bool dated = true;
        for (size_t k = 0; k < h->flocks.n; k++) dated = dated && LS_GIVEN(h->flocks.at[k].placed);
        ls_dossier_missing(t, h->flocks.n > 0, "its birds", under,
                           "flocks: [{birds: broiler, count: 24000, placed: 2025-12-08, removed: "
                           "2026-01-26}]");
        ls_dossier_missing(t, dated, "the day its birds were placed", under, "placed: 2025-12-08");
    }
    ls_dossier_missing(t, d->farm->buyers.n > 0, "the fields of the plan", "the command",
                       "littershed dossier farm.yaml fields.yaml");
}

void ls_report_dossier_annual(ls_doc_group *g, const ls_dossier *d) {
    if (d->months.to == LS_NO_DATE) SAY(g, LS_FULL, "No load is logged yet. --period 2026 names the days to sum up.");
    months(g, d);
    if (!d->months.by_option) ls_dossier_put_period(g, LS_FULL, d);
    years(g, d);
    sizes(g, d);
    missing(ls_doc_object(g, LS_FULL, "annual", NULL), d);
}
