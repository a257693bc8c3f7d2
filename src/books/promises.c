/* What each buyer is promised, as lines. */
#include "books.h"

/* The loads of a buyer, and which of them are promised: firm ones, and those that a slip still
 * owes.
 */
typedef struct {
    const ls_load *load;
    bool promised;
} promised_load;
typedef LS_LIST(promised_load) loads_list;

static loads_list loads_of(ls_arena *a, const ls_plan *p, const ls_buyer *b, const ls_promise_kept *kept) {
    loads_list list = {0};
    for (size_t i = 0; i < p->loads_n + p->out_n; i++) {
        const ls_load *load = ls_plan_load(p, i);
        if (load->buyer == b)
            *LS_PUSH(a, &list) = (promised_load){load, load->certainty == LS_FIRM || ls_books_owes(kept, load)};
    }
    return list;
}

static bool is_in(const ls_promised *row, const promised_load *l, const ls_drop *drop) {
    return row->field == drop->field && row->rate == drop->rate && row->promised == l->promised &&
           row->certainty == l->load->certainty && row->from_stack == l->load->from_stack;
}

/* The row a drop belongs to, made if there is none. */
static ls_promised *row_of(const ls_books *books, ls_promised_list *rows, const promised_load *l, const ls_drop *drop) {
    for (size_t i = 0; i < rows->n; i++)
        if (is_in(&rows->at[i], l, drop)) return &rows->at[i];
    ls_promised *row = LS_PUSH(books->arena, rows);
    *row = (ls_promised){.promised = l->promised,
                         .field = drop->field,
                         .analysis = drop->analysis,
                         .certainty = l->load->certainty,
                         .from_stack = l->load->from_stack,
                         .rate = drop->rate,
                         .lots = LS_NEW(books->arena, bool, books->estimate->n),
                         .tons = LS_NO_LINE,
                         .acres = LS_NO_LINE,
                         .first = LS_NO_DATE,
                         .last = LS_NO_DATE};
    return row;
}

static void count(const ls_books *books, ls_promised *row, const ls_load *load) {
    ls_date day = load->from_stack ? load->from : load->day;
    row->lots[load->lot - books->estimate->lots] = true;
    row->loads++;
    if (row->first == LS_NO_DATE || day < row->first) row->first = day;
    if (day > row->last) row->last = day;
}

/* Drops of one field in the order of the plan. */
static void field_rows(const ls_books *books, const loads_list *loads, const ls_field *f, ls_certainty certainty,
                       bool from_stack, ls_promised_list *rows) {
    for (size_t i = 0; i < loads->n; i++) {
        const ls_load *load = loads->at[i].load;
        if (load->certainty != certainty || load->from_stack != from_stack) continue;
        for (size_t k = 0; k < load->n; k++)
            if (load->drops[k].field == f) count(books, row_of(books, rows, &loads->at[i], &load->drops[k]), load);
    }
}

static ls_promised_list rows_of(const ls_books *books, const loads_list *loads, const ls_buyer *b) {
    ls_promised_list rows = {0};
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++)
        for (int stack = 0; stack < 2; stack++)
            for (size_t f = 0; loads->n > 0 && f < b->fields.n; f++)
                field_rows(books, loads, &b->fields.at[f], c, stack != 0, &rows);
    return rows;
}

/* ---- lines ---- */

static const char *key(ls_books *books, const ls_buyer *b, const char *what) {
    return ls_printf(books->sheet, "promise-to.%s.%s", b->slug, what);
}

static void row_lines(ls_books *books, const loads_list *loads, const ls_buyer *b, size_t row, ls_promised *is) {
    ls_worksheet *w = books->sheet;
    ls_books_lines tons = {0}, acres = {0};
    for (size_t i = 0; i < loads->n; i++)
        for (size_t k = 0; k < loads->at[i].load->n; k++) {
            const ls_drop *drop = &loads->at[i].load->drops[k];
            if (!is_in(is, &loads->at[i], drop)) continue;
            *LS_PUSH(books->arena, &tons) = drop->tons;
            *LS_PUSH(books->arena, &acres) = drop->acres;
        }
    const char *name = is->field->name.text, *sure = ls_certainty_name(is->certainty);
    const char *lead = ls_printf(w, "promise-to.%s.%zu", b->slug, row + 1);
    is->tons =
        ls_sum(w, ls_printf(w, "%s.tons", lead), ls_printf(w, "%s tons for %s", sure, name), "ton", tons.at, tons.n);
    is->acres =
        ls_sum(w, ls_printf(w, "%s.acres", lead), ls_printf(w, "%s acres of %s", sure, name), "ac", acres.at, acres.n);
}

/* To the buyer: the fertilizer that the firm loads save on his fields, and that less the price. */
static void worth_lines(ls_books *books, const loads_list *loads, const ls_buyer *b, ls_buyer_sheet *out) {
    ls_worksheet *w = books->sheet;
    ls_books_lines worth = {0};
    for (size_t i = 0; i < loads->n; i++)
        for (size_t k = 0; loads->at[i].load->certainty == LS_FIRM && k < loads->at[i].load->n; k++) {
            if (loads->at[i].load->drops[k].worth == LS_NO_LINE) return;
            *LS_PUSH(books->arena, &worth) = loads->at[i].load->drops[k].worth;
        }
    if (worth.n == 0) return;
    const char *name = b->name.text;
    out->firm_worth = ls_sum(w, key(books, b, "firm-worth"), ls_printf(w, "worth of the firm loads to %s", name), "$",
                             worth.at, worth.n);
    if (out->firm_price == LS_NO_LINE) return;
    out->firm_gain = ls_difference(w, key(books, b, "firm-gain"), ls_printf(w, "that worth to %s less the price", name),
                                   "$", out->firm_worth, out->firm_price);
    out->firm_loss =
        ls_difference(w, key(books, b, "firm-loss"), ls_printf(w, "the price for %s less that worth", name), "$",
                      out->firm_price, out->firm_worth);
}

/* The slip's price holds; the plan has made the line of it, if the buyer gets litter in the middle case. */
static void money_lines(ls_books *books, const ls_promise_kept *kept, ls_line firm, const ls_buyer *b,
                        ls_buyer_sheet *out) {
    ls_worksheet *w = books->sheet;
    if (LS_GIVEN(b->price))
        out->asked = ls_leaf_given(w, ls_printf(w, "plan.buyer.%s.price", b->slug),
                                   ls_printf(w, "price paid by %s", b->name.text), "$/ton", &b->price);
    out->price = kept != NULL ? kept->price : out->asked;
    if (firm != LS_NO_LINE && out->price != LS_NO_LINE)
        out->firm_price =
            LS_PRODUCT(w, key(books, b, "firm-price"), ls_printf(w, "price of the firm loads for %s", b->name.text),
                       "$", firm, out->price);
}

/* What the loads he had cost, and those to come of the promised ones: at the same price. */
static void price_lines(ls_books *books, const ls_buyer *b, long had, ls_line firm, ls_buyer_sheet *out) {
    ls_worksheet *w = books->sheet;
    if (out->price == LS_NO_LINE) return;
    if (had > 0)
        out->had_price =
            LS_PRODUCT(w, key(books, b, "had-price"), ls_printf(w, "price of the loads %s has had", b->name.text), "$",
                       out->had_tons, out->price);
    if (out->tons.owed == firm)
        out->come_price = out->firm_price;
    else if (out->tons.owed != LS_NO_LINE)
        out->come_price = LS_PRODUCT(w, key(books, b, "come-price"),
                                     ls_printf(w, "price of the promised loads to come to %s", b->name.text), "$",
                                     out->tons.owed, out->price);
}

static ls_line loads_line(ls_books *books, const ls_buyer *b, const char *what, const char *label, size_t n,
                          ls_origin_kind kind, const char *from) {
    ls_worksheet *w = books->sheet;
    return ls_leaf_exact(w, key(books, b, what), ls_printf(w, label, b->name.text), "load",
                         (double)n * ls_unit_of("load").factor, kind, from);
}

/* In all as many as he had and as are firm, never fewer than the slip that stands. */
static void said_tons(ls_books *books, const ls_buyer *b, const ls_promise_kept *kept, ls_line firm,
                      ls_buyer_sheet *out) {
    ls_worksheet *w = books->sheet;
    const char *name = b->name.text, *lead = ls_printf(w, "promise-to.%s", b->slug);
    ls_line all = firm == LS_NO_LINE
                      ? out->had_tons
                      : LS_SUM(w, key(books, b, "in-all-tons"), ls_printf(w, "tons %s has had, and firm ones", name),
                               "ton", out->had_tons, firm);
    out->tons.had = out->had_tons, out->tons.owed = firm;
    out->tons.promised =
        kept == NULL ? all
                     : LS_GREATEST(w, key(books, b, "says-tons"), ls_printf(w, "tons promised to %s in all", name),
                                   "ton", all, kept->tons.promised);
    ls_books_balance(books, lead, name, &out->tons);
}

/* What he had, and what a slip says that is handed out now. */
static void slip_lines(ls_books *books, const ls_buyer *b, const ls_buyer_sum *sum, const ls_promise_kept *kept,
                       ls_buyer_sheet *out) {
    ls_worksheet *w = books->sheet;
    const char *lead = ls_printf(w, "promise-to.%s", b->slug);
    const ls_promise_slip none = {.name = b->name.text, .buyer = b};
    size_t firm = sum->loads[LS_FIRM];
    out->loads = kept != NULL ? kept->loads : ls_books_had(books, &none, false, lead);
    size_t had = (size_t)ls_books_had_sum(books, &out->loads, lead, b->name.text, &out->had_tons);
    out->had = loads_line(books, b, "had", "loads %s has had", had, LS_BY_LOG, "the haul log");
    if (had == 0)
        out->had_tons = ls_leaf_exact(w, key(books, b, "had-tons"), ls_printf(w, "tons %s has had", b->name.text),
                                      "ton", 0, LS_BY_LOG, "the haul log");
    if (kept != NULL && sum->unpromised == 0) {
        out->says = kept->promised, out->to_come = kept->owed, out->tons = kept->tons;
    } else if (had + firm > 0) {
        out->to_come =
            loads_line(books, b, "firm", "firm loads to come to %s", firm, LS_BY_SPLIT, "the loads of the plan");
        out->says = LS_SUM(w, key(books, b, "says"), ls_printf(w, "loads promised to %s in all", b->name.text), "load",
                           out->had, out->to_come);
        said_tons(books, b, kept, sum->tons[LS_FIRM], out);
    }
    price_lines(books, b, (long)had, sum->tons[LS_FIRM], out);
}

const ls_buyer_sheet *ls_books_promises(ls_books *books, const ls_plan_sums *sums) {
    size_t n = books->farm->buyers.n;
    ls_buyer_sheet *all = LS_NEW(books->arena, ls_buyer_sheet, n);
    for (size_t i = 0; i < n; i++) {
        const ls_buyer *b = &books->farm->buyers.at[i];
        const ls_promise_kept *kept = ls_promise_kept_of(sums->handed_out, b);
        loads_list loads = loads_of(books->arena, sums->plan, b, kept);
        all[i] = (ls_buyer_sheet){.rows = rows_of(books, &loads, b),
                                  .price = LS_NO_LINE,
                                  .asked = LS_NO_LINE,
                                  .firm_price = LS_NO_LINE,
                                  .firm_worth = LS_NO_LINE,
                                  .firm_gain = LS_NO_LINE,
                                  .firm_loss = LS_NO_LINE,
                                  .had = LS_NO_LINE,
                                  .had_tons = LS_NO_LINE,
                                  .says = LS_NO_LINE,
                                  .to_come = LS_NO_LINE,
                                  .tons = {LS_NO_LINE, LS_NO_LINE, LS_NO_LINE, LS_NO_LINE, LS_NO_LINE, false},
                                  .had_price = LS_NO_LINE,
                                  .come_price = LS_NO_LINE};
        for (size_t k = 0; k < all[i].rows.n; k++) row_lines(books, &loads, b, k, &all[i].rows.at[k]);
        money_lines(books, kept, sums->buyers[i].tons[LS_FIRM], b, &all[i]);
        worth_lines(books, &loads, b, &all[i]);
        slip_lines(books, b, &sums->buyers[i], kept, &all[i]);
    }
    return all;
}
