/* What is to be done now: numbered acts, and under each what helps or whom it concerns. */
#include "parts.h"

#include "report/handed_out.h"
#include "report/warning.h"

enum { LIKELY = 1 };

LS_DOC_COLUMNS(columns, HEAD(""), WORDS("words", "DO NOW"), {.heading = "loads", .number = true}, {.unit = "ton"},
               DATA("number"), DATA("act"), DATA("loads"), DATA_IN("tons", "ton"), DATA("buyer"), DATA("field"),
               DATA("before"));

typedef struct {
    ls_doc_table table;
    const ls_document *d;
    const ls_plan_sums *s;
    const ls_plan *plan;
    const ls_farm *farm;
    long n;
} acts;

/* Whom and what it concerns. */
typedef struct {
    long loads; /* 0: not told */
    ls_line tons;
    const ls_buyer *buyer;
    const ls_field *field;
} of;
static const of nobody = {0, LS_NO_LINE, NULL, NULL};

static void put(acts *to, bool under, const char *act, ls_doc_cell words, of x) {
    ls_doc_cell loads = x.loads == 0 ? W(NULL) : N(x.loads);
    to->n += !under;
    LS_DOC_ROW(to->table, columns, W(under ? "" : ls_arena_printf(to->d->arena, "%ld", to->n)),
               under ? T("- {}", words) : words, x.loads == 0 ? W("") : loads, x.tons == LS_NO_LINE ? W("") : L(x.tons),
               N(to->n), W(act), loads, L(x.tons), W(x.buyer == NULL ? NULL : x.buyer->name.text),
               W(x.field == NULL ? NULL : x.field->name.text), DAY(to->plan->start));
}

/* ---- litter without a field ---- */

/* Limits that the file does not give and that keep litter out, an answer from the file's owner
 * away. False: there are none. */
static bool own_limits(acts *to) {
    enum { MOST = 2 };
    size_t n = 0;
    for (size_t i = 0; i < to->plan->defaults.n && n < MOST; i++) {
        const ls_default_limit *l = &to->plan->defaults.at[i];
        if (l->tons == LS_NO_LINE || !(ls_line_value(to->d->view->sheet, l->tons) > 0)) continue;
        n++;
        put(to, true, "limit not in the file", T("with your figure for {} ({})", W(l->field->name.text), W(l->what)),
            (of){0, l->tons, l->buyer, l->field});
    }
    return n > 0;
}

/* What is out so long keeps all litter from fields, more likely by a slip of the pen. */
static void long_out(acts *to) {
    enum { LONG = 30 };
    LS_EACH (const ls_out, o, to->farm->crew->out)
        if (o->until.day - o->from.day >= LONG && o->until.day > to->plan->start)
            put(to, false, "long out", T("Check the file: {} out until {}", W(o->what.text), DAY(o->until.day)),
                nobody);
}

static void find_room(acts *to) {
    if (!ls_report_lacks_fields(to->plan)) return;
    bool begun = false; /* the first day */
    for (size_t k = 0; k < to->farm->hauled.n; k++) begun = begun || to->farm->hauled.at[k].day == to->plan->start;
    put(to, false, "find room",
        begun ? W("Find room now for what has NO FIELD")
              : T("Find room before {} for what has NO FIELD", DAY(to->plan->start)),
        (of){to->plan->homeless, to->plan->unplaced[LIKELY], NULL, NULL});
    LS_EACH (const ls_relief, r, to->plan->relief)
        put(to, true, ls_report_relief_kind(r), T("with {}", ls_report_relief(to->d, r)),
            (of){0, r->tons, r->buyer, r->field});
    if (to->plan->relief.n == 0 && !own_limits(to))
        put(to, true, "another field",
            W(to->plan->tickets_kept ? "no one change helps while these tickets are out"
                                     : "no one change helps: find another field or buyer"),
            nobody);
}

/* ---- the next flock ---- */

static ls_doc_cell days(long n) { return V((double)n * ls_unit_of("day").factor, "day"); }

/* The fewest trucks with which the houses are ready in time; NULL: no number of them. */
static const ls_fleet *in_time(const acts *to, ls_date flock) {
    long used = to->plan->slack_days - 1 - to->plan->spare_days; /* days the houses need */
    for (size_t i = 0; i < to->plan->fleets_n; i++)
        if ((long)flock - to->plan->fleets[i].finish.day - 1 >= used) return &to->plan->fleets[i];
    return NULL;
}

/* The loads are out in time, but what has no field yet is not, should it find one. */
static void rest_in_time(acts *to, ls_date next) {
    if (ls_report_lacks_fields(to->plan) && to->plan->empty_finish != LS_NO_DATE && to->plan->empty_finish >= next)
        put(to, false, "make time",
            T("TOO LATE for the rest: out {} at the soonest, the next flock comes {}", DAY(to->plan->empty_finish),
              DAY(next)),
            nobody);
}

static void make_time(acts *to) {
    if (to->plan->days_n == 0 || !ls_report_next_flock(to->plan)) return;
    ls_date next = to->farm->facts->next_flock.day;
    if (to->plan->spare_days >= 0) {
        rest_in_time(to, next);
        return;
    }
    const ls_fleet *fleet = in_time(to, next);
    ls_doc_cell ways = fleet == NULL ? W("Get more trucks, longer days, an earlier crew or a later flock")
                                     : T("{} finish{} {}. Or get longer days, an earlier crew or a later flock",
                                         fleet->fleet != NULL ? W(fleet->fleet) : T("{} trucks", N(fleet->trucks)),
                                         W(fleet->fleet != NULL ? "es" : ""), DAY(fleet->finish.day));
    put(to, false, "make time",
        to->plan->slack_days <= 0
            ? T("TOO LATE: the next flock comes {}. {}", DAY(next), ways)
            : T("DOES NOT FIT: {} short before the next flock. {}", days(-to->plan->spare_days), ways),
        nobody);
}

/* ---- tickets and slips handed out ---- */

static void take_back(acts *to) {
    enum { MOST = 4 };
    size_t n = to->s->handed_out->recalled.n, told = 0, groups = 0;
    if (n == 0) return;
    const char *hauler = ls_report_hauler(to->d->view, to->s->handed_out);
    put(to, false, "take back",
        T("Take back {} ticket{}{}", N(n), W(n == 1 ? "" : "s"), hauler == NULL ? W("") : T(": call {}", W(hauler))),
        (of){(long)n, to->s->handed_out->recalled_tons, NULL, NULL});
    for (size_t i = 0; i < n; i++) {
        const char *words;
        size_t tickets = ls_report_recall_group(to->d->view, to->s->handed_out, i, &words);
        if (tickets == 0 || groups++ >= MOST) continue;
        told += tickets;
        put(to, true, "take back", W(words), nobody);
    }
    if (n > told) put(to, true, "take back", T("{} more (--full)", N(n - told)), nobody);
}

/* Loads that come no more, or so many tons too few that a load could bring them. */
static void short_promise(acts *to, const ls_promise_kept *p) {
    const ls_buyer *b = p->slip->buyer;
    long lacks = ls_report_loads(to->d->view, p->short_of);
    const of whom = {lacks, p->tons.short_of, b, NULL};
    ls_doc_cell name = T("Call {}", W(ls_report_promised_to(to->d->arena, p->slip)));
    if (lacks > 0)
        put(to, false, "call",
            T("{}: {} of {} promised loads {}", name, N(lacks), N(ls_report_loads(to->d->view, p->promised)),
              W(b == NULL    ? "come no more: " LS_REPORT_NO_BUYER
                : lacks == 1 ? "has no litter or no field"
                             : "have no litter or no field")),
            whom);
    else
        put(to, false, "call", T("{}: {}", name, W(ls_report_light(to->d->view, p))), whom);
    if (b == NULL)
        put(to, true, "settle", T("{} ends the slip", W(ls_report_settle_slip(to->d->view->arena, p->slip))), nobody);
}

static void short_promises(acts *to) {
    const ls_handed_out *h = to->s->handed_out;
    for (size_t i = 0; i < h->promises.n; i++)
        if (h->promises.at[i].tons.lacks || ls_report_loads(to->d->view, h->promises.at[i].short_of) > 0)
            short_promise(to, &h->promises.at[i]);
}

/* ---- promises ---- */

static bool own(const ls_buyer *b) { return b->own.yes; }

/* Firm loads that no slip promises yet: for buyers, or for the farm's own fields. */
static void firm(acts *to, bool own_fields, const char *act, ls_doc_cell words) {
    long loads = 0;
    for (size_t i = 0; i < to->farm->buyers.n; i++)
        if (own(&to->farm->buyers.at[i]) == own_fields) loads += (long)to->s->buyers[i].unpromised;
    if (loads == 0) return;
    put(to, false, act, words, (of){loads, to->s->unpromised[own_fields], NULL, NULL});
    for (size_t i = 0; i < to->farm->buyers.n; i++) {
        const ls_buyer_sum *b = &to->s->buyers[i];
        if (b->unpromised > 0 && own(&to->farm->buyers.at[i]) == own_fields)
            put(to, true, act, W(to->farm->buyers.at[i].name.text),
                (of){(long)b->unpromised, b->unpromised_tons, &to->farm->buyers.at[i], NULL});
    }
}

static void promise(acts *to) {
    firm(to, false, "promise",
         T("Promise today (all there together {} of the time)", F(to->s->estimate->all_firm_chance, "%")));
    firm(to, true, "own fields", W("Own fields: firm loads"));
}

/* $ a ton that the work costs more than the buyer pays; below 0, or not known: 0. */
static double loss(const ls_document *d, const ls_worth *w) {
    double left = w->left == LS_NO_LINE || w->buyer->own.yes ? 0 : ls_line_value(d->view->sheet, w->left);
    return left < 0 ? -left : 0;
}

/* Buyers who pay less than the work costs; of many the worst. */
static void dear(acts *to) {
    const ls_worth *worst = NULL;
    size_t n = 0;
    LS_EACH (const ls_worth, w, to->plan->worth) {
        n += loss(to->d, w) > 0;
        if (loss(to->d, w) > (worst == NULL ? 0 : loss(to->d, worst))) worst = w;
    }
    if (worst == NULL) return;
    put(to, false, "costs more than it brings",
        T(worst->price == LS_NO_LINE ? "{} pays nothing, costs about {}{}" : "{} pays {} less than its work{}",
          W(worst->buyer->name.text), V(loss(to->d, worst), "$/ton"), n > 1 ? T(" ({} more)", N(n - 1)) : W("")),
        (of){0, to->plan->trade[worst->buyer - to->farm->buyers.at].tons, worst->buyer, NULL});
}

static bool short_of(const ls_plan *plan, const ls_buyer *b) {
    for (size_t i = 0; i < plan->short_orders.n; i++)
        if (plan->short_orders.at[i].buyer == b) return true;
    return false;
}

/* Why a buyer has no firm load: the first of his fields that gets nothing. */
static const ls_unused_field *reason(const ls_plan *plan, const ls_buyer *b) {
    for (size_t i = 0; i < plan->unused.n; i++)
        if (plan->unused.at[i].buyer == b) return &plan->unused.at[i];
    return NULL;
}

static void promise_nothing(acts *to, size_t buyer) {
    const ls_buyer *b = &to->farm->buyers.at[buyer];
    const ls_unused_field *why = reason(to->plan, b);
    ls_doc_cell call = W(short_of(to->plan, b) ? " (call: he ordered)" : "");
    bool some = why == NULL || to->s->buyers[buyer].loads[LS_LIKELY] > 0;
    ls_doc_cell whom = T(own(b) ? "{} gets" : "Promise {}", W(b->name.text));
    put(to, false, "promise nothing",
        some ? T("{} nothing yet: no load is firm{}", whom, call)
             : T("{} nothing: {}, {}{}", whom, W(why->field->name.text), W(why->why), call),
        (of){0, LS_NO_LINE, b, some ? NULL : why->field});
}

/* Buyers without a firm load; of many only the names. */
static void nothing_to(acts *to) {
    enum { MOST = 3 };
    const char **names = LS_NEW(to->d->arena, const char *, to->farm->buyers.n);
    size_t n = 0;
    for (size_t i = 0; i < to->farm->buyers.n; i++)
        if (to->s->buyers[i].loads[LS_FIRM] == 0) names[n++] = to->farm->buyers.at[i].name.text;
    if (n > MOST)
        put(to, false, "promise nothing", T("Promise nothing to {} (why: --full)", ls_doc_names(names, n)), nobody);
    for (size_t i = 0; i < to->farm->buyers.n && n <= MOST; i++)
        if (to->s->buyers[i].loads[LS_FIRM] == 0) promise_nothing(to, i);
}

static void short_orders(acts *to) {
    LS_EACH (const ls_short_order, o, to->plan->short_orders)
        if (to->s->buyers[o->buyer - to->farm->buyers.at].loads[LS_FIRM] > 0)
            put(to, false, "short order", T("Call {}: the order is short by", W(o->buyer->name.text)),
                (of){0, o->short_of, o->buyer, NULL});
}

void ls_report_put_do_now(ls_doc_group *top, const ls_plan_sums *s) {
    acts to = {LS_DOC_TABLE_IN(top, LS_FIRST, "do_now", NULL, columns),
               top->document,
               s,
               s->plan,
               top->document->view->farm,
               0};
    bool quarantine = ls_report_quarantine_of(top->document->view) != NULL;
    if (quarantine) put(&to, false, "promise nothing", W("Promise nothing while the farm is under quarantine"), nobody);
    long_out(&to);
    find_room(&to);
    make_time(&to);
    take_back(&to);
    short_promises(&to);
    if (!quarantine) {
        promise(&to);
        dear(&to);
        short_orders(&to);
        nothing_to(&to);
    }
    if (to.n == 0) put(&to, false, "nothing", W("Nothing: all litter has a field"), nobody);
}
