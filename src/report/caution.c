#include "caution.h"

void ls_report_caution(ls_report_page *p, const char *name) {
    const ls_row *row = ls_table_row(ls_reference_by_id(p->view->reference, "caution"), name);
    const char *text = ls_row_word(row, "text");
    if (text == NULL)
        ls_fail("the table of cautions has no row %s", name);
    ls_report_item(p, 2, "%s (%s)", text,
                   row->source == NULL ? ls_status_words(LS_PRACTICE) : row->source->who);
}
