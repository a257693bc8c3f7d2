/* A bound and a wish without the whole program, for what is too large for it: what all buyers share
 * gets a price (Lagrangian relaxation), so that each field picks its litter by itself, and each
 * buyer a whole number of loads. At any prices that is no less than what any answer is worth. What
 * the fields pick on the mean of the rounds is the wish. */
#include "search.h"

#include <math.h>

enum { NONE = -1, MOST_LOOKS = 10, CONSIDERED_EVERY = 20, ROUNDS = 100 };

/* What has a price: tons of a lot, of an order's most and least, of the stack's room, and those
 * held; tons short; part loads. */
typedef struct {
    double price, given, used; /* used: by what is picked */
    double step, first;        /* of the price, less than 0: it fell last; how far at first */
} article;

/* What a buyer's fields pick at a price of a load. */
typedef struct {
    double price, money, loads;
    int *pick; /* [field] a lot; lots + a lot: out of the stack; NONE */
} look;

/* So many loads, at prices between two looks. */
typedef struct {
    double worth, loads;
    bool part;
    look low, high;
} way;

typedef struct {
    ls_haul_search *search;
    const ls_haul_task *t;
    bool money;                                                      /* the aim; else tons */
    article *all, *most, *least, *room, *held, *lack, *part, *total; /* all: by lot */
    size_t n;
    double sure, payload;   /* what every answer has beside; the largest */
    double *straight, *out; /* [lot][field] of the aim, per ton, prices taken off */
    double *fits, *worth;   /* [lot][field] tons if no other lot goes there; of a ton more */
    double *most_loads;     /* [buyer] that its fields hold */
    look low, high, spare;
    way best;                        /* of a buyer */
    double *mean, *mean_out, weight; /* [lot][field] tons picked; of this round */
} pricer;

static const double close = 1e-6; /* of a load */

static double tons(int64_t hundredths) { return (double)hundredths / 100; }

/* ---- one buyer ---- */

static void look_at(const pricer *s, size_t buyer, double price, look *at) {
    const ls_haul_task *t = s->t;
    at->price = price, at->money = at->loads = 0;
    for (size_t f = t->first[buyer]; f < t->first[buyer + 1]; f++) {
        double most = 0, loads = 0;
        at->pick[f] = NONE;
        for (size_t i = 0; i < t->lots; i++) {
            size_t k = ls_haul_task_field(t, i, f);
            double brings = s->fits[k] / tons(t->payload[i]);
            double money = t->open[k] ? s->straight[k] * s->fits[k] - price * brings : 0;
            if (money > most) most = money, loads = brings, at->pick[f] = (int)i;
            money = t->later[k] ? s->out[k] * s->fits[k] : 0;
            if (money > most) most = money, loads = 0, at->pick[f] = (int)(i + t->lots);
        }
        at->money += most;
        at->loads += loads;
    }
}

static double worth_at(const look *at, double loads) { return at->money + at->price * loads; }

/* The most that so many loads earn, from above: the least of worth_at over prices from one to
 * another. The looks at both ends close in on it, low at no fewer loads and high at no more. */
static double earned_by(pricer *s, size_t buyer, double loads, double from, double to) {
    look *low = &s->low, *high = &s->high;
    look_at(s, buyer, from, low);
    look_at(s, buyer, to, high);
    double least = fmin(worth_at(low, loads), worth_at(high, loads));
    for (int k = 0; k < MOST_LOOKS && low->loads - high->loads > 1e-9; k++) {
        double price = (worth_at(low, low->loads) - worth_at(high, high->loads)) / (low->loads - high->loads);
        double tangent = worth_at(low, low->loads) + price * (loads - low->loads);
        if (!(price > low->price && price < high->price)) break;
        look_at(s, buyer, price, &s->spare);
        least = fmin(least, worth_at(&s->spare, loads));
        look *end = s->spare.loads > loads ? low : high, swap = *end;
        *end = s->spare, s->spare = swap;
        if (worth_at(end, loads) < tangent + 1e-9) break;
    }
    return least;
}

/* A share of what is picked at a price. */
static void take(pricer *s, size_t buyer, const look *at, double share) {
    const ls_haul_task *t = s->t;
    for (size_t f = t->first[buyer]; f < t->first[buyer + 1] && share > 0; f++) {
        if (at->pick[f] == NONE) continue;
        size_t lot = (size_t)at->pick[f] % t->lots, k = ls_haul_task_field(t, lot, f);
        bool out = (size_t)at->pick[f] >= t->lots;
        double more = share * s->fits[k];
        (out ? s->mean_out : s->mean)[k] += s->weight * more;
        s->all[lot].used += more;
        s->most[buyer].used += more;
        s->least[buyer].used -= more;
        s->held->used -= more;
        s->total->used += more;
        s->room->used += out ? more : 0;
    }
}

static long kept_parts(const ls_haul_task *t, size_t buyer) {
    long n = 0;
    for (size_t i = 0; i < t->lots; i++) n += t->kept_part[ls_haul_task_to(t, i, buyer)] > 0;
    return n;
}

/* Loads short of the least of an order cost their tons; those out of the stack are not counted on. */
static double least_loads(const pricer *s, size_t buyer) {
    return s->t->stack || !isfinite(s->lack->given) ? 0 : (double)s->t->least_loads[buyer];
}

/* What trips of a buyer cost, those that are lacking too. */
static double cost_of(const pricer *s, size_t buyer, double trips) {
    double trip = s->money ? s->t->trip_cost[buyer] : 0;
    return trip * trips + s->lack->price * s->payload * fmax(0, least_loads(s, buyer) - trips);
}

/* So many loads as a way for the buyer, its price between two; a part load among them: or fewer. */
static void try_way(pricer *s, size_t buyer, double loads, double from, double to, bool part) {
    double most = part ? INFINITY : s->most_loads[buyer];
    if (loads > fmin(most, (double)s->t->most_loads[buyer]) + close) return;
    double worth = earned_by(s, buyer, loads, from, to) - cost_of(s, buyer, loads) - (part ? s->part->price : 0);
    if (worth <= s->best.worth) return;
    look low = s->best.low, high = s->best.high;
    s->best = (way){worth, loads, part, s->low, s->high};
    s->low = low, s->high = high;
}

/* What a buyer brings at most: all its loads are full, or one at least is a part load, which costs
 * its price. That is concave in loads, so that one of the whole numbers beside its peak is the
 * best. What it picks is added to the mean. */
static double best_of_buyer(pricer *s, size_t buyer) {
    const double far = 1e7;
    const ls_haul_task *t = s->t;
    double price = s->money ? t->trip_cost[buyer] : 0, least = least_loads(s, buyer), trip = price;
    look_at(s, buyer, price, &s->spare);
    if (kept_parts(t, buyer) > 0) {
        take(s, buyer, &s->spare, 1);
        return s->spare.money;
    }
    double peak = s->spare.loads, with_part = peak, fine = s->lack->price * s->payload;
    s->best.worth = -INFINITY;
    if (peak < least - close) {
        price -= fine;
        look_at(s, buyer, price, &s->spare);
        peak = fmin(s->spare.loads, least);
        with_part = price < 0 ? least : peak;
    }
    peak = fmin(peak, (double)t->most_loads[buyer]);
    double fewer = floor(peak + close);
    if (peak - fewer > close) try_way(s, buyer, fewer + 1, -far, price, false);
    try_way(s, buyer, fewer, price, peak - fewer > close || peak < s->spare.loads ? far : price, false);
    try_way(s, buyer, ceil(with_part - close), 0, fmax(trip, 1), true);
    const way *w = &s->best;
    double between = w->low.loads - w->high.loads;
    double share = between > close ? (w->loads - w->high.loads) / between : 1;
    take(s, buyer, &w->low, fmin(1, fmax(0, share)));
    take(s, buyer, &w->high, 1 - fmin(1, fmax(0, share)));
    s->part->used += w->part;
    s->lack->used += s->payload * fmax(0, least - w->loads);
    return w->worth;
}

/* ---- all at given prices ---- */

static double kept_in_stack(const ls_haul_task *t, size_t lot) {
    size_t at = ls_haul_task_to(t, lot, t->buyers);
    return tons(t->kept[at] * t->payload[lot] + t->kept_part[at]);
}

/* Of a pair, per ton: what the aim counts less the prices. What is short is dear in tons too. */
static void price_pairs(pricer *s) {
    const ls_haul_task *t = s->t;
    double stack = fmin(0, t->given->stack_value);
    for (size_t b = 0; b < t->buyers; b++) s->least[b].price = fmin(s->least[b].price, s->lack->price);
    for (size_t i = 0; i < t->lots; i++) {
        double into = kept_in_stack(t, i) > 0 ? 0 : stack;
        for (size_t f = 0; f < t->fields; f++) {
            size_t k = ls_haul_task_field(t, i, f), b = t->buyer[f];
            double price = s->total->price + s->all[i].price + s->most[b].price - s->least[b].price - s->held->price;
            double trip = t->trip_cost[b] / tons(t->payload_out[i]);
            s->straight[k] = (s->money ? t->value[k] : 1) - price;
            s->out[k] = (s->money ? t->later_value[k] + into - trip : 1) - price - s->room->price;
        }
    }
}

/* The bound at the prices; the mean moves by a weight to what is picked. */
static double bound_at(pricer *s, double weight) {
    const ls_haul_task *t = s->t;
    double bound = s->sure;
    price_pairs(s);
    for (size_t k = 0; k < s->n; k++) {
        s->all[k].used = 0;
        if (s->all[k].price > 0) bound += s->all[k].price * s->all[k].given;
    }
    for (size_t k = 0; k < t->lots * t->fields; k++) s->mean[k] *= 1 - weight, s->mean_out[k] *= 1 - weight;
    s->weight = weight;
    for (size_t b = 0; b < t->buyers; b++) bound += best_of_buyer(s, b);
    return bound;
}

/* Up if more is used than there is, else down: farther as long as it goes one way, half as far when
 * it turns (Riedmiller, Braun, resilient propagation; from memory). */
static void step(pricer *s, double least) {
    for (size_t k = 0; k < s->n; k++) {
        article *a = &s->all[k];
        double over = a->used - a->given;
        if (!isfinite(a->given) || (over <= 0 && a->price == 0)) continue;
        double more = fabs(a->step) * ((over > 0) == (a->step > 0) ? 1.2 : 0.5);
        a->step = copysign(fmax(more, least * a->first), over);
        a->price = fmax(0, a->price + a->step);
    }
}

/* ---- from the start to the end ---- */

static double dearest(const ls_haul_task *t) {
    double most = 0;
    for (size_t k = 0; k < t->lots * t->fields; k++)
        most = fmax(most, fmax(fabs(t->value[k]), fabs(t->later_value[k])));
    return most;
}

/* Of an order for loads and tons the loads alone are held. */
static void set_articles(pricer *s) {
    const ls_haul_task *t = s->t;
    const ls_haul_answer *best = s->search->best;
    bool held = s->money && s->search->found;
    for (size_t k = 0; k < s->n; k++) s->all[k].given = INFINITY;
    s->part->given = s->total->given = 0;
    for (size_t i = 0; i < t->lots; i++) {
        s->all[i].given = tons(t->tons[i]);
        s->total->given += s->all[i].given; /* lots take each other's fields: their level is found apart */
        s->payload = fmax(s->payload, tons(t->payload[i]));
        s->part->given += t->given->no_part == NULL || !t->given->no_part[i];
        if (s->money) s->sure += fmin(0, t->given->stack_value) * kept_in_stack(t, i);
    }
    if (s->money) s->sure += fmax(0, t->given->stack_value) * tons(t->room);
    for (size_t b = 0; b < t->buyers; b++) {
        if (t->most[b] != LS_HAUL_PLENTY) s->most[b].given = tons(t->most[b]);
        if (held && t->least[b] > 0 && t->least_loads[b] == 0) s->least[b].given = -tons(t->least[b]);
    }
    if (t->stack) s->room->given = tons(t->room);
    if (held) s->held->given = -tons(best->placed);
    if (held) s->lack->given = s->search->aim == LS_HAUL_SHORT ? 0 : tons(best->short_of);
    for (size_t k = 0; k < s->n; k++)
        s->all[k].step = s->all[k].first =
            (s->money ? dearest(t) : 1) * 0.05 * (&s->all[k] == s->part ? s->payload : 1);
}

/* Tons that fit, a hair more: sums of whole units may pass a capacity by less than that. */
static void set_fits(pricer *s) {
    const ls_haul_task *t = s->t;
    for (size_t f = 0; f < t->fields; f++) {
        double most = 0;
        for (size_t i = 0; i < t->lots; i++) {
            size_t k = ls_haul_task_field(t, i, f);
            if (!t->open[k] && !t->later[k]) continue;
            s->fits[k] = (double)t->capacity[f] / 1e6 / t->use[k] * (1 + 1e-9) + 1e-8;
            if (t->open[k]) most = fmax(most, s->fits[k] / tons(t->payload[i]));
        }
        s->most_loads[t->buyer[f]] += most;
    }
}

static pricer *new_pricer(ls_haul_search *search) {
    const ls_haul_task *t = search->t;
    ls_arena *a = t->arena;
    size_t pairs = t->lots * t->fields;
    pricer *s = LS_NEW(a, pricer, 1);
    *s = (pricer){.search = search, .t = t, .money = search->aim != LS_HAUL_TONS};
    s->n = t->lots + 2 * t->buyers + 5;
    s->all = LS_NEW(a, article, s->n);
    s->most = s->all + t->lots, s->least = s->most + t->buyers;
    s->room = s->least + t->buyers, s->held = s->room + 1, s->lack = s->held + 1;
    s->part = s->lack + 1, s->total = s->part + 1;
    double **of_pairs[] = {&s->straight, &s->out, &s->fits, &s->worth, &s->mean, &s->mean_out};
    for (size_t k = 0; k < sizeof of_pairs / sizeof *of_pairs; k++) *of_pairs[k] = LS_NEW(a, double, pairs);
    s->most_loads = LS_NEW(a, double, t->buyers);
    look *looks[] = {&s->low, &s->high, &s->spare, &s->best.low, &s->best.high};
    for (size_t k = 0; k < sizeof looks / sizeof *looks; k++) looks[k]->pick = LS_NEW(a, int, t->fields);
    set_articles(s);
    set_fits(s);
    return s;
}

/* What a ton earns at the prices, less what its acres could; and of each buyer the best of that. */
static void set_worth(pricer *s) {
    const ls_haul_task *t = s->t;
    for (size_t b = 0; b < t->buyers; b++) s->search->nearness[b] = -INFINITY;
    for (size_t f = 0; f < t->fields; f++) {
        double trip = s->money ? t->trip_cost[t->buyer[f]] : 0, best = 0; /* per unit of capacity */
        double *near = &s->search->nearness[t->buyer[f]];
        for (size_t i = 0; i < t->lots; i++) {
            size_t k = ls_haul_task_field(t, i, f);
            s->worth[k] = s->straight[k] - trip / tons(t->payload[i]);
            if (!t->open[k]) continue;
            best = fmax(best, s->worth[k] / t->use[k]);
            *near = fmax(*near, s->worth[k]);
        }
        for (size_t i = 0; i < t->lots; i++)
            s->worth[ls_haul_task_field(t, i, f)] -= best * t->use[ls_haul_task_field(t, i, f)];
    }
}

/* The mean of a buyer's or a lot's tons (the other end of each pair in from..to) down to a most. */
static void cut_to(pricer *s, double given, size_t lot, size_t lots, size_t from, size_t to) {
    double used = 0;
    for (size_t i = lot; i < lots; i++)
        for (size_t f = from; f < to; f++)
            used += s->mean[ls_haul_task_field(s->t, i, f)] + s->mean_out[ls_haul_task_field(s->t, i, f)];
    for (size_t i = lot; i < lots && used > given; i++)
        for (size_t f = from; f < to; f++) {
            s->mean[ls_haul_task_field(s->t, i, f)] *= given / used;
            s->mean_out[ls_haul_task_field(s->t, i, f)] *= given / used;
        }
}

/* No more loads than the lot has beside those that are kept. */
static void fit_lot(const pricer *s, size_t lot) {
    const ls_haul_task *t = s->t;
    double *full = s->search->wish->full + ls_haul_task_to(t, lot, 0);
    const long *kept = t->kept + ls_haul_task_to(t, lot, 0);
    int64_t left = t->tons[lot];
    for (size_t to = 0; to <= t->buyers; to++)
        left -= kept[to] * t->payload[lot] + t->kept_part[ls_haul_task_to(t, lot, to)];
    for (size_t to = 0; to <= t->buyers; to++) {
        double more = fmax(0, floor(full[to] + close) - (double)kept[to]);
        more = fmin(more, left > 0 ? floor((double)left / (double)t->payload[lot]) : 0);
        full[to] = (double)kept[to] + more;
        left -= (int64_t)more * t->payload[lot];
    }
}

static void consider(pricer *s) {
    const ls_haul_task *t = s->t;
    ls_haul_wish *w = s->search->wish;
    for (size_t b = 0; b < t->buyers; b++) cut_to(s, s->most[b].given, 0, t->lots, t->first[b], t->first[b + 1]);
    for (size_t i = 0; i < t->lots; i++) {
        cut_to(s, s->all[i].given, i, i + 1, 0, t->fields);
        for (size_t to = 0; to <= t->buyers; to++)
            w->full[ls_haul_task_to(t, i, to)] = w->part[ls_haul_task_to(t, i, to)] = 0;
        for (size_t f = 0; f < t->fields; f++) {
            size_t k = ls_haul_task_field(t, i, f);
            w->straight[k] = s->mean[k];
            w->out[k] = s->mean_out[k];
            w->full[ls_haul_task_to(t, i, t->buyer[f])] += s->mean[k] / tons(t->payload[i]);
            w->full[ls_haul_task_to(t, i, t->buyers)] += s->mean_out[k] / tons(t->payload[i]);
        }
        fit_lot(s, i);
    }
    set_worth(s);
    w->worth = s->worth;
    ls_haul_consider(s->search, false, false);
    w->worth = NULL;
}

void ls_haul_price(ls_haul_search *search) {
    ls_arena_mark mark = ls_arena_here(search->t->arena);
    pricer *s = new_pricer(search);
    for (int k = 0; k < ROUNDS && !ls_haul_proven(search); k++) {
        double bound = bound_at(s, k == 0 ? 1 : 0.1);
        if (search->aim != LS_HAUL_SHORT) search->bound = fmin(search->bound, bound);
        step(s, pow(0.95, k));
        if ((k + 1) % CONSIDERED_EVERY == 0) consider(s);
    }
    ls_arena_rewind(search->t->arena, mark);
}
