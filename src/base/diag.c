#include "littershed/base/diag.h"

#include "littershed/base/text.h"
#include "source_line.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    ls_severity severity;
    ls_place at;
    size_t order; /* of noting */
    const char *hint, *message;
} note;

enum { SEVERITIES = 2 };

struct ls_diag {
    ls_arena *arena;
    LS_LIST(ls_input) inputs;
    LS_LIST(note) notes;
    size_t kept[SEVERITIES], count[SEVERITIES];
};

ls_diag *ls_diag_new(ls_arena *a) {
    ls_diag *d = LS_NEW(a, ls_diag, 1);
    d->arena = a;
    return d;
}

int32_t ls_diag_input(ls_diag *d, ls_input input) {
    if (d->inputs.n >= INT32_MAX) ls_fail("too many input files");
    *LS_PUSH(d->arena, &d->inputs) = input;
    return (int32_t)(d->inputs.n - 1);
}

const ls_input *ls_diag_input_at(const ls_diag *d, int32_t file) {
    return file >= 0 && (size_t)file < d->inputs.n ? &d->inputs.at[file] : NULL;
}

static bool is_noted(const ls_diag *d, ls_severity severity, ls_place at, const char *message) {
    LS_EACH (const note, old, d->notes)
        if (old->severity == severity && old->at.file == at.file && old->at.line == at.line &&
            old->at.column == at.column && strcmp(old->message, message) == 0)
            return true;
    return false;
}

bool ls_diag_add(ls_diag *d, ls_severity severity, ls_place at, const char *hint, const char *format, ...) {
    ls_arena_mark mark = ls_arena_here(d->arena);
    va_list arguments;
    va_start(arguments, format);
    const char *message = ls_arena_vprintf(d->arena, format, arguments);
    va_end(arguments);
    bool noted = is_noted(d, severity, at, message);
    if (!noted) d->count[severity]++;
    if (noted || d->kept[severity] == LS_MOST_ERRORS) {
        ls_arena_rewind(d->arena, mark);
        return false;
    }
    d->kept[severity]++;
    note new = {severity, at, d->notes.n, NULL, message};
    if (hint != NULL) new.hint = ls_arena_copy(d->arena, hint);
    *LS_PUSH(d->arena, &d->notes) = new;
    return false;
}

size_t ls_diag_count(const ls_diag *d, ls_severity severity) { return d->count[severity]; }

const ls_diag *ls_diag_of_line(ls_arena *a, const ls_diag *d, uint32_t line) {
    ls_diag *part = ls_diag_new(a);
    for (size_t i = 0; i < d->inputs.n; i++) ls_diag_input(part, d->inputs.at[i]);
    LS_EACH (const note, n, d->notes)
        if (n->at.line == line) ls_diag_add(part, n->severity, n->at, n->hint, "%s", n->message);
    return part;
}

#define COMPARE(x, y)                                                                                                  \
    if ((x) != (y)) return (x) < (y) ? -1 : 1

static int in_file_order(const void *left, const void *right) {
    const note *a = left, *b = right;
    COMPARE(a->at.file, b->at.file);
    COMPARE(a->at.line, b->at.line);
    COMPARE(a->at.column, b->at.column);
    COMPARE(a->order, b->order);
    return 0;
}

static void print_head(ls_arena *a, const ls_diag *d, const note *n, FILE *to) {
    const ls_input *input = ls_diag_input_at(d, n->at.file);
    fputs(input == NULL ? "littershed" : ls_text_plain(a, input->name), to);
    if (input != NULL && n->at.line > 0) fprintf(to, ":%lu", (unsigned long)n->at.line);
    if (input != NULL && n->at.line > 0 && n->at.column > 0) fprintf(to, ":%lu", (unsigned long)n->at.column);
    fprintf(to, ": %s: %s\n", n->severity == LS_ERROR ? "error" : "warning", ls_text_plain(a, n->message));
}

/* Is it told already, of the same file read another time? */
static bool is_told(const ls_diag *d, const note *sorted, size_t i) {
    const ls_input *file = ls_diag_input_at(d, sorted[i].at.file);
    for (size_t k = 0; k < i && file != NULL; k++) {
        ls_place at = sorted[i].at, other = sorted[k].at;
        const ls_input *its = ls_diag_input_at(d, other.file);
        if (its != NULL && strcmp(its->name, file->name) == 0 && other.line == at.line && other.column == at.column &&
            strcmp(sorted[k].message, sorted[i].message) == 0)
            return true;
    }
    return false;
}

/* Equal but for names, which stand in quotes. */
static bool same_but_names(const char *a, const char *b) {
    while (*a != '\0' && *a == *b) {
        bool quote = *a == '"';
        a++, b++;
        if (quote) {
            a += strcspn(a, "\""), b += strcspn(b, "\"");
            a += *a != '\0', b += *b != '\0';
        }
    }
    return *a == *b;
}

/* The same mistake elsewhere: in the same words, or for another name with the same cure. */
static bool is_again(const note *a, const note *b) {
    return a->severity == b->severity && a->at.line > 0 && b->at.line > 0 &&
           (strcmp(a->message, b->message) == 0 ||
            (a->at.line != b->at.line && same_but_names(a->message, b->message) && ls_text_same(a->hint, b->hint)));
}

/* Where else the mistake i is; what to do there, if it is not the same. Marks them as printed. */
static void print_again(ls_arena *a, const ls_diag *d, const note *sorted, size_t i, bool *printed, FILE *to) {
    const note *first = &sorted[i];
    ls_place last = first->at;
    bool any = false;
    for (size_t k = i + 1; k < d->notes.n; k++) {
        const note *n = &sorted[k];
        if (printed[k] || is_told(d, sorted, k) || !is_again(first, n) || !ls_text_same(n->hint, first->hint)) continue;
        printed[k] = true;
        if (n->at.file == last.file && n->at.line == last.line) continue;
        fputs(any ? ", " : "    the same: ", to);
        if (n->at.file == first->at.file)
            fprintf(to, "line %lu", (unsigned long)n->at.line);
        else
            fputs(ls_text_plain(a, ls_diag_where(a, d, n->at)), to);
        any = true;
        last = n->at;
    }
    if (any) fputs("\n", to);
    for (size_t k = i + 1; k < d->notes.n; k++)
        if (!printed[k] && !is_told(d, sorted, k) && is_again(first, &sorted[k])) {
            printed[k] = true;
            fprintf(to, "    %s: %s\n", ls_text_plain(a, ls_diag_where(a, d, sorted[k].at)),
                    ls_text_plain(a, sorted[k].hint == NULL ? "the same" : sorted[k].hint));
        }
}

static void print_rest(const ls_diag *d, ls_severity severity, const char *word, FILE *to) {
    size_t left_out = d->count[severity] - d->kept[severity];
    if (left_out > 0) fprintf(to, "littershed: %zu more %s%s not shown\n", left_out, word, left_out == 1 ? "" : "s");
}

void ls_diag_print(const ls_diag *d, FILE *to) {
    ls_arena *a = ls_arena_new();
    note *sorted = LS_NEW(a, note, d->notes.n);
    if (d->notes.n > 0) {
        memcpy(sorted, d->notes.at, d->notes.n * sizeof *sorted);
        qsort(sorted, d->notes.n, sizeof *sorted, in_file_order);
    }
    ls_source_cursor cursor = {.file = -1};
    bool *printed = LS_NEW(a, bool, d->notes.n);
    for (size_t i = 0; i < d->notes.n; i++) {
        ls_arena_mark mark = ls_arena_here(a);
        const note *n = &sorted[i];
        if (printed[i] || is_told(d, sorted, i)) continue;
        print_head(a, d, n, to);
        const ls_input *input = ls_diag_input_at(d, n->at.file);
        if (input != NULL && n->at.line > 0 && ls_source_seek(&cursor, input, n->at))
            ls_source_print(&cursor, input, n->at, to);
        if (n->hint != NULL) fprintf(to, "    hint: %s\n", ls_text_plain(a, n->hint));
        print_again(a, d, sorted, i, printed, to);
        ls_arena_rewind(a, mark);
    }
    print_rest(d, LS_ERROR, "error", to);
    print_rest(d, LS_WARNING, "warning", to);
    ls_arena_free(a);
}

const char *ls_diag_where(ls_arena *a, const ls_diag *d, ls_place at) {
    const ls_input *input = ls_diag_input_at(d, at.file);
    if (input == NULL) return "";
    if (at.line == 0) return ls_arena_copy(a, input->name);
    return ls_arena_printf(a, "%s:%lu", input->name, (unsigned long)at.line);
}
