/* Limits that were passed: of each application, of the acres, of ages and the stack. */
#include "room.h"

/* ---- each application ---- */

/* Whose a limit is: a place in the farm's files; else what stands in for it, and then a caution. */
typedef struct {
    ls_place at;
    const char *published; /* NULL: the farm's own */
} ruler;

/* What an application is held to. */
typedef struct {
    const char *item, *what, *unit;
    ls_line on, limit;
    ruler by;
} measure;

static ruler nitrogen_ruler(const ls_field *field) {
    return LS_GIVEN(field->nitrogen) ? (ruler){field->nitrogen.at, NULL} : (ruler){field->at, "the crop table"};
}

/* The rating, and the bank that earlier years used up. */
static ruler phosphate_ruler(const ls_field *field) {
    const ls_phosphorus *p = field->phosphorus;
    return p != NULL && LS_GIVEN(p->rating) ? (ruler){p->at, NULL}
                                            : (ruler){field->at, "no rating is given, so it is taken as high"};
}

/* Of the limit that is the least on the day. */
static ruler rate_ruler(const ls_dossier *d, const ls_dossier_field *f, const ls_dossier_application *x) {
    const ls_worksheet *w = d->sheet;
    const ls_field *field = f->field;
    const ls_rate *r = x->rate;
    const struct {
        ls_line limit;
        ruler by;
    } all[] = {{r->phosphorus, phosphate_ruler(field)},
               {r->nitrogen, nitrogen_ruler(field)},
               {r->cap, LS_GIVEN(field->most) ? (ruler){field->most.at, NULL}
                                              : (ruler){field->at, "aces-889, the top of the published range for "
                                                                   "litter"}}};
    size_t least = 0;
    for (size_t i = 1; i < sizeof all / sizeof *all; i++)
        if (all[i].limit && (!all[least].limit || ls_line_value(w, all[i].limit) < ls_line_value(w, all[least].limit)))
            least = i;
    const ls_window_cap *season = NULL;
    double lowest = 0;
    for (size_t i = 0; i < f->rates->caps_n; i++) {
        double limit = ls_line_value(w, r->seasons[i]);
        if (!r->seasons[i] || !ls_field_cap_holds(&f->rates->caps[i], x->load->hauled->day)) continue;
        if (season == NULL ? all[least].limit && limit > ls_line_value(w, all[least].limit) : limit >= lowest) continue;
        season = f->rates->caps[i].cap;
        lowest = limit;
    }
    if (season != NULL) return (ruler){season->at, NULL};
    return r->limit == LS_LIMIT_CLOSED ? (ruler){field->at, NULL} : all[least].by;
}

enum { LITTER, NITROGEN, PHOSPHATE, MEASURES };

static measure measure_of(const ls_dossier *d, const ls_dossier_field *f, const ls_dossier_application *x, int which) {
    bool sum = f->field->overlap.yes; /* then an acre has got what went on all of them */
    if (which == LITTER)
        return (measure){"more litter than the rate", "the limit", "ton/ac", x->per_acre, x->limit,
                         rate_ruler(d, f, x)};
    if (which == NITROGEN)
        return (measure){"more nitrogen than the need",
                         "the need less credits, plant-available N,",
                         "lb/ac",
                         sum ? f->actual.available : x->available,
                         f->rates->left[LS_FIELD_N],
                         nitrogen_ruler(f->field)};
    return (measure){"more phosphate than the rating allows",
                     ls_dossier_bought(f) ? "with bought fertilizer what the rating allows, P2O5,"
                                          : "what the rating allows, P2O5,",
                     "lb/ac",
                     sum ? f->phosphate : x->with_bought,
                     f->rates->phosphate_left,
                     phosphate_ruler(f->field)};
}

/* Is it above its limit, by itself, or where litter lies on litter with all others? */
static bool is_above(const ls_dossier *d, const ls_dossier_field *f, const measure *m, int which) {
    bool all = which == LITTER && f->field->overlap.yes && ls_dossier_above(d, f->needed, f->rates->spreadable);
    return all || ls_dossier_above(d, m->on, m->limit);
}

/* Did the load's own ticket, for this field, allow as much, on a day with the same limit, worked in alike? Then the
 * limit fell since. */
static bool is_allowed(const ls_dossier *d, const ls_dossier_field *f, const ls_dossier_application *x, int which) {
    const ls_log_entry *ticket = x->load->issued;
    if (x->ticket == LS_NO_LINE || ls_dossier_above(d, x->per_acre, x->ticket)) return false;
    ls_line limit = ls_agronomy_limit_on(d->sheet, f->rates, x->rate, ticket->planned);
    return !ls_dossier_above(d, limit, x->limit) && (which != NITROGEN || !ls_dossier_above(d, x->pan, x->rate->pan));
}

/* One finding of a field: the entries that passed the limit, with the figures of the worst; those that a ticket allowed
 * apart. */
static void held(ls_dossier *d, const ls_dossier_field *f, int which, bool allowed) {
    const ls_worksheet *w = d->sheet;
    const char *name = ls_dossier_name(d->arena, f->buyer, f->field);
    ls_dossier_finding *x = NULL;
    double worst = -1;
    LS_EACH (const ls_dossier_application, one, f->applications) {
        measure m = measure_of(d, f, one, which);
        if (!is_above(d, f, &m, which) || is_allowed(d, f, one, which) != allowed) continue;
        const char *item = allowed ? ls_arena_printf(d->arena, "%s as counted since", m.item) : m.item;
        if (x == NULL) x = ls_dossier_passed(d, LS_EXCEEDED, item, name, m.by.at, NULL);
        ls_dossier_about_entry(d, x, one->load->hauled->log_entry);
        double over = ls_line_value(w, m.on) - ls_line_value(w, m.limit);
        if (over <= worst) continue;
        worst = over;
        x->what =
            allowed ? ls_arena_printf(d->arena,
                                      LS_FIGURE " applied, as its ticket of %s allowed; %s counted since is " LS_FIGURE,
                                      ls_dossier_words_of(d, one->load->issued->when.day), m.what)
                    : ls_arena_printf(d->arena, LS_FIGURE " applied; %s is " LS_FIGURE, m.what);
        ls_dossier_figures(x, m.on, m.limit, m.unit);
        x->state = allowed || m.by.published != NULL ? LS_CAUTION : LS_EXCEEDED;
        if (m.by.published != NULL) x->cite = m.by.published;
    }
    if (x == NULL) return;
    x->field = name;
    x->where = ls_dossier_entries(d, x);
}

/* Of any field of the farm: such as got no litter may have no sheet. NULL: a mistake of its entry is noted. */
static const ls_field_rates *rates_of(ls_dossier *d, const ls_buyer *b, const ls_field *field) {
    LS_EACH (const ls_dossier_field, f, d->fields)
        if (f->field == field) return f->rates;
    return ls_agronomy_field(d->books->agronomy, b, field);
}

/* Bought phosphate counts like that of litter, where no litter went too. */
static void bought_alone(ls_dossier *d, const ls_buyer *b, const ls_field *field) {
    if (field->yard || field->fertilizer.n == 0 || ls_dossier_parts_on(d->farm, field) > 0) return;
    const ls_field_rates *r = rates_of(d, b, field);
    if (r == NULL || !ls_dossier_above(d, r->credits[LS_FIELD_P2O5], r->phosphate_left)) return;
    ruler by = phosphate_ruler(field);
    const char *name = ls_dossier_name(d->arena, b, field);
    ls_dossier_finding *x = ls_dossier_passed(
        d, by.published != NULL ? LS_CAUTION : LS_EXCEEDED, "more phosphate than the rating allows", name, by.at,
        LS_FIGURE " of bought fertilizer, no litter; what the rating allows, P2O5, is " LS_FIGURE);
    ls_dossier_figures(x, r->credits[LS_FIELD_P2O5], r->phosphate_left, "lb/ac");
    if (by.published != NULL) x->cite = by.published;
    x->field = name;
    x->where = ls_dossier_at(d, field->fertilizer.at[0].at);
    x->mend = "if it is not to go on, take it out of the farm file. If it is, call the plan writer";
}

/* The log's acres are more than the field has. */
static void acres(ls_dossier *d, const ls_dossier_field *f) {
    if (f->field->overlap.yes || !ls_dossier_above(d, f->logged, f->rates->spreadable)) return;
    const char *name = ls_dossier_name(d->arena, f->buyer, f->field);
    ls_dossier_finding *x =
        ls_dossier_passed(d, LS_EXCEEDED, "more acres than the field has", name, f->field->area.at,
                          LS_FIGURE " covered by the log; to be spread, setbacks taken off, are " LS_FIGURE);
    ls_dossier_figures(x, f->logged, f->rates->spreadable, "ac");
    LS_EACH (const ls_dossier_application, one, f->applications) {
        if (one->load->hauled->drops[one->part].acres > 0) ls_dossier_about_entry(d, x, one->load->hauled->log_entry);
    }
    x->field = name;
    x->where = ls_dossier_entries(d, x);
    x->mend = "correct the acres with --replaces; or, if loads went where litter lay already, "
              "write overlap: yes under the field";
}

/* ---- what was too old ---- */

static void dated_late(ls_dossier *d, const ls_dossier_age *x) {
    ls_dossier_finding *f =
        ls_dossier_passed(d, LS_CAUTION, "dated after litter went out", x->of, LS_NOWHERE,
                          ls_arena_printf(d->arena, "the %s is of %s; litter went out by it before that day", x->what,
                                          ls_dossier_words_of(d, x->date)));
    f->where = x->where;
    ls_dossier_tell_apart(d, f, x->what);
    f->cite = "common practice";
    f->mend = "if the date is wrong, correct it in the farm file. If not, keep the one before it "
              "with the records";
}

static void each_age(ls_dossier *d) {
    LS_EACH (const ls_dossier_age, x, d->ages) {
        if (x->late) dated_late(d, x);
        if (!x->old) continue;
        ls_dossier_finding *f = ls_dossier_passed(
            d, x->own != NULL ? LS_EXCEEDED : LS_CAUTION, x->item, x->of, x->own != NULL ? *x->own : LS_NOWHERE,
            ls_arena_printf(d->arena, "of %s, " LS_FIGURE " old on %s; at most " LS_FIGURE,
                            ls_dossier_words_of(d, x->date), ls_dossier_words_of(d, x->on)));
        f->where = x->where;
        ls_dossier_figures(f, x->age, x->limit, "day");
        if (x->own == NULL) f->cite = "usual age, common practice";
        f->mend = "renew it before the next spreading";
    }
}

/* ---- the stack ---- */

static void stack_limits(ls_dossier *d) {
    const ls_stack *s = d->farm->stack;
    const ls_dossier_stack *x = &d->stack;
    ls_arena *a = d->arena;
    if (ls_line_value(d->sheet, d->balance.unlogged) > ls_unit_of("lb").factor) {
        ls_dossier_finding *f = ls_dossier_add(d, LS_ABOUT_FARM, "more out of the stack than went in", "the stack");
        ls_dossier_given(d, f, false, LS_NOWHERE, LS_NOWHERE,
                         LS_FIGURE " came out, by side, that no log has going in; " LS_FIGURE " came out in all",
                         "record the loads that went in: littershed record FILE... --ticket T "
                         "--tons X --field stack");
        ls_dossier_figures(f, d->balance.unlogged, d->balance.stack_out, "ton");
        f->where = "the haul log";
    }
    if (s == NULL || x->days == LS_NO_LINE) return;
    ls_dossier_finding *f = NULL;
    if (LS_GIVEN(s->most_days) && ls_line_value(d->sheet, x->days) > s->most_days.value) {
        f = ls_dossier_passed(d, LS_EXCEEDED, "longer in the stack than allowed", "the stack", s->most_days.at,
                              ls_arena_printf(a, LS_FIGURE ", from %s to %s; at most %s",
                                              ls_dossier_words_of(d, x->first), ls_dossier_words_of(d, x->last),
                                              s->most_days.text));
        ls_dossier_figures(f, x->days, LS_NO_LINE, "day");
        f->where = "the haul log";
    }
    LS_EACH (const ls_stack_distance, near, s->distances) {
        if (!ls_stack_too_near(near)) continue;
        f = ls_dossier_passed(
            d, LS_EXCEEDED, "stack nearer than allowed", "the stack", near->least.at,
            ls_arena_printf(a, "%s from the %s; at least %s", near->distance.text, near->from.text, near->least.text));
        ls_dossier_tell_apart(d, f, near->from.text);
        f->where = ls_dossier_at(d, near->distance.at);
        f->mend = "if the distance is wrong, correct it. If not, call the plan writer";
    }
    if (x->emptied > s->kept_until.day)
        ls_dossier_passed(d, LS_EXCEEDED, "in the stack past its last day", "the stack", s->kept_until.at,
                          ls_arena_printf(a, "litter was in it on %s; it may be kept until %s",
                                          ls_dossier_words_of(d, x->emptied),
                                          ls_dossier_words_of(d, s->kept_until.day)))
            ->where = "the haul log";
}

void ls_dossier_audit_limits(ls_dossier *d) {
    for (size_t i = 0; i < d->fields.n; i++) {
        for (int which = 0; which < 2 * MEASURES; which++) held(d, &d->fields.at[i], which / 2, which % 2 == 1);
        acres(d, &d->fields.at[i]);
    }
    LS_EACH (const ls_buyer, b, d->farm->buyers)
        LS_EACH (const ls_field, f, b->fields) bought_alone(d, b, f);
    each_age(d);
    stack_limits(d);
}
