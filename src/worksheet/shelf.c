#include "shelf.h"

#include <stdint.h>
#include <string.h>

enum { FIRST_CHUNK = 4096, LARGEST_CHUNK = 256 * 1024, ALIGNMENT = _Alignof(max_align_t) };

struct ls_worksheet_chunk {
    ls_worksheet_chunk *next;
    size_t size;
    char *bytes;
};

static ls_worksheet_chunk *new_chunk(ls_arena *a, const ls_worksheet_chunk *last, size_t least) {
    ls_worksheet_chunk *c = LS_NEW(a, ls_worksheet_chunk, 1);
    c->size = last == NULL ? FIRST_CHUNK : last->size * 2;
    if (c->size > LARGEST_CHUNK)
        c->size = LARGEST_CHUNK;
    if (c->size < least)
        c->size = least;
    c->bytes = LS_NEW(a, char, c->size);
    return c;
}

/* Go on to the next chunk if it is large enough, else to a new one put before it. */
static void go_on(ls_worksheet_shelf *s, size_t room) {
    ls_worksheet_chunk **link = s->end.chunk == NULL ? &s->first : &s->end.chunk->next;
    if (*link == NULL || (*link)->size < room) {
        ls_worksheet_chunk *c = new_chunk(s->arena, s->end.chunk, room);
        c->next = *link;
        *link = c;
    }
    s->end = (ls_worksheet_place){*link, 0};
}

void *ls_worksheet_shelf_take(ls_worksheet_shelf *s, size_t size, size_t count) {
    if (size != 0 && count > (SIZE_MAX / 2 - ALIGNMENT) / size)
        ls_fail("out of memory");
    size_t room = (size * count + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
    if (s->end.chunk == NULL || s->end.chunk->size - s->end.used < room)
        go_on(s, room);
    void *p = s->end.chunk->bytes + s->end.used;
    s->end.used += room;
    return memset(p, 0, room);
}

void ls_worksheet_shelf_back(ls_worksheet_shelf *s, ls_worksheet_place place) {
    s->end = place;
}
