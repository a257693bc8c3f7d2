/* The audit: what an inspector asks for, and where it stands. */
#include "room.h"

#include <stdlib.h>

/* Limits passed first, then what is missing and required, cautions, notes, what else is missing, what is there. */
static int rank_of(const ls_dossier_finding *f) {
    static const int ranks[LS_FINDING_STATES] = {0, 2, 3, 4, 5, 6};
    return f->state == LS_MISSING && f->required ? 1 : ranks[f->state];
}

static int as_asked(const void *left, const void *right) {
    const ls_dossier_finding *a = left, *b = right;
    if (rank_of(a) != rank_of(b)) return rank_of(a) - rank_of(b);
    if (a->about != b->about) return (int)a->about - (int)b->about;
    return a->order < b->order ? -1 : 1;
}

void ls_dossier_audit(ls_dossier *d) {
    ls_dossier_audit_limits(d);
    ls_dossier_audit_days(d);
    ls_dossier_audit_farm(d);
    ls_dossier_audit_transfers(d);
    ls_dossier_audit_fields(d);
    if (d->findings.n > 0) qsort(d->findings.at, d->findings.n, sizeof *d->findings.at, as_asked);
}
