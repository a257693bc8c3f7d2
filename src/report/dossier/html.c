/* The dossier as one document: prints on letter paper, reads on a phone. */
#include "paper.h"
#include "report/quarantine.h"

static const char style[] =
    "*{box-sizing:border-box}"
    "html{color:#111;background:#fff;font:16px/1.4 Arial,Helvetica,sans-serif}"
    "body{margin:0}main{max-width:60rem;margin:0 auto;padding:1rem}"
    "h1{font-size:1.6rem;line-height:1.2;margin:.2em 0}"
    "h2{font-size:1.3rem;border-bottom:2px solid #111;margin:2rem 0 .6rem}"
    "h3{font-size:1.08rem;margin:1.4rem 0 .4rem}"
    "h1,h2,h3,p,li,td,th,caption,figcaption{overflow-wrap:anywhere}"
    "p{margin:.4rem 0}ul{margin:.4rem 0;padding-left:1.2rem}"
    "a{color:#12395f;text-decoration:underline dotted}"
    "nav ul{list-style:none;padding:0;display:flex;flex-wrap:wrap;gap:.2rem 1rem}"
    "table{border-collapse:collapse;width:100%;margin:.6rem 0 1rem}"
    "caption{text-align:left;font-weight:bold;padding:.2rem 0}"
    "th,td{text-align:left;vertical-align:top;padding:.25rem .6rem .25rem 0;font-weight:normal;"
    "border-bottom:1px solid #767676}"
    "thead th{font-weight:bold;border-bottom:2px solid #111}"
    ".n{text-align:right;white-space:nowrap}.d{white-space:nowrap}"
    ".two{width:auto;min-width:min(26rem,100%)}.two tbody th{min-width:7rem}"
    ".wide th,.wide td{min-width:5.5rem}"
    "figure{margin:.8rem 0 "
    "1.2rem}svg{font-size:13px;display:block;width:100%;max-width:32rem;height:auto}"
    "figcaption{font-size:.9rem}"
    ".sheet{font-size:.85rem;padding-left:3rem}.sheet li{margin:.3rem 0}.sheet code{font-size:1em}"
    "@media(max-width:45rem){.wide thead{position:absolute;left:-9999px}"
    ".wide,.wide caption,.wide tbody,.wide tr,.wide td,.wide tbody th{display:block;width:100%}"
    ".wide tr{border-bottom:2px solid #111;padding:.4rem 0}"
    ".wide td,.wide tbody th{min-width:0;border:0;padding:.1rem "
    "0;text-align:left;white-space:normal}"
    ".wide tbody th{font-weight:bold}"
    ".wide td::before{content:attr(data-head)\": \";font-weight:bold}}"
    "@page{size:letter portrait;margin:.6in}"
    "@media print{html{font-size:9.5pt}main{padding:0;max-width:none}nav{display:none}"
    "#audit,#fields,#worksheet{break-before:page}tr,figure,li,.short{break-inside:avoid}"
    ".sheet{columns:2;column-gap:1.5rem;font-size:8pt;line-height:1.25;padding-left:2.2rem}"
    ".sheet li{margin:.15rem 0}"
    "h2,h3,caption{break-after:avoid}thead{display:table-header-group}"
    "a{color:#111;text-decoration:none}"
    "a[data-line]::after{content:attr(data-line);font-size:6.5pt;vertical-align:super;line-height:"
    "0;"
    "margin-left:2pt}}";

static void contents(ls_text *t) {
    static const char *const chapters[][2] = {{"summary", "Summary"}, {"audit", "Audit"},
                                              {"litter", "Litter"},   {"fields", "Fields"},
                                              {"loads", "Loads"},     {"worksheet", "Worksheet"}};
    ls_text_add(t, "<nav aria-label=\"Chapters\"><ul>\n");
    for (size_t i = 0; i < sizeof chapters / sizeof *chapters; i++)
        ls_text_addf(t, "<li><a href=\"#%s\">%s</a></li>\n", chapters[i][0], chapters[i][1]);
    ls_text_add(t, "</ul></nav>\n");
}

static void quarantine(const ls_view *v, ls_text *t) {
    const ls_report_quarantine *q = ls_report_quarantine_of(v);
    if (q != NULL)
        ls_text_addf(t, "<h2 id=\"quarantine\">%s</h2>\n<p>%s (%s)</p>\n<p><b>%s</b></p>\n",
                     q->heading, ls_text_html(v->arena, q->caution), ls_text_html(v->arena, q->who),
                     q->order);
}

static void entry(const ls_view *v, ls_text *t, ls_line line, const size_t *number) {
    const ls_entry *e = ls_line_at(v->sheet, line);
    ls_report_page page = {v, v->arena, t};
    ls_arena *a = v->arena;
    ls_text_addf(t, "<li id=\"w%zu\"><code>%s</code>: %s, <b>%s</b>", number[line],
                 ls_text_html(a, e->key), ls_text_html(a, e->label),
                 ls_text_html(a, ls_report_whole(&page, e->value, e->unit)));
    if (e->op == LS_OP_LEAF)
        ls_text_addf(t, "<br>from: %s",
                     ls_text_html(a, ls_line_origin(a, v->sheet, line, v->farm->diag)));
    else
        ls_text_addf(t, "<br>= %s = %s, of", ls_text_html(a, ls_line_formula(a, v->sheet, line)),
                     ls_text_html(a, ls_line_numbers(a, v->sheet, line)));
    for (size_t k = 0; k < e->n; k++)
        ls_text_addf(t, " <a href=\"#w%zu\">%zu</a>", number[e->in[k]], number[e->in[k]]);
    ls_text_add(t, "</li>\n");
}

static void worksheet(const ls_view *v, ls_text *t, const size_t *number) {
    ls_text_add(t, "<h2 id=\"worksheet\">Worksheet</h2>\n<p>Every figure above links to its line "
                   "(on paper: the small number behind it); a line names those it is made "
                   "of.</p>\n<ol class=\"sheet\">\n");
    for (size_t i = 0; i < ls_worksheet_lines(v->sheet); i++)
        if (number[i] > 0)
            entry(v, t, (ls_line)i, number);
    ls_text_add(t, "</ol>\n");
}

const char *ls_report_dossier_html(const ls_view *v, const ls_dossier *d) {
    ls_paper *paper = ls_dossier_paper(v, d, true);
    bool *used = ls_paper_used(paper);
    size_t *number = LS_NEW(v->arena, size_t, ls_worksheet_lines(v->sheet)), n = 0;
    for (size_t i = 0; i < ls_worksheet_lines(v->sheet); i++)
        number[i] = used[i] ? ++n : 0;
    const ls_farm_facts *facts = v->farm->facts;
    const char *name = ls_text_html(
        v->arena, facts != NULL && facts->name.text != NULL ? facts->name.text : "a farm");
    ls_text *t = ls_text_new(v->arena);
    ls_text_addf(t,
                 "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                 "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                 "<title>Litter dossier of %s</title>\n<style>%s</style>\n</head>\n<body>\n"
                 "<main>\n<h1>Litter dossier of %s</h1>\n",
                 name, style, name);
    quarantine(v, t);
    contents(t);
    ls_paper_html(paper, t, number);
    worksheet(v, t, number);
    ls_text_add(t, "<p>Planning figures. Your local code and the licensed plan writer decide what "
                   "may be done.</p>\n</main>\n</body>\n</html>\n");
    return t->s;
}
