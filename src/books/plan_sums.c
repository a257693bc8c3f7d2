/* What a plan adds up to: by buyer, by field, into the stack. */
#include "books.h"

static void buyer_tons(ls_books *books, const ls_plan *p, const ls_buyer *b, ls_buyer_sum *out, ls_line *room) {
    ls_worksheet *w = ls_part(books->sheet, b->name.text, "plan.buyer.%s", b->slug);
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++) {
        size_t n = 0;
        for (size_t i = 0; i < p->loads_n + p->out_n; i++)
            if (ls_plan_load(p, i)->buyer == b && ls_plan_load(p, i)->certainty == c)
                room[n++] = ls_plan_load(p, i)->tons;
        const char *name = ls_certainty_name(c);
        out->loads[c] = n;
        out->tons[c] = ls_sum(w, name, ls_printf(w, "%s tons for %%s", name), "ton", room, n);
    }
}

static ls_line stacked_of(ls_books *books, const ls_plan *p, const ls_lot *lot, ls_line *room) {
    size_t n = 0;
    LS_EACH_OF (const ls_load, load, p->loads, p->loads_n)
        if (load->buyer == NULL && load->lot == lot) room[n++] = load->tons;
    return ls_sum(ls_part(books->sheet, lot->name, "plan.stack.%s", lot->slug), "in",
                  "litter of %s taken into the stack", "ton", room, n);
}

/* What went into the stack by the haul logs, or came out of it; LS_NO_LINE: nothing. */
static ls_line by_way_of_stack(ls_books *books, const char *key, const char *label, bool out) {
    ls_worksheet *w = ls_part(books->sheet, NULL, "%s", key);
    ls_books_lines parts = {0};
    for (size_t i = 0; !out && i < books->farm->stacked.n; i++) {
        const ls_stacked *s = &books->farm->stacked.at[i];
        *LS_PUSH(books->arena, &parts) = ls_leaf_exact(w, ls_printf(w, "stacked-%zu", i + 1),
                                                       ls_printf(w, "litter of %s left there by %s", s->lot, s->from),
                                                       "ton", s->tons, LS_BY_LOG, s->from);
    }
    for (size_t i = 0; i < books->farm->hauled.n; i++) {
        const ls_hauled *load = &books->farm->hauled.at[i];
        double tons = load->from_stack ? load->tons : 0;
        for (size_t k = 0; !load->from_stack && k < load->n; k++)
            tons += load->drops[k].field == NULL ? load->drops[k].tons : 0;
        if (load->from_stack == out && tons > 0)
            *LS_PUSH(books->arena, &parts) =
                ls_leaf_exact(w, ls_printf(w, "%zu", i + 1), ls_printf(w, "load %s", load->ticket), "ton", tons,
                              LS_BY_LOG, load->entry);
    }
    return ls_sum(w, "", label, "ton", parts.at, parts.n);
}

static void hauled_into_stack(ls_books *books, ls_plan_sums *s) {
    static const char key[] = "plan.stack.still-there",
                      label[] = "litter that still lies in the stack, by the haul log";
    ls_worksheet *w = books->sheet;
    s->before = by_way_of_stack(books, "plan.stack.before", "litter hauled into the stack before", false);
    ls_line out = by_way_of_stack(books, "plan.stack.taken-out", "litter hauled out of the stack again", true);
    s->still_stacked = LS_NO_LINE;
    if (s->before == LS_NO_LINE) return;
    if (out == LS_NO_LINE) {
        s->still_stacked = ls_same(w, key, label, "ton", s->before);
        return;
    }
    ls_line rest = ls_difference(w, "plan.stack.rest", "in less out", "ton", s->before, out);
    ls_line none = ls_leaf_exact(w, "plan.stack.none-there", "nothing", "ton", 0, LS_BY_DEFINITION, NULL);
    s->still_stacked = LS_GREATEST(w, key, label, "ton", rest, none);
}

/* Litter of the middle case, and what lies there already, that no trip takes out of the stack. */
static ls_line stays(ls_books *books, const ls_plan *p, ls_line there, ls_line *room) {
    ls_worksheet *w = books->sheet;
    ls_line none = ls_leaf_exact(w, "plan.stack.nothing-else", "nothing", "ton", 0, LS_BY_DEFINITION, NULL);
    size_t n = 0;
    room[n++] = none;
    for (size_t i = 0; i < p->out_n; i++)
        if (ls_load_counted(&p->out[i])) room[n++] = p->out[i].tons;
    ls_line in = LS_SUM(w, "plan.stack.all-in", "into the stack, with what lies there", "ton", p->stacked[1],
                        there == LS_NO_LINE ? none : there);
    ls_line rest = ls_difference(w, "plan.stack.no-trip", "less what goes out again", "ton", in,
                                 ls_sum(w, "plan.stack.trips", "out of the stack again", "ton", room, n));
    return LS_GREATEST(w, "plan.stack.stays", "litter that stays in the stack, without a field", "ton", rest, none);
}

/* The one of two lines with the smaller value; LS_NO_LINE gives way. */
static ls_line smaller(const ls_worksheet *w, ls_line a, ls_line b) {
    return a == LS_NO_LINE || ls_line_value(w, b) < ls_line_value(w, a) ? b : a;
}

static ls_line larger(const ls_worksheet *w, ls_line a, ls_line b) {
    return a == LS_NO_LINE || ls_line_value(w, b) > ls_line_value(w, a) ? b : a;
}

/* The drops on one field. */
static ls_field_sum field_sum(ls_books *books, const ls_plan *p, const ls_buyer *b, const ls_field *f, ls_line *tons,
                              ls_line *acres, ls_line *mid, ls_line *mid_acres) {
    ls_field_sum sum = {0};
    size_t n = 0, likely = 0;
    for (size_t i = 0; i < p->loads_n + p->out_n; i++) {
        const ls_load *load = ls_plan_load(p, i);
        LS_EACH_OF (const ls_drop, drop, load->drops, load->n) {
            if (drop->field != f) continue;
            tons[n] = drop->tons, acres[n++] = drop->acres;
            if (load->certainty != LS_POSSIBLE) mid[likely] = drop->tons, mid_acres[likely++] = drop->acres;
            sum.least = smaller(books->sheet, sum.least, drop->rate);
            sum.most = larger(books->sheet, sum.most, drop->rate);
            sum.takes = larger(books->sheet, sum.takes, drop->takes);
        }
    }
    ls_worksheet *w = ls_part(books->sheet, f->name.text, "plan.field.%s.%s", b->slug, f->slug);
    sum.tons = ls_sum(w, "tons", "litter for %s", "ton", tons, n);
    sum.acres = ls_sum(w, "acres", "acres of %s covered", "ac", acres, n);
    sum.likely = ls_sum(w, "likely", "litter for %s, the middle", "ton", mid, likely);
    sum.likely_acres = ls_sum(w, "likely-acres", "acres of %s covered, the middle", "ac", mid_acres, likely);
    return sum;
}

static void fields(ls_books *books, const ls_plan *p, ls_buyer_sum *buyers) {
    size_t drops = 0;
    for (size_t i = 0; i < p->loads_n + p->out_n; i++) drops += ls_plan_load(p, i)->n;
    ls_line *tons = LS_NEW(books->arena, ls_line, drops), *acres = LS_NEW(books->arena, ls_line, drops),
            *mid = LS_NEW(books->arena, ls_line, drops), *mid_acres = LS_NEW(books->arena, ls_line, drops);
    for (size_t i = 0; i < books->farm->buyers.n; i++) {
        const ls_buyer *b = &books->farm->buyers.at[i];
        ls_field_sum *sums = LS_NEW(books->arena, ls_field_sum, b->fields.n);
        for (size_t k = 0; k < b->fields.n; k++)
            sums[k] = field_sum(books, p, b, &b->fields.at[k], tons, acres, mid, mid_acres);
        buyers[i].fields = sums;
    }
}

/* ---- the stack day by day ---- */

/* One day more: in the stack before it, with or without the loads of that day. */
static void stack_day(ls_books *books, ls_plan_sums *s, ls_date day, bool out, const ls_books_lines *loads) {
    ls_worksheet *w = books->sheet;
    const char *iso = ls_date_iso(books->arena, day), *way = out ? "out" : "in";
    ls_line moved = ls_sum(w, ls_printf(w, "plan.stack.%s-%s", way, iso), ls_printf(w, "loads %s of %s", way, iso),
                           "ton", loads->at, loads->n);
    ls_line before = s->stack_days.n > 0 ? s->stack_days.at[s->stack_days.n - 1].tons : s->still_stacked;
    const char *key = ls_printf(w, "plan.stack.after-%s-%s", way, iso),
               *label = ls_printf(w, "in the stack once loads of %s are %s", iso, way);
    ls_line tons = before == LS_NO_LINE ? ls_same(w, key, label, "ton", moved)
                   : out                ? ls_difference(w, key, label, "ton", before, moved)
                                        : LS_SUM(w, key, label, "ton", before, moved);
    *LS_PUSH(books->arena, &s->stack_days) = (ls_stack_day){day, out, tons};
}

/* The loads of the middle case into the stack, or out of it, by day. */
static void stack_days(ls_books *books, ls_plan_sums *s, bool out) {
    const ls_load *loads = out ? s->plan->out : s->plan->loads;
    size_t n = out ? s->plan->out_n : s->plan->loads_n;
    for (ls_date day = LS_NO_DATE, next;; day = next) {
        ls_books_lines of_day = {0};
        next = LS_NO_DATE;
        for (size_t i = 0; i < n; i++) {
            ls_date at = out ? loads[i].from : loads[i].day;
            if (!ls_load_counted(&loads[i]) || (!out && loads[i].buyer != NULL)) continue;
            if (at == day && day != LS_NO_DATE) *LS_PUSH(books->arena, &of_day) = loads[i].tons;
            if ((day == LS_NO_DATE || at > day) && (next == LS_NO_DATE || at < next)) next = at;
        }
        if (of_day.n > 0) stack_day(books, s, day, out, &of_day);
        if (next == LS_NO_DATE) return;
    }
}

/* ---- loads there and loads placed ---- */

static ls_line load_line(ls_worksheet *w, const char *key, const char *label, long loads) {
    return ls_leaf_exact(w, key, label, "load", (double)loads * ls_unit_of("load").factor, LS_BY_SPLIT,
                         "the loads of the plan");
}

static void count_loads(ls_books *books, const ls_plan *p, ls_certainty c, ls_load_count *out) {
    const ls_estimate *e = books->estimate;
    const ls_line there[] = {e->firm, e->likely, e->possible};
    const long without[] = {p->firm_homeless, p->homeless, p->high_homeless};
    const char *name = ls_certainty_name(c);
    ls_worksheet *w = ls_part(books->sheet, name, "plan.loads-%s", name);
    long straight = 0, stacked = 0;
    LS_EACH_OF (const ls_load, load, p->loads, p->loads_n)
        if (load->certainty <= c) ++*(load->buyer != NULL ? &straight : &stacked);
    out->there = there[c];
    out->straight = load_line(w, "straight", "loads straight to fields, up to %s", straight);
    out->stacked = load_line(w, "stacked", "loads into the stack, up to %s", stacked);
    out->without = load_line(w, "without", "loads without a field, up to %s", without[c]);
    ls_line all = LS_SUM(w, "by-lot", "loads lot by lot, up to %s", "load", out->straight, out->stacked, out->without);
    out->apart =
        ls_difference(w, "apart", "loads of the whole farm less those lot by lot, up to %s", "load", out->there, all);
}

/* ---- what can still be promised ---- */

static void unpromised(ls_books *books, ls_plan_sums *s, ls_buyer_sum *buyers, ls_line *room) {
    ls_worksheet *w = books->sheet;
    ls_books_lines all[2] = {{0}, {0}};
    for (size_t k = 0; k < books->farm->buyers.n; k++) {
        const ls_buyer *b = &books->farm->buyers.at[k];
        const ls_promise_kept *kept = ls_promise_kept_of(s->handed_out, b);
        size_t n = 0;
        for (size_t i = 0; i < s->plan->loads_n + s->plan->out_n; i++) {
            const ls_load *load = ls_plan_load(s->plan, i);
            if (load->buyer == b && load->certainty == LS_FIRM && !ls_books_owes(kept, load)) room[n++] = load->tons;
        }
        buyers[k].unpromised = n;
        buyers[k].unpromised_tons =
            n == buyers[k].loads[LS_FIRM]
                ? buyers[k].tons[LS_FIRM]
                : ls_sum(w, ls_printf(w, "plan.buyer.%s.not-promised", b->slug),
                         ls_printf(w, "firm tons for %s that no slip promises", b->name.text), "ton", room, n);
        *LS_PUSH(books->arena, &all[b->own.yes]) = buyers[k].unpromised_tons;
    }
    s->unpromised[0] =
        ls_sum(w, "plan.firm-not-promised", "firm tons that no slip promises", "ton", all[0].at, all[0].n);
    s->unpromised[1] =
        ls_sum(w, "plan.firm-on-own-fields", "firm tons for the farm's own fields", "ton", all[1].at, all[1].n);
}

const ls_plan_sums *ls_books_plan_sums(ls_books *books, const ls_plan *p) {
    const ls_estimate *e = books->estimate;
    size_t buyers_n = books->farm->buyers.n;
    ls_buyer_sum *buyers = LS_NEW(books->arena, ls_buyer_sum, buyers_n);
    ls_line *stacked = LS_NEW(books->arena, ls_line, e->n);
    ls_line *room = LS_NEW(books->arena, ls_line, p->loads_n + p->out_n + 1);
    ls_plan_sums *s = LS_NEW(books->arena, ls_plan_sums, 1);
    *s = (ls_plan_sums){.estimate = e, .plan = p, .buyers = buyers, .stacked = stacked};
    for (size_t i = 0; i < buyers_n; i++) buyer_tons(books, p, &books->farm->buyers.at[i], &buyers[i], room);
    for (size_t i = 0; i < e->n; i++) stacked[i] = stacked_of(books, p, &e->lots[i], room);
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++) count_loads(books, p, c, &s->counts[c]);
    hauled_into_stack(books, s);
    s->stays = stays(books, p, s->still_stacked, room);
    stack_days(books, s, false);
    stack_days(books, s, true);
    fields(books, p, buyers);
    s->take_care = ls_books_plan_cautions(books, p);
    s->handed_out = ls_books_handed_out(books, p);
    unpromised(books, s, buyers, room);
    return s;
}
