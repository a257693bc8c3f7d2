/* The sheet of dead birds: how many by the files, and what becomes of them. */
#include "chapters.h"

LS_DOC_COLUMNS(flock_columns, WORDS("house", "house"), WORDS("birds", "birds"), WORDS("placed", "placed"),
               WORDS("removed", "removed"), NUMBER("flocks", "flocks alike"),
               IN("placed_birds", "placed in all", "bird"), IN("lost_birds", "lost", "bird"));

void ls_report_dossier_mortality(ls_doc_group *top, const ls_dossier *d) {
    static const ls_mortality untold;
    const ls_mortality *m = ls_dossier_facts(d)->mortality;
    m = m != NULL ? m : &untold;
    ls_doc_group *g = ls_doc_object(top, LS_FULL, "mortality", NULL);
    MEMBERS(g, {"method", W(m->method.text)}, {"place", W(m->place.text)}, {"by", W(m->by.text)},
            {"permit", W(m->permit.text)}, {"record", W(m->record.text)});
    if (m->method.text != NULL)
        SAY(g, LS_FULL, "{}; where: {}; taken by: {}; permit: {}; daily count kept: {}.", W(m->method.text),
            W(m->place.text), W(m->by.text), W(m->permit.text), W(m->record.text));
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "flocks", "Birds lost over the stay, by the farm file", flock_columns);
    bool told = true;
    LS_EACH (const ls_dossier_flock, x, d->flocks) {
        told = told && x->lost != LS_NO_LINE;
        LS_DOC_ROW(t, flock_columns, W(x->house->name.text), W(ls_bird_name(x->flock->birds.is)),
                   GIVEN_DAY(x->flock->placed), GIVEN_DAY(x->flock->removed), N(ls_flock_times(x->flock)), L(x->placed),
                   L(x->lost));
    }
    ls_dossier_put_caution(g, "carcasses");
    SAY(g, LS_FULL, "Your local code says how dead birds may be disposed of.");
    t = ls_dossier_put_missing(g);
    ls_dossier_missing(t, m->method.text != NULL, "what is done with dead birds", "farm",
                       "mortality: {method: composted in bins, place: behind the house South, "
                       "record: house sheets}");
    ls_dossier_missing(t, m->method.text == NULL || m->record.text != NULL, "where the daily count is kept",
                       "mortality, under farm", "record: house sheets");
    ls_dossier_missing(t, told, "birds lost", "the flock", "lost: 8.5 %");
}
