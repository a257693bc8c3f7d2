/* What became of the nutrients of a house, on the page of the estimate. */
#include "lot.h"
#include "report/figure.h"

static const ls_report_column columns[] = {
    {"", 42, true}, {"N", 9, false}, {"P", 9, false}, {"K", 9, false}};
enum { COLUMNS = sizeof columns / sizeof *columns };

/* One member of each element's fate; a row that no element has is left out. */
static void row(ls_report_page *p, const char *label, const ls_account *a,
                ls_line (*of)(const ls_fate *), const char *unit) {
    const char *cells[COLUMNS] = {
        ls_arena_printf(p->arena, "%s, %s", label, ls_report_unit(p, unit))};
    bool any = false;
    for (int e = 0; e < LS_ELEMENTS; e++) {
        ls_line line = of(&a->of[e]);
        any = any || line != LS_NO_LINE;
        if (line != LS_NO_LINE)
            cells[e + 1] = ls_report_line_number(p, line, unit);
    }
    if (any)
        ls_report_row(p, columns, COLUMNS, cells);
}

#define MEMBER(name)                                                                               \
    static ls_line name##_of(const ls_fate *f) {                                                   \
        return f->name;                                                                            \
    }
MEMBER(eaten)
MEMBER(eggs)
MEMBER(growth)
MEMBER(excreted)
MEMBER(bedding)
MEMBER(litter)
MEMBER(out)
MEMBER(lost)
MEMBER(lost_share)

static bool same_source(const ls_account *a) {
    for (int e = 0; e < LS_ELEMENTS; e++)
        if (a->of[e].source == NULL || !ls_text_same(a->of[e].source, a->of[0].source))
            return false;
    return true;
}

/* The elements that go by the source of e, told at the first of them. */
static void one_source(ls_report_page *p, const ls_account *a, int e) {
    ls_text *names = ls_text_new(p->arena);
    for (int i = 0; i < LS_ELEMENTS; i++) {
        if (a->of[i].source == NULL || !ls_text_same(a->of[i].source, a->of[e].source))
            continue;
        if (i < e)
            return;
        ls_text_addf(names, "%s%s", names->n > 0 ? ", " : "", ls_element_name(i));
    }
    ls_report_item(p, 4, "%s excreted: by %s", names->s, a->of[e].source);
}

/* Which figure of excretion is used for which element. */
static void sources(ls_report_page *p, const ls_account *a) {
    if (same_source(a)) {
        ls_report_item(p, 4, "excreted: by %s", a->of[0].source);
        return;
    }
    for (int e = 0; e < LS_ELEMENTS; e++)
        if (a->of[e].source != NULL)
            one_source(p, a, e);
        else
            ls_report_item(p, 4, "%s excreted: no figure; its share of the feed would tell",
                           ls_element_name(e));
}

static const ls_report_column found_columns[] = {
    {"Of what was excreted, the litter holds, %", 42, true},
    {"low", 9, false},
    {"middle", 9, false},
    {"high", 9, false}};
enum { FOUND_COLUMNS = sizeof found_columns / sizeof *found_columns };

static bool any_found(const ls_account *a) {
    return a->of[LS_ELEMENT_P].found_again.line != LS_NO_LINE ||
           a->of[LS_ELEMENT_K].found_again.line != LS_NO_LINE || a->dry_found.line != LS_NO_LINE;
}

static void found_row(ls_report_page *p, const char *what, ls_q q) {
    if (q.line == LS_NO_LINE)
        return;
    const char *cells[FOUND_COLUMNS] = {what, ls_report_number(p, q.low, "%"),
                                        ls_report_number(p, q.mid, "%"),
                                        ls_report_number(p, q.high, "%")};
    ls_report_row(p, found_columns, FOUND_COLUMNS, cells);
}

void ls_report_estimate_found(ls_report_page *p, const ls_account *a) {
    if (!any_found(a))
        return;
    ls_report_heading(p, "%s: found again", ls_report_name(p, a->house->name.text, 40));
    ls_report_heads(p, found_columns, FOUND_COLUMNS);
    found_row(p, "  phosphorus", a->of[LS_ELEMENT_P].found_again);
    found_row(p, "  potassium", a->of[LS_ELEMENT_K].found_again);
    found_row(p, "  dry matter, bedding taken off", a->dry_found);
    ls_report_blank(p);
    ls_report_say(
        p, 2,
        "By the tons that all but these elements tell. Phosphorus does not go to the air: "
        "90 to 100 %% of it should be there (common practice); much less or more says that "
        "a count, a report or the tons are off.");
}

void ls_report_estimate_account(ls_report_page *p, const ls_account *a) {
    if (!a->own)
        return;
    ls_report_heading(p, "%s: what became of the nutrients",
                      ls_report_name(p, a->house->name.text, 40));
    ls_report_heads(p, columns, COLUMNS);
    row(p, "Eaten", a, eaten_of, "lb");
    row(p, "  gone with the eggs", a, eggs_of, "lb");
    row(p, "  kept in the growth of the birds", a, growth_of, "lb");
    row(p, "Excreted", a, excreted_of, "lb");
    row(p, "Brought in with the bedding", a, bedding_of, "lb");
    row(p, "  in the litter", a, litter_of, "lb");
    row(p, "  in what was taken out before", a, out_of, "lb");
    row(p, "  N to the air; P, K not recovered", a, lost_of, "lb");
    row(p, "  that over the excreted", a, lost_share_of, "%");
    ls_report_blank(p);
    ls_report_say(p, 2,
                  "As elements: P2O5 is 2.29 times P, K2O 1.20 times K. In the middle case; a loss "
                  "below zero says that a figure is off.");
    sources(p, a);
    ls_report_item(p, 4, "in the litter: its tons times %s",
                   a->reported ? "what the laboratory found"
                               : "published figures, where no laboratory report is given");
}
