/* Where a load went, if it was not told: where the plan of that morning sends its ticket, or a plan
 * later on that day a ticket that the morning did not know. */
#include "haul_entry.h"

#include <string.h>

static void leave_open(ls_run *r, const char *why) {
    ls_run_say(r, LS_DONE, "%s: where the load went stays open; --field tells it", why);
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
        drops[i] = (ls_hauled_drop){load->drops[i].buyer, load->drops[i].field,
                                    ls_line_value(r->books.sheet, load->drops[i].tons) * tons / all,
                                    false};
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

int ls_haul_entry_find_place(ls_run *r, ls_log_entry *e) {
    if (e->words[LS_LOG_FIELD][0] != '\0')
        r->books.draws = LS_BLOCK; /* only how densely litter lies is drawn, in one block */
    if (!ls_run_log(r, e->when.day))
        return LS_MISTAKE; /* a log that cannot be read takes no entry */
    if (!ls_run_estimate(r)) {
        leave_open(r, "the farm cannot be estimated");
        return LS_DONE;
    }
    int code = ls_haul_entry_check_body(r, e);
    if (code != LS_DONE || e->words[LS_LOG_FIELD][0] != '\0')
        return code;
    if (!ls_books_can_plan(&r->books)) {
        leave_open(r, "these files do not make a plan");
        return LS_DONE;
    }
    const ls_plan *plan = ls_run_agronomy(r) ? ls_run_morning_plan(r) : NULL;
    if (plan == NULL) {
        ls_diag_print(r->books.diag, r->err);
        leave_open(r, "no plan can be made");
        return LS_DONE;
    }
    by_plan(r, plan, e);
    return ls_haul_entry_check_window(r, e);
}
