/* How much of the nitrogen counts, by how the litter is spread: shares of organic and ammonium
 * nitrogen, of all nitrogen, or pounds in a ton, as the chosen table has it. */
#include "room.h"

#include <string.h>

static const char *delay_words(ls_agronomy *g, long days) {
    return days == LS_NEVER ? "never"
           : days == 0      ? "at once"
                            : ls_printf(g->w, "within %ld day%s", days, days == 1 ? "" : "s");
}

/* Litter that lies longer loses more: a is as unfavorable as b, or more so. */
static bool not_sooner(long a, long b) { return a == LS_NEVER || (b != LS_NEVER && a >= b); }

static void flag_stand_in(ls_agronomy *g, ls_agronomy_spreading *spread, const char *table, const char *lacks,
                          const char *used) {
    spread->stand_in = ls_printf(g->w, "the table %s has nothing for %s: %s is used", table, lacks, used);
    *LS_PUSH(g->arena, &spread->flags) = spread->stand_in;
}

/* A table that the farm names, or that stands in for one, lacks a row. */
static bool no_row(ls_agronomy *g, const ls_table *t, const char *hint, const char *lacks) {
    const ls_table_names *names = g->farm->tables;
    ls_place at = names == NULL ? LS_NOWHERE : t == g->ammonium ? names->ammonium.at : names->nitrogen.at;
    LS_AGRONOMY_WRONG(g, at, hint, "the table %s has nothing for litter that is worked in %s", t->name, lacks);
    return false;
}

/* A figure of a table as a line; one from memory is said. */
static ls_line counted(ls_agronomy *g, ls_agronomy_spreading *spread, const ls_table *t, const ls_figure *f,
                       const char *key, const char *label, const char *unit) {
    if (f->status == LS_MEMORY)
        *LS_PUSH(g->arena, &spread->flags) = ls_printf(g->w, "the %s table %s is from memory", t->kind, t->name);
    return ls_leaf_figure(ls_part(g->w, NULL, "share"), key, label, unit, f);
}

/* ---- the ammonium table ---- */

/* The row for a delay, or for the next longer one that the table has; NULL: none. */
static const ls_row *row_for(const ls_table *t, long days, long *found) {
    const ls_row *best = NULL;
    for (size_t i = 0; i < t->n; i++) {
        long has;
        if (ls_delay_parse(t->rows[i].name, &has) && not_sooner(has, days) &&
            (best == NULL || not_sooner(*found, has))) {
            best = &t->rows[i];
            *found = has;
        }
    }
    return best;
}

static bool kept_by_table(ls_agronomy *g, ls_agronomy_spreading *spread) {
    const ls_table *t = g->ammonium;
    long found = 0;
    const ls_row *row = row_for(t, spread->days, &found);
    const char *asked = delay_words(g, spread->days), *weather = ls_weather_name(spread->weather);
    const ls_figure *f = ls_row_figure(row, weather);
    if (row != NULL && found != spread->days) flag_stand_in(g, spread, t->name, asked, delay_words(g, found));
    if (row != NULL && f == NULL) {
        f = ls_row_figure(row, "average");
        flag_stand_in(g, spread, t->name, weather, "average weather");
    }
    if (f == NULL) return no_row(g, t, "name another ammonium table, or add the row in a table of your own", asked);
    spread->ammonium =
        counted(g, spread, t, f, ls_text_slug(g->arena, f->id), "share of ammonium N kept after spreading", "%");
    return true;
}

/* ---- the nitrogen table ---- */

/* Of a figure for litter worked in and one for litter left on top, what serves a delay: worked in
 * at once is the one, anything else, for want of figures between, the other. */
static const ls_figure *of_two(ls_agronomy *g, ls_agronomy_spreading *spread, const ls_figure *at_once,
                               const ls_figure *on_top) {
    if (spread->days == 0 && at_once != NULL) return at_once;
    if (on_top != NULL && spread->days != LS_NEVER)
        flag_stand_in(g, spread, g->nitrogen->name, delay_words(g, spread->days), "never");
    return on_top;
}

static bool by_parts(ls_agronomy *g, ls_agronomy_spreading *spread, const ls_row *row) {
    const ls_figure *organic = ls_row_figure(row, "organic"), *total = ls_row_figure(row, "total_incorporated"),
                    *soon = ls_row_figure(row, "ammonium_at_once"), *late = ls_row_figure(row, "ammonium_never");
    if (g->ammonium == NULL && soon == NULL && spread->days == 0 && total != NULL) {
        spread->total = counted(g, spread, g->nitrogen, total, "nitrogen_total_worked_in",
                                "share of all N that counts when worked in soon", "%");
        return true;
    }
    if (organic == NULL)
        return no_row(g, g->nitrogen, "name another nitrogen table", "at all: its organic share is missing");
    spread->organic = counted(g, spread, g->nitrogen, organic, "nitrogen_organic",
                              "share of organic N that counts in the first year", "%");
    if (g->ammonium != NULL) return kept_by_table(g, spread);
    const ls_figure *kept = of_two(g, spread, soon, late);
    if (kept == NULL)
        return no_row(g, g->nitrogen, "name an ammonium table beside it: ammonium: alberta, under tables",
                      delay_words(g, spread->days));
    spread->ammonium =
        ls_leaf_figure(g->w, kept == soon ? "share.nitrogen_ammonium_at_once" : "share.nitrogen_ammonium_never",
                       "share of ammonium N that counts", "%", kept);
    return true;
}

/* A table that counts all nitrogen at once: a share of it, or pounds in a ton. */
static bool by_whole(ls_agronomy *g, ls_agronomy_spreading *spread, const ls_row *row, const char *form) {
    bool share = strcmp(form, "total") == 0;
    const ls_figure *f = share ? ls_row_figure(row, "total") : NULL;
    if (f == NULL)
        f = of_two(g, spread, ls_row_figure(row, share ? "total_incorporated" : "per_ton_incorporated"),
                   ls_row_figure(row, share ? "total_surface" : "per_ton_surface"));
    if (f == NULL) return no_row(g, g->nitrogen, "name another nitrogen table", delay_words(g, spread->days));
    *(share ? &spread->total : &spread->per_ton) = counted(g, spread, g->nitrogen, f, ls_text_slug(g->arena, f->id),
                                                           share ? "share of all N that counts in the first season"
                                                                 : "usable N in a ton of litter, whatever it holds",
                                                           share ? "%" : "lb/ton");
    if (g->ammonium != NULL)
        *LS_PUSH(g->arena, &spread->flags) =
            ls_printf(g->w, "the ammonium table %s is not used: the nitrogen table %s counts all nitrogen together",
                      g->ammonium->name, g->nitrogen->name);
    return true;
}

static bool fill(ls_agronomy *g, ls_agronomy_spreading *spread) {
    const ls_row *row = ls_table_row(g->nitrogen, "factors");
    const char *form = ls_row_word(row, "form");
    spread->slug = ls_printf(g->w, "%s.%s", ls_text_slug(g->arena, delay_words(g, spread->days)),
                             ls_text_slug(g->arena, ls_weather_name(spread->weather)));
    if (form == NULL || strcmp(form, "organic+ammonium") == 0) return by_parts(g, spread, row);
    return by_whole(g, spread, row, form);
}

/* ---- how litter is spread, as far as it occurs ---- */

static long delay_of_field(const ls_field *f) { return LS_GIVEN(f->incorporated) ? f->incorporated.days : LS_NEVER; }

static int weather_of_field(const ls_field *f) { return f->weather.is == 0 ? LS_AVERAGE : f->weather.is; }

static size_t find(const ls_agronomy *g, long days, int weather) {
    size_t i = 0;
    while (i < g->spreadings_n && (g->spreadings[i].days != days || g->spreadings[i].weather != weather)) i++;
    return i;
}

size_t ls_agronomy_spreading_of(const ls_agronomy *g, const ls_field *f) {
    return find(g, delay_of_field(f), weather_of_field(f));
}

typedef LS_LIST(ls_agronomy_spreading) spreading_list;

static bool add(ls_agronomy *g, spreading_list *all, long days, int weather) {
    if (find(g, days, weather) < g->spreadings_n) return true;
    ls_agronomy_spreading *spread = LS_PUSH(g->arena, all);
    spread->days = days;
    spread->weather = weather;
    bool good = fill(g, spread);
    g->spreadings = all->at;
    g->spreadings_n = all->n;
    return good;
}

bool ls_agronomy_spreadings(ls_agronomy *g) {
    spreading_list all = {0};
    bool good = true;
    LS_EACH (const ls_buyer, b, g->farm->buyers)
        LS_EACH (const ls_field, f, b->fields) good = add(g, &all, delay_of_field(f), weather_of_field(f)) && good;
    LS_EACH (const ls_hauled, h, g->farm->hauled)
        for (size_t k = 0; h->tells_delay && k < h->n; k++)
            if (h->drops[k].field != NULL) good = add(g, &all, h->delay, weather_of_field(h->drops[k].field)) && good;
    return good;
}

ls_line ls_agronomy_pan(const ls_agronomy *g, const ls_field *f, const ls_rate *rate, const ls_hauled *load) {
    if (!load->tells_delay || load->delay == delay_of_field(f)) return rate->pan;
    size_t way = find(g, load->delay, weather_of_field(f));
    for (size_t i = 0; i < g->litters_n; i++)
        if (g->litters[i].analysis == rate->lot->analysis) return ls_agronomy_used(f, &g->litters[i].pan[way]);
    for (size_t i = 0; i < g->others.n; i++)
        if (g->others.at[i].analysis == rate->lot->analysis) return ls_agronomy_used(f, &g->others.at[i].pan[way]);
    return rate->pan;
}
