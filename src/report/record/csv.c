#include "littershed/report.h"

static void cell(ls_text *t, const char *s) {
    ls_text_addf(t, ",%s", ls_text_csv(t->arena, s));
}

static void row(const ls_view *v, ls_text *t, const ls_logged *h) {
    const ls_log_entry *e = h->entry;
    ls_text_addf(t, "%ld", e->number);
    cell(t, e->ticket.text);
    cell(t, h->lot);
    cell(t, e->ticket.from_stack ? "stack" : "house");
    cell(t, ls_when_text(v->arena, e->when));
    cell(t, ls_log_tons_text(v->arena, ls_line_value(v->sheet, h->tons)));
    cell(t, e->weighed ? "yes" : "no");
    cell(t, ls_log_share_text(v->arena, e->cleared));
    for (int i = 0; i < LS_LOG_WORDS; i++)
        cell(t, e->words[i]);
    ls_text_add(t, "\r\n");
}

const char *ls_report_record_csv(const ls_view *v, const ls_log_sums *s) {
    ls_text *t = ls_text_new(v->arena);
    ls_text_add(t, "entry,ticket,lot,out_of,when,tons,weighed,cleared");
    for (int i = 0; i < LS_LOG_WORDS; i++)
        cell(t, ls_log_column((ls_log_word)i));
    ls_text_add(t, "\r\n");
    for (size_t i = 0; i < s->n; i++)
        row(v, t, &s->hauled[i]);
    return t->s;
}
