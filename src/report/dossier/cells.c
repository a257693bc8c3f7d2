/* Cells that several chapters have. */
#include "chapters.h"

#include "report/put.h"

ls_doc_cell ls_dossier_day_of(const ls_day *at) {
    return DAY(LS_GIVEN(*at) ? at->day : LS_NO_DATE);
}

ls_doc_cell ls_dossier_word(const ls_dossier_load *l, ls_log_word which) {
    bool said = l->entry != NULL && l->entry->words[which][0] != '\0';
    return W(said ? l->entry->words[which] : NULL);
}
