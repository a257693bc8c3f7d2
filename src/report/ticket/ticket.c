/* What stands on a ticket, from the largest letters to the blanks at its foot. */
#include "ticket.h"

#include "report/figure.h"
#include "report/handed_out.h"

#include <stdlib.h>
#include <string.h>

enum { NAME = 60 };

/* ---- which load ---- */

static long number_of(ls_arena *a, const ls_load *load) {
    ls_ticket t;
    ls_ticket_read(a, load->ticket, &t);
    return strtol(t.number, NULL, 10);
}

/* The load of the lot that this one waits for: of those as sure at least that are hauled before it, the one with the
 * number before, so that no two wait for each other, whenever they were handed out. NULL: none. */
static const ls_load *before(ls_arena *a, const ls_plan *plan, const ls_load *load) {
    const ls_load *last = NULL;
    long own = number_of(a, load), most = 0;
    for (size_t i = 0; i < plan->loads_n + plan->out_n; i++) {
        const ls_load *l = ls_plan_load(plan, i);
        if (strcmp(l->ticket, load->ticket) == 0) break;
        long n = number_of(a, l);
        if (l->lot == load->lot && l->from_stack == load->from_stack && l->certainty <= load->certainty && n < own &&
            n > most)
            last = l, most = n;
    }
    return last;
}

static void name(ls_paper *t, const ls_plan *plan, const ls_load_sheet *sheet) {
    const ls_load *load = sheet->load;
    static const char *const sure[] = {"FIRM", "LIKELY", "POSSIBLE"};
    ls_arena *a = t->page->arena;
    PUT(t, NAME,
        ls_arena_printf(a, "TICKET  %s  %s%s", load->ticket, sure[load->certainty], sheet->full ? "" : ", PART LOAD"),
        "%s", ls_report_when(t->page, plan, load));
    if (load->certainty == LS_FIRM) return;
    const ls_load *first = before(a, plan, load);
    PUT(t, BOX, NULL,
        "STANDBY. Haul it only if there is %s litter%s. Otherwise it is canceled and nobody is "
        "owed it.",
        load->certainty == LS_LIKELY ? "enough" : "a lot of",
        first == NULL ? "" : ls_arena_printf(a, ", and after %s", first->ticket));
}

/* ---- where to ---- */

static const char *address_of(const ls_report_page *p, const ls_plan *plan, const ls_buyer *b) {
    const char *address = b->address.text == NULL ? "address not given" : b->address.text;
    ls_line way = plan->trade[b - p->view->farm->buyers.at].distance;
    if (way == LS_NO_LINE) return address;
    return ls_arena_printf(p->arena, "%s (%s one way)", address, ls_report_line(p, way, "mi"));
}

static void leads(ls_paper *t, const ls_tickets *of, const ls_load_sheet *sheet) {
    const ls_report_page *p = t->page;
    const ls_load *load = sheet->load;
    if (load->buyer == NULL)
        PUT(t, LEAD, "TO STACK", "%s. Keep houses and sides apart.", ls_report_by_scale(p, load->tons, "ton"));
    else
        PUT(t, LEAD, "TO", "%s, %s", ls_report_name(p, load->buyer->name.text, NAME),
            address_of(p, of->sums->plan, load->buyer));
    for (size_t k = 0; k < load->n; k++) ls_report_drop_leads(t, of, sheet, k);
}

/* ---- what is loaded, by whom ---- */

static void hauler(ls_paper *t, const ls_load *load) {
    const ls_report_page *p = t->page;
    const ls_crew *crew = p->view->farm->crew;
    const ls_truck *truck = &p->view->farm->trucks.at[load->kind];
    const char *who = crew == NULL || crew->hauler.text == NULL ? "________________________"
                                                                : ls_report_name(p, crew->hauler.text, NAME);
    const char *kind = ls_report_name(p, truck->name.text, NAME);
    if (load->from_stack || load->truck < 1 || load->issued != NULL) /* the log keeps the kind it was handed out for */
        PUT(t, FACT, "Hauler", "%s, %s", who, kind);
    else
        PUT(t, FACT, "Hauler", "%s, %s no. %ld of %ld", who, kind, load->number, truck->count.n);
}

static void loader(ls_paper *t, const ls_tickets *of, const ls_load_sheet *sheet) {
    const ls_report_page *p = t->page;
    if (sheet->buckets != LS_NO_LINE)
        PUT(t, FACT, "Loader", "%s bucket%s of %s, about %s each", ls_report_line_number(p, sheet->buckets, ""),
            ls_line_value(p->view->sheet, sheet->buckets) > 1 ? "s" : "", ls_report_line(p, of->the_bucket, "yd3"),
            ls_report_line(p, sheet->bucket, "ton"));
}

/* House and side are cut apart: the side must stay readable. */
static const char *lot_of(const ls_report_page *p, const ls_lot *lot) {
    enum { HOUSE = 40, SIDE = 19 };
    if (lot->side == NULL) return ls_report_name(p, lot->name, NAME);
    return ls_arena_printf(p->arena, "%s/%s", ls_report_name(p, lot->house->name.text, HOUSE),
                           ls_report_name(p, lot->side->name.text, SIDE));
}

static void load_facts(ls_paper *t, const ls_tickets *of, const ls_load_sheet *sheet) {
    const ls_report_page *p = t->page;
    const ls_load *load = sheet->load;
    const ls_stack *stack = p->view->farm->stack;
    PUT(t, FACT, "Litter of", "%s: %s", lot_of(p, load->lot), ls_report_litter(p, ls_load_analysis(load)));
    if (load->n != 1 || !sheet->full)
        PUT(t, FACT, "Load", "%s%s", ls_report_by_scale(p, load->tons, "ton"),
            sheet->full ? ""
                        : ls_arena_printf(p->arena, ", a PART LOAD (full: %s)",
                                          ls_report_by_scale(p, load->lot->kinds[load->kind].payload.line, "ton")));
    loader(t, of, sheet);
    hauler(t, load);
    PUT(t, FACT, "From", "%s", ls_paper_farm(p));
    if (load->buyer == NULL && stack != NULL && LS_GIVEN(stack->kept_until))
        PUT(t, FACT, "Kept until", "%s", ls_date_words(p->arena, stack->kept_until.day, p->view->year));
}

/* ---- the foot ---- */

static void blanks(ls_paper *t, bool stack) {
    enum { MOST = 5 };
    static const struct {
        const char *label, *field[MOST], *stack[MOST]; /* none: not asked for */
    } all[] = {
        {"Scale", {"gross", "tare", "net", "slip no."}, {"gross", "tare", "net", "slip no."}},
        {"Time", {"loaded", "in the field", "spread", "date"}, {"loaded", "unloaded", "date"}},
        {"Tarps, net", {"1", "2", "3", "acres done"}, {NULL}},
        {"Weather", {"day before", "spreading", "day after", "soil"}, {"weather", "litter: dry, moist, wet"}},
        {"Signed", {"driver", "plate", "received by"}, {"driver", "plate", "received by"}},
    };
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        const char *const *names = stack ? all[i].stack : all[i].field;
        if (names[0] != NULL) ls_paper_blanks(t, all[i].label, names);
    }
}

static void take_care(ls_paper *t, const ls_cautions *list) {
    PUT(t, HEAD, NULL, "TAKE CARE (sources in parentheses: littershed sources)");
    for (size_t i = 0; i < list->n; i++) PUT(t, ITEM, NULL, "%s (%s)", list->at[i].text, list->at[i].source);
}

/* Does it bind, what is to be torn up, and what is otherwise since it was handed out. */
static const char *standing(const ls_report_page *p, const ls_ticket_list *list, size_t i) {
    const ls_issued *was = ls_report_in_place_of(list, i);
    const ls_ticket_moved *moved = ls_report_moved(list, i);
    const ls_load *load = list->loads[i];
    ls_text *t = ls_text_new(p->arena);
    ls_text_add(t, ls_handed_text(p->view, &list->handed[i]));
    if (was != NULL)
        ls_text_addf(t, ". In place of the ticket of %s (entry %ld) for %s. Tear up the old one.",
                     ls_date_words(p->arena, was->handed_out, p->view->year), was->log_entry,
                     ls_report_way_issued(p->arena, was));
    if (moved != NULL)
        ls_text_addf(t, "%s By the plan now: %s, %s%s.", was == NULL ? "." : "",
                     ls_report_by_scale(p, load->tons, "ton"),
                     load->from_stack && load->from == LS_NO_DATE
                         ? "any day"
                         : ls_date_words(p->arena, load->from_stack ? load->from : load->day, p->view->year),
                     !moved->sure ? ""
                                  : ls_arena_printf(p->arena, ", %s %s",
                                                    (int)load->certainty > load->issued->certainty ? "only" : "now",
                                                    ls_certainty_name(load->certainty)));
    return t->s;
}

static ls_paper ticket(ls_report_page *p, const ls_ticket_list *list, size_t i) {
    const ls_tickets *of = list->figures;
    const ls_load_sheet *sheet = ls_ticket_sheet(of, list->loads[i]);
    const ls_load *load = sheet->load;
    ls_paper t = {.page = p};
    ls_paper_starter(&t);
    leads(&t, of, sheet);
    name(&t, of->sums->plan, sheet);
    PUT(&t, BOX, NULL, "%s", standing(p, list, i));
    for (size_t k = 0; k < load->n; k++) ls_report_drop_facts(&t, of, sheet, k);
    if (load->n > 1) PUT(&t, HEAD, NULL, "THE LOAD");
    load_facts(&t, of, sheet);
    take_care(&t, &sheet->take_care);
    blanks(&t, load->buyer == NULL);
    PUT(&t, END, NULL, LS_REPORT_DECIDE);
    return t;
}

/* What to take back before the others are handed out. */
static ls_paper take_back(ls_report_page *p, const ls_handed_out *h) {
    static const char *const done[] = {"by", "date", NULL};
    ls_paper t = {.page = p};
    size_t n = h->recalled.n;
    const char *hauler = ls_report_hauler(p->view, h);
    PUT(&t, LEAD, "TAKE BACK", "%zu ticket%s", n, n == 1 ? "" : "s");
    PUT(&t, NAME, "TICKETS TO TAKE BACK", "%s", ls_paper_farm(p));
    if (hauler != NULL) PUT(&t, FACT, "Hauler", "%s", hauler);
    for (size_t i = 0; i < n; i++) PUT(&t, ITEM, NULL, "%s", ls_report_recall(p->view, &h->recalled.at[i]));
    PUT(&t, WORDS, NULL,
        "No load goes out on one of these. Tear up each ticket once it is back, and write that "
        "down:");
    for (size_t i = 0; i < n; i++) PUT(&t, ITEM, NULL, "%s", ls_report_settle(p->arena, h->recalled.at[i].issued));
    ls_paper_blanks(&t, "All are back", done);
    PUT(&t, END, NULL, LS_REPORT_DECIDE);
    return t;
}

const char *ls_report_tickets(const ls_view *v, const ls_ticket_list *list, ls_form form) {
    ls_report_page p = {v, v->arena, ls_text_new(v->arena)};
    ls_papers all = {0};
    if (form == LS_JSON) return ls_report_tickets_json(v, list);
    ls_paper_log(&p, &all);
    if (list->take_back && list->figures->sums->handed_out->recalled.n > 0)
        *LS_PUSH(v->arena, &all) = take_back(&p, list->figures->sums->handed_out);
    for (size_t i = 0; i < list->n; i++) *LS_PUSH(v->arena, &all) = ticket(&p, list, i);
    return form == LS_HTML ? ls_papers_html(v, &all, "Litter tickets", "ticket") : ls_papers_text(v, &all);
}
