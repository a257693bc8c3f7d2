#include "caution.h"

ls_report_caution ls_report_caution_of(const ls_view *v, const char *name) {
    const ls_row *row = ls_table_row(ls_reference_by_id(v->reference, "caution"), name);
    const char *text = ls_row_word(row, "text");
    if (text == NULL)
        ls_fail("the table of cautions has no row %s", name);
    const char *practice = ls_status_words(LS_PRACTICE);
    return (ls_report_caution){text, ls_row_word(row, "driver"),
                               row->source == NULL ? practice : row->source->who,
                               row->source == NULL ? practice : row->source->id};
}

const ls_report_quarantine *ls_report_quarantine_of(const ls_view *v) {
    if (!ls_farm_is_quarantined(v->farm))
        return NULL;
    ls_report_quarantine *q = LS_NEW(v->arena, ls_report_quarantine, 1);
    *q = (ls_report_quarantine){
        .heading = "QUARANTINE: NOTHING MAY LEAVE THE FARM",
        .order = "All figures are for planning only: no load may be hauled until the order is "
                 "lifted or a permit allows it.",
        .caution = ls_report_caution_of(v, "avian_influenza"),
    };
    return q;
}
