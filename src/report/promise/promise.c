/* What stands on a promise slip: what, when, for how much; then each field; then the terms. */
#include "promise.h"

#include "report/figure.h"
#include "report/handed_out.h"
#include "report/ticket/ticket.h"

#include <math.h>

enum { NAME = 60 };

typedef struct {
    ls_paper *paper;
    const ls_report_page *p; /* of the paper */
    const ls_tickets *of;
    const ls_buyer *buyer;
    const ls_buyer_sum *sum;
    const ls_buyer_sheet *sheet;
    const ls_handed *handed;
    const ls_promise_kept *kept; /* NULL: no slip stands */
} slip;

/* ---- whose litter ---- */

/* "North (both sides)", "North/left, South (both sides)": the lots i with has[i]. */
static const char *lots_of(const slip *s, const bool *has) {
    const ls_estimate *e = s->of->sums->estimate;
    ls_text *t = ls_text_new(s->p->arena);
    for (size_t i = 0, end; i < e->n; i = end) {
        size_t n = 0;
        for (end = i; end < e->n && e->lots[end].house == e->lots[i].house; end++) n += has[end];
        bool all = n > 1 && n == end - i;
        if (all)
            ls_text_addf(t, "%s%s (%s sides)", t->n > 0 ? ", " : "",
                         ls_report_name(s->p, e->lots[i].house->name.text, NAME), n == 2 ? "both" : "all");
        for (size_t k = i; k < end && !all; k++)
            if (has[k]) ls_text_addf(t, "%s%s", t->n > 0 ? ", " : "", ls_report_name(s->p, e->lots[k].name, NAME));
    }
    return t->s;
}

/* Each analysis among the rows once, with the lots it is of. */
static void analyses(const slip *s) {
    const ls_estimate *e = s->of->sums->estimate;
    const ls_promised_list *rows = &s->sheet->rows;
    bool typical = false;
    if (rows->n > 0) PUT(s->paper, HEAD, NULL, "IN THE LITTER");
    for (size_t i = 0; i < rows->n; i++) {
        bool *has = LS_NEW(s->p->arena, bool, e->n), known = false;
        typical |= rows->at[i].analysis->report == NULL;
        for (size_t k = 0; k < i; k++) known |= rows->at[k].analysis == rows->at[i].analysis;
        for (size_t k = 0; k < e->n; k++) has[k] = e->lots[k].analysis == rows->at[i].analysis;
        if (!known)
            PUT(s->paper, ITEM, NULL, "%s: %s.", lots_of(s, has),
                ls_report_litter(s->paper->page, rows->at[i].analysis));
    }
    if (typical) PUT(s->paper, WORDS, NULL, "No lab report: a typical ton. The estimate's likely ton may differ.");
}

/* ---- what is promised ---- */

/* A copy of a slip that stands: what it says, and what has become of it. */
static bool is_copy(const slip *s) { return s->handed->mark == LS_MARK_COPY && s->kept != NULL; }

/* Loads that are promised by it and no longer firm. */
static size_t likely(const slip *s) { return is_copy(s) ? s->kept->likely : 0; }

static const char *loads_words(const slip *s, size_t n, ls_line tons) {
    return ls_arena_printf(s->p->arena, "%zu load%s, %s", n, n == 1 ? "" : "s",
                           ls_report_line(s->paper->page, tons, "ton"));
}

/* Tons as the scale's tickets have them: money is reckoned by these. */
static const char *weighed(const slip *s, ls_line tons) {
    return ls_unit_amount(s->p->arena, ls_report_booked(s->p, ls_line_value(s->p->view->sheet, tons), "ton"),
                          ls_report_unit(s->p, "ton"));
}

static const char *had_words(const slip *s, long n, ls_line tons) {
    return n == 0 || tons == LS_NO_LINE
               ? "nothing"
               : ls_arena_printf(s->p->arena, "%ld load%s, %s", n, n == 1 ? "" : "s", weighed(s, tons));
}

static const char *days_of(const ls_report_page *p, const ls_promised *row) {
    if (row->first == LS_NO_DATE) return "any day";
    return row->from_stack
               ? ls_arena_printf(p->arena, "not before %s", ls_date_words(p->arena, row->first, p->view->year))
               : ls_paper_days(p, row->first, row->last);
}

static void row(const slip *s, const ls_promised *is) {
    const char *on = is->field->yard
                         ? ""
                         : ls_arena_printf(s->p->arena, " on %s at %s", ls_report_line(s->p, is->acres, "ac"),
                                           ls_report_line(s->p, is->rate, "ton/ac"));
    PUT(s->paper, ITEM, NULL, "%s: %s%s%s, %s. Litter of %s.", is->field->name.text,
        loads_words(s, is->loads, is->tons), is->promised && is->certainty != LS_FIRM ? ", only likely," : "", on,
        days_of(s->p, is), lots_of(s, is->lots));
}

/* Why each field of the buyer gets nothing, where there is a reason. */
static void nothing(const slip *s) {
    const ls_plan *plan = s->of->sums->plan;
    size_t of_buyer = 0;
    for (size_t i = 0; i < plan->unused.n; i++) of_buyer += plan->unused.at[i].buyer == s->buyer;
    PUT(s->paper, HEAD, NULL, s->kept == NULL ? "PROMISED TODAY" : "MORE LOADS");
    PUT(s->paper, WORDS, NULL, "None can be promised today%s", of_buyer > 0 ? ":" : ": none is sure enough yet.");
    for (size_t i = 0; i < plan->unused.n; i++)
        if (plan->unused.at[i].buyer == s->buyer)
            PUT(s->paper, ITEM, NULL, "%s: %s.", plan->unused.at[i].field->name.text, plan->unused.at[i].why);
}

/* What is promised, or c: loads of a certainty that are not. */
static void part(const slip *s, ls_certainty c) {
    const char *const heads[] = {s->kept == NULL ? "PROMISED TODAY" : "PROMISED, TO COME", "LIKELY, NOT PROMISED",
                                 "POSSIBLE, NOT PROMISED"};
    const char *const ends[] = {
        likely(s) > 0 ? "Rain or wet ground may move the days while the field is open. Loads that "
                        "are only likely come if there is as much litter as is likely."
                      : "Rain or wet ground may move the days while the field is open.",
        "They come if there is as much litter as is likely.", "They come only if there is a lot of litter."};
    size_t n = 0;
    LS_EACH (const ls_promised, is, s->sheet->rows) {
        if (is->promised != (c == LS_FIRM) || (c != LS_FIRM && is->certainty != c)) continue;
        if (n++ == 0) PUT(s->paper, HEAD, NULL, "%s", heads[c]);
        row(s, is);
    }
    if (n > 0) {
        PUT(s->paper, WORDS, NULL, "%s", ends[c]);
    } else if (c == LS_FIRM) {
        nothing(s);
    }
}

/* The days of all promised loads; of those out of the stack the earliest is known. */
static const char *promised_days(const slip *s) {
    ls_date first = LS_NO_DATE, last = LS_NO_DATE, later = LS_NO_DATE;
    LS_EACH (const ls_promised, is, s->sheet->rows) {
        ls_date *earliest = is->from_stack ? &later : &first;
        if (!is->promised || is->first == LS_NO_DATE) continue;
        *earliest = *earliest == LS_NO_DATE || is->first < *earliest ? is->first : *earliest;
        last = !is->from_stack && is->last > last ? is->last : last;
    }
    const char *rest = later == LS_NO_DATE ? ""
                                           : ls_arena_printf(s->p->arena, "not before %s",
                                                             ls_date_words(s->p->arena, later, s->p->view->year));
    if (first == LS_NO_DATE) return rest[0] != '\0' ? rest : "any day";
    return ls_arena_printf(s->p->arena, "%s%s%s", ls_paper_days(s->p, first, last),
                           rest[0] != '\0' ? ", the rest " : "", rest);
}

/* Loads and tons of a line each; "nothing" without any. */
static const char *amount(const slip *s, ls_line loads, ls_line tons) {
    long n = ls_report_loads(s->p->view, loads);
    return n == 0 || tons == LS_NO_LINE ? "nothing" : loads_words(s, (size_t)n, tons);
}

/* Loads that come no more, and tons that lack. */
static void lacks(const slip *s, const ls_promise_tons *tons, const char *why) {
    long n = is_copy(s) ? ls_report_loads(s->p->view, s->kept->short_of) : 0;
    if (n > 0)
        PUT(s->paper, LEAD, "SHORT", "%s: %s", loads_words(s, (size_t)n, tons->short_of), why);
    else if (tons->lacks)
        PUT(s->paper, LEAD, "SHORT", "no load, but %s: %s", ls_report_line(s->p, tons->short_of, "ton"),
            ls_report_light(s->p->view, s->kept));
}

/* " (7 firm, 1 likely)": of the loads to come; "" if all are firm. */
static const char *how_sure(const slip *s) {
    long come = ls_report_loads(s->p->view, s->sheet->to_come);
    return likely(s) == 0 ? ""
                          : ls_arena_printf(s->p->arena, " (%ld firm, %zu likely)", come - (long)likely(s), likely(s));
}

/* What was promised in all, what of it he had and what is to come. */
static void promised(const slip *s) {
    const ls_promise_kept *kept = s->kept;
    const ls_buyer_sheet *is = s->sheet;
    bool had = ls_report_loads(s->p->view, is->had) > 0, copy = is_copy(s), more = copy && kept->beyond != LS_NO_LINE,
         come = ls_report_loads(s->p->view, is->to_come) > 0;
    const char *says = amount(s, is->says, is->tons.promised), *all = kept != NULL || had ? " in all" : "",
               *days = come ? ls_arena_printf(s->p->arena, ", %s", promised_days(s)) : "";
    if (kept == NULL && !come) says = "nothing today", all = "";
    PUT(s->paper, LEAD, "PROMISED", "%s%s%s", says, all,
        kept != NULL && !copy
            ? ls_arena_printf(s->p->arena, " (%s on the slip before)", amount(s, kept->promised, kept->tons.promised))
        : kept == NULL && !had ? days
                               : "");
    if (kept != NULL || had)
        PUT(s->paper, LEAD, "HAD", "%s%s", had_words(s, ls_report_loads(s->p->view, is->had), is->had_tons),
            more ? ls_arena_printf(s->p->arena, ", %ld not promised", ls_report_loads(s->p->view, kept->beyond)) : "");
    if (kept != NULL || (had && come))
        PUT(s->paper, LEAD, "TO COME", "%s%s%s", amount(s, is->to_come, is->tons.owed), how_sure(s), days);
    lacks(s, &is->tons, "no litter or no field is left");
}

/* ": $1,922 for the loads you had, $82 for those to come"; "" if nothing is known. */
static const char *costs(const slip *s) {
    ls_line had = s->sheet->had_price, come = s->sheet->come_price;
    if (had == LS_NO_LINE && come == LS_NO_LINE) return "";
    const char *rest = come == LS_NO_LINE ? "" : ls_report_line(s->p, come, "$");
    if (had == LS_NO_LINE)
        return ls_arena_printf(s->p->arena, ": %s%s", rest, s->kept == NULL ? "" : " for the loads to come");
    return ls_arena_printf(s->p->arena, ": %s for the loads you had%s%s%s", ls_report_line(s->p, had, "$"),
                           come == LS_NO_LINE ? "" : ", ", rest, come == LS_NO_LINE ? "" : " for those to come");
}

/* What a ton costs: as promised, whatever the file says since. */
static void price(const slip *s) {
    const ls_buyer_sheet *sheet = s->sheet;
    double now = LS_GIVEN(s->buyer->price) ? s->buyer->price.value : NAN,
           was = s->kept != NULL ? s->kept->slip->price : now;
    const char *of = sheet->price == LS_NO_LINE ? "none" : ls_report_line(s->p, sheet->price, "$/ton");
    if (was != now && !(isnan(was) && isnan(now)))
        PUT(s->paper, LEAD, "PRICE", "%s as promised%s. Since then the farm file says %s", of, costs(s),
            sheet->asked == LS_NO_LINE ? "none" : ls_report_line(s->p, sheet->asked, "$/ton"));
    else if (sheet->price == LS_NO_LINE)
        PUT(s->paper, LEAD, "PRICE", "none: given away, or to be agreed");
    else
        PUT(s->paper, LEAD, "PRICE", "%s, %s%s", of,
            now < 0                      ? "paid by the farm"
            : ls_buyer_is_yard(s->buyer) ? "delivered"
                                         : "delivered and spread",
            costs(s));
}

static void leads(const slip *s) {
    PUT(s->paper, LEAD, "FOR", "%s%s%s", ls_report_name(s->paper->page, s->buyer->name.text, NAME),
        s->buyer->address.text == NULL ? "" : ", ", s->buyer->address.text == NULL ? "" : s->buyer->address.text);
    promised(s);
    price(s);
}

/* ---- what he had ---- */

static void one_load(const slip *s, const ls_had_load *had) {
    const ls_hauled *load = had->load;
    const char *when = ls_date_words(s->p->arena, load->day, s->p->view->year);
    ls_text *fields = ls_text_new(s->p->arena);
    for (size_t k = 0; k < load->n; k++)
        if (load->drops[k].buyer == s->buyer && s->buyer != NULL)
            ls_text_addf(fields, "%s%s", fields->n > 0 ? " and " : " on ", load->drops[k].field->name.text);
    if (had->tons == LS_NO_LINE)
        PUT(s->paper, ITEM, NULL, "%s, %s: not here: this ticket was for you, the load went elsewhere", load->ticket,
            when);
    else
        PUT(s->paper, ITEM, NULL, "%s, %s: %s%s%s", load->ticket, when, weighed(s, had->tons), fields->s,
            had->astray ? " (its ticket was for somebody else)" : "");
}

/* Each load, and those that took another way than their tickets. */
static void loads_had(const slip *s, const ls_had_loads *list) {
    if (list->n > 0) PUT(s->paper, HEAD, NULL, "LOADS YOU HAD");
    for (size_t i = 0; i < list->n; i++) one_load(s, &list->at[i]);
}

/* ---- terms ---- */

/* To the buyer, never the farm. */
static void worth(const slip *s) {
    ls_line gain = s->sheet->firm_gain;
    if (s->sheet->firm_worth == LS_NO_LINE) return;
    const char *beside = "";
    if (gain != LS_NO_LINE) {
        bool more = ls_line_value(s->p->view->sheet, gain) >= 0;
        beside = ls_arena_printf(s->p->arena, ", %s %s than their price",
                                 ls_report_line(s->p, more ? gain : s->sheet->firm_loss, "$"), more ? "more" : "less");
    }
    PUT(s->paper, FACT, "Worth",
        "about %s to you for the %s loads%s. That is the fertilizer they save on these fields, at "
        "the farm file's prices: no more than the crops use.",
        ls_report_line(s->p, s->sheet->firm_worth, "$"), likely(s) > 0 ? "firm" : "promised", beside);
}

/* Are the loads that are promised to anybody all firm? */
static bool all_firm(const ls_view *v, const ls_handed_out *h) {
    for (size_t i = 0; i < h->promises.n; i++)
        if (h->promises.at[i].likely > 0 || ls_report_loads(v, h->promises.at[i].short_of) > 0) return false;
    return true;
}

static void terms(const slip *s, bool with_worth) {
    static const char *const blanks[] = {"", "date", NULL};
    if (LS_GIVEN(s->buyer->price) || s->sum->loads[LS_FIRM] > 0) PUT(s->paper, HEAD, NULL, "TERMS");
    if (LS_GIVEN(s->buyer->price))
        PUT(s->paper, FACT, "Weight", "%s for the tons on the scale.",
            s->buyer->price.value < 0 ? "the farm pays" : "you pay");
    if (s->sum->loads[LS_FIRM] > 0 && all_firm(s->p->view, s->of->sums->handed_out))
        PUT(s->paper, FACT, "How sure",
            "all promised loads of the farm, for all buyers, are there together %s of the time.",
            ls_report_line(s->paper->page, s->of->sums->estimate->all_firm_chance, "%"));
    if (with_worth) worth(s);
    if (s->sum->loads[LS_FIRM] > 0) {
        ls_paper_blanks(s->paper, "For the farm", blanks);
        ls_paper_blanks(s->paper, "For the buyer", blanks);
    }
    PUT(s->paper, END, NULL, LS_REPORT_DECIDE);
}

static void head(const slip *s) {
    ls_date before = ls_report_slip_before(s->handed, s->kept);
    PUT(s->paper, NAME, "PROMISE SLIP", "%s", ls_paper_farm(s->p));
    PUT(s->paper, BOX, NULL, "%s%s", ls_handed_text(s->p->view, s->handed),
        before == LS_NO_DATE ? ""
                             : ls_arena_printf(s->p->arena, ". In place of the slip of %s. Tear up the old one.",
                                               ls_date_words(s->p->arena, before, s->p->view->year)));
}

/* Of a buyer whom the files name no more: what the log tells. */
static ls_paper gone(ls_report_page *p, const ls_tickets *t, const ls_promise_kept *kept) {
    ls_paper paper = {.page = p};
    const ls_handed handed = {LS_MARK_COPY, kept->slip->day, kept->slip->log_entry};
    const slip s = {.paper = &paper, .p = p, .of = t, .handed = &handed, .kept = kept};
    long had = ls_report_loads(p->view, kept->had) + ls_report_loads(p->view, kept->beyond);
    head(&s);
    PUT(&paper, LEAD, "FOR", "%s", ls_report_name(p, kept->slip->name, NAME));
    PUT(&paper, LEAD, "PROMISED", "%s in all", amount(&s, kept->promised, kept->tons.promised));
    PUT(&paper, LEAD, "HAD", "%s", had_words(&s, had, kept->tons.had));
    PUT(&paper, LEAD, "TO COME", "nothing");
    lacks(&s, &kept->tons, "the farm plans no more loads for you. Call it");
    PUT(&paper, LEAD, "PRICE", "%s",
        kept->price == LS_NO_LINE ? "none: given away, or to be agreed" : ls_report_line(p, kept->price, "$/ton"));
    loads_had(&s, &kept->loads);
    PUT(&paper, END, NULL, LS_REPORT_DECIDE);
    return paper;
}

static ls_paper promise(ls_report_page *p, const ls_slip_list *list, size_t i) {
    ls_paper paper = {.page = p};
    const ls_tickets *t = list->figures;
    const ls_buyer *b = list->buyers[i];
    size_t k = (size_t)(b - t->sums->estimate->farm->buyers.at);
    const slip s = {&paper,
                    p,
                    t,
                    b,
                    &t->sums->buyers[k],
                    &t->buyers[k],
                    &list->handed[i],
                    ls_promise_kept_of(t->sums->handed_out, b)};
    ls_paper_starter(&paper);
    head(&s);
    leads(&s);
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++) part(&s, c);
    loads_had(&s, &s.sheet->loads);
    analyses(&s);
    terms(&s, list->worth);
    return paper;
}

const char *ls_report_promises(const ls_view *v, const ls_slip_list *list, ls_form form) {
    ls_report_page p = {v, v->arena, ls_text_new(v->arena)};
    ls_papers all = {0};
    const ls_handed_out *h = list->figures->sums->handed_out;
    if (form == LS_JSON) return ls_report_promises_json(v, list);
    ls_paper_log(&p, &all);
    for (size_t i = 0; i < list->n; i++) *LS_PUSH(v->arena, &all) = promise(&p, list, i);
    for (size_t i = 0; i < h->promises.n; i++)
        if (ls_report_is_gone(list, &h->promises.at[i]))
            *LS_PUSH(v->arena, &all) = gone(&p, list->figures, &h->promises.at[i]);
    return form == LS_HTML ? ls_papers_html(v, &all, "Litter promise slips", "slip") : ls_papers_text(v, &all);
}
