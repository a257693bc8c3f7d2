#include "run.h"

#include <stdlib.h>
#include <string.h>

/* ---- looking for a key among lines that come and go, and remembering near ones ---- */

enum { MOST_HOLDING = 5 };

typedef struct {
    const char *key;
    ls_arena *arena;                   /* of near and holding */
    const char *near;                  /* the nearest key so far; NULL: none is near */
    const char *holding[MOST_HOLDING]; /* the first keys that hold the key as a part */
    size_t holding_n;
} search;

static void note_holding(search *s, const char *key) {
    if (s->holding_n < MOST_HOLDING && strstr(key, s->key) != NULL)
        s->holding[s->holding_n++] = ls_arena_copy(s->arena, key);
}

/* The line with the key among the lines from first on; LS_NO_LINE: there is none, and what is near is noted. */
static ls_line find(search *s, const ls_worksheet *w, size_t first) {
    ls_line line = ls_line_find(w, s->key);
    if (line != LS_NO_LINE) return line;
    size_t lines = ls_worksheet_lines(w), n = 0;
    ls_arena *scratch = ls_arena_new();
    const char **keys = LS_NEW(scratch, const char *, lines - first + 1);
    if (s->near != NULL) keys[n++] = s->near;
    for (size_t i = first; i < lines; i++) {
        keys[n++] = ls_line_at(w, (ls_line)i)->key;
        note_holding(s, keys[n - 1]);
    }
    const char *near = ls_text_nearest(s->key, keys, n);
    if (near != NULL && near != s->near) s->near = ls_arena_copy(s->arena, near);
    ls_arena_free(scratch);
    return LS_NO_LINE;
}

/* ---- what is asked ---- */

/* What the lines are looked through for: one figure, or a list of all. */
typedef struct {
    search search;
    ls_text *list;            /* NULL: one figure */
    const ls_document *page;  /* its tree, made at once: lines of fields do not stay */
    LS_LIST(uint64_t) hashes; /* of the keys of fields' lines: a plan makes some of them again */
    bool sorted;              /* all fields are looked at */
} quest;

static int not_found(ls_run *r, const search *s) {
    if (s->near != NULL)
        MISTAKE(r, "there is no figure \"%s\"; did you mean %s?", s->key, s->near);
    else
        MISTAKE(r, "there is no figure \"%s\"", s->key);
    for (size_t i = 0; i < s->holding_n; i++) MISTAKE(r, "there is %s", s->holding[i]);
    return MISTAKE(r, "littershed explain FILE... lists the keys of all figures");
}

static int by_number(const void *a, const void *b) {
    const uint64_t *x = a, *y = b;
    return *x < *y ? -1 : *x > *y;
}

/* Which lines from first on stood in the list before. */
static const bool *listed(const ls_view *v, const quest *q, size_t first) {
    size_t n = ls_worksheet_lines(v->sheet);
    bool *is = LS_NEW(v->arena, bool, n);
    for (size_t i = first; i < n && q->sorted; i++)
        is[i] = bsearch(&ls_line_at(v->sheet, (ls_line)i)->hash, q->hashes.at, q->hashes.n, sizeof *q->hashes.at,
                        by_number) != NULL;
    return is;
}

static void add_lines(ls_run *r, quest *q, size_t first) {
    ls_view view = *ls_run_view(r);
    view.arena = ls_arena_new();
    const bool *skip = listed(&view, q, first);
    ls_text_add(q->list,
                GIVEN(r, ALL) ? ls_report_worksheet_text(&view, first, skip) : ls_report_keys(&view, first, skip));
    ls_arena_free(view.arena);
}

/* Look through the lines from first on; true: the figure is found. */
static bool look(ls_run *r, quest *q, size_t first) {
    if (q->list != NULL) {
        add_lines(r, q, first);
        return false;
    }
    ls_line line = find(&q->search, r->books.sheet, first);
    if (line != LS_NO_LINE) q->page = ls_report_explain(ls_run_view(r), line, r->options->depth);
    return line != LS_NO_LINE;
}

/* The lines from first on are listed and will be given back. */
static void remember(ls_run *r, quest *q, size_t first) {
    for (size_t i = first; q->list != NULL && i < ls_worksheet_lines(r->books.sheet); i++)
        *LS_PUSH(r->arena, &q->hashes) = ls_line_at(r->books.sheet, (ls_line)i)->hash;
}

static void sort(quest *q) {
    if (q->hashes.n > 0) qsort(q->hashes.at, q->hashes.n, sizeof *q->hashes.at, by_number);
    q->sorted = true;
}

/* Looks at the lines of one field, which are given back; done once the figure is found. */
typedef struct {
    ls_run *run;
    quest *quest;
    size_t before;
    bool found;
} field_look;

static bool look_at_field(void *to, const ls_field_rates *rates) {
    field_look *x = to;
    (void)rates; /* of a field that could not be worked out there are lines too */
    x->found = look(x->run, x->quest, x->before);
    remember(x->run, x->quest, x->before);
    return !x->found;
}

static bool look_at_fields(ls_run *r, quest *q) {
    field_look x = {r, q, ls_worksheet_lines(r->books.sheet), false};
    ls_books_each_field(&r->books, look_at_field, &x);
    sort(q);
    return x.found;
}

/* The plan with its tickets, and what to measure next; before: lines that stand already. */
static bool look_at_plan(ls_run *r, quest *q, size_t before) {
    if (ls_books_can_plan(&r->books)) {
        const ls_plan_sums *sums = ls_run_plan(r);
        if (sums == NULL) return false;
        ls_run_tickets(r, sums);
        if (look(r, q, before)) return true;
        before = ls_worksheet_lines(r->books.sheet);
    }
    ls_next_list next = ls_run_next(r);
    ls_books_gaps(&r->books, &next);
    look(r, q, before);
    return true;
}

/* The haul log's sums and the dossier, which makes lines of fields that the tickets made too: those
 * after the first are given back. */
static bool look_at_books(ls_run *r, quest *q, size_t first) {
    remember(r, q, first);
    sort(q);
    ls_worksheet_cut(r->books.sheet, first);
    if (ls_books_log_path(&r->books) != NULL) ls_books_log_sums(&r->books);
    if (ls_run_dossier(r, (ls_dossier_terms){LS_NO_DATE, {LS_NO_DATE, LS_NO_DATE}}) == NULL) return false;
    look(r, q, first);
    return true;
}

/* Room by room, so that nothing is worked out that the figure does not need. False: a mistake in the input, told. */
static bool look_at_rooms(ls_run *r, quest *q) {
    if (!ls_run_estimate(r)) return false;
    if (look(r, q, 1)) return true;
    size_t before = ls_worksheet_lines(r->books.sheet);
    if (ls_books_has_fields(&r->books)) {
        if (!ls_run_agronomy(r)) return false;
        if (look(r, q, before) || look_at_fields(r, q)) return true;
        before = ls_worksheet_lines(r->books.sheet);
    }
    return look_at_plan(r, q, before) && (q->page != NULL || look_at_books(r, q, before));
}

static int explain(ls_run *r) {
    ls_run_operands asked = ls_run_sort(r, true);
    if (asked.second != NULL)
        return MISUSE(r, "explain takes one key; \"%s\" is no file that can be read", asked.second);
    if (asked.files.n == 0)
        return MISUSE(r, "explain needs a farm file; \"%s\" is no file that can be read", asked.word);
    if (asked.word != NULL && GIVEN(r, ALL)) return MISUSE(r, "explain takes a key or --all, not both");
    if (asked.word == NULL && GIVEN(r, FORMAT) && !ls_run_in(r, "text"))
        return MISUSE(r, "explain without a key has only text");
    quest q = {.search = {.key = asked.word, .arena = r->arena}};
    q.list = asked.word == NULL ? ls_text_new(r->arena) : NULL;
    if (!ls_run_farm(r, asked.files.at, asked.files.n) || !ls_run_log(r, LS_NO_DATE) || !look_at_rooms(r, &q))
        return LS_MISTAKE;
    if (q.page == NULL && ls_diag_count(r->books.diag, LS_ERROR) > 0)
        return ls_run_mistake(r); /* a field could not be worked out */
    if (q.list != NULL) return ls_run_finish(r, q.list->s);
    return q.page != NULL ? ls_run_document(r, q.page) : not_found(r, &q.search);
}

const ls_command ls_command_explain = {
    .name = "explain",
    .operands = "FILE... [KEY]",
    .summary = "how a figure came about, down to file lines and sources",
    .help = "Without KEY the keys of all figures, one a line; with --all all figures, each with how it "
            "is made. With KEY how that figure is made, of what, and where the parts come from. A word "
            "that does not end in .yaml or .yml and is no file that can be read is the KEY.",
    .options = LS_OPTIONS_FIGURES | OPTION(FROM) | OPTION(AIM) | OPTION(DEPTH) | OPTION(ALL) | OPTION(PART),
    .exec = explain,
};
