/* What a ticket says of one field, and of the litter that goes on it. */
#include "report/figure.h"
#include "ticket.h"

#include <math.h>
#include <string.h>

enum { NAME = 60 };

/* ---- the way and the check ---- */

static const char *way_of(ls_report_page *p, const ls_tickets *of, const ls_drop_sheet *d) {
    const char *run = ls_arena_printf(
        p->arena, "%s at a swath of %s%s", ls_report_line(p, d->run, "ft"),
        ls_report_line(p, of->swath, "ft"),
        LS_GIVEN(p->view->farm->trucks.at[0].swath) ? ""
                                                    : " (not given: taken as common practice)");
    if (d->passes == LS_NO_LINE)
        return run;
    return ls_arena_printf(p->arena, "%s: %s passes of %s", run,
                           ls_report_line_number(p, d->passes, ""),
                           ls_report_line(p, d->length, "ft"));
}

static const char *tarp_of(ls_report_page *p, const ls_tickets *of, const ls_drop_sheet *d) {
    const char *side = ls_report_line(p, of->tarp_side, "ft");
    ls_line factor = p->view->metric ? of->tarp_metric : of->tarp_factor;
    return ls_arena_printf(p->arena, "%s net on %s x %s; any: net %s x %s / %s = %s",
                           ls_report_line(p, d->tarp, "lb"), side, side, ls_report_unit(p, "lb"),
                           ls_number_text(p->arena, ls_line_shown(p->view->sheet, factor), 4),
                           ls_report_unit(p, "ft2"), ls_report_unit(p, "ton/ac"));
}

/* ---- what is kept off ---- */

static const char *setback_of(ls_report_page *p, const ls_setback *s) {
    const char *from = s->from.text == NULL ? "feature not named" : s->from.text;
    const char *rule = s->rule.text == NULL ? "not named" : s->rule.text;
    if (LS_GIVEN(s->radius))
        return ls_arena_printf(p->arena, "%s all round: %s (rule: %s)",
                               ls_report_amount(p, s->radius.value, "ft"), from, rule);
    return ls_arena_printf(p->arena, "%s along %s of edge: %s (rule: %s)",
                           ls_report_amount(p, s->width.value, "ft"),
                           ls_report_amount(p, s->edge.value, "ft"), from, rule);
}

static void keep_off(ls_report_page *p, ls_report_facts *facts, const ls_field *f) {
    for (size_t i = 0; i < f->setbacks.n; i++)
        ls_report_fact_add(p, facts, "Stay off", setback_of(p, &f->setbacks.at[i]));
    if (f->setbacks.n == 0)
        ls_report_fact_add(p, facts, "Stay off",
                           "none given; look for wells, water and dwellings first");
}

/* ---- when animals and harvest may come ---- */

static const char *source_of(ls_report_page *p, const char *row) {
    const ls_row *rule = ls_table_row(ls_reference_table(p->view->reference, "rule", ""), row);
    const char *cite = ls_row_word(rule, "cite");
    if (cite != NULL)
        return cite;
    return rule == NULL || rule->source == NULL ? ls_status_words(LS_PRACTICE) : rule->source->id;
}

/* Land that is cut or grazed for fodder: nothing for people is harvested from it. */
static bool is_forage(const ls_field *f) {
    static const char *const words[] = {"pasture", "hay", "silage", "forage"};
    if (f->use.is == LS_GRAZED_BEEF || f->use.is == LS_GRAZED_DAIRY)
        return true;
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (f->crop.text != NULL && strstr(f->crop.text, words[i]) != NULL)
            return true;
    return false;
}

ls_report_wait_list ls_report_waits(ls_report_page *p, const ls_tickets *of, const ls_field *f) {
    static const char *const what[LS_WAITS] = {
        "cattle", "harvest of organic food",
        "harvest of organic food whose edible part touches soil"};
    ls_report_wait_list list = {0};
    for (size_t i = 0; i < (is_forage(f) ? 1 : LS_WAITS); i++)
        *LS_PUSH(p->arena, &list) =
            (ls_report_wait){what[i], of->waits[i].days, source_of(p, of->waits[i].row)};
    return list;
}

ls_date ls_report_wait_end(const ls_view *v, const ls_load *load, const ls_report_wait *wait) {
    return load->day == LS_NO_DATE
               ? LS_NO_DATE
               : load->day + (ls_date)lround(ls_line_shown(v->sheet, wait->days));
}

/* "Mon 9 Mar 2026 (21 days)", counted from the planned day; "21 days after spreading" without one.
 */
static const char *end_of(ls_report_page *p, const ls_load *load, const ls_report_wait *wait) {
    const char *days = ls_report_line_number(p, wait->days, "day");
    ls_date end = ls_report_wait_end(p->view, load, wait);
    return end == LS_NO_DATE
               ? ls_arena_printf(p->arena, "%s days after spreading", days)
               : ls_arena_printf(p->arena, "%s (%s days)", ls_date_words(p->arena, end), days);
}

static void waits(ls_report_page *p, ls_report_facts *facts, const ls_tickets *of,
                  const ls_load *load, const ls_field *f) {
    ls_report_wait_list list = ls_report_waits(p, of, f);
    ls_report_fact_add(p, facts, "Cattle",
                       ls_arena_printf(p->arena, "off until %s: botulism (%s)",
                                       end_of(p, load, &list.at[0]), list.at[0].source));
    if (list.n > 1)
        ls_report_fact_add(
            p, facts, "Organic",
            ls_arena_printf(
                p->arena, "no food harvest until %s, %s if the part eaten touches soil (%s)",
                end_of(p, load, &list.at[1]), end_of(p, load, &list.at[2]), list.at[2].source));
}

static const char *window_of(ls_report_page *p, const ls_field *f) {
    return ls_arena_printf(p->arena, "%s to %s", ls_date_words(p->arena, f->open.days.from),
                           ls_date_words(p->arena, f->open.days.to));
}

ls_report_drop ls_report_drop_of(ls_report_page *p, const ls_tickets *of, const ls_load *load,
                                 size_t k) {
    const ls_drop_sheet *sheet = &ls_ticket_sheet(of, load)->drops[k];
    const ls_drop *drop = &load->drops[k];
    const ls_field *f = drop->field;
    ls_report_drop d = {.name = ls_report_name(p, f->name.text, NAME)};
    d.spread = ls_arena_printf(p->arena, "%s on %s at %s", ls_report_line(p, drop->tons, "ton"),
                               ls_report_line(p, drop->acres, "ac"),
                               ls_report_line(p, drop->rate, "ton/ac"));
    d.directions = f->directions.text == NULL ? "not in the farm file: ask before driving"
                                              : f->directions.text;
    ls_report_fact_add(p, &d.facts, "Run", way_of(p, of, sheet));
    ls_report_fact_add(p, &d.facts, "Tarp", tarp_of(p, of, sheet));
    keep_off(p, &d.facts, f);
    if (LS_GIVEN(f->open))
        ls_report_fact_add(p, &d.facts, "Open", window_of(p, f));
    waits(p, &d.facts, of, load, f);
    return d;
}

/* ---- the litter ---- */

static const int nutrients[] = {LS_N, LS_P2O5, LS_K2O};
enum { NUTRIENTS = sizeof nutrients / sizeof *nutrients };

ls_report_contents ls_report_contents_of(ls_report_page *p, const ls_report_ticket *t) {
    const ls_load *load = t->load;
    ls_report_contents rows = {0};
    ls_report_content *head = LS_PUSH(p->arena, &rows);
    head->cells[0] = "";
    ls_report_content *ton = LS_PUSH(p->arena, &rows);
    ton->cells[0] = ls_report_unit(p, "lb/ton");
    for (size_t i = 0; i < NUTRIENTS; i++) {
        rows.at[0].cells[i + 1] = ls_nutrient_name(nutrients[i]);
        rows.at[1].cells[i + 1] =
            ls_report_line_number(p, load->lot->analysis->per_ton[nutrients[i]], "lb/ton");
    }
    for (size_t k = 0; k < load->n; k++) {
        ls_report_content *acre = LS_PUSH(p->arena, &rows);
        acre->cells[0] = ls_arena_printf(p->arena, "%s, %s", ls_report_unit(p, "lb/ac"),
                                         ls_report_name(p, load->drops[k].field->name.text, 24));
        for (size_t i = 0; i < NUTRIENTS; i++)
            acre->cells[i + 1] = ls_report_line_number(p, t->sheet->drops[k].on_acre[i], "lb/ac");
    }
    return rows;
}

const char *ls_report_whose(ls_report_page *p, const ls_analysis *a) {
    const char *words = ls_report_analysis(p, a);
    return a->report == NULL ? ls_arena_printf(p->arena, "by %s, no lab report", words)
                             : ls_arena_printf(p->arena, "by the %s", words);
}
