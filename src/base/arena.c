#include "littershed/base/arena.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Under the address sanitizer what was not handed out is poisoned, so that overruns show. */
#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define LS_ARENA_GUARDED 1
#endif
#elif defined(__SANITIZE_ADDRESS__)
#define LS_ARENA_GUARDED 1
#endif

#ifdef LS_ARENA_GUARDED
#include <sanitizer/asan_interface.h>
enum { GUARD = 16 };
#define HIDE(p, n) ASAN_POISON_MEMORY_REGION((p), (n))
#define SHOW(p, n) ASAN_UNPOISON_MEMORY_REGION((p), (n))
#else
enum { GUARD = 0 };
#define HIDE(p, n) ((void)(p), (void)(n))
#define SHOW(p, n) ((void)(p), (void)(n))
#endif

enum { FIRST_BLOCK = 4096, LARGEST_BLOCK = 1024 * 1024, ALIGNMENT = _Alignof(max_align_t) };

typedef struct block block;
struct block {
    block *earlier;
    size_t size, used; /* of bytes */
    max_align_t bytes[];
};

struct ls_arena {
    block *newest;
    size_t next_size;
};

_Noreturn void ls_fail(const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    fflush(stdout);
    fputs("littershed: ", stderr);
    vfprintf(stderr, format, arguments);
    fputc('\n', stderr);
    va_end(arguments);
    exit(3);
}

static _Noreturn void out_of_memory(void) { ls_fail("out of memory"); }

ls_arena *ls_arena_new(void) {
    ls_arena *a = calloc(1, sizeof *a);
    if (a == NULL) out_of_memory();
    a->next_size = FIRST_BLOCK;
    return a;
}

static void drop_newest(ls_arena *a) {
    block *gone = a->newest;
    a->newest = gone->earlier;
    SHOW(gone->bytes, gone->size);
    free(gone);
}

void ls_arena_free(ls_arena *a) {
    if (a == NULL) return;
    while (a->newest != NULL) drop_newest(a);
    free(a);
}

static void add_block(ls_arena *a, size_t least) {
    size_t size = least > a->next_size ? least : a->next_size;
    if (size > SIZE_MAX - sizeof(block)) out_of_memory();
    block *b = malloc(sizeof *b + size);
    if (b == NULL) out_of_memory();
    b->earlier = a->newest;
    b->size = size;
    b->used = 0;
    HIDE(b->bytes, b->size);
    a->newest = b;
    if (a->next_size < LARGEST_BLOCK) a->next_size *= 2;
}

void *ls_arena_alloc(ls_arena *a, size_t size, size_t count) {
    if (size != 0 && count > (SIZE_MAX / 2 - ALIGNMENT - GUARD) / size) out_of_memory();
    size_t n = size * count;
    size_t room = (n + GUARD + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
    if (a->newest == NULL || a->newest->size - a->newest->used < room) add_block(a, room);
    char *p = (char *)a->newest->bytes + a->newest->used;
    a->newest->used += room;
    SHOW(p, n);
    memset(p, 0, n);
    return p;
}

ls_arena_mark ls_arena_here(ls_arena *a) { return (ls_arena_mark){a->newest, a->newest == NULL ? 0 : a->newest->used}; }

void ls_arena_rewind(ls_arena *a, ls_arena_mark mark) {
    while (a->newest != NULL && a->newest != mark.block) drop_newest(a);
    if (a->newest == NULL) return;
    HIDE((char *)a->newest->bytes + mark.used, a->newest->size - mark.used);
    a->newest->used = mark.used;
}

char *ls_arena_copy_n(ls_arena *a, const char *s, size_t n) {
    char *copy = LS_NEW(a, char, n + 1);
    if (n > 0) memcpy(copy, s, n);
    return copy;
}

char *ls_arena_copy(ls_arena *a, const char *s) { return ls_arena_copy_n(a, s, strlen(s)); }

char *ls_arena_vprintf(ls_arena *a, const char *format, va_list arguments) {
    va_list again;
    va_copy(again, arguments);
    int n = vsnprintf(NULL, 0, format, again);
    va_end(again);
    if (n < 0) ls_fail("a text could not be put together");
    char *text = LS_NEW(a, char, (size_t)n + 1);
    vsnprintf(text, (size_t)n + 1, format, arguments);
    return text;
}

char *ls_arena_printf(ls_arena *a, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    char *text = ls_arena_vprintf(a, format, arguments);
    va_end(arguments);
    return text;
}

void *ls_list_grow(ls_arena *a, void *at, size_t n, size_t *cap, size_t size) {
    if (*cap > SIZE_MAX / 2) out_of_memory();
    size_t more = *cap == 0 ? 8 : *cap * 2;
    void *bigger = ls_arena_alloc(a, size, more);
    if (n > 0) memcpy(bigger, at, n * size);
    *cap = more;
    return bigger;
}
