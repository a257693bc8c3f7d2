/* Field by field: applied and planned beside the limits. */
#include "chapters.h"

#include "report/rates/rates.h"

/* ---- crop, tests and rate ---- */

static ls_doc_cell given(ls_arena *a, const ls_quantity *q) { return W(LS_GIVEN(*q) ? ls_quantity_words(a, q) : NULL); }

/* By name, for other programs. */
static void basis(ls_doc_group *g, const ls_dossier_field *f) {
    const ls_field *field = f->field;
    const ls_soil *soil = field->soil;
    const ls_phosphorus *ph = field->phosphorus;
    bool rated = ph != NULL && LS_GIVEN(ph->rating);
    MEMBERS(g, {"crop", W(field->crop.text)}, {"yield", given(g->document->arena, &field->yield)},
            {"yield_got", given(g->document->arena, &field->yield_got)}, {"planted", GIVEN_DAY(field->planted)},
            {"harvested", GIVEN_DAY(field->harvested)}, {"soil_test", soil == NULL ? W(NULL) : GIVEN_DAY(soil->date)},
            {"soil_method", W(soil == NULL ? NULL : soil->method.text)},
            {"need_by", W(LS_GIVEN(field->nitrogen) ? "as the laboratory or plan says" : "by the crop table")},
            {"rating", W(rated ? ls_rating_name(ph->rating.is) : NULL)},
            {"rated_by", W(rated ? ph->rated_by.text : NULL)}, {"rated", rated ? GIVEN_DAY(ph->date) : W(NULL)},
            {"rate_set_by", W(f->rate == NULL ? "each side's own limit" : ls_limit_name(f->rate->limit))},
            {"area_ac", BOOKED(f->rates->area, "ac")}, {"spreadable_ac", BOOKED(f->rates->spreadable, "ac")},
            {"loads", N(f->applications.n)});
}

LS_DOC_COLUMNS(setback_columns, WORDS("from", NULL), WORDS("rule", NULL), IN("acres", NULL, "ac"));

/* " after setbacks: stream (plan, 100 ft) 0.7 ac; well 0.2 ac"; that there are none. */
static ls_doc_cell setbacks(ls_doc_group *g, const ls_dossier_field *f) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_DATA, "setbacks", NULL, setback_columns);
    size_t n = f->rates->setbacks_n;
    ls_doc_cell *parts = LS_NEW(g->document->arena, ls_doc_cell, 3 * n + 1), *part = parts;
    ls_text *words = ls_text_new(g->document->arena);
    for (size_t i = 0; i < n; i++) {
        const ls_field_setback *s = &f->rates->setbacks[i];
        LS_DOC_ROW(t, setback_columns, W(s->setback->from.text), W(s->setback->rule.text), L(s->acres));
        ls_text_add(words, i == 0 ? " after setbacks: {}{} {}" : "; {}{} {}");
        *part++ = W(s->setback->from.text);
        *part++ =
            W(s->setback->rule.text == NULL ? "" : ls_arena_printf(g->document->arena, " (%s)", s->setback->rule.text));
        *part++ = F(s->acres, "ac");
    }
    return n > 0                       ? ls_doc_template(words->s, parts, 3 * n)
           : f->field->no_setbacks.yes ? W(", no setbacks needed")
                                       : W(", no setbacks given");
}

/* The same in sentences. */
static void basis_words(ls_doc_group *g, const ls_dossier *d, const ls_dossier_field *f) {
    const ls_field *field = f->field;
    const ls_soil *soil = field->soil;
    const ls_phosphorus *ph = field->phosphorus;
    ls_arena *a = d->arena;
    bool rated = ph != NULL && LS_GIVEN(ph->rating), opens = ls_field_opens(field);
    SAY(g, LS_FIRST, "Crop: {}{}{}{}{}. {}, {} to spread{}.{}{} Limit {}: {}. Phosphorus rating: {}{}{}{}.{}",
        W(field->crop.text), OPTIONAL(", {} expected", given(a, &field->yield)),
        OPTIONAL(", {} got", given(a, &field->yield_got)), OPTIONAL(", planted {}", GIVEN_DAY(field->planted)),
        OPTIONAL(", harvested {}", GIVEN_DAY(field->harvested)), F(f->rates->area, "ac"), F(f->rates->spreadable, "ac"),
        setbacks(g, f), OPTIONAL(" Open {}", DAY(opens ? field->allowed.from : LS_NO_DATE)),
        OPTIONAL(opens ? " to {}." : " Open until {}.", DAY(field->allowed.to)),
        F(f->least == NULL ? LS_NO_LINE : f->least->lowest, "ton/ac"), ls_dossier_limit_from(d, f, true),
        W(rated ? ls_rating_name(ph->rating.is) : "none given"),
        OPTIONAL(", by {}", W(rated ? ph->rated_by.text : NULL)),
        OPTIONAL(", {}", rated ? GIVEN_DAY(ph->date) : W(NULL)),
        W(f->rates->phosphate_left == LS_NO_LINE ? "; it sets no P2O5 limit" : ""),
        soil == NULL ? W("") : T(" Soil test: {}{}.", GIVEN_DAY(soil->date), OPTIONAL(", {}", W(soil->method.text))));
}

/* Limits that hold on some days only: how much, when, whose. */
static void caps(ls_doc_group *g, const ls_dossier *d, const ls_dossier_field *f) {
    LS_EACH_OF (const ls_field_cap, c, f->rates->caps, f->rates->caps_n) {
        const ls_window_cap *cap = c->cap;
        const char *of = LS_GIVEN(cap->most)             ? "litter"
                         : LS_GIVEN(cap->total_nitrogen) ? "total N"
                                                         : "plant-available N";
        if (c->applies)
            SAY(g, LS_FIRST, "Limit of a season: at most {} of {} from {} to {} (rule of {}, {}); on no other day.",
                F(c->figure, LS_GIVEN(cap->most) ? "ton/ac" : "lb/ac"), W(of), DAY(cap->between.days.from),
                DAY(cap->between.days.to), W(cap->rule.text), W(ls_dossier_at(d, cap->at)));
    }
}

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
                {"P2O5_limit_lb_per_ac", "lb/ac", f->rates->phosphate_litter},
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

/* ---- need, credits, limits, what went on ---- */

LS_DOC_COLUMNS(need_columns, WHOLE("what", NULL), IN("N_lb_per_ac", "usable N", "lb/ac"),
               IN("P2O5_lb_per_ac", "P2O5", "lb/ac"), IN("K2O_lb_per_ac", "K2O", "lb/ac"), WHOLE("from", "from"));

/* Where the first figure there is comes from: the place in the files, or the tables. */
static ls_doc_cell source(ls_doc_group *g, const ls_line lines[LS_FIELD_NUTRIENTS]) {
    const ls_view *v = g->document->view;
    int k = LS_FIELD_N;
    while (k < LS_FIELD_NUTRIENTS && lines[k] == LS_NO_LINE) k++;
    if (k == LS_FIELD_NUTRIENTS) return W(NULL);
    const ls_origin *origin = &ls_line_at(v->sheet, lines[k])->origin;
    const char *tables = ls_rates_sources(g, lines[k]);
    return W(origin->kind == LS_BY_FARM ? ls_diag_where(v->arena, v->farm->diag, origin->at)
             : tables[0] != '\0'        ? tables
                                        : ls_line_numbers(v->arena, v->sheet, lines[k]));
}

static void need_row(ls_doc_table t, const char *what, ls_line N, ls_line P2O5, ls_line K2O, ls_doc_cell from) {
    if (N != LS_NO_LINE || P2O5 != LS_NO_LINE || K2O != LS_NO_LINE)
        LS_DOC_ROW(t, need_columns, W(what), L(N), L(P2O5), L(K2O), from);
}

static void needs(ls_doc_group *g, const ls_dossier_field *f) {
    const ls_field_rates *r = f->rates;
    const ls_dossier_amounts *x = &f->actual, *y = &f->planned;
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "needs", NULL, need_columns);
    need_row(t, "need", r->need[LS_FIELD_N], r->need[LS_FIELD_P2O5], r->need[LS_FIELD_K2O], source(g, r->need));
    for (size_t i = 0; i < r->credit_n; i++) {
        const ls_line *gives = r->credit[i].gives;
        need_row(t, r->credit[i].name, gives[LS_FIELD_N], gives[LS_FIELD_P2O5], gives[LS_FIELD_K2O], source(g, gives));
    }
    if (r->credit_n > 0 || r->phosphate_left != LS_NO_LINE)
        need_row(t, "limit", r->left[LS_FIELD_N], r->phosphate_litter, LS_NO_LINE,
                 W(r->phosphate_left == LS_NO_LINE ? "need less credits"
                   : ls_dossier_bought(f)          ? "that; the rating less bought"
                                                   : "that; the rating"));
    need_row(t, "plan", y->available, y->on_acre[LS_FIELD_P2O5], y->on_acre[LS_FIELD_K2O], F(y->per_acre, "ton/ac"));
    need_row(t, "applied, acres covered", x->available, x->on_acre[LS_FIELD_P2O5], x->on_acre[LS_FIELD_K2O],
             F(x->per_acre, "ton/ac"));
}

/* ---- spreading ---- */

LS_DOC_COLUMNS(spread_columns, WORDS("entry", "entry"), WORDS("date", "day"), WORDS("lot", "litter of"),
               IN("tons", NULL, "ton"), IN("acres", NULL, "ac"), DATA("acres_logged"), IN("ton_per_ac", NULL, "ton/ac"),
               DATA_IN("rate_ton_per_ac", "ton/ac"), DATA_IN("available_N_lb_per_ac", "lb/ac"),
               DATA_IN("P2O5_lb_per_ac", "lb/ac"), DATA_IN("K2O_lb_per_ac", "lb/ac"),
               {.heading = "N-P-K", .unit = "lb/ac"}, HEAD("how spread"), DATA("weather_before"), DATA("weather"),
               DATA("weather_after"), DATA("soil"), DATA("incorporated"));

/* "on top, dry, clear, rain, moist": what the log has of it. Whether it was worked in the farm file
 * says where the log does not. */
static ls_doc_cell how(const ls_dossier *d, const ls_dossier_field *f, const ls_dossier_load *l) {
    static const ls_log_word words[] = {LS_LOG_INCORPORATED, LS_LOG_WEATHER_BEFORE, LS_LOG_WEATHER,
                                        LS_LOG_WEATHER_AFTER, LS_LOG_SOIL};
    const ls_delay *file = &f->field->incorporated;
    bool on_top_by_file = LS_GIVEN(*file) && file->days == LS_NEVER;
    ls_text *t = ls_text_new(d->arena);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        const char *said = l->entry == NULL ? "" : l->entry->words[words[i]];
        bool on_top =
            i == 0 && (l->hauled->tells_delay ? l->hauled->delay == LS_NEVER : said[0] == '\0' && on_top_by_file);
        if (on_top || said[0] != '\0') ls_text_addf(t, "%s%s", t->n > 0 ? ", " : "", on_top ? "on top" : said);
    }
    return W(t->n > 0 ? t->s : NULL);
}

static void spread(ls_doc_group *g, const ls_dossier *d, const ls_dossier_field *f) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "spread", NULL, spread_columns);
    LS_EACH (const ls_dossier_application, x, f->applications) {
        const ls_dossier_load *l = x->load;
        LS_DOC_ROW(
            t, spread_columns, LINK(N(l->hauled->log_entry), ls_dossier_entry_id(d, l->hauled->log_entry)),
            DAY(l->hauled->day), W(x->litter), BOOKED(x->tons, NULL), L(x->acres),
            W(l->hauled->drops[x->part].acres > 0 ? "yes" : "no"), L(x->per_acre), L(x->limit), L(x->available),
            L(x->phosphate), L(x->potash),
            T("{}-{}-{}", BARE(F(x->available, "lb/ac")), BARE(F(x->phosphate, "lb/ac")), BARE(F(x->potash, "lb/ac"))),
            how(d, f, l), ls_dossier_word(l, LS_LOG_WEATHER_BEFORE), ls_dossier_word(l, LS_LOG_WEATHER),
            ls_dossier_word(l, LS_LOG_WEATHER_AFTER), ls_dossier_word(l, LS_LOG_SOIL),
            ls_dossier_word(l, LS_LOG_INCORPORATED));
    }
}

/* ---- the waits ---- */

/* Days after the newest load until animals, or until harvest; was it kept, as far as is told? */
static ls_doc_cell wait(ls_doc_group *g, const ls_dossier_field *f, const char *what, const ls_interval *own,
                        const ls_day *came) {
    ls_date last = LS_NO_DATE;
    for (size_t i = 0; i < f->applications.n; i++) {
        ls_date day = f->applications.at[i].load->hauled->day;
        last = last == LS_NO_DATE || day > last ? day : last;
    }
    ls_date until = (ls_date)(last + own->days);
    return KEPT(g->document, " {} not before {}, {} after the last load, by {}{}.", W(what), DAY(until),
                F(own->line, "day"), own->given ? W("the farm file") : T("a published caution, {}", W(own->source)),
                !ls_day_known(*came) ? W("")
                : came->day < until  ? T("; NOT KEPT: {}", DAY(came->day))
                                     : T("; kept: {}", DAY(came->day)));
}

static ls_doc_cell waits(ls_doc_group *g, const ls_dossier_field *f) {
    const ls_earliest *e = &f->rates->earliest;
    bool grazing = e->grazing.line != LS_NO_LINE, harvest = e->harvest.line != LS_NO_LINE,
         cut = ls_day_known(f->field->harvested);
    if (!grazing && !harvest) return W(" The file asks no waits.");
    return KEPT(g->document, " Waits:{}{}", grazing ? wait(g, f, "animals", &e->grazing, &f->field->grazing) : W(""),
                harvest ? wait(g, f, "harvest", &e->harvest, cut ? &f->field->harvested : &f->field->harvest) : W(""));
}

/* What all loads come to, what of their P2O5 is left, and the waits. */
static void sums(ls_doc_group *g, const ls_dossier_field *f) {
    const ls_dossier_amounts *x = &f->actual;
    if (x->tons == LS_NO_LINE) return;
    SAY(g, LS_FIRST, "Together {} on {}: {} N in all, {} P2O5, {} K2O; plan: {}.{}{}{}{}{}", BOOKED(x->tons, "ton"),
        F(x->acres, "ac"), F(x->pounds[LS_FIELD_N], "lb"), F(x->pounds[LS_FIELD_P2O5], "lb"),
        F(x->pounds[LS_FIELD_K2O], "lb"), f->planned.tons == LS_NO_LINE ? W("none") : BOOKED(f->planned.tons, "ton"),
        OPTIONAL(" P2O5 by the whole field: {}", F(f->ledger_on, "lb/ac")),
        OPTIONAL("; the crop takes {}", F(f->ledger_removed, "lb/ac")),
        OPTIONAL(LS_GIVEN(f->field->yield_got) ? " by yield got; left {}" : " by yield expected; left {}",
                 F(f->ledger_after, "lb/ac")),
        W(f->ledger_after == LS_NO_LINE ? ""
          : ls_dossier_bought(f)        ? ", bought fertilizer counted."
                                        : "."),
        waits(g, f));
}

LS_DOC_COLUMNS(ledger_columns, DATA("buyer"), DATA("field"), WORDS("year", "crop of"),
               IN("P2O5_on_lb_per_ac", "P2O5 applied", "lb/ac"), IN("removed_lb_per_ac", "removed", "lb/ac"),
               IN("left_lb_per_ac", "left", "lb/ac"), IN("file_says_lb_per_ac", "by this file", "lb/ac"),
               IN("logs_say_lb_per_ac", "by the logs", "lb/ac"), WORDS("figures_of", "earlier files"),
               WORDS("note", "note"));

/* On the field's sheet only where there are years before. */
static void ledger(ls_doc_group *g, ls_doc_level level, ls_doc_table t, const ls_dossier_field *f) {
    const char *buyer = f->buyer->name.text, *field = f->field->name.text;
    for (size_t k = 0; k < f->rates->ledger_n; k++) {
        const ls_field_ledger *y = &f->rates->ledger[k];
        LS_DOC_GRID_ROW(t, ledger_columns, level, NULL, W(buyer), W(field),
                        W(ls_arena_printf(g->document->arena, "%d", y->year)), L(y->on), L(y->removed), L(y->balance),
                        L(y->told), L(y->logged), W(y->from), W(y->took));
    }
    if (f->ledger_after != LS_NO_LINE)
        LS_DOC_GRID_ROW(t, ledger_columns, level, NULL, W(buyer), W(field), W("this litter"), L(f->ledger_on),
                        L(f->ledger_removed), L(f->ledger_after), L(LS_NO_LINE), L(LS_NO_LINE), W(NULL),
                        W(ls_dossier_bought(f) ? "left counts bought fertilizer too" : NULL));
}

static const ls_doc_column join_columns[] = {WORDS("note", NULL)};

/* All fields' years in one table, for other programs; and what stands in none. */
static void ledgers(ls_doc_group *top, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(top, LS_DATA, "ledger", NULL, ledger_columns);
    for (size_t i = 0; i < d->fields.n; i++) ledger(top, LS_DATA, t, &d->fields.at[i]);
    ls_doc_table joins = LS_DOC_TABLE_IN(top, LS_FULL, "joins", "Earlier files", join_columns);
    ls_doc_as_items(joins);
    for (size_t i = 0; i < d->joins.n; i++) LS_DOC_ROW(joins, join_columns, W(d->joins.at[i]));
}

/* ---- all of a field ---- */

static void notes(ls_doc_group *g, const ls_dossier *d, const ls_dossier_field *f) {
    ls_text *t = ls_text_new(g->document->arena);
    for (size_t i = 0; i < f->rates->flags.n; i++)
        ls_text_addf(t, "%s%s.", i > 0 ? " " : "", ls_dossier_sentence(d, f->rates->flags.at[i]));
    if (t->n > 0) SAY(g, LS_FIRST, t->s);
    ls_doc_texts(g, LS_DATA, "notes", NULL, f->rates->flags.at, f->rates->flags.n);
}

static void one_field(ls_doc_group *list, const ls_dossier *d, size_t i) {
    const ls_dossier_field *f = &d->fields.at[i];
    ls_doc_group *g = ls_doc_object(list, LS_FIRST, NULL, ls_dossier_field_title(d, i));
    ls_doc_name_block(list, ls_dossier_field_id(d, i));
    MEMBERS(g, {"buyer", W(f->buyer->name.text)}, {"field", W(f->field->name.text)},
            {"own", W(f->buyer->own.yes ? "yes" : "no")});
    basis(g, f);
    basis_words(g, d, f);
    caps(g, d, f);
    amounts(g, f);
    needs(g, f);
    ls_doc_picture(g, LS_FIRST, NULL, "Full bar: applied. Hatched bar: the limit.",
                   ls_dossier_chart_field(list->document, f, i), NULL);
    spread(g, d, f);
    sums(g, f);
    ledger(g, f->rates->ledger_n > 0 ? LS_FIRST : LS_DATA,
           LS_DOC_TABLE_IN(g, LS_FIRST, "years", "Phosphorus ledger, per acre of the whole field", ledger_columns), f);
    notes(g, d, f);
}

void ls_dossier_put_fields(ls_doc_group *top, const ls_dossier *d) {
    ls_doc_group *list = ls_doc_list(top, LS_FIRST, "fields", "Fields");
    for (size_t i = 0; i < d->fields.n; i++) one_field(list, d, i);
    ledgers(top, d);
}
