/* Where a load went, if it was not told: where its ticket sent it when it was issued; else where
 * the plan of that morning sends it. */
#include "haul_entry.h"

#include <string.h>

static void leave_open(ls_run *r, const char *why) { TELL(r, "%s: where the load went stays open; give --field", why); }

static const ls_load *find_load(const ls_plan *plan, const char *ticket) {
    for (size_t i = 0; i < plan->loads_n + plan->out_n; i++) {
        if (strcmp(ls_plan_load(plan, i)->ticket, ticket) == 0) return ls_plan_load(plan, i);
    }
    return NULL;
}

/* The drops of the plan, in proportion to what went out. */
static const char *way_of(const ls_run *r, const ls_load *load, double tons) {
    if (load->buyer == NULL) return "stack";
    ls_hauled_drop *drops = LS_NEW(r->arena, ls_hauled_drop, load->n);
    double all = 0;
    for (size_t i = 0; i < load->n; i++) all += ls_line_value(r->books.sheet, load->drops[i].tons);
    for (size_t i = 0; i < load->n; i++)
        drops[i] = (ls_hauled_drop){.buyer = load->drops[i].buyer,
                                    .field = load->drops[i].field,
                                    .tons = ls_line_value(r->books.sheet, load->drops[i].tons) * tons / all};
    return ls_hauled_text(r->arena, drops, load->n);
}

static void by_plan(ls_run *r, const ls_plan *plan, ls_log_entry *e) {
    const ls_load *load = find_load(plan, e->ticket.text);
    if (load != NULL)
        e->words[LS_LOG_FIELD] = way_of(r, load, e->tons);
    else
        leave_open(r, ls_arena_printf(r->arena, "the plan of %s has no ticket %s", ls_date_iso(r->arena, e->when.day),
                                      e->ticket.text));
}

const char *ls_haul_issued_way(const ls_run *r, const ls_log *log, const ls_log_entry *e) {
    const ls_log_entry *entry = log == NULL ? NULL : ls_log_issue_of(log, e->ticket.text);
    ls_coded_lots lots = ls_books_lots(r->arena, r->books.farm);
    ls_text *t = ls_text_new(r->arena);
    if (entry == NULL || !ls_books_same_ticket(&lots, entry, e)) return NULL;
    ls_issued is = ls_issued_of(r->arena, r->books.farm, &lots, entry);
    for (size_t i = 0; i < is.n; i++) {
        ls_text_addf(t, "%s%s", i > 0 ? "; " : "", is.drops[i].name);
        if (is.n > 1) ls_text_addf(t, " (%s ton)", ls_log_tons_text(r->arena, is.drops[i].tons * e->tons / is.tons));
    }
    return is.to_stack ? "stack" : t->s;
}

/* No truck is named: the one that the ticket was handed out for, if it says so. */
static void find_truck(const ls_run *r, ls_log_entry *e) {
    const ls_log_entry *issued = r->books.log == NULL ? NULL : ls_log_issue_of(r->books.log, e->ticket.text);
    if (e->words[LS_LOG_TRUCK][0] == '\0' && issued != NULL) e->words[LS_LOG_TRUCK] = issued->words[LS_LOG_TRUCK];
}

bool ls_haul_is_large(const ls_run *r) {
    enum { MOST_PAIRS = 100 };
    size_t fields = 0;
    for (size_t b = 0; b < r->books.farm->buyers.n; b++) fields += r->books.farm->buyers.at[b].fields.n;
    return fields * ls_books_lots(r->arena, r->books.farm).n > MOST_PAIRS;
}

int ls_haul_entry_find_place(ls_run *r, ls_log_entry *e) {
    if (!ls_run_log(r, e->when.day)) return LS_MISTAKE; /* a log that cannot be read takes no entry */
    find_truck(r, e);
    bool told = e->words[LS_LOG_FIELD][0] != '\0', plan = ls_books_can_plan(&r->books);
    const char *issued = told ? NULL : ls_haul_issued_way(r, r->books.log, e);
    if (issued != NULL) e->words[LS_LOG_FIELD] = issued;
    bool open = !told && issued == NULL;
    if (!open || !plan || ls_haul_is_large(r))
        r->books.draws = LS_BLOCK; /* only how densely litter lies is drawn, in one block */
    if (!ls_run_estimate(r)) {
        if (open) leave_open(r, "the farm cannot be estimated");
        return LS_DONE;
    }
    if (issued != NULL) return ls_haul_entry_check(r, e);
    if (!open) return LS_DONE;
    if (!plan || ls_haul_is_large(r)) {
        leave_open(r, plan ? "this ticket was not issued, and to plan so many fields takes long"
                           : "these files do not make a plan");
        return LS_DONE;
    }
    const ls_plan *morning = ls_run_agronomy(r) ? ls_run_morning_plan(r) : NULL;
    if (morning == NULL) {
        ls_diag_print(r->books.diag, r->err);
        leave_open(r, "no plan can be made");
        return LS_DONE;
    }
    by_plan(r, morning, e);
    return ls_haul_entry_check(r, e);
}
