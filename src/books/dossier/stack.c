/* Litter on its way, of all files, as lines: out of the houses, through the stack, to fields; and
 * how long it lay in the stack. */
#include "room.h"

#include <stdlib.h>

static ls_line tons_of(const ls_dossier *d, const ls_dossier_piece *x) {
    const ls_hauled *h = &ls_dossier_farm(d, x->log)->hauled.at[x->load];
    if (!x->split) return ls_dossier_tons(d, x->log, x->load, h->n > 0 ? x->part : LS_DOSSIER_WHOLE);
    ls_worksheet *w = d->sheet;
    return ls_leaf_exact(
        w, ls_printf(w, "stack.file-%zu.load-%zu.part-%zu.%zu", x->log, x->load + 1, x->part + 1, x->n + 1),
        "part of a load out of the stack", "ton", x->mass, LS_BY_LOG, h->entry);
}

static ls_date newest_day(const ls_dossier *d) {
    ls_date now = d->printed;
    for (size_t i = 0; i < d->loads.n; i++)
        if (now == LS_NO_DATE || d->loads.at[i].hauled->day > now) now = d->loads.at[i].hauled->day;
    return now;
}

/* What each part of this file's loads holds: its pieces stand one behind the other. */
static void fill_drops(ls_dossier *d) {
    ls_dossier_load **of = LS_NEW(d->arena, ls_dossier_load *, d->farm->hauled.n);
    for (size_t i = 0; i < d->loads.n; i++) of[d->loads.at[i].hauled - d->farm->hauled.at] = &d->loads.at[i];
    for (size_t i = d->pieces.n; i-- > 0;) {
        const ls_dossier_piece *piece = &d->pieces.at[i];
        ls_dossier_load *load = piece->log == 0 ? of[piece->load] : NULL;
        if (load == NULL || load->n == 0) continue;
        load->drops[piece->part].litter = piece;
        load->drops[piece->part].litters++;
    }
}

/* ---- the piles ---- */

static bool moves(const ls_dossier_piece *x) { return (x->from_stack && !x->unlogged) || x->to == LS_WENT_TO_STACK; }

/* By lot, then by day, the oldest file first. */
static int by_pile(const void *left, const void *right) {
    const ls_dossier_piece *a = *(const ls_dossier_piece *const *)left, *b = *(const ls_dossier_piece *const *)right;
    if (a->file != b->file) return a->file > b->file ? -1 : 1;
    if (a->lot != b->lot) return a->lot < b->lot ? -1 : 1;
    return a->day != b->day ? (a->day < b->day ? -1 : 1) : (a > b) - (a < b);
}

/* What a day leaves of what lay there before. */
static ls_line left_of(ls_worksheet *w, ls_line before, ls_line in, ls_line out) {
    ls_line there = LS_SUM(w, "there", "there, and in", "ton", before, in);
    return out == LS_NO_LINE ? there : ls_difference(w, "lying", "left in the pile", "ton", there, out);
}

/* The pile of the n pieces, which are of one lot, and its days. */
static void add_pile(ls_dossier *d, const ls_dossier_piece *const *x, size_t n) {
    ls_dossier_stack *s = &d->stack;
    ls_dossier_pile pile = {.file = x[0]->file, .lot = x[0]->lot, .first = LS_NO_DATE, .last = LS_NO_DATE};
    ls_worksheet *w = ls_part(d->sheet, NULL, "pile-%zu", s->piles.n + 1);
    ls_books_lines all[2] = {{0}, {0}}; /* in, out */
    for (size_t i = 0, next; i < n; i = next) {
        ls_books_lines of[2] = {{0}, {0}};
        for (next = i; next < n && x[next]->day == x[i]->day; next++)
            *LS_PUSH(d->arena, &all[x[next]->from_stack]) = *LS_PUSH(d->arena, &of[x[next]->from_stack]) =
                x[next]->tons;
        ls_worksheet *day = ls_part(w, NULL, "%s", ls_date_iso(d->arena, x[i]->day));
        ls_dossier_stack_day on = {.pile = s->piles.n, .day = x[i]->day};
        on.in = ls_sum(day, "in", "into the pile that day", "ton", of[0].at, of[0].n);
        on.out = ls_sum(day, "out", "out of the pile that day", "ton", of[1].at, of[1].n);
        on.lying = pile.lying = left_of(day, pile.lying, on.in, on.out);
        *LS_PUSH(d->arena, &s->on) = on;
    }
    pile.in = ls_sum(w, "in", "into the pile", "ton", all[0].at, all[0].n);
    pile.out = ls_sum(w, "out", "out of the pile", "ton", all[1].at, all[1].n);
    *LS_PUSH(d->arena, &s->piles) = pile;
}

static int by_date(const void *left, const void *right) {
    const ls_dossier_stack_day *a = left, *b = right;
    return a->day != b->day ? (a->day < b->day ? -1 : 1) : (a->pile > b->pile) - (a->pile < b->pile);
}

static void make_piles(ls_dossier *d) {
    const ls_dossier_piece **all = LS_NEW(d->arena, const ls_dossier_piece *, d->pieces.n);
    size_t n = 0;
    for (size_t i = 0; i < d->pieces.n; i++)
        if (moves(&d->pieces.at[i])) all[n++] = &d->pieces.at[i];
    if (n > 1) qsort(all, n, sizeof *all, by_pile);
    for (size_t i = 0, next; i < n; i = next) {
        for (next = i + 1; next < n && all[next]->file == all[i]->file && all[next]->lot == all[i]->lot;) next++;
        add_pile(d, all + i, next - i);
    }
    ls_dossier_stack *s = &d->stack;
    if (s->on.n > 1) qsort(s->on.at, s->on.n, sizeof *s->on.at, by_date);
    ls_books_lines of[2] = {{0}, {0}};
    LS_EACH (const ls_dossier_pile, p, s->piles)
        *LS_PUSH(d->arena, &of[0]) = p->in, *LS_PUSH(d->arena, &of[1]) = p->out;
    s->in = ls_sum(d->sheet, "piles-in", "into all piles", "ton", of[0].at, of[0].n);
    s->out = ls_sum(d->sheet, "piles-out", "out of all piles", "ton", of[1].at, of[1].n);
    s->lying = left_of(ls_part(d->sheet, NULL, "piles"), LS_NO_LINE, s->in, s->out);
}

/* ---- how long it lay ---- */

/* Longer than what was told before, of its pile and of all? */
static void consider(ls_dossier *d, const ls_dossier_piece *x, ls_date in, ls_date out) {
    ls_dossier_stack *s = &d->stack;
    if (in == LS_NO_DATE || out == LS_NO_DATE) return;
    LS_EACH (ls_dossier_pile, p, s->piles)
        if (p->file == x->file && p->lot == x->lot && (p->first == LS_NO_DATE || out - in > p->last - p->first))
            p->first = in, p->last = out;
    if (s->first == LS_NO_DATE || out - in > s->last - s->first) s->first = in, s->last = out;
}

static ls_line days_of(const ls_dossier *d, const char *key, const char *label, ls_date first, ls_date last) {
    ls_worksheet *w = d->sheet;
    if (first == LS_NO_DATE) return LS_NO_LINE;
    return ls_leaf_exact(w, key, label, "day", (double)(last - first) * ls_unit_of("day").factor, LS_BY_LOG,
                         ls_printf(w, "%s to %s", ls_date_words(d->arena, first, 0), ls_date_words(d->arena, last, 0)));
}

void ls_dossier_make_stack(ls_dossier *d) {
    ls_dossier_stack *s = &d->stack;
    ls_litters litters = ls_books_litters(d->books);
    *s = (ls_dossier_stack){
        .first = LS_NO_DATE, .last = LS_NO_DATE, .emptied = LS_NO_DATE, .empty = litters.lying.n == 0};
    LS_EACH (ls_dossier_piece, x, litters.all) {
        x->tons = tons_of(d, x);
        *LS_PUSH(d->arena, &d->pieces) = *x;
    }
    fill_drops(d);
    make_piles(d);
    ls_date now = newest_day(d);
    LS_EACH (const ls_dossier_piece, x, d->pieces) {
        consider(d, x, x->in, x->day);
        if (x->from_stack && x->day > s->emptied) s->emptied = x->day;
    }
    LS_EACH (const ls_dossier_piece, x, litters.lying) consider(d, x, x->day, now);
    if (!s->empty) s->emptied = now;
    s->days = days_of(d, "stack-days", "longest that litter of a lot lay in the stack", s->first, s->last);
    LS_EACH (ls_dossier_pile, p, s->piles)
        p->days = days_of(d, ls_printf(d->sheet, "pile-%zu.days", (size_t)(p - s->piles.at) + 1),
                          "longest that litter of the pile lay there", p->first, p->last);
}
