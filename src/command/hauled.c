#include "hauled.h"

#include <stdlib.h>
#include <string.h>

/* ---- the file ---- */

const char *ls_hauled_path(const ls_run *r) {
    const ls_farm_facts *facts = r->view.farm->facts;
    int32_t file = facts != NULL && facts->at.file >= 0 ? facts->at.file : 0;
    const char *name = ls_diag_input_at(r->diag, file)->name;
    if (facts != NULL && facts->haul_log.text != NULL)
        return ls_farm_beside(r->arena, name, facts->haul_log.text);
    return strcmp(name, LS_STANDARD_INPUT) == 0 ? NULL : ls_log_path(r->arena, name);
}

/* ---- places ---- */

/* The field that is called so, by its buyer and its name. */
static bool find_field(const ls_run *r, const char *name, ls_hauled_drop *out) {
    for (size_t b = 0; b < r->view.farm->buyers.n; b++) {
        const ls_buyer *buyer = &r->view.farm->buyers.at[b];
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

static bool find_place(const ls_run *r, const char *name, ls_hauled_drop *out) {
    *out = (ls_hauled_drop){0};
    return strcmp(name, "stack") == 0 || find_field(r, name, out);
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
static const char *next_drop(const ls_run *r, const char *text, ls_hauled_drops *drops,
                             const char **unknown) {
    static const char between[] = "; ";
    ls_hauled_drop one;
    for (const char *end = text; end != NULL;) {
        end = strstr(end, between);
        char *piece = piece_of(r->arena, text, end);
        double part = cut_tons(piece);
        end = end == NULL ? NULL : end + strlen(between);
        if (find_place(r, piece, &one)) {
            one.tons = part;
            *LS_PUSH(r->arena, drops) = one;
            return end;
        }
    }
    const char *end = strstr(text, between);
    if (*unknown == NULL) {
        char *piece = piece_of(r->arena, text, end);
        cut_tons(piece);
        *unknown = piece;
    }
    return end == NULL ? NULL : end + strlen(between);
}

ls_hauled_drops ls_hauled_places(const ls_run *r, const char *text, double tons,
                                 const char **unknown) {
    ls_hauled_drops drops = {0};
    ls_hauled_drop one;
    *unknown = NULL;
    if (find_place(r, text, &one)) {
        one.tons = tons;
        *LS_PUSH(r->arena, &drops) = one;
        return drops;
    }
    for (const char *rest = text; rest != NULL && rest[0] != '\0';)
        rest = next_drop(r, rest, &drops, unknown);
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

const char *ls_hauled_scaled(const ls_run *r, const char *text, double tons) {
    const char *unknown;
    ls_hauled_drops drops = ls_hauled_places(r, text, tons, &unknown);
    bool told = unknown == NULL && drops.n > 1 && !drops.at[0].guessed;
    return told ? ls_hauled_text(r->arena, drops.at, drops.n) : text;
}

/* ---- entries ---- */

static bool has_lot(const ls_run *r, const char *code) {
    for (size_t i = 0; i < r->view.farm->houses.n; i++) {
        const ls_house *h = &r->view.farm->houses.at[i];
        for (size_t k = 0; k < (h->sides.n > 0 ? h->sides.n : 1); k++)
            if (strcmp(ls_lot_code(r->arena, h, h->sides.n > 0 ? &h->sides.at[k] : NULL), code) ==
                0)
                return true;
    }
    return false;
}

/* The load of an entry. Fields are told only where the files name buyers. */
static ls_hauled load_of(ls_run *r, const ls_log *log, const ls_log_entry *e) {
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
    load.entry = ls_arena_printf(r->arena, "entry %ld of %s, %s", e->number, log->path,
                                 ls_when_text(r->arena, e->when));
    ls_hauled_drops drops = ls_hauled_places(r, where, e->tons, &unknown);
    load.n = unknown == NULL ? drops.n : 0;
    load.drops = drops.at;
    if (unknown != NULL && r->view.farm->buyers.n > 0)
        ls_diag_add(r->diag, LS_WARNING, e->at,
                    "the load counts as gone, but on no field; correct it with --replaces",
                    "entry %ld: the files name no field \"%s\"", e->number, unknown);
    return load;
}

bool ls_run_log(ls_run *r, ls_date before) {
    const char *path = ls_hauled_path(r);
    if (path == NULL)
        return true;
    if (r->log == NULL)
        r->log = ls_log_read(r->arena, r->diag, path);
    if (r->log == NULL) {
        ls_diag_print(r->diag, r->err);
        return false;
    }
    ls_farm *farm = LS_NEW(r->arena, ls_farm, 1);
    *farm = *r->view.farm;
    memset(&farm->hauled, 0, sizeof farm->hauled);
    for (size_t i = 0; i < r->log->entries.n; i++) {
        const ls_log_entry *e = &r->log->entries.at[i];
        if (!ls_log_stands(e) || (before != LS_NO_DATE && e->when.day >= before))
            continue;
        if (has_lot(r, e->ticket.code))
            *LS_PUSH(r->arena, &farm->hauled) = load_of(r, r->log, e);
        else
            ls_diag_add(r->diag, LS_WARNING, e->at,
                        "is it a load of another farm, or is a file not named?",
                        "entry %ld: the files name no lot %s", e->number, e->ticket.code);
    }
    r->view.farm = farm;
    return true;
}
