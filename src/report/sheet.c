#include "sheet.h"

#include <string.h>

ls_report_page ls_report_scrap(const ls_view *v) {
    ls_view *paper = LS_NEW(v->arena, ls_view, 1);
    *paper = *v;
    paper->columns = 0;
    paper->bold = false;
    return (ls_report_page){paper, v->arena, ls_text_new(v->arena)};
}

void ls_report_rule(ls_report_page *p) {
    for (int i = 0; i < LS_REPORT_WIDTH; i++)
        ls_text_add(p->text, "-");
    ls_text_add(p->text, "\n");
}

void ls_report_fact_text(ls_report_page *p, const ls_report_fact *fact) {
    if (fact->label == NULL) {
        ls_report_item(p, 0, "%s", fact->words);
        return;
    }
    ls_text *label = ls_text_new(p->arena);
    ls_text_left(label, fact->label, LS_SHEET_LABEL);
    ls_report_wrap(p, label->s, ls_arena_printf(p->arena, "%*s", LS_SHEET_LABEL, ""), fact->words);
}

void ls_report_facts_text(ls_report_page *p, const ls_report_facts *facts) {
    for (size_t i = 0; i < facts->n; i++)
        ls_report_fact_text(p, &facts->at[i]);
}

void ls_report_ends(ls_report_page *p, const char *left, const char *right) {
    const char *a = ls_text_plain(p->arena, left), *b = ls_text_plain(p->arena, right);
    size_t used = ls_text_columns(a) + ls_text_columns(b);
    if (used + 1 > LS_REPORT_WIDTH) {
        ls_report_wrap(p, "", "", left);
        ls_report_wrap(p, "", "", right);
        return;
    }
    ls_text_left(p->text, a, LS_REPORT_WIDTH - ls_text_columns(b));
    ls_text_addf(p->text, "%s\n", b);
}

/* ---- pages ---- */

static size_t lines_of(const char *s) {
    size_t n = 0;
    for (; (s = strchr(s, '\n')) != NULL; s++)
        n++;
    return n;
}

/* s behind its first n lines, or its end. */
static const char *behind(const char *s, size_t n) {
    for (; n > 0 && *s != '\0'; n--) {
        size_t line = strcspn(s, "\n");
        s += line + (s[line] == '\n');
    }
    return s;
}

bool ls_report_fits_sheet(const char *head, const char *body) {
    return lines_of(head) + lines_of(body) <= LS_SHEET_LINES;
}

/* Where a page of room lines that begins at s ends: before the last blank line in its lower half,
 * so that parts stay together; *next is where the next page begins. */
static const char *page_end(const char *s, size_t room, const char **next) {
    const char *end = behind(s, room);
    *next = end;
    if (*end == '\0')
        return end;
    const char *half = behind(s, room / 2);
    for (const char *at = end; at > half; at--)
        if (at[0] == '\n' && at[-1] == '\n') {
            *next = at + 1;
            return at;
        }
    return end;
}

static size_t pages_of(const char *body, size_t room) {
    size_t n = 0;
    for (const char *s = body; *s != '\0'; n++)
        page_end(s, room, &s);
    return n;
}

void ls_report_sheet(ls_arena *a, ls_text *t, const char *head, const char *body) {
    enum { LEAST = 20 }; /* lines of the body on a page, however long the head */
    /* a head that leaves no room stands on the first page only, cut into pages like the rest */
    if (!ls_report_fits_sheet(head, body) && lines_of(head) + 1 + LEAST > LS_SHEET_LINES) {
        body = ls_arena_printf(a, "%s%s", head, body);
        head = "";
    }
    bool one = ls_report_fits_sheet(head, body);
    size_t room = LS_SHEET_LINES - lines_of(head) - (one ? 0 : 1);
    size_t pages = one ? 1 : pages_of(body, room);
    for (size_t page = 1; page <= pages; page++) {
        const char *next, *end = page_end(body, room, &next);
        ls_text_addf(t, "%s%s", t->n > 0 ? "\f" : "", head);
        if (pages > 1)
            ls_text_addf(t, "Page %zu of %zu\n", page, pages);
        ls_text_add_n(t, body, (size_t)(end - body));
        body = next;
    }
}
