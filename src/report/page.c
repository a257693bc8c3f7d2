#include "page.h"

#include <string.h>

const char ls_report_closing[] = "Planning figures: your local code and licensed plan writer decide.";

size_t ls_report_width(const ls_view *v) { return v->columns == 0 ? LS_REPORT_WIDTH : v->columns; }

const char *ls_report_whose_farm(const ls_view *v) {
    const ls_farm_facts *f = v->farm == NULL ? NULL : v->farm->facts;
    if (f == NULL || f->name.text == NULL) return NULL;
    ls_text *t = ls_text_new(v->arena);
    ls_text_add(t, f->name.text);
    if (f->place.text != NULL) ls_text_addf(t, ", %s", f->place.text);
    if (f->prepared_by.text != NULL) ls_text_addf(t, " (prepared by %s)", f->prepared_by.text);
    return t->s;
}

ls_report_page *ls_report_open(const ls_view *v, const char *about) {
    ls_report_page *p = LS_NEW(v->arena, ls_report_page, 1);
    *p = (ls_report_page){v, v->arena, ls_text_new(v->arena)};
    const char *whose = ls_report_whose_farm(v);
    if (whose != NULL) ls_report_say(p, whose);
    ls_report_strong(p, about);
    return p;
}

void ls_report_rule(ls_report_page *p) {
    for (size_t i = 0; i < ls_report_width(p->view); i++) ls_text_add(p->text, "-");
    ls_text_add(p->text, "\n");
}

void ls_report_end(ls_report_page *p) {
    if (p->view->farm == NULL) return;
    ls_report_blank(p);
    ls_report_rule(p);
    ls_report_say(p, ls_report_closing);
}

void ls_report_blank(ls_report_page *p) { ls_text_add(p->text, "\n"); }

/* Where to break a word wider than columns: behind the last mark within, else at the width. */
static size_t break_at(const char *s, size_t columns) {
    size_t most = ls_text_bytes(s, columns);
    for (size_t i = most; i > most / 2; i--)
        if (strchr("/.-_&?=:,;", s[i - 1]) != NULL) return i;
    return most;
}

/* s with a blank inside each word that is wider than columns. */
static const char *broken(ls_arena *a, const char *s, size_t columns) {
    ls_text *t = ls_text_new(a);
    while (*s != '\0') {
        size_t n = strcspn(s, " \t\n");
        if (n == 0) {
            ls_text_add_n(t, s++, 1);
            continue;
        }
        while (ls_text_columns(ls_arena_copy_n(a, s, n)) > columns) {
            size_t part = break_at(s, columns);
            ls_text_add_n(t, s, part);
            ls_text_add(t, " ");
            s += part;
            n -= part;
        }
        ls_text_add_n(t, s, n);
        s += n;
    }
    return t->s;
}

const char *ls_report_lines(ls_arena *a, const char *s, size_t columns) {
    ls_text *t = ls_text_new(a);
    ls_text_wrap(t, broken(a, ls_text_plain(a, s), columns), 0, columns);
    return t->s;
}

static void wrap(ls_report_page *p, const char *first, const char *rest, const char *s, bool strong) {
    size_t one = ls_text_columns(first), others = ls_text_columns(rest);
    size_t width = ls_report_width(p->view) - (one > others ? one : others);
    const char *lead = first;
    for (const char *line = ls_report_lines(p->arena, s, width); *line != '\0'; lead = rest) {
        size_t n = strcspn(line, "\n");
        ls_text_add(p->text, lead);
        ls_text_add(p->text, strong ? "\033[1m" : "");
        ls_text_add_n(p->text, line, n);
        ls_text_add(p->text, strong ? "\033[0m\n" : "\n");
        line += n + (line[n] == '\n');
    }
}

void ls_report_wrap(ls_report_page *p, const char *first, const char *rest, const char *s) {
    wrap(p, first, rest, s, false);
}

void ls_report_say(ls_report_page *p, const char *words) { wrap(p, "", "", words, false); }

void ls_report_item(ls_report_page *p, const char *words) { wrap(p, "- ", "  ", words, false); }

void ls_report_strong(ls_report_page *p, const char *words) { wrap(p, "", "", words, p->view->bold); }

const char *ls_report_name(const ls_report_page *p, const char *s, size_t columns) {
    return ls_text_fit(p->arena, ls_text_plain(p->arena, s), columns);
}
