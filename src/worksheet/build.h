/* What the files of this room share: the inside of a worksheet. */
#ifndef LITTERSHED_WORKSHEET_BUILD_H
#define LITTERSHED_WORKSHEET_BUILD_H

#include "littershed/worksheet.h"
#include "shelf.h"

/* An entry is the first member, so that a pointer to it stays good while more lines are added. */
typedef struct {
    ls_entry entry;
    ls_worksheet_place end; /* of the shelf when the line was made */
} ls_worksheet_line;

struct ls_worksheet {
    ls_arena *arena;
    ls_worksheet_shelf shelf;           /* lines, their inputs and the words made for them */
    LS_LIST(ls_worksheet_line *) lines; /* by line */
    ls_line *slots;                     /* keys: open addressing, 1 + line, 0 for none */
    size_t slots_n;                     /* a power of two, at least twice the lines */
    const char *fault;
};

/* An entry with a name and nothing else. */
ls_entry ls_worksheet_named(const char *key, const char *label, const char *unit);

/* Append a line: new over copies of the new.n lines in. Checks everything, then works out its
 * value. new.value is that of a leaf. */
ls_line ls_worksheet_append(ls_worksheet *w, ls_entry new, const ls_line *in);

/* Note a fault (the first is kept) that begins with the key, and make the line a leaf that is NaN.
 */
void ls_worksheet_spoil(ls_worksheet *w, ls_line line, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

static inline const ls_entry *ls_worksheet_entry(const ls_worksheet *w, ls_line line) {
    return &w->lines.at[line]->entry;
}

/* The entry and the value of the i-th input of an entry. */
static inline const ls_entry *ls_worksheet_input(const ls_worksheet *w, const ls_entry *e,
                                                 size_t i) {
    return ls_worksheet_entry(w, e->in[i]);
}

static inline double ls_worksheet_x(const ls_worksheet *w, const ls_entry *e, size_t i) {
    return ls_worksheet_input(w, e, i)->value;
}

#endif
