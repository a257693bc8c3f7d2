#include "search.h"

#include <string.h>

static void note_holding(ls_search *s, const char *key) {
    if (s->holding_n < LS_MOST_HOLDING && strstr(key, s->key) != NULL)
        s->holding[s->holding_n++] = ls_arena_copy(s->arena, key);
}

ls_line ls_search_lines(ls_search *s, const ls_worksheet *w, size_t first) {
    ls_line line = ls_line_find(w, s->key);
    if (line != LS_NO_LINE)
        return line;
    size_t lines = ls_worksheet_lines(w), n = 0;
    ls_arena *scratch = ls_arena_new();
    const char **keys = LS_NEW(scratch, const char *, lines - first + 1);
    if (s->near != NULL)
        keys[n++] = s->near;
    for (size_t i = first; i < lines; i++) {
        keys[n++] = ls_line_at(w, (ls_line)i)->key;
        note_holding(s, keys[n - 1]);
    }
    const char *near = ls_text_nearest(s->key, keys, n);
    if (near != NULL && near != s->near)
        s->near = ls_arena_copy(s->arena, near);
    ls_arena_free(scratch);
    return LS_NO_LINE;
}
