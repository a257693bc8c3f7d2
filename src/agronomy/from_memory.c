/* Flags of the tables that a field's figures rest on. */
#include "room.h"

static void add(ls_arena *a, ls_line_list *list, ls_line line) {
    if (line)
        *LS_PUSH(a, list) = line;
}

static void add_rate(ls_arena *a, ls_line_list *list, const ls_rate *r) {
    add(a, list, r->rate);
    add(a, list, r->available_N);
    add(a, list, r->on[LS_FIELD_K2O]);
    add(a, list, r->value_per_ton);
    add(a, list, r->covered);
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) {
        add(a, list, r->counts[k]);
        add(a, list, r->short_of[k]);
    }
    for (int m = 0; m < LS_METALS; m++) {
        add(a, list, r->metals[m].on);
        add(a, list, r->metals[m].most);
    }
    for (size_t i = 0; i < r->bought_n; i++)
        add(a, list, r->bought[i].per_acre);
}

/* What is said of the field. */
static ls_line_list said_of(ls_arena *a, const ls_field_rates *f) {
    ls_line_list list = {0};
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) {
        add(a, &list, f->need[k]);
        add(a, &list, f->credits[k]);
    }
    add(a, &list, f->removal_P2O5);
    add(a, &list, f->soil_P);
    add(a, &list, f->soil_K);
    add(a, &list, f->banked);
    add(a, &list, f->phosphate_left);
    add(a, &list, f->earliest.grazing.line);
    add(a, &list, f->earliest.harvest.line);
    for (size_t i = 0; i < f->n; i++)
        add_rate(a, &list, &f->rates[i]);
    return list;
}

/* The lines that these are made of, and they. */
static const bool *used_lines(ls_arena *a, const ls_worksheet *w, const ls_line_list *list) {
    bool *used = LS_NEW(a, bool, ls_worksheet_lines(w));
    for (size_t i = 0; i < list->n; i++)
        used[list->at[i]] = true;
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
    ls_line_list list = said_of(a, p->out);
    const char *memory = ls_lines_from_memory(a, w, &list, said);
    const char *own = p->g->farm->own_tables.n == 0
                          ? NULL
                          : ls_lines_of_own_rows(a, w, 0, used_lines(a, w, &list));
    if (memory != NULL)
        ls_agronomy_flag(p, "unverified figures: %s", memory);
    if (own != NULL)
        ls_agronomy_flag(p, "rows of the farm's own tables in use: %s", own);
    ls_arena_free(a);
}
