/* Limits of the program's own that hold fields back, and the tons that each keeps without a field:
 * the rates of the field as the file might have it, and the middle case split again with them. */
#include "relief.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MANY_PAIRS = 400, MOST_TRIES = 4, FEW_TRIES = 2 };

typedef struct {
    ls_default_kind kind;
    size_t field;
    const double *use; /* [lot][field] without the limit */
    double most;       /* tons it could place at the very best */
    double placed;     /* by the split; below 0: not tried */
} held;
typedef LS_LIST(held) held_list;

/* ---- rates without the limit ---- */

/* As the file might have it: rated low, with a limit that no other reaches, or set for usual
 * litter.
 */
static ls_field as_it_might_be(const ls_haul_planner *p, ls_default_kind kind, const ls_field *f) {
    ls_field as = *f;
    ls_phosphorus *rated = LS_NEW(p->arena, ls_phosphorus, 1);
    double *high = LS_NEW(p->arena, double, 1);
    switch (kind) {
    case LS_DEFAULT_PHOSPHORUS:
        if (f->phosphorus != NULL) *rated = *f->phosphorus;
        rated->rating.is = LS_RATING_LOW;
        as.phosphorus = rated;
        break;
    case LS_DEFAULT_RATE:
        *high = 1000 * ls_unit_of("ton/ac").factor;
        as.most = (ls_quantity){.form = LS_PLAIN,
                                .value = *high,
                                .readings = high,
                                .n = 1,
                                .unit = ls_unit_of("ton/ac"),
                                .text = "1000 ton/ac",
                                .at = f->area.at};
        break;
    case LS_DEFAULT_RICH: as.without_lab.is = LS_EXPECTED; break;
    }
    as.slug = ls_arena_printf(p->arena, "%s.without-default", f->slug); /* keys of its own */
    return as;
}

static const double *use_without(const ls_haul_reliever *s, ls_default_kind kind, size_t f) {
    ls_haul_planner *p = s->p;
    ls_field as = as_it_might_be(p, kind, p->field[f]);
    size_t before = ls_worksheet_lines(p->w);
    const ls_field_rates *r = ls_agronomy_field(p->agronomy, &p->farm->buyers.at[p->buyer[f]], &as);
    double *use = ls_haul_copy(s, s->q.use, p->lots * p->fields * sizeof *use);
    for (size_t i = 0; r != NULL && i < p->lots; i++) {
        double rate =
            ls_line_shown(p->w, ls_field_rate(r, p->lot_of[i], ls_haul_kind_for(p, i, f))->rate);
        use[ls_haul_lot_field(p, i, f)] = rate > 0 ? 1 / rate : INFINITY;
    }
    ls_worksheet_cut(p->w, before);
    return use;
}

/* ---- which there are ---- */

static held_list held_fields(const ls_haul_reliever *s) {
    const ls_haul_planner *p = s->p;
    bool any = s->left >= s->q.smallest_drop;
    held_list all = {0};
    for (size_t f = 0; f < p->fields; f++)
        for (int kind = 0; kind <= LS_DEFAULT_RICH; kind++) {
            if (!(p->defaults[f] >> kind & 1u)) continue;
            held one = {.kind = (ls_default_kind)kind, .field = f};
            if (any && !ls_haul_order_full(s, p->buyer[f])) {
                one.use = use_without(s, one.kind, f);
                one.most = fmin(s->left, ls_haul_room_on(s, one.use, f, false));
            }
            *LS_PUSH(p->arena, &all) = one;
        }
    return all;
}

/* ---- what each costs ---- */

static void split_without(const ls_haul_reliever *s, held *one) {
    ls_split_problem *q = LS_NEW(s->p->arena, ls_split_problem, 1);
    *q = s->q;
    q->use = one->use;
    one->placed = fmax(0, ls_haul_placed_by(s, ls_split_solve(s->p->arena, q)));
}

static int by_most(const void *pa, const void *pb) {
    const held *a = pa, *b = pb;
    if (a->most != b->most) return a->most > b->most ? -1 : 1;
    return a->field != b->field ? (a->field < b->field ? -1 : 1) : (int)a->kind - (int)b->kind;
}

static int by_placed(const void *pa, const void *pb) {
    const held *a = pa, *b = pb;
    return a->placed != b->placed ? (a->placed > b->placed ? -1 : 1) : by_most(pa, pb);
}

static const char *words(const ls_haul_reliever *s, const held *one) {
    const ls_haul_planner *p = s->p;
    bool top = one->kind == LS_DEFAULT_RATE; /* the same for all litter; the others are not */
    double rate = top ? 0 : INFINITY;
    for (size_t i = 0; i < p->lots; i++) {
        double of = p->rate[ls_haul_lot_field(p, i, one->field)];
        rate = top ? fmax(rate, of) : fmin(rate, of);
    }
    const char *number = ls_number_text(p->arena, rate, 3);
    static const char *const leads[] = {"no phosphorus rating: held to",
                                        "no limit in the file: held to",
                                        "no lab report, so set for rich litter:"};
    return ls_arena_printf(p->arena, "%s %s ton%s/ac", leads[one->kind], number,
                           strcmp(number, "1") == 0 ? "" : "s");
}

static void show(const ls_haul_reliever *s, const held *one, size_t number) {
    ls_haul_planner *p = s->p;
    ls_default_limit *d = LS_PUSH(p->arena, &p->plan->defaults);
    *d = (ls_default_limit){one->kind, &p->farm->buyers.at[p->buyer[one->field]],
                            p->field[one->field], words(s, one), LS_NO_LINE};
    if (one->placed >= 0)
        d->tons = ls_leaf_exact(p->w, ls_printf(p->w, "plan.default.%zu.tons", number),
                                ls_printf(p->w, "tons that would find a field: %s", d->what), "ton",
                                one->placed * ls_unit_of("ton").factor, LS_BY_SPLIT,
                                "the split of the likely case without that limit");
}

void ls_haul_list_defaults(const ls_haul_reliever *s) {
    held_list all = held_fields(s);
    size_t tries = s->p->lots * s->p->fields > MANY_PAIRS ? FEW_TRIES : MOST_TRIES;
    if (all.n > 0) qsort(all.at, all.n, sizeof *all.at, by_most);
    for (size_t k = 0; k < all.n; k++)
        if (all.at[k].most < s->q.smallest_drop)
            all.at[k].placed = 0;
        else if (tries > 0 && tries--)
            split_without(s, &all.at[k]);
        else
            all.at[k].placed = -1;
    if (all.n > 0) qsort(all.at, all.n, sizeof *all.at, by_placed);
    for (size_t k = 0; k < all.n; k++) show(s, &all.at[k], k + 1);
}
