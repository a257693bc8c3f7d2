/* Litter on its way, of all files, as lines: out of the houses, through the stack, to fields; and
 * how long it lay in the stack. */
#include "room.h"

static ls_line tons_of(const ls_dossier *d, const ls_dossier_piece *x) {
    const ls_hauled *h = &ls_dossier_farm(d, x->log)->hauled.at[x->load];
    if (!x->split)
        return ls_dossier_tons(d, x->log, x->load, h->n > 0 ? x->part : LS_DOSSIER_WHOLE);
    ls_worksheet *w = d->books->sheet;
    return ls_leaf_exact(w,
                         ls_printf(w, "dossier.stack.file-%zu.load-%zu.part-%zu.%zu", x->log,
                                   x->load + 1, x->part + 1, x->n + 1),
                         "part of a load out of the stack", "ton", x->mass, LS_BY_LOG, h->entry);
}

/* Longer than what was told before? */
static void consider(ls_dossier_stack *s, ls_date in, ls_date out) {
    if (in != LS_NO_DATE && (s->first == LS_NO_DATE || out - in > s->last - s->first))
        s->first = in, s->last = out;
}

static ls_date newest_day(const ls_dossier *d) {
    ls_date now = d->printed;
    for (size_t i = 0; i < d->loads.n; i++)
        if (now == LS_NO_DATE || d->loads.at[i].hauled->day > now)
            now = d->loads.at[i].hauled->day;
    return now;
}

/* What each part of this file's loads holds: its pieces stand one behind the other. */
static void fill_drops(ls_dossier *d) {
    ls_dossier_load **of = LS_NEW(d->arena, ls_dossier_load *, d->farm->hauled.n);
    for (size_t i = 0; i < d->loads.n; i++)
        of[d->loads.at[i].hauled - d->farm->hauled.at] = &d->loads.at[i];
    for (size_t i = d->pieces.n; i-- > 0;) {
        const ls_dossier_piece *piece = &d->pieces.at[i];
        ls_dossier_load *load = piece->log == 0 ? of[piece->load] : NULL;
        if (load == NULL || load->n == 0)
            continue;
        load->drops[piece->part].litter = piece;
        load->drops[piece->part].litters++;
    }
}

void ls_dossier_make_stack(ls_dossier *d) {
    ls_dossier_stack *s = &d->stack;
    ls_litters litters = ls_books_litters(d->books);
    *s = (ls_dossier_stack){LS_NO_LINE, LS_NO_DATE, LS_NO_DATE, LS_NO_DATE, litters.lying.n == 0};
    for (size_t i = 0; i < litters.all.n; i++) {
        ls_dossier_piece *x = LS_PUSH(d->arena, &d->pieces);
        *x = litters.all.at[i];
        x->tons = tons_of(d, x);
        consider(s, x->in, x->day);
        if (x->from_stack && x->day > s->emptied)
            s->emptied = x->day;
    }
    fill_drops(d);
    for (size_t i = 0; i < litters.lying.n; i++)
        consider(s, litters.lying.at[i].day, newest_day(d));
    if (!s->empty)
        s->emptied = newest_day(d);
    if (s->first == LS_NO_DATE)
        return;
    ls_worksheet *w = d->books->sheet;
    s->days =
        ls_leaf_exact(w, "dossier.stack-days", "longest that litter of a lot lay in the stack",
                      "day", (double)(s->last - s->first) * ls_unit_of("day").factor, LS_BY_LOG,
                      ls_printf(w, "%s to %s", ls_date_words(d->arena, s->first, 0),
                                ls_date_words(d->arena, s->last, 0)));
}
