/* The first page: whose it is and of which days, the answer by class, the tons, a row a field. */
#include "chapters.h"

#include "report/figure.h"

#include <string.h>

static void farm(ls_doc_group *g, const ls_dossier *d) {
    static const ls_plan_paper no_plan;
    const ls_farm_facts *facts = ls_dossier_facts(d);
    const ls_plan_paper *plan = facts->plan != NULL ? facts->plan : &no_plan;
    const ls_dossier_months *m = &d->months;
    FACTS(g, LS_FIRST,
          {"covers", "period",
           m->to == LS_NO_DATE
               ? W("no load is logged yet")
               : T("{} to {}", W(ls_date_words(d->arena, m->from, 0)), W(ls_date_words(d->arena, m->to, 0)))},
          {"printed_on", "date printed", W(d->printed == LS_NO_DATE ? NULL : ls_date_words(d->arena, d->printed, 0))},
          {"permit", "permit", W(facts->permit.text)},
          {"plan", "nutrient management plan",
           T("{}{}{}",
             W(plan == &no_plan    ? "the file names none"
               : plan->on_site.yes ? "on the farm"
                                   : "not on the farm"),
             OPTIONAL(", by {}", W(plan->by.text)), OPTIONAL(", of {}", GIVEN_DAY(plan->date)))});
    MEMBERS(g, {"printed", DAY(d->printed)}, {"plan_on_farm", plan == &no_plan ? W(NULL) : FLAG(plan->on_site.yes)},
            {"plan_by", W(plan->by.text)}, {"plan_date", GIVEN_DAY(plan->date)});
    ls_doc_fact(g, LS_FIRST, "haul_log", "haul log",
                d->log == NULL || d->log->entries.n == 0
                    ? W("no load is logged yet")
                    : T("{}; entries: {}; loads counted: {}", W(d->log->path), N(d->log->entries.n), N(d->loads.n)));
}

/* ---- a row a field ---- */

LS_DOC_COLUMNS(field_columns, WHOLE("field", "field"), IN("need_N_lb_per_ac", "N need", "lb/ac"),
               WORDS("credits", "credits"), IN("limit_ton_per_ac", "limit", "ton/ac"), WORDS("limit_from", "from"),
               IN("planned_ton_per_ac", "plan", "ton/ac"), IN("applied_ton_per_ac", "applied", "ton/ac"),
               IN("P2O5_left_lb_per_ac", "P2O5 left", "lb/ac"));

/* "the legume before 40; irrigation water 5": the nitrogen of each. */
static ls_doc_cell credits(const ls_dossier *d, const ls_dossier_field *f) {
    const ls_field_rates *r = f->rates;
    ls_doc_cell *parts = LS_NEW(d->arena, ls_doc_cell, 2 * r->credit_n + 1);
    ls_text *t = ls_text_new(d->arena);
    for (size_t i = 0; i < r->credit_n; i++) {
        const char *name = r->credit[i].name, *of = strstr(name, "N from ") == name ? "N from " : "";
        of = strstr(name, "N in ") == name ? "N in " : of;
        ls_text_add(t, i == 0 ? "{} {}" : "; {} {}");
        parts[2 * i] = W(name + strlen(of));
        parts[2 * i + 1] = L(r->credit[i].gives[LS_FIELD_N]);
        parts[2 * i + 1].unit = "lb/ac";
        parts[2 * i + 1].bare = true;
    }
    return r->credit_n == 0 ? W("none") : ls_doc_template(t->s, parts, 2 * r->credit_n);
}

static void fields(ls_doc_group *g, const ls_dossier *d) {
    const ls_report_page page = {g->document->view, d->arena, NULL};
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "fields_in_short", "Fields", field_columns);
    for (size_t i = 0; i < d->fields.n; i++) {
        const ls_dossier_field *f = &d->fields.at[i];
        LS_DOC_ROW(t, field_columns,
                   LINK(W(ls_arena_printf(d->arena, "%zu %s", i + 1, f->field->name.text)), ls_dossier_field_id(d, i)),
                   L(f->rates->need[LS_FIELD_N]), credits(d, f), L(f->least == NULL ? LS_NO_LINE : f->least->lowest),
                   ls_dossier_limit_from(d, f, false), L(f->planned.per_acre), L(f->actual.per_acre),
                   L(f->ledger_after));
    }
    if (d->fields.n > 0)
        SAY(g, LS_FIRST,
            "Credits: {} of N. Plan and applied: on an average acre covered. P2O5 left: after this crop, by the whole "
            "field.",
            W(ls_report_unit(&page, "lb/ac")));
}

/* ---- where the tons went ---- */

static const ls_doc_column balance_columns[] = {DATA("way"), HEAD(NULL), IN("tons", NULL, "ton")};

static void balance(ls_doc_group *g, const ls_dossier *d) {
    const ls_dossier_balance *b = &d->balance;
    const struct {
        const char *way, *words;
        ls_line line;
        bool always;
    } rows[] = {{"made", b->cleared && b->scaled ? "litter made, by the scales" : "litter made", b->made, true},
                {"opening", "+ in the stack from earlier files", b->opening, false},
                {"unlogged", "+ out of the stack, never logged in", b->unlogged, false},
                {"own", "= on the farm's own fields", b->own, true},
                {"moved", "+ moved to others", b->moved, true},
                {"stacked", "+ in the stack", b->stacked, true},
                {"left", "+ still in the houses", b->left, true},
                {"difference", "difference: to no place in the files", b->difference, true},
                {"estimate low", "estimate before any load, low", b->before[0], false},
                {"estimate middle", "estimate before any load, likely", b->before[1], true},
                {"estimate high", "estimate before any load, high", b->before[2], false}};
    const char *caption =
        d->months.by_option ? "Where the tons of this file went, in the period or not" : "Where the tons went";
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "balance", caption, balance_columns);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        bool told =
            rows[i].always || (rows[i].way[0] != 'e' && ls_line_value(g->document->view->sheet, rows[i].line) != 0);
        LS_DOC_GRID_ROW(t, balance_columns, told ? LS_FIRST : LS_DATA, NULL, W(rows[i].way), W(rows[i].words),
                        BOOKED(rows[i].line, NULL));
    }
    MEMBERS(g, {"off_tons", BOOKED(b->off, "ton")}, {"trucked_tons", BOOKED(b->trucked, "ton")});
    ls_doc_picture(g, LS_FULL, NULL, NULL, ls_dossier_chart_ways(g->document, d), NULL);
    SAY(g, LS_FIRST, "{}{}",
        W(!b->cleared ? "Litter still in the houses is the estimate less the loads gone: not weighed."
          : b->scaled ? "All houses are empty and every load was weighed: litter made is a weighed figure."
                      : "All houses are empty, but not every load was weighed."),
        b->cleared ? T(" The estimate less that: {}.", BOOKED(b->off, "ton")) : W(""));
}

/* What of each file falls into the period, and in whose dossier it is judged. */
static void covered(ls_doc_group *g, const ls_dossier *d) {
    size_t all = 0, outside = 0;
    long *numbers = LS_NEW(d->arena, long, d->loads.n);
    if (d->months.to == LS_NO_DATE) return;
    LS_EACH (const ls_dossier_year, y, d->years) {
        size_t n = 0;
        LS_EACH (const ls_hauled, h, y->farm->hauled) n += ls_dossier_covers(d, h->day);
        all += n;
        if (y != d->years.at && n > 0)
            SAY(g, LS_FIRST,
                "Loads of {} in this period: {}. They are judged in that file's dossier: littershed dossier {}",
                W(y->file), N(n), W(y->file));
    }
    LS_EACH (const ls_dossier_load, l, d->loads)
        if (!ls_dossier_covers(d, l->hauled->day)) numbers[outside++] = l->hauled->log_entry;
    if (all == 0) SAY(g, LS_FIRST, "No load of any file went in this period.");
    if (outside > 0)
        SAY(g, LS_FIRST,
            "Loads of this file outside of this period: {} of {}, entries {}. The verdict and the sheets count them.",
            N(outside), N(d->loads.n), W(ls_dossier_ranges(d, numbers, outside)));
    if (d->months.by_option) ls_dossier_put_period(g, LS_FIRST, d);
}

void ls_dossier_put_front(ls_doc_group *top, const ls_dossier *d) {
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, NULL, NULL);
    farm(g, d);
    covered(g, d);
    ls_dossier_put_verdict(g, d);
    balance(g, d);
    fields(g, d);
}
