/* The books: made = own fields + moved + stacked + left in the houses, and the difference. */
#include "room.h"

static ls_line sum_of(const ls_dossier *d, const char *key, const char *label, const ls_books_lines *x) {
    return ls_dossier_sum(d, key, label, "ton", x, "nothing is logged");
}

static void of_loads(ls_dossier *d) {
    ls_dossier_balance *b = &d->balance;
    ls_books_lines own = {0}, moved = {0}, in = {0}, out = {0}, trucked = {0};
    b->scaled = true;
    LS_EACH (const ls_dossier_load, load, d->loads) {
        *LS_PUSH(d->arena, load->hauled->from_stack ? &out : &trucked) = load->tons;
        b->scaled = b->scaled && load->hauled->weighed;
        LS_EACH_OF (const ls_dossier_drop, drop, load->drops, load->n)
            *LS_PUSH(d->arena, drop->buyer == NULL ? &in : ls_dossier_is_own(drop->buyer) ? &own : &moved) = drop->tons;
    }
    b->own = sum_of(d, "own", "on the farm's own fields", &own);
    b->moved = sum_of(d, "moved", "moved to others", &moved);
    b->stack_in = sum_of(d, "stack-in", "into the stack", &in);
    b->stack_out = sum_of(d, "stack-out", "out of the stack", &out);
    b->trucked = sum_of(d, "trucked", "out of the houses by the log", &trucked);
}

/* What earlier files left in the stack, and what came out of it that no log has going in. */
static void of_stack(ls_dossier *d) {
    ls_worksheet *w = d->sheet;
    ls_dossier_balance *b = &d->balance;
    ls_books_lines in = {0}, out = {0}, unlogged = {0};
    LS_EACH (const ls_dossier_piece, x, d->pieces)
        if (x->unlogged && x->log == 0)
            *LS_PUSH(d->arena, &unlogged) = x->tons;
        else if (x->log > 0 && !x->unlogged && (x->from_stack || x->to == LS_WENT_TO_STACK))
            *LS_PUSH(d->arena, x->from_stack ? &out : &in) = x->tons;
    b->unlogged = sum_of(d, "stack-unlogged", "out of the stack, never logged in", &unlogged);
    b->opening = ls_difference(w, "stack-opening", "in the stack from earlier files", "ton",
                               sum_of(d, "stack-in-before", "into the stack before", &in),
                               sum_of(d, "stack-out-before", "out of it before", &out));
    ls_line there = LS_SUM(w, "stack-there", "in the stack in all", "ton", b->opening, b->stack_in, b->unlogged);
    b->stacked = ls_difference(w, "stacked", "still in the stack", "ton", there, b->stack_out);
}

static void of_houses(ls_dossier *d) {
    const ls_estimate *e = d->estimate;
    ls_books_lines made = {0}, left = {0};
    d->balance.cleared = e->n > 0;
    for (size_t i = 0; i < e->n; i++) {
        *LS_PUSH(d->arena, &made) = ls_dossier_made(d, 0, i);
        *LS_PUSH(d->arena, &left) = e->lots[i].tons.line;
        d->balance.cleared = d->balance.cleared && e->lots[i].empty;
    }
    d->balance.made = sum_of(d, "made", "litter made", &made);
    d->balance.left = sum_of(d, "left", "still in the houses", &left);
}

/* The estimate without the log, beside what was made. */
static void of_before(ls_dossier *d) {
    static const char *const keys[] = {"low", "middle", "high"};
    const ls_q q = d->before != NULL ? d->before->estimate->tons : d->estimate->tons;
    const double points[] = {q.low, q.mid, q.high};
    for (int i = 0; i < 3; i++)
        d->balance.before[i] =
            ls_leaf_exact(ls_part(d->sheet, keys[i], "before"), keys[i], "%s of the estimate before any load", "ton",
                          points[i], LS_BY_SIMULATION, "without the haul log");
    d->balance.off = ls_difference(d->sheet, "estimate-less-made", "likely estimate less what was made", "ton",
                                   d->balance.before[1], d->balance.made);
}

void ls_dossier_make_balance(ls_dossier *d) {
    ls_worksheet *w = d->sheet;
    ls_dossier_balance *b = &d->balance;
    of_loads(d);
    of_stack(d);
    of_houses(d);
    of_before(d);
    b->accounted =
        LS_SUM(w, "accounted", "own fields + moved + stacked + left", "ton", b->own, b->moved, b->stacked, b->left);
    ls_line had = LS_SUM(w, "had", "made, and in the stack before", "ton", b->made, b->opening, b->unlogged);
    b->difference = ls_difference(w, "difference", "that less what is accounted for", "ton", had, b->accounted);
}
