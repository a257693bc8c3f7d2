/* The page of the estimate. */
#include "chart.h"
#include "put.h"
#include "warning.h"

#include <math.h>
#include <string.h>

/* Is the figure known? Else it is data alone. */
static ls_doc_level if_known(ls_q q) { return q.line ? LS_FULL : LS_DATA; }

static void put_loads(ls_doc_group *g, ls_line firm, ls_line likely, ls_line possible) {
    if (!firm)
        ls_doc_data(g, "loads", W(NULL));
    else
        MEMBERS(ls_doc_object(g, LS_DATA, "loads", NULL), {"firm", C(firm)}, {"likely", C(likely)},
                {"possible", C(possible)});
}

/* Tons gone by the haul log; none: 0. */
static ls_doc_cell hauled(ls_line gone) { return gone ? F(gone, "ton") : V(0, "ton"); }

static void put_nutrients(ls_doc_group *g, ls_doc_level level, const char *key, const char *heading,
                          const ls_q q[LS_NUTRIENTS], const char *unit) {
    ls_doc_group *inner = ls_doc_object(g, level, key, heading);
    for (int i = 0; i < LS_NUTRIENTS; i++)
        ls_doc_fact(inner, if_known(q[i]), ls_nutrient_key(i), ls_report_nutrient(i), P(q[i], unit));
}

/* ---- lots that are alike ---- */

static bool same_methods(const ls_lot *a, const ls_lot *b) {
    if (a->house != b->house || a->methods_n != b->methods_n) return false;
    for (size_t i = 0; i < a->methods_n; i++)
        if (a->methods[i].dry != b->methods[i].dry || a->methods[i].weight != b->methods[i].weight) return false;
    return true;
}

/* But for the scatter of the draws. */
static bool close_to(ls_q a, ls_q b) {
    const double scatter = 0.02;
    return (!a.line) == (!b.line) &&
           (!a.line || (fabs(a.low - b.low) <= scatter * fabs(a.low) && fabs(a.mid - b.mid) <= scatter * fabs(a.mid) &&
                        fabs(a.high - b.high) <= scatter * fabs(a.high)));
}

static bool same_content(const ls_lot *a, const ls_lot *b) {
    bool same = a->house == b->house;
    for (int i = 0; i < LS_NUTRIENTS; i++) same = same && close_to(a->per_ton[i], b->per_ton[i]);
    return same;
}

static bool are_alike(const ls_worksheet *w, const ls_lot *a, const ls_lot *b) {
    bool same = same_content(a, b) && same_methods(a, b) && close_to(a->tons, b->tons) &&
                close_to(a->moisture, b->moisture) && close_to(a->payload, b->payload) && (!a->gone) == (!b->gone) &&
                a->empty == b->empty;
    return same && (!a->firm || (ls_line_value(w, a->firm) == ls_line_value(w, b->firm) &&
                                 ls_line_value(w, a->likely) == ls_line_value(w, b->likely) &&
                                 ls_line_value(w, a->possible) == ls_line_value(w, b->possible)));
}

/* So many lots from the one at on are alike. */
static size_t alike(const ls_worksheet *w, const ls_estimate *e, size_t at) {
    size_t n = 1;
    while (at + n < e->n && are_alike(w, &e->lots[at], &e->lots[at + n])) n++;
    return n;
}

/* "North/left, right" */
static const char *names_of(ls_arena *a, const ls_estimate *e, size_t at, size_t n) {
    ls_text *t = ls_text_new(a);
    ls_text_add(t, e->lots[at].name);
    for (size_t i = at + 1; i < at + n; i++) ls_text_addf(t, ", %s", e->lots[i].side->name.text);
    return t->s;
}

static ls_doc_cell lots_of(ls_arena *a, const ls_estimate *e, size_t at, size_t n) {
    const char **names = LS_NEW(a, const char *, n);
    for (size_t i = 0; i < n; i++) names[i] = e->lots[at + i].name;
    return ls_doc_names(names, n);
}

static void answer(ls_doc_group *g, const ls_estimate *e) {
    bool closed = ls_report_quarantine_of(g->document->view) != NULL;
    if (e->gone) SAY(g, LS_FIRST, "{} are gone by the haul log. This page is of what is left.", F(e->gone, "ton"));
    ls_doc_cell loads = !e->firm ? W("Loads are not known: the farm file names no truck.")
                        : ls_line_value(g->document->view->sheet, e->firm) > 0
                            ? T("{}, {} firm (there 9 times in 10).{}", F(e->likely, "load"), C(e->firm),
                                W(closed ? "" : " littershed plan says whom to promise what."))
                            : T("{}, none of them firm: promise none.", F(e->likely, "load"));
    const ls_q *tons = &e->tons;
    SAY(g, LS_FIRST, "{} likely ({}-{}). {}", POINT(tons, tons->mid, "ton"), BARE(POINT(tons, tons->low, "ton")),
        BARE(POINT(tons, tons->high, "ton")), loads);
}

/* ---- what to measure ---- */

LS_DOC_COLUMNS(next_columns, WORDS("what", "measure"), WORDS("where", "where"), DATA("quantity"),
               {.key = "now", .number = true, .level = LS_DATA}, NUMBER("then", "then"), WORDS("effort", "takes"));

/* The range narrows by a load, or by one part in twenty. */
static bool is_worth_it(const ls_next *n) {
    double now = n->now.high - n->now.low, then = n->then.high - n->then.low;
    return n->loads ? then <= now - 1 : then <= 0.95 * now;
}

/* A wrong date outweighs whatever can be measured: the first of such stays, for all of them. */
static void check_stay(ls_doc_group *g, const ls_cautions *list) {
    size_t n = 0, first = list->n;
    for (size_t i = list->n; i-- > 0;)
        if (strcmp(list->at[i].id, "stay") == 0) n++, first = i;
    if (n == 0) return;
    const char *more = n > 1 ? ls_arena_printf(g->document->arena, " (and %zu more)", n - 1) : "";
    ITEM(g, LS_FIRST, "Check the dates first: {}{}. Of flocks alike they are those of the last.",
         W(list->at[first].text), W(more));
}

static void do_now(ls_doc_group *top, const ls_estimate *e, ls_next_list next) {
    const size_t best = e->n > 3 ? 1 : 2;
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, NULL, "DO NOW");
    check_stay(g, &e->cautions);
    size_t offered = 0;
    for (size_t i = 0; i < next.n && offered < best && is_worth_it(&next.at[i]); i++) {
        const ls_next *n = &next.at[i];
        if (n->outdone) continue;
        const char *unit = n->loads ? "load" : "ton";
        ITEM(g, LS_FIRST, "{} {}: {} ({}). {}: {}-{} now, then {}-{}.", W(offered++ == 0 ? "Measure" : "Or measure"),
             W(n->where), W(n->what), W(ls_arena_copy_n(g->document->arena, n->effort, strcspn(n->effort, ":"))),
             W(n->loads ? "Loads to empty the houses" : "Tons"), BARE(V(n->now.low, unit)), BARE(V(n->now.high, unit)),
             BARE(V(n->then.low, unit)), BARE(V(n->then.high, unit)));
    }
    if (next.n > 0 && !is_worth_it(&next.at[0]))
        ITEM(g, LS_FIRST, "Nothing to measure: no single test narrows the range by {}.",
             W(next.at[0].loads ? "a load" : "one part in 20"));
}

static void measure_next(ls_doc_group *top, ls_next_list next) {
    enum { MOST = 6 };
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "WHAT TO MEASURE NEXT, THE BEST FIRST");
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "measure_next", NULL, next_columns);
    size_t told = 0;
    LS_EACH (const ls_next, n, next) {
        const char *unit = n->loads ? "load" : "ton";
        bool tell = told < MOST && is_worth_it(n) && !n->outdone;
        told += tell;
        LS_DOC_GRID_ROW(t, next_columns, tell ? LS_FULL : LS_DATA, NULL, W(n->what), W(n->where),
                        W(n->loads ? "loads" : "tons"), P(n->now, unit), P(n->then, unit), W(n->effort));
    }
    if (told > 0)
        SAY(g, LS_FULL, "Now: {}. Then: if the measurement comes out as expected.",
            P(next.at[0].now, next.at[0].loads ? "load" : "ton"));
}

/* ---- the sides ---- */

LS_DOC_COLUMNS(side_columns, HEAD("each of"), DATA("lots"), IN("tons", NULL, "ton"), NUMBER("firm", "firm loads"),
               NUMBER("likely", "likely loads"), NUMBER("possible", "possible loads"),
               IN("moisture_pct", "moisture", "%"));

/* Was the lot measured, or is it known by published averages alone? */
static bool is_measured(const ls_lot *lot) {
    LS_EACH_OF (const ls_method, m, lot->methods, lot->methods_n)
        if (m->evidence) return true;
    return false;
}

static ls_chart_row range_of(const ls_document *d, const char *label, ls_q tons, bool measured) {
    return (ls_chart_row){.label = label,
                          .shown = ls_doc_told(d, P(tons, "ton")),
                          .low = tons.low,
                          .value = tons.mid,
                          .high = tons.high,
                          .range = true,
                          .hatched = !measured};
}

/* most: the axis reaches to there at least. */
static const char *ranges_picture(const ls_document *d, const char *id, const char *title, const ls_chart_rows *ranges,
                                  double most) {
    return ls_chart(d->view,
                    &(ls_chart_frame){.id = id,
                                      .title = title,
                                      .description = "A bar from low to high, with a mark at likely. Full: "
                                                     "found on this farm. Hatched: published averages.",
                                      .unit = "ton",
                                      .most = most,
                                      .full = "found on this farm",
                                      .hatched = "published averages"},
                    ranges);
}

void ls_report_put_sides(ls_doc_group *g, ls_doc_level level, const ls_estimate *e) {
    ls_arena *a = g->document->arena;
    ls_chart_rows ranges = {0};
    ls_doc_table t = LS_DOC_TABLE_IN(g, level, "sides", NULL, side_columns);
    for (size_t i = 0, n; i < e->n; i += n) {
        const ls_lot *lot = &e->lots[i];
        n = alike(g->document->view->sheet, e, i);
        const char *names = names_of(a, e, i, n);
        LS_DOC_ROW(t, side_columns, W(names), lots_of(a, e, i, n), Q(lot->tons), C(lot->firm), C(lot->likely),
                   C(lot->possible), lot->moisture.line ? V(lot->moisture.mid, "%") : W(NULL));
        *LS_PUSH(a, &ranges) = range_of(g->document, names, lot->tons, is_measured(lot));
    }
    if (e->n > 1)
        LS_DOC_ROW(t, side_columns, W("all"), lots_of(a, e, 0, e->n), Q(e->tons), C(e->firm), C(e->likely),
                   C(e->possible), W(NULL));
    ls_doc_picture(g, LS_FIRST, NULL, "Tons from low to high, with a mark at likely.",
                   ranges_picture(g->document, "sides", "Tons of each side", &ranges, 0), ls_chart_letters(a, &ranges));
}

LS_DOC_COLUMNS(content_columns, HEAD("litter of"), DATA("lots"), IN("N", "N", "lb/ton"), IN("P2O5", "P2O5", "lb/ton"),
               IN("K2O", "K2O", "lb/ton"));

static void content(ls_doc_group *top, const ls_estimate *e) {
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, NULL, NULL);
    ls_doc_level level = isfinite(e->pounds[LS_P2O5].mid) ? LS_FIRST : LS_DATA;
    bool typical = false;
    ls_doc_table t = LS_DOC_TABLE_IN(g, level, "content", NULL, content_columns);
    for (size_t i = 0, n; i < e->n; i += n) {
        const ls_q *per_ton = e->lots[i].per_ton;
        for (n = 1; i + n < e->n && same_content(&e->lots[i], &e->lots[i + n]);) n++;
        typical |= e->lots[i].analysis->report == NULL;
        LS_DOC_ROW(t, content_columns, W(names_of(g->document->arena, e, i, n)), lots_of(g->document->arena, e, i, n),
                   P(per_ton[LS_N], "lb/ton"), P(per_ton[LS_P2O5], "lb/ton"), P(per_ton[LS_K2O], "lb/ton"));
    }
    SAY(g, level, "In all: N {}, P2O5 {}, K2O {}.", P(e->pounds[LS_N], "lb"), P(e->pounds[LS_P2O5], "lb"),
        P(e->pounds[LS_K2O], "lb"));
    if (typical)
        SAY(g, level,
            "Without a lab report, slips and tickets state typical litter, which may differ "
            "from what is likely here.");
    if (e->value.line)
        SAY(g, LS_FIRST, "Worth {} as fertilizer: {} where a crop needs it.", P(e->value, "$"),
            F(e->value_per_ton, "$/ton"));
}

static void unsure(ls_doc_group *top, const ls_estimate *e) {
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, NULL, "HOW SURE");
    ITEM(g, LS_FIRST, "(Low-high): 1 time in 10 there is less, 1 time in 10 there is more.");
    if (e->firm) ITEM(g, LS_FIRST, "Firm (full loads): 9 times in 10. Likely: half the time. Possible: 1 in 10.");
    if (e->n > 1) ITEM(g, LS_FIRST, "Sides are not all low at once, so rows do not add.");
    ls_doc_cell care = e->cautions.n > 0 ? T("Warnings: {} (littershed check). ", N(e->cautions.n)) : W("");
    ITEM(g, LS_FIRST, "{}Assumed: {} (littershed estimate --full).", care, N(e->notes.n));
}

/* ---- all together ---- */

static void total(ls_doc_group *top, const ls_estimate *e) {
    ls_doc_level level = e->n > 1 ? LS_FULL : LS_DATA;
    ls_doc_group *g = ls_doc_object(top, level, "total", "ALL HOUSES TOGETHER");
    FACTS(g, level, {"tons", "Litter as hauled", P(e->tons, "ton")},
          {"dry_tons", "Dry litter in it", P(e->dry_tons, "ton")});
    ls_doc_data(g, "hauled_tons", hauled(e->gone));
    put_nutrients(g, level, "lb", NULL, e->pounds, "lb");
    put_loads(g, e->firm, e->likely, e->possible);
    if (e->n > 1 && e->firm)
        SAY(top, LS_FULL, "The chance that each side holds its own firm loads is {}.", F(e->all_firm_chance, "%"));
}

static void worth(ls_doc_group *top, const ls_estimate *e) {
    ls_doc_level level = e->value.line ? LS_FULL : LS_DATA;
    ls_doc_group *g = ls_doc_object(top, level, "value", "WORTH");
    ls_doc_data(g, "per_ton", F(e->value_per_ton, "$/ton"));
    ls_doc_fact(g, level, "total", "Worth as fertilizer", P(e->value, "$"));
    if (level == LS_FULL)
        SAY(g, level,
            "At the fertilizer prices of the farm file. Nitrogen counts as far as a crop can use "
            "it in the first season, phosphate and potash in full. It is worth less where a soil "
            "test asks for none. Field by field: littershed rates");
}

/* ---- each lot ---- */

LS_DOC_COLUMNS(method_columns, HEAD("method"), DATA("name"), DATA("kind"), IN("weight_pct", "weight", "%"),
               IN("tons", "alone", "ton"), DATA_IN("weight", ""), DATA("from_memory"));

/* Two groups of methods, each with weights that add up. */
static ls_doc_cell group_words(const ls_document *d, const ls_lot *lot, bool evidence, bool any_evidence) {
    if (evidence) return W("Found here: these weights and the published averages together make 100%");
    if (any_evidence && lot->prior_weight)
        return KEPT(d, "Published averages: {} of the weight, shared among them as follows", F(lot->prior_weight, "%"));
    return W(any_evidence ? "Published averages, for comparison: the litter was weighed"
             : lot->analysis->report != NULL
                 ? "Published averages, and what the laboratory found: nothing else was measured"
                 : "Published averages alone: nothing was measured");
}

/* All sides on one axis. */
static double most_tons(const ls_estimate *e) {
    double most = 0;
    LS_EACH_OF (const ls_lot, lot, e->lots, e->n)
        LS_EACH_OF (const ls_method, m, lot->methods, lot->methods_n) most = fmax(most, m->tons.high);
    return most;
}

static void methods_picture(ls_doc_group *g, const ls_estimate *e, const ls_lot *lot) {
    const ls_document *d = g->document;
    ls_chart_rows ranges = {0};
    LS_EACH_OF (const ls_method, m, lot->methods, lot->methods_n)
        *LS_PUSH(d->arena, &ranges) = range_of(d, m->name, m->tons, m->evidence);
    ls_doc_picture(g, LS_FULL, NULL, "Tons by each method alone, with a mark at likely.",
                   ranges_picture(d, ls_arena_printf(d->arena, "methods-%s", lot->slug),
                                  ls_arena_printf(d->arena, "Tons of %s by each method", lot->name), &ranges,
                                  most_tons(e)),
                   NULL);
}

static void methods(ls_doc_group *g, const ls_estimate *e, size_t at, ls_doc_level level) {
    const ls_lot *lot = &e->lots[at];
    bool same = at > 0 && same_methods(lot, &e->lots[at - 1]), any_evidence = is_measured(lot);
    if (same && lot->methods_n > 0) SAY(g, level, "Tons by each method: as for {}.", W(e->lots[at - 1].name));
    ls_doc_table t = LS_DOC_TABLE_IN(g, same ? LS_DATA : level, "methods", "Tons by each method", method_columns);
    for (size_t i = 0; i < lot->methods_n; i++) {
        const ls_method *m = &lot->methods[i];
        if (i == 0 || m->evidence != lot->methods[i - 1].evidence)
            ls_doc_words_in(t, LS_FIRST, group_words(g->document, lot, m->evidence, any_evidence));
        LS_DOC_ROW(t, method_columns, m->memory ? T("{} (memory)", W(m->name)) : W(m->name), W(m->name),
                   W(m->evidence ? "evidence" : "published"), L(m->weight), Q(m->tons), L(m->weight), FLAG(m->memory));
    }
    if (!same && level == LS_FULL) methods_picture(g, e, lot);
}

static const char *full_by(const ls_estimate *e, const ls_lot *lot) {
    if (e->farm->trucks.n > 1) return "One truck load, on the mean of your trucks";
    return e->farm->trucks.n == 1 && lot->kinds[0].volume_binds ? "One truck load, full by volume"
                                                                : "One truck load, full by weight";
}

/* n: so many lots are alike from this one on; 0: it is like the one before it. */
static void one_lot(ls_doc_group *list, const ls_estimate *e, size_t at, size_t n) {
    ls_arena *a = list->document->arena;
    const ls_lot *lot = &e->lots[at];
    ls_doc_level level = n > 0 ? LS_FULL : LS_DATA;
    bool gone = lot->gone;
    ls_doc_level of_gone = gone ? level : LS_DATA;
    const ls_report_page page = {list->document->view, a, NULL};
    ls_doc_group *g = ls_doc_object(list, level, NULL, names_of(a, e, at, n));
    MEMBERS(g, {"lot", W(lot->name)}, {"house", W(lot->house->name.text)},
            {"side", W(lot->side == NULL ? NULL : lot->side->name.text)});
    ls_doc_fact(g, of_gone, "made_tons", "All of it, hauled or not", P(gone ? lot->made : lot->tons, "ton"));
    FACTS(g, level, {"tons", gone ? "Litter still to be hauled" : "Litter as hauled", P(lot->tons, "ton")},
          {"dry_tons", "Dry litter in it", P(lot->dry_tons, "ton")},
          {"moisture_pct", "Moisture", P(lot->moisture, "%")});
    ls_doc_fact(g, if_known(lot->payload), "payload_tons", full_by(e, lot), P(lot->payload, "ton/load"));
    ls_doc_fact(g, of_gone, "hauled_tons", "Hauled already, by the log", hauled(lot->gone));
    const char *analysis = ls_report_analysis(&page, lot->analysis);
    ls_doc_data(g, "analysis", W(analysis));
    put_nutrients(g, level, "lb_per_ton", ls_arena_printf(a, "What is in it, by the %s", analysis), lot->per_ton,
                  "lb/ton");
    put_nutrients(g, level, "lb", "What is in all of it", lot->pounds, "lb");
    put_loads(g, lot->firm, lot->likely, lot->possible);
    ls_doc_data(g, "prior_weight", F(lot->prior_weight, ""));
    methods(g, e, at, level);
}

/* ---- sources, draws ---- */

static bool is_used(const ls_estimate *e, const char *source) {
    LS_EACH_OF (const ls_lot, lot, e->lots, e->n)
        LS_EACH_OF (const ls_method, m, lot->methods, lot->methods_n)
            if (!m->evidence && ls_text_same(m->name, source)) return true;
    return false;
}

LS_DOC_COLUMNS(source_columns, WORDS("id", "name"), WORDS("who", "who"), WORDS("title", "title"));

/* Published methods go by the id of their source; what stands behind the ids. */
static void sources(ls_doc_group *top, const ls_estimate *e) {
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "PUBLISHED SOURCES NAMED ABOVE");
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "sources", NULL, source_columns);
    for (size_t i = 0; ls_reference_source_at(top->document->view->reference, i) != NULL; i++) {
        const ls_source *s = ls_reference_source_at(top->document->view->reference, i);
        if (is_used(e, s->id)) LS_DOC_ROW(t, source_columns, W(s->id), W(s->who), W(s->title));
    }
}

/* How the points were drawn, and what ended the drawing. */
static void draws(ls_doc_group *g, const ls_estimate *e) {
    bool digits = e->digits > 0;
    MEMBERS(g, {"digits", digits ? N(e->digits) : W(NULL)}, {"digits_reached", digits ? FLAG(e->sure) : W(NULL)});
    ls_doc_cell how = !digits ? W("")
                              : T("{}enough to be sure of {} significant {} of the spread",
                                  W(e->sure ? ": " : ", the most allowed: not "), N(e->digits),
                                  W(e->digits == 1 ? "digit" : "digits"));
    SAY(g, LS_FULL, "Drawn {} times{}.", N(e->draws), how);
}

const ls_document *ls_report_estimate(const ls_view *v, const ls_estimate *e, ls_next_list next) {
    ls_document *d = ls_document_new(v, "estimate", "Litter in the houses: how much, what is in it, how many loads");
    ls_doc_group *top = d->top;
    d->table = "lots";
    d->more = "each side, methods, nutrients, notes";
    answer(top, e);
    do_now(top, e, next);
    ls_report_put_log(top);
    ls_report_put_sides(ls_doc_object(top, LS_FIRST, NULL, "TONS AND LOADS"), LS_FIRST, e);
    content(top, e);
    unsure(top, e);
    ls_doc_data(top, "all_firm_chance", F(e->all_firm_chance, ""));
    total(top, e);
    measure_next(top, next);
    worth(top, e);
    ls_doc_group *lots = ls_doc_list(top, LS_FULL, "lots", NULL);
    for (size_t i = 0, n; i < e->n; i += n) {
        n = alike(v->sheet, e, i);
        for (size_t k = 0; k < n; k++) one_lot(lots, e, i + k, k == 0 ? n : 0);
    }
    ls_doc_group *accounts = ls_doc_list(top, LS_FULL, "account", NULL);
    for (size_t i = 0; i < e->accounts.n; i++) ls_report_put_account(accounts, &e->accounts.at[i]);
    ls_report_put_cautions(top, &e->cautions, 0);
    ls_doc_texts(top, LS_FULL, "notes", "ASSUMED, AND CONFLICTS", e->notes.at, e->notes.n);
    sources(top, e);
    draws(top, e);
    return d;
}
