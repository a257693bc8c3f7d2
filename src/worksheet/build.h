/* What the files of this room share: the inside of a worksheet. */
#pragma once

#include "littershed/worksheet.h"

/* Memory of the lines: taken from the front to the back, given back from the back, and used again. The chunks come from
 * an arena and stay there, so that giving lines back touches nothing else that lives in that arena. */
typedef struct ls_worksheet_chunk ls_worksheet_chunk;

/* A place to go back to; valid until the shelf goes back to an earlier one. */
typedef struct {
    ls_worksheet_chunk *chunk;
    size_t used;
} ls_worksheet_place;

typedef struct {
    ls_arena *arena;
    ls_worksheet_chunk *first;
    ls_worksheet_place end;
} ls_worksheet_shelf;

/* count objects of size bytes, zeroed, aligned for any type. */
void *ls_worksheet_shelf_take(ls_worksheet_shelf *s, size_t size, size_t count);

/* An entry is the first member, so that a pointer to it stays good while more lines are added. */
typedef struct {
    ls_entry entry;
    ls_worksheet_place end; /* of the shelf when the line was made */
} ls_worksheet_line;

/* What all parts of a worksheet share. */
typedef struct {
    ls_arena *arena;
    ls_worksheet_shelf shelf;           /* lines, their inputs and the words made for them */
    LS_LIST(ls_worksheet_line *) lines; /* by line; the first, LS_NO_LINE, is NULL */
    ls_line *slots;                     /* keys: open addressing, LS_NO_LINE for none */
    size_t slots_n;                     /* a power of two, at least twice the lines */
    size_t *places;                     /* by line, of what gradient.c found last */
    size_t places_n;
    const char *fault;
} ls_worksheet_book;

struct ls_worksheet {
    ls_worksheet_book *book;
    const char *lead, *of; /* NULL: keys and labels as they are given */
};

/* An entry with a name in that part and nothing else. */
ls_entry ls_worksheet_named(ls_worksheet *w, const char *key, const char *label, const char *unit);
/* Leaves that are drawn alike. */
bool ls_worksheet_alike(const ls_entry *a, const ls_entry *b);

/* Append a line: new over copies of the new.n lines in, or find it where it stands already. Checks
 * everything, then works out its value. new.value is that of a leaf. */
ls_line ls_worksheet_append(ls_worksheet *w, ls_entry new, const ls_line *in);

/* Note a fault (the first is kept) that begins with the key, and make the line a leaf that is NaN.
 */
void ls_worksheet_spoil(ls_worksheet *w, ls_line line, const char *format, ...) __attribute__((format(printf, 3, 4)));

static inline const ls_entry *ls_worksheet_entry(const ls_worksheet *w, ls_line line) {
    return &w->book->lines.at[line]->entry;
}

/* The entry and the value of the i-th input of an entry. */
static inline const ls_entry *ls_worksheet_input(const ls_worksheet *w, const ls_entry *e, size_t i) {
    return ls_worksheet_entry(w, e->in[i]);
}

static inline double ls_worksheet_x(const ls_worksheet *w, const ls_entry *e, size_t i) {
    return ls_worksheet_input(w, e, i)->value;
}
