/* What looks odd in an entry but may be so: said, and recorded all the same. */
#include "haul_entry.h"

#include <math.h>
#include <string.h>

/* Beyond so many times the estimate's outer points it is said. */
static const double far_off = 2;

static const char *tons(const ls_run *r, double x) {
    return ls_number_fixed(r->arena, x / ls_unit_of("ton").factor, 2);
}

/* No plan sends less than the smallest drop. */
static void look_light(ls_run *r, const ls_log_entry *e, const ls_lot *lot) {
    double full = lot->payload.line == LS_NO_LINE ? NAN : lot->payload.mid;
    const ls_figure *least =
        ls_reference_need(r->books.reference, "practice", "", "smallest drop", "value");
    if (e->tons < least->value && isfinite(full))
        ls_run_say(r, LS_DONE,
                   "%s tons is little for a load (a full one is about %s tons): if the number is "
                   "wrong, correct the entry with --replaces and --tons",
                   tons(r, e->tons), tons(r, full));
}

/* Well above what a full load may weigh (its 90 % point): heaped, or wetter. */
static void look_full(ls_run *r, const ls_log_entry *e, const ls_lot *lot) {
    const double well = 1.1;
    const ls_truck *truck = ls_haul_entry_truck(r, e);
    double most =
        truck == NULL ? INFINITY : lot->kinds[truck - r->books.farm->trucks.at].next_load.high;
    if (e->tons > most * well)
        ls_run_say(r, LS_DONE,
                   "%s tons is much for a load (a full one of this litter is hardly ever above %s "
                   "tons): if the number is wrong, correct the entry with --replaces and --tons",
                   tons(r, e->tons), tons(r, most));
}

/* Out of the house, of loads that stand. */
static double gone_of(const ls_run *r, const ls_lot *lot) {
    double sum = 0;
    ls_coded_lots lots = ls_books_lots(r->arena, r->books.farm);
    for (size_t i = 0; r->books.log != NULL && i < r->books.log->entries.n; i++) {
        const ls_log_entry *e = &r->books.log->entries.at[i];
        const ls_coded_lot *of = ls_books_litter(&lots, e);
        if (ls_log_stands(e) && !e->ticket.from_stack && of != NULL &&
            strcmp(of->code, lot->code) == 0)
            sum += e->tons;
    }
    return sum;
}

static void look_cleared(ls_run *r, const ls_log_entry *e, const ls_lot *lot) {
    const ls_q *made = lot->made.line != LS_NO_LINE ? &lot->made : &lot->tons;
    if (isnan(e->cleared) || e->ticket.from_stack)
        return;
    double all = (gone_of(r, lot) + e->tons) / e->cleared;
    if (all >= made->low / far_off && all <= made->high * far_off)
        return;
    ls_run_say(r, LS_DONE,
               "--cleared %s means that %s held %s tons in all; the estimate was %s to %s tons: if "
               "that is not so, correct the entry with --replaces and --cleared",
               ls_log_share_text(r->arena, e->cleared), lot->name, tons(r, all), tons(r, made->low),
               tons(r, made->high));
}

void ls_haul_entry_notes(ls_run *r, const ls_log_entry *e) {
    bool said = ls_run_given(r, LS_OPTION_TONS) && !ls_run_given(r, LS_OPTION_SURE);
    if (said && e->replaces > 0) {
        r->books.draws = LS_BLOCK;
        ls_run_estimate(r);
    }
    const ls_lot *lot = said ? ls_books_lot_of(r->books.estimate, e->ticket.code) : NULL;
    if (lot == NULL)
        return;
    look_light(r, e, lot);
    look_full(r, e, lot);
    look_cleared(r, e, lot);
}
