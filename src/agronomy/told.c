/* Flags of the tables that a field's figures rest on. */
#include "room.h"

static void mark(bool *used, ls_line line) {
    if (line != LS_NO_LINE)
        used[line] = true;
}

static void mark_rate(bool *used, const ls_rate *r) {
    mark(used, r->rate);
    mark(used, r->available_N);
    mark(used, r->on[LS_FIELD_K2O]);
    mark(used, r->value_per_ton);
    mark(used, r->covered);
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) {
        mark(used, r->counts[k]);
        mark(used, r->short_of[k]);
    }
    for (int m = 0; m < LS_METALS; m++) {
        mark(used, r->metals[m].on);
        mark(used, r->metals[m].most);
    }
    for (size_t i = 0; i < r->bought_n; i++)
        mark(used, r->bought[i].per_acre);
}

/* The lines that what is said of the field is made of: what is marked, and downwards all that is
 * made of. */
static const bool *used_lines(const ls_agronomy_plot *p, ls_arena *a) {
    const ls_worksheet *w = p->g->w;
    const ls_field_rates *f = p->out;
    bool *used = LS_NEW(a, bool, ls_worksheet_lines(w));
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) {
        mark(used, f->need[k]);
        mark(used, f->credits[k]);
    }
    mark(used, f->removal_P2O5);
    mark(used, f->soil_P);
    mark(used, f->soil_K);
    mark(used, f->banked);
    mark(used, f->phosphate_left);
    mark(used, f->earliest.grazing.line);
    mark(used, f->earliest.harvest.line);
    for (size_t i = 0; i < f->n; i++)
        mark_rate(used, &f->rates[i]);
    for (size_t i = ls_worksheet_lines(w); i-- > 0;) {
        const ls_entry *e = used[i] ? ls_line_at(w, (ls_line)i) : NULL;
        for (size_t k = 0; e != NULL && k < e->n; k++)
            used[e->in[k]] = true;
    }
    return used;
}

void ls_agronomy_flag_tables(ls_agronomy_plot *p) {
    static const char said[] = "removal|nitrogen|ammonium|carryover"; /* by flags of their own */
    ls_arena *a = ls_arena_new();
    const ls_worksheet *w = p->g->w;
    const bool *used = used_lines(p, a);
    const char *memory = ls_lines_from_memory(a, w, 0, used, said);
    const char *own = p->g->farm->own_tables.n == 0 ? NULL : ls_lines_of_own_rows(a, w, 0, used);
    if (memory != NULL)
        ls_agronomy_flag(p, "from memory, as no figure read in a source serves: %s", memory);
    if (own != NULL)
        ls_agronomy_flag(p, "rows of the farm's own tables in use: %s", own);
    ls_arena_free(a);
}
