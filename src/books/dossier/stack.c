/* The stack: how long litter lay in it, first in, first out. */
#include "room.h"

#include <math.h>
#include <stdlib.h>

/* Tons that went in or out on a day. */
typedef struct {
    ls_date day;
    bool out;
    size_t order;
    double tons;
} move;
typedef LS_LIST(move) move_list;

/* By day; what goes in on a day goes before what comes out. */
static int by_day(const void *left, const void *right) {
    const move *a = left, *b = right;
    if (a->day != b->day)
        return a->day < b->day ? -1 : 1;
    if (a->out != b->out)
        return a->out ? 1 : -1;
    return a->order < b->order ? -1 : 1;
}

static move_list moves_of(const ls_dossier *d) {
    move_list moves = {0};
    for (size_t i = 0; i < d->loads.n; i++) {
        const ls_dossier_load *load = &d->loads.at[i];
        ls_date day = load->hauled->day;
        if (load->hauled->from_stack)
            *LS_PUSH(d->arena, &moves) = (move){day, true, moves.n, load->hauled->tons};
        for (size_t k = 0; k < load->n; k++)
            if (load->drops[k].buyer == NULL)
                *LS_PUSH(d->arena, &moves) = (move){
                    day, false, moves.n, ls_line_value(d->books->sheet, load->drops[k].tons)};
    }
    if (moves.n > 0)
        qsort(moves.at, moves.n, sizeof *moves.at, by_day);
    return moves;
}

/* Longer than what was told before? */
static void consider(ls_dossier_stack *s, ls_date in, ls_date out) {
    if (s->first == LS_NO_DATE || out - in > s->last - s->first)
        s->first = in, s->last = out;
}

/* What comes out is what lay there longest. */
static void first_out(move_list *moves, size_t at, ls_dossier_stack *s) {
    const double rest = 1; /* base units: what scales and tarps leave over */
    double tons = moves->at[at].tons;
    for (size_t i = 0; i < at && tons > rest; i++) {
        move *in = &moves->at[i];
        if (in->out || in->tons <= rest)
            continue;
        double part = fmin(in->tons, tons);
        in->tons -= part, tons -= part;
        consider(s, in->day, moves->at[at].day);
    }
}

void ls_dossier_make_stack(ls_dossier *d) {
    const double rest = 1;
    ls_dossier_stack *s = &d->stack;
    move_list moves = moves_of(d);
    ls_date now = d->printed;
    *s = (ls_dossier_stack){LS_NO_LINE, LS_NO_DATE, LS_NO_DATE, LS_NO_DATE, true};
    for (size_t i = 0; i < d->loads.n; i++)
        if (now == LS_NO_DATE || d->loads.at[i].hauled->day > now)
            now = d->loads.at[i].hauled->day;
    for (size_t i = 0; i < moves.n; i++)
        if (moves.at[i].out)
            first_out(&moves, i, s);
    for (size_t i = 0; i < moves.n; i++)
        if (!moves.at[i].out && moves.at[i].tons > rest) {
            consider(s, moves.at[i].day, now);
            s->empty = false;
        }
    for (size_t i = 0; i < moves.n; i++)
        if (moves.at[i].out)
            s->emptied = moves.at[i].day;
    if (!s->empty)
        s->emptied = now;
    if (s->first == LS_NO_DATE)
        return;
    ls_worksheet *w = d->books->sheet;
    s->days = ls_leaf_exact(w, "dossier.stack-days",
                            "longest that litter lay in the stack, first in, first out", "day",
                            (double)(s->last - s->first) * ls_unit_of("day").factor, LS_BY_LOG,
                            ls_printf(w, "%s to %s", ls_date_words(d->arena, s->first, 0),
                                      ls_date_words(d->arena, s->last, 0)));
}
