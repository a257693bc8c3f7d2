/* The books of a period: what was there, what was made, where it went, what is left, for tons and
 * nutrients. Litter is made as the birds stay: by bird-days. */
#include "room.h"

#include <math.h>

/* What the pieces of one lot add up to, before the first day and within the days. */
enum { HOUSE_BEFORE, IN_BEFORE, OUT_BEFORE, HOUSE, IN, OUT, OWN, OTHERS, NOWHERE, UNLOGGED, FLOWS };
typedef struct {
    size_t file, lot;
    const char *name;
    ls_worksheet *w; /* "period.file-1.north_left" of the dossier: with its lines */
    const ls_house *house;
    ls_date dropped; /* its rest was gone when newer litter began; LS_NO_DATE: never */
    ls_books_lines parts[FLOWS];
    ls_line flows[FLOWS];
    ls_line of[LS_PERIOD_BOOKS]; /* tons */
} flow;
typedef LS_LIST(flow) flow_list;

static const char *const words[LS_PERIOD_BOOKS] = {"in the stack at the start",
                                                   "in the houses at the start",
                                                   "made",
                                                   "on own fields",
                                                   "moved to others",
                                                   "lost, or gone to no known place",
                                                   "in the stack at the end",
                                                   "in the houses at the end"};

static ls_line zero(const ls_dossier *d) {
    return ls_leaf_exact(d->sheet, "period.none", "none", "ton", 0, LS_BY_DEFINITION, NULL);
}

/* ---- the lots of all files ---- */

/* When newer litter of the same side began, by any file; LS_NO_DATE: none did. */
static ls_date newer(const ls_dossier *d, const ls_coded_lots *all, size_t file, size_t lot) {
    ls_date first = LS_NO_DATE, since = all[file].at[lot].since;
    const char *code = ls_books_code_now(all, file, all[file].at[lot].code);
    for (size_t i = 0; since != LS_NO_DATE && i <= d->books->earlier.n; i++)
        LS_EACH (const ls_coded_lot, other, all[i]) {
            if (other->since > since && (first == LS_NO_DATE || other->since < first) &&
                strcmp(ls_books_code_now(all, i, other->code), code) == 0)
                first = other->since;
        }
    return first;
}

static flow_list flows_of(const ls_dossier *d, size_t *first) {
    flow_list all = {0};
    size_t files = d->books->earlier.n + 1;
    const ls_coded_lots *lots = ls_books_all_lots(d->books);
    for (size_t i = 0; i < files; i++) {
        const ls_estimate *e = ls_dossier_estimate(d, i);
        first[i] = all.n;
        for (size_t k = 0; k < e->n; k++) {
            const ls_coded_lot *coded = ls_books_lot(&lots[i], e->lots[k].code);
            *LS_PUSH(d->arena, &all) =
                (flow){.file = i,
                       .lot = k,
                       .name = e->lots[k].name,
                       .w = ls_part(d->sheet, e->lots[k].name, "period.file-%zu.%s", i, e->lots[k].slug),
                       .house = e->lots[k].house,
                       .dropped = coded == NULL ? LS_NO_DATE : newer(d, lots, i, (size_t)(coded - lots[i].at))};
        }
    }
    return all;
}

/* ---- what went ---- */

static void add_piece(const ls_dossier *d, flow *f, const ls_dossier_piece *x) {
    const ls_dossier_months *m = &d->months;
    bool before = x->day < m->from;
    int stack = x->unlogged ? UNLOGGED : OUT;
    static const int ways[] = {
        [LS_WENT_TO_OWN] = OWN, [LS_WENT_TO_OTHERS] = OTHERS, [LS_WENT_NOWHERE] = NOWHERE, [LS_WENT_TO_STACK] = IN};
    if (x->day > m->to || (before && x->unlogged)) return;
    *LS_PUSH(d->arena, &f->parts[before          ? (x->from_stack ? OUT_BEFORE : HOUSE_BEFORE)
                                 : x->from_stack ? stack
                                                 : HOUSE]) = x->tons;
    if (!before)
        *LS_PUSH(d->arena, &f->parts[ways[x->to]]) = x->tons;
    else if (x->to == LS_WENT_TO_STACK)
        *LS_PUSH(d->arena, &f->parts[IN_BEFORE]) = x->tons;
}

static void sum_flows(const ls_dossier *d, flow *f) {
    static const char *const keys[FLOWS] = {"out-before", "in-before", "stack-out-before", "out",     "in", "stack-out",
                                            "own",        "moved",     "nowhere",          "unlogged"};
    for (int i = 0; i < FLOWS; i++)
        f->flows[i] = f->parts[i].n == 0 ? zero(d)
                                         : ls_sum(f->w, keys[i], ls_printf(f->w, "%%s, %s", keys[i]), "ton",
                                                  f->parts[i].at, f->parts[i].n);
}

/* ---- what was made ---- */

/* Bird-days of a flock before the day; of flocks alike the others stood before the last. NAN: not known. */
static double bird_days(const ls_house *h, const ls_flock *f, ls_date day) {
    ls_date from = ls_house_since(h, f), to = f->removed.day;
    if (from == LS_NO_DATE) return NAN;
    double days = fmax(0, (double)(to - from)) * (double)ls_flock_times(f);
    return (double)ls_books_birds(f) * fmin(days, fmax(0, days - ((double)to - (double)day)));
}

/* The share of the house's litter that was there before the day, of one flock or (NULL) of all. */
static double made_share(const ls_house *h, const ls_flock *one, ls_date day) {
    double all = 0, done = 0;
    LS_EACH (const ls_flock, f, h->flocks) {
        all += bird_days(h, f, INT32_MAX);
        done += one == NULL || one == f ? bird_days(h, f, day) : 0;
    }
    return all > 0 ? done / all : one == NULL ? 1 : NAN;
}

/* Litter of each flock of this file: its share of what its house made. */
static void by_flock(ls_dossier *d) {
    LS_EACH (const ls_house, h, d->farm->houses) {
        ls_worksheet *w = ls_part(d->sheet, h->name.text, "%s", h->slug);
        ls_books_lines lots = {0};
        for (size_t k = 0; k < d->estimate->n; k++)
            if (d->estimate->lots[k].house == h) *LS_PUSH(d->arena, &lots) = ls_dossier_made(d, 0, k);
        ls_line made = ls_sum(w, "made-in-all", "litter made in %s", "ton", lots.at, lots.n);
        LS_EACH (const ls_flock, f, h->flocks) {
            double share = made_share(h, f, INT32_MAX);
            const char *key = ls_printf(w, "flock-%zu.made", (size_t)(f - h->flocks.at) + 1);
            ls_line of = isnan(share)
                             ? LS_NO_LINE
                             : ls_leaf_exact(w, ls_printf(w, "%s-share", key), "share of the house's bird-days", "%",
                                             share, LS_BY_FARM, "bird-days of the flock");
            *LS_PUSH(d->arena, &d->flocks) =
                (ls_dossier_flock){h, f, LS_PRODUCT(w, key, "litter made by the flock", "ton", made, of),
                                   LS_GIVEN(f->placed) ? ls_dossier_placed(d, 0, h, f, ls_flock_times(f)) : LS_NO_LINE,
                                   ls_dossier_lost(d, h, f)};
        }
    }
}

static ls_line made_before(const ls_dossier *d, const flow *f, const char *key, ls_date day) {
    ls_worksheet *w = f->w;
    const char *until = ls_date_words(d->arena, day, 0);
    ls_line share = ls_leaf_exact(w, ls_printf(w, "%s-share", key),
                                  ls_printf(w, "share of the litter of %%s made before %s", until), "%",
                                  made_share(f->house, NULL, day), LS_BY_FARM,
                                  ls_printf(w, "%s: bird-days before that day of all", ls_dossier_file(d, f->file)));
    return LS_PRODUCT(w, key, ls_printf(w, "litter of %%s made before %s", until), "ton",
                      ls_dossier_made(d, f->file, f->lot), share);
}

/* ---- the books of one lot ---- */

static ls_line minus(const flow *f, const char *key, const char *label, ls_line a, ls_line b) {
    return ls_difference(f->w, key, ls_printf(f->w, "%%s, %s", label), "ton", a, b);
}

static ls_line plus(const flow *f, const char *key, const char *label, ls_line a, ls_line b) {
    return LS_SUM(f->w, key, ls_printf(f->w, "%%s, %s", label), "ton", a, b);
}

/* A rest that was gone before the days is in no house, whatever of that litter the stack has. */
static void balance(const ls_dossier *d, flow *f) {
    const ls_dossier_months *m = &d->months;
    const ls_line *x = f->flows;
    bool past = f->dropped != LS_NO_DATE && f->dropped < m->from;
    ls_line then = made_before(d, f, "made-before", m->from), now = made_before(d, f, "made-until", m->to + 1);
    f->of[LS_PERIOD_OPENING] = minus(f, "opening", "in the stack at the start", x[IN_BEFORE], x[OUT_BEFORE]);
    f->of[LS_PERIOD_HOUSES] = past ? zero(d) : minus(f, "houses", "in the house at the start", then, x[HOUSE_BEFORE]);
    f->of[LS_PERIOD_MADE] = minus(f, "made", "made in these days", now, then);
    f->of[LS_PERIOD_OWN] = x[OWN];
    f->of[LS_PERIOD_MOVED] = x[OTHERS];
    f->of[LS_PERIOD_LOST] = minus(f, "lost", "lost less never logged in", x[NOWHERE], x[UNLOGGED]);
    ls_line stack = plus(f, "stack", "in the stack, and into it", f->of[LS_PERIOD_OPENING], x[IN]);
    f->of[LS_PERIOD_CLOSING] = minus(f, "closing", "in the stack at the end", stack, x[OUT]);
    ls_line house = plus(f, "house", "there, and made", f->of[LS_PERIOD_HOUSES], f->of[LS_PERIOD_MADE]);
    ls_line left = minus(f, "left", "in the house at the end", house, x[HOUSE]);
    bool gone = f->dropped != LS_NO_DATE && f->dropped <= m->to;
    f->of[LS_PERIOD_LEFT] = gone ? zero(d) : left;
    if (gone)
        f->of[LS_PERIOD_LOST] = plus(f, "lost-rest", "lost, and left before newer litter", f->of[LS_PERIOD_LOST], left);
}

/* ---- all of them ---- */

static void total(ls_dossier *d, const flow_list *all, int book, int measure) {
    const char *name = measure == 0 ? "tons" : ls_field_nutrient[measure - 1];
    ls_worksheet *w = d->sheet;
    ls_books_lines parts = {0};
    LS_EACH (const flow, f, *all) {
        ls_line tons = f->of[book];
        if (tons == LS_NO_LINE || tons == zero(d)) continue;
        *LS_PUSH(d->arena, &parts) =
            measure == 0 ? tons
                         : LS_PRODUCT(f->w, ls_printf(w, "%d.%s", book + 1, name),
                                      ls_printf(w, "%s of %%s, %s", name, words[book]), "lb", tons,
                                      ls_dossier_per_ton(d, f->file, f->lot, ls_in_litter[measure - 1]));
    }
    d->period[book].of[measure] =
        ls_dossier_sum(d, ls_printf(w, "period.%s-%d", name, book + 1), ls_printf(w, "%s, %s", name, words[book]),
                       measure == 0 ? "ton" : "lb", &parts, "none in these days");
}

void ls_dossier_make_period(ls_dossier *d) {
    by_flock(d);
    if (d->months.to == LS_NO_DATE) return;
    size_t *first = LS_NEW(d->arena, size_t, d->books->earlier.n + 1);
    flow_list all = flows_of(d, first);
    LS_EACH (const ls_dossier_piece, x, d->pieces) add_piece(d, &all.at[first[x->file] + x->lot], x);
    LS_EACH (flow, f, all) {
        sum_flows(d, f);
        balance(d, f);
    }
    for (int book = 0; book < LS_PERIOD_BOOKS; book++) {
        d->period[book].words = words[book];
        for (int measure = 0; measure < LS_PERIOD_MEASURES; measure++) total(d, &all, book, measure);
    }
}
