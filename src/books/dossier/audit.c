/* The audit: what an inspector asks for, and where it stands. */
#include "room.h"

#include <stdlib.h>

/* Limits passed first, then what is missing and required, cautions, what else is missing, what is
 * there. */
static int rank_of(const ls_dossier_finding *f) {
    if (f->found == LS_MISSING && f->about == LS_ABOUT_LIMIT)
        return f->required ? 0 : 2;
    if (f->found == LS_MISSING)
        return f->required ? 1 : 3;
    return f->found == LS_FOUND ? 4 : 5;
}

static int as_asked(const void *left, const void *right) {
    const ls_dossier_finding *a = left, *b = right;
    if (rank_of(a) != rank_of(b))
        return rank_of(a) - rank_of(b);
    if (a->about != b->about)
        return (int)a->about - (int)b->about;
    return a->order < b->order ? -1 : 1;
}

void ls_dossier_audit(ls_dossier *d) {
    ls_dossier_audit_limits(d);
    ls_dossier_audit_farm(d);
    ls_dossier_audit_transfers(d);
    ls_dossier_audit_fields(d);
    if (d->findings.n > 0)
        qsort(d->findings.at, d->findings.n, sizeof *d->findings.at, as_asked);
}
