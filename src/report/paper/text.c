/* Papers as text, a page each, or several. */
#include "paper.h"

#include <string.h>

/* A letter page has 66 lines of six to the inch; printing systems keep half an inch free above and below. */
enum { PAGE = 60, LABEL = 14 };

/* ---- lines ---- */

/* left at the left, right at the right end of one line, or each on its own where that is too narrow. */
static void ends(ls_report_page *p, const char *left, const char *right) {
    const char *a = ls_text_plain(p->arena, left), *b = ls_text_plain(p->arena, right);
    size_t used = ls_text_columns(a) + ls_text_columns(b);
    if (used + 1 > LS_REPORT_WIDTH) {
        if (ls_text_columns(a) <= LS_REPORT_WIDTH)
            ls_text_addf(p->text, "%s\n", a);
        else
            ls_report_say(p, left);
        ls_report_say(p, right);
        return;
    }
    ls_text_left(p->text, a, LS_REPORT_WIDTH - ls_text_columns(b));
    ls_text_addf(p->text, "%s\n", b);
}

/* Blanks share the line behind the label. */
static void blanks(ls_report_page *p, const ls_paper_line *l) {
    size_t n = 0, words = 0;
    for (; l->blanks[n] != NULL; n++) words += ls_text_columns(l->blanks[n]) + 1;
    size_t each = (LS_REPORT_WIDTH - LABEL - words - (n - 1)) / n;
    ls_text_left(p->text, l->label, LABEL);
    for (size_t k = 0; k < n; k++) {
        ls_text_addf(p->text, "%s%s ", k > 0 ? " " : "", l->blanks[k]);
        for (size_t c = 0; c < each; c++) ls_text_add(p->text, "_");
    }
    ls_report_blank(p);
}

static void fact(ls_report_page *p, const ls_paper_line *l) {
    ls_text *label = ls_text_new(p->arena);
    ls_text_left(label, l->label, LABEL);
    ls_report_wrap(p, label->s, ls_arena_printf(p->arena, "%*s", LABEL, ""), l->words);
}

static void line(ls_report_page *p, const ls_paper_line *l) {
    switch (l->rank) {
    case LS_PAPER_LEAD:
    case LS_PAPER_FACT: fact(p, l); break;
    case LS_PAPER_NAME:
        ends(p, l->label, l->words);
        ls_report_rule(p);
        break;
    case LS_PAPER_ITEM: ls_report_item(p, l->words); break;
    case LS_PAPER_BLANKS: blanks(p, l); break;
    default: ls_report_say(p, l->words);
    }
}

/* A blank line between parts. */
static bool parts(const ls_paper_line *before, const ls_paper_line *l) {
    return l->rank == LS_PAPER_HEAD || l->rank == LS_PAPER_END ||
           (l->rank != before->rank &&
            (before->rank == LS_PAPER_LEAD || (l->rank == LS_PAPER_BLANKS && before->rank != LS_PAPER_HEAD)));
}

/* roomy: with room to write above each blank. */
static const char *body_of(const ls_view *v, const ls_paper *paper, bool roomy) {
    ls_report_page p = {v, v->arena, ls_text_new(v->arena)};
    for (size_t i = 0; i < paper->lines.n; i++) {
        const ls_paper_line *l = &paper->lines.at[i];
        if (i > 0 && (parts(l - 1, l) || (roomy && l->rank == LS_PAPER_BLANKS))) ls_report_blank(&p);
        line(&p, l);
    }
    return p.text->s;
}

/* ---- pages ---- */

static size_t lines_of(const char *s) {
    size_t n = 0;
    for (; (s = strchr(s, '\n')) != NULL; s++) n++;
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

/* Where a page of room lines that begins at s ends: before the last blank line in its lower half,
 * so that parts stay together; *next is where the next page begins. */
static const char *page_end(const char *s, size_t room, const char **next) {
    const char *end = behind(s, room);
    *next = end;
    if (*end == '\0') return end;
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
    for (const char *s = body; *s != '\0'; n++) page_end(s, room, &s);
    return n;
}

/* A text of more than one page has its name and the number of the page at the head of each. */
static void add_pages(ls_text *t, const char *name, const char *body) {
    bool one = lines_of(body) <= PAGE;
    size_t room = PAGE - (one ? 0 : lines_of(name) + 1), pages = one ? 1 : pages_of(body, room);
    for (size_t page = 1; page <= pages; page++) {
        const char *next, *end = page_end(body, room, &next);
        ls_text_add(t, t->n > 0 ? "\f" : "");
        if (!one) ls_text_addf(t, "%sPage %zu of %zu\n", name, page, pages);
        ls_text_add_n(t, body, (size_t)(end - body));
        body = next;
    }
}

static const char *name_of(const ls_view *v, const ls_paper *paper) {
    ls_report_page p = {v, v->arena, ls_text_new(v->arena)};
    for (size_t i = 0; i < paper->lines.n; i++)
        if (paper->lines.at[i].rank == LS_PAPER_NAME) ls_report_say(&p, paper->lines.at[i].label);
    return p.text->s;
}

/* Paper is as wide wherever it is read. */
const char *ls_papers_text(const ls_view *v, const ls_papers *all) {
    ls_view paper = *v;
    paper.columns = LS_REPORT_WIDTH;
    ls_text *text = ls_text_new(v->arena);
    for (size_t i = 0; i < all->n; i++) {
        const char *body = body_of(&paper, &all->at[i], true);
        if (lines_of(body) > PAGE) body = body_of(&paper, &all->at[i], false);
        add_pages(text, name_of(&paper, &all->at[i]), body);
    }
    return text->s;
}
