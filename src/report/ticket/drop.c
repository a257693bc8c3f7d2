/* What a ticket says of what was before it, of its day, of one field, and of the litter that goes on it. */
#include "report/figure.h"
#include "ticket.h"

#include <string.h>

enum { NAME = 60 };

/* ---- since it was handed out ---- */

const ls_issued *ls_report_in_place_of(const ls_ticket_list *list, size_t i) {
    const ls_handed_out *h = list->figures->sums->handed_out;
    const ls_issued *newest = NULL;
    for (size_t k = 0; k < h->recalled.n; k++)
        if (h->recalled.at[k].now == list->loads[i] &&
            (newest == NULL || h->recalled.at[k].issued->log_entry > newest->log_entry))
            newest = h->recalled.at[k].issued;
    return newest;
}

const ls_ticket_moved *ls_report_moved(const ls_ticket_list *list, size_t i) {
    const ls_handed_out *h = list->figures->sums->handed_out;
    for (size_t k = 0; k < h->moved.n; k++)
        if (h->moved.at[k].load == list->loads[i]) return &h->moved.at[k];
    return NULL;
}

const char *ls_report_when(const ls_report_page *p, const ls_plan *plan, const ls_load *load) {
    if (load->from_stack)
        return load->from == LS_NO_DATE ? "out of the stack, any day"
                                        : ls_arena_printf(p->arena, "out of the stack, not before %s",
                                                          ls_date_words(p->arena, load->from, p->view->year));
    if (load->issued != NULL) return ls_date_words(p->arena, load->day, p->view->year);
    size_t of = 0, at = 0; /* possible loads come on top of the others */
    for (size_t i = 0; i < plan->loads_n; i++) {
        of += plan->loads[i].day == load->day &&
              (load->certainty == LS_POSSIBLE || plan->loads[i].certainty != LS_POSSIBLE);
        if (&plan->loads[i] == load) at = of;
    }
    return ls_arena_printf(p->arena, "%s, load %zu of %zu that day", ls_date_words(p->arena, load->day, p->view->year),
                           at, of);
}

/* ---- what is read first ---- */

const char *ls_report_by_scale(const ls_report_page *p, ls_line line, const char *unit) {
    ls_unit shown = ls_unit_of(ls_report_unit(p, unit));
    double value = ls_line_value(p->view->sheet, line) / shown.factor;
    double step = strcmp(unit, "ac") == 0 ? 0.01 : 0.1;
    return value < 10 * step ? ls_report_line(p, line, unit)
                             : ls_unit_amount(p->arena, ls_number_step(p->arena, value, step), shown.text);
}

static const char *run_of(const ls_report_page *p, const ls_tickets *of, const ls_drop_sheet *d, size_t kind) {
    const char *run = ls_arena_printf(p->arena, "%s at a swath of %s", ls_report_line(p, d->run, "ft"),
                                      ls_report_line(p, of->swath[kind], "ft"));
    if (d->passes != LS_NO_LINE)
        run = ls_arena_printf(p->arena, "%s: %s passes of %s", run, ls_report_line_number(p, d->passes, ""),
                              ls_report_line(p, d->length, "ft"));
    return LS_GIVEN(p->view->farm->trucks.at[kind].swath)
               ? run
               : ls_arena_printf(p->arena, "%s (swath not given: common practice)", run);
}

void ls_report_drop_leads(ls_paper *t, const ls_tickets *of, const ls_load_sheet *sheet, size_t k) {
    const ls_report_page *p = t->page;
    const ls_load *load = sheet->load;
    const ls_drop *drop = &load->drops[k];
    const char *which = load->n == 1 ? "FIELD" : ls_arena_printf(p->arena, "FIELD %zu of %zu", k + 1, load->n);
    if (drop->field->yard) {
        PUT(t, LEAD, "UNLOAD", "%s at the yard. Do not spread.", ls_report_by_scale(p, drop->tons, "ton"));
        return;
    }
    PUT(t, LEAD, which, "%s", ls_report_name(p, drop->field->name.text, NAME));
    PUT(t, LEAD, "SPREAD", "%s on %s at %s", ls_report_by_scale(p, drop->tons, "ton"),
        ls_report_line(p, drop->acres, "ac"), ls_report_line(p, drop->rate, "ton/ac"));
    PUT(t, LEAD, "RUN", "%s", run_of(p, of, &sheet->drops[k], load->kind));
}

static void keep_off(ls_paper *t, const ls_field *f) {
    static const char label[] = "Stay off";
    const ls_report_page *p = t->page;
    LS_EACH (const ls_setback, s, f->setbacks) {
        const char *from = s->from.text == NULL ? "feature not named" : s->from.text;
        const char *rule = s->rule.text == NULL ? "not named" : s->rule.text;
        if (LS_GIVEN(s->radius))
            PUT(t, FACT, label, "%s: %s all around (rule: %s)", from, ls_report_amount(p, s->radius.value, "ft"), rule);
        else
            PUT(t, FACT, label, "%s: %s along %s of edge (rule: %s)", from, ls_report_amount(p, s->width.value, "ft"),
                ls_report_amount(p, s->edge.value, "ft"), rule);
    }
    if (f->setbacks.n == 0) PUT(t, FACT, label, "none given. Look for wells, water and dwellings first.");
}

/* ---- when animals and harvest may come ---- */

/* Is it told: the file's own limit, and a caution where no limit is as long? */
static bool is_told(const ls_interval *wait) { return wait->days > 0 && (wait->given || wait->longer); }

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
        if (is_told(&all[i].wait)) *LS_PUSH(v->arena, &list) = all[i];
    return list;
}

/* "21 days after spreading (if on Mon, Feb 16: Mon, Mar 9)": the days lead, as they hold whenever it is spread; by the
 * day planned now, if there is one. */
static const char *end_of(const ls_report_page *p, const ls_interval *wait, const char *after) {
    const char *days = ls_report_line_number(p, wait->line, "day");
    if (wait->day == LS_NO_DATE) return ls_arena_printf(p->arena, "%s days%s", days, after);
    return ls_arena_printf(p->arena, "%s days%s (if on %s: %s)", days, after,
                           ls_date_words(p->arena, wait->day - (ls_date)wait->days, p->view->year),
                           ls_date_words(p->arena, wait->day, p->view->year));
}

/* Words before the date, and whose it is or why. */
static void wait_fact(ls_paper *t, const char *label, const ls_interval *wait, const char *words, const char *whose) {
    if (is_told(wait)) PUT(t, FACT, label, "%s for %s%s", words, end_of(t->page, wait, " after spreading"), whose);
}

static void organic(ls_paper *t, const ls_interval *off, const ls_interval *on) {
    ls_arena *a = t->page->arena;
    const char *source = ls_arena_printf(a, " (%s)", on->cite != NULL ? on->cite : off->cite);
    const char *touches = ls_arena_printf(a, " if the part eaten touches soil%s", source);
    if (is_told(off) && is_told(on)) touches = ls_arena_printf(a, ", %s%s", end_of(t->page, on, ""), touches);
    wait_fact(t, "Organic", is_told(off) ? off : on, "no food harvest", is_told(on) ? touches : source);
}

static void waits(ls_paper *t, const ls_earliest *e) {
    static const char limit[] = ": the farm file's limit";
    if (e->grazing.given) wait_fact(t, "Animals", &e->grazing, "off", limit);
    wait_fact(t, "Cattle", &e->cattle, "off", ls_arena_printf(t->page->arena, ": botulism (%s)", e->cattle.cite));
    if (e->harvest.given) wait_fact(t, "Harvest", &e->harvest, "none", limit);
    organic(t, &e->organic_off_soil, &e->organic_on_soil);
}

/* ---- the field ---- */

static void tarp(ls_paper *t, const ls_tickets *of, const ls_drop_sheet *d) {
    const ls_report_page *p = t->page;
    const char *side = ls_report_line(p, of->tarp_side, "ft");
    ls_line factor = p->view->metric ? of->tarp_metric : of->tarp_factor;
    PUT(t, FACT, "Tarp", "%s net on %s x %s; %s = net %s x %s / %s", ls_report_line(p, d->tarp, "lb"), side, side,
        ls_unit_many(p->arena, ls_report_unit(p, "ton/ac")), ls_report_unit(p, "lb"),
        ls_number_text(p->arena, ls_line_shown(p->view->sheet, factor), 4), ls_report_unit(p, "ft2"));
}

/* A load is never just as heavy as planned: the rate holds by the acres. */
static void by_scale(ls_paper *t, const ls_load_sheet *load, const ls_drop_sheet *d) {
    const ls_report_page *p = t->page;
    if (d->cover[0] != LS_NO_LINE)
        PUT(t, FACT, "By weight", "If the scale says %s, cover %s; %s, %s",
            ls_report_by_scale(p, load->scale[0], "ton"), ls_report_by_scale(p, d->cover[0], "ac"),
            ls_report_by_scale(p, load->scale[1], "ton"), ls_report_by_scale(p, d->cover[1], "ac"));
}

void ls_report_drop_facts(ls_paper *t, const ls_tickets *of, const ls_load_sheet *whole, size_t k) {
    const ls_drop_sheet *sheet = &whole->drops[k];
    const ls_report_page *p = t->page;
    const ls_field *f = whole->load->drops[k].field;
    if (whole->load->n > 1) PUT(t, HEAD, NULL, "%s", ls_report_name(p, f->name.text, NAME));
    PUT(t, FACT, "Directions", "%s",
        f->directions.text == NULL ? "not in the farm file. Ask before you drive." : f->directions.text);
    if (f->yard) return;
    keep_off(t, f);
    by_scale(t, whole, sheet);
    if (f->allowed.from != LS_NO_DATE)
        PUT(t, FACT, "Open", "%s%s", ls_field_opens(f) ? "" : "until ",
            ls_paper_days(p, ls_field_opens(f) ? f->allowed.from : f->allowed.to, f->allowed.to));
    waits(t, &sheet->earliest);
    tarp(t, of, sheet);
    PUT(t, FACT, "Supplies", "%s", ls_report_contents(p, sheet->on_acre, "lb/ac"));
}

/* ---- the litter ---- */

const char *ls_report_contents(const ls_report_page *p, const ls_line lines[LS_FIELD_NUTRIENTS], const char *unit) {
    ls_text *t = ls_text_new(p->arena);
    for (size_t i = 0; i < LS_FIELD_NUTRIENTS; i++)
        ls_text_addf(t, "%s%s %s", i > 0 ? ", " : "", ls_field_nutrient[i], ls_report_line_number(p, lines[i], unit));
    return ls_arena_printf(p->arena, "%s %s", t->s, ls_report_unit(p, unit));
}

const char *ls_report_litter(const ls_report_page *p, const ls_analysis *a) {
    const ls_line of[LS_FIELD_NUTRIENTS] = {a->per_ton[LS_N], a->per_ton[LS_P2O5], a->per_ton[LS_K2O]};
    return ls_arena_printf(p->arena, a->report == NULL ? "%s, by %s, no lab report" : "%s, by the %s",
                           ls_report_contents(p, of, "lb/ton"), ls_report_analysis(p, a));
}
