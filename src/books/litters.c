/* The litter of each load, of all files: whose lot, and so whose report, each part of it is; out of
 * the stack as its ticket says, else first in, first out. */
#include "books.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

typedef LS_LIST(ls_dossier_piece) pieces;

static const size_t not_told = SIZE_MAX; /* a file */
static const double rest = 1;            /* base units: what scales and tarps leave over */

/* By lot, then by day; what goes in on a day goes before what comes out. */
static int by_lot_and_day(const void *left, const void *right) {
    const ls_dossier_piece *a = left, *b = right;
    int order = strcmp(a->code, b->code);
    if (order != 0) return order;
    if (a->day != b->day) return a->day < b->day ? -1 : 1;
    if (a->from_stack != b->from_stack) return a->from_stack ? 1 : -1;
    if (a->log != b->log) return a->log > b->log ? -1 : 1; /* the oldest file is the last */
    return a->load != b->load ? (a->load < b->load ? -1 : 1) : (a->part > b->part) - (a->part < b->part);
}

static int by_load(const void *left, const void *right) {
    const ls_dossier_piece *a = left, *b = right;
    const size_t x[] = {a->log, a->load, a->part, a->n}, y[] = {b->log, b->load, b->part, b->n};
    for (size_t i = 0; i < sizeof x / sizeof *x; i++)
        if (x[i] != y[i]) return x[i] < y[i] ? -1 : 1;
    return 0;
}

const ls_books *ls_books_file(const ls_books *books, size_t file) {
    return file == 0 ? books : books->earlier.at[file - 1];
}

static bool lies(const ls_dossier_piece *x) { return !x->from_stack && x->mass > rest; }

/* What comes out: of the file that its ticket tells what lay there longest, else of all. head: the
 * first of its lot that is left. NULL: none is. */
static ls_dossier_piece *source(ls_dossier_piece *moves, size_t *head, size_t at) {
    while (*head < at && !lies(&moves[*head])) ++*head;
    for (size_t i = *head; moves[at].file != not_told && i < at; i++)
        if (lies(&moves[i]) && moves[i].file == moves[at].file) return &moves[i];
    return *head < at ? &moves[*head] : NULL;
}

/* What was never logged in is of the file that logs it out. */
static void take_out(ls_arena *a, ls_litters *all, ls_dossier_piece *moves, size_t *head, size_t at) {
    double left = moves[at].mass;
    ls_dossier_piece of = moves[at];
    for (of.n = 0; left > rest; of.n++) {
        ls_dossier_piece *from = source(moves, head, at);
        of.mass = from == NULL || left - from->mass <= rest ? left : from->mass;
        of.unlogged = from == NULL;
        of.file = from != NULL ? from->file : of.log;
        of.lot = from != NULL ? from->lot : moves[at].lot;
        of.in = from != NULL ? from->day : LS_NO_DATE;
        of.split = of.n > 0 || of.mass < left;
        if (from != NULL) from->mass -= fmin(from->mass, of.mass);
        *LS_PUSH(a, &all->all) = of;
        left -= of.mass;
    }
}

static ls_dossier_way way_of(const ls_hauled *h, size_t part) {
    const ls_buyer *buyer = h->n > 0 ? h->drops[part].buyer : NULL;
    return h->n == 0        ? LS_WENT_NOWHERE
           : buyer == NULL  ? LS_WENT_TO_STACK
           : buyer->own.yes ? LS_WENT_TO_OWN
                            : LS_WENT_TO_OTHERS;
}

static const char *base_name(const char *path) {
    const char *slash = strrchr(path, '/');
    return slash == NULL ? path : slash + 1;
}

static const char *name_of(const ls_books *books) {
    const ls_farm_facts *facts = books->farm->facts;
    int32_t file = facts != NULL && facts->at.file >= 0 ? facts->at.file : 0;
    return base_name(books->name != NULL ? books->name : ls_diag_input_at(books->diag, file)->name);
}

/* The file whose litter it is by the ticket of a load out of the stack: "2025.yaml: ...". */
static size_t file_told(const ls_books *books, const ls_hauled *load) {
    for (size_t i = 0; load->litter != NULL && i <= books->earlier.n; i++) {
        const char *name = name_of(ls_books_file(books, i));
        size_t n = strlen(name);
        if (strncmp(load->litter, name, n) == 0 && load->litter[n] == ':') return i;
    }
    return not_told;
}

const ls_coded_lots *ls_books_all_lots(const ls_books *books) {
    ls_coded_lots *all = LS_NEW(books->arena, ls_coded_lots, books->earlier.n + 1);
    for (size_t i = 0; i <= books->earlier.n; i++) all[i] = ls_books_lots(books->arena, ls_books_file(books, i)->farm);
    return all;
}

const char *ls_books_code_now(const ls_coded_lots *all, size_t file, const char *code) {
    while (file-- > 0) {
        const ls_coded_lot *lot = ls_books_lot(&all[file], code);
        if (lot != NULL) code = lot->code;
    }
    return code;
}

/* The parts of the loads of a file: those out of the houses, and those by way of the stack. */
static void add_file(const ls_books *books, const ls_coded_lots *lots, size_t file, ls_litters *out, pieces *moves) {
    const ls_farm *farm = ls_books_file(books, file)->farm;
    for (size_t i = 0; i < farm->hauled.n; i++) {
        const ls_hauled *h = &farm->hauled.at[i];
        const ls_coded_lot *lot = ls_books_lot(&lots[file], h->lot);
        for (size_t k = 0; lot != NULL && (k == 0 || k < h->n); k++) {
            ls_dossier_piece of = {.file = h->from_stack ? file_told(books, h) : file,
                                   .lot = (size_t)(lot - lots[file].at),
                                   .code = ls_books_code_now(lots, file, h->lot),
                                   .log = file,
                                   .load = i,
                                   .part = k,
                                   .day = h->day,
                                   .in = LS_NO_DATE,
                                   .from_stack = h->from_stack,
                                   .to = way_of(h, k),
                                   .mass = h->n > 0 ? h->drops[k].tons : h->tons,
                                   .tons = LS_NO_LINE};
            if (!h->from_stack) *LS_PUSH(books->arena, &out->all) = of;
            if (h->from_stack || of.to == LS_WENT_TO_STACK) *LS_PUSH(books->arena, moves) = of;
        }
    }
}

ls_litters ls_books_litters(const ls_books *books) {
    ls_litters out = {0};
    pieces moves = {0};
    const ls_coded_lots *lots = ls_books_all_lots(books);
    for (size_t i = 0; i <= books->earlier.n; i++) add_file(books, lots, i, &out, &moves);
    if (moves.n > 1) qsort(moves.at, moves.n, sizeof *moves.at, by_lot_and_day);
    for (size_t i = 0, head = 0; i < moves.n; i++) {
        if (i > 0 && strcmp(moves.at[i].code, moves.at[i - 1].code) != 0) head = i;
        if (moves.at[i].from_stack) take_out(books->arena, &out, moves.at, &head, i);
    }
    for (size_t i = 0; i < moves.n; i++)
        if (lies(&moves.at[i])) *LS_PUSH(books->arena, &out.lying) = moves.at[i];
    if (out.all.n > 1) qsort(out.all.at, out.all.n, sizeof *out.all.at, by_load);
    return out;
}

/* ---- what earlier files left in the stack ---- */

/* By what the file knows its litter; file_told reads the name. */
static const char *known_by(ls_arena *a, const ls_books *of, const ls_analysis *analysis) {
    ls_line per_ton[LS_NUTRIENTS];
    memcpy(per_ton, analysis->per_ton, sizeof per_ton);
    ls_line_list lines = {.at = per_ton, .n = LS_NUTRIENTS};
    if (analysis->report != NULL)
        return ls_arena_printf(a, "%s: laboratory report of %s", name_of(of),
                               ls_date_words(a, analysis->report->date.day, 0));
    bool memory = ls_lines_from_memory(a, of->sheet, &lines, "") != NULL;
    return ls_arena_printf(a, "%s: published litter, no laboratory report%s", name_of(of),
                           memory ? " (from memory)" : "");
}

/* The entry of the litter of a lot and file, made if there is none. */
static ls_stacked *entry_of(const ls_books *books, ls_farm *farm, const ls_dossier_piece *x) {
    const ls_books *of = ls_books_file(books, x->file);
    for (size_t i = 0; i < farm->stacked.n; i++)
        if (farm->stacked.at[i].from == of->name && strcmp(farm->stacked.at[i].lot, x->code) == 0)
            return &farm->stacked.at[i];
    const ls_analysis *analysis = of->estimate->lots[x->lot].analysis;
    ls_stacked *s = LS_PUSH(books->arena, &farm->stacked);
    *s = (ls_stacked){.lot = x->code,
                      .from = of->name,
                      .by = known_by(books->arena, of, analysis),
                      .alone = true,
                      .report = analysis->report,
                      .reports = analysis->reports,
                      .bird = analysis->bird};
    for (int k = 0; k < LS_NUTRIENTS; k++)
        s->per_ton[k] = ls_line_value(of->sheet, of->estimate->lots[x->lot].per_ton[k].line);
    return s;
}

void ls_books_stacked(const ls_books *books, ls_farm *farm, const ls_litters *litters) {
    ls_books then = *books;
    then.farm = ls_books_bare(books);
    ls_coded_lots lots = ls_books_lots(books->arena, farm);
    const ls_litters before = ls_books_litters(&then);
    memset(&farm->stacked, 0, sizeof farm->stacked);
    for (size_t i = 0; i < before.lying.n; i++)
        if (ls_books_lot(&lots, before.lying.at[i].code) != NULL)
            entry_of(books, farm, &before.lying.at[i])->tons += before.lying.at[i].mass;
    LS_EACH (const ls_dossier_piece, x, litters->lying) {
        for (size_t k = 0; k < farm->stacked.n; k++) {
            ls_stacked *s = &farm->stacked.at[k];
            bool same = strcmp(s->lot, x->code) == 0;
            s->alone = s->alone && !(same && x->file == 0);
            s->left += same && s->from == ls_books_file(books, x->file)->name ? x->mass : 0;
        }
    }
}

const char *ls_books_litter_out(const ls_books *books, const ls_load *load) {
    const ls_analysis *analysis = ls_load_analysis(load);
    return analysis->by != NULL ? analysis->by : known_by(books->arena, books, analysis);
}
