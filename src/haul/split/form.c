/* Tons on fields cut into loads: every piece of a load on a field is 0 or at least the smallest drop. */
#include "split.h"

enum { MOST_STEPS = 5000 };

typedef struct {
    const ls_haul_task *t;
    size_t fields;
    int64_t *left; /* [field] tons not yet in a load */
    const ls_haul_sizes *sizes;
    size_t full; /* loads before this one are done */
    long steps;
    ls_haul_pieces pieces;
} former;

static bool whole(const former *s, int64_t tons) { return tons == 0 || tons >= s->t->drop; }

static bool next(former *s, size_t load, int64_t room);

/* Try tons of a field as the next piece of a load, and all that follows. */
static bool try(former *s, size_t load, int64_t room, size_t field, int64_t tons) {
    int64_t had = s->left[field];
    if (tons < s->t->drop || tons > had || tons > room || !whole(s, room - tons) || !whole(s, had - tons)) return false;
    size_t n = s->pieces.n;
    *LS_PUSH(s->t->arena, &s->pieces) = (ls_haul_piece){load, field, tons};
    s->left[field] -= tons;
    if (next(s, load, room - tons)) return true;
    s->left[field] = had;
    s->pieces.n = n;
    return false;
}

/* As much as fits; or less, so that what is left of the load or the field is a whole drop. */
static bool try_field(former *s, size_t load, int64_t room, size_t field) {
    int64_t had = s->left[field], drop = s->t->drop;
    int64_t most = had < room ? had : room;
    return try(s, load, room, field, most) || try(s, load, room, field, room - drop) ||
           try(s, load, room, field, had - drop) || try(s, load, room, field, drop);
}

static bool next(former *s, size_t load, int64_t room) {
    if (room == 0) {
        if (++load == s->sizes->n) return true;
        room = s->sizes->at[load];
    }
    if (s->steps-- <= 0) return false;
    for (size_t f = 0; f < s->fields; f++)
        if (s->left[f] == room && try(s, load, room, f, room)) return true;
    for (size_t f = 0; f < s->fields; f++)
        if (s->left[f] > 0 && s->left[f] != room && try_field(s, load, room, f)) return true;
    return false;
}

/* Whole loads to fields that take two more, or just one: they need no search. */
static void peel(former *s) {
    for (size_t f = 0; f < s->fields; f++)
        while (s->full < s->sizes->n && s->left[f] > 0) {
            int64_t size = s->sizes->at[s->full];
            if (size < s->t->drop || (s->left[f] != size && s->left[f] < 2 * size)) break;
            *LS_PUSH(s->t->arena, &s->pieces) = (ls_haul_piece){s->full, f, size};
            s->left[f] -= size;
            s->full++;
        }
}

/* Cut the tons of a lot on a buyer's fields into loads of the given sizes so that no piece is below the smallest drop;
 * false if no way was found. tons[field - first] of each field; out may be NULL. */
static bool form(const ls_haul_task *t, size_t n_fields, const int64_t *tons, const ls_haul_sizes *sizes,
                 ls_haul_pieces *out) {
    ls_arena_mark mark = ls_arena_here(t->arena);
    former s = {.t = t, .fields = n_fields, .sizes = sizes, .steps = MOST_STEPS};
    s.left = LS_NEW(t->arena, int64_t, n_fields);
    int64_t sum = 0;
    for (size_t f = 0; f < n_fields; f++) sum += s.left[f] = tons[f];
    for (size_t k = 0; k < sizes->n; k++) sum -= sizes->at[k];
    bool formed = sum == 0;
    if (formed) {
        peel(&s);
        formed = s.full == sizes->n || next(&s, s.full, sizes->at[s.full]);
    }
    if (out != NULL)
        *out = s.pieces;
    else
        ls_arena_rewind(t->arena, mark);
    return formed;
}

static void push(const ls_haul_task *t, ls_haul_sizes *sizes, int64_t tons) {
    if (tons > 0) *LS_PUSH(t->arena, sizes) = tons;
}

/* Trips out of the stack to one field; they need not be full: a last one below the smallest drop
 * takes from the one before. */
static void out_sizes(const ls_haul_task *t, int64_t left, int64_t payload, ls_haul_sizes *sizes) {
    while (left > 0) {
        int64_t size = left < payload ? left : payload, rest = left - size;
        if (rest > 0 && rest < t->drop) size -= t->drop - rest;
        push(t, sizes, size);
        left -= size;
    }
}

ls_haul_sizes ls_haul_sizes_of(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t buyer,
                               bool from_stack) {
    ls_haul_sizes sizes = {0};
    for (size_t f = t->first[buyer]; from_stack && f < t->first[buyer + 1]; f++)
        out_sizes(t, x->out[ls_haul_task_field(t, lot, f)], t->payload_out[lot], &sizes);
    if (from_stack) return sizes;
    size_t at = ls_haul_task_to(t, lot, buyer);
    for (long k = 0; k < x->full[at]; k++) push(t, &sizes, t->payload[lot]);
    push(t, &sizes, t->kept_part[at]);
    push(t, &sizes, x->part[at]);
    return sizes;
}

/* Every trip out of the stack is one piece. */
static bool out_pieces(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t buyer, ls_haul_pieces *out) {
    bool formed = true;
    size_t load = 0;
    for (size_t f = t->first[buyer]; f < t->first[buyer + 1]; f++) {
        ls_haul_sizes sizes = {0};
        out_sizes(t, x->out[ls_haul_task_field(t, lot, f)], t->payload_out[lot], &sizes);
        for (size_t k = 0; k < sizes.n; k++) {
            formed = formed && sizes.at[k] >= t->drop;
            *LS_PUSH(t->arena, out) = (ls_haul_piece){load++, f - t->first[buyer], sizes.at[k]};
        }
    }
    return formed;
}

static bool straight_pieces(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t buyer,
                            ls_haul_pieces *out) {
    ls_haul_sizes sizes = ls_haul_sizes_of(t, x, lot, buyer, false);
    const int64_t *tons = x->straight + ls_haul_task_field(t, lot, t->first[buyer]);
    return form(t, t->first[buyer + 1] - t->first[buyer], tons, &sizes, out);
}

bool ls_haul_pieces_of(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t buyer, bool from_stack,
                       ls_haul_pieces *out) {
    ls_arena_mark mark = ls_arena_here(t->arena);
    ls_haul_pieces none = {0}, *to = out == NULL ? &none : out;
    *to = (ls_haul_pieces){0};
    bool formed = from_stack ? out_pieces(t, x, lot, buyer, to) : straight_pieces(t, x, lot, buyer, to);
    if (out == NULL) ls_arena_rewind(t->arena, mark);
    return formed;
}
