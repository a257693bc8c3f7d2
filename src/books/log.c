/* Entries of the haul log as the loads of this farm. */
#include "books.h"

#include <stdlib.h>
#include <string.h>

/* ---- the file ---- */

const char *ls_books_log_path(const ls_books *books) {
    const ls_farm_facts *facts = books->farm->facts;
    int32_t file = facts != NULL && facts->at.file >= 0 ? facts->at.file : 0;
    const char *name = ls_diag_input_at(books->diag, file)->name;
    if (facts != NULL && facts->haul_log.text != NULL)
        return ls_farm_beside(books->arena, name, facts->haul_log.text);
    return strcmp(name, LS_STANDARD_INPUT) == 0 ? NULL : ls_log_path(books->arena, name);
}

/* ---- places ---- */

/* The field that is called so, by its buyer and its name. */
static bool find_field(const ls_farm *farm, const char *name, ls_hauled_drop *out) {
    for (size_t b = 0; b < farm->buyers.n; b++) {
        const ls_buyer *buyer = &farm->buyers.at[b];
        size_t n = strlen(buyer->name.text);
        if (strncmp(buyer->name.text, name, n) != 0 || name[n] != '/')
            continue;
        for (size_t f = 0; f < buyer->fields.n; f++)
            if (strcmp(buyer->fields.at[f].name.text, name + n + 1) == 0) {
                *out = (ls_hauled_drop){buyer, &buyer->fields.at[f], 0, false};
                return true;
            }
    }
    return false;
}

static bool find_place(const ls_farm *farm, const char *name, ls_hauled_drop *out) {
    *out = (ls_hauled_drop){0};
    return strcmp(name, "stack") == 0 || find_field(farm, name, out);
}

/* "NAME (5.2 ton)" as its tons, the name cut off before them; 0: there are none. */
static double cut_tons(char *piece) {
    static const char end[] = " ton)";
    size_t n = strlen(piece);
    char *open = strrchr(piece, '(');
    double tons;
    if (open == NULL || open == piece || open[-1] != ' ' || n < sizeof end ||
        strcmp(piece + n - (sizeof end - 1), end) != 0)
        return 0;
    size_t digits = (size_t)(piece + n - (sizeof end - 1) - (open + 1));
    if (!ls_number_parse(open + 1, digits, &tons))
        return 0;
    open[-1] = '\0';
    return tons * ls_unit_of("ton").factor;
}

/* What is told is scaled to the load; with nothing told all drops are alike. */
static void share_out(ls_hauled_drops *drops, double tons) {
    double told = 0;
    bool all = drops->n > 0;
    for (size_t i = 0; i < drops->n; i++) {
        told += drops->at[i].tons;
        all = all && drops->at[i].tons > 0;
    }
    for (size_t i = 0; i < drops->n; i++) {
        drops->at[i].tons = all ? drops->at[i].tons * tons / told : tons / (double)drops->n;
        drops->at[i].guessed = !all;
    }
}

/* Text up to there; NULL: all of it. */
static char *piece_of(ls_arena *a, const char *text, const char *end) {
    return end == NULL ? ls_arena_copy(a, text) : ls_arena_copy_n(a, text, (size_t)(end - text));
}

/* The drop that leads text, up to a semicolon: the first one behind which a place ends, for names
 * may hold semicolons too. Returns what follows, NULL: nothing. */
static const char *next_drop(ls_arena *a, const ls_farm *farm, const char *text,
                             ls_hauled_drops *drops, const char **unknown) {
    static const char between[] = "; ";
    ls_hauled_drop one;
    for (const char *end = text; end != NULL;) {
        end = strstr(end, between);
        char *piece = piece_of(a, text, end);
        double part = cut_tons(piece);
        end = end == NULL ? NULL : end + strlen(between);
        if (find_place(farm, piece, &one)) {
            one.tons = part;
            *LS_PUSH(a, drops) = one;
            return end;
        }
    }
    const char *end = strstr(text, between);
    if (*unknown == NULL) {
        char *piece = piece_of(a, text, end);
        cut_tons(piece);
        *unknown = piece;
    }
    return end == NULL ? NULL : end + strlen(between);
}

ls_hauled_drops ls_hauled_places(ls_arena *a, const ls_farm *farm, const char *text, double tons,
                                 const char **unknown) {
    ls_hauled_drops drops = {0};
    ls_hauled_drop one;
    *unknown = NULL;
    if (find_place(farm, text, &one)) {
        one.tons = tons;
        *LS_PUSH(a, &drops) = one;
        return drops;
    }
    for (const char *rest = text; rest != NULL && rest[0] != '\0';)
        rest = next_drop(a, farm, rest, &drops, unknown);
    if (*unknown == NULL)
        share_out(&drops, tons);
    return drops;
}

const char *ls_hauled_text(ls_arena *a, const ls_hauled_drop *drops, size_t n) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < n; i++) {
        ls_text_addf(t, "%s", i > 0 ? "; " : "");
        if (drops[i].field == NULL)
            ls_text_add(t, "stack");
        else
            ls_text_addf(t, "%s/%s", drops[i].buyer->name.text, drops[i].field->name.text);
        if (n > 1)
            ls_text_addf(t, " (%s ton)", ls_log_tons_text(a, drops[i].tons));
    }
    return t->s;
}

const char *ls_hauled_scaled(ls_arena *a, const ls_farm *farm, const char *text, double tons) {
    const char *unknown;
    ls_hauled_drops drops = ls_hauled_places(a, farm, text, tons, &unknown);
    bool told = unknown == NULL && drops.n > 1 && !drops.at[0].guessed;
    return told ? ls_hauled_text(a, drops.at, drops.n) : text;
}

/* ---- lots ---- */

ls_coded_lots ls_books_lots(ls_arena *a, const ls_farm *farm) {
    ls_coded_lots lots = {0};
    for (size_t i = 0; i < farm->houses.n; i++) {
        const ls_house *h = &farm->houses.at[i];
        if (h->sides.n == 0)
            *LS_PUSH(a, &lots) = (ls_coded_lot){ls_lot_code(a, h, NULL), h->name.text, h};
        for (size_t k = 0; k < h->sides.n; k++)
            *LS_PUSH(a, &lots) = (ls_coded_lot){
                ls_lot_code(a, h, &h->sides.at[k]),
                ls_arena_printf(a, "%s/%s", h->name.text, h->sides.at[k].name.text), h};
    }
    return lots;
}

const ls_coded_lot *ls_books_lot(const ls_coded_lots *lots, const char *code) {
    for (size_t i = 0; i < lots->n; i++)
        if (strcmp(lots->at[i].code, code) == 0)
            return &lots->at[i];
    return NULL;
}

const ls_lot *ls_books_lot_of(const ls_estimate *e, const char *code) {
    for (size_t i = 0; e != NULL && i < e->n; i++)
        if (strcmp(e->lots[i].code, code) == 0)
            return &e->lots[i];
    return NULL;
}

/* ---- entries ---- */

/* The load of an entry. Fields are told only where the files name buyers. */
static ls_hauled load_of(ls_books *books, const ls_log_entry *e) {
    const char *where = e->words[LS_LOG_FIELD], *unknown = NULL;
    ls_hauled load = {.lot = e->ticket.code,
                      .ticket = e->ticket.text,
                      .number = strtol(e->ticket.number, NULL, 10),
                      .from_stack = e->ticket.from_stack,
                      .day = e->when.day,
                      .tons = e->tons,
                      .weighed = e->weighed,
                      .cleared = e->cleared,
                      .log_entry = e->number};
    load.entry = ls_arena_printf(books->arena, "entry %ld of %s, %s", e->number, books->log->path,
                                 ls_when_text(books->arena, e->when));
    ls_hauled_drops drops = ls_hauled_places(books->arena, books->farm, where, e->tons, &unknown);
    load.n = unknown == NULL ? drops.n : 0;
    load.drops = drops.at;
    if (unknown != NULL && books->farm->buyers.n > 0)
        ls_diag_add(books->diag, LS_WARNING, e->at,
                    "the load counts as gone, but on no field; correct it with --replaces",
                    "entry %ld: the files name no field \"%s\"", e->number, unknown);
    return load;
}

/* The loads of days before that one. */
static void add_loads(ls_books *books, ls_farm *farm, ls_date before) {
    ls_coded_lots lots = ls_books_lots(books->arena, farm);
    for (size_t i = 0; i < books->log->entries.n; i++) {
        const ls_log_entry *e = &books->log->entries.at[i];
        if (!ls_log_stands(e) || (before != LS_NO_DATE && e->when.day >= before))
            continue;
        if (ls_books_lot(&lots, e->ticket.code) != NULL)
            *LS_PUSH(books->arena, &farm->hauled) = load_of(books, e);
        else
            ls_diag_add(books->diag, LS_WARNING, e->at,
                        "is it a load of another farm, or is a file not named?",
                        "entry %ld: the files have no side or house %s", e->number, e->ticket.code);
    }
}

bool ls_books_log(ls_books *books, ls_date before) {
    const char *path = ls_books_log_path(books);
    if (path != NULL && books->log == NULL)
        books->log = ls_log_read(books->arena, books->diag, path);
    if (path == NULL || books->log == NULL)
        return path == NULL;
    ls_farm *farm = ls_books_bare(books);
    add_loads(books, farm, before);
    books->farm = farm;
    return true;
}
