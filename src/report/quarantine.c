#include "quarantine.h"

const ls_report_quarantine *ls_report_quarantine_of(const ls_view *v) {
    if (!ls_farm_is_quarantined(v->farm))
        return NULL;
    const ls_row *row =
        ls_table_row(ls_reference_table(v->reference, "caution", ""), "avian_influenza");
    ls_report_quarantine *q = LS_NEW(v->arena, ls_report_quarantine, 1);
    *q = (ls_report_quarantine){
        .heading = "QUARANTINE: NOTHING MAY LEAVE THE FARM",
        .order = "All figures are for planning only: no load may be hauled until the order is "
                 "lifted or a permit allows it.",
        .caution = ls_row_word(row, "text"),
        .who = row->source->who,
    };
    return q;
}
