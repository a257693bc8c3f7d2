/* A document as text, as wide as its view. */
#include "writers.h"

#include <string.h>

enum { MOST_COLUMNS = 16, GAP = 2, LEAST_WORDS = 10, WHOLE_WORDS = 18, LONGEST_BAR = 16 };

typedef struct {
    const ls_document *document;
    ls_doc_level level;
    ls_report_page *page;
    bool fresh; /* a heading was just written */
    bool words; /* the last that was written are words */
    bool said;  /* the first sentence or facts in words, which are the answer, are written */
    bool bold;  /* what is being written is the answer */
} writer;

/* A table in words, and how wide its columns are. */
typedef struct {
    const ls_doc_block *block;
    const char *heads[MOST_COLUMNS];
    size_t width[MOST_COLUMNS], least[MOST_COLUMNS], snug[MOST_COLUMNS];
} grid;

static size_t larger(size_t a, size_t b) { return a > b ? a : b; }

static size_t smaller(size_t a, size_t b) { return a < b ? a : b; }

/* The widest word of s, in columns. */
static size_t widest_word(ls_arena *a, const char *s) {
    size_t most = 0;
    for (; *s != '\0'; s += strcspn(s, " ")) {
        s += strspn(s, " ");
        most = larger(most, ls_text_columns(ls_arena_copy_n(a, s, strcspn(s, " "))));
    }
    return most;
}

static const char *shown(const writer *w, const grid *g, size_t r, size_t k) {
    const ls_document *d = w->document;
    if (g->block->columns[k].bar)
        return ls_arena_copy_n(d->arena, "################",
                               ls_doc_bar(g->block, r, k, smaller(g->width[k], LONGEST_BAR)));
    return ls_doc_shown(d, &g->block->rows.at[r].cells[k], &g->block->columns[k], d->view->metric);
}

/* How wide the column would be, and how narrow it may become: words wrap and break, a heading
 * wraps, a figure may only leave its unit below it. */
static void measure(const writer *w, grid *g, size_t k) {
    ls_arena *a = w->page->arena;
    bool number = ls_doc_is_number(&g->block->columns[k]);
    bool whole = g->block->columns[k].whole, days = whole; /* a day stays on one line */
    size_t word = widest_word(a, g->heads[k]);
    g->width[k] = g->block->columns[k].bar ? LONGEST_BAR : 0;
    for (size_t r = 0; r < g->block->rows.n; r++) {
        if (g->block->rows.at[r].cells == NULL) continue;
        const char *s = ls_text_plain(a, shown(w, g, r, k));
        g->width[k] = larger(g->width[k], ls_text_columns(s));
        bool day = g->block->rows.at[r].cells[k].kind == LS_DOC_DAY;
        if (number || day || whole) word = larger(word, day ? ls_text_columns(s) : widest_word(a, s));
        days = days || day;
    }
    g->snug[k] = number ? larger(g->width[k], word) : 0;
    g->width[k] = larger(g->width[k], ls_text_columns(g->heads[k]));
    g->least[k] = whole ? smaller(word, WHOLE_WORDS) : number || days ? word : LEAST_WORDS;
}

/* The widest column that can give way: first headings over figures, then words, then figures; n: none. */
static size_t widest_of(const grid *g) {
    size_t n = g->block->n, widest = n;
    for (int turn = 0; turn < 3 && widest == n; turn++)
        for (size_t k = 0; k < n; k++) {
            bool number = ls_doc_is_number(&g->block->columns[k]);
            size_t least = turn == 0 ? g->snug[k] : g->least[k];
            if (number == (turn != 1) && g->width[k] > least && (widest == n || g->width[k] > g->width[widest]))
                widest = k;
        }
    return widest;
}

/* Columns as wide as they need, or as narrow as they may be; false: they do not fit the page. */
static bool fit(const writer *w, grid *g) {
    size_t n = g->block->n, total = GAP * n;
    for (size_t k = 0; k < n; k++) {
        measure(w, g, k);
        total += g->width[k];
    }
    for (; total > ls_report_width(w->document->view); total--) {
        size_t widest = widest_of(g);
        if (widest == n) return false;
        g->width[widest]--;
    }
    return true;
}

static void add_piece(ls_text *line, const grid *g, size_t k, const char *piece) {
    ls_text_add(line, "  ");
    if (ls_doc_is_number(&g->block->columns[k]))
        ls_text_right(line, piece, g->width[k]);
    else
        ls_text_left(line, piece, g->width[k]);
}

/* Cells beside each other, each wrapped in its column. */
static void add_row(const writer *w, const grid *g, const char *const *cells) {
    ls_arena *a = w->page->arena;
    const char *rest[MOST_COLUMNS];
    bool more = true;
    for (size_t k = 0; k < g->block->n; k++) rest[k] = ls_report_lines(a, cells[k], g->width[k]);
    while (more) {
        ls_text *line = ls_text_new(a);
        more = false;
        for (size_t k = 0; k < g->block->n; k++) {
            size_t n = strcspn(rest[k], "\n");
            add_piece(line, g, k, ls_arena_copy_n(a, rest[k], n));
            rest[k] += n + (rest[k][n] == '\n');
            more = more || *rest[k] != '\0';
        }
        while (line->n > 0 && line->s[line->n - 1] == ' ') line->n--;
        const char *words = ls_arena_copy_n(a, line->s, line->n);
        ls_text_addf(w->page->text, w->bold ? "\033[1m%s\033[0m\n" : "%s\n", words);
    }
}

/* The same in words, where they do not fit beside each other. */
static void add_words(const writer *w, const grid *g, const char *const *cells) {
    ls_text *t = ls_text_new(w->page->arena);
    for (size_t k = 1; k < g->block->n; k++)
        if (g->heads[k][0] != '\0') ls_text_addf(t, "%s%s: %s", t->n > 0 ? "; " : "", g->heads[k], cells[k]);
    ls_report_wrap(w->page, "  ", "    ", cells[0]);
    ls_report_wrap(w->page, "    ", "    ", t->s);
}

static bool any_head(const grid *g) {
    for (size_t k = 0; k < g->block->n; k++)
        if (g->heads[k][0] != '\0') return true;
    return false;
}

static const char *words_of(const writer *w, const ls_doc_cell *cell) {
    return ls_doc_shown(w->document, cell, NULL, w->document->view->metric);
}

static void add_table(writer *w, const ls_doc_block *table) {
    grid g = {.block = ls_doc_told_columns(w->document, table, w->level, true)};
    const char *cells[MOST_COLUMNS];
    if (g.block->n > MOST_COLUMNS) ls_fail("table %s has too many columns for a page", table->key);
    for (size_t k = 0; k < g.block->n; k++)
        g.heads[k] = ls_doc_heading(w->document, &g.block->columns[k], w->document->view->metric);
    bool fits = fit(w, &g);
    if (!w->fresh) ls_report_blank(w->page);
    if (table->label != NULL) ls_report_say(w->page, table->label);
    if (fits && any_head(&g)) add_row(w, &g, g.heads);
    for (size_t r = 0; r < g.block->rows.n; r++) {
        if (g.block->rows.at[r].cells == NULL) {
            ls_report_say(w->page, words_of(w, &g.block->rows.at[r].words));
            continue;
        }
        for (size_t k = 0; k < g.block->n; k++) cells[k] = shown(w, &g, r, k);
        if (fits)
            add_row(w, &g, cells);
        else
            add_words(w, &g, cells);
    }
}

static void add_picture(writer *w, const ls_doc_block *b) {
    if (b->letters == NULL) return;
    if (!w->fresh) ls_report_blank(w->page);
    if (b->label != NULL) ls_report_say(w->page, b->label);
    for (const char *s = b->letters; *s != '\0'; s += s[0] == '\n') {
        size_t n = strcspn(s, "\n");
        const char *line = ls_text_plain(w->page->arena, ls_arena_copy_n(w->page->arena, s, n));
        if (ls_text_columns(line) <= ls_report_width(w->document->view))
            ls_text_addf(w->page->text, "%s\n", line);
        else
            ls_report_say(w->page, line);
        s += n;
    }
}

/* Levels beyond this are drawn like the last one. */
enum { MOST_BARS = 16 };

void ls_doc_entry_text(const ls_document *d, ls_report_page *p, const ls_doc_entry *e) {
    ls_text *bars = ls_text_new(p->arena);
    for (size_t i = 0; i < e->depth && i < MOST_BARS; i++) ls_text_add(bars, "| ");
    const char *lead = ls_arena_printf(p->arena, e->number > 0 ? "%s    " : "%s  ", bars->s);
    const char *number = e->number == 0 ? "" : ls_arena_printf(p->arena, "%zu. ", e->number);
    ls_report_wrap(p, bars->s, bars->s,
                   ls_arena_printf(p->arena, "%s%s: %s, %s%s", number, e->key, e->label,
                                   ls_doc_shown(d, &e->value, NULL, d->view->metric), e->again ? " (above)" : ""));
    for (size_t i = 0; i < e->lines.n; i++) ls_report_wrap(p, lead, lead, e->lines.at[i]);
}

static void add_group(writer *w, const ls_doc_group *g, size_t depth);

static void add_heading(writer *w, const char *heading, size_t depth) {
    if (depth == 0 || !w->fresh) ls_report_blank(w->page);
    ls_report_strong(w->page, heading);
    if (depth == 0) ls_report_rule(w->page);
    w->fresh = true;
}

/* Facts that stand together are one table: *i goes to the last of them. In words they may be the answer. */
static void add_facts(writer *w, const ls_doc_group *g, size_t *i, size_t depth) {
    size_t n;
    const ls_doc_block *facts = ls_doc_facts(g, *i, w->level, &n);
    bool words = facts->n == 2 && !ls_doc_is_number(&facts->columns[1]);
    w->bold = w->document->view->bold && depth == 0 && words && !w->said;
    add_table(w, facts);
    w->said = w->said || (depth == 0 && words);
    w->bold = false;
    *i += n - 1;
}

/* A sentence behind a table stands apart from it; the first of a page, below no heading, is the answer. */
static void add_sentence(writer *w, const ls_doc_cell *cell, size_t depth) {
    if (!w->fresh && !w->words) ls_report_blank(w->page);
    if (depth == 0 && !w->said)
        ls_report_strong(w->page, words_of(w, cell));
    else
        ls_report_say(w->page, words_of(w, cell));
    w->said = w->said || depth == 0;
}

static void add_block(writer *w, const ls_doc_group *g, size_t *i, size_t depth) {
    const ls_doc_block *b = &g->blocks.at[*i];
    bool group = b->kind == LS_DOC_OBJECT || b->kind == LS_DOC_LIST, headed = ls_doc_is_headed(b);
    if (headed) add_heading(w, b->label, depth);
    for (const char *const *item = ls_doc_items(w->document, b, w->level); *item != NULL; item++)
        ls_report_item(w->page, *item);
    if (group)
        add_group(w, b->group, depth + headed);
    else if (b->kind == LS_DOC_FACT)
        add_facts(w, g, i, depth);
    else if (b->kind == LS_DOC_TABLE)
        add_table(w, b);
    else if (b->kind == LS_DOC_SAY)
        add_sentence(w, &b->cell, depth);
    else if (b->kind == LS_DOC_PICTURE)
        add_picture(w, b);
    else if (b->kind == LS_DOC_WRITTEN)
        ls_doc_add_written(w->page->text, b, LS_TEXT, "");
    for (size_t r = 0; b->kind == LS_DOC_SHEET && r < b->rows.n; r++)
        ls_doc_entry_text(w->document, w->page, b->rows.at[r].entry);
    w->fresh = group && w->fresh;
    w->words = group ? w->words : b->kind == LS_DOC_SAY || b->kind == LS_DOC_ITEM;
}

static void add_group(writer *w, const ls_doc_group *g, size_t depth) {
    for (size_t i = 0; i < g->blocks.n; i++)
        if (ls_doc_shows(&g->blocks.at[i], w->level)) add_block(w, g, &i, depth);
}

const char *ls_document_text_items(ls_document *d) {
    ls_report_page page = {d->view, d->arena, ls_text_new(d->arena)};
    writer w = {.document = d, .level = d->view->full ? LS_FULL : LS_FIRST, .page = &page, .said = true};
    add_group(&w, d->top, 0);
    return page.text->s;
}

/* Is a heading the first that is told of the group? It brings a blank line of its own. */
static bool begins_headed(const ls_doc_group *g, ls_doc_level level) {
    LS_EACH (const ls_doc_block, b, g->blocks) {
        if (!ls_doc_shows(b, level)) continue;
        return ls_doc_is_headed(b) || (b->group != NULL && begins_headed(b->group, level));
    }
    return true;
}

const char *ls_document_text(const ls_document *d) {
    writer w = {.document = d, .level = d->view->full ? LS_FULL : LS_FIRST, .page = ls_report_open(d->view, d->about)};
    w.fresh = !begins_headed(d->top, w.level);
    if (w.fresh) ls_report_blank(w.page);
    add_group(&w, d->top, 0);
    ls_report_end(w.page);
    ls_report_say(w.page, ls_doc_more(d));
    return w.page->text->s;
}
