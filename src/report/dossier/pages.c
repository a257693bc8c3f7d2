/* The chapters behind the summary: litter, stack, equipment, years, loads. */
#include "paper.h"

#include <string.h>

#define W(s) LS_PAPER_WORDS(s)
#define L(line, unit) LS_PAPER_LINE(line, unit)
#define ROW(p, ...) ls_paper_row((p), (const ls_paper_cell[]){__VA_ARGS__})

static const char *day(const ls_paper *p, const ls_day *at) {
    return LS_GIVEN(*at) ? ls_date_iso(p->arena, at->day) : "not given";
}

/* ---- litter ---- */

static const ls_paper_column house_columns[] = {
    {"house", true}, {"birds", true}, {"placed", true}, {"removed", true}};

static void houses(ls_paper *p, const ls_dossier *d) {
    const ls_farm *farm = d->farm;
    ls_paper_table(p, "Houses and flocks", house_columns, 4);
    for (size_t i = 0; i < farm->houses.n; i++)
        for (size_t k = 0; k < farm->houses.at[i].flocks.n; k++) {
            const ls_flock *f = &farm->houses.at[i].flocks.at[k];
            long n = f->hens.n + f->males.n + f->count.n;
            ROW(p, W(farm->houses.at[i].name.text),
                W(ls_arena_printf(p->arena, "%s, %s placed", ls_bird_name(f->birds.is),
                                  ls_number_text(p->arena, (double)n, 6))),
                W(day(p, &f->placed)), W(day(p, &f->removed)));
        }
}

static const ls_paper_column lot_columns[] = {{"lot", true},   {"made", false}, {"gone", false},
                                              {"left", false}, {"N", false},    {"P2O5", false},
                                              {"K2O", false}};

static void lots(ls_paper *p, const ls_dossier *d) {
    ls_report_page page = {p->view, p->arena, NULL};
    const ls_estimate *e = d->estimate;
    ls_paper_table(p, "Litter of each lot, and what is in a ton of it", lot_columns, 7);
    for (size_t i = 0; i < e->n; i++) {
        const ls_lot *l = &e->lots[i];
        ROW(p, W(l->name), L(l->made.line != LS_NO_LINE ? l->made.line : l->tons.line, "ton"),
            L(l->gone, "ton"), L(l->tons.line, "ton"), L(l->per_ton[LS_N].line, "lb/ton"),
            L(l->per_ton[LS_P2O5].line, "lb/ton"), L(l->per_ton[LS_K2O].line, "lb/ton"));
    }
    for (size_t i = 0; i < e->n; i++) {
        const ls_analysis *x = e->lots[i].analysis;
        bool method = x->report != NULL && x->report->method.text != NULL;
        ls_paper_item(p, "%s: %s%s%s", e->lots[i].name, ls_report_analysis(&page, x),
                      method ? ", by " : "", method ? x->report->method.text : "");
    }
}

static const ls_paper_column figures[] = {{"", true}, {"figure", false}};

static void range(ls_paper *p, const ls_dossier *d) {
    const ls_dossier_balance *b = &d->balance;
    ls_paper_table(p, "The estimate before any load, beside what was made", figures, 2);
    ROW(p, W("estimate, low (10 %)"), L(b->before[0], "ton"));
    ROW(p, W("estimate, middle (50 %)"), L(b->before[1], "ton"));
    ROW(p, W("estimate, high (90 %)"), L(b->before[2], "ton"));
    ROW(p, W(b->cleared && b->scaled ? "made, by the scales" : "made, as worked out"),
        L(b->made, "ton"));
    if (b->cleared)
        ROW(p, W("middle of the estimate less made"), L(b->off, "ton"));
    if (d->loads.n > 0)
        ROW(p, W("out of the houses by the log"), L(b->trucked, "ton"));
}

static void stack(ls_paper *p, const ls_dossier *d) {
    const ls_stack *s = d->farm->stack;
    const ls_dossier_stack *x = &d->stack;
    if (s == NULL && x->days == LS_NO_LINE)
        return;
    ls_paper_heading(p, 3, "stack", "The stack");
    ls_paper_table(p, "Storage", figures, 2);
    ROW(p, W("into the stack"), L(d->balance.stack_in, "ton"));
    ROW(p, W("out of the stack"), L(d->balance.stack_out, "ton"));
    ROW(p, W("still in it"), L(d->balance.stacked, "ton"));
    if (x->days != LS_NO_LINE)
        ROW(p,
            W(ls_arena_printf(p->arena, "longest in it: %s to %s%s",
                              ls_date_iso(p->arena, x->first), ls_date_iso(p->arena, x->last),
                              x->empty ? "" : ", some is there yet")),
            L(x->days, "day"));
    if (s != NULL)
        ls_paper_say(p, "%s, may be kept until %s%s%s.%s The local code decides.",
                     s->roofed.yes ? "Under a roof" : "Not under a roof",
                     ls_date_iso(p->arena, s->kept_until.day),
                     LS_GIVEN(s->most_days) ? ", at most " : "",
                     LS_GIVEN(s->most_days) ? s->most_days.text : "",
                     s->roofed.yes ? ""
                                   : " Published examples for litter piled outside: Virginia 14 "
                                     "days (va-630), North Carolina 15 days (nc-02t).");
}

static const ls_paper_column age_columns[] = {{"what", true}, {"of", true},   {"date", true},
                                              {"on", true},   {"age", false}, {"at most", false},
                                              {"by", true}};

static void ages(ls_paper *p, const ls_dossier *d) {
    if (d->ages.n == 0)
        return;
    ls_paper_heading(p, 3, "ages", "Ages");
    ls_paper_table(p, "How old tests and papers were on the newest day litter went out by them",
                   age_columns, 7);
    for (size_t i = 0; i < d->ages.n; i++) {
        const ls_dossier_age *x = &d->ages.at[i];
        ROW(p, W(x->what), W(x->of), W(ls_date_iso(p->arena, x->date)),
            W(ls_date_iso(p->arena, x->on)), L(x->age, "day"), L(x->limit, "day"),
            W(x->own != NULL ? ls_dossier_at(d, *x->own) : "usual"));
    }
}

static const ls_paper_column truck_columns[] = {
    {"truck", true}, {"calibrated", true}, {"inspected", true}};

static void equipment(ls_paper *p, const ls_dossier *d) {
    ls_paper_heading(p, 3, "equipment", "Equipment");
    ls_paper_table(p, "Spreaders", truck_columns, 3);
    for (size_t i = 0; i < d->farm->trucks.n; i++) {
        const ls_truck *t = &d->farm->trucks.at[i];
        ROW(p, W(t->name.text), W(day(p, &t->calibrated)), W(day(p, &t->inspected)));
    }
}

static const ls_paper_column year_columns[] = {
    {"loads", true},  {"birds", false},         {"out of houses", false}, {"on own fields", false},
    {"moved", false}, {"acres in plan", false}, {"acres used", false}};

static void years(ls_paper *p, const ls_dossier *d) {
    ls_paper_heading(p, 3, "years", "Year by year");
    ls_paper_table(p, "Totals of this file and of earlier ones", year_columns, 7);
    for (size_t i = 0; i < d->years.n; i++) {
        const ls_dossier_year *y = &d->years.at[i];
        ROW(p, W(y->name), L(y->birds, "bird"), L(y->out, "ton"), L(y->own, "ton"),
            L(y->moved, "ton"), L(y->acres, "ac"), L(y->used, "ac"));
    }
    ls_paper_say(p, "Birds: of each house the largest flock of its kind.");
}

static void twelve_months(ls_paper *p, const ls_dossier *d) {
    const ls_dossier_months *m = &d->months;
    if (m->to == LS_NO_DATE)
        return;
    ls_paper_table(p,
                   ls_arena_printf(p->arena, "The 12 months from %s to %s",
                                   ls_date_iso(p->arena, m->from), ls_date_iso(p->arena, m->to)),
                   figures, 2);
    for (size_t i = 0; i < m->birds.n; i++) {
        const ls_dossier_birds *b = &m->birds.at[i];
        ROW(p, W(ls_arena_printf(p->arena, "%s placed in them", b->birds)), L(b->placed, "bird"));
        ROW(p, W(ls_arena_printf(p->arena, "%s in a house on a day of them", b->birds)),
            L(b->housed, "bird"));
    }
    ROW(p, W("litter out of the houses"), L(m->out, "ton"));
    ROW(p, W("litter still in the houses, by this file"), L(m->in_houses, "ton"));
    ROW(p, W("litter made: those two"), L(m->made, "ton"));
    ROW(p, W("litter moved to others"), L(m->moved, "ton"));
    ROW(p, W("litter on own fields"), L(m->own, "ton"));
    ROW(p, W("acres in the plan, by this file"), L(m->acres, "ac"));
    ROW(p, W("of them own"), L(m->own_acres, "ac"));
    ROW(p, W("acres used"), L(m->used, "ac"));
    ROW(p, W("of them own"), L(m->own_used, "ac"));
    ls_paper_say(p,
                 "They end at %s, and the same day a year before no longer belongs to them. All "
                 "files are joined (40 CFR 122.42(e)(4)). Birds are counted as placed, hens and "
                 "males of breeders, each flock once.",
                 m->by_option ? "the day of printing" : "the newest entry of a haul log");
    if (m->undated > 0)
        ls_paper_item(p, "Not counted: %zu flock%s without a day of placing.", m->undated,
                      m->undated == 1 ? "" : "s");
    if (m->doubled > 0)
        ls_paper_item(p,
                      "%zu load%s in two files (same ticket, same day): counted once here and in "
                      "the ledgers, as this file or the first one named tells it; each file's own "
                      "totals above count it too.",
                      m->doubled, m->doubled == 1 ? " stands" : "s stand");
}

static const ls_paper_column way_columns[] = {
    {"lot", true}, {"way of knowing", true}, {"10 %", false}, {"50 %", false}, {"90 %", false}};

static void ways(ls_paper *p, const ls_dossier *d, bool charts) {
    ls_paper_table(p, "Tons of each lot by each way of knowing", way_columns, 5);
    for (size_t i = 0; i < d->methods.n; i++) {
        const ls_dossier_method *x = &d->methods.at[i];
        ROW(p, W(x->lot), W(x->method), L(x->low, "ton"), L(x->mid, "ton"), L(x->high, "ton"));
    }
    const char *svg = charts ? ls_dossier_chart_ways_of_knowing(p->view, d) : NULL;
    if (svg != NULL)
        ls_paper_chart(p,
                       "Each way of knowing the tons, and what the loads tell: lots with loads, "
                       "three at the most.",
                       svg);
}

void ls_dossier_litter_pages(ls_paper *p, const ls_dossier *d, bool charts) {
    ls_paper_heading(p, 2, "litter", "Litter: made, found, analyzed, stored");
    houses(p, d);
    range(p, d);
    ways(p, d, charts);
    lots(p, d);
    stack(p, d);
    equipment(p, d);
    ages(p, d);
    years(p, d);
    twelve_months(p, d);
}
