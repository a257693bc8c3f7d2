#include "ready.h"

enum { MOST = 512 }; /* of 80,000 bytes each */

typedef struct {
    const ls_entry *leaf; /* NULL: a free slot */
    size_t programs;      /* that draw it */
    double *draws;        /* NULL: only one does */
} slot;

struct ls_worksheet_ready {
    slot *slots; /* n_slots, a power of 2, at most half full */
    size_t n_slots;
    slot *shared[MOST];
    size_t n;
};

/* That of the leaf, or the free one in which it belongs. */
static slot *slot_of(const ls_worksheet_ready *r, const ls_entry *leaf) {
    size_t i = (size_t)leaf->hash & (r->n_slots - 1);
    while (r->slots[i].leaf != NULL && !ls_worksheet_alike(r->slots[i].leaf, leaf))
        i = (i + 1) & (r->n_slots - 1);
    return &r->slots[i];
}

static void count(ls_worksheet_ready *r, ls_arena *a, const ls_entry *leaf) {
    slot *s = slot_of(r, leaf);
    s->leaf = leaf;
    s->programs++;
    if (s->programs == 2 && r->n < MOST) {
        s->draws = LS_NEW(a, double, LS_BLOCK);
        r->shared[r->n++] = s;
    }
}

ls_worksheet_ready *ls_worksheet_ready_new(ls_arena *a, const ls_worksheet_program *programs,
                                           size_t n) {
    ls_worksheet_ready *r = LS_NEW(a, ls_worksheet_ready, 1);
    size_t leaves = 0;
    for (size_t i = 0; i < n; i++)
        leaves += programs[i].streams;
    for (r->n_slots = 1; r->n_slots < 2 * leaves + 1;)
        r->n_slots *= 2;
    r->slots = LS_NEW(a, slot, r->n_slots);
    for (size_t i = 0; i < n; i++)
        for (size_t s = 0; s < programs[i].n; s++)
            if (programs[i].steps[s].entry->op == LS_OP_LEAF)
                count(r, a, programs[i].steps[s].entry);
    return r;
}

size_t ls_worksheet_ready_n(const ls_worksheet_ready *r) {
    return r->n;
}

void ls_worksheet_ready_draw(ls_worksheet_ready *r, size_t i, ls_stream *stream, uint64_t seed) {
    const slot *s = r->shared[i];
    ls_stream_start(stream, seed, s->leaf->hash, 0);
    for (size_t from = 0; from < LS_BLOCK; from += LS_WORKSHEET_COLUMN)
        ls_spread_fill(s->leaf->spread, s->leaf->value, stream, s->draws + from,
                       LS_WORKSHEET_COLUMN);
}

const double *ls_worksheet_ready_draws(const ls_worksheet_ready *r, const ls_entry *leaf) {
    return slot_of(r, leaf)->draws;
}
