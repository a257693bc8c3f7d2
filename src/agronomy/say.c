/* Words that many files of the room need. */
#include "room.h"

#include <stdarg.h>

const char *const ls_field_nutrient[] = {"N", "P2O5", "K2O"};
const int ls_in_litter[] = {LS_N, LS_P2O5, LS_K2O};

void ls_agronomy_flag(ls_agronomy_plot *p, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    *LS_PUSH(p->g->arena, &p->out->flags) = ls_arena_vprintf(p->g->arena, format, arguments);
    va_end(arguments);
}

const char *ls_agronomy_number(ls_agronomy *g, ls_line line) {
    return ls_number_text(g->arena, ls_line_shown(g->w, line), 3);
}

const char *ls_agronomy_source(const ls_source *source, ls_status status) {
    return source == NULL ? ls_status_words(status) : source->id;
}
