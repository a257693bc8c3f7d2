#include "tables.h"

#include "paper.h"

#include <string.h>

#define COUNT(x) (sizeof(x) / sizeof *(x))
#define W(s) ((ls_dossier_cell){.words = (s), .line = LS_NO_LINE, .empty = (s) == NULL})
#define L(x) ((ls_dossier_cell){.line = (x), .empty = (x) == LS_NO_LINE})
#define N(x) ((ls_dossier_cell){.count = (long)(x), .line = LS_NO_LINE, .is_count = true})
#define ROW(d, t, ...) push((d), (t), (const ls_dossier_cell[]){__VA_ARGS__})

static void push(const ls_dossier *d, ls_dossier_table *t, const ls_dossier_cell *cells) {
    ls_dossier_cell *row = LS_NEW(d->arena, ls_dossier_cell, t->n);
    memcpy(row, cells, t->n * sizeof *row);
    *LS_PUSH(d->arena, &t->rows) = row;
}

static const char *iso(const ls_dossier *d, ls_date day) {
    return day == LS_NO_DATE ? NULL : ls_date_iso(d->arena, day);
}

static const ls_dossier_column balance_columns[] = {{"way", NULL}, {"tons", "ton"}};
static void balance(const ls_dossier *d, ls_dossier_table *t) {
    const ls_dossier_balance *b = &d->balance;
    ROW(d, t, W("made"), L(b->made));
    ROW(d, t, W("own"), L(b->own));
    ROW(d, t, W("moved"), L(b->moved));
    ROW(d, t, W("stacked"), L(b->stacked));
    ROW(d, t, W("left"), L(b->left));
    ROW(d, t, W("difference"), L(b->difference));
    ROW(d, t, W("estimate low"), L(b->before[0]));
    ROW(d, t, W("estimate middle"), L(b->before[1]));
    ROW(d, t, W("estimate high"), L(b->before[2]));
}

static const ls_dossier_column lot_columns[] = {{"lot", NULL},
                                                {"made_tons", "ton"},
                                                {"gone_tons", "ton"},
                                                {"left_tons", "ton"},
                                                {"N_lb_per_ton", "lb/ton"},
                                                {"P2O5_lb_per_ton", "lb/ton"},
                                                {"K2O_lb_per_ton", "lb/ton"},
                                                {"laboratory", NULL},
                                                {"report_date", NULL},
                                                {"cleared", NULL}};
static void lots(const ls_dossier *d, ls_dossier_table *t) {
    for (size_t i = 0; i < d->estimate->n; i++) {
        const ls_lot *l = &d->estimate->lots[i];
        const ls_lab *lab = l->analysis->report;
        ROW(d, t, W(l->name), L(l->made.line != LS_NO_LINE ? l->made.line : l->tons.line),
            L(l->gone), L(l->tons.line), L(l->per_ton[LS_N].line), L(l->per_ton[LS_P2O5].line),
            L(l->per_ton[LS_K2O].line), W(lab == NULL ? NULL : lab->by.text),
            W(lab == NULL ? NULL : iso(d, lab->date.day)), W(l->empty ? "yes" : "no"));
    }
}

static const char *given(const ls_quantity *q) {
    return LS_GIVEN(*q) ? q->text : NULL;
}

static const char *day(const ls_dossier *d, const ls_day *at) {
    return LS_GIVEN(*at) ? iso(d, at->day) : NULL;
}

static const ls_dossier_column field_columns[] = {{"buyer", NULL},
                                                  {"field", NULL},
                                                  {"own", NULL},
                                                  {"area_ac", "ac"},
                                                  {"spreadable_ac", "ac"},
                                                  {"crop", NULL},
                                                  {"loads", NULL},
                                                  {"planned_tons", "ton"},
                                                  {"tons", "ton"},
                                                  {"ton_per_ac", "ton/ac"},
                                                  {"rate_ton_per_ac", "ton/ac"},
                                                  {"N_lb", "lb"},
                                                  {"P2O5_lb", "lb"},
                                                  {"K2O_lb", "lb"},
                                                  {"N_lb_per_ac", "lb/ac"},
                                                  {"available_N_lb_per_ac", "lb/ac"},
                                                  {"N_limit_lb_per_ac", "lb/ac"},
                                                  {"P2O5_lb_per_ac", "lb/ac"},
                                                  {"P2O5_limit_lb_per_ac", "lb/ac"},
                                                  {"K2O_lb_per_ac", "lb/ac"},
                                                  {"P2O5_left_lb_per_ac", "lb/ac"},
                                                  {"planned_N_lb_per_ac", "lb/ac"},
                                                  {"planned_available_N_lb_per_ac", "lb/ac"},
                                                  {"planned_P2O5_lb_per_ac", "lb/ac"},
                                                  {"planned_K2O_lb_per_ac", "lb/ac"},
                                                  {"yield", NULL},
                                                  {"yield_got", NULL},
                                                  {"planted", NULL},
                                                  {"harvested", NULL},
                                                  {"soil_test", NULL}};
static void fields(const ls_dossier *d, ls_dossier_table *t) {
    for (size_t i = 0; i < d->fields.n; i++) {
        const ls_dossier_field *f = &d->fields.at[i];
        ROW(d, t, W(f->buyer->name.text), W(f->field->name.text),
            W(f->buyer->own.yes ? "yes" : "no"), L(f->rates->area), L(f->rates->spreadable),
            W(f->field->crop.text), N(f->loads), L(f->planned.tons), L(f->actual.tons),
            L(f->actual.per_acre), L(f->rate != NULL ? f->rate->rate : LS_NO_LINE),
            L(f->actual.pounds[LS_FIELD_N]), L(f->actual.pounds[LS_FIELD_P2O5]),
            L(f->actual.pounds[LS_FIELD_K2O]), L(f->actual.on_acre[LS_FIELD_N]),
            L(f->actual.available), L(f->rates->left[LS_FIELD_N]),
            L(f->actual.on_acre[LS_FIELD_P2O5]), L(f->rates->phosphate_left),
            L(f->actual.on_acre[LS_FIELD_K2O]), L(f->ledger_after),
            L(f->planned.on_acre[LS_FIELD_N]), L(f->planned.available),
            L(f->planned.on_acre[LS_FIELD_P2O5]), L(f->planned.on_acre[LS_FIELD_K2O]),
            W(given(&f->field->yield)), W(given(&f->field->yield_got)),
            W(day(d, &f->field->planted)), W(day(d, &f->field->harvested)),
            W(f->field->soil == NULL ? NULL : day(d, &f->field->soil->date)));
    }
}

static const char *word(const ls_dossier_load *l, ls_log_word which) {
    return l->entry != NULL && l->entry->words[which][0] != '\0' ? l->entry->words[which] : NULL;
}

static const ls_dossier_column load_columns[] = {
    {"entry", NULL},         {"ticket", NULL},         {"lot", NULL},
    {"out_of", NULL},        {"date", NULL},           {"to", NULL},
    {"tons", "ton"},         {"weighed", NULL},        {"truck", NULL},
    {"driver", NULL},        {"weather_before", NULL}, {"weather", NULL},
    {"weather_after", NULL}, {"soil", NULL},           {"incorporated", NULL}};
static void loads(const ls_dossier *d, ls_dossier_table *t) {
    for (size_t i = 0; i < d->loads.n; i++) {
        const ls_dossier_load *l = &d->loads.at[i];
        ROW(d, t, N(l->hauled->log_entry), W(l->hauled->ticket), W(l->lot->name),
            W(l->hauled->from_stack ? "stack" : "house"), W(iso(d, l->hauled->day)),
            W(ls_dossier_place(d->arena, l)), L(l->tons), W(l->hauled->weighed ? "yes" : "no"),
            W(word(l, LS_LOG_TRUCK)), W(word(l, LS_LOG_DRIVER)), W(word(l, LS_LOG_WEATHER_BEFORE)),
            W(word(l, LS_LOG_WEATHER)), W(word(l, LS_LOG_WEATHER_AFTER)), W(word(l, LS_LOG_SOIL)),
            W(word(l, LS_LOG_INCORPORATED)));
    }
}

static const ls_dossier_column transfer_columns[] = {
    {"entry", NULL},    {"date", NULL},       {"ticket", NULL},        {"farm", NULL},
    {"permit", NULL},   {"hauler", NULL},     {"hauler_permit", NULL}, {"receiver", NULL},
    {"address", NULL},  {"field", NULL},      {"stream", NULL},        {"tons", "ton"},
    {"analysis", NULL}, {"received_by", NULL}};
static void transfers(const ls_dossier *d, ls_dossier_table *t) {
    const ls_farm_facts *facts = d->farm->facts;
    const ls_crew *crew = d->farm->crew;
    for (size_t i = 0; i < d->loads.n; i++) {
        const ls_dossier_load *l = &d->loads.at[i];
        for (size_t k = 0; k < l->n; k++) {
            const ls_buyer *b = l->drops[k].buyer;
            if (b == NULL || b->own.yes)
                continue;
            ROW(d, t, N(l->hauled->log_entry), W(iso(d, l->hauled->day)), W(l->hauled->ticket),
                W(facts == NULL ? NULL : facts->name.text),
                W(facts == NULL ? NULL : facts->permit.text),
                W(crew == NULL ? NULL : crew->hauler.text),
                W(crew == NULL ? NULL : crew->hauler_permit.text), W(b->name.text),
                W(b->address.text), W(l->drops[k].field->name.text), W(b->stream.text),
                L(l->drops[k].tons), W(word(l, LS_LOG_ANALYSIS)), W(word(l, LS_LOG_RECEIVED_BY)));
        }
    }
}

static const ls_dossier_column finding_columns[] = {
    {"item", NULL},     {"words", NULL}, {"of", NULL},   {"state", NULL}, {"required_by", NULL},
    {"required", NULL}, {"cite", NULL},  {"what", NULL}, {"where", NULL}, {"mend", NULL}};
static void findings(const ls_dossier *d, ls_dossier_table *t) {
    for (size_t i = 0; i < d->findings.n; i++) {
        const ls_dossier_finding *f = &d->findings.at[i];
        ROW(d, t, W(f->item), W(f->words), W(f->of), W(ls_dossier_found_words(f)),
            W(f->required_by), W(f->required ? "yes" : "no"), W(f->cite),
            W(ls_dossier_what(t->view, f)), W(f->where), W(f->mend));
    }
}

static const ls_dossier_column ledger_columns[] = {{"buyer", NULL},
                                                   {"field", NULL},
                                                   {"year", NULL},
                                                   {"P2O5_on_lb_per_ac", "lb/ac"},
                                                   {"removed_lb_per_ac", "lb/ac"},
                                                   {"left_lb_per_ac", "lb/ac"},
                                                   {"figures_of", NULL},
                                                   {"not_counted_lb_per_ac", "lb/ac"},
                                                   {"note", NULL}};
static void ledger(const ls_dossier *d, ls_dossier_table *t) {
    for (size_t i = 0; i < d->fields.n; i++) {
        const ls_dossier_field *f = &d->fields.at[i];
        for (size_t k = 0; k < f->ledger.n; k++) {
            const ls_dossier_ledger *y = &f->ledger.at[k];
            ROW(d, t, W(f->buyer->name.text), W(f->field->name.text),
                W(ls_arena_printf(d->arena, "%d", y->year)), L(y->on), L(y->removed), L(y->left),
                W(y->from), L(y->other), W(y->note));
        }
        if (f->ledger_after != LS_NO_LINE)
            ROW(d, t, W(f->buyer->name.text), W(f->field->name.text), W("this litter"),
                L(f->actual.on_acre[LS_FIELD_P2O5]), L(f->ledger_removed), L(f->ledger_after),
                W("this file"), L(LS_NO_LINE), W(NULL));
    }
}

static const ls_dossier_column year_columns[] = {
    {"loads", NULL},       {"birds", "bird"}, {"house_tons", "ton"}, {"own_tons", "ton"},
    {"moved_tons", "ton"}, {"plan_ac", "ac"}, {"used_ac", "ac"},     {"file", NULL}};
static void years(const ls_dossier *d, ls_dossier_table *t) {
    for (size_t i = 0; i < d->years.n; i++) {
        const ls_dossier_year *y = &d->years.at[i];
        ROW(d, t, W(y->name), L(y->birds), L(y->out), L(y->own), L(y->moved), L(y->acres),
            L(y->used), W(y->file));
    }
    const ls_dossier_months *m = &d->months;
    if (m->to != LS_NO_DATE)
        ROW(d, t,
            W(ls_arena_printf(d->arena, "12 months, %s to %s", ls_date_iso(d->arena, m->from),
                              ls_date_iso(d->arena, m->to))),
            L(m->housed), L(m->out), L(m->own), L(m->moved), L(m->acres), L(m->used),
            W("all files"));
}

static const ls_dossier_column month_columns[] = {
    {"what", NULL},   {"birds", NULL}, {"from", NULL},  {"to", NULL},   {"ends_at", NULL},
    {"bird", "bird"}, {"tons", "ton"}, {"acres", "ac"}, {"count", NULL}};
static void month(const ls_dossier *d, ls_dossier_table *t, const char *what, const char *birds,
                  ls_line line, int column) {
    const ls_dossier_months *m = &d->months;
    ROW(d, t, W(what), W(birds), W(iso(d, m->from)), W(iso(d, m->to)),
        W(m->by_option ? "day of printing" : "newest entry"), L(column == 0 ? line : LS_NO_LINE),
        L(column == 1 ? line : LS_NO_LINE), L(column == 2 ? line : LS_NO_LINE), W(NULL));
}
static void month_count(const ls_dossier *d, ls_dossier_table *t, const char *what, size_t n) {
    const ls_dossier_months *m = &d->months;
    ROW(d, t, W(what), W(NULL), W(iso(d, m->from)), W(iso(d, m->to)),
        W(m->by_option ? "day of printing" : "newest entry"), L(LS_NO_LINE), L(LS_NO_LINE),
        L(LS_NO_LINE), N(n));
}
static void months(const ls_dossier *d, ls_dossier_table *t) {
    const ls_dossier_months *m = &d->months;
    if (m->to == LS_NO_DATE)
        return;
    for (size_t i = 0; i < m->birds.n; i++) {
        month(d, t, "placed", m->birds.at[i].birds, m->birds.at[i].placed, 0);
        month(d, t, "in a house", m->birds.at[i].birds, m->birds.at[i].housed, 0);
    }
    month(d, t, "out of houses", NULL, m->out, 1);
    month(d, t, "in houses", NULL, m->in_houses, 1);
    month(d, t, "made", NULL, m->made, 1);
    month(d, t, "moved", NULL, m->moved, 1);
    month(d, t, "own fields", NULL, m->own, 1);
    month(d, t, "in the plan", NULL, m->acres, 2);
    month(d, t, "in the plan, own", NULL, m->own_acres, 2);
    month(d, t, "used", NULL, m->used, 2);
    month(d, t, "used, own", NULL, m->own_used, 2);
    month_count(d, t, "loads in two files", m->doubled);
    month_count(d, t, "flocks without a date", m->undated);
}

static const ls_dossier_column join_columns[] = {{"note", NULL}};
static void joins(const ls_dossier *d, ls_dossier_table *t) {
    for (size_t i = 0; i < d->joins.n; i++)
        ROW(d, t, W(d->joins.at[i]));
}

static const ls_dossier_column age_columns[] = {
    {"what", NULL},          {"of", NULL},     {"date", NULL}, {"on", NULL}, {"age_days", "day"},
    {"at_most_days", "day"}, {"too_old", NULL}};
static void ages(const ls_dossier *d, ls_dossier_table *t) {
    for (size_t i = 0; i < d->ages.n; i++) {
        const ls_dossier_age *x = &d->ages.at[i];
        ROW(d, t, W(x->what), W(x->of), W(iso(d, x->date)), W(iso(d, x->on)), L(x->age),
            L(x->limit), W(x->old ? "yes" : "no"));
    }
}

static const struct {
    const char *name;
    const ls_dossier_column *columns;
    size_t n;
    void (*fill)(const ls_dossier *d, ls_dossier_table *t);
} parts[] = {{"balance", balance_columns, COUNT(balance_columns), balance},
             {"lots", lot_columns, COUNT(lot_columns), lots},
             {"fields", field_columns, COUNT(field_columns), fields},
             {"transfers", transfer_columns, COUNT(transfer_columns), transfers},
             {"loads", load_columns, COUNT(load_columns), loads},
             {"ledger", ledger_columns, COUNT(ledger_columns), ledger},
             {"ages", age_columns, COUNT(age_columns), ages},
             {"years", year_columns, COUNT(year_columns), years},
             {"months", month_columns, COUNT(month_columns), months},
             {"joins", join_columns, COUNT(join_columns), joins},
             {"findings", finding_columns, COUNT(finding_columns), findings}};

const char *ls_report_dossier_part(size_t index) {
    return index < COUNT(parts) ? parts[index].name : NULL;
}

const ls_dossier_table *ls_dossier_table_of(const ls_view *v, const ls_dossier *d,
                                            const char *name) {
    for (size_t i = 0; i < COUNT(parts); i++) {
        if (strcmp(parts[i].name, name) != 0)
            continue;
        ls_dossier_table *t = LS_NEW(d->arena, ls_dossier_table, 1);
        *t = (ls_dossier_table){
            .name = name, .view = v, .n = parts[i].n, .columns = parts[i].columns};
        parts[i].fill(d, t);
        return t;
    }
    return NULL;
}
