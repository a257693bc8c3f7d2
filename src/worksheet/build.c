/* A worksheet grows line by line at its end, and is cut at its end. */
#include "build.h"

#include "ops.h"

#include <math.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* ---- memory of the lines ---- */

enum { FIRST_CHUNK = 4096, LARGEST_CHUNK = 256 * 1024, ALIGNMENT = _Alignof(max_align_t) };

struct ls_worksheet_chunk {
    ls_worksheet_chunk *next;
    size_t size;
    char *bytes;
};

static ls_worksheet_chunk *new_chunk(ls_arena *a, const ls_worksheet_chunk *last, size_t least) {
    ls_worksheet_chunk *c = LS_NEW(a, ls_worksheet_chunk, 1);
    c->size = last == NULL ? FIRST_CHUNK : last->size * 2;
    if (c->size > LARGEST_CHUNK) c->size = LARGEST_CHUNK;
    if (c->size < least) c->size = least;
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
    if (size != 0 && count > (SIZE_MAX / 2 - ALIGNMENT) / size) ls_fail("out of memory");
    size_t room = (size * count + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
    if (s->end.chunk == NULL || s->end.chunk->size - s->end.used < room) go_on(s, room);
    void *p = s->end.chunk->bytes + s->end.used;
    s->end.used += room;
    return memset(p, 0, room);
}

/* ---- lines ---- */

enum { FIRST_SLOTS = 64 };

ls_worksheet *ls_worksheet_new(ls_arena *a) {
    ls_worksheet *w = LS_NEW(a, ls_worksheet, 1);
    ls_worksheet_book *book = LS_NEW(a, ls_worksheet_book, 1);
    w->book = book;
    book->arena = book->shelf.arena = a;
    book->slots_n = FIRST_SLOTS;
    book->slots = LS_NEW(a, ls_line, book->slots_n);
    *LS_PUSH(a, &book->lines) = NULL;
    return w;
}

ls_arena *ls_worksheet_arena(ls_worksheet *w) { return w->book->arena; }

size_t ls_worksheet_lines(const ls_worksheet *w) { return w->book->lines.n; }

const char *ls_worksheet_fault(const ls_worksheet *w) { return w->book->fault; }

static bool exists(const ls_worksheet *w, ls_line line) { return line > 0 && (size_t)line < w->book->lines.n; }

const ls_entry *ls_line_at(const ls_worksheet *w, ls_line line) {
    return exists(w, line) ? ls_worksheet_entry(w, line) : NULL;
}

double ls_line_value(const ls_worksheet *w, ls_line line) {
    return exists(w, line) ? ls_worksheet_entry(w, line)->value : NAN;
}

double ls_line_shown(const ls_worksheet *w, ls_line line) {
    return exists(w, line) ? ls_worksheet_entry(w, line)->value / ls_worksheet_entry(w, line)->unit.factor : NAN;
}

static const char *full_key(const ls_worksheet *w, const char *key) {
    size_t lead = w->lead == NULL ? 0 : strlen(w->lead), own = strlen(key);
    if (lead == 0 || own == 0) return lead == 0 ? key : w->lead;
    char *whole = ls_worksheet_shelf_take(&w->book->shelf, 1, lead + own + 2);
    memcpy(whole, w->lead, lead);
    whole[lead] = '.';
    memcpy(whole + lead + 1, key, own);
    return whole;
}

static const char *print(const ls_worksheet *w, const char *format, va_list arguments) {
    char usual[256]; /* long enough for nearly all, which are then printed once */
    va_list again;
    va_copy(again, arguments);
    int n = vsnprintf(usual, sizeof usual, format, arguments);
    if (n < 0) ls_fail("a text could not be put together");
    char *text = ls_worksheet_shelf_take(&w->book->shelf, 1, (size_t)n + 1);
    if ((size_t)n < sizeof usual)
        memcpy(text, usual, (size_t)n + 1);
    else
        vsnprintf(text, (size_t)n + 1, format, again);
    va_end(again);
    return text;
}

const char *ls_printf(ls_worksheet *w, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *text = print(w, format, arguments);
    va_end(arguments);
    return text;
}

/* The label with what the part is of in place of its "%s". */
static const char *full_label(const ls_worksheet *w, const char *label) {
    const char *at = w->of == NULL ? NULL : strstr(label, "%s");
    return at == NULL ? label
                      : ls_printf((ls_worksheet *)(uintptr_t)w, "%.*s%s%s", (int)(at - label), label, w->of, at + 2);
}

ls_worksheet *ls_part(const ls_worksheet *w, const char *of, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *name = print(w, format, arguments);
    va_end(arguments);
    ls_worksheet *part = ls_worksheet_shelf_take(&w->book->shelf, sizeof *part, 1);
    *part = (ls_worksheet){w->book, full_key(w, name), of};
    return part;
}

/* ---- keys. Linear probing. Keys go in the reverse order in which they came, so the slot of one
 * that goes lies on no path to one that stays: it can simply be emptied. ---- */

/* The slot of the key, or the empty one where it would stand. */
static ls_line *slot_of(const ls_worksheet_book *b, const char *key, uint64_t hash) {
    size_t i = (size_t)hash & (b->slots_n - 1);
    for (; b->slots[i] != LS_NO_LINE; i = (i + 1) & (b->slots_n - 1)) {
        const ls_entry *e = &b->lines.at[b->slots[i]]->entry;
        if (e->hash == hash && strcmp(e->key, key) == 0) break;
    }
    return &b->slots[i];
}

ls_line ls_line_find(const ls_worksheet *w, const char *key) {
    const char *whole = full_key(w, key);
    return *slot_of(w->book, whole, ls_text_hash(whole));
}

static ls_line *slot_of_line(const ls_worksheet_book *b, size_t line) {
    return slot_of(b, b->lines.at[line]->entry.key, b->lines.at[line]->entry.hash);
}

static void make_room_for_key(ls_worksheet_book *b) {
    if ((b->lines.n + 1) * 2 <= b->slots_n) return;
    b->slots_n *= 2;
    b->slots = LS_NEW(b->arena, ls_line, b->slots_n);
    for (size_t i = 1; i < b->lines.n; i++) *slot_of_line(b, i) = (ls_line)i;
}

void ls_worksheet_cut(ls_worksheet *w, size_t n) {
    ls_worksheet_book *b = w->book;
    n = n > 0 ? n : 1;
    if (n > b->lines.n) return;
    for (; b->lines.n > n; b->lines.n--)
        if (*slot_of_line(b, b->lines.n - 1) == (ls_line)b->lines.n - 1) *slot_of_line(b, b->lines.n - 1) = LS_NO_LINE;
    b->shelf.end = n == 1 ? (ls_worksheet_place){NULL, 0} : b->lines.at[n - 1]->end;
}

/* ---- lines made ---- */

void ls_worksheet_spoil(ls_worksheet *w, ls_line line, const char *format, ...) {
    ls_entry *e = &w->book->lines.at[line]->entry;
    if (w->book->fault == NULL) {
        va_list arguments;
        va_start(arguments, format);
        const char *why = ls_arena_vprintf(w->book->arena, format, arguments);
        va_end(arguments);
        w->book->fault = ls_arena_printf(w->book->arena, "%s: %s", e->key, why);
    }
    e->op = LS_OP_LEAF;
    e->n = 0;
    e->value = NAN;
    e->spread = ls_spread_exact();
}

/* The units of the inputs put together as the operation does: "ft2 x in". */
static const char *units_in_words(const ls_worksheet *w, const ls_entry *e) {
    ls_text *t = ls_text_new(w->book->arena);
    const char **units = LS_NEW(w->book->arena, const char *, e->n + 1);
    for (size_t i = 0; i < e->n; i++) {
        const char *unit = ls_worksheet_input(w, e, i)->unit.text;
        units[i] = unit[0] == '\0' ? "number" : unit;
    }
    units[e->n] = "1";
    ls_worksheet_words(t, e, units);
    return t->s;
}

static bool has_inputs(ls_worksheet *w, ls_line line) {
    const ls_entry *e = ls_worksheet_entry(w, line);
    for (size_t i = 0; i < e->n; i++)
        if (e->in[i] <= 0 || e->in[i] >= line) {
            ls_worksheet_spoil(w, line, "its input %zu of %zu does not exist", i + 1, e->n);
            return false;
        }
    if (e->n == 0) ls_worksheet_spoil(w, line, "made of nothing");
    return e->n > 0;
}

static bool has_fitting_units(ls_worksheet *w, ls_line line) {
    const ls_entry *e = ls_worksheet_entry(w, line);
    ls_dimension found;
    bool fits = ls_worksheet_operation_of(e->op)->dimension(w, e, &found);
    if (fits && ls_dimension_same(found, e->unit.dimension)) return true;
    const char *unit = e->unit.text[0] == '\0' ? "a bare number" : e->unit.text;
    ls_worksheet_spoil(w, line, "%s does not give %s", units_in_words(w, e), unit);
    return false;
}

static bool has_fitting_curve(ls_worksheet *w, ls_line line) {
    const ls_entry *e = ls_worksheet_entry(w, line);
    if (e->op != LS_OP_INTERPOLATE) return true;
    bool fits = e->curve->n > 0;
    for (size_t i = 1; i < e->curve->n; i++) fits = fits && e->curve->x[i - 1] < e->curve->x[i];
    if (!fits) ls_worksheet_spoil(w, line, "the table it is read from does not rise");
    return fits;
}

/* Weights are dimensionless, so only if they sum to 1 has a mean the unit of what it is a mean of.
 * Unknown weights pass. */
static bool has_fitting_weights(ls_worksheet *w, ls_line line) {
    const ls_entry *e = ls_worksheet_entry(w, line);
    double sum = 0;
    for (size_t i = 1; i < e->n; i += 2) sum += ls_worksheet_x(w, e, i);
    bool fits = e->op != LS_OP_GEOMEAN || !(fabs(sum - 1) > 1e-6);
    if (!fits) ls_worksheet_spoil(w, line, "its weights sum to %.9g, not to 1", sum);
    return fits;
}

ls_entry ls_worksheet_named(ls_worksheet *w, const char *key, const char *label, const char *unit) {
    ls_entry e = {.key = full_key(w, key), .label = full_label(w, label), .unit = ls_unit_of(unit)};
    e.hash = ls_text_hash(e.key);
    e.spread = ls_spread_exact();
    e.origin.at = LS_NOWHERE;
    return e;
}

/* Equal as numbers: of the same draws. */
static bool is_same(double a, double b) { return memcmp(&a, &b, sizeof a) == 0; }

bool ls_worksheet_alike(const ls_entry *a, const ls_entry *b) {
    return a->hash == b->hash && a->spread.kind == b->spread.kind && is_same(a->value, b->value) &&
           is_same(a->spread.scale, b->spread.scale) && is_same(a->spread.df, b->spread.df) &&
           is_same(a->spread.low, b->spread.low) && is_same(a->spread.high, b->spread.high);
}

/* Made in the same way of the same. The key is the same. */
static bool is_same_line(const ls_entry *a, const ls_entry *b, const ls_line *in_b) {
    bool named = a->op == b->op && a->n == b->n && a->curve == b->curve && ls_text_same(a->label, b->label) &&
                 ls_text_same(a->unit.text, b->unit.text);
    if (!named || (a->n > 0 && memcmp(a->in, in_b, a->n * sizeof *in_b) != 0)) return false;
    const ls_origin *x = &a->origin, *y = &b->origin;
    return a->op != LS_OP_LEAF ||
           (ls_worksheet_alike(a, b) && x->kind == y->kind && x->figure == y->figure && x->at.file == y->at.file &&
            x->at.line == y->at.line && x->at.column == y->at.column && ls_text_same(x->words, y->words));
}

ls_line ls_worksheet_append(ls_worksheet *w, ls_entry new, const ls_line *in) {
    ls_worksheet_book *b = w->book;
    if (b->lines.n >= INT32_MAX - 1) ls_fail("too many lines in a worksheet");
    make_room_for_key(b);
    ls_line *slot = slot_of(b, new.key, new.hash), line = (ls_line)b->lines.n, known = *slot;
    if (known != LS_NO_LINE && is_same_line(ls_worksheet_entry(w, known), &new, in)) return known;
    ls_line *inputs = ls_worksheet_shelf_take(&b->shelf, sizeof *in, new.n);
    if (new.n > 0) memcpy(inputs, in, new.n * sizeof *in);
    ls_worksheet_line *l = ls_worksheet_shelf_take(&b->shelf, sizeof *l, 1);
    l->entry = new;
    l->entry.in = inputs;
    l->end = b->shelf.end;
    *LS_PUSH(b->arena, &b->lines) = l;
    if (known != LS_NO_LINE) {
        ls_worksheet_spoil(w, line, "the key is used twice");
        return line;
    }
    *slot = line;
    if (new.op != LS_OP_LEAF && has_inputs(w, line) && has_fitting_units(w, line) && has_fitting_curve(w, line) &&
        has_fitting_weights(w, line))
        l->entry.value = ls_worksheet_operation_of(new.op)->value(w, &l->entry);
    return line;
}
