/* Litter on its way, of all files: out of the houses, through the stack, to fields. In the stack
 * the litter of each lot goes out first in, first out, and keeps its own report. */
#include "room.h"

#include <math.h>
#include <stdlib.h>

/* A part of a load that went in or out. */
typedef struct {
    ls_dossier_piece piece; /* of that part */
    const char *code;
    bool out;
    double left; /* of what went in, base units */
} move;
typedef LS_LIST(move) move_list;

static const double rest = 1; /* base units: what scales and tarps leave over */

/* By lot, then by day; what goes in on a day goes before what comes out. */
static int by_lot_and_day(const void *left, const void *right) {
    const move *a = left, *b = right;
    int order = strcmp(a->code, b->code);
    if (order != 0)
        return order;
    if (a->piece.day != b->piece.day)
        return a->piece.day < b->piece.day ? -1 : 1;
    if (a->out != b->out)
        return a->out ? 1 : -1;
    if (a->piece.log != b->piece.log)
        return a->piece.log > b->piece.log ? -1 : 1; /* the oldest file is the last */
    return a->piece.load != b->piece.load
               ? (a->piece.load < b->piece.load ? -1 : 1)
               : (a->piece.part > b->piece.part) - (a->piece.part < b->piece.part);
}

static size_t lot_index(const ls_estimate *e, const char *code) {
    size_t i = 0;
    while (i < e->n && strcmp(e->lots[i].code, code) != 0)
        i++;
    return i;
}

static void add_part(ls_dossier *d, move_list *moves, size_t file, size_t load, size_t part) {
    const ls_hauled *h = &ls_dossier_farm(d, file)->hauled.at[load];
    const ls_buyer *buyer = h->n > 0 ? h->drops[part].buyer : NULL;
    ls_dossier_piece piece = {
        .file = file,
        .log = file,
        .load = load,
        .part = part,
        .lot = lot_index(ls_dossier_estimate(d, file), h->lot),
        .day = h->day,
        .from_stack = h->from_stack,
        .to = h->n == 0        ? LS_WENT_NOWHERE
              : buyer == NULL  ? LS_WENT_TO_STACK
              : buyer->own.yes ? LS_WENT_TO_OWN
                               : LS_WENT_TO_OTHERS,
        .tons = ls_dossier_tons(d, file, load, h->n > 0 ? part : LS_DOSSIER_WHOLE),
    };
    double tons = ls_line_value(d->books->sheet, piece.tons);
    if (piece.lot == ls_dossier_estimate(d, file)->n)
        return;
    if (!h->from_stack)
        *LS_PUSH(d->arena, &d->pieces) = piece;
    if (h->from_stack || piece.to == LS_WENT_TO_STACK)
        *LS_PUSH(d->arena, moves) = (move){piece, h->lot, h->from_stack, tons};
}

/* Longer than what was told before? */
static void consider(ls_dossier_stack *s, ls_date in, ls_date out) {
    if (s->first == LS_NO_DATE || out - in > s->last - s->first)
        s->first = in, s->last = out;
}

/* What comes out is what of its lot lay there longest; head is the first of it that is left. What
 * was never logged in is of the file that logs it out. */
static void first_out(ls_dossier *d, move *moves, size_t *head, size_t at) {
    ls_worksheet *w = d->books->sheet;
    move *out = &moves[at];
    double tons = out->left;
    for (size_t n = 1; tons > rest; n++) {
        while (*head < at && (moves[*head].out || moves[*head].left <= rest))
            ++*head;
        bool known = *head < at;
        double part = known ? fmin(moves[*head].left, tons) : tons;
        if (tons - part <= rest)
            part = tons;
        ls_dossier_piece piece = out->piece;
        if (known) {
            piece.file = moves[*head].piece.file, piece.lot = moves[*head].piece.lot;
            moves[*head].left -= part;
            consider(&d->stack, moves[*head].piece.day, out->piece.day);
        }
        piece.unlogged = !known;
        if (n > 1 || part < tons)
            piece.tons = ls_leaf_exact(w,
                                       ls_printf(w, "dossier.stack.file-%zu.load-%zu.part-%zu.%zu",
                                                 piece.log, piece.load + 1, piece.part + 1, n),
                                       "part of a load out of the stack", "ton", part, LS_BY_LOG,
                                       ls_dossier_farm(d, piece.log)->hauled.at[piece.load].entry);
        *LS_PUSH(d->arena, &d->pieces) = piece;
        tons -= part;
    }
}

static ls_date newest_day(const ls_dossier *d) {
    ls_date now = d->printed;
    for (size_t i = 0; i < d->loads.n; i++)
        if (now == LS_NO_DATE || d->loads.at[i].hauled->day > now)
            now = d->loads.at[i].hauled->day;
    return now;
}

static move_list moves_of(ls_dossier *d) {
    move_list moves = {0};
    for (size_t i = d->books->earlier.n + 1; i-- > 0;)
        for (size_t k = 0; k < ls_dossier_farm(d, i)->hauled.n; k++) {
            const ls_hauled *h = &ls_dossier_farm(d, i)->hauled.at[k];
            for (size_t n = 0; !h->doubled && (n == 0 || n < h->n); n++)
                add_part(d, &moves, i, k, n);
        }
    if (moves.n > 1)
        qsort(moves.at, moves.n, sizeof *moves.at, by_lot_and_day);
    return moves;
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
    *s = (ls_dossier_stack){LS_NO_LINE, LS_NO_DATE, LS_NO_DATE, LS_NO_DATE, true};
    move_list moves = moves_of(d);
    for (size_t i = 0, head = 0; i < moves.n; i++) {
        if (i > 0 && strcmp(moves.at[i].code, moves.at[i - 1].code) != 0)
            head = i;
        if (moves.at[i].out)
            first_out(d, moves.at, &head, i);
        if (moves.at[i].out && moves.at[i].piece.day > s->emptied)
            s->emptied = moves.at[i].piece.day;
    }
    fill_drops(d);
    for (size_t i = 0; i < moves.n; i++)
        if (!moves.at[i].out && moves.at[i].left > rest) {
            consider(s, moves.at[i].piece.day, newest_day(d));
            s->empty = false;
        }
    if (!s->empty)
        s->emptied = newest_day(d);
    if (s->first == LS_NO_DATE)
        return;
    ls_worksheet *w = d->books->sheet;
    s->days =
        ls_leaf_exact(w, "dossier.stack-days",
                      "longest that litter of a lot lay in the stack, first in, first out", "day",
                      (double)(s->last - s->first) * ls_unit_of("day").factor, LS_BY_LOG,
                      ls_printf(w, "%s to %s", ls_date_words(d->arena, s->first, 0),
                                ls_date_words(d->arena, s->last, 0)));
}
