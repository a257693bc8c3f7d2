/* Memory by the arena: all a run makes is freed at once. Without memory the program ends (3). */
#pragma once

#include <stdarg.h>
#include <stddef.h>

typedef struct ls_arena ls_arena;

/* A place in an arena to go back to; valid until the arena is rewound to an earlier one. */
typedef struct {
    void *block;
    size_t used;
} ls_arena_mark;

/* A new, empty arena, owned by the caller; free it with ls_arena_free (NULL is allowed there). */
ls_arena *ls_arena_new(void);
void ls_arena_free(ls_arena *a);
/* count objects of size bytes, zeroed, aligned for any type; lives as long as the arena.
 * An overflowing product counts as out of memory. count 0 gives a valid pointer to nothing. */
void *ls_arena_alloc(ls_arena *a, size_t size, size_t count);
#define LS_NEW(a, type, count) ((type *)ls_arena_alloc((a), sizeof(type), (count)))

/* Remember the present end of the arena; give everything allocated since back. */
ls_arena_mark ls_arena_here(ls_arena *a);
void ls_arena_rewind(ls_arena *a, ls_arena_mark mark);
/* Copies of text in the arena, NUL-terminated. */
char *ls_arena_copy(ls_arena *a, const char *s);
char *ls_arena_copy_n(ls_arena *a, const char *s, size_t n);
/* A text made with printf, as long as it has to be. */
char *ls_arena_printf(ls_arena *a, const char *format, ...) __attribute__((format(printf, 2, 3)));
char *ls_arena_vprintf(ls_arena *a, const char *format, va_list arguments) __attribute__((format(printf, 2, 0)));

/* A growing array in an arena: LS_LIST(T) declares {T *at; size_t n, cap;}, zero-initialized it is empty; LS_PUSH
 * returns a pointer to a new zeroed last element. Earlier element pointers die at a push. */
#define LS_LIST(T)                                                                                                     \
    struct {                                                                                                           \
        T *at;                                                                                                         \
        size_t n, cap;                                                                                                 \
    }
void *ls_list_grow(ls_arena *a, void *at, size_t n, size_t *cap, size_t size);
#define LS_PUSH(a, list)                                                                                               \
    ((list)->at = (list)->n < (list)->cap                                                                              \
                      ? (list)->at                                                                                     \
                      : ls_list_grow((a), (list)->at, (list)->n, &(list)->cap, sizeof *(list)->at),                    \
     &(list)->at[(list)->n++])
/* Of each element in turn: LS_EACH(const ls_house, h, farm->houses) ...; the list stays. */
#define LS_EACH(type, item, list) LS_EACH_OF (type, item, (list).at, (list).n)
/* The same of n elements of an array. */
#define LS_EACH_OF(type, item, array, n) for (type *item = (array); item != NULL && item < (array) + (n); item++)

/* The system failed: prints "littershed: MESSAGE" on stderr and exits with 3. */
_Noreturn void ls_fail(const char *format, ...) __attribute__((format(printf, 1, 2)));
