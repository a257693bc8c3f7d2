#include "promise.h"

#include "report/figure.h"

enum { NAME = 60 };

void ls_report_promise_heads(ls_report_page *p, const char *heads[LS_PROMISE_CELLS]) {
    const char *const all[LS_PROMISE_CELLS] = {"Field",
                                               "litter",
                                               "loads",
                                               ls_report_unit(p, "ton"),
                                               ls_report_unit(p, "ac"),
                                               ls_report_unit(p, "ton/ac"),
                                               "planned for"};
    for (size_t i = 0; i < LS_PROMISE_CELLS; i++)
        heads[i] = all[i];
}

/* ---- rows ---- */

/* The row that first names the analysis of this one; the rows before it that do so. */
static size_t letter_of(const ls_promised_list *rows, const ls_analysis *a, size_t *first) {
    size_t letter = 0;
    for (size_t i = 0; i < rows->n; i++) {
        bool known = false;
        for (size_t k = 0; k < i; k++)
            known = known || rows->at[k].analysis == rows->at[i].analysis;
        *first = i;
        if (rows->at[i].analysis == a)
            break;
        letter += !known;
    }
    return letter;
}

/* A, B, ... Z, then numbers from 27 on. */
static const char *letter(ls_report_page *p, const ls_promised_list *rows, const ls_analysis *a) {
    size_t first, n = letter_of(rows, a, &first);
    return n < 26 ? ls_arena_printf(p->arena, "%c", (char)('A' + n))
                  : ls_arena_printf(p->arena, "%zu", n + 1);
}

static const char *days_of(ls_report_page *p, const ls_promised *row) {
    if (row->first == LS_NO_DATE)
        return "any day";
    const char *first = ls_date_iso(p->arena, row->first), *last = ls_date_iso(p->arena, row->last);
    if (row->from_stack)
        return ls_arena_printf(p->arena, "from %s", first);
    return row->first == row->last ? first : ls_arena_printf(p->arena, "%s..%s", first, last + 5);
}

static void add_row(ls_report_page *p, ls_report_promise_part *part, const ls_promised_list *rows,
                    const ls_promised *row) {
    const char *cells[LS_PROMISE_CELLS] = {row->field->name.text,
                                           letter(p, rows, row->analysis),
                                           ls_arena_printf(p->arena, "%zu", row->loads),
                                           ls_report_line_number(p, row->tons, "ton"),
                                           ls_report_line_number(p, row->acres, "ac"),
                                           ls_report_line_number(p, row->rate, "ton/ac"),
                                           days_of(p, row)};
    const char **at = LS_PUSH(p->arena, &part->rows)->cells;
    for (size_t i = 0; i < LS_PROMISE_CELLS; i++)
        at[i] = cells[i];
}

static const char *loads_words(ls_report_page *p, const ls_buyer_sum *s, ls_certainty c) {
    size_t n = s->loads[c];
    return ls_arena_printf(p->arena, "%zu %s load%s, %s", n, ls_certainty_name(c),
                           n == 1 ? "" : "s", ls_report_line(p, s->tons[c], "ton"));
}

static const char *below(ls_report_page *p, const ls_buyer_sum *sum,
                         const ls_report_promise_part *part, ls_certainty c) {
    static const char *const end[] = {
        "promised. Rain or wet ground may move the days within the field's window.",
        "not promised: they come if there is as much litter as the middle case.",
        "not promised: they come only if there is much litter."};
    if (part->rows.n == 0)
        return c == LS_FIRM ? "No load can be promised today." : NULL;
    return ls_arena_printf(p->arena, "In all: %s, %s", loads_words(p, sum, c), end[c]);
}

static void make_parts(ls_report_page *p, ls_report_promise *s, const ls_buyer_sum *sum,
                       const ls_promised_list *rows) {
    static const char *const headings[] = {"PROMISED TODAY: FIRM LOADS", "LIKELY, NOT PROMISED",
                                           "POSSIBLE, NOT PROMISED"};
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++) {
        s->parts[c].heading = headings[c];
        for (size_t i = 0; i < rows->n; i++)
            if (rows->at[i].certainty == c)
                add_row(p, &s->parts[c], rows, &rows->at[i]);
        s->parts[c].below = below(p, sum, &s->parts[c], c);
    }
}

/* ---- terms ---- */

static const char *price_of(ls_report_page *p, const ls_buyer *b, const ls_buyer_sheet *s) {
    if (!LS_GIVEN(b->price))
        return "none is given: given away, or to be agreed";
    const char *each = ls_report_line(p, s->price, "$/ton");
    if (s->firm_price == LS_NO_LINE)
        return ls_arena_printf(p->arena, "%s, delivered and spread", each);
    return ls_arena_printf(p->arena,
                           "%s, delivered and spread; %s for the firm loads as planned. The scale "
                           "tons are what counts.",
                           each, ls_report_line(p, s->firm_price, "$"));
}

/* To the buyer, never the farm; NULL: not known. */
static const char *worth_of(ls_report_page *p, const ls_buyer_sheet *s) {
    ls_line gain = s->firm_gain;
    if (s->firm_worth == LS_NO_LINE)
        return NULL;
    const char *less = "";
    if (gain != LS_NO_LINE && ls_line_value(p->view->sheet, gain) >= 0)
        less =
            ls_arena_printf(p->arena, "; %s more than their price", ls_report_line(p, gain, "$"));
    else if (gain != LS_NO_LINE)
        less = ls_arena_printf(p->arena, "; %s less than their price",
                               ls_report_line(p, s->firm_loss, "$"));
    return ls_arena_printf(p->arena,
                           "about %s to you for the firm loads%s: the fertilizer they save on "
                           "these fields, as far as the crops will use their nitrogen, phosphate "
                           "and potash, at the fertilizer prices in the farm's file",
                           ls_report_line(p, s->firm_worth, "$"), less);
}

static const char *content_words(ls_report_page *p, const ls_analysis *a) {
    return ls_arena_printf(p->arena, "N %s, P2O5 %s, K2O %s %s, %s",
                           ls_report_line_number(p, a->per_ton[LS_N], "lb/ton"),
                           ls_report_line_number(p, a->per_ton[LS_P2O5], "lb/ton"),
                           ls_report_line_number(p, a->per_ton[LS_K2O], "lb/ton"),
                           ls_report_unit(p, "lb/ton"), ls_report_whose(p, a));
}

/* "North/left, North/right": lots of one analysis. */
static const char *lots_of(ls_report_page *p, const ls_estimate *e, const ls_analysis *a) {
    ls_text *t = ls_text_new(p->arena);
    for (size_t i = 0; i < e->n; i++)
        if (e->lots[i].analysis == a)
            ls_text_addf(t, "%s%s", t->n > 0 ? ", " : "", ls_report_name(p, e->lots[i].name, NAME));
    return t->s;
}

/* Each analysis among the rows once. */
static void analyses(ls_report_page *p, ls_report_promise *s, const ls_estimate *e,
                     const ls_promised_list *rows) {
    for (size_t i = 0; i < rows->n; i++) {
        const ls_analysis *a = rows->at[i].analysis;
        size_t first;
        letter_of(rows, a, &first);
        if (first == i)
            ls_report_fact_add(
                p, &s->terms, ls_arena_printf(p->arena, "Litter %s", letter(p, rows, a)),
                ls_arena_printf(p->arena, "of %s: %s", lots_of(p, e, a), content_words(p, a)));
    }
}

static void terms(ls_report_page *p, ls_report_promise *s, const ls_estimate *e,
                  const ls_buyer_sheet *sheet) {
    ls_report_fact_add(p, &s->terms, "Price", price_of(p, s->buyer, sheet));
    if (s->parts[LS_FIRM].rows.n > 0)
        ls_report_fact_add(
            p, &s->terms, "How sure",
            ls_arena_printf(
                p->arena,
                "the chance that all firm loads of this farm, for all buyers, are there "
                "together is %s",
                ls_report_line(p, e->all_firm_chance, "%")));
    analyses(p, s, e, &sheet->rows);
    const char *worth = worth_of(p, sheet);
    if (worth != NULL)
        ls_report_fact_add(p, &s->terms, "Worth", worth);
}

ls_report_promise ls_report_promise_of(ls_report_page *p, const ls_tickets *t, const ls_buyer *b) {
    ls_report_promise s = {.buyer = b};
    size_t k = (size_t)(b - t->sums->estimate->farm->buyers.at);
    ls_report_fact_add(p, &s.who, "For", ls_report_name(p, b->name.text, NAME));
    if (b->address.text != NULL)
        ls_report_fact_add(p, &s.who, "Address", b->address.text);
    make_parts(p, &s, &t->sums->buyers[k], &t->buyers[k].rows);
    terms(p, &s, t->sums->estimate, &t->buyers[k]);
    return s;
}
