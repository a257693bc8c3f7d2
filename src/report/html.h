/* html: documents to be printed: in themselves complete, no scripts, no links, no network. Private
 * to this room. */
#ifndef REPORT_HTML_H
#define REPORT_HTML_H

#include "report/ticket/ticket.h"

/* An open document on an empty page: title, style; ls_report_html_end closes it and gives its text.
 * title is made safe; style is the program's own. */
ls_report_page ls_report_html_begin(const ls_view *v, const char *title, const char *style);
const char *ls_report_html_end(ls_report_page *p);

/* Text made safe between the tags <element class="..."> and </element>; class NULL: none. */
void ls_report_html_element(ls_report_page *p, const char *element, const char *class,
                            const char *s);

/* Facts as a list of terms; those without a label as a plain list. */
void ls_report_html_facts(ls_report_page *p, const ls_report_facts *facts);

#endif
