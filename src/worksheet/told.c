/* Which leaves rest on figures from memory, and which on rows of the farm's own tables. */
#include "ops.h"

#include <math.h>
#include <string.h>

typedef struct {
    ls_arena *arena;
    LS_LIST(uint64_t) seen; /* hashes of what was told */
    ls_text *text;
} telling;

static void tell(telling *t, const char *words) {
    uint64_t hash = ls_text_hash(words);
    for (size_t i = 0; i < t->seen.n; i++)
        if (t->seen.at[i] == hash) return;
    *LS_PUSH(t->arena, &t->seen) = hash;
    ls_text_addf(t->text, "%s%s", t->text->n > 0 ? "; " : "", words);
}

static const ls_figure *figure_of(const ls_worksheet *w, size_t line, const bool *among) {
    const ls_entry *e = ls_line_at(w, (ls_line)line);
    bool in = e != NULL && (among == NULL || among[line]);
    return in && e->origin.kind == LS_BY_TABLE ? e->origin.figure : NULL;
}

/* The figure is of a table of one of the kinds; ids begin with the kind. */
static bool is_of(const char *kinds, const ls_figure *f) {
    for (const char *at = kinds; *at != '\0';) {
        size_t n = strcspn(at, "|");
        if (strncmp(f->id, at, n) == 0 && (f->id[n] == '-' || f->id[n] == '/')) return true;
        at += n + (at[n] == '|');
    }
    return false;
}

/* A figure from memory that prints no spread is as uncertain as a single row of contents (common
 * practice); what moves a printed figure by less than a hundredth is not worth a reader's time. */
static const double of_class = 0.35, worth_telling = 0.01;

/* One standard uncertainty of a figure, as far as it moves a leaf of it. */
static double step_of(const ls_entry *leaf) {
    const ls_figure *f = leaf->origin.figure;
    double scale = ls_spread_scale(f->spread, f->value);
    if (f->value == 0) return scale;
    return (scale > 0 ? scale / f->value : of_class) * leaf->value;
}

/* How far that moves every line below `lines`, by first order: one pass from the leaves of the
 * figure, of which first is the first, to what is made of them. */
static void move_lines(const ls_worksheet *w, const ls_figure *f, ls_line first, ls_line lines, double *moved) {
    for (ls_line k = 0; k < first; k++) moved[k] = 0;
    for (ls_line k = first; k < lines; k++) {
        const ls_entry *e = ls_worksheet_entry(w, k);
        moved[k] = 0;
        if (e->op == LS_OP_LEAF) {
            moved[k] = figure_of(w, (size_t)k, NULL) == f ? step_of(e) : 0;
            continue;
        }
        for (size_t i = 0; i < e->n; i++)
            if (moved[e->in[i]] != 0)
                moved[k] += moved[e->in[i]] * ls_worksheet_operation_of(e->op)->derivative(w, e, i);
    }
}

static bool matters(const ls_worksheet *w, const ls_line_list *printed, const double *moved) {
    for (size_t i = 0; i < printed->n; i++) {
        ls_line line = printed->at[i];
        if (line == LS_NO_LINE || moved[line] == 0) continue;
        if (fabs(moved[line]) >= worth_telling * fabs(ls_line_value(w, line))) return true;
    }
    return false;
}

/* No line past the last printed one can move it. */
static ls_line behind(const ls_line_list *printed) {
    ls_line lines = 0;
    for (size_t i = 0; i < printed->n; i++)
        if (printed->at[i] != LS_NO_LINE && printed->at[i] >= lines) lines = printed->at[i] + 1;
    return lines;
}

const char *ls_lines_from_memory(ls_arena *a, const ls_worksheet *w, const ls_line_list *printed, const char *said) {
    telling t = {.arena = a, .text = ls_text_new(a)};
    ls_arena *work = ls_arena_new();
    ls_line lines = behind(printed);
    double *moved = LS_NEW(work, double, (size_t)lines + 1);
    LS_LIST(const ls_figure *) tried = {0}, telling_of = {0};
    for (ls_line k = 1; k < lines; k++) {
        const ls_figure *f = figure_of(w, (size_t)k, NULL);
        if (f == NULL || f->status != LS_MEMORY || is_of(said, f)) continue;
        bool seen = false, tell_it = false;
        for (size_t i = 0; i < tried.n && !seen; i++) seen = tried.at[i] == f;
        if (!seen) {
            *LS_PUSH(work, &tried) = f;
            move_lines(w, f, k, lines, moved);
            if (matters(w, printed, moved)) *LS_PUSH(work, &telling_of) = f;
        }
        for (size_t i = 0; i < telling_of.n && !tell_it; i++) tell_it = telling_of.at[i] == f;
        if (tell_it) tell(&t, ls_line_at(w, k)->label);
    }
    ls_arena_free(work);
    return t.seen.n > 0 ? ls_arena_printf(a, "%zu (%s)", t.seen.n, t.text->s) : NULL;
}

/* The row of a figure's id, which ends with the column. */
static const char *row_of(ls_arena *a, const ls_figure *f) {
    const char *slash = strrchr(f->id, '/');
    return slash == NULL ? f->id : ls_arena_copy_n(a, f->id, (size_t)(slash - f->id));
}

const char *ls_lines_of_own_rows(ls_arena *a, const ls_worksheet *w, size_t first, const bool *among) {
    telling t = {.arena = a, .text = ls_text_new(a)};
    for (size_t i = first; i < ls_worksheet_lines(w); i++) {
        const ls_figure *f = figure_of(w, i, among);
        if (f != NULL && f->own != NULL) tell(&t, ls_arena_printf(a, "%s (%s)", row_of(a, f), f->own));
    }
    return t.text->n > 0 ? t.text->s : NULL;
}
