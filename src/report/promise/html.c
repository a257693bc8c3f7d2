/* Promise slips as a document to be printed, a page each. */
#include "report/html.h"
#include "promise.h"

static const char style[] = "@page{size:letter portrait;margin:.6in .7in}"
                            "html{font-size:11pt}"
                            ".slip{break-after:page}"
                            ".slip:last-of-type{break-after:auto}"
                            "th:nth-child(2),td:nth-child(2){text-align:left}"
                            "h2{font-size:17pt;border-bottom:2px solid #000;margin-bottom:.1in}"
                            "h3{font-size:11pt;margin:.2in 0 .05in}"
                            ".terms{margin-top:.25in}"
                            ".facts{gap:.05in .5em}"
                            ".sign{margin-top:.5in;display:flex;gap:1em}"
                            ".sign .blank{flex:1}"
                            ".decide{font-size:9pt;margin-top:.4in}"
                            "@media print{h1{display:none}}";

static void part(ls_report_page *p, const ls_report_promise_part *is) {
    if (is->below == NULL)
        return;
    const char *heads[LS_PROMISE_CELLS];
    ls_report_promise_heads(p, heads);
    ls_report_html_element(p, "h3", NULL, is->heading);
    if (is->rows.n > 0) {
        ls_text_add(p->text, "<table>\n<thead>\n<tr>");
        for (size_t i = 0; i < LS_PROMISE_CELLS; i++)
            ls_text_addf(p->text, "<th scope=\"col\">%s</th>", ls_text_html(p->arena, heads[i]));
        ls_text_add(p->text, "</tr>\n</thead>\n<tbody>\n");
        for (size_t i = 0; i < is->rows.n; i++) {
            const char *const *cells = is->rows.at[i].cells;
            ls_text_addf(p->text, "<tr><th scope=\"row\">%s</th>",
                         ls_text_html(p->arena, cells[0]));
            for (size_t k = 1; k < LS_PROMISE_CELLS; k++)
                ls_text_addf(p->text, "<td>%s</td>", ls_text_html(p->arena, cells[k]));
            ls_text_add(p->text, "</tr>\n");
        }
        ls_text_add(p->text, "</tbody>\n</table>\n");
    }
    ls_report_html_element(p, "p", NULL, is->below);
}

static void sign(ls_report_page *p, const char *who) {
    ls_text_addf(
        p->text,
        "<p class=\"sign\"><span>%s</span><span class=\"blank\">&nbsp;</span><span>date</span>"
        "<span class=\"blank\">&nbsp;</span></p>\n",
        who);
}

static void slip(ls_report_page *p, const ls_report_promise *s, size_t number) {
    ls_text_addf(p->text,
                 "<section class=\"slip\" aria-labelledby=\"s%zu\">\n<h2 id=\"s%zu\">%s</h2>\n",
                 number, number, "Promise slip: litter");
    ls_report_html_element(p, "p", NULL,
                           ls_arena_printf(p->arena, "From %s", ls_report_farm_words(p)));
    ls_report_html_facts(p, &s->who);
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++)
        part(p, &s->parts[c]);
    ls_text_add(p->text, "<div class=\"terms\">\n");
    ls_report_html_facts(p, &s->terms);
    ls_text_add(p->text, "</div>\n");
    if (s->parts[LS_FIRM].rows.n > 0) {
        sign(p, "For the farm");
        sign(p, "For the buyer");
    }
    ls_report_html_element(p, "p", "decide", ls_report_decide);
    ls_text_add(p->text, "</section>\n");
}

const char *ls_report_promises_html(const ls_view *v, const ls_tickets *t, const char *buyer) {
    const ls_farm *farm = t->sums->estimate->farm;
    ls_report_page p = ls_report_html_begin(v, "Litter promise slips", style);
    ls_report_html_element(
        &p, "h1", NULL, ls_arena_printf(v->arena, "Promise slips of %s", ls_report_farm_words(&p)));
    for (size_t i = 0; i < farm->buyers.n; i++) {
        const ls_buyer *b = &farm->buyers.at[i];
        if (buyer != NULL && !ls_text_same(buyer, b->name.text))
            continue;
        ls_report_promise s = ls_report_promise_of(&p, t, b);
        slip(&p, &s, i + 1);
    }
    return ls_report_html_end(&p);
}
