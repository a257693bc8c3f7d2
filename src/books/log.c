/* Where the haul log is, and its words: places and lots of this farm. */
#include "books.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- the file ---- */

const char *ls_books_log_path(const ls_books *books) {
    const ls_farm_facts *facts = books->farm->facts;
    int32_t file = facts != NULL && facts->at.file >= 0 ? facts->at.file : 0;
    const char *name = ls_diag_input_at(books->diag, file)->name;
    if (facts != NULL && facts->haul_log.text != NULL) return ls_farm_beside(books->arena, name, facts->haul_log.text);
    return strcmp(name, LS_STANDARD_INPUT) == 0 ? NULL : ls_log_path(books->arena, name);
}

/* ---- places ---- */

/* Bytes of s that are the name of a thing now or before; 0: neither. */
static size_t called(const ls_name *name, const ls_name *formerly, const char *s, char behind) {
    const char *const names[] = {name->text, formerly->text};
    for (size_t i = 0; i < 2; i++) {
        size_t n = names[i] == NULL ? 0 : strlen(names[i]);
        if (n > 0 && strncmp(names[i], s, n) == 0 && s[n] == behind) return n;
    }
    return 0;
}

/* The field that is called so, by its buyer and its name. */
static bool find_field(const ls_farm *farm, const char *name, ls_hauled_drop *out) {
    LS_EACH (const ls_buyer, buyer, farm->buyers) {
        size_t n = called(&buyer->name, &buyer->formerly, name, '/');
        for (size_t f = 0; n > 0 && f < buyer->fields.n; f++) {
            const ls_field *field = &buyer->fields.at[f];
            if (called(&field->name, &field->formerly, name + n + 1, '\0') == 0) continue;
            *out = (ls_hauled_drop){.buyer = buyer, .field = field};
            return true;
        }
    }
    return false;
}

/* Cut "9 tons", "3 ac" or one of "(9 ton, 3 ac)" off the end of a piece. */
static bool cut_amount(ls_arena *a, char *piece, ls_hauled_drop *out) {
    size_t end = strlen(piece), unit, number;
    while (end > 0 && strchr(" ),", piece[end - 1]) != NULL) end--;
    for (unit = end; unit > 0 && isalpha((unsigned char)piece[unit - 1]); unit--) continue;
    for (number = unit; number > 0 && piece[number - 1] == ' '; number--) continue;
    size_t digits = number;
    while (digits > 0 && strchr("0123456789.", piece[digits - 1]) != NULL) digits--;
    ls_unit of;
    double value;
    if (digits == 0 || strchr(" (", piece[digits - 1]) == NULL ||
        ls_unit_parse(a, piece + unit, end - unit, &of) != LS_UNIT_OK ||
        !ls_number_parse(piece + digits, number - digits, &value))
        return false;
    bool tons = ls_dimension_same(of.dimension, ls_unit_of("ton").dimension);
    if (!tons && !ls_dimension_same(of.dimension, ls_unit_of("ac").dimension)) return false;
    *(tons ? &out->tons : &out->acres) = value * of.factor;
    while (digits > 0 && strchr(" (,", piece[digits - 1]) != NULL) digits--;
    piece[digits] = '\0';
    return true;
}

/* A place, with the amounts behind it; names may end in such a thing too. The piece is cut. */
static bool find_place(ls_arena *a, const ls_farm *farm, char *piece, ls_hauled_drop *out) {
    ls_hauled_drop amounts = {0};
    do {
        *out = (ls_hauled_drop){0};
        if (strcmp(piece, "stack") != 0 && !find_field(farm, piece, out)) continue;
        out->tons = amounts.tons;
        out->acres = amounts.acres;
        return true;
    } while (cut_amount(a, piece, &amounts));
    return false;
}

/* What is told is scaled to the load; one part that tells nothing gets the rest, with nothing told all are alike. */
static void share_out(ls_hauled_drops *drops, double tons) {
    for (size_t i = 0; i < drops->n; i++) {
        drops->told += drops->at[i].tons;
        drops->left += drops->at[i].tons <= 0;
    }
    double rest = drops->left > 0 ? fmax(0, tons - drops->told) : 0;
    for (size_t i = 0; i < drops->n; i++) {
        ls_hauled_drop *drop = &drops->at[i];
        bool all = drops->left == 0 || drops->told > tons;
        drop->guessed = drops->left > 1;
        if (drop->tons <= 0)
            drop->tons = rest / (double)drops->left;
        else if (all)
            drop->tons *= tons / drops->told;
    }
}

/* Text up to there; NULL: all of it. */
static char *piece_of(ls_arena *a, const char *text, const char *end) {
    return end == NULL ? ls_arena_copy(a, text) : ls_arena_copy_n(a, text, (size_t)(end - text));
}

/* The drop that leads text, up to a semicolon: the first one behind which a place ends, for names
 * may hold semicolons too. Returns what follows, NULL: nothing. */
static const char *next_drop(ls_arena *a, const ls_farm *farm, const char *text, ls_hauled_drops *drops,
                             const char **unknown) {
    ls_hauled_drop one;
    char *piece, *first = NULL;
    for (const char *end = text; end != NULL;) {
        end = strchr(end, ';');
        piece = piece_of(a, text, end);
        end = end == NULL ? NULL : end + 1 + strspn(end + 1, " ");
        bool found = find_place(a, farm, piece, &one);
        first = first == NULL ? piece : first;
        if (!found) continue;
        *LS_PUSH(a, drops) = one;
        return end;
    }
    if (*unknown == NULL) *unknown = first;
    const char *end = strchr(text, ';');
    return end == NULL ? NULL : end + 1 + strspn(end + 1, " ");
}

ls_hauled_drops ls_hauled_places(ls_arena *a, const ls_farm *farm, const char *text, double tons,
                                 const char **unknown) {
    ls_hauled_drops drops = {0};
    ls_hauled_drop one;
    *unknown = NULL;
    if (find_place(a, farm, ls_arena_copy(a, text), &one))
        *LS_PUSH(a, &drops) = one;
    else
        for (const char *rest = text; rest != NULL && rest[0] != '\0';)
            rest = next_drop(a, farm, rest, &drops, unknown);
    if (*unknown == NULL) share_out(&drops, tons);
    return drops;
}

void ls_hauled_cover(ls_hauled_drops *drops, double acres) {
    double tons = 0;
    for (size_t i = 0; i < drops->n; i++)
        if (drops->at[i].acres > 0)
            acres -= drops->at[i].acres;
        else if (drops->at[i].field != NULL)
            tons += drops->at[i].tons;
    for (size_t i = 0; acres > 0 && i < drops->n; i++)
        if (drops->at[i].acres <= 0 && drops->at[i].field != NULL)
            drops->at[i].acres = acres * drops->at[i].tons / tons;
}

const char *ls_hauled_text(ls_arena *a, const ls_hauled_drop *drops, size_t n) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < n; i++) {
        ls_text_addf(t, "%s", i > 0 ? "; " : "");
        if (drops[i].field == NULL)
            ls_text_add(t, "stack");
        else
            ls_text_addf(t, "%s/%s", drops[i].buyer->name.text, drops[i].field->name.text);
        if (n > 1) ls_text_addf(t, " (%s ton", ls_log_tons_text(a, drops[i].tons));
        if (n > 1 && drops[i].acres > 0) ls_text_addf(t, ", %s ac", ls_log_acres_text(a, drops[i].acres));
        ls_text_add(t, n > 1 ? ")" : "");
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

/* When the first of its birds came; of flocks alike only the last one's day is told. */
static ls_date litter_since(const ls_house *h) {
    ls_date since = LS_NO_DATE;
    for (size_t i = 0; i < h->flocks.n; i++) {
        const ls_flock *f = &h->flocks.at[i];
        ls_date from = ls_flock_times(f) > 1 ? LS_NO_DATE : ls_house_since(h, f);
        if (i == 0 || from < since) since = from;
    }
    return since;
}

/* The lot, with the codes of the names before, all ways. Side NULL: the whole house. */
static ls_coded_lot coded(ls_arena *a, const ls_house *h, const ls_side *side) {
    ls_coded_lot lot = {.code = ls_lot_code(a, h, side), .name = h->name.text, .house = h, .since = litter_since(h)};
    ls_house house = *h;
    ls_side was = {0};
    if (side != NULL) {
        lot.name = ls_arena_printf(a, "%s/%s", h->name.text, side->name.text);
        was.name = side->formerly;
        if (was.name.text != NULL) lot.before[0] = ls_lot_code(a, h, &was);
    }
    house.name = h->formerly;
    house.code = (ls_name){0};
    if (house.name.text != NULL) lot.before[1] = ls_lot_code(a, &house, side);
    if (house.name.text != NULL && was.name.text != NULL) lot.before[2] = ls_lot_code(a, &house, &was);
    return lot;
}

ls_coded_lots ls_books_lots(ls_arena *a, const ls_farm *farm) {
    ls_coded_lots lots = {0};
    LS_EACH (const ls_house, h, farm->houses) {
        if (h->sides.n == 0) *LS_PUSH(a, &lots) = coded(a, h, NULL);
        for (size_t k = 0; k < h->sides.n; k++) *LS_PUSH(a, &lots) = coded(a, h, &h->sides.at[k]);
    }
    return lots;
}

const ls_coded_lot *ls_books_lot(const ls_coded_lots *lots, const char *code) {
    for (size_t i = 0; i < lots->n; i++)
        if (strcmp(lots->at[i].code, code) == 0) return &lots->at[i];
    for (size_t i = 0; i < lots->n; i++)
        for (size_t k = 0; k < 3; k++)
            if (ls_text_same(lots->at[i].before[k], code)) return &lots->at[i];
    return NULL;
}

const ls_coded_lot *ls_books_litter(const ls_coded_lots *lots, const ls_log_entry *e) {
    const ls_coded_lot *lot = ls_books_lot(lots, e->ticket.code);
    return lot == NULL || e->when.day < lot->since ? NULL : lot;
}

bool ls_books_same_ticket(const ls_coded_lots *lots, const ls_log_entry *a, const ls_log_entry *b) {
    const ls_coded_lot *lot = ls_books_litter(lots, a);
    if (lot != ls_books_litter(lots, b)) return false;
    return lot == NULL
               ? strcmp(a->ticket.text, b->ticket.text) == 0
               : a->ticket.from_stack == b->ticket.from_stack && strcmp(a->ticket.number, b->ticket.number) == 0;
}

const ls_lot *ls_books_lot_of(const ls_estimate *e, const char *code) {
    for (size_t i = 0; e != NULL && i < e->n; i++)
        if (strcmp(e->lots[i].code, code) == 0) return &e->lots[i];
    return NULL;
}
