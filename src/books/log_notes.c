/* What is to be known of a haul log: loads that count nowhere or on no field, and what befell its file. */
#include "books.h"

#include <string.h>

typedef struct {
    const ls_books *books;
    const char *lead; /* the file of an earlier year, or "" */
    ls_log_notes *to;
} noting;

static void note(const noting *n, const char *words) {
    *LS_PUSH(n->books->arena, n->to) = ls_arena_printf(n->books->arena, "%s%s", n->lead, words);
}

/* How a load that went out counts. */
typedef enum { COUNTS, NO_LOT, EARLIER, NO_FIELD, NO_TRUCK, STANDINGS } standing;

static standing standing_of(const ls_books *books, const ls_coded_lots *lots, const ls_log_entry *e) {
    const char *unknown = NULL;
    if (ls_books_lot(lots, e->ticket.code) == NULL) return NO_LOT;
    if (ls_books_litter(lots, e) == NULL) return EARLIER;
    if (books->farm->buyers.n > 0)
        ls_hauled_places(books->arena, books->farm, e->words[LS_LOG_FIELD], e->tons, &unknown);
    const char *truck = e->words[LS_LOG_TRUCK];
    bool told = truck[0] == '\0' || books->farm->trucks.n < 2 || ls_farm_truck_named(books->farm, truck) != NULL;
    return unknown != NULL ? NO_FIELD : told ? COUNTS : NO_TRUCK;
}

/* Loads that do not count, or not all, each kind in one note: the first of them by name. */
static void note_loads(const noting *n) {
    enum { NAMED = 10 };
    static const char *const why[STANDINGS] = {
        [NO_LOT] = "the farm files name no side or house with such tickets: counted in the log "
                   "alone. Was it renamed? Fix: formerly names it as it was.",
        [EARLIER] = "out before the birds came: litter of before, counted in the log alone.",
        [NO_FIELD] = "the farm files do not name the field: gone, but on no field. Fix: formerly, "
                     "or record --replaces.",
        [NO_TRUCK] = "the farm files name no such truck: its weight tells nothing of what trucks "
                     "hold. Fix: formerly, or record --replaces."};
    const ls_books *books = n->books;
    ls_coded_lots lots = ls_books_lots(books->arena, books->farm);
    ls_text *names[STANDINGS];
    size_t count[STANDINGS] = {0};
    for (int k = 0; k < STANDINGS; k++) names[k] = ls_text_new(books->arena);
    LS_EACH (const ls_log_entry, e, books->log->entries) {
        standing k = ls_log_stands(e) ? standing_of(books, &lots, e) : COUNTS;
        if (k != COUNTS && count[k]++ < NAMED)
            ls_text_addf(names[k], "%s%ld (%s)", count[k] > 1 ? ", " : "", e->number, e->ticket.text);
    }
    for (int k = COUNTS + 1; k < STANDINGS; k++)
        if (count[k] > 0)
            note(n, ls_arena_printf(books->arena, "%s %s%s: %s", count[k] == 1 ? "Entry" : "Entries", names[k]->s,
                                    count[k] > NAMED ? " and more" : "", why[k]));
}

/* Litter of earlier files in the stack whose house these files do not name: no plan has it. */
static void note_strays(const noting *n) {
    const ls_books *books = n->books;
    if (books->earlier.n == 0) return;
    const ls_litters litters = ls_books_litters(books);
    ls_coded_lots lots = ls_books_lots(books->arena, books->farm);
    for (size_t i = 0, next; i < litters.lying.n; i = next) {
        const ls_dossier_piece *x = &litters.lying.at[i];
        double tons = 0;
        for (next = i; next < litters.lying.n && litters.lying.at[next].file == x->file &&
                       strcmp(litters.lying.at[next].code, x->code) == 0;
             next++)
            tons += litters.lying.at[next].mass;
        if (ls_books_lot(&lots, x->code) != NULL) continue;
        const ls_books *of = ls_books_file(books, x->file);
        note(n, ls_arena_printf(books->arena,
                                "The stack holds %s of %s by %s. These files name no such "
                                "house: no plan takes it. Was it renamed? Fix: formerly names it "
                                "as it was, or record with %s where it went.",
                                ls_unit_amount(books->arena, ls_log_tons_text(books->arena, tons), "ton"),
                                of->estimate->lots[x->lot].name, of->name, of->name));
    }
}

static void note_file(const noting *n) {
    ls_arena *a = n->books->arena;
    const ls_log *log = n->books->log;
    LS_EACH (const ls_log_change, c, log->changed) {
        bool load = log->entries.at[c->entry - 1].of == LS_LOG_HAULED;
        note(n, ls_arena_printf(a,
                                "Entry %ld, %s: the log says \"%s\", its copy \"%s\", which "
                                "counts. Fix: %s.",
                                c->entry, c->column, c->now, c->was,
                                load ? ls_arena_printf(a, "record --replaces %ld", c->entry)
                                     : ls_arena_printf(a, "copy %s over the log", ls_log_copy_path(a, log->path))));
    }
    if (log->lost > 0)
        note(n, ls_arena_printf(a,
                                "Its last %s missing in the log and counted by its copy. Fix: "
                                "copy %s over the log.",
                                log->lost == 1 ? "entry is" : ls_arena_printf(a, "%zu entries are", log->lost),
                                ls_log_copy_path(a, log->path)));
    if (log->torn > 0)
        note(n, ls_arena_printf(a,
                                "Its last %zu entries are of a batch that is cut off, and do not "
                                "count. Record or hand out anew what is missing.",
                                log->torn));
    else if (log->unfinished > 0)
        note(n, "Its last line is cut off and does not count.");
}

static void note_all(const ls_books *books, ls_log_notes *to) {
    const noting n = {books, books->name == NULL ? "" : ls_arena_printf(books->arena, "%s: ", books->name), to};
    if (books->log == NULL) return;
    note_loads(&n);
    note_file(&n);
}

ls_log_notes ls_books_log_notes(const ls_books *books) {
    ls_log_notes notes = {0};
    note_all(books, &notes);
    for (size_t i = 0; i < books->earlier.n; i++) note_all(books->earlier.at[i], &notes);
    note_strays(&(noting){books, "", &notes});
    return notes;
}
