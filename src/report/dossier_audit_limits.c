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

static const char *mend_day(const ls_dossier *d, const ls_dossier_load *load) {
    return ls_arena_printf(d->view->arena,
                           "if the log has the wrong day: littershed record FILE... --replaces %ld "
                           "--when YEAR-MONTH-DAY; else tell the plan writer",
                           load->hauled->log_entry);
}

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
                               ls_date_iso(a, f->allowed.from), ls_date_iso(a, f->allowed.to)))
            ->mend = mend_day(d, load);
    }
}

static void working_day(ls_dossier *d, const ls_dossier_load *load, const char *entry) {
    const ls_crew *crew = d->view->farm->crew;
    ls_arena *a = d->view->arena;
    ls_date day = load->hauled->day;
    for (size_t i = 0; crew != NULL && i < crew->hold_days.n; i++)
        if (crew->hold_days.at[i].day == day)
            passed(d, "hauled on a hold day", load->hauled->ticket, crew->hold_days.at[i].at, entry,
                   ls_arena_printf(a, "%s is a hold day", ls_date_iso(a, day)))
                ->mend = mend_day(d, load);
    if (crew != NULL && (crew->days_off >> ls_date_weekday(day) & 1U) != 0)
        passed(d, "hauled on a day off", load->hauled->ticket, crew->at, entry,
               ls_arena_printf(a, "%s, a %s, is a day off", ls_date_iso(a, day),
                               ls_weekday_name(ls_date_weekday(day))))
            ->mend = mend_day(d, load);
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

/* "entry 1, 2, 6" */
static const char *entries_on(const ls_dossier *d, const ls_field *field) {
    ls_text *t = ls_text_new(d->view->arena);
    for (size_t i = 0; i < d->loads.n; i++) {
        bool on = false;
        for (size_t k = 0; k < d->loads.at[i].n; k++)
            on = on || d->loads.at[i].drops[k].field == field;
        if (on)
            ls_text_addf(t, "%s%ld", t->n == 0 ? "entry " : ", ", d->loads.at[i].hauled->log_entry);
    }
    return t->s;
}

static void too_much(ls_dossier *d, const ls_dossier_field *f, const char *item, ls_line on,
                     ls_line limit, const char *unit, const char *what) {
    passed(d, item, ls_dossier_name(d->view, f->buyer, f->field), f->field->at,
           entries_on(d, f->field),
           ls_arena_printf(d->view->arena, "%s went on; %s is %s", figure(d, on, unit), what,
                           figure(d, limit, unit)));
}

static const char *first_load(const ls_dossier *d, const ls_field *field, ls_date *day) {
    const char *ticket = NULL;
    *day = LS_NO_DATE;
    for (size_t i = 0; i < d->loads.n; i++)
        for (size_t k = 0; k < d->loads.at[i].n; k++)
            if (d->loads.at[i].drops[k].field == field &&
                (*day == LS_NO_DATE || d->loads.at[i].hauled->day < *day)) {
                *day = d->loads.at[i].hauled->day;
                ticket = d->loads.at[i].hauled->ticket;
            }
    return ticket;
}

/* A test older on the day of the first load than the files (else practice) allow. */
static void old_test(ls_dossier *d, const char *item, const char *of, const ls_day *test,
                     ls_date first, const ls_quantity *own, const char *usual) {
    ls_arena *a = d->view->arena;
    if (first == LS_NO_DATE || !LS_GIVEN(*test))
        return;
    bool given = own != NULL && LS_GIVEN(*own);
    double most =
        given ? own->value
              : ls_reference_need(d->view->reference, "practice", "", usual, "value")->value;
    if ((double)(first - test->day) * ls_unit_of("day").factor <=
        most + 1.01 * ls_unit_of("day").factor)
        return;
    ls_dossier_finding *f =
        passed(d, item, of, given ? own->at : LS_NOWHERE, ls_dossier_at(d, test->at),
               ls_arena_printf(a, "of %s; the first load went on %s", ls_date_iso(a, test->day),
                               ls_date_iso(a, first)));
    if (!given)
        f->cite = "usual age; the farm file gives no limit (ages)";
    f->required = given;
    f->mend = "test again before the next spreading, or give the plan's own limit under ages";
}

static void each_field(ls_dossier *d) {
    const ls_ages *ages = d->view->farm->ages;
    for (size_t i = 0; i < d->fields.n; i++) {
        const ls_dossier_field *f = &d->fields.at[i];
        const char *of = ls_dossier_name(d->view, f->buyer, f->field);
        ls_date first;
        if (f->over_rate)
            too_much(d, f, "more litter than the rate", f->per_acre, f->rate->rate, "ton/ac",
                     "the rate");
        if (f->over_nitrogen)
            too_much(d, f, "more nitrogen than the need", f->available, f->rates->left[LS_FIELD_N],
                     "lb/ac", "the need less credits, plant-available N,");
        if (f->over_phosphate)
            too_much(d, f, "more phosphate than the rating allows", f->on_acre[LS_FIELD_P2O5],
                     f->rates->phosphate_left, "lb/ac", "what the rating allows, P2O5,");
        if (first_load(d, f->field, &first) != NULL && f->field->soil != NULL)
            old_test(d, "old soil test", of, &f->field->soil->date, first,
                     ages == NULL ? NULL : &ages->soil, "soil test age");
    }
}

static void each_lot(ls_dossier *d) {
    const ls_ages *ages = d->view->farm->ages;
    for (size_t i = 0; i < d->terms.estimate->n; i++) {
        const ls_lot *lot = &d->terms.estimate->lots[i];
        ls_date first = LS_NO_DATE;
        for (size_t k = 0; k < d->loads.n; k++)
            if (d->loads.at[k].lot == lot &&
                (first == LS_NO_DATE || d->loads.at[k].hauled->day < first))
                first = d->loads.at[k].hauled->day;
        if (lot->analysis->report != NULL)
            old_test(d, "old litter analysis", lot->name, &lot->analysis->report->date, first,
                     ages == NULL ? NULL : &ages->litter, "analysis age");
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
    each_lot(d);
    stack_limits(d);
}
