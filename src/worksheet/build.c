/* A worksheet grows line by line at its end, and is cut at its end. */
#include "build.h"

#include "ops.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { FIRST_SLOTS = 64 };

ls_worksheet *ls_worksheet_new(ls_arena *a) {
    ls_worksheet *w = LS_NEW(a, ls_worksheet, 1);
    w->arena = a;
    w->shelf.arena = a;
    w->slots_n = FIRST_SLOTS;
    w->slots = LS_NEW(a, ls_line, w->slots_n);
    return w;
}

ls_arena *ls_worksheet_arena(ls_worksheet *w) {
    return w->arena;
}

size_t ls_worksheet_lines(const ls_worksheet *w) {
    return w->lines.n;
}

const char *ls_worksheet_fault(const ls_worksheet *w) {
    return w->fault;
}

static bool exists(const ls_worksheet *w, ls_line line) {
    return line >= 0 && (size_t)line < w->lines.n;
}

const ls_entry *ls_line_at(const ls_worksheet *w, ls_line line) {
    return exists(w, line) ? ls_worksheet_entry(w, line) : NULL;
}

double ls_line_value(const ls_worksheet *w, ls_line line) {
    return exists(w, line) ? ls_worksheet_entry(w, line)->value : NAN;
}

double ls_line_shown(const ls_worksheet *w, ls_line line) {
    return exists(w, line)
               ? ls_worksheet_entry(w, line)->value / ls_worksheet_entry(w, line)->unit.factor
               : NAN;
}

const char *ls_printf(ls_worksheet *w, const char *format, ...) {
    char usual[256]; /* long enough for nearly all, which are then printed once */
    va_list arguments;
    va_start(arguments, format);
    int n = vsnprintf(usual, sizeof usual, format, arguments);
    va_end(arguments);
    if (n < 0)
        ls_fail("a text could not be put together");
    char *text = ls_worksheet_shelf_take(&w->shelf, 1, (size_t)n + 1);
    if ((size_t)n < sizeof usual)
        return memcpy(text, usual, (size_t)n + 1);
    va_start(arguments, format);
    vsnprintf(text, (size_t)n + 1, format, arguments);
    va_end(arguments);
    return text;
}

/* ---- keys. Linear probing. Keys go in the reverse order in which they came, so the slot of one
 * that goes lies on no path to one that stays: it can simply be emptied. ---- */

/* The slot of the key, or the empty one where it would stand. */
static size_t slot_of(const ls_worksheet *w, const char *key, uint64_t hash) {
    size_t i = (size_t)hash & (w->slots_n - 1);
    for (; w->slots[i] != 0; i = (i + 1) & (w->slots_n - 1)) {
        const ls_entry *e = ls_worksheet_entry(w, w->slots[i] - 1);
        if (e->hash == hash && strcmp(e->key, key) == 0)
            break;
    }
    return i;
}

ls_line ls_line_find(const ls_worksheet *w, const char *key) {
    return w->slots[slot_of(w, key, ls_text_hash(key))] - 1;
}

/* False if an earlier line has the key. */
static bool keep_key(ls_worksheet *w, ls_line line) {
    const ls_entry *e = ls_worksheet_entry(w, line);
    size_t i = slot_of(w, e->key, e->hash);
    if (w->slots[i] != 0)
        return false;
    w->slots[i] = line + 1;
    return true;
}

static void drop_key(ls_worksheet *w, ls_line line) {
    const ls_entry *e = ls_worksheet_entry(w, line);
    size_t i = slot_of(w, e->key, e->hash);
    if (w->slots[i] == line + 1)
        w->slots[i] = 0;
}

static void make_room_for_key(ls_worksheet *w) {
    if ((w->lines.n + 1) * 2 <= w->slots_n)
        return;
    w->slots_n *= 2;
    w->slots = LS_NEW(w->arena, ls_line, w->slots_n);
    for (size_t i = 0; i < w->lines.n; i++)
        keep_key(w, (ls_line)i);
}

void ls_worksheet_cut(ls_worksheet *w, size_t n) {
    if (n > w->lines.n)
        return;
    while (w->lines.n > n) {
        drop_key(w, (ls_line)w->lines.n - 1);
        w->lines.n--;
    }
    ls_worksheet_shelf_back(&w->shelf,
                            n == 0 ? (ls_worksheet_place){NULL, 0} : w->lines.at[n - 1]->end);
}

/* ---- lines ---- */

void ls_worksheet_spoil(ls_worksheet *w, ls_line line, const char *format, ...) {
    ls_entry *e = &w->lines.at[line]->entry;
    if (w->fault == NULL) {
        va_list arguments;
        va_start(arguments, format);
        const char *why = ls_arena_vprintf(w->arena, format, arguments);
        va_end(arguments);
        w->fault = ls_arena_printf(w->arena, "%s: %s", e->key, why);
    }
    e->op = LS_OP_LEAF;
    e->n = 0;
    e->value = NAN;
    e->spread = ls_spread_exact();
}

/* The units of the inputs put together as the operation does: "ft2 x in". */
static const char *units_in_words(const ls_worksheet *w, const ls_entry *e) {
    ls_text *t = ls_text_new(w->arena);
    const char **units = LS_NEW(w->arena, const char *, e->n + 1);
    for (size_t i = 0; i < e->n; i++) {
        const char *unit = ls_worksheet_input(w, e, i)->unit.text;
        units[i] = unit[0] == '\0' ? "number" : unit;
    }
    units[e->n] = "1";
    ls_worksheet_operation_of(e->op)->words(t, e, units);
    return t->s;
}

static bool has_inputs(ls_worksheet *w, ls_line line) {
    const ls_entry *e = ls_worksheet_entry(w, line);
    for (size_t i = 0; i < e->n; i++)
        if (e->in[i] < 0 || e->in[i] >= line) {
            ls_worksheet_spoil(w, line, "its input %zu of %zu does not exist", i + 1, e->n);
            return false;
        }
    if (e->n == 0)
        ls_worksheet_spoil(w, line, "made of nothing");
    return e->n > 0;
}

static bool has_fitting_units(ls_worksheet *w, ls_line line) {
    const ls_entry *e = ls_worksheet_entry(w, line);
    ls_dimension found;
    bool fits = ls_worksheet_operation_of(e->op)->dimension(w, e, &found);
    if (fits && ls_dimension_same(found, e->unit.dimension))
        return true;
    const char *unit = e->unit.text[0] == '\0' ? "a bare number" : e->unit.text;
    ls_worksheet_spoil(w, line, "%s does not give %s", units_in_words(w, e), unit);
    return false;
}

static bool has_fitting_curve(ls_worksheet *w, ls_line line) {
    const ls_entry *e = ls_worksheet_entry(w, line);
    if (e->op != LS_OP_INTERPOLATE)
        return true;
    bool fits = e->curve->n > 0;
    for (size_t i = 1; i < e->curve->n; i++)
        fits = fits && e->curve->x[i - 1] < e->curve->x[i];
    if (!fits)
        ls_worksheet_spoil(w, line, "the table it is read from does not rise");
    return fits;
}

/* Weights are dimensionless, so only if they sum to 1 has a mean the unit of what it is a mean of.
 * Unknown weights pass. */
static bool has_fitting_weights(ls_worksheet *w, ls_line line) {
    const ls_entry *e = ls_worksheet_entry(w, line);
    double sum = 0;
    for (size_t i = 1; i < e->n; i += 2)
        sum += ls_worksheet_x(w, e, i);
    bool fits = e->op != LS_OP_GEOMEAN || !(fabs(sum - 1) > 1e-6);
    if (!fits)
        ls_worksheet_spoil(w, line, "its weights sum to %.9g, not to 1", sum);
    return fits;
}

ls_entry ls_worksheet_named(const char *key, const char *label, const char *unit) {
    ls_entry e = {.key = key, .label = label, .unit = ls_unit_of(unit), .hash = ls_text_hash(key)};
    e.spread = ls_spread_exact();
    e.origin.at = LS_NOWHERE;
    return e;
}

ls_line ls_worksheet_append(ls_worksheet *w, ls_entry new, const ls_line *in) {
    if (w->lines.n >= INT32_MAX - 1)
        ls_fail("too many lines in a worksheet");
    make_room_for_key(w);
    ls_line line = (ls_line)w->lines.n;
    ls_line *inputs = ls_worksheet_shelf_take(&w->shelf, sizeof *in, new.n);
    if (new.n > 0)
        memcpy(inputs, in, new.n * sizeof *in);
    ls_worksheet_line *l = ls_worksheet_shelf_take(&w->shelf, sizeof *l, 1);
    l->entry = new;
    l->entry.in = inputs;
    l->end = w->shelf.end;
    *LS_PUSH(w->arena, &w->lines) = l;
    if (!keep_key(w, line))
        ls_worksheet_spoil(w, line, "the key is used twice");
    else if (new.op != LS_OP_LEAF && has_inputs(w, line) && has_fitting_units(w, line) &&
             has_fitting_curve(w, line) && has_fitting_weights(w, line))
        l->entry.value = ls_worksheet_operation_of(new.op)->value(w, &l->entry);
    return line;
}
