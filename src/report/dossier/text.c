#include "paper.h"

ls_paper *ls_dossier_paper(const ls_view *v, const ls_dossier *d, bool charts) {
    ls_paper *p = ls_paper_new(v);
    ls_dossier_summary(p, d);
    if (charts && ls_dossier_chart_ways(v, d) != NULL)
        ls_paper_chart(p, "Tons by way.", ls_dossier_chart_ways(v, d));
    ls_dossier_audit_pages(p, d);
    ls_dossier_litter_pages(p, d, charts);
    ls_dossier_field_pages(p, d, charts);
    ls_dossier_load_pages(p, d, charts);
    return p;
}

/* The worksheet: every line shown, and all it is made of. */
static void appendix(const ls_paper *paper, ls_report_page *page) {
    const ls_view *v = page->view;
    bool *used = ls_paper_used(paper);
    size_t number = 0;
    ls_report_heading(page, "Worksheet");
    for (size_t i = 0; i < ls_worksheet_lines(v->sheet); i++) {
        if (!used[i])
            continue;
        const ls_entry *e = ls_line_at(v->sheet, (ls_line)i);
        ls_report_say(page, 0, "%zu. %s: %s, %s", ++number, e->key, e->label,
                      ls_report_whole(page, e->value, e->unit));
        if (e->op == LS_OP_LEAF)
            ls_report_say(page, 4, "from: %s",
                          ls_line_origin(page->arena, v->sheet, (ls_line)i, v->farm->diag));
        else
            ls_report_say(page, 4, "= %s = %s", ls_line_formula(page->arena, v->sheet, (ls_line)i),
                          ls_line_numbers(page->arena, v->sheet, (ls_line)i));
    }
}

const char *ls_report_dossier_text(const ls_view *v, const ls_dossier *d) {
    ls_report_page *page = ls_report_begin(v, "Dossier: where every ton of litter went");
    ls_paper *paper = ls_dossier_paper(v, d, false);
    ls_paper_text(paper, page);
    appendix(paper, page);
    return ls_report_end(page);
}
