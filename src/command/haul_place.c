/* Where a load went, if it was not told: where its ticket sent it when it was issued; else where
 * the plan of that morning sends it, or a plan later on that day a ticket that the morning did not
 * know. */
#include "haul_entry.h"

#include <string.h>

static void leave_open(ls_run *r, const char *why) {
    ls_run_say(r, LS_DONE, "%s: where the load went stays open; give --field", why);
}

static const ls_load *find_load(const ls_plan *plan, const char *ticket) {
    for (size_t i = 0; i < plan->loads_n + plan->out_n; i++) {
        if (strcmp(ls_plan_load(plan, i)->ticket, ticket) == 0)
            return ls_plan_load(plan, i);
    }
    return NULL;
}

/* The drops of the plan, in proportion to what went out. */
static const char *way_of(const ls_run *r, const ls_load *load, double tons) {
    if (load->buyer == NULL)
        return "stack";
    ls_hauled_drop *drops = LS_NEW(r->arena, ls_hauled_drop, load->n);
    double all = 0;
    for (size_t i = 0; i < load->n; i++)
        all += ls_line_value(r->books.sheet, load->drops[i].tons);
    for (size_t i = 0; i < load->n; i++)
        drops[i] = (ls_hauled_drop){.buyer = load->drops[i].buyer,
                                    .field = load->drops[i].field,
                                    .tons = ls_line_value(r->books.sheet, load->drops[i].tons) *
                                            tons / all};
    return ls_hauled_text(r->arena, drops, load->n);
}

/* Did loads of that day go out before this one was logged? */
static bool day_is_begun(const ls_run *r, ls_date day) {
    for (size_t i = 0; r->books.log != NULL && i < r->books.log->entries.n; i++)
        if (ls_log_stands(&r->books.log->entries.at[i]) &&
            r->books.log->entries.at[i].when.day == day)
            return true;
    return false;
}

/* The fields of a load without its tons. */
static const char *fields_of(const ls_run *r, const ls_load *load) {
    ls_text *t = ls_text_new(r->arena);
    for (size_t i = 0; i < load->n; i++)
        ls_text_addf(t, "%s%s/%s", i > 0 ? " and " : "", load->drops[i].buyer->name.text,
                     load->drops[i].field->name.text);
    return load->buyer == NULL ? "stack" : t->s;
}

/* A ticket printed anew, later on the day, may go another way than the morning's of that number:
 * nobody but the driver knows which of the two was in the truck. morning: its load by that plan;
 * NULL: the plan had none. */
static void look_later(ls_run *r, const ls_plan *plan, const ls_load *morning, ls_log_entry *e) {
    if (!day_is_begun(r, e->when.day))
        return;
    const ls_plan *later = ls_books_plan_later(&r->books, plan, e->when.day, r->options->aim);
    const ls_load *load = later == NULL ? NULL : find_load(later, e->ticket.text);
    if (load == NULL)
        return;
    if (morning == NULL && load->n <= 1)
        e->words[LS_LOG_FIELD] = fields_of(r, load);
    else if (morning != NULL && !ls_load_same_fields(morning, load))
        ls_run_say(
            r, LS_DONE,
            "the plan of that morning sends ticket %s to %s, which is written down; with the "
            "loads logged since, the plan sends it to %s: if the ticket in the truck says "
            "so, correct the entry with --replaces and --field",
            e->ticket.text, fields_of(r, morning), fields_of(r, load));
}

static void by_plan(ls_run *r, const ls_plan *plan, ls_log_entry *e) {
    const ls_load *load = find_load(plan, e->ticket.text);
    if (load != NULL)
        e->words[LS_LOG_FIELD] = way_of(r, load, e->tons);
    look_later(r, plan, load, e);
    if (e->words[LS_LOG_FIELD][0] == '\0')
        leave_open(r, ls_arena_printf(r->arena, "the plan of %s has no ticket %s",
                                      ls_date_iso(r->arena, e->when.day), e->ticket.text));
}

/* As the ticket was issued the last time; NULL: it was not. */
static const char *issued_way(const ls_run *r, const ls_log_entry *e) {
    const ls_log *log = r->books.log;
    ls_coded_lots lots = ls_books_lots(r->arena, r->books.farm);
    for (size_t i = log == NULL ? 0 : log->entries.n; i > 0; i--) {
        const ls_log_entry *issued = &log->entries.at[i - 1];
        if (issued->of == LS_LOG_ISSUED && issued->replaced_by == 0 && issued->tons > 0 &&
            ls_books_same_ticket(&lots, issued, e))
            return ls_hauled_scaled(r->arena, r->books.farm, issued->words[LS_LOG_FIELD], e->tons);
    }
    return NULL;
}

/* A plan that takes more than a moment is not made for one load. */
static bool is_large(const ls_run *r) {
    enum { MOST_PAIRS = 100 };
    size_t fields = 0;
    for (size_t b = 0; b < r->books.farm->buyers.n; b++)
        fields += r->books.farm->buyers.at[b].fields.n;
    return fields * ls_books_lots(r->arena, r->books.farm).n > MOST_PAIRS;
}

int ls_haul_entry_find_place(ls_run *r, ls_log_entry *e) {
    if (!ls_run_log(r, e->when.day))
        return LS_MISTAKE; /* a log that cannot be read takes no entry */
    bool told = e->words[LS_LOG_FIELD][0] != '\0', plan = ls_books_can_plan(&r->books);
    const char *issued = told ? NULL : issued_way(r, e);
    if (issued != NULL)
        e->words[LS_LOG_FIELD] = issued;
    bool open = !told && issued == NULL;
    if (!open || !plan || is_large(r))
        r->books.draws = LS_BLOCK; /* only how densely litter lies is drawn, in one block */
    if (!ls_run_estimate(r)) {
        if (open)
            leave_open(r, "the farm cannot be estimated");
        return LS_DONE;
    }
    if (issued != NULL)
        return ls_haul_entry_check(r, e);
    if (!open)
        return LS_DONE;
    if (!plan || is_large(r)) {
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
