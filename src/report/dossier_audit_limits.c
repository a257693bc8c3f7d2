/* Limits of the farm's own files that what was done passed. */
#include "dossier.h"

static ls_dossier_finding *passed(ls_dossier *d, const char *item, const char *of, ls_place rule,
                                  const char *where, const char *what) {
    ls_dossier_finding *f = ls_dossier_add(d, LS_ABOUT_LIMIT, item, of);
    f->found = LS_MISSING;
    f->what = what;
    f->where = where;
    if (rule.file >= 0 && rule.line > 0)
        f->cite =
            ls_arena_printf(d->view->arena, "the farm's own file, %s", ls_dossier_at(d, rule));
    f->mend = "if the log is wrong, correct the entry with --replaces; else tell the plan writer";
    return f;
}

static const char *figure(const ls_dossier *d, ls_line line, const char *unit) {
    ls_report_page p = {d->view, d->view->arena, NULL};
    return ls_report_line(&p, line, unit);
}

/* ---- each load ---- */

static void open_days(ls_dossier *d, const ls_dossier_load *load, const char *entry) {
    ls_arena *a = d->view->arena;
    for (size_t k = 0; k < load->n; k++) {
        const ls_field *f = load->drops[k].field;
        ls_date day = load->hauled->day;
        if (f == NULL || f->allowed.from == LS_NO_DATE ||
            (day >= f->allowed.from && day <= f->allowed.to))
            continue;
        passed(d, "spread outside the open days", ls_dossier_name(d->view, load->drops[k].buyer, f),
               f->open.at, entry,
               ls_arena_printf(a, "load %s was spread on %s; the field may be spread %s to %s",
                               load->hauled->ticket, ls_date_iso(a, day),
                               ls_date_iso(a, f->allowed.from), ls_date_iso(a, f->allowed.to)));
    }
}

static void working_day(ls_dossier *d, const ls_dossier_load *load, const char *entry) {
    const ls_crew *crew = d->view->farm->crew;
    ls_arena *a = d->view->arena;
    ls_date day = load->hauled->day;
    for (size_t i = 0; crew != NULL && i < crew->hold_days.n; i++)
        if (crew->hold_days.at[i].day == day)
            passed(d, "hauled on a hold day", load->hauled->ticket, crew->hold_days.at[i].at, entry,
                   ls_arena_printf(a, "%s is a hold day", ls_date_iso(a, day)));
    if (crew != NULL && (crew->days_off >> ls_date_weekday(day) & 1U) != 0)
        passed(d, "hauled on a day off", load->hauled->ticket, crew->at, entry,
               ls_arena_printf(a, "%s, a %s, is a day off", ls_date_iso(a, day),
                               ls_weekday_name(ls_date_weekday(day))));
}

static void each_load(ls_dossier *d) {
    for (size_t i = 0; i < d->loads.n; i++) {
        const ls_dossier_load *load = &d->loads.at[i];
        const char *entry = ls_arena_printf(d->view->arena, "entry %ld", load->hauled->log_entry);
        open_days(d, load, entry);
        working_day(d, load, entry);
        if (load->n == 0 && d->view->farm->buyers.n > 0)
            passed(d, "load of unknown place", load->hauled->ticket, LS_NOWHERE, entry,
                   "the log does not tell a field that the files know")
                ->mend = ls_arena_printf(d->view->arena,
                                         "littershed record FILE... --replaces %ld --field "
                                         "\"Buyer/Field\"",
                                         load->hauled->log_entry);
    }
}

/* ---- each field ---- */

static void too_much(ls_dossier *d, const ls_dossier_field *f, const char *item, ls_line on,
                     ls_line limit, const char *unit, const char *what) {
    passed(d, item, ls_dossier_name(d->view, f->buyer, f->field), f->field->at, "the haul log",
           ls_arena_printf(d->view->arena, "%s went on; %s is %s", figure(d, on, unit), what,
                           figure(d, limit, unit)));
}

static void each_field(ls_dossier *d) {
    for (size_t i = 0; i < d->fields.n; i++) {
        const ls_dossier_field *f = &d->fields.at[i];
        if (f->over_rate)
            too_much(d, f, "more litter than the rate", f->actual.per_acre, f->rate->rate, "ton/ac",
                     "the rate");
        if (f->over_nitrogen)
            too_much(d, f, "more nitrogen than the need", f->actual.available,
                     f->rates->left[LS_FIELD_N], "lb/ac",
                     "the need less credits, plant-available N,");
        if (f->over_phosphate)
            too_much(d, f, "more phosphate than the rating allows",
                     f->actual.on_acre[LS_FIELD_P2O5], f->rates->phosphate_left, "lb/ac",
                     "what the rating allows, P2O5,");
    }
}

/* ---- what was too old ---- */

static void each_age(ls_dossier *d) {
    ls_arena *a = d->view->arena;
    for (size_t i = 0; i < d->ages.n; i++) {
        const ls_dossier_age *x = &d->ages.at[i];
        if (!x->old)
            continue;
        ls_dossier_finding *f = passed(
            d, x->item, x->of, x->own != NULL ? *x->own : LS_NOWHERE, ls_dossier_at(d, x->at),
            ls_arena_printf(a, "of %s, %s old on %s; at most %s", ls_date_iso(a, x->date),
                            figure(d, x->age, "day"), ls_date_iso(a, x->on),
                            figure(d, x->limit, "day")));
        f->required = x->own != NULL;
        if (x->own == NULL)
            f->cite = "usual age, common practice";
        f->mend = "renew it before the next spreading";
    }
}

/* ---- the stack ---- */

/* First in, first out: the longest any ton lay in it. */
static void stack_time(ls_dossier *d) {
    double in = 0, out = 0;
    ls_date first = LS_NO_DATE, last = LS_NO_DATE, out_day = LS_NO_DATE;
    for (size_t i = 0; i < d->loads.n; i++) {
        const ls_dossier_load *load = &d->loads.at[i];
        ls_date day = load->hauled->day;
        last = last == LS_NO_DATE || day > last ? day : last;
        for (size_t k = 0; k < load->n; k++)
            if (load->drops[k].buyer == NULL) {
                in += load->hauled->tons;
                first = first == LS_NO_DATE || day < first ? day : first;
            }
        if (load->hauled->from_stack) {
            out += load->hauled->tons;
            out_day = out_day == LS_NO_DATE || day > out_day ? day : out_day;
        }
    }
    d->stack_days = LS_NO_LINE;
    if (first == LS_NO_DATE)
        return;
    d->stack_empty = out >= in - 1;
    d->stack_first = first;
    if (d->terms.printed != LS_NO_DATE && d->terms.printed > last)
        last = d->terms.printed;
    d->stack_last = d->stack_empty ? out_day : last;
    d->stack_days = ls_leaf_exact(
        d->view->sheet, "dossier.stack-days", "from the first load into the stack to the last day",
        "day", (double)(d->stack_last - first) * ls_unit_of("day").factor, LS_BY_LOG,
        ls_arena_printf(d->view->arena, "%s to %s", ls_date_iso(d->view->arena, first),
                        ls_date_iso(d->view->arena, d->stack_last)));
}

static void stack_limits(ls_dossier *d) {
    const ls_stack *s = d->view->farm->stack;
    ls_arena *a = d->view->arena;
    stack_time(d);
    if (s == NULL || d->stack_days == LS_NO_LINE)
        return;
    if (LS_GIVEN(s->most_days) && ls_line_value(d->view->sheet, d->stack_days) > s->most_days.value)
        passed(d, "longer in the stack than allowed", "the stack", s->most_days.at, "the haul log",
               ls_arena_printf(a, "%s from the first load in to %s; at most %s",
                               figure(d, d->stack_days, "day"), ls_date_iso(a, d->stack_last),
                               s->most_days.text));
    if (d->stack_last > s->kept_until.day)
        passed(d, "in the stack past its last day", "the stack", s->kept_until.at, "the haul log",
               ls_arena_printf(a, "litter was in it on %s; it may be kept until %s",
                               ls_date_iso(a, d->stack_last), ls_date_iso(a, s->kept_until.day)));
}

void ls_dossier_audit_limits(ls_dossier *d) {
    each_field(d);
    each_load(d);
    each_age(d);
    stack_limits(d);
}
