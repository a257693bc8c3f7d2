/* Tickets as text, a page each. */
#include "report/figure.h"
#include "report/sheet.h"

static const char *head_of(const ls_view *v, const ls_report_ticket *t) {
    ls_report_page p = ls_report_scrap(v);
    const ls_load *load = t->load;
    static const char *const names[] = {"FIRM", "LIKELY", "POSSIBLE"};
    ls_report_ends(&p, ls_arena_printf(v->arena, "TICKET  %s", load->ticket),
                   t->part ? ls_arena_printf(v->arena, "%s, PART LOAD", names[load->certainty])
                           : names[load->certainty]);
    ls_report_ends(&p, t->kind, t->when);
    ls_report_rule(&p);
    return p.text->s;
}

static const ls_report_column content_columns[LS_CONTENT_CELLS] = {
    {"", 36, true}, {"", 9, false}, {"", 9, false}, {"", 9, false}};

static void contents(ls_report_page *p, const ls_report_ticket *t) {
    ls_report_contents rows = ls_report_contents_of(p, t);
    ls_report_blank(p);
    ls_report_say(p, 0, "IN THE LITTER, %s", ls_report_whose(p, t->load->lot->analysis));
    for (size_t i = 0; i < rows.n; i++)
        ls_report_row(p, content_columns, LS_CONTENT_CELLS, rows.at[i].cells);
}

static void drop(ls_report_page *p, const ls_report_ticket *t, size_t k) {
    const ls_report_drop *d = &t->drops[k];
    ls_report_blank(p);
    if (t->n > 1)
        ls_report_say(p, 0, "FIELD %zu of %zu: %s", k + 1, t->n, d->name);
    else
        ls_report_say(p, 0, "FIELD: %s", d->name);
    ls_report_fact_text(p, &(ls_report_fact){"SPREAD", d->spread});
    ls_report_fact_text(p, &(ls_report_fact){"Directions", d->directions});
    ls_report_facts_text(p, &d->facts);
}

/* Blanks share the line behind the label; room to write above each line if there is room on the
 * page. */
static void blanks(ls_report_page *p, const ls_report_ticket *t, bool roomy) {
    ls_report_blank(p);
    ls_report_say(p, 0, "TO FILL IN");
    for (size_t i = 0; ls_report_blanks_at(t, i) != NULL; i++) {
        const ls_report_blanks *b = ls_report_blanks_at(t, i);
        size_t n = 0, words = 0;
        for (; b->blanks[n] != NULL; n++)
            words += ls_text_columns(b->blanks[n]) + 1;
        size_t each = (LS_REPORT_WIDTH - LS_SHEET_LABEL - words - (n - 1)) / n;
        ls_text *line = ls_text_new(p->arena);
        ls_text_left(line, b->label, LS_SHEET_LABEL);
        for (size_t k = 0; k < n; k++) {
            ls_text_addf(line, "%s%s ", k > 0 ? " " : "", b->blanks[k]);
            for (size_t c = 0; c < each; c++)
                ls_text_add(line, "_");
        }
        ls_text_addf(p->text, "%s%s\n", roomy ? "\n" : "", line->s);
    }
}

static const char *body_of(const ls_view *v, const ls_report_ticket *t, bool roomy) {
    ls_report_page p = ls_report_scrap(v);
    if (t->standby != NULL)
        ls_report_say(&p, 0, "%s", t->standby);
    ls_report_facts_text(&p, &t->who);
    for (size_t k = 0; k < t->n; k++)
        drop(&p, t, k);
    if (t->n == 0)
        ls_report_fact_text(&p, &(ls_report_fact){"TO STACK", t->tons});
    contents(&p, t);
    ls_report_blank(&p);
    ls_report_say(&p, 0, "TAKE CARE");
    ls_report_facts care = ls_report_take_care(&p, t);
    ls_report_facts_text(&p, &care);
    blanks(&p, t, roomy);
    ls_report_blank(&p);
    ls_report_say(&p, 0, "%s", ls_report_ticket_end);
    return p.text->s;
}

const char *ls_report_tickets_text(const ls_view *v, const ls_ticket_list *list) {
    ls_text *text = ls_text_new(v->arena);
    ls_report_page p = ls_report_scrap(v);
    for (size_t i = 0; i < list->n; i++) {
        ls_report_ticket t = ls_report_ticket_of(&p, list, list->loads[i]);
        const char *head = head_of(v, &t), *body = body_of(v, &t, true);
        ls_report_sheet(v->arena, text, head,
                        ls_report_fits_sheet(head, body) ? body : body_of(v, &t, false));
    }
    return text->s;
}
