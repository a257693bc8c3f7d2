/* How many tons the stack holds: sides kept off the walls, lots apart; its piles, where they lie,
 * what they take of the shed, and what is left. */
#include "plan.h"

static ls_line practice(const ls_haul_planner *p, ls_worksheet *w, const char *key, const char *label, const char *unit,
                        const char *row) {
    return ls_leaf_figure(w, key, label, unit, ls_haul_practice(p, row));
}

/* The lightest loose litter of all houses: the room is on the safe side for each of them. */
static ls_line density(ls_haul_planner *p, ls_worksheet *w) {
    ls_line *all = LS_NEW(p->arena, ls_line, p->lots);
    size_t n = 0;
    for (size_t i = 0; i < p->lots; i++) {
        ls_line one = ls_haul_lot(p, i)->loose_density;
        bool seen = false;
        for (size_t k = 0; k < n; k++) seen = seen || all[k] == one;
        if (!seen) all[n++] = one;
    }
    return ls_least(w, "density", "density of the litter in the stack: the least of the houses", "lb/ft3", all, n);
}

/* Cross-section = height x (width - 2 clearances) - 1.5 height^2. */
static ls_line section(const ls_haul_planner *p, ls_worksheet *w, ls_line height, ls_line width) {
    ls_line side = practice(p, w, "side_clearance", "clearance at each side", "ft", "stack side clearance");
    ls_line two = ls_leaf_exact(w, "sides", "sides of a pile", "", 2, LS_BY_DEFINITION, NULL);
    ls_line both = LS_PRODUCT(w, "clearances", "clearance at both sides", "ft", two, side);
    ls_line foot = ls_difference(w, "foot", "width of the pile at its foot", "ft", width, both);
    ls_line box = LS_PRODUCT(w, "box", "height by width", "ft2", height, foot);
    ls_line slope =
        practice(p, w, "side_slope", "part of the height squared that the slopes take", "", "stack side slope");
    ls_line slopes = LS_PRODUCT(w, "slopes", "what the slopes take", "ft2", slope, height, height);
    return ls_difference(w, "section", "cross-section of the pile", "ft2", box, slopes);
}

/* Tons of the split. One pile slopes at one end, the other leans on the wall or a pile's foot. In
 * the split every pile takes two slopes, so one slope more than the shed has is room. What each end
 * slope takes of the length that is left at the door: 0.75 height. */
static void measure(ls_haul_planner *p, const ls_stack *s) {
    ls_worksheet *w = ls_part(p->w, NULL, "plan.stack");
    ls_line given = ls_leaf_given(w, "height", "height of the pile as given", "ft", &s->height);
    ls_line most = practice(p, w, "height_most", "greatest safe height", "ft", "stack height most");
    ls_line litter = density(p, w);
    ls_line height = LS_LEAST(w, "pile_height", "height of the pile", "ft", given, most);
    ls_line width = ls_leaf_given(w, "width", "width of the shed", "ft", &s->width);
    ls_line length = ls_leaf_given(w, "length", "length of the shed", "ft", &s->length);
    ls_line none = ls_leaf_exact(w, "none", "nothing", "ft", 0, LS_BY_DEFINITION, NULL);
    ls_line flat = LS_PRODUCT(w, "flat", "no cross-section", "ft2", none, none);
    ls_line across =
        LS_GREATEST(w, "across", "cross-section, none below nothing", "ft2", section(p, w, height, width), flat);
    ls_line end = practice(p, w, "end_clearance", "clearance at the end", "ft", "stack end clearance");
    ls_line slope = practice(p, w, "end_slope", "part of the height that an end slope takes", "", "stack end slope");
    double foot = ls_line_value(w, across) * ls_line_value(w, litter) / ls_unit_of("ton").factor;
    double taper = ls_line_value(w, LS_PRODUCT(w, "taper", "what an end slope takes", "ft", slope, height));
    double inside = ls_line_value(w, ls_difference(w, "inside", "length less clearance", "ft", length, end));
    p->stack_tons = inside > taper ? foot * (inside + taper) : 0;
    p->pile_tons = 2 * foot * taper;
}

void ls_haul_stack_room(ls_haul_planner *p) {
    const ls_stack *s = p->farm->stack;
    if (s != NULL && s->roofed.yes)
        measure(p, s);
    else if (s != NULL)
        ls_haul_note(p, "The stack has no roof: no litter is planned into it.");
    p->stack_tons = fmax(p->stack_tons, ls_haul_lies_there(p));
}

/* Piles lie behind each other, foot at foot, the first one at the wall: cross-section x (length -
 * clearance - (2 piles - 1) x 0.75 height). */
ls_line ls_haul_room_of_piles(ls_haul_planner *p, size_t piles) {
    ls_worksheet *w = ls_part(p->w, NULL, "plan.stack");
    ls_line inside = ls_line_find(w, "inside");
    if (inside == LS_NO_LINE) return LS_NO_LINE;
    ls_line slopes = ls_leaf_exact(w, ls_printf(w, "ends-%zu", piles),
                                   ls_printf(w, "end slopes of %zu piles, one at the wall", piles), "",
                                   (double)(2 * piles - 1), LS_BY_DEFINITION, NULL);
    ls_line lost = LS_PRODUCT(w, ls_printf(w, "lost-%zu", piles), "what the end slopes take", "ft", slopes,
                              ls_line_find(w, "taper"));
    ls_line run =
        ls_difference(w, ls_printf(w, "run-%zu", piles), "length for litter, end slopes aside", "ft", inside, lost);
    ls_line along = LS_GREATEST(w, ls_printf(w, "along-%zu", piles), "length for litter, none below nothing", "ft", run,
                                ls_line_find(w, "none"));
    return LS_PRODUCT(w, ls_printf(w, "room-%zu", piles),
                      ls_printf(w, "what the stack holds in %zu pile%s", piles, piles == 1 ? "" : "s"), "ton",
                      ls_line_find(w, "across"), along, ls_line_find(w, "density"));
}

/* ---- room that is taken ---- */

double ls_haul_lies_there(const ls_haul_planner *p) {
    return ls_haul_stacked_tons(p) + (double)(p->stacked_lots - p->house_lots) * p->pile_tons;
}

double ls_haul_in_pile(const ls_haul_planner *p, const ls_split *s, size_t lot) {
    double tons = 0;
    for (size_t i = 0; i < p->lots; i++) tons += p->lot_of[i] == lot ? s->stacked[i] : 0;
    return tons;
}

size_t ls_haul_piles(const ls_haul_planner *p, const ls_split *s) {
    size_t n = 0;
    for (size_t i = 0; i < p->e->n; i++) n += ls_haul_in_pile(p, s, i) > 0;
    return n;
}

double ls_haul_stack_used(const ls_haul_planner *p, const ls_split *s) {
    double used = (double)ls_haul_piles(p, s) * p->pile_tons;
    for (size_t i = 0; i < p->lots; i++) used += s->stacked[i];
    return used;
}

/* ---- piles ---- */

/* Behind all that came before. */
static void add(ls_haul_planner *p, const ls_lot *lot) {
    LS_EACH (const ls_pile, pile, p->plan->piles)
        if (pile->lot == lot) return;
    if (ls_haul_in_pile(p, p->middle, (size_t)(lot - p->e->lots)) > 0)
        *LS_PUSH(p->arena, &p->plan->piles) = (ls_pile){lot, LS_NO_LINE, LS_NO_LINE, LS_NO_DATE, LS_NO_DATE};
}

/* By the log and then by the plan, in the order in which litter comes; turned about. */
static void in_order(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    LS_EACH (const ls_stacked, stacked, p->farm->stacked) add(p, &p->e->lots[ls_haul_lot_coded(p, stacked->lot)]);
    LS_EACH (const ls_hauled, load, p->farm->hauled) {
        size_t lot = ls_haul_lot_coded(p, load->lot);
        for (size_t d = 0; lot < p->e->n && !load->from_stack && d < load->n; d++)
            if (load->drops[d].buyer == NULL) add(p, &p->e->lots[lot]);
    }
    LS_EACH_OF (const ls_load, load, plan->loads, plan->loads_n)
        if (load->buyer == NULL && ls_load_counted(load)) add(p, load->lot);
    for (size_t i = 0, n = plan->piles.n; i < n / 2; i++) {
        ls_pile front = plan->piles.at[n - 1 - i];
        plan->piles.at[n - 1 - i] = plan->piles.at[i];
        plan->piles.at[i] = front;
    }
}

/* The one at the wall slopes at one end alone. */
static ls_line length(ls_haul_planner *p, const ls_pile *pile, bool at_wall) {
    ls_worksheet *w = ls_part(p->w, pile->lot->name, "plan.pile.%s", pile->lot->slug);
    ls_line slopes = ls_line_find(p->w, "plan.stack.taper");
    ls_line litter = ls_quotient(w, "litter", "length that the litter takes, slopes aside", "ft", pile->tons,
                                 ls_line_find(p->w, "plan.stack.foot-tons"));
    if (!at_wall && slopes != LS_NO_LINE)
        slopes = LS_PRODUCT(w, "slopes", "what both end slopes take", "ft",
                            ls_haul_exact(p, "plan.stack.two-ends", "ends of a pile", "", 2), slopes);
    return LS_SUM(w, "length", "length of shed that the pile of %s takes", "ft", litter, slopes);
}

static void out_days(const ls_plan *plan, ls_pile *pile) {
    LS_EACH_OF (const ls_load, load, plan->out, plan->out_n) {
        if (load->lot != pile->lot || !ls_load_counted(load)) continue;
        if (pile->first == LS_NO_DATE || load->from < pile->first) pile->first = load->from;
        if (pile->last == LS_NO_DATE || load->from > pile->last) pile->last = load->from;
    }
}

static void room(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    ls_worksheet *w = ls_part(p->w, NULL, "plan.stack");
    size_t n = plan->piles.n;
    plan->stack_left = plan->another_pile = LS_NO_LINE;
    /* litter may lie in a stack that the file does not know: the log can tell of it */
    plan->stack_room = ls_haul_room_of_piles(p, n > 0 ? n : 1);
    if (!(p->stack_tons > 0)) plan->stack_room = LS_NO_LINE;
    if (plan->stack_room == LS_NO_LINE) return;
    ls_line foot = LS_PRODUCT(w, "foot-tons", "litter on a foot of the pile", "ton/ft", ls_line_find(w, "across"),
                              ls_line_find(w, "density"));
    plan->another_pile =
        LS_PRODUCT(w, "another", "room that the slopes of one more pile take", "ton",
                   ls_haul_exact(p, "plan.stack.two-ends", "ends of a pile", "", 2), ls_line_find(w, "taper"), foot);
    plan->stack_room = ls_same(w, "room", "what the stack holds, likely case", "ton", plan->stack_room);
}

void ls_haul_pile_lines(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    double held = 0;
    in_order(p);
    room(p);
    LS_EACH (ls_pile, pile, plan->piles) {
        double tons = ls_haul_in_pile(p, p->middle, (size_t)(pile->lot - p->e->lots));
        held += tons;
        pile->tons = ls_haul_decided(ls_part(p->w, pile->lot->name, "plan.pile.%s", pile->lot->slug), "tons",
                                     "litter in the pile of %s", "ton", tons, ls_haul_likely_split);
        pile->length = length(p, pile, pile + 1 == plan->piles.at + plan->piles.n);
        out_days(plan, pile);
    }
    if (plan->stack_room == LS_NO_LINE) return;
    ls_line in = ls_haul_decided(p->w, "plan.stack.held", "all that lies in the stack, likely case", "ton", held,
                                 ls_haul_likely_split);
    plan->stack_left =
        ls_difference(p->w, "plan.stack.left", "room left in the stack, likely case", "ton", plan->stack_room, in);
}
