/* The piles in the stack: where they lie, what they take of the shed, and what is left. */
#include "plan.h"

/* Behind all that came before. */
static void add(ls_haul_planner *p, const ls_lot *lot) {
    LS_EACH (const ls_pile, pile, p->plan->piles)
        if (pile->lot == lot) return;
    if (ls_haul_in_pile(p, p->middle, (size_t)(lot - p->e->lots)) > 0)
        *LS_PUSH(p->arena, &p->plan->piles) =
            (ls_pile){lot, LS_NO_LINE, LS_NO_LINE, LS_NO_DATE, LS_NO_DATE};
}

/* By the log and then by the plan, in the order in which litter comes; turned about. */
static void in_order(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    LS_EACH (const ls_stacked, stacked, p->farm->stacked)
        add(p, &p->e->lots[ls_haul_lot_coded(p, stacked->lot)]);
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
    ls_line litter = ls_quotient(w, "litter", "length that the litter takes, slopes aside", "ft",
                                 pile->tons, ls_line_find(p->w, "plan.stack.foot-tons"));
    if (!at_wall && slopes != LS_NO_LINE)
        slopes =
            LS_PRODUCT(w, "slopes", "what both end slopes take", "ft",
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
    ls_line foot = LS_PRODUCT(w, "foot-tons", "litter on a foot of the pile", "ton/ft",
                              ls_line_find(w, "across"), ls_line_find(w, "density"));
    plan->another_pile =
        LS_PRODUCT(w, "another", "room that the slopes of one more pile take", "ton",
                   ls_haul_exact(p, "plan.stack.two-ends", "ends of a pile", "", 2),
                   ls_line_find(w, "taper"), foot);
    plan->stack_room =
        ls_same(w, "room", "what the stack holds, likely case", "ton", plan->stack_room);
}

void ls_haul_pile_lines(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    double held = 0;
    in_order(p);
    room(p);
    LS_EACH (ls_pile, pile, plan->piles) {
        double tons = ls_haul_in_pile(p, p->middle, (size_t)(pile->lot - p->e->lots));
        held += tons;
        pile->tons =
            ls_haul_decided(ls_part(p->w, pile->lot->name, "plan.pile.%s", pile->lot->slug), "tons",
                            "litter in the pile of %s", "ton", tons, ls_haul_likely_split);
        pile->length = length(p, pile, pile + 1 == plan->piles.at + plan->piles.n);
        out_days(plan, pile);
    }
    if (plan->stack_room == LS_NO_LINE) return;
    ls_line in = ls_haul_decided(p->w, "plan.stack.held", "all that lies in the stack, likely case",
                                 "ton", held, ls_haul_likely_split);
    plan->stack_left = ls_difference(p->w, "plan.stack.left", "room left in the stack, likely case",
                                     "ton", plan->stack_room, in);
}
