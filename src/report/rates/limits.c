/* What limits a field, on the page of rates: acres, dates, caps of a season, phosphorus. */
#include "rates.h"

const char *ls_rates_days(const ls_view *v, ls_window w) {
    const char *from = ls_date_words(v->arena, w.from, v->year);
    return w.from == w.to ? from : ls_arena_printf(v->arena, "%s to %s", from, ls_date_words(v->arena, w.to, v->year));
}

static void put_days(ls_doc_group *g, ls_date from, ls_date to) { MEMBERS(g, {"from", DAY(from)}, {"to", DAY(to)}); }

LS_DOC_COLUMNS(setback_columns, WORDS("from", "kept back from"), WORDS("how", "how"), IN("acres", NULL, "ac"),
               DATA("rule"), DATA_IN("distance_ft", "ft"));

static void setback(ls_doc_table t, const ls_field_setback *kept) {
    const ls_setback *s = kept->setback;
    bool round = LS_GIVEN(s->radius);
    ls_doc_cell distance = V(round ? s->radius.value : s->width.value, "ft");
    ls_doc_cell shape = round ? T("{} round", distance) : T("{} along {}", distance, V(s->edge.value, "ft"));
    LS_DOC_ROW(t, setback_columns, W(s->from.text),
               T("{}{}{}{}", shape, OPTIONAL(", {} of it in the field", GIVEN(s->share, "%")),
                 OPTIONAL(", {} of it kept back already", GIVEN(s->overlap, "ac")),
                 OPTIONAL(", by the rule of {}", W(s->rule.text))),
               L(kept->acres), W(s->rule.text), distance);
}

/* ---- dates ---- */

/* The dates that the plan's own days take from the window: how many there are. */
static size_t narrowed(ls_doc_group *g, const ls_field *f, bool tell) {
    const struct {
        const ls_count *days;
        const ls_day *day;
        const char *least, *what;
    } limits[] = {{&f->days_before_planting, &f->planting, "most", "planting"},
                  {&f->days_before_harvest, &f->harvest, "least", "harvest"},
                  {&f->days_before_grazing, &f->grazing, "least", "grazing"}};
    size_t n = 0;
    for (size_t i = 0; i < sizeof limits / sizeof *limits; i++) {
        if (!LS_GIVEN(*limits[i].days) || !LS_GIVEN(*limits[i].day)) continue;
        n++;
        if (tell)
            ITEM(g, LS_FULL, "at {} {} days before {} on {}", W(limits[i].least), N(limits[i].days->n),
                 W(limits[i].what), DAY(limits[i].day->day));
    }
    return n;
}

static void put_open(ls_doc_group *g, const ls_field *f) {
    const ls_window w = f->allowed;
    ls_doc_cell days = W(ls_rates_days(g->document->view, w));
    if (w.from == LS_NO_DATE)
        SAY(g, LS_FULL, "Open on any day: the file names no days.");
    else if (!ls_field_opens(f))
        SAY(g, LS_FULL, "Open until {}:", DAY(w.to));
    else if (narrowed(g, f, false) == 0)
        SAY(g, LS_FULL, "Open {}.", days);
    else if (LS_GIVEN(f->open))
        SAY(g, LS_FULL, "Open {}: by the file {}, and", days, W(ls_rates_days(g->document->view, f->open.days)));
    else
        SAY(g, LS_FULL, "Open {}:", days);
    narrowed(g, f, true);
    if (w.from == LS_NO_DATE)
        ls_doc_data(g, "spread_on", W(NULL));
    else
        put_days(ls_doc_object(g, LS_DATA, "spread_on", NULL), ls_field_opens(f) ? w.from : LS_NO_DATE, w.to);
}

LS_DOC_COLUMNS(interval_columns, HEAD("what"), WORDS("date", "not before"), IN("days", "after it", "days"), HEAD("by"),
               DATA("given"), DATA("source"), DATA("in_case"));

static void interval(ls_doc_table t, const char *key, const char *what, const ls_interval *i, bool tell) {
    if (!i->line) {
        ls_doc_data(t.group, key, W(NULL));
        return;
    }
    LS_DOC_GRID_ROW(t, interval_columns, tell ? LS_FULL : LS_DATA, key, W(what), DAY(i->day), L(i->line),
                    i->given ? W("the farm file") : T("a published caution, {}", W(i->source)), FLAG(i->given),
                    W(i->source), FLAG(i->in_case));
}

/* A caution is told that asks for more than the plan's limit. */
static void earliest(ls_doc_group *field_group, const ls_field_rates *field) {
    const ls_earliest *e = &field->earliest;
    bool grazing = e->grazing.given, harvest = e->harvest.given;
    ls_doc_group *g = ls_doc_object(field_group, LS_FULL, "earliest", NULL);
    ls_doc_data(g, "spread", DAY(field->last_day));
    ls_doc_table t = LS_DOC_TABLE_IN(
        g, LS_FULL, NULL, field->last_day == LS_NO_DATE ? "After litter" : "After litter on the last open day",
        interval_columns);
    interval(t, "grazing", "animals", &e->grazing, true);
    interval(t, "cattle", "cattle", &e->cattle, grazing && e->cattle.longer);
    interval(t, "harvest", "harvest", &e->harvest, true);
    interval(t, "organic_off_soil", "organic food off the soil", &e->organic_off_soil,
             harvest && e->organic_off_soil.longer);
    interval(t, "organic_on_soil", "organic food that touches soil", &e->organic_on_soil,
             harvest && e->organic_on_soil.longer);
}

LS_DOC_COLUMNS(cap_columns, HEAD("days"), DATA("between"), WORDS("counts", "counts"), NUMBER("most", "at most"),
               DATA("unit"), WORDS("rule", "rule of"), WORDS("applies", "open then"));

static void caps(ls_doc_group *g, const ls_field_rates *field) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "window_caps",
                                     "Limits of a season (they hold if the field is open then)", cap_columns);
    LS_EACH_OF (const ls_field_cap, c, field->caps, field->caps_n) {
        const char *unit = LS_GIVEN(c->cap->most) ? "ton/ac" : "lb/ac";
        ls_doc_group *between = ls_doc_loose_object(g);
        put_days(between, c->cap->between.days.from, c->cap->between.days.to);
        LS_DOC_ROW(t, cap_columns, W(ls_rates_days(g->document->view, c->cap->between.days)), G(between),
                   W(LS_GIVEN(c->cap->most)             ? "litter"
                     : LS_GIVEN(c->cap->total_nitrogen) ? "total nitrogen"
                                                        : "available nitrogen"),
                   F(c->figure, unit), W(unit), W(c->cap->rule.text), FLAG(c->applies));
    }
    ls_doc_group *outside = ls_doc_list(g, LS_DATA, "outside_window_caps", NULL);
    LS_EACH (const ls_window, days, field->outside)
        put_days(ls_doc_object(outside, LS_DATA, NULL, NULL), days->from, days->to);
}

/* ---- phosphorus ---- */

LS_DOC_COLUMNS(ledger_columns, HEAD("crop of"), DATA("year"), IN("on", "put on", "lb/ac"),
               IN("removed", "taken off", "lb/ac"), IN("balance", "left", "lb/ac"));

static void ledger(ls_doc_group *g, const ls_field_rates *field) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "ledger", "Phosphate (P2O5) so far", ledger_columns);
    LS_EACH_OF (const ls_field_ledger, l, field->ledger, field->ledger_n)
        LS_DOC_ROW(t, ledger_columns, W(ls_arena_printf(g->document->arena, "%d", l->year)), N(l->year), L(l->on),
                   L(l->removed), L(l->balance));
}

static void rating(ls_doc_group *g, const ls_field_rates *field) {
    const ls_phosphorus *rated = field->field->phosphorus;
    bool is = rated != NULL && rated->rating.is != 0;
    const char *by = rated == NULL ? NULL : rated->rated_by.text;
    const char *name = is ? ls_rating_name(rated->rating.is) : NULL;
    ls_doc_cell date = rated == NULL ? W(NULL) : GIVEN_DAY(rated->date);
    MEMBERS(g, {"rating", W(name)}, {"rated_by", W(by)}, {"date", date});
    if (!is) {
        SAY(g, LS_FULL, "Phosphorus: not rated; held to one year's removal.");
        return;
    }
    SAY(g, LS_FULL, "Phosphorus: rated {}{}{}{}.", W(name),
        by == NULL ? W(", by whom is not said") : T(" by {}", W(by)), OPTIONAL(", {}", date),
        OPTIONAL("; the removal of {} may be spread at once", GIVEN(rated->bank, "years")));
}

static void phosphorus(ls_doc_group *field_group, const ls_field_rates *field) {
    const ls_worksheet *w = field_group->document->view->sheet;
    bool bounds = field->phosphate, banks = bounds && field->banked;
    ls_doc_group *g = ls_doc_object(field_group, LS_FULL, "phosphorus", NULL);
    rating(g, field);
    ls_doc_fact(g, bounds ? LS_FULL : LS_DATA, "allowed_lb_ac", "P2O5 the rating allows", F(field->phosphate, "lb/ac"));
    FACTS(g, banks ? LS_FULL : LS_DATA, {"banked_lb_ac", "Crops have yet to take up", F(field->banked, "lb/ac")},
          {"left_lb_ac", "Allowed now", F(field->phosphate_left, "lb/ac")});
    if (banks && ls_line_value(w, field->phosphate_left) < ls_line_value(w, field->phosphate))
        SAY(g, LS_FULL, "No P2O5 may be applied until the crops have taken up what is left of earlier years.");
    ledger(field_group, field);
}

void ls_rates_put_limits(ls_doc_group *g, const ls_field_rates *field) {
    FACTS(g, LS_FULL, {"area_ac", "Area", F(field->area, "ac")},
          {"spreadable_ac", "To spread", F(field->spreadable, "ac")});
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "setbacks", NULL, setback_columns);
    for (size_t i = 0; i < field->setbacks_n; i++) setback(t, &field->setbacks[i]);
    put_open(g, field->field);
    earliest(g, field);
    caps(g, field);
    phosphorus(g, field);
}
