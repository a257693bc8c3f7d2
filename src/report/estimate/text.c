#include "lot.h"
#include "report/figure.h"

/* Label and points of one figure; the middle and high of an exact figure are not repeated. */
static void points(ls_report_page *p, const char *label, ls_q q, const char *unit) {
    ls_report_points_row(p, ls_arena_printf(p->arena, "%s, %s", label, ls_report_unit(p, unit)), q,
                         unit);
}

static void worth(ls_report_page *p, const ls_estimate *e) {
    if (e->value.line == LS_NO_LINE)
        return;
    points(p, "Worth as fertilizer", e->value, "$");
    ls_report_say(
        p, 2,
        "Worth at the fertilizer prices of the farm file: %s of litter in the middle. Nitrogen "
        "counts as far as a crop can use it in the first season, phosphate and potash in "
        "full: worth less where a soil test asks for none. littershed rates tells what a ton is "
        "worth on each field.",
        ls_report_line(p, e->value_per_ton, "$/ton"));
}

/* A single lot has its own table: only its worth is told here. */
static void whole_farm(ls_report_page *p, const ls_estimate *e) {
    if (e->n == 1 && e->value.line == LS_NO_LINE)
        return;
    ls_report_heading(p, e->n > 1 ? "ALL HOUSES TOGETHER" : "WORTH");
    ls_report_points_heads(p, "");
    if (e->n > 1) {
        points(p, "Litter as hauled", e->tons, "ton");
        points(p, "Dry litter in it", e->dry_tons, "ton");
        for (int i = 0; i < LS_NUTRIENTS; i++)
            if (e->pounds[i].line != LS_NO_LINE)
                points(p, ls_report_nutrient(i), e->pounds[i], "lb");
    }
    worth(p, e);
}

static const ls_report_column load_columns[] = {
    {"Lot", 24, true},      {"firm", 7, false},     {"likely", 7, false},
    {"possible", 8, false}, {"one load", 9, false}, {"filled by", 9, true},
};
enum { LOAD_COLUMNS = sizeof load_columns / sizeof *load_columns };

static void load_row(ls_report_page *p, const char *name, const ls_line loads[3], const char *one,
                     const char *filled) {
    const char *cells[LOAD_COLUMNS] = {name, NULL, NULL, NULL, one, filled};
    for (int i = 0; i < 3; i++)
        cells[i + 1] = ls_report_line_number(p, loads[i], "load");
    ls_report_row(p, load_columns, LOAD_COLUMNS, cells);
}

static void load_words(ls_report_page *p, const ls_estimate *e) {
    ls_report_blank(p);
    ls_report_item(p, 2,
                   "firm: full loads that are there in 9 cases out of 10; these can be promised.");
    ls_report_item(p, 2, "likely: trips needed in the middle case; as often more as fewer.");
    ls_report_item(
        p, 2, "possible: trips needed if there is much litter; more only in 1 case out of 10.");
    if (e->n < 2)
        return;
    ls_report_say(
        p, 2,
        "The last row is that of the sum: points of single lots do not add up. The chance "
        "that each lot holds its own firm loads is %s.",
        ls_report_line(p, e->all_firm_chance, "%"));
}

static void loads(ls_report_page *p, const ls_estimate *e) {
    ls_report_heading(p, "TRUCK LOADS");
    if (e->firm == LS_NO_LINE) {
        ls_report_say(
            p, 2,
            "Not known: the farm file names no truck. Add a section trucks with payload and "
            "body to see loads.");
        return;
    }
    ls_report_heads(p, load_columns, LOAD_COLUMNS);
    for (size_t i = 0; i < e->n; i++) {
        const ls_lot *lot = &e->lots[i];
        load_row(p, lot->name, (const ls_line[]){lot->firm, lot->likely, lot->possible},
                 ls_report_amount(p, ls_line_value(p->view->sheet, lot->payload.line), "ton"),
                 lot->volume_binds ? "volume" : "weight");
    }
    if (e->n > 1)
        load_row(p, "all lots", (const ls_line[]){e->firm, e->likely, e->possible}, NULL, NULL);
    load_words(p, e);
}

void ls_report_estimate_cautions(ls_report_page *p, const ls_estimate *e) {
    if (e->cautions.n == 0)
        return;
    ls_report_heading(p, "TAKE CARE");
    for (size_t i = 0; i < e->cautions.n; i++)
        ls_report_item(p, 2, "%s (%s)", e->cautions.at[i].text, e->cautions.at[i].source);
}

/* Published methods go by the id of their source; what stands behind the ids. */
static void sources(ls_report_page *p, const ls_estimate *e) {
    bool any = false;
    for (size_t s = 0; ls_reference_source_at(p->view->reference, s) != NULL; s++) {
        const ls_source *source = ls_reference_source_at(p->view->reference, s);
        bool used = false;
        for (size_t i = 0; i < e->n && !used; i++)
            used = ls_report_uses_method(&e->lots[i], source->id);
        if (used && !any)
            ls_report_heading(p, "PUBLISHED SOURCES NAMED ABOVE");
        if (used)
            ls_report_item(p, 2, "%s: %s. %s", source->id, source->who, source->title);
        any = any || used;
    }
}

static const ls_report_column next_columns[] = {
    {"Measure", 34, true}, {"where", 20, true}, {"low", 9, false}, {"high", 9, false}};
enum { NEXT_COLUMNS = sizeof next_columns / sizeof *next_columns, MOST_NEXT = 6 };

static void next_row(ls_report_page *p, const char *what, const char *where, ls_q q,
                     const char *unit) {
    const char *cells[NEXT_COLUMNS] = {what, where, ls_report_number(p, q.low, unit),
                                       ls_report_number(p, q.high, unit)};
    ls_report_row(p, next_columns, NEXT_COLUMNS, cells);
}

/* The range narrows by a load, or by one part in twenty. */
static bool is_worth_it(const ls_next *n) {
    double now = n->now.high - n->now.low, then = n->then.high - n->then.low;
    return n->loads ? then <= now - 1 : then <= 0.95 * now;
}

/* The range of all loads (or tons) as it is, and as it would be with one more measurement. */
static void measure_next(ls_report_page *p, ls_next_list next) {
    if (next.n == 0)
        return;
    bool loads = next.at[0].loads;
    const char *unit = loads ? "load" : "ton";
    ls_report_heading(p, "WHAT TO MEASURE NEXT: THE BEST FIRST");
    ls_report_heads(p, next_columns, NEXT_COLUMNS);
    next_row(p,
             ls_arena_printf(p->arena, "(%s in all as it is)",
                             loads ? "loads" : ls_report_unit(p, unit)),
             NULL, next.at[0].now, unit);
    size_t told = 0;
    for (size_t i = 0; i < next.n && told < MOST_NEXT; i++) {
        if (!is_worth_it(&next.at[i]))
            continue;
        next_row(p, next.at[i].what, next.at[i].where, next.at[i].then, unit);
        ls_report_say(p, 4, "%s", next.at[i].effort);
        told++;
    }
    ls_report_blank(p);
    ls_report_say(p, 2,
                  told > 0 ? "Low and high as they would be if the measurement comes out as the "
                             "estimate expects."
                  : loads  ? "No single measurement would narrow the range by as much as a load."
                           : "No single measurement would narrow the range by as much as a "
                             "twentieth.");
}

/* How the points were drawn, and what ended the drawing. */
static void draws(ls_report_page *p, const ls_estimate *e) {
    const char *n = ls_number_text(p->arena, (double)e->draws, 6);
    const char *s = e->digits == 1 ? "" : "s";
    ls_report_blank(p);
    if (e->digits == 0)
        ls_report_say(p, 0, "Drawn %s times.", n);
    else if (e->sure)
        ls_report_say(p, 0,
                      "Drawn %s times: enough to be sure of %d significant digit%s of the spread.",
                      n, e->digits, s);
    else
        ls_report_say(p, 0,
                      "Drawn %s times, the most allowed: not enough to be sure of %d significant "
                      "digit%s of the spread.",
                      n, e->digits, s);
}

const char *ls_report_estimate_text(const ls_view *v, const ls_estimate *e, ls_next_list next) {
    ls_report_page *p =
        ls_report_begin(v, "Litter in the houses: how much, what is in it, how many loads");
    ls_report_blank(p);
    ls_report_say(
        p, 0,
        "Low, middle and high: in 1 case out of 10 it is less than the low figure, in 5 less "
        "than the middle one, in 9 less than the high one.");
    if (e->gone != LS_NO_LINE) {
        ls_report_blank(p);
        ls_report_say(p, 0,
                      "By the haul log %s are gone already. What follows is of the litter still to "
                      "be hauled.",
                      ls_report_line(p, e->gone, "ton"));
    }
    loads(p, e);
    measure_next(p, next);
    whole_farm(p, e);
    for (size_t i = 0; i < e->n; i++)
        ls_report_estimate_lot(p, e, i);
    for (size_t i = 0; i < e->accounts.n; i++)
        ls_report_estimate_account(p, &e->accounts.at[i]);
    for (size_t i = 0; i < e->accounts.n; i++)
        ls_report_estimate_found(p, &e->accounts.at[i]);
    ls_report_estimate_cautions(p, e);
    ls_report_list(p, "WHAT WAS TAKEN WHERE THE FILE IS SILENT, AND WHAT DISAGREES", e->notes.at,
                   e->notes.n);
    sources(p, e);
    draws(p, e);
    return ls_report_end(p);
}
