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

/* Is it told: the file's own limit, and a caution where no limit is as long? */
static bool is_told(const ls_interval *wait) {
    return wait->days > 0 && (wait->given || wait->longer);
}

ls_report_wait_list ls_report_waits(const ls_view *v, const ls_earliest *e) {
    const ls_report_wait all[] = {
        {"animals", e->grazing},
        {"cattle", e->cattle},
        {"harvest", e->harvest},
        {"harvest of organic food", e->organic_off_soil},
        {"harvest of organic food whose edible part touches soil", e->organic_on_soil},
    };
    ls_report_wait_list list = {0};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        if (is_told(&all[i].wait))
            *LS_PUSH(v->arena, &list) = all[i];
    return list;
}

/* "Mon 9 Mar 2026 (21 days)", counted from the planned day; "21 days after spreading" without one.
 */
static const char *end_of(ls_report_page *p, const ls_interval *wait) {
    const char *days = ls_report_line_number(p, wait->line, "day");
    return wait->day == LS_NO_DATE
               ? ls_arena_printf(p->arena, "%s days after spreading", days)
               : ls_arena_printf(p->arena, "%s (%s days)",
                                 ls_date_words(p->arena, wait->day, p->view->year), days);
}

/* Words before the date, and whose it is or why. */
static void wait_fact(ls_report_page *p, ls_report_facts *facts, const char *label,
                      const ls_interval *wait, const char *words, const char *whose) {
    if (is_told(wait))
        ls_report_fact_add(
            p, facts, label,
            ls_arena_printf(p->arena, "%s until %s%s", words, end_of(p, wait), whose));
}

static void organic(ls_report_page *p, ls_report_facts *facts, const ls_interval *off,
                    const ls_interval *on) {
    const char *source =
        ls_arena_printf(p->arena, " (%s)", on->cite != NULL ? on->cite : off->cite);
    const char *touches = ls_arena_printf(p->arena, " if the part eaten touches soil%s", source);
    if (is_told(off) && is_told(on))
        touches = ls_arena_printf(p->arena, ", %s%s", end_of(p, on), touches);
    wait_fact(p, facts, "Organic", is_told(off) ? off : on, "no food harvest",
              is_told(on) ? touches : source);
}

static void waits(ls_report_page *p, ls_report_facts *facts, const ls_earliest *e) {
    static const char limit[] = ": the farm file's limit";
    if (e->grazing.given)
        wait_fact(p, facts, "Animals", &e->grazing, "off", limit);
    wait_fact(p, facts, "Cattle", &e->cattle, "off",
              ls_arena_printf(p->arena, ": botulism (%s)", e->cattle.cite));
    if (e->harvest.given)
        wait_fact(p, facts, "Harvest", &e->harvest, "none", limit);
    organic(p, facts, &e->organic_off_soil, &e->organic_on_soil);
}

/* The days on which it may be spread, the plan's own days counted in. */
static const char *window_of(ls_report_page *p, const ls_field *f) {
    const char *last = ls_date_words(p->arena, f->allowed.to, p->view->year);
    return ls_field_opens(f)
               ? ls_arena_printf(p->arena, "%s to %s",
                                 ls_date_words(p->arena, f->allowed.from, p->view->year), last)
               : ls_arena_printf(p->arena, "until %s", last);
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
    if (f->allowed.from != LS_NO_DATE)
        ls_report_fact_add(p, &d.facts, "Open", window_of(p, f));
    waits(p, &d.facts, &sheet->earliest);
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
