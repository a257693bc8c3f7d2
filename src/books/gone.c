/* Entries of the haul log as the loads of this farm that are gone. */
#include "books.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* The load of an entry. Fields are told only where the files name buyers. */
static ls_hauled load_of(ls_books *books, const ls_log_entry *e, const ls_coded_lot *lot) {
    const char *where = e->words[LS_LOG_FIELD], *unknown = NULL;
    ls_hauled load = {.lot = lot->code,
                      .ticket = e->ticket.text,
                      .number = strtol(e->ticket.number, NULL, 10),
                      .from_stack = e->ticket.from_stack,
                      .day = e->when.day,
                      .second = e->when.minute < 0 ? -1 : 60 * e->when.minute,
                      .tons = e->tons,
                      .weighed = e->weighed,
                      .truck = ls_farm_truck_named(books->farm, e->words[LS_LOG_TRUCK]),
                      .cleared = e->cleared,
                      .log_entry = e->number};
    if (load.truck != NULL) load.truck_number = ls_farm_truck_number(load.truck, e->words[LS_LOG_TRUCK]);
    load.entry = ls_arena_printf(books->arena, "entry %ld of %s, %s", e->number, books->log->path,
                                 ls_when_text(books->arena, e->when));
    const char *worked_in = e->words[LS_LOG_INCORPORATED];
    bool not = strcmp(worked_in, "not") == 0 || strcmp(worked_in, "no") == 0;
    load.tells_delay = ls_delay_parse(not ? "never" : worked_in, &load.delay);
    ls_hauled_drops drops = ls_hauled_places(books->arena, books->farm, where, e->tons, &unknown);
    if (!isnan(e->acres)) ls_hauled_cover(&drops, e->acres);
    load.n = unknown == NULL ? drops.n : 0;
    load.drops = drops.at;
    if (unknown != NULL && books->farm->buyers.n > 0 && e->when.day >= lot->since)
        ls_diag_add(books->diag, LS_WARNING, e->at,
                    "the load counts as gone, but on no field; correct it with --replaces",
                    "entry %ld: the files name no field \"%s\"", e->number, unknown);
    return load;
}

/* The loads of days before that one. */
static void add_loads(ls_books *books, ls_farm *farm, ls_date before) {
    ls_coded_lots lots = ls_books_lots(books->arena, farm);
    const ls_log_loads loads = ls_log_loads_of(books->arena, books->log);
    for (size_t i = 0; i < loads.n; i++) {
        const ls_log_entry *e = loads.at[i];
        if (before != LS_NO_DATE && e->when.day >= before) continue;
        const ls_coded_lot *lot = ls_books_lot(&lots, e->ticket.code);
        if (lot != NULL && e->when.day >= lot->since)
            *LS_PUSH(books->arena, &farm->hauled) = load_of(books, e, lot);
        else if (lot != NULL)
            *LS_PUSH(books->arena, &farm->hauled_before) = load_of(books, e, lot);
        else
            ls_diag_add(books->diag, LS_WARNING, e->at,
                        "a load of another farm, a file not named, or a new name? formerly: OLD "
                        "NAME keeps its past",
                        "entry %ld: the files have no side or house %s", e->number, e->ticket.code);
    }
}

/* ---- tickets ---- */

static int by_ticket(const void *left, const void *right) {
    const ls_log_entry *a = *(const ls_log_entry *const *)left, *b = *(const ls_log_entry *const *)right;
    int order = strcmp(a->ticket.text, b->ticket.text);
    return order != 0 ? order : (a->first > b->first) - (a->first < b->first);
}

/* The rates that the ticket says for the fields its load went on. */
static void tell_rates(ls_arena *a, const ls_issued *ticket, ls_hauled *load) {
    ls_hauled_drop *drops = LS_NEW(a, ls_hauled_drop, load->n);
    for (size_t k = 0; k < load->n; k++) {
        drops[k] = load->drops[k];
        for (size_t i = ticket->n; i-- > 0 && drops[k].field != NULL;)
            if (ticket->drops[i].field == drops[k].field && ticket->drops[i].acres > 0)
                drops[k].rate = ticket->drops[i].tons / ticket->drops[i].acres;
    }
    load->drops = drops;
}

/* The newest entry before each load that handed its ticket out. */
static void find_tickets(const ls_books *books, const ls_farm *farm) {
    ls_coded_lots lots = ls_books_lots(books->arena, farm);
    const ls_log *log = books->log;
    size_t n = 0;
    const ls_log_entry **all = LS_NEW(books->arena, const ls_log_entry *, log->entries.n);
    for (size_t i = 0; i < log->entries.n; i++)
        if (ls_log_holds(&log->entries.at[i], LS_LOG_ISSUED)) all[n++] = &log->entries.at[i];
    if (n > 1) qsort(all, n, sizeof *all, by_ticket);
    for (size_t i = 0; n > 0 && i < farm->hauled.n; i++) {
        ls_hauled *load = &farm->hauled.at[i];
        const ls_log_entry *own = &log->entries.at[load->log_entry - 1];
        size_t from = 0, to = n; /* the last that is not behind the load's own entry */
        while (from < to) {
            size_t middle = (from + to) / 2;
            if (by_ticket(&all[middle], &own) <= 0)
                from = middle + 1;
            else
                to = middle;
        }
        if (from == 0 || !ls_books_same_ticket(&lots, all[from - 1], own)) continue;
        ls_issued ticket = ls_issued_of(books->arena, farm, &lots, all[from - 1]);
        load->issue = all[from - 1]->number;
        tell_rates(books->arena, &ticket, load);
        load->litter = load->from_stack ? all[from - 1]->words[LS_LOG_ANALYSIS] : NULL;
    }
}

bool ls_books_log(ls_books *books, ls_date before) {
    const char *path = ls_books_log_path(books);
    if (path != NULL && books->log == NULL) books->log = ls_log_read(books->arena, books->diag, path);
    if (path == NULL || books->log == NULL) return path == NULL;
    ls_farm *farm = ls_books_bare(books);
    add_loads(books, farm, before);
    find_tickets(books, farm);
    ls_books_handed(books, farm, before);
    books->farm = farm;
    return true;
}
