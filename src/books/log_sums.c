/* What the haul log adds up to. */
#include "books.h"

#include <stdlib.h>
#include <string.h>

static void find_entries(ls_books *books, ls_log_sums *s) {
    ls_worksheet *w = books->sheet;
    const ls_log *log = books->log;
    ls_coded_lots lots = ls_books_lots(books->arena, books->farm);
    const ls_ticket_fate *fates = ls_books_fates(books, LS_NO_DATE);
    size_t n = log->entries.n;
    ls_log_loads loads = ls_log_loads_of(books->arena, log);
    ls_logged *all = LS_NEW(books->arena, ls_logged, n), *standing = LS_NEW(books->arena, ls_logged, loads.n);
    for (size_t i = 0; i < n; i++) {
        const ls_log_entry *e = &log->entries.at[i];
        const ls_coded_lot *lot = ls_books_litter(&lots, e), *named = ls_books_lot(&lots, e->ticket.code);
        ls_line tons = ls_leaf_exact(w, ls_printf(w, "haul-log.entry-%ld.tons", e->number),
                                     e->of == LS_LOG_ISSUED     ? "load of a ticket that was handed out"
                                     : e->of == LS_LOG_PROMISED ? "promised to a buyer"
                                     : e->weighed               ? "load weighed over a scale"
                                                                : "load judged by eye",
                                     "ton", e->tons, LS_BY_LOG, ls_printf(w, "entry %ld of %s", e->number, log->path));
        const char *name = lot != NULL     ? lot->name
                           : named != NULL ? ls_printf(w, "%s, litter before", named->name)
                                           : e->ticket.code;
        long newest = fates[i].newest;
        all[i] = (ls_logged){.entry = e,
                             .lot = name,
                             .order = lot != NULL ? (size_t)(lot - lots.at) : lots.n,
                             .known = lot != NULL,
                             .tons = tons,
                             .hauled_as = e->of == LS_LOG_ISSUED ? fates[i].hauled_as : 0,
                             .again_as = newest != e->number ? newest : 0};
    }
    for (; s->n < loads.n; s->n++) standing[s->n] = all[loads.at[s->n]->number - 1];
    s->entries = all;
    s->hauled = standing;
}

/* ---- sums ---- */

static int in_log_order(const ls_log_entry *a, const ls_log_entry *b) {
    if (a->ticket.from_stack != b->ticket.from_stack) return a->ticket.from_stack ? 1 : -1;
    return ls_log_order(a, b);
}

static int by_lot(const void *left, const void *right) {
    const ls_logged *a = left, *b = right;
    if (a->order != b->order) return a->order < b->order ? -1 : 1;
    int order = strcmp(a->lot, b->lot);
    return order != 0 ? order : in_log_order(a->entry, b->entry);
}

static int by_day(const void *left, const void *right) {
    const ls_log_entry *a = ((const ls_logged *)left)->entry, *b = ((const ls_logged *)right)->entry;
    return a->when.day != b->when.day ? (a->when.day < b->when.day ? -1 : 1) : in_log_order(a, b);
}

static int by_origin(const void *left, const void *right) {
    return in_log_order(((const ls_logged *)left)->entry, ((const ls_logged *)right)->entry);
}

typedef int (*order_of)(const void *left, const void *right);

static const ls_logged *sorted(ls_books *books, const ls_log_sums *s, order_of order) {
    ls_logged *copy = LS_NEW(books->arena, ls_logged, s->n);
    if (s->n > 0) {
        memcpy(copy, s->hauled, s->n * sizeof *copy);
        qsort(copy, s->n, sizeof *copy, order);
    }
    return copy;
}

static bool together(const ls_logged *a, const ls_logged *b, order_of order) {
    if (a->entry->ticket.from_stack != b->entry->ticket.from_stack) return false;
    if (order == by_lot) return a->order == b->order && strcmp(a->lot, b->lot) == 0;
    return order != by_day || a->entry->when.day == b->entry->when.day;
}

/* The length of the run of loads that belong together at the head of n. */
static size_t run_of(const ls_logged *h, size_t n, order_of order) {
    size_t run = 1;
    while (run < n && together(h, h + run, order)) run++;
    return run;
}

static ls_line total(ls_books *books, const char *key, const char *label, const ls_logged *h, size_t n) {
    ls_line *parts = LS_NEW(books->arena, ls_line, n);
    for (size_t i = 0; i < n; i++) parts[i] = h[i].tons;
    return ls_sum(books->sheet, key, label, "ton", parts, n);
}

static const char *key_of(ls_books *books, const ls_logged *h, order_of order) {
    ls_worksheet *w = books->sheet;
    const char *end = h->entry->ticket.from_stack ? ".from-stack.tons" : ".tons";
    if (order == by_day) return ls_printf(w, "haul-log.day-%s%s", ls_date_iso(books->arena, h->entry->when.day), end);
    return ls_printf(w, "haul-log.%s-%s%s", h->known ? "lot" : "other-lot", h->entry->ticket.code, end);
}

static void sum_runs(ls_books *books, ls_log_sums *s, order_of order) {
    const ls_logged *h = sorted(books, s, order);
    bool lots = order == by_lot;
    for (size_t i = 0, n; i < s->n; i += n) {
        n = run_of(h + i, s->n - i, order);
        const ls_logged *first = h + i;
        ls_line tons =
            total(books, key_of(books, first, order), lots ? "hauled of the lot" : "hauled on the day", first, n);
        ls_log_sum sum = {lots ? first->lot : NULL, lots ? LS_NO_DATE : first->entry->when.day,
                          first->entry->ticket.from_stack, n, tons};
        if (lots)
            *LS_PUSH(books->arena, &s->lots) = sum;
        else
            *LS_PUSH(books->arena, &s->days) = sum;
    }
}

static void sum_all(ls_books *books, ls_log_sums *s) {
    const ls_logged *h = sorted(books, s, by_origin);
    while (s->house_loads < s->n && !h[s->house_loads].entry->ticket.from_stack) s->house_loads++;
    s->stack_loads = s->n - s->house_loads;
    s->houses = total(books, "haul-log.houses.tons", "hauled out of the houses", h, s->house_loads);
    s->stack = total(books, "haul-log.from-stack.tons", "hauled out of the stack", h + s->house_loads, s->stack_loads);
}

/* ---- places ---- */

/* A part of a load that counts, and where it went. */
typedef struct {
    const ls_log_entry *entry;
    ls_place_kind kind;
    const ls_field *field;
    double tons;
} part;
typedef LS_LIST(part) part_list;

static part_list parts_of(ls_books *books, const ls_log_sums *s) {
    part_list all = {0};
    for (size_t i = 0; i < s->n; i++) {
        const ls_log_entry *e = s->hauled[i].entry;
        const char *where = e->words[LS_LOG_FIELD], *unknown;
        ls_hauled_drops drops = ls_hauled_places(books->arena, books->farm, where, e->tons, &unknown);
        bool told = unknown == NULL && drops.n > 0;
        for (size_t k = 0; k < (told ? drops.n : 1); k++)
            *LS_PUSH(books->arena, &all) =
                told ? (part){e, drops.at[k].field != NULL ? LS_TO_FIELD : LS_TO_STACK, drops.at[k].field,
                              drops.at[k].tons}
                     : (part){e, unknown != NULL ? LS_TO_UNKNOWN : LS_TO_UNTOLD, NULL, e->tons};
    }
    return all;
}

/* The tons of all parts that went there. */
static void sum_place(ls_books *books, ls_log_sums *s, const part_list *all, ls_place_sum to, const char *key,
                      const char *label) {
    ls_worksheet *w = books->sheet;
    ls_books_lines parts = {0};
    LS_EACH (const part, p, *all) {
        if (p->kind != to.kind || p->field != to.field) continue;
        ls_line tons = ls_leaf_exact(w, ls_printf(w, "%s.part-%zu", key, parts.n + 1),
                                     ls_printf(w, "of load %s", p->entry->ticket.text), "ton", p->tons, LS_BY_LOG,
                                     ls_printf(w, "entry %ld of %s, %s", p->entry->number, books->log->path,
                                               ls_when_text(books->arena, p->entry->when)));
        *LS_PUSH(books->arena, &parts) = tons;
    }
    to.loads = parts.n;
    to.tons = ls_sum(w, key, label, "ton", parts.at, parts.n);
    if (parts.n > 0) *LS_PUSH(books->arena, &s->places) = to;
}

static void sum_places(ls_books *books, ls_log_sums *s) {
    static const struct {
        ls_place_kind kind;
        const char *key, *label;
    } others[] = {{LS_TO_STACK, "haul-log.to-stack.tons", "hauled into the stack"},
                  {LS_TO_UNKNOWN, "haul-log.to-unknown.tons", "hauled to places the files do not name"},
                  {LS_TO_UNTOLD, "haul-log.to-untold.tons", "hauled, the log does not say where to"}};
    ls_worksheet *w = books->sheet;
    part_list all = parts_of(books, s);
    LS_EACH (const ls_buyer, buyer, books->farm->buyers)
        LS_EACH (const ls_field, field, buyer->fields)
            sum_place(books, s, &all, (ls_place_sum){LS_TO_FIELD, buyer, field, 0, LS_NO_LINE},
                      ls_printf(w, "haul-log.to-%s.%s.tons", buyer->slug, field->slug),
                      ls_printf(w, "hauled to %s", field->name.text));
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        sum_place(books, s, &all, (ls_place_sum){others[i].kind, NULL, NULL, 0, LS_NO_LINE}, others[i].key,
                  others[i].label);
}

const ls_log_sums *ls_books_log_sums(ls_books *books) {
    ls_log_sums *s = LS_NEW(books->arena, ls_log_sums, 1);
    s->log = books->log;
    find_entries(books, s);
    sum_runs(books, s, by_lot);
    sum_runs(books, s, by_day);
    sum_all(books, s);
    sum_places(books, s);
    return s;
}
