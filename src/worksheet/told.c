/* Which leaves rest on figures from memory, and which on rows of the farm's own tables. */
#include "littershed/worksheet.h"

#include <string.h>

typedef struct {
    ls_arena *arena;
    LS_LIST(uint64_t) seen; /* hashes of what was told */
    ls_text *text;
} telling;

static void tell(telling *t, const char *words) {
    uint64_t hash = ls_text_hash(words);
    for (size_t i = 0; i < t->seen.n; i++)
        if (t->seen.at[i] == hash)
            return;
    *LS_PUSH(t->arena, &t->seen) = hash;
    ls_text_addf(t->text, "%s%s", t->text->n > 0 ? "; " : "", words);
}

static const ls_figure *figure_of(const ls_worksheet *w, size_t line, const bool *among) {
    const ls_entry *e = ls_line_at(w, (ls_line)line);
    bool in = among == NULL || among[line];
    return in && e->origin.kind == LS_BY_TABLE ? e->origin.figure : NULL;
}

/* The figure is of a table of one of the kinds; ids begin with the kind. */
static bool is_of(const char *kinds, const ls_figure *f) {
    for (const char *at = kinds; *at != '\0';) {
        size_t n = strcspn(at, "|");
        if (strncmp(f->id, at, n) == 0 && (f->id[n] == '-' || f->id[n] == '/'))
            return true;
        at += n + (at[n] == '|');
    }
    return false;
}

const char *ls_lines_from_memory(ls_arena *a, const ls_worksheet *w, size_t first,
                                 const bool *among, const char *said) {
    telling t = {.arena = a, .text = ls_text_new(a)};
    for (size_t i = first; i < ls_worksheet_lines(w); i++) {
        const ls_figure *f = figure_of(w, i, among);
        if (f != NULL && f->status == LS_MEMORY && !is_of(said, f))
            tell(&t, ls_line_at(w, (ls_line)i)->label);
    }
    return t.text->n > 0 ? t.text->s : NULL;
}

/* The row of a figure's id, which ends with the column. */
static const char *row_of(ls_arena *a, const ls_figure *f) {
    const char *slash = strrchr(f->id, '/');
    return slash == NULL ? f->id : ls_arena_copy_n(a, f->id, (size_t)(slash - f->id));
}

const char *ls_lines_of_own_rows(ls_arena *a, const ls_worksheet *w, size_t first,
                                 const bool *among) {
    telling t = {.arena = a, .text = ls_text_new(a)};
    for (size_t i = first; i < ls_worksheet_lines(w); i++) {
        const ls_figure *f = figure_of(w, i, among);
        if (f != NULL && f->own != NULL)
            tell(&t, ls_arena_printf(a, "%s (%s)", row_of(a, f), f->own));
    }
    return t.text->n > 0 ? t.text->s : NULL;
}
