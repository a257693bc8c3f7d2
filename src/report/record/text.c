#include "report/page.h"

#include <math.h>

static const ls_report_column entry_columns[] = {{"Entry", 5, false},
                                                 {"Ticket", 18, true},
                                                 {"When", 16, true},
                                                 {"ton", 8, false},
                                                 {"by", 5, true}};
enum { ENTRY_COLUMNS = sizeof entry_columns / sizeof *entry_columns };

static const ls_report_column sum_columns[] = {
    {"", 44, true}, {"loads", 6, false}, {"ton", 9, false}};
enum { SUM_COLUMNS = sizeof sum_columns / sizeof *sum_columns };

/* A load is weighed to 20 lb or so. */
static const char *tons_of(ls_report_page *p, ls_line line) {
    return ls_number_fixed(p->arena, ls_line_value(p->view->sheet, line) / ls_unit_of("ton").factor,
                           2);
}

/* What else was written down, below the row. */
static void details(ls_report_page *p, const ls_log_entry *e) {
    const char *between = "";
    ls_text *t = ls_text_new(p->arena);
    if (!isnan(e->cleared)) {
        ls_text_addf(t, "cleared by then: %s", ls_log_share_text(p->arena, e->cleared));
        between = "; ";
    }
    for (int i = LS_LOG_FIELD; i < LS_LOG_WORDS; i++) {
        if (e->words[i][0] == '\0')
            continue;
        const char *label = i == LS_LOG_FIELD ? "to" : ls_log_label((ls_log_word)i);
        ls_text_addf(t, "%s%s: %s", between, label, e->words[i]);
        between = "; ";
    }
    if (t->n > 0)
        ls_report_say(p, 9, "%s", t->s);
}

static void entries(ls_report_page *p, const ls_log_sums *s) {
    ls_report_heading(p, "LOADS THAT WENT OUT");
    ls_report_heads(p, entry_columns, ENTRY_COLUMNS);
    for (size_t i = 0; i < s->n; i++) {
        const ls_log_entry *e = s->hauled[i].entry;
        const char *cells[ENTRY_COLUMNS] = {
            ls_arena_printf(p->arena, "%ld", e->number),
            e->ticket.text,
            ls_when_text(p->arena, e->when),
            tons_of(p, s->hauled[i].tons),
            e->weighed ? "scale" : "eye",
        };
        ls_report_row(p, entry_columns, ENTRY_COLUMNS, cells);
        details(p, e);
    }
}

static void correction(ls_report_page *p, const ls_log_sums *s, const ls_log_entry *e) {
    const ls_logged *old = &s->entries[e->replaces - 1];
    const char *was = old->entry->tons > 0
                          ? ls_arena_printf(p->arena, "%s ton", tons_of(p, old->tons))
                          : "struck";
    ls_report_item(p, 2, "entry %ld %s entry %ld (%s, %s, %s)", e->number,
                   e->tons > 0 ? "replaces" : "strikes", e->replaces, old->entry->ticket.text,
                   ls_when_text(p->arena, old->entry->when), was);
}

static void corrections(ls_report_page *p, const ls_log_sums *s, size_t n) {
    bool any = false;
    for (size_t i = 0; i < n; i++) {
        if (s->entries[i].entry->replaces == 0)
            continue;
        if (!any)
            ls_report_heading(p, "CORRECTIONS");
        any = true;
        correction(p, s, s->entries[i].entry);
    }
}

static void sum_row(ls_report_page *p, const char *name, bool from_stack, size_t loads,
                    ls_line tons) {
    const char *cells[SUM_COLUMNS] = {
        from_stack ? ls_arena_printf(p->arena, "%s, out of the stack",
                                     ls_report_name(p, name, sum_columns[0].width - 18))
                   : name,
        ls_arena_printf(p->arena, "%zu", loads), loads > 0 ? tons_of(p, tons) : "0"};
    ls_report_row(p, sum_columns, SUM_COLUMNS, cells);
}

/* By buyer and field; a load on two fields counts on both. */
static void places(ls_report_page *p, const ls_log_sums *s) {
    if (s->places.n == 0)
        return;
    ls_report_heading(p, "BY BUYER AND FIELD");
    ls_report_heads(p, sum_columns, SUM_COLUMNS);
    for (size_t i = 0; i < s->places.n; i++) {
        const ls_place_sum *place = &s->places.at[i];
        const char *name = place->buyer == NULL
                               ? "into the stack"
                               : ls_arena_printf(p->arena, "%s, %s", place->buyer->name.text,
                                                 place->field->name.text);
        sum_row(p, name, false, place->loads, place->tons);
    }
}

static void sums(ls_report_page *p, const ls_log_sums *s) {
    ls_report_heading(p, "BY LOT");
    ls_report_heads(p, sum_columns, SUM_COLUMNS);
    for (size_t i = 0; i < s->lots.n; i++)
        sum_row(p, s->lots.at[i].lot, s->lots.at[i].from_stack, s->lots.at[i].loads,
                s->lots.at[i].tons);
    sum_row(p, "all houses", false, s->house_loads, s->houses);
    if (s->stack_loads > 0)
        sum_row(p, "all lots", true, s->stack_loads, s->stack);
    places(p, s);
    ls_report_heading(p, "BY DAY");
    ls_report_heads(p, sum_columns, SUM_COLUMNS);
    for (size_t i = 0; i < s->days.n; i++)
        sum_row(p, ls_date_words(p->arena, s->days.at[i].day), s->days.at[i].from_stack,
                s->days.at[i].loads, s->days.at[i].tons);
}

const char *ls_report_record_text(const ls_view *v, const ls_log_sums *s) {
    ls_report_page *p = ls_report_begin(v, ls_arena_printf(v->arena, "Haul log %s", s->log->path));
    if (s->n == 0) {
        ls_report_blank(p);
        ls_report_say(p, 0, "No load has gone out yet.");
    } else {
        entries(p, s);
    }
    corrections(p, s, s->log->entries.n);
    if (s->n > 0)
        sums(p, s);
    return ls_report_end(p);
}
