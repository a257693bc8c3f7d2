/* How many tons the stack holds. */
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
        for (size_t k = 0; k < n; k++)
            seen = seen || all[k] == one;
        if (!seen)
            all[n++] = one;
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

/* Length of the pile = length - clearance - 0.75 height. */
static ls_line run(ls_haul_planner *p, pile m) {
    ls_worksheet *w = p->w;
    ls_line end = practice(p, "plan.stack.end_clearance", "clearance at the end", "ft",
                           "stack end clearance");
    ls_line slope = practice(p, "plan.stack.end_slope",
                             "part of the height that the end slope takes", "", "stack end slope");
    ls_line taper =
        LS_PRODUCT(w, "plan.stack.taper", "what the end slope takes", "ft", slope, m.height);
    ls_line inside =
        ls_difference(w, "plan.stack.inside", "length less clearance", "ft", m.length, end);
    return ls_difference(w, "plan.stack.run", "length of the pile", "ft", inside, taper);
}

double ls_haul_stack_room(ls_haul_planner *p) {
    const ls_stack *s = p->farm->stack;
    if (s == NULL)
        return 0;
    if (!s->roofed.yes) {
        ls_haul_note(p, "The stack has no roof: no litter is planned into it.");
        return 0;
    }
    ls_worksheet *w = p->w;
    pile m = measures(p);
    ls_line none = ls_leaf_exact(w, "plan.stack.none", "nothing", "ft", 0, LS_BY_DEFINITION, NULL);
    ls_line flat = LS_PRODUCT(w, "plan.stack.flat", "no cross-section", "ft2", none, none);
    ls_line across = LS_GREATEST(w, "plan.stack.across", "cross-section, none below nothing", "ft2",
                                 section(p, m), flat);
    ls_line along = LS_GREATEST(w, "plan.stack.along", "length of the pile, none below nothing",
                                "ft", run(p, m), none);
    ls_line room =
        LS_PRODUCT(w, "plan.stack.room", "what the stack holds", "ton", across, along, m.density);
    return ls_line_value(w, room) / ls_unit_of("ton").factor;
}
