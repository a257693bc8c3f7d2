/* The piles in the stack: where they lie, what they take of the shed, and what is left. */
#include "plan.h"

/* Behind all that came before. */
static void add(ls_haul_planner *p, const ls_lot *lot) {
    for (size_t k = 0; k < p->plan->piles.n; k++)
        if (p->plan->piles.at[k].lot == lot) return;
    if (ls_haul_in_pile(p, p->middle, (size_t)(lot - p->e->lots)) > 0)
        *LS_PUSH(p->arena, &p->plan->piles) =
            (ls_pile){lot, LS_NO_LINE, LS_NO_LINE, LS_NO_DATE, LS_NO_DATE};
}

/* By the log and then by the plan, in the order in which litter comes; turned about. */
static void in_order(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    for (size_t k = 0; k < p->farm->stacked.n; k++)
        add(p, &p->e->lots[ls_haul_lot_coded(p, p->farm->stacked.at[k].lot)]);
    for (size_t k = 0; k < p->farm->hauled.n; k++) {
        const ls_hauled *load = &p->farm->hauled.at[k];
        size_t lot = ls_haul_lot_coded(p, load->lot);
        for (size_t d = 0; lot < p->e->n && !load->from_stack && d < load->n; d++)
            if (load->drops[d].buyer == NULL) add(p, &p->e->lots[lot]);
    }
    for (size_t k = 0; k < plan->loads_n; k++)
        if (plan->loads[k].buyer == NULL && ls_load_counted(&plan->loads[k]))
            add(p, plan->loads[k].lot);
    for (size_t i = 0, n = plan->piles.n; i < n / 2; i++) {
        ls_pile front = plan->piles.at[n - 1 - i];
        plan->piles.at[n - 1 - i] = plan->piles.at[i];
        plan->piles.at[i] = front;
    }
}

/* The one at the wall slopes at one end alone. */
static ls_line length(ls_haul_planner *p, const ls_pile *pile, bool at_wall) {
    ls_worksheet *w = p->w;
    ls_line taper = ls_line_find(w, "plan.stack.taper");
    const char *slug = pile->lot->slug;
    if (taper == LS_NO_LINE) return LS_NO_LINE;
    ls_line litter = ls_quotient(w, ls_printf(w, "plan.pile.%s.litter", slug),
                                 "length that the litter takes, slopes aside", "ft", pile->tons,
                                 ls_line_find(w, "plan.stack.foot-tons"));
    ls_line slopes =
        at_wall
            ? taper
            : LS_PRODUCT(w, ls_printf(w, "plan.pile.%s.slopes", slug), "what both end slopes take",
                         "ft", ls_haul_exact(p, "plan.stack.two-ends", "ends of a pile", "", 2),
                         taper);
    return LS_SUM(w, ls_printf(w, "plan.pile.%s.length", slug),
                  ls_printf(w, "length of shed that the pile of %s takes", pile->lot->name), "ft",
                  litter, slopes);
}

static void out_days(const ls_plan *plan, ls_pile *pile) {
    for (size_t k = 0; k < plan->out_n; k++) {
        const ls_load *load = &plan->out[k];
        if (load->lot != pile->lot || !ls_load_counted(load)) continue;
        if (pile->first == LS_NO_DATE || load->from < pile->first) pile->first = load->from;
        if (pile->last == LS_NO_DATE || load->from > pile->last) pile->last = load->from;
    }
}

static void room(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    ls_worksheet *w = p->w;
    size_t n = plan->piles.n;
    plan->stack_left = plan->another_pile = LS_NO_LINE;
    /* litter may lie in a stack that the file does not know: the log can tell of it */
    plan->stack_room = ls_haul_room_of_piles(p, n > 0 ? n : 1);
    if (!(p->stack_tons > 0) || plan->stack_room == LS_NO_LINE) {
        plan->stack_room = LS_NO_LINE;
        return;
    }
    ls_line foot =
        LS_PRODUCT(w, "plan.stack.foot-tons", "litter on a foot of the pile", "ton/ft",
                   ls_line_find(w, "plan.stack.across"), ls_line_find(w, "plan.stack.density"));
    plan->another_pile =
        LS_PRODUCT(w, "plan.stack.another", "room that the slopes of one more pile take", "ton",
                   ls_haul_exact(p, "plan.stack.two-ends", "ends of a pile", "", 2),
                   ls_line_find(w, "plan.stack.taper"), foot);
    plan->stack_room =
        ls_same(w, "plan.stack.room", "what the stack holds, likely case", "ton", plan->stack_room);
}

void ls_haul_pile_lines(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    ls_worksheet *w = p->w;
    double ton = ls_unit_of("ton").factor, held = 0;
    in_order(p);
    room(p);
    for (size_t k = 0; k < plan->piles.n; k++) {
        ls_pile *pile = &plan->piles.at[k];
        double tons = ls_haul_in_pile(p, p->middle, (size_t)(pile->lot - p->e->lots));
        held += tons;
        pile->tons = ls_leaf_exact(w, ls_printf(w, "plan.pile.%s.tons", pile->lot->slug),
                                   ls_printf(w, "litter in the pile of %s", pile->lot->name), "ton",
                                   tons * ton, LS_BY_SPLIT, "the split of the likely case");
        pile->length = length(p, pile, k + 1 == plan->piles.n);
        out_days(plan, pile);
    }
    if (plan->stack_room == LS_NO_LINE) return;
    ls_line in = ls_leaf_exact(w, "plan.stack.held", "all that lies in the stack, likely case",
                               "ton", held * ton, LS_BY_SPLIT, "the split of the likely case");
    plan->stack_left = ls_difference(w, "plan.stack.left", "room left in the stack, likely case",
                                     "ton", plan->stack_room, in);
}
