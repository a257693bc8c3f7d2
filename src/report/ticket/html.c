/* Tickets as a document to be printed, two to a letter page. */
#include "report/figure.h"
#include "report/html.h"

/* A ticket takes at least half a page (10.4 in) and is never broken: two to a page, and one that
 * needs more than half stands whole on a page of its own. */
static const char style[] =
    "@page{size:letter portrait;margin:.3in .4in}"
    ".ticket{min-height:5.17in;padding:.06in 0;break-inside:avoid;display:flex;"
    "flex-direction:column;border-bottom:1px dashed #000}"
    "header{display:grid;grid-template-columns:1fr auto;gap:0 1em;border-bottom:2px solid #000;"
    "margin-bottom:.05in}"
    "header h2,.sure{font-size:16pt;line-height:1.1;font-weight:bold}"
    ".sure,.when{text-align:right}"
    ".sure{text-transform:uppercase}"
    ".kind,.when{font-weight:bold;font-size:10.5pt}"
    ".standby{border:2px solid #000;padding:.01in .06in;margin-bottom:.04in;font-weight:bold}"
    ".facts{columns:2;column-gap:.2in;font-size:8.7pt;line-height:1.08}"
    ".field{font-size:13.5pt;margin:.04in 0 .01in;border-top:1px solid #000;padding-top:.03in}"
    ".way{font-size:10.5pt}"
    ".litter{display:grid;grid-template-columns:2.75in 1fr;gap:.25in;margin:.04in 0;"
    "font-size:8.5pt}"
    "h3{font-size:9.5pt;line-height:1.1;border-bottom:1px solid #000;margin-bottom:.02in}"
    ".care ul{font-size:7.5pt;line-height:1.12}"
    ".fill{margin-top:auto;font-size:9pt}"
    ".fill p{display:flex;gap:.8em;align-items:flex-end;height:.21in}"
    ".fill b{flex:0 0 5.6em}"
    ".fill span{flex:1;display:flex;gap:.3em;align-items:flex-end;white-space:nowrap}"
    ".fill .decide{display:block;height:auto;font-size:7.5pt;margin-top:.02in}"
    "@media(max-width:40rem){html{font-size:11pt}header,.litter{display:block}.facts{columns:1;"
    "font-size:11pt}.sure,.when{text-align:left}header h2{white-space:nowrap}"
    ".care ul{font-size:11pt;line-height:1.25}.fill p{flex-wrap:wrap;height:auto;margin:.4em 0}"
    ".fill span{flex:1 0 40%}}"
    "@media print{h1{display:none}}";

static void head(ls_report_page *p, const ls_report_ticket *t, size_t number) {
    ls_text_addf(p->text, "<section class=\"ticket\" aria-labelledby=\"t%zu\">\n<header>\n",
                 number);
    ls_text_addf(p->text, "<h2 id=\"t%zu\">%s</h2>\n", number,
                 ls_text_html(p->arena, t->load->ticket));
    ls_report_html_element(p, "p", "sure",
                           ls_arena_printf(p->arena, "%s%s", ls_certainty_name(t->load->certainty),
                                           t->part ? ", part load" : ""));
    ls_report_html_element(p, "p", "kind", t->kind);
    ls_report_html_element(p, "p", "when", t->when);
    ls_text_add(p->text, "</header>\n");
    if (t->standby != NULL)
        ls_report_html_element(p, "p", "standby", t->standby);
}

static void drops(ls_report_page *p, const ls_report_ticket *t) {
    for (size_t k = 0; k < t->n; k++) {
        const ls_report_drop *d = &t->drops[k];
        const char *of = t->n == 1 ? "" : ls_arena_printf(p->arena, " %zu of %zu", k + 1, t->n);
        ls_report_html_element(
            p, "h3", "field", ls_arena_printf(p->arena, "Field%s: %s: %s", of, d->name, d->spread));
        ls_report_html_element(p, "p", "way",
                               ls_arena_printf(p->arena, "Directions: %s", d->directions));
        ls_report_html_facts(p, &d->facts);
    }
    if (t->n == 0)
        ls_report_html_element(p, "h3", "field",
                               ls_arena_printf(p->arena, "To the stack: %s", t->tons));
}

static void contents(ls_report_page *p, const ls_report_ticket *t) {
    ls_report_contents rows = ls_report_contents_of(p, t);
    ls_report_html_element(p, "h3", NULL, "In the litter");
    ls_text_add(p->text, "<table>\n<thead>\n");
    for (size_t i = 0; i < rows.n; i++) {
        const char *first = ls_text_html(p->arena, rows.at[i].cells[0]);
        ls_text_addf(p->text, i == 0 ? "<tr><td>%s</td>" : "<tr><th scope=\"row\">%s</th>", first);
        for (size_t k = 1; k < LS_CONTENT_CELLS; k++)
            ls_text_addf(p->text, i == 0 ? "<th scope=\"col\">%s</th>" : "<td>%s</td>",
                         ls_text_html(p->arena, rows.at[i].cells[k]));
        ls_text_add(p->text, i == 0 ? "</tr>\n</thead>\n<tbody>\n" : "</tr>\n");
    }
    ls_text_add(p->text, "</tbody>\n</table>\n");
    ls_report_html_element(p, "p", NULL, ls_report_whose(p, t->load->lot->analysis));
}

static void blanks(ls_report_page *p, const ls_report_ticket *t) {
    ls_text_add(p->text, "<div class=\"fill\" role=\"group\" aria-label=\"To fill in\">\n");
    for (size_t i = 0; ls_report_blanks_at(t, i) != NULL; i++) {
        const ls_report_blanks *b = ls_report_blanks_at(t, i);
        ls_text_addf(p->text, "<p><b>%s</b>", ls_text_html(p->arena, b->label));
        for (size_t k = 0; b->blanks[k] != NULL; k++)
            ls_text_addf(p->text, "<span>%s<span class=\"blank\">&nbsp;</span></span>",
                         ls_text_html(p->arena, b->blanks[k]));
        ls_text_add(p->text, "</p>\n");
    }
    ls_report_html_element(p, "p", "decide", ls_report_ticket_end);
    ls_text_add(p->text, "</div>\n");
}

static void ticket(ls_report_page *p, const ls_report_ticket *t, size_t number) {
    head(p, t, number);
    ls_report_html_facts(p, &t->who);
    drops(p, t);
    ls_text_add(p->text, "<div class=\"litter\">\n<div>\n");
    contents(p, t);
    ls_text_add(p->text, "</div>\n<div class=\"care\">\n<h3>Take care</h3>\n");
    ls_report_facts care = ls_report_take_care(p, t);
    ls_report_html_facts(p, &care);
    ls_text_add(p->text, "</div>\n</div>\n");
    blanks(p, t);
    ls_text_add(p->text, "</section>\n");
}

const char *ls_report_tickets_html(const ls_view *v, const ls_ticket_list *list) {
    ls_report_page p = ls_report_html_begin(v, "Litter tickets", style);
    ls_report_html_element(
        &p, "h1", NULL,
        ls_arena_printf(v->arena, "Litter tickets of %s", ls_report_farm_words(&p)));
    for (size_t i = 0; i < list->n; i++) {
        ls_report_ticket t = ls_report_ticket_of(&p, list, list->loads[i]);
        ticket(&p, &t, i + 1);
    }
    return ls_report_html_end(&p);
}
