/* Tons of each lot by each way of knowing, and loads by day. */
#include "room.h"

/* ---- ways of knowing ---- */

typedef struct {
    ls_dossier *d;
    const ls_lot *lot;
    size_t n; /* ways of this lot so far */
} ways;

static void add(ways *x, const char *way, ls_q tons, const char *words) {
    ls_worksheet *w = ls_part(x->d->sheet, NULL, "%s.way-%zu", x->lot->slug, ++x->n);
    const char *const names[] = {"low", "likely", "high"};
    const double points[] = {tons.low, tons.mid, tons.high};
    ls_line of[3];
    for (int k = 0; k < 3; k++)
        of[k] = ls_leaf_exact(w, names[k], ls_printf(w, "%s, %s, %s", x->lot->name, way, names[k]), "ton", points[k],
                              LS_BY_SIMULATION, words);
    *LS_PUSH(x->d->arena, &x->d->methods) = (ls_dossier_method){x->lot->name, way, of[0], of[1], of[2]};
}

static void of_lot(ls_dossier *d, const ls_lot *before, const ls_lot *now) {
    ways x = {d, before, 0};
    for (size_t k = 0; k < before->methods_n; k++)
        add(&x,
            before->methods[k].memory ? ls_arena_printf(d->arena, "%s (memory)", before->methods[k].name)
                                      : before->methods[k].name,
            before->methods[k].tons, "without the haul log");
    if (d->before == NULL) {
        add(&x, "all of them together", now->tons, "no load is logged yet");
        return;
    }
    add(&x, "all of them together", before->tons, "without the haul log");
    if (now->gone == LS_NO_LINE) return;
    ls_q made = now->made.line != LS_NO_LINE ? now->made : now->tons;
    if (now->empty) made.low = made.mid = made.high = ls_line_value(d->sheet, made.line);
    add(&x, now->empty ? "hauled, by the log" : "with the haul log", made, "with the haul log");
}

void ls_dossier_make_methods(ls_dossier *d) {
    const ls_estimate *now = d->estimate, *before = d->before != NULL ? d->before->estimate : now;
    for (size_t i = 0; i < before->n && i < now->n; i++) of_lot(d, &before->lots[i], &now->lots[i]);
}

/* ---- days ---- */

void ls_dossier_make_days(ls_dossier *d) {
    ls_worksheet *w = d->sheet;
    for (ls_date day = LS_NO_DATE; (day = ls_books_next_day(d->farm, day)) != LS_NO_DATE;) {
        ls_books_lines tons = {0};
        for (size_t i = 0; i < d->loads.n; i++)
            if (d->loads.at[i].hauled->day == day) *LS_PUSH(d->arena, &tons) = d->loads.at[i].tons;
        const char *key = ls_printf(w, "day-%s", ls_date_iso(d->arena, day));
        *LS_PUSH(d->arena, &d->days) =
            (ls_dossier_day){day, tons.n, ls_sum(w, key, "hauled on the day", "ton", tons.at, tons.n)};
    }
}
