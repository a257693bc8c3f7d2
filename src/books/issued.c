/* What was handed out, by the haul log: tickets and slips. */
#include "books.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- what became of tickets ---- */

typedef struct {
    const char *load; /* the same for all tickets of one load, whatever its lot was called */
    const ls_log_entry *entry;
} told;

static int by_load(const void *left, const void *right) {
    const told *a = left, *b = right;
    int order = strcmp(a->load, b->load);
    return order != 0 ? order : a->entry->first < b->entry->first ? -1 : 1;
}

/* Entries of one load, in their order. */
static void find_fates(const told *all, size_t n, ls_ticket_fate *fates) {
    const ls_log_entry *hauled = NULL, *issued = NULL;
    for (size_t i = 0; i < n; i++) *(ls_log_stands(all[i].entry) ? &hauled : &issued) = all[i].entry;
    for (size_t i = 0; i < n; i++)
        fates[all[i].entry->number - 1] =
            (ls_ticket_fate){hauled == NULL ? 0 : hauled->number, issued == NULL ? 0 : issued->number};
}

const ls_ticket_fate *ls_books_fates(const ls_books *books, ls_date before) {
    const ls_log *log = books->log;
    ls_coded_lots lots = ls_books_lots(books->arena, books->farm);
    LS_LIST(told) all = {0};
    ls_ticket_fate *fates = LS_NEW(books->arena, ls_ticket_fate, log->entries.n + 1);
    for (size_t i = 0; i < log->entries.n; i++) {
        const ls_log_entry *e = &log->entries.at[i];
        bool gone = ls_log_stands(e) && (before == LS_NO_DATE || e->when.day < before);
        if (!gone && !ls_log_holds(e, LS_LOG_ISSUED)) continue;
        const ls_coded_lot *lot = ls_books_litter(&lots, e);
        if (lot == NULL && ls_books_lot(&lots, e->ticket.code) != NULL) continue; /* of an earlier litter */
        *LS_PUSH(books->arena, &all) =
            (told){ls_arena_printf(books->arena, "%s-%s%s", lot != NULL ? lot->code : e->ticket.code,
                                   e->ticket.from_stack ? "S" : "", e->ticket.number),
                   e};
    }
    if (all.n > 0) qsort(all.at, all.n, sizeof *all.at, by_load);
    for (size_t i = 0, n; i < all.n; i += n) {
        for (n = 1; i + n < all.n && strcmp(all.at[i].load, all.at[i + n].load) == 0;) n++;
        find_fates(&all.at[i], n, fates);
    }
    return fates;
}

/* ---- tickets ---- */

/* A number with that behind it, stepped over. */
static bool cut_amount(const char **s, const char *behind, double unit, double *out) {
    size_t n = strspn(*s, "0123456789.");
    if (!ls_number_parse(*s, n, out) || strncmp(*s + n, behind, strlen(behind)) != 0) return false;
    *out *= unit;
    *s += n + strlen(behind);
    return true;
}

/* ---- notes ---- */

static const char phone_lead[] = "call ", note_lead[] = "in place of entry ";

const char *ls_books_issue_note(ls_arena *a, const ls_buyer *buyer, const ls_recall *r) {
    const char *phone = buyer == NULL ? NULL : buyer->phone.text;
    ls_text *t = ls_text_new(a);
    if (phone != NULL) ls_text_addf(t, "%s%s", phone_lead, phone);
    if (r != NULL) ls_text_addf(t, "%s%s%ld: %s", t->n > 0 ? "; " : "", note_lead, r->issued->log_entry, r->why);
    return t->s;
}

const char *ls_books_phone(ls_arena *a, const char *note) {
    size_t lead = strlen(phone_lead);
    const char *end = strstr(note, ls_arena_printf(a, "; %s", note_lead));
    if (strncmp(note, phone_lead, lead) != 0) return NULL;
    return ls_arena_copy_n(a, note + lead, (end == NULL ? strlen(note) : (size_t)(end - note)) - lead);
}

const char *ls_books_noted(const ls_books *books, const ls_issued *is) {
    const char *lead = ls_arena_printf(books->arena, "%s%ld: ", note_lead, is->log_entry);
    LS_EACH (const ls_log_entry, e, books->log->entries) {
        const char *at = e->of == LS_LOG_ISSUED ? strstr(e->words[LS_LOG_NOTE], lead) : NULL;
        if (at != NULL) return at + strlen(lead);
    }
    return NULL;
}

/* ---- ways ---- */

/* The length of the name that leads "Larkspur Hay/Upper Meadow (8.6 ton, 2.9 ac)" or, of a yard, "Greenleaf/yard (20
 * ton)"; 0: the text up to its end does not read so. */
static size_t cut_amounts(const char *piece, ls_issued_drop *out) {
    const char *s = piece + strlen(piece);
    while (s > piece && strncmp(s, " (", 2) != 0) s--;
    size_t n = (size_t)(s - piece);
    s += 2;
    double ton = ls_unit_of("ton").factor;
    bool yard = n > 0 && cut_amount(&s, " ton)", ton, &out->tons);
    bool read = yard || (n > 0 && cut_amount(&s, " ton, ", ton, &out->tons) &&
                         cut_amount(&s, " ac)", ls_unit_of("ac").factor, &out->acres));
    return read && *s == '\0' ? n : 0;
}

/* The drop that leads the way of a ticket, up to the first semicolon behind which one ends: names
 * may hold semicolons too. Returns what follows, NULL: nothing. */
static const char *next_drop(ls_arena *a, const ls_farm *farm, const char *way, ls_issued_drop *out) {
    const char *end = way;
    size_t n = 0;
    *out = (ls_issued_drop){0};
    while (end != NULL && n == 0) {
        end = strchr(end + (end > way), ';');
        const char *piece = end == NULL ? way : ls_arena_copy_n(a, way, (size_t)(end - way));
        n = cut_amounts(piece, out);
    }
    const char *unknown;
    out->name = n > 0 ? ls_arena_copy_n(a, way, n) : way;
    ls_hauled_drops field = ls_hauled_places(a, farm, out->name, out->tons, &unknown);
    bool known = unknown == NULL && field.n == 1 && field.at[0].field != NULL;
    out->buyer = known ? field.at[0].buyer : ls_books_owner(farm, out->name, &n);
    out->field = known ? field.at[0].field : NULL;
    return end == NULL ? NULL : end + 1 + strspn(end + 1, " ");
}

ls_issued ls_issued_of(ls_arena *a, const ls_farm *farm, const ls_coded_lots *lots, const ls_log_entry *e) {
    const ls_coded_lot *lot = ls_books_lot(lots, e->ticket.code);
    LS_LIST(ls_issued_drop) drops = {0};
    ls_issued is = {.lot = lot != NULL ? lot->code : e->ticket.code,
                    .ticket = e->ticket.text,
                    .number = strtol(e->ticket.number, NULL, 10),
                    .from_stack = e->ticket.from_stack,
                    .to_stack = strcmp(e->words[LS_LOG_FIELD], "stack") == 0,
                    .certainty = (int)e->sure - LS_LOG_FIRM,
                    .planned = e->planned,
                    .truck_name = e->words[LS_LOG_TRUCK],
                    .truck = ls_farm_truck_named(farm, e->words[LS_LOG_TRUCK]),
                    .handed_out = e->when.day,
                    .tons = e->tons,
                    .phone = ls_books_phone(a, e->words[LS_LOG_NOTE]),
                    .log_entry = e->number};
    for (const char *way = is.to_stack ? NULL : e->words[LS_LOG_FIELD]; way != NULL;) {
        ls_issued_drop *drop = LS_PUSH(a, &drops);
        way = next_drop(a, farm, way, drop);
    }
    is.n = drops.n;
    is.drops = drops.at;
    if (drops.n > 0) {
        size_t n;
        ls_books_owner(farm, drops.at[0].name, &n);
        is.buyer_name = ls_arena_copy_n(a, drops.at[0].name, n);
    }
    return is;
}

const char *ls_books_no_longer(const ls_issued *is) {
    for (size_t i = 0; i < is->n; i++)
        if (is->drops[i].field == NULL) return is->drops[i].buyer == NULL ? is->buyer_name : is->drops[i].name;
    return NULL;
}

static bool goes_to(const ls_issued *is, const ls_field *field) {
    for (size_t i = 0; i < is->n; i++)
        if (is->drops[i].field == field) return true;
    return is->to_stack && field == NULL;
}

bool ls_books_same_way(const ls_issued *is, const ls_hauled_drop *drops, size_t n) {
    bool same = true;
    for (size_t k = 0; k < n; k++) same = same && goes_to(is, drops[k].field);
    return same || ls_books_no_longer(is) != NULL;
}

/* ---- slips ---- */

/* The buyer of that name, now or before; NULL: the files name none. */
static const ls_buyer *named(const ls_farm *farm, const char *name) {
    for (size_t b = 0; b < farm->buyers.n; b++)
        if (strcmp(farm->buyers.at[b].name.text, name) == 0) return &farm->buyers.at[b];
    for (size_t b = 0; b < farm->buyers.n; b++)
        if (ls_text_same(farm->buyers.at[b].formerly.text, name)) return &farm->buyers.at[b];
    return NULL;
}

/* The newest slip of each buyer, in the order of the log. */
static void add_slip(const ls_books *books, ls_farm *farm, const ls_log_entry *e) {
    const ls_log *log = books->log;
    const char *name = e->words[LS_LOG_FIELD];
    const ls_buyer *buyer = named(farm, name);
    ls_promise_slip slip = {.name = buyer != NULL ? buyer->name.text : name,
                            .buyer = buyer,
                            .loads = e->loads,
                            .tons = e->tons,
                            .price = e->price,
                            .phone = ls_books_phone(books->arena, e->words[LS_LOG_NOTE]),
                            .day = e->when.day,
                            .before = e->replaces > 0 ? log->entries.at[e->replaces - 1].when.day : LS_NO_DATE,
                            .log_entry = e->number,
                            .entry = ls_arena_printf(books->arena, "entry %ld of %s", e->number, log->path)};
    for (size_t i = 0; i < farm->promised.n; i++) {
        ls_promise_slip *old = &farm->promised.at[i];
        if (slip.buyer == NULL ? strcmp(old->name, slip.name) == 0 : old->buyer == slip.buyer) {
            *old = slip;
            return;
        }
    }
    *LS_PUSH(books->arena, &farm->promised) = slip;
}

static long loads_had(const ls_books *books, const ls_farm *farm, const ls_promise_slip *slip) {
    ls_books_loads all = ls_books_loads_for(books, farm, slip);
    long n = 0;
    for (size_t i = 0; i < all.n; i++) n += ls_books_tons_to(books, farm, all.at[i], slip) > 0;
    return n;
}

/* Litter of every house is newer: no load can come of the cleanout that the slip was made in. */
static bool is_past(const ls_coded_lots *lots, const ls_log_entry *e) {
    for (size_t i = 0; i < lots->n; i++)
        if (e->when.day >= lots->at[i].since) return false;
    return lots->n > 0;
}

/* As much as others of its lot and kind of truck took in a full one when they were handed out: a
 * firm load of a house is always full, and so are the most tons that several have. */
static bool is_full(const ls_log *log, const ls_log_entry *e) {
    double close = 0.005 * ls_unit_of("ton").factor;
    size_t alike = 0;
    bool most = true;
    LS_EACH (const ls_log_entry, other, log->entries) {
        if (other->of != LS_LOG_ISSUED || strcmp(other->ticket.code, e->ticket.code) != 0 ||
            strcmp(other->words[LS_LOG_TRUCK], e->words[LS_LOG_TRUCK]) != 0)
            continue;
        bool same = fabs(other->tons - e->tons) < close;
        if (same && other->sure == LS_LOG_FIRM && !other->ticket.from_stack) return true;
        if (other->when.day != e->when.day || other->ticket.from_stack != e->ticket.from_stack) continue;
        alike += same;
        most = most && other->tons < e->tons + close;
    }
    return most && alike > 1;
}

void ls_books_handed(const ls_books *books, ls_farm *farm, ls_date before) {
    ls_coded_lots lots = ls_books_lots(books->arena, farm);
    const ls_ticket_fate *fates = ls_books_fates(books, before);
    const ls_log *log = books->log;
    for (size_t i = 0; i < log->entries.n; i++)
        if (ls_log_holds(&log->entries.at[i], LS_LOG_PROMISED) && !is_past(&lots, &log->entries.at[i]))
            add_slip(books, farm, &log->entries.at[i]);
    for (size_t i = 0; i < farm->promised.n; i++)
        farm->promised.at[i].had = loads_had(books, farm, &farm->promised.at[i]);
    for (size_t i = 0; i < log->entries.n; i++) {
        const ls_log_entry *e = &log->entries.at[i];
        if (!ls_log_holds(e, LS_LOG_ISSUED) || fates[i].newest == 0 || fates[i].hauled_as > 0) continue;
        ls_issued is = ls_issued_of(books->arena, farm, &lots, e);
        is.full = is_full(log, e);
        if (fates[i].newest == e->number)
            *LS_PUSH(books->arena, &farm->issued) = is;
        else
            *LS_PUSH(books->arena, &farm->older) = is;
    }
}
