/* How many tons the stack holds: sides kept off the walls, lots apart. */
#include "plan.h"

typedef struct {
    ls_line height, width, length, density;
} pile;

static ls_line practice(ls_haul_planner *p, const char *key, const char *label, const char *unit,
                        const char *row) {
    return ls_leaf_figure(p->w, key, label, unit,
                          ls_reference_need(p->reference, "practice", "", row, "value"));
}

/* The lightest loose litter of all houses: the room is on the safe side for each of them. */
static ls_line density(ls_haul_planner *p) {
    ls_line *all = LS_NEW(p->arena, ls_line, p->lots);
    size_t n = 0;
    for (size_t i = 0; i < p->lots; i++) {
        ls_line one = ls_haul_lot(p, i)->loose_density;
        bool seen = false;
        for (size_t k = 0; k < n; k++) seen = seen || all[k] == one;
        if (!seen) all[n++] = one;
    }
    return ls_least(p->w, "plan.stack.density",
                    "density of the litter in the stack: the least of the houses", "lb/ft3", all,
                    n);
}

static pile measures(ls_haul_planner *p) {
    const ls_stack *s = p->farm->stack;
    ls_worksheet *w = p->w;
    ls_line given =
        ls_leaf_given(w, "plan.stack.height", "height of the pile as given", "ft", &s->height);
    ls_line most =
        practice(p, "plan.stack.height_most", "greatest safe height", "ft", "stack height most");
    pile m = {.density = density(p)};
    m.height = LS_LEAST(w, "plan.stack.pile_height", "height of the pile", "ft", given, most);
    m.width = ls_leaf_given(w, "plan.stack.width", "width of the shed", "ft", &s->width);
    m.length = ls_leaf_given(w, "plan.stack.length", "length of the shed", "ft", &s->length);
    return m;
}

/* Cross-section = height x (width - 2 clearances) - 1.5 height^2. */
static ls_line section(ls_haul_planner *p, pile m) {
    ls_worksheet *w = p->w;
    ls_line side = practice(p, "plan.stack.side_clearance", "clearance at each side", "ft",
                            "stack side clearance");
    ls_line two =
        ls_leaf_exact(w, "plan.stack.sides", "sides of a pile", "", 2, LS_BY_DEFINITION, NULL);
    ls_line both =
        LS_PRODUCT(w, "plan.stack.clearances", "clearance at both sides", "ft", two, side);
    ls_line foot =
        ls_difference(w, "plan.stack.foot", "width of the pile at its foot", "ft", m.width, both);
    ls_line box = LS_PRODUCT(w, "plan.stack.box", "height by width", "ft2", m.height, foot);
    ls_line slope =
        practice(p, "plan.stack.side_slope", "part of the height squared that the slopes take", "",
                 "stack side slope");
    ls_line slopes = LS_PRODUCT(w, "plan.stack.slopes", "what the slopes take", "ft2", slope,
                                m.height, m.height);
    return ls_difference(w, "plan.stack.section", "cross-section of the pile", "ft2", box, slopes);
}

/* What each end slope takes of the length that is left at the door: 0.75 height. */
static void ends(ls_haul_planner *p, pile m) {
    ls_worksheet *w = p->w;
    ls_line end = practice(p, "plan.stack.end_clearance", "clearance at the end", "ft",
                           "stack end clearance");
    ls_line slope = practice(p, "plan.stack.end_slope",
                             "part of the height that an end slope takes", "", "stack end slope");
    LS_PRODUCT(w, "plan.stack.taper", "what an end slope takes", "ft", slope, m.height);
    ls_difference(w, "plan.stack.inside", "length less clearance", "ft", m.length, end);
}

static double found(const ls_haul_planner *p, const char *key) {
    return ls_line_value(p->w, ls_line_find(p->w, key));
}

/* One pile slopes at one end, the other leans on the wall or a pile's foot. In the split every pile
 * takes two slopes, so one slope more than the shed has is room. */
void ls_haul_stack_room(ls_haul_planner *p) {
    const ls_stack *s = p->farm->stack;
    if (s != NULL && s->roofed.yes) {
        pile m = measures(p);
        ls_line none = ls_haul_exact(p, "plan.stack.none", "nothing", "ft", 0);
        ls_line flat = LS_PRODUCT(p->w, "plan.stack.flat", "no cross-section", "ft2", none, none);
        ls_line across = LS_GREATEST(p->w, "plan.stack.across", "cross-section, none below nothing",
                                     "ft2", section(p, m), flat);
        ends(p, m);
        double foot = ls_line_value(p->w, across) * ls_line_value(p->w, m.density) /
                      ls_unit_of("ton").factor,
               inside = found(p, "plan.stack.inside"), taper = found(p, "plan.stack.taper");
        p->stack_tons = inside > taper ? foot * (inside + taper) : 0;
        p->pile_tons = 2 * foot * taper;
    } else if (s != NULL)
        ls_haul_note(p, "The stack has no roof: no litter is planned into it.");
    p->stack_tons = fmax(p->stack_tons, ls_haul_lies_there(p));
}

/* Piles lie behind each other, foot at foot, the first one at the wall: cross-section x (length -
 * clearance - (2 piles - 1) x 0.75 height). */
ls_line ls_haul_room_of_piles(ls_haul_planner *p, size_t piles) {
    ls_worksheet *w = p->w;
    ls_line inside = ls_line_find(w, "plan.stack.inside");
    const char *key = ls_printf(w, "plan.stack.room-%zu", piles);
    if (inside == LS_NO_LINE || ls_line_find(w, key) != LS_NO_LINE)
        return inside == LS_NO_LINE ? inside : ls_line_find(w, key);
    ls_line slopes = ls_leaf_exact(w, ls_printf(w, "plan.stack.ends-%zu", piles),
                                   ls_printf(w, "end slopes of %zu piles, one at the wall", piles),
                                   "", (double)(2 * piles - 1), LS_BY_DEFINITION, NULL);
    ls_line lost =
        LS_PRODUCT(w, ls_printf(w, "plan.stack.lost-%zu", piles), "what the end slopes take", "ft",
                   slopes, ls_line_find(w, "plan.stack.taper"));
    ls_line run = ls_difference(w, ls_printf(w, "plan.stack.run-%zu", piles),
                                "length for litter, end slopes aside", "ft", inside, lost);
    ls_line along = LS_GREATEST(w, ls_printf(w, "plan.stack.along-%zu", piles),
                                "length for litter, none below nothing", "ft", run,
                                ls_line_find(w, "plan.stack.none"));
    return LS_PRODUCT(
        w, key, ls_printf(w, "what the stack holds in %zu pile%s", piles, piles == 1 ? "" : "s"),
        "ton", ls_line_find(w, "plan.stack.across"), along, ls_line_find(w, "plan.stack.density"));
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
