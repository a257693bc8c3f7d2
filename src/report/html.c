#include "html.h"

static const char common[] =
    "*{box-sizing:border-box}"
    "html{color:#000;background:#fff;font:9.5pt/1.2 Arial,Helvetica,sans-serif}"
    "body{margin:0}"
    "h1,h2,h3,p,ul,table{margin:0;padding:0}"
    "h1,h2,h3,p,li,td,th{overflow-wrap:anywhere}"
    ".facts p{display:grid;grid-template-columns:5.2em 1fr;gap:0 .4em;break-inside:avoid}"
    "ul{padding-left:1em}"
    "table{border-collapse:collapse;width:100%}"
    "th,td{text-align:right;padding:0 0 0 .6em;font-weight:normal;vertical-align:top}"
    "th:first-child,td:first-child{text-align:left;padding-left:0}"
    "td,thead th{overflow-wrap:normal}td{white-space:nowrap}"
    "thead th,thead td{font-weight:bold;border-bottom:1px solid #000}"
    ".blank{flex:1;border-bottom:1px solid #000}"
    "@media screen{body{max-width:7.7in;margin:1em auto;padding:0 1em}}"
    "@media(max-width:40rem){h1{font-size:14pt}th,td{padding-left:.4em}table{font-size:8.5pt}}";

ls_report_page ls_report_html_begin(const ls_view *v, const char *title, const char *style) {
    ls_report_page p = {v, v->arena, ls_text_new(v->arena)};
    ls_text_addf(p.text,
                 "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                 "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                 "<title>%s</title>\n<style>%s%s</style>\n</head>\n<body>\n<main>\n",
                 ls_text_html(v->arena, title), common, style);
    return p;
}

const char *ls_report_html_end(ls_report_page *p) {
    ls_text_add(p->text, "</main>\n</body>\n</html>\n");
    return p->text->s;
}

void ls_report_html_element(ls_report_page *p, const char *element, const char *class,
                            const char *s) {
    ls_text_addf(p->text, "<%s", element);
    if (class != NULL)
        ls_text_addf(p->text, " class=\"%s\"", class);
    ls_text_addf(p->text, ">%s</%s>\n", ls_text_html(p->arena, s), element);
}

void ls_report_html_facts(ls_report_page *p, const ls_report_facts *facts) {
    if (facts->n == 0)
        return;
    bool list = facts->at[0].label == NULL;
    ls_text_add(p->text, list ? "<ul>\n" : "<div class=\"facts\">\n");
    for (size_t i = 0; i < facts->n; i++)
        if (list)
            ls_report_html_element(p, "li", NULL, facts->at[i].words);
        else
            ls_text_addf(p->text, "<p><b>%s</b> <span>%s</span></p>\n",
                         ls_text_html(p->arena, facts->at[i].label),
                         ls_text_html(p->arena, facts->at[i].words));
    ls_text_add(p->text, list ? "</ul>\n" : "</div>\n");
}
