/* What became of the tickets and slips that were handed out. */
#include "books.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- tickets ---- */

/* Tons on a ticket are read to a tenth of a ton. */
static const double least_tons = 0.05;

static ls_line by_entry(ls_books *books, const ls_issued *was, const char *key, const char *label, const char *unit,
                        double value) {
    ls_worksheet *w = books->sheet;
    return ls_leaf_exact(w, ls_printf(w, "handed-out.entry-%ld.%s", was->log_entry, key),
                         ls_printf(w, "%s that ticket %s says", label, was->ticket), unit, value, LS_BY_LOG,
                         ls_printf(w, "entry %ld of %s", was->log_entry, books->log->path));
}

static ls_line tons_of(ls_books *books, const ls_issued *was) {
    return by_entry(books, was, "tons", "tons", "ton", was->tons);
}

const ls_load *ls_books_paper(ls_books *books, const ls_load *load) {
    const ls_issued *was = load->issued;
    if (was == NULL) return load;
    ls_load *paper = LS_NEW(books->arena, ls_load, 1);
    ls_drop *drops = LS_NEW(books->arena, ls_drop, load->n);
    *paper = *load;
    paper->tons = tons_of(books, was);
    paper->certainty = (ls_certainty)was->certainty;
    *(load->from_stack ? &paper->from : &paper->day) = was->planned;
    paper->drops = drops;
    for (size_t k = 0; k < load->n; k++) {
        const ls_issued_drop *said = &was->drops[k];
        drops[k] = load->drops[k];
        drops[k].tons =
            by_entry(books, was, ls_printf(books->sheet, "%zu.tons", k + 1), "tons on a field", "ton", said->tons);
        if (drops[k].acres == LS_NO_LINE) continue;
        drops[k].acres =
            by_entry(books, was, ls_printf(books->sheet, "%zu.acres", k + 1), "acres of a field", "ac", said->acres);
    }
    return paper;
}

static void moved(ls_books *books, const ls_plan *plan, ls_handed_out *out) {
    double ton = ls_unit_of("ton").factor;
    for (size_t i = 0; i < plan->loads_n + plan->out_n; i++) {
        const ls_load *load = ls_plan_load(plan, i);
        const ls_issued *was = load->issued;
        if (was == NULL) continue;
        double now = ls_line_value(books->sheet, load->tons);
        bool day = (load->from_stack ? load->from : load->day) != was->planned,
             sure = (int)load->certainty != was->certainty,
             tons = fabs(now - was->tons) >= least_tons * ton - 1e-9 &&
                    lround(now / ton * 10) != lround(was->tons / ton * 10);
        if (day || tons || sure)
            *LS_PUSH(books->arena, &out->moved) = (ls_ticket_moved){load, day, tons, sure, tons_of(books, was)};
    }
}

/* The load that has the number of a ticket; NULL: there is none. */
static const ls_load *numbered(ls_arena *a, const ls_plan *plan, const ls_issued *is) {
    for (size_t i = 0; i < plan->loads_n + plan->out_n; i++) {
        const ls_load *load = ls_plan_load(plan, i);
        ls_ticket t;
        ls_ticket_read(a, load->ticket, &t);
        const char *lot = load->issued != NULL ? load->issued->lot : t.code;
        if (t.from_stack == is->from_stack && strtol(t.number, NULL, 10) == is->number && strcmp(lot, is->lot) == 0)
            return load;
    }
    return NULL;
}

/* Why a paper goes back that a newer one took the place of. */
static const char *replaced(const ls_books *books, const ls_issued *is) {
    const ls_farm *farm = books->farm;
    const char *gone = ls_books_no_longer(is), *why = ls_books_noted(books, is);
    ls_text *t = ls_text_new(books->arena);
    if (why != NULL)
        ls_text_addf(t, "%s; ", why);
    else if (gone != NULL)
        ls_text_addf(t, "the file no longer names %s; ", gone);
    ls_text_add(t, "a newer one is out");
    LS_EACH (const ls_issued, newer, farm->issued)
        if (newer->number == is->number && newer->from_stack == is->from_stack && strcmp(newer->lot, is->lot) == 0)
            ls_text_addf(t, " since %s", ls_date_words(books->arena, newer->handed_out, ls_farm_year(farm)));
    return t->s;
}

static void recalled(ls_books *books, const ls_plan *plan, ls_handed_out *out) {
    ls_books_lines tons = {0};
    for (size_t i = 0; i < plan->recalled.n; i++) *LS_PUSH(books->arena, &out->recalled) = plan->recalled.at[i];
    LS_EACH (const ls_issued, is, books->farm->older)
        *LS_PUSH(books->arena, &out->recalled) =
            (ls_recall){is, numbered(books->arena, plan, is), replaced(books, is), LS_NO_LINE};
    LS_EACH (ls_recall, r, out->recalled) *LS_PUSH(books->arena, &tons) = r->tons = tons_of(books, r->issued);
    out->recalled_tons =
        ls_sum(books->sheet, "handed-out.recalled-tons", "tons on tickets to take back", "ton", tons.at, tons.n);
}

/* ---- promises ---- */

/* The ticket of a load as it was handed out; NULL: it was not. */
static const ls_log_entry *ticket_of(const ls_books *books, const ls_coded_lots *lots, const ls_hauled *load) {
    const ls_log *log = books->log;
    for (size_t i = log->entries.n; i > 0; i--) {
        const ls_log_entry *e = &log->entries.at[i - 1];
        if (ls_log_holds(e, LS_LOG_ISSUED) && ls_books_same_ticket(lots, e, ls_books_entry(books, load))) return e;
    }
    return NULL;
}

/* Was it for him, by the name he has or had then? */
static bool is_for(const ls_books *books, const ls_coded_lots *lots, const ls_log_entry *ticket,
                   const ls_promise_slip *slip) {
    const ls_issued is = ls_issued_of(books->arena, books->farm, lots, ticket);
    if (slip->buyer == NULL) return ls_books_names(books->farm, ticket->words[LS_LOG_FIELD], slip->name);
    return is.n > 0 && is.drops[0].buyer == slip->buyer;
}

static void astray(const ls_books *books, ls_handed_out *out) {
    ls_coded_lots lots = ls_books_lots(books->arena, books->farm);
    LS_EACH (const ls_hauled, load, books->farm->hauled) {
        const ls_log_entry *ticket = ticket_of(books, &lots, load);
        if (ticket == NULL) continue;
        ls_issued is = ls_issued_of(books->arena, books->farm, &lots, ticket);
        if (!ls_books_same_way(&is, load->drops, load->n))
            *LS_PUSH(books->arena, &out->astray) =
                (ls_astray){load, is, ls_books_entry(books, load)->words[LS_LOG_FIELD]};
    }
}

typedef struct {
    ls_books *books;
    const ls_plan *plan;
    const ls_promise_slip *slip;
    const char *key;
    ls_worksheet *w; /* its part: led by key, labels name him */
} promise;

static ls_line loads_line(const promise *p, const char *what, const char *label, long n, ls_origin_kind kind,
                          const char *from) {
    return ls_leaf_exact(p->w, what, label, "load", (double)n * ls_unit_of("load").factor, kind, from);
}

ls_had_loads ls_books_had(ls_books *books, const ls_promise_slip *slip, bool held, const char *key) {
    ls_worksheet *w = books->sheet;
    ls_coded_lots lots = ls_books_lots(books->arena, books->farm);
    ls_books_loads all = ls_books_loads_for(books, books->farm, held ? slip : NULL);
    ls_had_loads list = {0};
    for (size_t i = 0; i < all.n; i++) {
        const ls_hauled *load = all.at[i];
        double tons = ls_books_tons_to(books, books->farm, load, slip);
        const ls_log_entry *ticket = ticket_of(books, &lots, load);
        bool meant = ticket != NULL && is_for(books, &lots, ticket, slip);
        /* nobody told where it went: nowhere else */
        if (!(tons > 0) && !(meant && load->n > 0)) continue;
        *LS_PUSH(books->arena, &list) = (ls_had_load){
            load,
            tons > 0 ? ls_leaf_exact(w, ls_printf(w, "%s.had-tons.%ld", key, load->log_entry),
                                     ls_printf(w, "load %s", load->ticket), "ton", tons, LS_BY_LOG, load->entry)
                     : LS_NO_LINE,
            tons > 0 && ticket != NULL && !meant};
    }
    return list;
}

long ls_books_had_sum(ls_books *books, const ls_had_loads *list, const char *key, const char *name, ls_line *out) {
    ls_worksheet *w = books->sheet;
    ls_books_lines parts = {0};
    for (size_t i = 0; i < list->n; i++)
        if (list->at[i].tons != LS_NO_LINE) *LS_PUSH(books->arena, &parts) = list->at[i].tons;
    if (parts.n > 0)
        *out = ls_sum(w, ls_printf(w, "%s.had-tons", key), ls_printf(w, "tons %s has had", name), "ton", parts.at,
                      parts.n);
    return (long)parts.n;
}

/* The surest load of the middle case for him that is not yet counted, of those the heaviest; NULL: none. */
static const ls_load *next_owed(const promise *p, bool *counted) {
    const ls_worksheet *w = p->books->sheet;
    const ls_load *best = NULL;
    size_t at = 0;
    for (size_t i = 0; p->slip->buyer != NULL && i < p->plan->loads_n + p->plan->out_n; i++) {
        const ls_load *load = ls_plan_load(p->plan, i);
        if (counted[i] || load->buyer != p->slip->buyer || load->certainty == LS_POSSIBLE) continue;
        bool surer = best == NULL || load->certainty < best->certainty;
        if (surer ||
            (load->certainty == best->certainty && ls_line_value(w, load->tons) > ls_line_value(w, best->tons)))
            best = load, at = i;
    }
    if (best != NULL) counted[at] = true;
    return best;
}

/* Tons that lack from which on a promise is short of them: a load could bring them. */
static double least_short(const ls_books *books) {
    return ls_reference_need(books->reference, "practice", "", "smallest drop", "value")->value;
}

/* Loads that are to come to him, as far as they are owed: by their number, and while tons lack. */
static long owed(const promise *p, long most, ls_promise_kept *out) {
    ls_books *books = p->books;
    double lacking = p->slip->tons - least_short(books);
    if (out->tons.had != LS_NO_LINE) lacking -= ls_line_value(p->w, out->tons.had);
    bool *counted = LS_NEW(books->arena, bool, p->plan->loads_n + p->plan->out_n);
    ls_books_lines tons = {0};
    const ls_load *load;
    while (((long)tons.n < most || lacking > 0) && (load = next_owed(p, counted)) != NULL) {
        *LS_PUSH(books->arena, &tons) = load->tons;
        lacking -= ls_line_value(p->w, load->tons);
        *LS_PUSH(books->arena, &out->to_come) = load;
        out->likely += load->certainty == LS_LIKELY;
    }
    out->tons.owed = ls_sum(p->w, "owed-tons", "tons to come to %s of what was promised", "ton", tons.at, tons.n);
    return (long)tons.n;
}

void ls_books_balance(ls_books *books, const char *key, const char *name, ls_promise_tons *t) {
    ls_worksheet *w = ls_part(books->sheet, name, "%s", key);
    ls_line none = ls_leaf_exact(w, "no-tons", "nothing", "ton", 0, LS_BY_DEFINITION, NULL),
            come = LS_SUM(w, "covered-tons", "tons %s has had, and tons to come", "ton",
                          t->had == LS_NO_LINE ? none : t->had, t->owed == LS_NO_LINE ? none : t->owed),
            rest = ls_difference(w, "rest-tons", "promised less those", "ton", t->promised, come),
            more = ls_difference(w, "more-tons", "those less promised", "ton", come, t->promised);
    t->short_of = LS_GREATEST(w, "short-tons", "promised tons that %s lacks", "ton", rest, none);
    t->beyond = LS_GREATEST(w, "beyond-tons", "tons beyond the promise, for %s", "ton", more, none);
    t->lacks = ls_line_value(w, t->short_of) >= least_short(books);
}

/* The loads, as lines; the rest of the promise is to come, or lacks. */
static void kept_loads(const promise *p, long all, ls_promise_kept *out) {
    static const char log[] = "the haul log";
    const ls_promise_slip *slip = p->slip;
    long counted = all < slip->loads ? all : slip->loads;
    out->promised = loads_line(p, "promised", "loads promised to %s", slip->loads, LS_BY_LOG, slip->entry);
    out->had = loads_line(p, "had", "of the promised loads, had by %s", counted, LS_BY_LOG, log);
    if (all > counted)
        out->beyond = loads_line(p, "beyond", "loads beyond the promise, had by %s", all - counted, LS_BY_LOG, log);
    ls_line rest = ls_difference(p->w, "rest", "promised, not had yet", "load", out->promised, out->had);
    out->owed = loads_line(p, "owed", "promised loads to come to %s, likely case", owed(p, slip->loads - counted, out),
                           LS_BY_SPLIT, "the loads of the plan");
    ls_line less = ls_difference(p->w, "less", "promised, not had and not to come", "load", rest, out->owed),
            none = ls_leaf_exact(p->w, "no-loads", "no load", "load", 0, LS_BY_DEFINITION, NULL);
    out->short_of = LS_GREATEST(p->w, "short", "promised loads that no load is left for, %s", "load", less, none);
}

static ls_promise_kept kept(const promise *p) {
    const ls_promise_slip *slip = p->slip;
    ls_promise_kept out = {.slip = slip};
    out.loads = ls_books_had(p->books, slip, true, p->key);
    kept_loads(p, ls_books_had_sum(p->books, &out.loads, p->key, slip->name, &out.tons.had), &out);
    out.tons.promised =
        ls_leaf_exact(p->w, "promised-tons", "tons promised to %s", "ton", slip->tons, LS_BY_LOG, slip->entry);
    ls_books_balance(p->books, p->key, slip->name, &out.tons);
    if (!isnan(slip->price))
        out.price = ls_leaf_exact(p->w, "price", "price promised to %s", "$/ton", slip->price, LS_BY_LOG, slip->entry);
    return out;
}

static void add_promise(ls_books *books, const ls_plan *plan, const ls_promise_slip *slip, ls_handed_out *out) {
    ls_worksheet *w = books->sheet;
    const char *slug = slip->buyer != NULL ? slip->buyer->slug : ls_printf(w, "entry-%ld", slip->log_entry);
    promise p = {books, plan, slip, ls_printf(w, "promised.%s", slug), NULL};
    p.w = ls_part(w, slip->name, "%s", p.key);
    *LS_PUSH(books->arena, &out->promises) = kept(&p);
}

const ls_handed_out *ls_books_handed_out(ls_books *books, const ls_plan *plan) {
    ls_handed_out *out = LS_NEW(books->arena, ls_handed_out, 1);
    const ls_farm *farm = books->farm;
    recalled(books, plan, out);
    moved(books, plan, out);
    astray(books, out);
    for (size_t b = 0; b <= farm->buyers.n; b++) /* at last those whom the files name no more */
        for (size_t i = 0; i < farm->promised.n; i++)
            if (farm->promised.at[i].buyer == (b < farm->buyers.n ? &farm->buyers.at[b] : NULL))
                add_promise(books, plan, &farm->promised.at[i], out);
    return out;
}

const ls_promise_kept *ls_promise_kept_of(const ls_handed_out *h, const ls_buyer *b) {
    for (size_t i = 0; i < h->promises.n; i++)
        if (h->promises.at[i].slip->buyer == b) return &h->promises.at[i];
    return NULL;
}

bool ls_books_owes(const ls_promise_kept *kept, const ls_load *load) {
    for (size_t i = 0; kept != NULL && i < kept->to_come.n; i++)
        if (kept->to_come.at[i] == load) return true;
    return false;
}
