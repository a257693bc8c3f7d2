/* The litter of each load, of all files: its parts, each with tons and the file whose lot, and so
 * whose report, it is. In the stack the litter of each lot goes out first in, first out. */
#include "books.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A part of a load that went in or out. */
typedef struct {
    ls_litter_part of;
    bool out;
    double left; /* of what went in, base units */
} move;
typedef LS_LIST(move) move_list;

static const double rest = 1; /* base units: what scales and tarps leave over */

/* By lot, then by day; what goes in on a day goes before what comes out. */
static int by_lot_and_day(const void *left, const void *right) {
    const move *a = left, *b = right;
    int order = strcmp(a->of.code, b->of.code);
    if (order != 0)
        return order;
    if (a->of.day != b->of.day)
        return a->of.day < b->of.day ? -1 : 1;
    if (a->out != b->out)
        return a->out ? 1 : -1;
    if (a->of.log != b->of.log)
        return a->of.log > b->of.log ? -1 : 1; /* the oldest file is the last */
    return a->of.load != b->of.load ? (a->of.load < b->of.load ? -1 : 1)
                                    : (a->of.part > b->of.part) - (a->of.part < b->of.part);
}

static int by_load(const void *left, const void *right) {
    const ls_litter_part *a = left, *b = right;
    const size_t x[] = {a->log, a->load, a->part, a->n}, y[] = {b->log, b->load, b->part, b->n};
    for (size_t i = 0; i < sizeof x / sizeof *x; i++)
        if (x[i] != y[i])
            return x[i] < y[i] ? -1 : 1;
    return 0;
}

const ls_books *ls_books_file(const ls_books *books, size_t file) {
    return file == 0 ? books : books->earlier.at[file - 1];
}

static void add_part(ls_arena *a, ls_litter_parts *out, move_list *moves, ls_litter_part of,
                     const ls_hauled *h) {
    const ls_hauled_drop *drop = h->n > 0 ? &h->drops[of.part] : NULL;
    of.tons = drop != NULL ? drop->tons : h->tons;
    if (!h->from_stack)
        *LS_PUSH(a, &out->all) = of;
    if (h->from_stack || (drop != NULL && drop->buyer == NULL))
        *LS_PUSH(a, moves) = (move){of, h->from_stack, of.tons};
}

/* What comes out is what of its lot lay there longest; head is the first of it that is left. What
 * was never logged in is of the file that logs it out. */
static void first_out(ls_arena *a, ls_litter_parts *all, move *moves, size_t *head, size_t at) {
    double tons = moves[at].left;
    ls_litter_part of = moves[at].of;
    for (of.n = 0; tons > rest; of.n++) {
        while (*head < at && (moves[*head].out || moves[*head].left <= rest))
            ++*head;
        bool known = *head < at;
        of.tons = known ? fmin(moves[*head].left, tons) : tons;
        if (tons - of.tons <= rest)
            of.tons = tons;
        of.unlogged = !known;
        of.file = known ? moves[*head].of.file : of.log;
        of.in = known ? moves[*head].of.day : LS_NO_DATE;
        of.split = of.n > 0 || of.tons < tons;
        if (known)
            moves[*head].left -= of.tons;
        *LS_PUSH(a, &all->all) = of;
        tons -= of.tons;
    }
}

static move_list moves_of(const ls_books *books, ls_litter_parts *out) {
    move_list moves = {0};
    for (size_t i = 0; i <= books->earlier.n; i++) {
        const ls_farm *farm = ls_books_file(books, i)->farm;
        ls_coded_lots lots = ls_books_lots(books->arena, farm);
        for (size_t k = 0; k < farm->hauled.n; k++) {
            const ls_hauled *h = &farm->hauled.at[k];
            bool counts = !h->doubled && ls_books_lot(&lots, h->lot) != NULL;
            for (size_t n = 0; counts && (n == 0 || n < h->n); n++)
                add_part(books->arena, out, &moves,
                         (ls_litter_part){.file = i,
                                          .log = i,
                                          .load = k,
                                          .part = n,
                                          .code = h->lot,
                                          .day = h->day,
                                          .in = LS_NO_DATE},
                         h);
        }
    }
    if (moves.n > 1)
        qsort(moves.at, moves.n, sizeof *moves.at, by_lot_and_day);
    return moves;
}

ls_litter_parts ls_books_litter_parts(const ls_books *books) {
    ls_litter_parts out = {0};
    move_list moves = moves_of(books, &out);
    for (size_t i = 0, head = 0; i < moves.n; i++) {
        if (i > 0 && strcmp(moves.at[i].of.code, moves.at[i - 1].of.code) != 0)
            head = i;
        if (moves.at[i].out)
            first_out(books->arena, &out, moves.at, &head, i);
    }
    for (size_t i = 0; i < moves.n; i++)
        if (!moves.at[i].out && moves.at[i].left > rest)
            *LS_PUSH(books->arena, &out.lying) = moves.at[i].of;
    if (out.all.n > 1)
        qsort(out.all.at, out.all.n, sizeof *out.all.at, by_load);
    return out;
}
