/* What each buyer is promised, as lines. */
#include "report/plan/sums.h"
#include "promise.h"

static const ls_load *load_at(const ls_plan *p, size_t i) {
    return i < p->loads_n ? &p->loads[i] : &p->out[i - p->loads_n];
}

/* The row a drop belongs to, made if there is none. */
static ls_report_promised *row_of(const ls_view *v, ls_report_promised_list *rows,
                                  const ls_load *load, const ls_drop *drop) {
    for (size_t i = 0; i < rows->n; i++) {
        ls_report_promised *row = &rows->at[i];
        if (row->field == drop->field && row->rate == drop->rate &&
            row->certainty == load->certainty && row->from_stack == load->from_stack)
            return row;
    }
    ls_report_promised *row = LS_PUSH(v->arena, rows);
    *row = (ls_report_promised){.field = drop->field,
                                .analysis = load->lot->analysis,
                                .certainty = load->certainty,
                                .from_stack = load->from_stack,
                                .rate = drop->rate,
                                .tons = LS_NO_LINE,
                                .acres = LS_NO_LINE,
                                .first = LS_NO_DATE,
                                .last = LS_NO_DATE};
    return row;
}

static void count(ls_report_promised *row, const ls_load *load) {
    ls_date day = load->from_stack ? load->from : load->day;
    row->loads++;
    if (row->first == LS_NO_DATE || day < row->first)
        row->first = day;
    if (day > row->last)
        row->last = day;
}

static const char *key(const ls_view *v, const ls_buyer *b, size_t row, const char *what) {
    return ls_words(v->sheet, "promise-to.%s.%zu.%s", b->slug, row + 1, what);
}

typedef LS_LIST(const ls_load *) loads_list;

static loads_list loads_of(const ls_view *v, const ls_plan *p, const ls_buyer *b) {
    loads_list list = {0};
    for (size_t i = 0; i < p->loads_n + p->out_n; i++)
        if (load_at(p, i)->buyer == b)
            *LS_PUSH(v->arena, &list) = load_at(p, i);
    return list;
}

/* Drops of one field in the order of the plan. */
static void field_rows(const ls_view *v, const loads_list *loads, const ls_field *f,
                       ls_certainty certainty, bool from_stack, ls_report_promised_list *rows) {
    for (size_t i = 0; i < loads->n; i++) {
        const ls_load *load = loads->at[i];
        if (load->certainty != certainty || load->from_stack != from_stack)
            continue;
        for (size_t k = 0; k < load->n; k++)
            if (load->drops[k].field == f)
                count(row_of(v, rows, load, &load->drops[k]), load);
    }
}

ls_report_promised_list ls_report_promised_of(const ls_view *v, const ls_plan *p,
                                              const ls_buyer *b) {
    ls_report_promised_list rows = {0};
    loads_list loads = loads_of(v, p, b);
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++)
        for (int stack = 0; stack < 2; stack++)
            for (size_t f = 0; loads.n > 0 && f < b->fields.n; f++)
                field_rows(v, &loads, &b->fields.at[f], c, stack != 0, &rows);
    for (size_t i = 0; i < rows.n; i++) {
        rows.at[i].tons = ls_line_find(v->sheet, key(v, b, i, "tons"));
        rows.at[i].acres = ls_line_find(v->sheet, key(v, b, i, "acres"));
    }
    return rows;
}

/* ---- lines ---- */

static void row_lines(const ls_view *v, const ls_plan *p, const ls_buyer *b, size_t row,
                      const ls_report_promised *is, ls_line *tons, ls_line *acres) {
    size_t n = 0;
    for (size_t i = 0; i < p->loads_n + p->out_n; i++) {
        const ls_load *load = load_at(p, i);
        for (size_t k = 0; k < load->n; k++)
            if (load->drops[k].field == is->field && load->drops[k].rate == is->rate &&
                load->certainty == is->certainty && load->from_stack == is->from_stack)
                tons[n] = load->drops[k].tons, acres[n++] = load->drops[k].acres;
    }
    const char *name = is->field->name.text, *sure = ls_certainty_name(is->certainty);
    ls_sum(v->sheet, key(v, b, row, "tons"), ls_words(v->sheet, "%s tons for %s", sure, name),
           "ton", tons, n);
    ls_sum(v->sheet, key(v, b, row, "acres"), ls_words(v->sheet, "%s acres of %s", sure, name),
           "ac", acres, n);
}

static const char *whole_key(const ls_view *v, const ls_buyer *b, const char *what) {
    return ls_words(v->sheet, "promise-to.%s.%s", b->slug, what);
}

ls_line ls_report_firm_price(const ls_view *v, const ls_buyer *b) {
    return ls_line_find(v->sheet, whole_key(v, b, "firm-price"));
}

ls_line ls_report_firm_worth(const ls_view *v, const ls_buyer *b) {
    return ls_line_find(v->sheet, whole_key(v, b, "firm-worth"));
}

ls_line ls_report_firm_gain(const ls_view *v, const ls_buyer *b) {
    return ls_line_find(v->sheet, whole_key(v, b, "firm-gain"));
}

ls_line ls_report_firm_loss(const ls_view *v, const ls_buyer *b) {
    return ls_line_find(v->sheet, whole_key(v, b, "firm-loss"));
}

/* The plan has made the line if the buyer gets litter. */
ls_line ls_report_price(const ls_view *v, const ls_buyer *b) {
    ls_line of_plan = ls_line_find(v->sheet, ls_words(v->sheet, "plan.buyer.%s.price", b->slug));
    return of_plan != LS_NO_LINE ? of_plan : ls_line_find(v->sheet, whole_key(v, b, "price"));
}

/* What the drop is worth on its field, as the plan has it; LS_NO_LINE: not known. */
static ls_line drop_worth(const ls_view *v, const ls_load *load, size_t k) {
    return ls_line_find(v->sheet,
                        ls_words(v->sheet, "plan.load.%s.%zu.worth", load->ticket, k + 1));
}

/* To the buyer: the fertilizer that the firm loads save on his fields, and that less the price. */
static void worth_lines(const ls_view *v, const ls_plan *p, const ls_buyer *b) {
    size_t n = 0, most = 0;
    loads_list loads = loads_of(v, p, b);
    for (size_t i = 0; i < loads.n; i++)
        most += loads.at[i]->n;
    ls_line *worth = LS_NEW(v->arena, ls_line, most);
    for (size_t i = 0; i < loads.n; i++)
        for (size_t k = 0; loads.at[i]->certainty == LS_FIRM && k < loads.at[i]->n; k++)
            if ((worth[n++] = drop_worth(v, loads.at[i], k)) == LS_NO_LINE)
                return;
    if (n == 0)
        return;
    const char *name = b->name.text;
    ls_line all = ls_sum(v->sheet, whole_key(v, b, "firm-worth"),
                         ls_words(v->sheet, "worth of the firm loads to %s", name), "$", worth, n),
            price = ls_report_firm_price(v, b);
    if (price == LS_NO_LINE)
        return;
    ls_difference(v->sheet, whole_key(v, b, "firm-gain"),
                  ls_words(v->sheet, "that worth to %s less the price", name), "$", all, price);
    ls_difference(v->sheet, whole_key(v, b, "firm-loss"),
                  ls_words(v->sheet, "the price for %s less that worth", name), "$", price, all);
}

static void money_lines(const ls_view *v, const ls_plan *p, const ls_buyer *b) {
    if (LS_GIVEN(b->price) && ls_report_price(v, b) == LS_NO_LINE)
        ls_leaf_given(v->sheet, whole_key(v, b, "price"),
                      ls_words(v->sheet, "price paid by %s", b->name.text), "$/ton", &b->price);
    ls_line tons = ls_report_buyer_tons(v, b, LS_FIRM), price = ls_report_price(v, b);
    if (tons != LS_NO_LINE && price != LS_NO_LINE)
        LS_PRODUCT(v->sheet, whole_key(v, b, "firm-price"),
                   ls_words(v->sheet, "price of the firm loads for %s", b->name.text), "$", tons,
                   price);
    worth_lines(v, p, b);
}

void ls_report_promise_lines(const ls_view *v, const ls_estimate *e, const ls_plan *p) {
    size_t drops = 0;
    for (size_t i = 0; i < p->loads_n + p->out_n; i++)
        drops += load_at(p, i)->n;
    ls_line *tons = LS_NEW(v->arena, ls_line, drops), *acres = LS_NEW(v->arena, ls_line, drops);
    for (size_t i = 0; i < e->farm->buyers.n; i++) {
        const ls_buyer *b = &e->farm->buyers.at[i];
        ls_report_promised_list rows = ls_report_promised_of(v, p, b);
        for (size_t k = 0; k < rows.n; k++)
            row_lines(v, p, b, k, &rows.at[k], tons, acres);
        money_lines(v, p, b);
    }
}
