#include "paper.h"

#include <stdarg.h>
#include <string.h>

void ls_paper_add(ls_paper *paper, ls_paper_rank rank, const char *label, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *words = ls_arena_vprintf(paper->page->arena, format, arguments);
    va_end(arguments);
    *LS_PUSH(paper->page->arena, &paper->lines) = (ls_paper_line){rank, label, words, NULL};
}

void ls_paper_blanks(ls_paper *paper, const char *label, const char *const *blanks) {
    *LS_PUSH(paper->page->arena, &paper->lines) = (ls_paper_line){LS_PAPER_BLANKS, label, NULL, blanks};
}

const char *ls_paper_days(const ls_report_page *p, ls_date from, ls_date to) {
    enum { WEEKDAY = 5, MONTH = 4 }; /* "Mon, ", "Feb " */
    const char *first = ls_date_words(p->arena, from, p->view->year),
               *last = ls_date_words(p->arena, to, p->view->year);
    if (from == to) return first;
    bool same = strncmp(first + WEEKDAY, last + WEEKDAY, MONTH) == 0 && ls_date_year(from) == ls_date_year(to) &&
                ls_date_year(to) == p->view->year;
    return same ? ls_arena_printf(p->arena, "%s-%s", first + WEEKDAY, last + WEEKDAY + MONTH)
                : ls_arena_printf(p->arena, "%s - %s", first + WEEKDAY, last + WEEKDAY);
}

const char *ls_paper_farm(const ls_report_page *p) {
    enum { NAME = 60 };
    const ls_farm_facts *f = p->view->farm->facts;
    ls_text *t = ls_text_new(p->arena);
    ls_text_add(t, f == NULL || f->name.text == NULL ? "Farm not named" : ls_report_name(p, f->name.text, NAME));
    if (f != NULL && f->place.text != NULL) ls_text_addf(t, ", %s", ls_report_name(p, f->place.text, NAME));
    if (f != NULL && f->phone.text != NULL) ls_text_addf(t, ", %s", ls_report_name(p, f->phone.text, NAME));
    if (f != NULL && f->permit.text != NULL) ls_text_addf(t, ". Permit: %s", ls_report_name(p, f->permit.text, NAME));
    return t->s;
}

const char *ls_handed_text(const ls_view *v, const ls_handed *handed) {
    if (handed->mark == LS_MARK_DRAFT) return "DRAFT, NOT ISSUED";
    return ls_arena_printf(v->arena, handed->mark == LS_MARK_ISSUED ? "ISSUED %s" : "COPY, issued %s",
                           ls_date_words(v->arena, handed->day, v->year));
}

void ls_paper_starter(ls_paper *paper) {
    const char *words = ls_report_starter_words(paper->page->view);
    if (words != NULL) PUT(paper, BOX, NULL, "%s", words);
}

void ls_paper_log(ls_report_page *p, ls_papers *all) {
    const ls_log_notes *notes = &p->view->log_notes;
    ls_paper paper = {.page = p};
    if (notes->n == 0) return;
    PUT(&paper, NAME, "HAUL LOG", "%s", ls_paper_farm(p));
    PUT(&paper, WORDS, NULL, "For the farm: keep this page.");
    for (size_t i = 0; i < notes->n; i++) PUT(&paper, ITEM, NULL, "%s", notes->at[i]);
    *LS_PUSH(p->arena, all) = paper;
}
