/* Limits of the farm's own files that what was done passed. */
#include "room.h"

static ls_dossier_finding *passed(ls_dossier *d, const char *item, const char *of, ls_place rule,
                                  const char *where, const char *what) {
    ls_dossier_finding *f = ls_dossier_add(d, LS_ABOUT_LIMIT, item, of);
    f->found = LS_MISSING;
    f->what = what;
    f->where = where;
    if (rule.file >= 0 && rule.line > 0)
        f->cite = ls_arena_printf(d->arena, "the farm's own file, %s", ls_dossier_at(d, rule));
    f->mend =
        "if the log is wrong, correct the entry with --replaces. If not, call the plan writer";
    return f;
}

/* By one load, of a field (NULL: of none). */
static ls_dossier_finding *by_load(ls_dossier *d, const char *item, const ls_dossier_load *load,
                                   const char *field, ls_place rule, const char *what) {
    long number = load->hauled->log_entry;
    ls_dossier_finding *f =
        passed(d, item, field != NULL ? field : load->hauled->ticket, rule, "", what);
    f->field = field;
    ls_dossier_about_entry(d, f, number);
    f->where = ls_dossier_entries(d, f);
    ls_dossier_tell_apart(d, f, f->where);
    return f;
}

static const char *day_words(const ls_dossier *d, ls_date day) {
    return ls_date_words(d->arena, day, ls_farm_year(d->farm));
}

/* The figures of what was passed. */
static void figures(ls_dossier_finding *f, ls_line one, ls_line other, const char *unit) {
    f->figures[0].line = one, f->figures[1].line = other;
    f->figures[0].unit = f->figures[1].unit = unit;
}

/* ---- each load ---- */

static const char *mend_day(const ls_dossier *d, const ls_dossier_load *load) {
    return ls_arena_printf(d->arena,
                           "if the log has the wrong day: littershed record FILE... --replaces %ld "
                           "--when YEAR-MONTH-DAY. If not, call the plan writer",
                           load->hauled->log_entry);
}

static void open_days(ls_dossier *d, const ls_dossier_load *load) {
    ls_arena *a = d->arena;
    for (size_t k = 0; k < load->n; k++) {
        const ls_field *f = load->drops[k].field;
        ls_date day = load->hauled->day;
        if (f == NULL || ls_field_allows(f, day))
            continue;
        by_load(d, "spread outside the open days", load,
                ls_dossier_name(d->arena, load->drops[k].buyer, f), f->open.at,
                ls_arena_printf(a, "load %s was spread on %s; the field may be spread %s to %s",
                                load->hauled->ticket, day_words(d, day),
                                day_words(d, f->allowed.from), day_words(d, f->allowed.to)))
            ->mend = mend_day(d, load);
    }
}

static void working_day(ls_dossier *d, const ls_dossier_load *load) {
    const ls_crew *crew = d->farm->crew;
    ls_arena *a = d->arena;
    ls_date day = load->hauled->day;
    for (size_t i = 0; crew != NULL && i < crew->hold_days.n; i++)
        if (crew->hold_days.at[i].day == day && ls_hold_whole(&crew->hold_days.at[i]))
            by_load(d, "hauled on a hold day", load, NULL, crew->hold_days.at[i].at,
                    ls_arena_printf(a, "%s is a hold day", day_words(d, day)))
                ->mend = mend_day(d, load);
    if (crew != NULL && (crew->days_off >> ls_date_weekday(day) & 1U) != 0)
        by_load(d, "hauled on a day off", load, NULL, crew->at,
                ls_arena_printf(a, "%s, a %s, is a day off", day_words(d, day),
                                ls_weekdays[ls_date_weekday(day)]))
            ->mend = mend_day(d, load);
}

static void each_load(ls_dossier *d) {
    for (size_t i = 0; i < d->loads.n; i++) {
        const ls_dossier_load *load = &d->loads.at[i];
        open_days(d, load);
        working_day(d, load);
        if (load->n == 0 && d->farm->buyers.n > 0)
            by_load(d, "load of unknown place", load, NULL, LS_NOWHERE,
                    "the log names no field of these files")
                ->mend = ls_arena_printf(d->arena,
                                         "littershed record FILE... --replaces %ld --field "
                                         "\"Buyer/Field\"",
                                         load->hauled->log_entry);
    }
}

/* ---- each field ---- */

/* Whose a limit is: a place in the farm's files; else published, and then a caution only. */
typedef struct {
    ls_place at;
    const char *published; /* NULL: the farm's own */
} ruler;

static ruler nitrogen_ruler(const ls_field *field) {
    return LS_GIVEN(field->nitrogen) ? (ruler){field->nitrogen.at, NULL}
                                     : (ruler){field->at, "the crop table"};
}

/* While phosphate of earlier years is not taken up none may go on: not the farm's own rule. */
static ruler phosphate_ruler(const ls_dossier *d, const ls_dossier_field *f) {
    const ls_worksheet *w = d->books->sheet;
    bool banked = f->rates->banked != LS_NO_LINE && ls_line_value(w, f->rates->banked) > 0;
    ls_place at = f->field->phosphorus != NULL ? f->field->phosphorus->at : f->field->at;
    return (ruler){at, banked ? "40 CFR 412.4(b)(3), from memory" : NULL};
}

static ruler rate_ruler(const ls_dossier *d, const ls_dossier_field *f) {
    const ls_field *field = f->field;
    switch (f->rate->limit) {
    case LS_LIMIT_CAP:
        if (LS_GIVEN(field->most))
            return (ruler){field->most.at, NULL};
        return (ruler){field->at, "aces-889, the top of the published range for litter"};
    case LS_LIMIT_NITROGEN:
        return nitrogen_ruler(field);
    case LS_LIMIT_PHOSPHORUS:
    case LS_LIMIT_CLOSED:
        return phosphate_ruler(d, f);
    case LS_LIMIT_SPREADER:
        return (ruler){d->farm->trucks.n > 0 ? d->farm->trucks.at[0].at : field->at, NULL};
    default:
        return (ruler){field->at, NULL};
    }
}

static void too_much(ls_dossier *d, const ls_dossier_field *f, const char *item, ls_line on,
                     ls_line limit, const char *unit, const char *what, ruler by) {
    const char *name = ls_dossier_name(d->arena, f->buyer, f->field);
    ls_dossier_finding *x =
        passed(d, item, name, by.at, "",
               ls_arena_printf(d->arena, LS_FIGURE " applied; %s is " LS_FIGURE, what));
    x->field = name;
    for (size_t i = 0; i < d->loads.n; i++)
        if (ls_dossier_on(&d->loads.at[i], f->field))
            ls_dossier_about_entry(d, x, d->loads.at[i].hauled->log_entry);
    x->where = ls_dossier_entries(d, x);
    figures(x, on, limit, unit);
    if (by.published != NULL) {
        x->cite = by.published;
        x->required = false;
    }
}

static void each_field(ls_dossier *d) {
    for (size_t i = 0; i < d->fields.n; i++) {
        const ls_dossier_field *f = &d->fields.at[i];
        if (f->over_rate)
            too_much(d, f, "more litter than the rate", f->actual.per_acre, f->rate->rate, "ton/ac",
                     "the rate", rate_ruler(d, f));
        if (f->over_nitrogen)
            too_much(d, f, "more nitrogen than the need", f->actual.available,
                     f->rates->left[LS_FIELD_N], "lb/ac",
                     "the need less credits, plant-available N,", nitrogen_ruler(f->field));
        if (f->over_phosphate)
            too_much(d, f, "more phosphate than the rating allows",
                     f->actual.on_acre[LS_FIELD_P2O5], f->rates->phosphate_left, "lb/ac",
                     "what the rating allows, P2O5,", phosphate_ruler(d, f));
    }
}

/* ---- harvest and grazing too soon ---- */

static bool before(const ls_interval *wait, const ls_day *day) {
    return wait->days > 0 && !wait->in_case && day->day < wait->day;
}

/* Against the plan's limit, then against the cautions. */
static void too_soon(ls_dossier *d, const ls_dossier_field *f, const char *item, const char *what,
                     const ls_day *day, const ls_interval *const waits[],
                     const ls_dossier_load *load) {
    ls_arena *a = d->arena;
    ls_date spread = load->hauled->day;
    const ls_interval *wait = NULL;
    for (size_t i = 0; wait == NULL && waits[i] != NULL; i++)
        wait = before(waits[i], day) ? waits[i] : NULL;
    if (!LS_GIVEN(*day) || wait == NULL || day->day < spread)
        return;
    ls_dossier_finding *x = by_load(
        d, item, load, ls_dossier_name(a, f->buyer, f->field), f->field->at,
        ls_arena_printf(a, "spread on %s, %s on %s; not before %s (%ld days)", day_words(d, spread),
                        what, day_words(d, day->day), day_words(d, wait->day), wait->days));
    x->where = ls_dossier_at(d, day->at);
    if (!wait->given) {
        x->cite = wait->source;
        x->required = false;
    }
}

static void each_wait_after(ls_dossier *d, const ls_dossier_field *f, const ls_dossier_load *load) {
    const ls_field *field = f->field;
    ls_earliest e = ls_agronomy_earliest(d->books->reference, field, load->hauled->day);
    too_soon(d, f, "harvested too soon", "harvested", &field->harvested,
             (const ls_interval *[]){&e.harvest, &e.organic_on_soil, &e.organic_off_soil, NULL},
             load);
    too_soon(d, f, "grazed too soon", "grazed", &field->grazing,
             (const ls_interval *[]){&e.grazing, &e.cattle, NULL}, load);
}

/* After the newest load before that day. */
static void each_wait(ls_dossier *d) {
    for (size_t i = 0; i < d->fields.n; i++)
        for (size_t k = 0; k < d->loads.n; k++)
            for (size_t n = 0; n < d->loads.at[k].n; n++)
                if (d->loads.at[k].drops[n].field == d->fields.at[i].field)
                    each_wait_after(d, &d->fields.at[i], &d->loads.at[k]);
}

/* ---- what was too old ---- */

static void dated_late(ls_dossier *d, const ls_dossier_age *x) {
    ls_arena *a = d->arena;
    ls_dossier_finding *f =
        passed(d, "dated after litter went out", x->of, LS_NOWHERE, ls_dossier_at(d, x->at),
               ls_arena_printf(a, "the %s is of %s; litter went out by it before that day", x->what,
                               day_words(d, x->date)));
    ls_dossier_tell_apart(d, f, x->what);
    f->required = false;
    f->cite = "common practice";
    f->mend = "if the date is wrong, correct it in the farm file. If not, keep the one before it "
              "with the records";
}

static void each_age(ls_dossier *d) {
    ls_arena *a = d->arena;
    for (size_t i = 0; i < d->ages.n; i++) {
        const ls_dossier_age *x = &d->ages.at[i];
        if (x->late)
            dated_late(d, x);
        if (!x->old)
            continue;
        ls_dossier_finding *f = passed(
            d, x->item, x->of, x->own != NULL ? *x->own : LS_NOWHERE, ls_dossier_at(d, x->at),
            ls_arena_printf(a, "of %s, " LS_FIGURE " old on %s; at most " LS_FIGURE,
                            day_words(d, x->date), day_words(d, x->on)));
        figures(f, x->age, x->limit, "day");
        f->required = x->own != NULL;
        if (x->own == NULL)
            f->cite = "usual age, common practice";
        f->mend = "renew it before the next spreading";
    }
}

/* ---- the stack ---- */

static void stack_limits(ls_dossier *d) {
    const ls_stack *s = d->farm->stack;
    const ls_dossier_stack *x = &d->stack;
    ls_arena *a = d->arena;
    if (ls_line_value(d->books->sheet, d->balance.stacked) < -ls_unit_of("lb").factor)
        figures(passed(d, "more out of the stack than went in", "the stack", LS_NOWHERE,
                       "the haul log", LS_FIGURE " went in, " LS_FIGURE " came out"),
                d->balance.stack_in, d->balance.stack_out, "ton");
    if (s == NULL || x->days == LS_NO_LINE)
        return;
    if (LS_GIVEN(s->most_days) && ls_line_value(d->books->sheet, x->days) > s->most_days.value)
        figures(passed(d, "longer in the stack than allowed", "the stack", s->most_days.at,
                       "the haul log",
                       ls_arena_printf(a, LS_FIGURE ", from %s to %s; at most %s",
                                       day_words(d, x->first), day_words(d, x->last),
                                       s->most_days.text)),
                x->days, LS_NO_LINE, "day");
    if (x->emptied > s->kept_until.day)
        passed(d, "in the stack past its last day", "the stack", s->kept_until.at, "the haul log",
               ls_arena_printf(a, "litter was in it on %s; it may be kept until %s",
                               day_words(d, x->emptied), day_words(d, s->kept_until.day)));
}

void ls_dossier_audit_limits(ls_dossier *d) {
    each_field(d);
    each_wait(d);
    each_load(d);
    each_age(d);
    stack_limits(d);
}
