/* Words and the crop year that many files of the room need. */
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

int ls_agronomy_crop_year(const ls_agronomy_plot *p) {
    const ls_field *f = p->field;
    const ls_crew *crew = p->g->farm->crew;
    ls_date opening = LS_GIVEN(f->open)                         ? f->open.days.from
                      : crew != NULL && LS_GIVEN(crew->arrives) ? crew->arrives.day
                                                                : LS_NO_DATE;
    if (LS_GIVEN(f->for_crop)) return (int)f->for_crop.n;
    return opening == LS_NO_DATE ? 0 : ls_date_year(opening);
}
