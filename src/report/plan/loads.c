#include "loads.h"

#include "report/figure.h"
#include "why.h"

#include <string.h>

enum { NAME = 40, LEVELS = LS_POSSIBLE + 1 };

/* ---- promises ---- */

static const ls_report_column promise_columns[] = {
    {"Buyer", 22, true}, {"firm", 6, false},     {"ton", 8, false}, {"likely", 6, false},
    {"ton", 8, false},   {"possible", 8, false}, {"ton", 8, false},
};
enum { PROMISE_COLUMNS = sizeof promise_columns / sizeof *promise_columns };

static void promise(ls_report_page *p, const ls_buyer *b, const ls_buyer_sum *s) {
    const char *cells[PROMISE_COLUMNS] = {b->name.text};
    for (int c = LS_FIRM; c < LEVELS; c++) {
        cells[1 + 2 * c] = s->loads[c] == 0 ? "-" : ls_arena_printf(p->arena, "%zu", s->loads[c]);
        cells[2 + 2 * c] = s->loads[c] == 0 ? "-" : ls_report_line_number(p, s->tons[c], "ton");
    }
    ls_report_row(p, promise_columns, PROMISE_COLUMNS, cells);
}

void ls_report_promises(ls_report_page *p, const ls_plan_sums *s) {
    const ls_estimate *e = s->estimate;
    const char *ton = ls_report_unit(p, "ton");
    ls_report_heading(p, "WHO CAN BE PROMISED WHAT TODAY");
    ls_report_row(p, promise_columns, PROMISE_COLUMNS,
                  (const char *[]){"Buyer", "firm", ton, "likely", ton, "possible", ton});
    for (size_t i = 0; i < e->farm->buyers.n; i++)
        promise(p, &e->farm->buyers.at[i], &s->buyers[i]);
    ls_report_blank(p);
    ls_report_say(p, 2,
                  "Loads beside their tons. Firm loads can be promised today; the chance that all "
                  "of them are there "
                  "together is %s. Likely and possible loads come on top of them if there is that "
                  "much litter.",
                  ls_report_line(p, e->all_firm_chance, "%"));
}

/* ---- day by day ---- */

static const ls_report_column load_columns[] = {
    {"Ticket", 17, true}, {"Lot", 12, true}, {"For", 27, true}, {"", 6, false}, {"", 8, true}};
enum { LOAD_COLUMNS = sizeof load_columns / sizeof *load_columns };

/* Buyer and field within the column; a long field name is cut first. */
static const char *where_to(ls_report_page *p, const ls_load *load, const ls_drop *drop) {
    enum { WIDTH = 27, FIELD = 14, BETWEEN = 2 };
    if (load->buyer == NULL)
        return "the stack";
    const char *field = ls_report_name(p, drop->field->name.text, FIELD);
    size_t left = WIDTH - BETWEEN - ls_text_columns(field);
    return ls_arena_printf(p->arena, "%s, %s", ls_report_name(p, load->buyer->name.text, left),
                           field);
}

/* A ticket number is never cut: a long one gets a line of its own. */
static void load_rows(ls_report_page *p, const ls_load *load) {
    const ls_drop *first = load->n > 0 ? load->drops : NULL;
    bool fits = ls_text_columns(load->ticket) <= load_columns[0].width;
    const char *cells[LOAD_COLUMNS] = {
        fits ? load->ticket : NULL, load->lot->name,
        load->buyer == NULL || first != NULL ? where_to(p, load, first) : NULL,
        ls_report_line_number(p, load->tons, "ton"), ls_certainty_name(load->certainty)};
    if (!fits)
        ls_report_say(p, 2, "%s", load->ticket);
    ls_report_row(p, load_columns, LOAD_COLUMNS, cells);
    for (size_t i = 0; load->n > 1 && i < load->n; i++)
        ls_report_say(p, 21, "%s on %s at %s on %s", ls_report_line(p, load->drops[i].tons, "ton"),
                      ls_report_line(p, load->drops[i].acres, "ac"),
                      ls_report_line(p, load->drops[i].rate, "ton/ac"),
                      ls_report_name(p, load->drops[i].field->name.text, NAME));
    if (load->standby != NULL)
        ls_report_say(p, 21, "standby: %s, %s",
                      ls_report_name(p, load->standby_buyer->name.text, NAME),
                      ls_report_name(p, load->standby->name.text, NAME));
}

static void load_heads(ls_report_page *p) {
    const char *heads[LOAD_COLUMNS] = {"Ticket", "Lot", "For", ls_report_unit(p, "ton"), NULL};
    ls_report_row(p, load_columns, LOAD_COLUMNS, heads);
}

void ls_report_days(ls_report_page *p, const ls_plan *plan) {
    ls_report_heading(p, "LOADS DAY BY DAY");
    if (plan->loads_n == 0)
        ls_report_say(p, 2, "No load is to be hauled out of the houses.");
    for (size_t d = 0; d < plan->days_n; d++) {
        const ls_workday *day = &plan->days[d];
        if (d > 0)
            ls_report_blank(p);
        if (day->loads == 0)
            ls_report_say(p, 0, "%s: no loads. %s", ls_date_words(p->arena, day->day), day->work);
        else
            ls_report_say(p, 0, "%s: %s in %ld load%s. %s", ls_date_words(p->arena, day->day),
                          ls_report_line(p, day->tons, "ton"), day->loads,
                          day->loads == 1 ? "" : "s", day->work);
        if (day->loads > 0)
            load_heads(p);
        for (size_t i = 0; i < plan->loads_n; i++)
            if (plan->loads[i].day == day->day)
                load_rows(p, &plan->loads[i]);
    }
    for (size_t i = 0; i < plan->loads_n; i++)
        if (plan->loads[i].standby != NULL) {
            ls_report_blank(p);
            ls_report_say(p, 2,
                          "Standby: a field with room kept for that load alone, should its own "
                          "field not be fit that day. Ask the buyer first. Firm loads stay where "
                          "they are.");
            break;
        }
}

/* ---- the stack ---- */

static void out_row(ls_report_page *p, const ls_load *load) {
    load_rows(p, load);
    if (load->from != LS_NO_DATE)
        ls_report_say(p, 21, "not before %s", ls_date_words(p->arena, load->from));
}

void ls_report_stack(ls_report_page *p, const ls_plan_sums *s) {
    const ls_estimate *e = s->estimate;
    const ls_plan *plan = s->plan;
    bool any = plan->out_n > 0 || s->before != LS_NO_LINE;
    for (size_t i = 0; i < e->n; i++)
        any = any || s->stacked[i] != LS_NO_LINE;
    if (!any)
        return;
    ls_report_heading(p, "THE STACK");
    for (size_t i = 0; i < e->n; i++)
        if (s->stacked[i] != LS_NO_LINE)
            ls_report_say(p, 2, "In: %s of %s", ls_report_line(p, s->stacked[i], "ton"),
                          ls_report_name(p, e->lots[i].name, NAME));
    if (s->before != LS_NO_LINE)
        ls_report_say(p, 2, "Hauled into it already, by the haul log: %s; still there: %s",
                      ls_report_line(p, s->before, "ton"),
                      ls_report_line(p, s->still_stacked, "ton"));
    if (plan->stack_left != LS_NO_LINE)
        ls_report_say(p, 2, "Room left in the middle case: %s of %s",
                      ls_report_line(p, plan->stack_left, "ton"),
                      ls_report_line(p, plan->stack_room, "ton"));
    if (plan->out_n == 0)
        return;
    ls_report_blank(p);
    ls_report_say(p, 2, "Out, once the field is open:");
    load_heads(p);
    for (size_t i = 0; i < plan->out_n; i++)
        out_row(p, &plan->out[i]);
}

/* ---- field by field ---- */

static const ls_report_column field_columns[] = {
    {"Buyer, field", 40, true}, {"", 8, false}, {"", 8, false}, {"", 16, false}};
enum { FIELD_COLUMNS = sizeof field_columns / sizeof *field_columns };

/* The rates of the field's drops, each told once. */
static const char *rates_on(ls_report_page *p, const ls_plan *plan, const ls_field *f) {
    enum { MOST = 3 };
    const char *told[MOST];
    size_t n = 0;
    for (size_t i = 0; i < plan->loads_n + plan->out_n; i++) {
        const ls_load *load = ls_plan_load(plan, i);
        for (size_t k = 0; k < load->n; k++) {
            if (load->drops[k].field != f)
                continue;
            const char *rate = ls_report_line_number(p, load->drops[k].rate, "ton/ac");
            bool known = false;
            for (size_t j = 0; j < n; j++)
                known |= ls_text_same(told[j], rate);
            if (!known && n < MOST)
                told[n++] = rate;
        }
    }
    ls_text *t = ls_text_new(p->arena);
    for (size_t j = 0; j < n; j++)
        ls_text_addf(t, "%s%s", j > 0 ? " or " : "", told[j]);
    return t->s;
}

void ls_report_fields(ls_report_page *p, const ls_plan_sums *s) {
    const ls_estimate *e = s->estimate;
    const ls_plan *plan = s->plan;
    bool several = false;
    ls_report_heading(p, "FIELD BY FIELD, ALL LOADS TOGETHER");
    ls_report_row(
        p, field_columns, FIELD_COLUMNS,
        (const char *[]){"Buyer, field", ls_report_unit(p, "ton"), ls_report_unit(p, "ac"),
                         ls_arena_printf(p->arena, "set to %s", ls_report_unit(p, "ton/ac"))});
    for (size_t i = 0; i < e->farm->buyers.n; i++) {
        const ls_buyer *b = &e->farm->buyers.at[i];
        for (size_t k = 0; k < b->fields.n; k++) {
            const ls_field *f = &b->fields.at[k];
            const ls_field_sum *sum = &s->buyers[i].fields[k];
            bool any = sum->tons != LS_NO_LINE;
            const char *cells[FIELD_COLUMNS] = {
                ls_arena_printf(p->arena, "%s, %s", b->name.text, f->name.text),
                any ? ls_report_line_number(p, sum->tons, "ton") : "-",
                any ? ls_report_line_number(p, sum->acres, "ac") : "-",
                any ? rates_on(p, plan, f) : "-"};
            ls_report_row(p, field_columns, FIELD_COLUMNS, cells);
            several = several || strstr(cells[3], " or ") != NULL;
            const char *why = ls_report_why_unused(plan, f);
            if (why != NULL)
                ls_report_say(p, 4, "nothing: %s", why);
        }
    }
    if (several)
        ls_report_say(p, 2, "Two rates: lots differ; the load's own line or ticket says which.");
}
