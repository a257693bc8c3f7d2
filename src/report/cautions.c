/* Cautions, and notes of the haul log, as several pages tell them. */
#include "put.h"

LS_DOC_COLUMNS(caution_columns, DATA("id"), WORDS("text", NULL),
               {.key = "source", .level = LS_FULL});

void ls_report_put_cautions(ls_doc_group *g, const ls_cautions *list, size_t first) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "cautions", "TAKE CARE", caution_columns);
    ls_doc_as_items(t);
    for (size_t i = 0; i < list->n; i++)
        LS_DOC_GRID_ROW(t, caution_columns, i < first ? LS_FIRST : LS_FULL, NULL, W(list->at[i].id),
                        W(list->at[i].text), W(list->at[i].source));
}

void ls_report_put_log(ls_doc_group *top) {
    const ls_log_notes *notes = &top->document->view->log_notes;
    ls_doc_texts(top, LS_FIRST, "log_notes", "HAUL LOG", notes->at, notes->n);
}

const char *ls_report_named(ls_arena *a, const ls_report_list *list) {
    enum { MOST_NAMED = 3 };
    ls_text *t = ls_text_new(a);
    size_t shown = list->n > MOST_NAMED + 1 ? MOST_NAMED : list->n;
    for (size_t i = 0; i < shown; i++) ls_text_addf(t, "%s%s", i > 0 ? ", " : "", list->at[i]);
    if (shown < list->n) ls_text_addf(t, " and %zu more", list->n - shown);
    return t->s;
}
