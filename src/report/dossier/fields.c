/* Field by field: applied and planned beside the limits. */
#include "chapters.h"

static ls_doc_cell given(ls_arena *a, const ls_quantity *q) {
    return W(LS_GIVEN(*q) ? ls_quantity_words(a, q) : NULL);
}

/* ---- crop, tests and rate ---- */

static void basis(ls_doc_group *g, const ls_dossier_field *f) {
    const ls_field *field = f->field;
    const ls_soil *soil = field->soil;
    const ls_phosphorus *ph = field->phosphorus;
    bool rated = ph != NULL && LS_GIVEN(ph->rating);
    ls_doc_level level = rated ? LS_FULL : LS_DATA;
    FACTS(g, LS_FULL, {"crop", "crop", W(field->crop.text)},
          {"yield", "expected yield", given(g->document->arena, &field->yield)},
          {"yield_got", "actual yield", given(g->document->arena, &field->yield_got)},
          {"planted", "planted", GIVEN_DAY(field->planted)},
          {"harvested", "harvested", GIVEN_DAY(field->harvested)},
          {"soil_test", "soil test", soil == NULL ? W(NULL) : GIVEN_DAY(soil->date)});
    ls_doc_fact(g, soil == NULL ? LS_DATA : LS_FULL, "soil_method", "soil test method",
                W(soil == NULL ? NULL : soil->method.text));
    FACTS(g, LS_FULL,
          {"need_by", "nitrogen need",
           W(LS_GIVEN(field->nitrogen) ? "as the laboratory or plan says" : "by the crop table")},
          {"rating", "phosphorus rating", W(rated ? ls_rating_name(ph->rating.is) : NULL)});
    FACTS(g, level, {"rated_by", "rated by", W(rated ? ph->rated_by.text : NULL)},
          {"rated", "rated on", rated ? GIVEN_DAY(ph->date) : W(NULL)});
    FACTS(g, LS_FULL,
          {"rate_set_by", "rate set by",
           W(f->rate == NULL ? "each side's own limit" : ls_limit_name(f->rate->limit))},
          {"area_ac", "area", BOOKED(f->rates->area, "ac")},
          {"spreadable_ac", "spreadable, less setbacks", BOOKED(f->rates->spreadable, "ac")},
          {"loads", "loads applied", N(f->applications.n)});
}

LS_DOC_COLUMNS(setback_columns, WORDS("from", "setback from"), WORDS("rule", "rule"),
               IN("acres", "takes", "ac"));

static void setbacks(ls_doc_group *g, const ls_dossier_field *f) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "setbacks", "Setbacks", setback_columns);
    for (size_t i = 0; i < f->rates->setbacks_n; i++) {
        const ls_field_setback *s = &f->rates->setbacks[i];
        LS_DOC_ROW(t, setback_columns, W(s->setback->from.text), W(s->setback->rule.text),
                   L(s->acres));
    }
}

/* ---- amounts ---- */

/* By name, as tables of fields have them. */
static void amounts(ls_doc_group *g, const ls_dossier_field *f) {
    const ls_dossier_amounts *x = &f->actual, *y = &f->planned;
    const struct {
        const char *key, *unit;
        ls_line line;
    } rows[] = {{"ton_per_ac", "ton/ac", x->per_acre},
                {"rate_ton_per_ac", "ton/ac", f->rate != NULL ? f->rate->rate : LS_NO_LINE},
                {"N_lb", "lb", x->pounds[LS_FIELD_N]},
                {"P2O5_lb", "lb", x->pounds[LS_FIELD_P2O5]},
                {"K2O_lb", "lb", x->pounds[LS_FIELD_K2O]},
                {"N_lb_per_ac", "lb/ac", x->on_acre[LS_FIELD_N]},
                {"available_N_lb_per_ac", "lb/ac", x->available},
                {"N_limit_lb_per_ac", "lb/ac", f->rates->left[LS_FIELD_N]},
                {"P2O5_lb_per_ac", "lb/ac", x->on_acre[LS_FIELD_P2O5]},
                {"P2O5_limit_lb_per_ac", "lb/ac", f->rates->phosphate_left},
                {"K2O_lb_per_ac", "lb/ac", x->on_acre[LS_FIELD_K2O]},
                {"P2O5_left_lb_per_ac", "lb/ac", f->ledger_after},
                {"planned_ton_per_ac", "ton/ac", y->per_acre},
                {"planned_N_lb_per_ac", "lb/ac", y->on_acre[LS_FIELD_N]},
                {"planned_available_N_lb_per_ac", "lb/ac", y->available},
                {"planned_P2O5_lb_per_ac", "lb/ac", y->on_acre[LS_FIELD_P2O5]},
                {"planned_K2O_lb_per_ac", "lb/ac", y->on_acre[LS_FIELD_K2O]}};
    MEMBERS(g, {"allotted_tons", BOOKED(y->tons, "ton")}, {"allotted_ac", F(y->acres, "ac")},
            {"tons", BOOKED(x->tons, "ton")});
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        ls_doc_data(g, rows[i].key, BOOKED(rows[i].line, rows[i].unit));
}

LS_DOC_COLUMNS(acre_columns, HEAD(NULL), NUMBER("applied", "applied"), NUMBER("planned", "planned"),
               NUMBER("limit", "limit"));

/* The same as people read them: applied beside planned and limit. */
static void per_acre(ls_doc_group *g, const ls_dossier_field *f) {
    const ls_dossier_amounts *x = &f->actual, *y = &f->planned;
    const ls_line *on = x->on_acre, *planned = y->on_acre, allowed = f->rates->phosphate_left;
    ls_doc_table t = LS_DOC_TABLE_IN(
        g, LS_FULL, "per_acre", "On an average acre; planned: at the plan's rate", acre_columns);
    LS_DOC_GRID_ROW(t, acre_columns, LS_FULL, "litter", W("litter"), F(x->per_acre, "ton/ac"),
                    F(y->per_acre, "ton/ac"),
                    F(f->rate != NULL ? f->rate->rate : LS_NO_LINE, "ton/ac"));
    LS_DOC_GRID_ROW(t, acre_columns, LS_FULL, "available_N",
                    W("plant-available N; limit: need less credits"), F(x->available, "lb/ac"),
                    F(y->available, "lb/ac"), F(f->rates->left[LS_FIELD_N], "lb/ac"));
    LS_DOC_GRID_ROW(t, acre_columns, LS_FULL, "P2O5", W("P2O5; limit: what the rating allows"),
                    F(on[LS_FIELD_P2O5], "lb/ac"), F(planned[LS_FIELD_P2O5], "lb/ac"),
                    allowed == LS_NO_LINE ? W("none set") : F(allowed, "lb/ac"));
    LS_DOC_GRID_ROW(t, acre_columns, LS_FULL, "K2O", W("K2O"), F(on[LS_FIELD_K2O], "lb/ac"),
                    F(planned[LS_FIELD_K2O], "lb/ac"), W(NULL));
    LS_DOC_GRID_ROW(t, acre_columns, LS_FULL, "N", W("total N"), F(on[LS_FIELD_N], "lb/ac"),
                    F(planned[LS_FIELD_N], "lb/ac"), W(NULL));
}

LS_DOC_COLUMNS(whole_columns, HEAD(NULL), NUMBER("applied", "applied"),
               NUMBER("allotted", "allotted by the split"));

static void whole_field(ls_doc_group *g, const ls_dossier_field *f) {
    const ls_dossier_amounts *x = &f->actual, *y = &f->planned;
    static const char *const names[] = {
        [LS_FIELD_N] = "N", [LS_FIELD_P2O5] = "P2O5", [LS_FIELD_K2O] = "K2O"};
    if (x->tons == LS_NO_LINE && y->tons == LS_NO_LINE)
        return;
    ls_doc_table t =
        LS_DOC_TABLE_IN(g, LS_FULL, "whole_field", "On the whole field", whole_columns);
    LS_DOC_GRID_ROW(t, whole_columns, LS_FULL, "litter", W("litter"), BOOKED(x->tons, "ton"),
                    BOOKED(y->tons, "ton"));
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        LS_DOC_GRID_ROW(t, whole_columns, LS_FULL, names[k], W(names[k]), F(x->pounds[k], "lb"),
                        F(y->pounds[k], "lb"));
}

/* ---- spreading ---- */

LS_DOC_COLUMNS(spread_columns, WORDS("entry", "entry"), WORDS("date", "date"), DATA("lot"),
               IN("tons", NULL, "ton"), IN("acres", NULL, "ac"), DATA("acres_logged"),
               IN("ton_per_ac", "litter", "ton/ac"), IN("rate_ton_per_ac", "its rate", "ton/ac"),
               IN("available_N_lb_per_ac", "N", "lb/ac"), IN("P2O5_lb_per_ac", "P2O5", "lb/ac"),
               WORDS("weather_before", "weather 24 h before"), WORDS("weather", "at spreading"),
               WORDS("weather_after", "24 h after"), WORDS("soil", "soil"),
               WORDS("incorporated", "worked in"));

static void spread(ls_doc_group *g, const ls_dossier_field *f) {
    ls_doc_table t =
        LS_DOC_TABLE_IN(g, LS_FULL, "spread",
                        "Each load by its own side and day: N is plant-available, P2O5 with bought "
                        "fertilizer; flagged if over 1% above its limit",
                        spread_columns);
    for (size_t i = 0; i < f->applications.n; i++) {
        const ls_dossier_application *x = &f->applications.at[i];
        const ls_dossier_load *l = x->load;
        LS_DOC_ROW(t, spread_columns, N(l->hauled->log_entry), DAY(l->hauled->day), W(l->lot->name),
                   BOOKED(x->tons, NULL), L(x->acres),
                   W(l->hauled->drops[x->part].acres > 0 ? "yes" : "no"), L(x->per_acre),
                   L(x->limit), L(x->available), L(x->phosphate),
                   ls_dossier_word(l, LS_LOG_WEATHER_BEFORE), ls_dossier_word(l, LS_LOG_WEATHER),
                   ls_dossier_word(l, LS_LOG_WEATHER_AFTER), ls_dossier_word(l, LS_LOG_SOIL),
                   ls_dossier_word(l, LS_LOG_INCORPORATED));
    }
}

/* ---- the phosphorus ledger ---- */

LS_DOC_COLUMNS(ledger_columns, DATA("buyer"), DATA("field"), HEAD("field"), WORDS("year", "year"),
               IN("P2O5_on_lb_per_ac", "P2O5 applied", "lb/ac"),
               IN("removed_lb_per_ac", "removed", "lb/ac"), IN("left_lb_per_ac", "left", "lb/ac"),
               IN("file_says_lb_per_ac", "this file says", "lb/ac"),
               IN("logs_say_lb_per_ac", "earlier files and logs say", "lb/ac"),
               WORDS("figures_of", "earlier files"), WORDS("note", "note"));

static void ledger_of(ls_doc_table t, const ls_dossier *d, const ls_dossier_field *f) {
    const char *buyer = f->buyer->name.text, *field = f->field->name.text,
               *name = ls_dossier_name(d->arena, f->buyer, f->field);
    for (size_t k = 0; k < f->rates->ledger_n; k++) {
        const ls_field_ledger *y = &f->rates->ledger[k];
        LS_DOC_ROW(t, ledger_columns, W(buyer), W(field), W(name),
                   W(ls_arena_printf(d->arena, "%d", y->year)), L(y->on), L(y->removed),
                   L(y->balance), L(y->told), L(y->logged), W(y->from), W(y->took));
    }
    if (f->ledger_after != LS_NO_LINE)
        LS_DOC_ROW(t, ledger_columns, W(buyer), W(field), W(name), W("this litter"),
                   L(f->actual.on_acre[LS_FIELD_P2O5]), L(f->ledger_removed), L(f->ledger_after),
                   L(LS_NO_LINE), L(LS_NO_LINE), W(NULL),
                   W(ls_dossier_bought(f) ? "left counts bought fertilizer too" : NULL));
}

static const ls_doc_column join_columns[] = {WORDS("note", NULL)};

static void ledger(ls_doc_group *top, const ls_dossier *d) {
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "Phosphorus ledger");
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "ledger", NULL, ledger_columns);
    for (size_t i = 0; i < d->fields.n; i++)
        ledger_of(t, d, &d->fields.at[i]);
    ls_doc_table joins = LS_DOC_TABLE_IN(g, LS_FULL, "joins", "Earlier files", join_columns);
    ls_doc_as_items(joins);
    for (size_t i = 0; i < d->joins.n; i++)
        LS_DOC_ROW(joins, join_columns, W(d->joins.at[i]));
}

/* ---- all of a field ---- */

static void one_field(ls_doc_group *list, const ls_dossier *d, size_t i) {
    const ls_dossier_field *f = &d->fields.at[i];
    const char *name = ls_dossier_name(d->arena, f->buyer, f->field);
    ls_doc_group *g =
        ls_doc_object(list, LS_FULL, NULL,
                      f->buyer->own.yes ? ls_arena_printf(d->arena, "%s (own field)", name) : name);
    MEMBERS(g, {"buyer", W(f->buyer->name.text)}, {"field", W(f->field->name.text)},
            {"own", W(f->buyer->own.yes ? "yes" : "no")});
    basis(g, f);
    amounts(g, f);
    setbacks(g, f);
    per_acre(g, f);
    whole_field(g, f);
    ls_doc_picture(g, LS_FULL, NULL, "Full bar: applied. Hatched bar: the limit.",
                   ls_dossier_chart_field(list->document, f, i), NULL);
    spread(g, f);
    if (f->ledger_after != LS_NO_LINE)
        ITEM(g, LS_FULL, "What the crop took of this litter's P2O5 is figured by the {}.",
             W(LS_GIVEN(f->field->yield_got) ? "actual yield"
                                             : "expected yield: none is given yet"));
    ls_doc_texts(g, LS_FULL, "notes", NULL, f->rates->flags.at, f->rates->flags.n);
}

void ls_dossier_put_fields(ls_doc_group *top, const ls_dossier *d) {
    ls_doc_group *list = ls_doc_list(top, LS_FULL, "fields", "Fields");
    for (size_t i = 0; i < d->fields.n; i++)
        one_field(list, d, i);
    ledger(top, d);
}
