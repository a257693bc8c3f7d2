/* The page of rates, told field by field. */
#include "rates.h"

#include "report/chart.h"

#include <math.h>
#include <string.h>

/* What is to be done about fields, or about houses, in the order in which it is told. */
enum { CLOSED, UNRATED, UNLIMITED, UNREPORTED, UNREAD, UNKNOWN, ASKED };
static const char *const asked[ASKED] = {
    [CLOSED] = "Promise {} nothing: no litter may go there now.",
    [UNRATED] = "Have the phosphorus of {} rated.",
    [UNLIMITED] = "Ask the plan writer for a limit on {}. Until then a published limit is used.",
    [UNREPORTED] = "Send a lab sample of {}. Rates are set for rich litter till then.",
    [UNREAD] = "Name a soil table (soil under tables): the soil test of {} is unread.",
    [UNKNOWN] = "Write in the P2O5 and K2O that the soil laboratory asks for on {} (phosphate, potash).",
};

/* A page in the making: fields come one by one, and what is said of all of them stands above. */
struct ls_rates_page {
    ls_document *document;
    const ls_agronomy *agronomy;
    ls_doc_group *above, *now, *below;
    ls_doc_table rows, answers; /* a row a field; a row for each kind of litter on it */
    ls_doc_stream *fields;
    const char *buyer; /* of the row before */
    ls_chart_rows bars;
    ls_report_list ask[ASKED], applied;
    size_t n, taking, flags;   /* fields, those that take litter */
    double spreadings, chance; /* the fewest; the greatest */
};

LS_DOC_COLUMNS(field_columns, HEAD("field"), DATA("buyer"), DATA("field"), DATA_IN("least_ton_per_ac", "ton/ac"),
               DATA_IN("most_ton_per_ac", "ton/ac"), {.heading = "rate", .unit = "ton/ac"},
               DATA_IN("least_tons", "ton"), DATA_IN("most_tons", "ton"), {.heading = "takes", .unit = "ton"},
               WORDS("set_by", "rate set by"), WORDS("open", "open"), {.heading = "N-P-K", .unit = "lb/ac"});

LS_DOC_COLUMNS(answer_columns, HEAD("field"), DATA("buyer"), DATA("field"), WORDS("lots", "litter of"),
               IN("ton_per_ac", "rate", "ton/ac"), IN("takes_tons", "takes", "ton"), WORDS("set_by", "rate set by"));

ls_rates_page *ls_report_rates_begin(const ls_view *v, const ls_agronomy *g, ls_form form) {
    ls_rates_page *page = LS_NEW(v->arena, ls_rates_page, 1);
    ls_document *d = ls_document_new(v, "rates", "What each field may take, and why");
    d->table = "rates";
    d->more = "limits, need and worth of each field";
    *page = (ls_rates_page){.document = d, .agronomy = g, .spreadings = INFINITY};
    page->above = ls_doc_object(d->top, LS_FIRST, NULL, NULL);
    page->now = ls_doc_object(d->top, LS_FIRST, NULL, "DO NOW");
    ls_doc_group *rates = ls_doc_object(d->top, LS_FIRST, NULL, "RATES, TONS, AND N-P-K STILL NEEDED");
    page->rows = LS_DOC_TABLE_IN(rates, LS_FIRST, "answers", NULL, field_columns);
    page->below = ls_doc_object(d->top, LS_FIRST, NULL, NULL);
    page->answers = LS_DOC_TABLE_IN(d->top, LS_FULL, "rates", NULL, answer_columns);
    page->fields = ls_doc_stream_in(d, LS_FULL, "fields", form);
    return page;
}

/* "Feb 16"; with its year where that is another. */
static const char *short_day(const ls_view *v, ls_date day, int year) {
    return strchr(ls_date_words(v->arena, day, year), ' ') + 1;
}

static const char *open_days(const ls_view *v, const ls_field *f) {
    ls_date from = f->allowed.from, to = f->allowed.to;
    const char *last = to == LS_NO_DATE ? "" : short_day(v, to, v->year);
    return from == LS_NO_DATE   ? "any day"
           : !ls_field_opens(f) ? ls_arena_printf(v->arena, "to %s", last)
                                : ls_arena_printf(v->arena, "%s-%s", short_day(v, from, ls_date_year(to)), last);
}

static ls_doc_cell need_of(ls_line left) { return left ? BARE(F(left, "lb/ac")) : W("?"); }

static void answers(ls_doc_table t, const ls_field_rates *field) {
    const char *buyer = field->buyer->name.text, *name = field->field->name.text;
    for (size_t i = 0; i < field->n; i++) {
        const ls_rate *rate = &field->rates[i];
        if (ls_rates_leads(field, i))
            LS_DOC_ROW(t, answer_columns, T("{}, {}", W(buyer), W(name)), W(buyer), W(name),
                       W(ls_rates_lots(t.group->document->arena, field, i)), L(rate->rate), L(rate->takes),
                       W(ls_rates_set_by(field, rate->limit)));
    }
}

/* All that the rates of a field are set by. */
static const char *set_by(ls_arena *a, const ls_field_rates *field) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < field->n; i++) {
        const char *by = ls_rates_set_by(field, field->rates[i].limit);
        if (strstr(t->s, by) == NULL) ls_text_addf(t, "%s%s", t->n > 0 ? ", " : "", by);
    }
    return t->s;
}

/* No spreader keeps closer to a rate. */
static const double closest = 0.05;

/* Tons by a rate, no finer than it is kept. */
static ls_doc_cell tons_of(double tons) {
    const ls_q kept = {.low = tons * (1 - closest), .high = tons * (1 + closest)};
    return POINT(&kept, tons, "ton");
}

/* Of the rates of a field the least, and the greatest. */
static const ls_rate *extreme(const ls_worksheet *w, const ls_field_rates *field, int sign) {
    const ls_rate *best = &field->rates[0];
    for (size_t i = 1; i < field->n; i++)
        if (sign * ls_line_value(w, field->rates[i].rate) > sign * ls_line_value(w, best->rate))
            best = &field->rates[i];
    return best;
}

static void row(ls_rates_page *page, const ls_field_rates *field) {
    const ls_view *v = page->document->view;
    const char *buyer = field->buyer->name.text, *name = field->field->name.text;
    const ls_rate *least = extreme(v->sheet, field, -1), *most = extreme(v->sheet, field, 1);
    ls_doc_cell rate = F(least->rate, "ton/ac"), tons = tons_of(ls_line_value(v->sheet, least->takes));
    ls_doc_cell rates[] = {BARE(rate), BARE(F(most->rate, "ton/ac"))},
                ranges[] = {BARE(tons), BARE(tons_of(ls_line_value(v->sheet, most->takes)))};
    bool one = ls_line_value(v->sheet, least->rate) >= (1 - closest) * ls_line_value(v->sheet, most->rate);
    double takes = ls_line_value(v->sheet, one ? least->takes : most->takes);
    if (!ls_text_same(page->buyer, buyer)) ls_doc_words_in(page->rows, LS_FIRST, W(page->buyer = buyer));
    LS_DOC_ROW(page->rows, field_columns, W(name), W(buyer), W(name), L(least->rate), L(most->rate),
               one ? rate : ls_doc_template("{}-{}", rates, 2), L(least->takes), L(most->takes),
               one ? tons : ls_doc_template("{}-{}", ranges, 2), W(set_by(v->arena, field)),
               W(most->limit == LS_LIMIT_CLOSED ? "closed" : open_days(v, field->field)),
               T("{}-{}-{}", need_of(field->left[LS_FIELD_N]), need_of(field->left[LS_FIELD_P2O5]),
                 need_of(field->left[LS_FIELD_K2O])));
    page->taking += most->limit != LS_LIMIT_CLOSED;
    if (takes > 0)
        *LS_PUSH(v->arena, &page->bars) =
            (ls_chart_row){.label = name, .shown = ls_doc_told(page->document, tons_of(takes)), .value = takes};
}

static void note(ls_rates_page *page, ls_report_list *list, const char *name) {
    if (list->n == 0 || !ls_text_same(list->at[list->n - 1], name)) *LS_PUSH(page->document->arena, list) = name;
}

/* What the haul log has on the field already. */
static void on_the_ground(ls_rates_page *page, const ls_field *field) {
    const ls_farm *farm = page->document->view->farm;
    double tons = 0;
    LS_EACH (const ls_hauled, h, farm->hauled)
        for (size_t k = 0; k < h->n; k++)
            if (h->drops[k].field == field) tons += h->drops[k].tons;
    if (tons > 0)
        note(page, &page->applied,
             ls_arena_printf(page->document->arena, "%s %s", field->name.text,
                             ls_doc_told(page->document, V(tons, "ton"))));
}

/* What is to be done about a field. */
static void take_note(ls_rates_page *page, const ls_field_rates *field) {
    const ls_worksheet *w = page->document->view->sheet;
    const ls_field *f = field->field;
    const char *name = f->name.text;
    bool rated = f->phosphorus != NULL && f->phosphorus->rating.is != 0, open = false, unlimited = false;
    LS_EACH_OF (const ls_rate, rate, field->rates, field->n) {
        open = open || ls_line_value(w, rate->rate) > 0;
        unlimited = unlimited || (rate->limit == LS_LIMIT_CAP && !LS_GIVEN(f->most));
        page->spreadings = fmin(page->spreadings, ls_rates_spreadings(w, rate));
        if (rate->chance_over) page->chance = fmax(page->chance, ls_line_value(w, rate->chance_over));
        if (rate->lot->analysis->report == NULL && page->n == 0)
            note(page, &page->ask[UNREPORTED], rate->lot->house->name.text);
    }
    page->n++;
    page->flags += field->flags.n;
    if (!open) note(page, &page->ask[CLOSED], name);
    if (unlimited) note(page, &page->ask[UNLIMITED], name);
    if (!rated) note(page, &page->ask[UNRATED], name);
    if (open && (!field->need[LS_FIELD_P2O5] || !field->need[LS_FIELD_K2O]))
        note(page, &page->ask[ls_books_soil_unread(page->document->view->farm, f) ? UNREAD : UNKNOWN], name);
    on_the_ground(page, f);
}

void ls_report_rates_field(ls_rates_page *page, const ls_field_rates *field) {
    const char *buyer = field->buyer->name.text, *name = field->field->name.text;
    row(page, field);
    answers(page->answers, field);
    take_note(page, field);
    ls_doc_group *list = ls_doc_stream_begin(page->fields);
    ls_doc_group *g = ls_doc_object(list, LS_FULL, NULL, ls_arena_printf(list->document->arena, "%s, %s", buyer, name));
    MEMBERS(g, {"buyer", W(buyer)}, {"field", W(name)});
    ls_rates_put_limits(g, field);
    ls_rates_put_need(g, field);
    ls_doc_group *lots = ls_doc_list(g, LS_FULL, "lots", NULL);
    for (size_t i = 0; i < field->n; i++) ls_rates_put_rate(lots, field, i);
    ls_doc_texts(g, LS_FULL, "flags", "To note", field->flags.at, field->flags.n);
    ls_doc_stream_end(page->fields);
}

static void do_now(ls_rates_page *page) {
    for (int i = 0; i < ASKED; i++)
        if (page->ask[i].n > 0)
            ITEM(page->now, LS_FIRST, asked[i], W(ls_report_named(page->document->arena, &page->ask[i])));
}

static void how_sure(ls_rates_page *page, size_t notes) {
    ls_doc_group *g = ls_doc_object(page->below, LS_FIRST, NULL, "HOW SURE");
    bool near = page->spreadings < LS_RATES_FEW;
    if (page->chance > 0)
        ls_doc_item(
            g, LS_FIRST,
            page->chance < LS_RATES_LEAST_CHANCE
                ? W("Set for rich litter, rates are almost never over a limit (under 1 "
                    "time in 1,000).")
                : T("Set for rich litter, a rate is over a limit {} of the time at most.", V(page->chance, "%")));
    if (isfinite(page->spreadings))
        ITEM(g, near ? LS_FIRST : LS_FULL,
             near ? "COPPER AND ZINC ARE NEAR: {} spreadings to South Carolina's limit."
                  : "Copper and zinc: far from any limit ({} spreadings by South Carolina's).",
             V(page->spreadings, ""));
    ITEM(g, LS_FIRST, "Assumed, or to note: {} (littershed rates --full).", N(page->flags + notes));
}

const ls_document *ls_report_rates_end(ls_rates_page *page) {
    enum { MOST_BARS = 6 };
    const ls_agronomy *g = page->agronomy;
    ls_document *d = page->document;
    ls_line cu = ls_agronomy_metal_most(g, LS_COPPER), zn = ls_agronomy_metal_most(g, LS_ZINC);
    const char *const *notes;
    size_t noted = ls_agronomy_notes(g, &notes);
    ls_doc_cell open = page->taking == page->n ? W("Every field takes litter")
                                               : T("{} of {} fields take litter", N(page->taking), N(page->n));
    SAY(page->above, LS_FIRST, "{}. Limits are those of the farm file{}.", open,
        W(page->ask[UNLIMITED].n > 0 ? "; where it gives none, a published one stands in" : ""));
    if (page->applied.n > 0)
        SAY(page->above, LS_FIRST,
            "Applied by the haul log: {}. Rates here are for bare fields: littershed plan takes "
            "off what is applied.",
            W(ls_report_named(d->arena, &page->applied)));
    do_now(page);
    const ls_chart_frame frame = {.id = "takes",
                                  .title = "Tons each field could take",
                                  .description = "Rate times spreadable acres",
                                  .unit = "ton"};
    ls_doc_picture(page->below, LS_FIRST, NULL, frame.title, ls_chart(d->view, &frame, &page->bars),
                   page->bars.n > MOST_BARS ? NULL : ls_chart_letters(d->arena, &page->bars));
    how_sure(page, noted);
    ls_report_put_log(d->top);
    ls_doc_texts(d->top, LS_FULL, "notes", "HOW NUTRIENTS COUNT", notes, noted);
    SAY(d->top, LS_FULL,
        "Copper and zinc: the lifetime limit is {} and {} in South Carolina ({}); a caution here, "
        "not a limit.",
        F(cu, "lb/ac"), F(zn, "lb/ac"), W(ls_rates_source(d->view->sheet, cu)));
    return d;
}
