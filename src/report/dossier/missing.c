/* What a sheet lacks, with the line to paste; cautions of the tables. */
#include "chapters.h"

LS_DOC_COLUMNS(missing_columns, DATA("missing"), DATA("under"), DATA("line"));

ls_doc_table ls_dossier_put_missing(ls_doc_group *sheet) {
    return LS_DOC_TABLE_IN(sheet, LS_DATA, "missing", NULL, missing_columns);
}

void ls_dossier_missing(ls_doc_table t, bool given, const char *what, const char *under,
                        const char *line) {
    if (given) return;
    LS_DOC_ROW(t, missing_columns, W(what), W(under), W(line));
    ITEM(t.group, LS_FULL, "Missing: {}. Write under {}: \"{}\" (your own).", W(what), W(under),
         W(line));
}

void ls_dossier_put_caution(ls_doc_group *sheet, const char *row) {
    const ls_reference *r = sheet->document->view->reference;
    SAY(sheet, LS_FULL, "{}",
        W(ls_row_word(ls_table_row(ls_reference_by_id(r, "caution"), row), "text")));
}
