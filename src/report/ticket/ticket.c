#include "ticket.h"

#include "report/figure.h"

enum { NAME = 60 };

#define DECIDE                                                                                     \
    "Planning figures. The local code and the nutrient management plan decide what may be spread."
const char *const ls_report_decide = DECIDE;
const char *const ls_report_ticket_end =
    DECIDE " Names in parentheses are sources: littershed sources tells them.";

const char *ls_report_farm_words(ls_report_page *p) {
    const ls_farm_facts *f = p->view->farm->facts;
    ls_text *t = ls_text_new(p->arena);
    ls_text_add(t, f == NULL || f->name.text == NULL ? "Farm not named"
                                                     : ls_report_name(p, f->name.text, NAME));
    if (f != NULL && f->place.text != NULL)
        ls_text_addf(t, ", %s", ls_report_name(p, f->place.text, NAME));
    if (f != NULL && f->permit.text != NULL)
        ls_text_addf(t, ". Permit: %s", ls_report_name(p, f->permit.text, NAME));
    return t->s;
}

/* ---- the head ---- */

static const char *kind_of(ls_report_page *p, const ls_load *load) {
    if (load->buyer == NULL)
        return "Stack ticket: into the stack";
    return ls_arena_printf(p->arena, "Litter ticket for %s",
                           ls_report_name(p, load->buyer->name.text, NAME));
}

static const char *when_of(ls_report_page *p, const ls_plan *plan, const ls_load *load) {
    if (load->from_stack)
        return load->from == LS_NO_DATE
                   ? "Out of the stack, on any day"
                   : ls_arena_printf(p->arena, "Out of the stack, not before %s",
                                     ls_date_words(p->arena, load->from, p->view->year));
    size_t of = 0, at = 0;
    for (size_t i = 0; i < plan->loads_n; i++) {
        of += plan->loads[i].day == load->day;
        if (&plan->loads[i] == load)
            at = of;
    }
    return ls_arena_printf(p->arena, "%s, load %zu of %zu that day",
                           ls_date_words(p->arena, load->day, p->view->year), at, of);
}

/* The load of the lot that goes out before this one; NULL: none. */
static const ls_load *before(const ls_plan *plan, const ls_load *load) {
    const ls_load *all = load->from_stack ? plan->out : plan->loads, *last = NULL;
    for (const ls_load *l = all; l != load; l++)
        if (l->lot == load->lot)
            last = l;
    return last;
}

static const char *standby_of(ls_report_page *p, const ls_plan *plan, const ls_load *load) {
    if (load->certainty == LS_FIRM)
        return NULL;
    const ls_load *first = before(plan, load);
    const char *after =
        first == NULL ? "" : ls_arena_printf(p->arena, ", and after %s", first->ticket);
    return ls_arena_printf(
        p->arena,
        "Standby: only if there is %s litter%s; else it falls away and nobody is owed it.",
        load->certainty == LS_LIKELY ? "that much" : "much", after);
}

/* A hundredth of a ton is what the split rounds to. */
static bool is_part(const ls_report_page *p, const ls_load *load) {
    const ls_worksheet *w = p->view->sheet;
    return ls_line_shown(w, load->tons) < ls_line_shown(w, load->lot->payload.line) - 0.011;
}

static const char *tons_of(ls_report_page *p, const ls_load *load) {
    const char *tons = ls_report_line(p, load->tons, "ton");
    return is_part(p, load) ? ls_arena_printf(p->arena, "%s, a PART LOAD: a full one is %s", tons,
                                              ls_report_line(p, load->lot->payload.line, "ton"))
                            : tons;
}

/* ---- who ---- */

static const char *address_of(ls_report_page *p, const ls_plan *plan, const ls_buyer *b) {
    const char *address = b->address.text == NULL ? "not given" : b->address.text;
    ls_line way = plan->trade[b - p->view->farm->buyers.at].distance;
    if (way == LS_NO_LINE)
        return address;
    return ls_arena_printf(p->arena, "%s (%s one way)", address, ls_report_line(p, way, "mi"));
}

static const char *hauler_of(ls_report_page *p, const ls_load *load) {
    const ls_crew *crew = p->view->farm->crew;
    const ls_truck *truck = &p->view->farm->trucks.at[0];
    const char *hauler = crew == NULL || crew->hauler.text == NULL
                             ? "________________________"
                             : ls_report_name(p, crew->hauler.text, NAME);
    const char *kind = ls_report_name(p, truck->name.text, NAME);
    if (load->from_stack || load->truck < 1)
        return ls_arena_printf(p->arena, "%s, %s", hauler, kind);
    return ls_arena_printf(p->arena, "%s, %s no. %ld of %ld", hauler, kind, load->truck,
                           truck->count.n);
}

static const char *buckets_of(ls_report_page *p, const ls_tickets *of, const ls_load *load) {
    const ls_load_sheet *sheet = ls_ticket_sheet(of, load);
    ls_line n = sheet->buckets;
    if (n == LS_NO_LINE)
        return NULL;
    return ls_arena_printf(
        p->arena, "%s bucket%s of %s, about %s each", ls_report_line_number(p, n, ""),
        ls_line_value(p->view->sheet, n) > 1 ? "s" : "", ls_report_line(p, of->the_bucket, "yd3"),
        ls_report_line(p, sheet->bucket, "ton"));
}

/* House and side are cut apart: the side must stay readable. */
static const char *lot_of(ls_report_page *p, const ls_lot *lot) {
    enum { HOUSE = 40, SIDE = 19 };
    if (lot->side == NULL)
        return ls_report_name(p, lot->name, NAME);
    return ls_arena_printf(p->arena, "%s/%s", ls_report_name(p, lot->house->name.text, HOUSE),
                           ls_report_name(p, lot->side->name.text, SIDE));
}

static ls_report_facts who(ls_report_page *p, const ls_tickets *of, const ls_load *load) {
    ls_report_facts facts = {0};
    ls_report_fact_add(p, &facts, "From", ls_report_farm_words(p));
    ls_report_fact_add(p, &facts, "Litter of", lot_of(p, load->lot));
    if (load->buyer != NULL) {
        ls_report_fact_add(p, &facts, "Buyer", ls_report_name(p, load->buyer->name.text, NAME));
        ls_report_fact_add(p, &facts, "Address", address_of(p, of->sums->plan, load->buyer));
    } else
        ls_report_fact_add(p, &facts, "Goes to", "the farm's own stack, kept apart by lot");
    const ls_stack *stack = p->view->farm->stack;
    if (load->buyer == NULL && stack != NULL && LS_GIVEN(stack->kept_until))
        ls_report_fact_add(p, &facts, "Kept until",
                           ls_date_words(p->arena, stack->kept_until.day, p->view->year));
    ls_report_fact_add(p, &facts, "Hauler", hauler_of(p, load));
    if (load->n > 0)
        ls_report_fact_add(p, &facts, "Load", tons_of(p, load));
    const char *buckets = buckets_of(p, of, load);
    if (buckets != NULL)
        ls_report_fact_add(p, &facts, "Loader", buckets);
    return facts;
}

ls_report_ticket ls_report_ticket_of(ls_report_page *p, const ls_ticket_list *list,
                                     const ls_load *load) {
    const ls_tickets *of = list->figures;
    const ls_plan *plan = of->sums->plan;
    ls_report_ticket t = {.load = load,
                          .sheet = ls_ticket_sheet(of, load),
                          .kind = kind_of(p, load),
                          .when = when_of(p, plan, load),
                          .tons = tons_of(p, load),
                          .part = is_part(p, load),
                          .standby = standby_of(p, plan, load),
                          .who = who(p, of, load),
                          .n = load->n};
    t.drops = LS_NEW(p->arena, ls_report_drop, load->n);
    for (size_t k = 0; k < load->n; k++)
        t.drops[k] = ls_report_drop_of(p, of, load, k);
    return t;
}

ls_report_facts ls_report_take_care(ls_report_page *p, const ls_report_ticket *t) {
    ls_report_facts facts = {0};
    for (size_t i = 0; i < t->sheet->take_care.n; i++) {
        const ls_caution *c = &t->sheet->take_care.at[i];
        ls_report_fact_add(p, &facts, NULL,
                           ls_arena_printf(p->arena, "%s (%s)", c->text, c->source));
    }
    return facts;
}

/* ---- what is filled in by hand ---- */

const ls_report_blanks *ls_report_blanks_at(const ls_report_ticket *t, size_t index) {
    static const ls_report_blanks to_field[] = {
        {"Scale", {"gross", "tare", "net", "scale slip no.", NULL}},
        {"Time", {"loaded", "in the field", "spread", "date", NULL}},
        {"Tarps, net", {"1", "2", "3", "acres done", NULL}},
        {"Weather", {"day before", "spreading", "day after", "soil", NULL}},
        {"Signed", {"driver", "truck plate", "received by", NULL}},
    };
    static const ls_report_blanks to_stack[] = {
        {"Scale", {"gross", "tare", "net", "scale slip no.", NULL}},
        {"Time", {"loaded", "unloaded", "date", NULL}},
        {"Weather", {"weather", "litter: dry, moist, wet", NULL}},
        {"Signed", {"driver", "truck plate", "received by", NULL}},
    };
    bool stack = t->load->buyer == NULL;
    size_t n = stack ? sizeof to_stack / sizeof *to_stack : sizeof to_field / sizeof *to_field;
    return index >= n ? NULL : stack ? &to_stack[index] : &to_field[index];
}
