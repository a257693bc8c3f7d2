/* What looks odd in an entry but may be so: said, and recorded all the same. */
#include "haul_entry.h"

#include <math.h>
#include <string.h>

/* So many times as far from the likely case as the outer points is odd: 1 time in 100 of a normal figure. */
static const double far_off = 2, outer_point = 1.2816; /* standard uncertainties */

static const char *tons(const ls_run *r, double x) {
    return ls_number_fixed(r->arena, x / ls_unit_of("ton").factor, 2);
}

/* The ticket as it was issued the last time; NULL: it was not. */
static const ls_log_entry *issue_of(const ls_run *r, const ls_log *log, const ls_log_entry *e) {
    const ls_log_entry *is = ls_log_issue_of(log, e->ticket.text);
    ls_coded_lots lots = ls_books_lots(r->arena, r->books.farm);
    return is != NULL && ls_books_same_ticket(&lots, is, e) ? is : NULL;
}

/* No plan sends less than the smallest drop, and a ticket's load by its truck is seldom below its
 * 10 % point; the last of a side may be. */
static void look_light(ls_run *r, const ls_log *log, const ls_log_entry *e, const ls_lot *lot) {
    const ls_log_entry *is = isnan(e->cleared) ? issue_of(r, log, e) : NULL;
    double low = ls_reference_practice(r->books.reference, "smallest drop")->value;
    const ls_truck *truck = ls_haul_entry_truck(r, e);
    if (truck == NULL) return;
    const ls_lot_kind *kind = &lot->kinds[truck - r->books.farm->trucks.at];
    const ls_truck *of = is == NULL ? NULL : ls_haul_entry_truck(r, is);
    if (of == truck && kind->next_load.mid > 0) low = fmax(low, is->tons * kind->next_load.low / kind->next_load.mid);
    if (e->tons < low)
        TELL(r,
             "%s tons is little for a load (a full one is about %s tons): if the number is wrong, "
             "correct the entry with --replaces and --tons",
             tons(r, e->tons), tons(r, kind->payload.mid));
}

/* Well above what a full load may weigh (its 90 % point): heaped, or wetter. */
static void look_full(ls_run *r, const ls_log_entry *e, const ls_lot *lot) {
    const double well = 1.1;
    const ls_truck *truck = ls_haul_entry_truck(r, e);
    double most = truck == NULL ? INFINITY : lot->kinds[truck - r->books.farm->trucks.at].next_load.high;
    if (e->tons > most * well)
        TELL(r,
             "%s tons is much for a load (a full one of this litter is hardly ever above %s tons): "
             "if the number is wrong, correct the entry with --replaces and --tons",
             tons(r, e->tons), tons(r, most));
}

/* Does the other load stand beside the new entry? */
static bool beside(const ls_log_entry *other, const ls_log_entry *e) {
    return ls_log_stands(other) && other->number != e->replaces;
}

/* Out of the house with the new entry, of loads that stand: before it, of a lot that is empty all of them. */
static double gone_of(const ls_run *r, const ls_log *log, const ls_log_entry *new, const ls_lot *lot) {
    double sum = new->tons;
    ls_coded_lots lots = ls_books_lots(r->arena, r->books.farm);
    LS_EACH (const ls_log_entry, e, log->entries) {
        const ls_coded_lot *of = ls_books_litter(&lots, e);
        bool counts = beside(e, new) && (new->cleared >= 1 || ls_log_order(e, new) < 0);
        if (counts && !e->ticket.from_stack && of != NULL && strcmp(of->code, lot->code) == 0) sum += e->tons;
    }
    return sum;
}

static void look_cleared(ls_run *r, const ls_log *log, const ls_log_entry *e, const ls_lot *lot) {
    const ls_q *made = lot->made.line != LS_NO_LINE ? &lot->made : &lot->tons;
    if (isnan(e->cleared) || e->ticket.from_stack) return;
    double all = gone_of(r, log, e, lot) / e->cleared,
           outer = all < made->mid ? made->mid - made->low : made->high - made->mid;
    double eye = e->cleared < 1 ? outer_point * ls_reference_practice(r->books.reference, "cleared by eye")->value : 0;
    if (fabs(all - made->mid) <= far_off * hypot(outer, all * eye / e->cleared)) return;
    TELL(r,
         "--cleared %s means that %s held %s tons in all; the estimate was %s to %s tons: if that "
         "is not so, correct the entry with --replaces and --cleared",
         ls_log_share_text(r->arena, e->cleared), lot->name, tons(r, all), tons(r, made->low), tons(r, made->high));
}

/* ---- where it went ---- */

static ls_hauled_drops drops_of(const ls_run *r, const ls_log_entry *e) {
    const char *unknown = NULL;
    ls_hauled_drops drops = ls_hauled_places(r->arena, r->books.farm, e->words[LS_LOG_FIELD], e->tons, &unknown);
    if (!isnan(e->acres)) ls_hauled_cover(&drops, e->acres);
    return drops;
}

static void look_astray(ls_run *r, const ls_log *log, const ls_log_entry *e) {
    const ls_log_entry *entry = issue_of(r, log, e);
    ls_coded_lots lots = ls_books_lots(r->arena, r->books.farm);
    ls_hauled_drops drops = drops_of(r, e);
    if (entry == NULL) return;
    ls_issued is = ls_issued_of(r->arena, r->books.farm, &lots, entry);
    if (!ls_books_same_way(&is, drops.at, drops.n))
        TELL(r,
             "its ticket was for %s, this load went to %s: if that is not so, correct the entry "
             "with --replaces and --field",
             is.to_stack ? "the stack" : is.drops[0].name, e->words[LS_LOG_FIELD]);
}

/* What lies on a field, and the share that is of what it may take. */
typedef struct {
    double tons, share;
} on_field;

static void lay(const ls_run *r, const ls_log_entry *e, const ls_field_rates *rates, on_field *on) {
    const ls_estimate *all = r->books.estimate;
    const ls_lot *lot = ls_books_lot_of(all, e->ticket.code);
    ls_hauled_drops drops = drops_of(r, e);
    for (size_t k = 0; lot != NULL && k < drops.n; k++) {
        if (drops.at[k].field != rates->field) continue;
        double takes = ls_line_value(r->books.sheet, rates->rates[lot - all->lots].takes);
        on->tons += drops.at[k].tons;
        on->share += takes > 0 ? drops.at[k].tons / takes : INFINITY;
    }
}

/* More on an acre than may go on that day. */
static void look_rate(ls_run *r, const ls_log_entry *e, const ls_field_rates *rates, const ls_hauled_drop *drop,
                      double most) {
    const ls_lot *lot = ls_books_lot_of(r->books.estimate, e->ticket.code);
    const ls_truck *truck = ls_farm_truck_named(r->books.farm, e->words[LS_LOG_TRUCK]);
    if (lot == NULL || !(drop->acres > 0)) return;
    const ls_rate *rate = (e->ticket.from_stack ? ls_field_stacked_rate : ls_field_rate)(
        rates, (size_t)(lot - r->books.estimate->lots), truck == NULL ? 0 : (size_t)(truck - r->books.farm->trucks.at));
    double per_acre = ls_unit_of("ton/ac").factor, on = drop->tons / drop->acres,
           limit = ls_line_value(r->books.sheet, ls_agronomy_limit_on(r->books.sheet, rates, rate, e->when.day));
    if (on > limit * most)
        TELL(r,
             "%s tons on %s acres of %s are %s, and no more than %s may go on: if the tons or the acres are wrong, "
             "correct the entry with --replaces",
             tons(r, drop->tons), ls_log_acres_text(r->arena, drop->acres), drop->field->name.text,
             ls_unit_amount(r->arena, ls_number_fixed(r->arena, on / per_acre, 2), "ton/ac"),
             ls_number_fixed(r->arena, limit / per_acre, 2));
}

/* More than the field may take, by the rates of the sides it came from. */
static void look_field(ls_run *r, const ls_log *log, const ls_log_entry *e, const ls_hauled_drop *drop, bool planned) {
    const double most = 1 + ls_reference_practice(r->books.reference, "over a limit unflagged")->value;
    size_t before = ls_worksheet_lines(r->books.sheet);
    const ls_field_rates *rates = ls_agronomy_field(r->books.agronomy, drop->buyer, drop->field);
    ls_coded_lots lots = ls_books_lots(r->arena, r->books.farm);
    on_field on = {0, 0};
    for (size_t i = 0; rates != NULL && i < log->entries.n; i++)
        if (beside(&log->entries.at[i], e) && ls_books_litter(&lots, &log->entries.at[i]) != NULL)
            lay(r, &log->entries.at[i], rates, &on);
    if (rates != NULL) lay(r, e, rates, &on), look_rate(r, e, rates, drop, most);
    ls_worksheet_cut(r->books.sheet, before);
    if (!planned && on.share > most)
        TELL(r,
             "%s has %s tons with this load and may take %s: bring no more there. If the tons or "
             "the field are wrong, correct the entry with --replaces",
             drop->field->name.text, tons(r, on.tons), tons(r, on.tons / on.share));
}

/* By a plan that was made just now the load went where there was room. */
static void look_fields(ls_run *r, const ls_log *log, const ls_log_entry *e) {
    ls_hauled_drops drops = drops_of(r, e);
    bool planned = r->books.agronomy != NULL;
    if (!ls_books_can_plan(&r->books) || (!planned && !ls_books_agronomy(&r->books))) return;
    for (size_t k = 0; k < drops.n; k++)
        if (drops.at[k].field != NULL) look_field(r, log, e, &drops.at[k], planned);
}

void ls_haul_entry_notes(ls_run *r, const ls_log *log, const ls_log_entry *e) {
    bool amount = GIVEN(r, TONS);
    if (GIVEN(r, SURE) || !(amount || GIVEN(r, FIELD) || GIVEN(r, CLEARED) || GIVEN(r, ACRES))) return;
    if (e->replaces > 0) {
        r->books.draws = LS_BLOCK;
        ls_run_estimate(r);
    }
    const ls_lot *lot = ls_books_lot_of(r->books.estimate, e->ticket.code);
    if (lot == NULL) return;
    if (amount) {
        look_light(r, log, e, lot);
        look_full(r, e, lot);
    }
    if (amount || GIVEN(r, CLEARED)) look_cleared(r, log, e, lot);
    look_astray(r, log, e);
    look_fields(r, log, e);
}
