/* Does an entry of the haul log make sense on this farm? */
#include "haul_entry.h"

#include <math.h>
#include <string.h>

/* ---- the lot ---- */

static int check_lot(ls_run *r, const ls_log_entry *e) {
    ls_coded_lots lots = ls_books_lots(r->arena, r->books.farm);
    if (ls_books_lot(&lots, e->ticket.code) != NULL || (e->replaces > 0 && !GIVEN(r, TICKET)))
        return LS_DONE; /* an entry of a lot that is no longer in the files is corrected as others
                           are */
    ls_text *codes = ls_text_new(r->arena);
    for (size_t i = 0; i < lots.n; i++) ls_text_addf(codes, "%s%s", i > 0 ? ", " : "", lots.at[i].code);
    return MISTAKE(r,
                   "ticket %s: this farm has no lot %s; its lots are %s. Is it a ticket of another "
                   "farm, or a file not named?",
                   e->ticket.text, e->ticket.code, codes->s);
}

/* ---- the field ---- */

static int unknown_field(ls_run *r, const char *unknown) {
    LS_LIST(const char *) known = {0}, bare = {0}; /* "Buyer/Field", "Field" */
    LS_EACH (const ls_buyer, buyer, r->books.farm->buyers) {
        for (size_t f = 0; f < buyer->fields.n; f++) {
            *LS_PUSH(r->arena, &bare) = buyer->fields.at[f].name.text;
            *LS_PUSH(r->arena, &known) =
                ls_arena_printf(r->arena, "%s/%s", buyer->name.text, buyer->fields.at[f].name.text);
        }
    }
    if (known.n == 0)
        return MISTAKE(r,
                       "the field \"%s\" is not known: the files name no fields; name the file "
                       "that holds the buyers too",
                       unknown);
    const char *near = ls_text_nearest(unknown, known.at, known.n), *cut = strrchr(unknown, '/'),
               *field = ls_text_nearest(cut == NULL ? unknown : cut + 1, bare.at, bare.n);
    for (size_t i = 0; near == NULL && field != NULL; i++) near = field == bare.at[i] ? known.at[i] : NULL;
    if (near != NULL) return MISTAKE(r, "there is no field \"%s\"; did you mean \"%s\"?", unknown, near);
    return MISTAKE(r,
                   "there is no field \"%s\"; write buyer and field as the farm file does, \"%s\", "
                   "or stack. A new buyer is added to the farm file first; two fields are written "
                   "\"%s (5 ton); %s (4 ton)\"",
                   unknown, known.at[0], known.at[0], known.at[known.n - 1]);
}

/* Parts that come to another weight than the load; two scale steps may be lost in rounding. */
static int check_parts(ls_run *r, const ls_log_entry *e, const ls_hauled_drops *drops) {
    ls_arena *a = r->arena;
    double step = ls_unit_of("ton").factor / 50, rest = e->tons - drops->told;
    if (drops->told > 0 && drops->left == 0 && fabs(rest) > step)
        return MISTAKE(r,
                       "the parts come to %s tons and the load to %s: %s tons %s. A part without "
                       "tons gets the rest",
                       ls_log_tons_text(a, drops->told), ls_log_tons_text(a, e->tons), ls_log_tons_text(a, fabs(rest)),
                       rest > 0 ? "are missing" : "are too many");
    if (drops->told > 0 && drops->left > 0 && rest <= step)
        return MISTAKE(r, "the parts with tons come to %s of the load's %s: nothing is left for the others",
                       ls_log_tons_text(a, drops->told), ls_log_tons_text(a, e->tons));
    if (drops->told > 0 && drops->left > 1) return MISTAKE(r, "only one part may go without tons: it gets the rest");
    for (size_t i = 0; drops->told > 0 && drops->left == 1 && i < drops->n; i++)
        if (fabs(drops->at[i].tons - rest) < 1e-9)
            TELL(r, "%s gets the rest, %s tons", drops->at[i].field == NULL ? "stack" : drops->at[i].field->name.text,
                 ls_log_tons_text(a, rest));
    return LS_DONE;
}

/* The acres of the parts, and of the load: one tells the other. */
static int check_acres(ls_run *r, ls_log_entry *e, ls_hauled_drops *drops) {
    double told = 0, step = ls_unit_of("ac").factor / 100;
    size_t parts = 0, fields = 0;
    for (size_t i = 0; i < drops->n; i++) {
        told += drops->at[i].acres;
        parts += drops->at[i].acres > 0;
        fields += drops->at[i].field != NULL;
    }
    if (parts > 0 && isnan(e->acres) && GIVEN(r, ACRES))
        return MISTAKE(r, "the parts tell acres of their own: give --field without them");
    if (parts > 0 && parts == fields && isnan(e->acres)) e->acres = told;
    if (isnan(e->acres) || parts == 0) return LS_DONE;
    if (parts == fields ? fabs(told - e->acres) > step : told > e->acres - step)
        return MISTAKE(r, "the parts cover %s acres and the load %s: they should agree",
                       ls_log_acres_text(r->arena, told), ls_log_acres_text(r->arena, e->acres));
    ls_hauled_cover(drops, e->acres);
    return LS_DONE;
}

/* Its names, tons and acres are written as the log does. */
static int check_field(ls_run *r, ls_log_entry *e) {
    const char *unknown = NULL;
    ls_hauled_drops drops = ls_hauled_places(r->arena, r->books.farm, e->words[LS_LOG_FIELD], e->tons, &unknown);
    for (size_t i = 0; e->ticket.from_stack && i < drops.n; i++)
        if (drops.at[i].field == NULL)
            return MISTAKE(r,
                           "ticket %s is of a load out of the stack: it cannot go to the stack; "
                           "name the field with --field",
                           e->ticket.text);
    if (unknown != NULL && e->replaces > 0 && !GIVEN(r, FIELD)) return LS_DONE;
    if (unknown != NULL) return unknown_field(r, unknown);
    int code = check_parts(r, e, &drops);
    if (code == LS_DONE) code = check_acres(r, e, &drops);
    if (code == LS_DONE && !(drops.n > 1 && drops.told <= 0))
        e->words[LS_LOG_FIELD] = ls_hauled_text(r->arena, drops.at, drops.n);
    return code;
}

int ls_haul_entry_check(ls_run *r, ls_log_entry *e) {
    int code = check_lot(r, e);
    return code == LS_DONE && e->words[LS_LOG_FIELD][0] != '\0' ? check_field(r, e) : code;
}

/* ---- what only --sure lets pass ---- */

/* What an entry was confirmed for, and what it says of it now. */
typedef struct {
    ls_run *r;
    ls_log_entry *e;
    const ls_log *log;
    const ls_log_entry *rows; /* recorded with it, it among them */
    size_t rows_n;
    const char *before, *now;
    bool fresh; /* something was not confirmed before */
} doubts;

/* Something looks wrong, with the values that make it so: another value is another doubt. Shown,
 * unless the entry it replaces was confirmed for just that. */
static void unusual(doubts *d, const char *what) {
    ls_arena *a = d->r->arena;
    bool fresh = strstr(ls_arena_printf(a, "; %s; ", d->before), ls_arena_printf(a, "; %s; ", what)) == NULL;
    d->now = d->now[0] == '\0' ? what : ls_arena_printf(a, "%s; %s", d->now, what);
    d->fresh = d->fresh || fresh;
    if (fresh) TELL(d->r, "%s: %s: %s", d->e->ticket.text, what, GIVEN(d->r, SURE) ? "confirmed" : "check it");
}

/* The truck of that name, now or before, else the one that carries most; NULL: the farm names none.
 */
const ls_truck *ls_haul_entry_truck(const ls_run *r, const ls_log_entry *e) {
    const ls_truck *named = ls_farm_truck_named(r->books.farm, e->words[LS_LOG_TRUCK]), *most = named;
    for (size_t i = 0; named == NULL && i < r->books.farm->trucks.n; i++) {
        const ls_truck *truck = &r->books.farm->trucks.at[i];
        if (most == NULL || ls_truck_payload(truck) > ls_truck_payload(most)) most = truck;
    }
    return most;
}

/* Of several kinds of truck none is called so. */
static void look_at_name(doubts *d) {
    ls_arena *a = d->r->arena;
    const ls_farm *farm = d->r->books.farm;
    const char *name = d->e->words[LS_LOG_TRUCK];
    if (farm->trucks.n < 2 || name[0] == '\0' || ls_farm_truck_named(farm, name) != NULL) return;
    const char **names = LS_NEW(a, const char *, farm->trucks.n);
    ls_text *all = ls_text_new(a);
    for (size_t i = 0; i < farm->trucks.n; i++) {
        names[i] = farm->trucks.at[i].name.text;
        ls_text_addf(all, "%s%s", i > 0 ? ", " : "", names[i]);
    }
    const char *near = ls_text_nearest(name, names, farm->trucks.n);
    unusual(d, ls_arena_printf(a, "no truck is called \"%s\" (%s%s)", name,
                               near == NULL ? "the trucks are " : "did you mean ", near == NULL ? all->s : near));
}

/* Above the payload by weight. */
static void look_at_truck(doubts *d) {
    ls_arena *a = d->r->arena;
    const ls_truck *truck = ls_haul_entry_truck(d->r, d->e);
    if (truck != NULL && d->e->tons > ls_truck_payload(truck) * (1 + 1e-9))
        unusual(d, ls_arena_printf(a, "%s tons is more than the truck may carry (payload %s tons)",
                                   ls_log_tons_text(a, d->e->tons), ls_log_tons_text(a, ls_truck_payload(truck))));
}

/* A load out of the house on a ticket whose load went into the stack. */
static void look_at_ticket(doubts *d) {
    ls_coded_lots lots = ls_books_lots(d->r->arena, d->r->books.farm);
    LS_EACH (const ls_log_entry, other, d->log->entries)
        if (other->number != d->e->replaces && ls_log_stands(other) && ls_books_same_ticket(&lots, other, d->e) &&
            strcmp(other->words[LS_LOG_FIELD], "stack") == 0)
            unusual(d, ls_arena_printf(d->r->arena,
                                       "this ticket went into the stack with entry %ld (out of it, "
                                       "tickets have an S before the number)",
                                       other->number));
}

/* Did a load of the lot go into the stack with it? */
static bool went_in(const doubts *d, const ls_coded_lots *lots, const ls_log_entry *in) {
    const char *unknown;
    if (!ls_log_stands(in) || in->ticket.from_stack ||
        ls_books_lot(lots, in->ticket.code) != ls_books_lot(lots, d->e->ticket.code))
        return false;
    ls_hauled_drops to = ls_hauled_places(d->r->arena, d->r->books.farm, in->words[LS_LOG_FIELD], in->tons, &unknown);
    bool in_stack = false;
    for (size_t k = 0; k < to.n; k++) in_stack = in_stack || to.at[k].field == NULL;
    return in_stack;
}

/* Out of a stack that has nothing of the lot; earlier years may have left some. */
static void look_at_stack(doubts *d) {
    ls_arena *a = d->r->arena;
    ls_coded_lots lots = ls_books_lots(a, d->r->books.farm);
    const ls_coded_lot *lot = ls_books_lot(&lots, d->e->ticket.code);
    const ls_farm_facts *facts = d->r->books.farm->facts;
    bool there = !d->e->ticket.from_stack || lot == NULL || (facts != NULL && facts->earlier.n > 0);
    for (size_t i = 0; i < d->log->entries.n; i++) there = there || went_in(d, &lots, &d->log->entries.at[i]);
    for (size_t i = 0; i < d->rows_n; i++) there = there || went_in(d, &lots, &d->rows[i]);
    if (!there)
        unusual(d, ls_arena_printf(a,
                                   "nothing of %s is in the stack by the log (first record what went in, with "
                                   "--field stack; a load out of the house has no S in its ticket)",
                                   lot->name));
}

/* On no hold day, after the birds left, and neither long after the crew came nor after the stack has to be gone. */
static void look_at_day(doubts *d) {
    enum { DAYS_OF_THE_JOB = 60, DAYS_OF_A_STACK = 366 };
    ls_arena *a = d->r->arena;
    const ls_farm *farm = d->r->books.farm;
    const ls_log_entry *e = d->e;
    ls_coded_lots lots = ls_books_lots(a, farm);
    const ls_coded_lot *lot = ls_books_lot(&lots, e->ticket.code);
    ls_date removed = LS_NO_DATE, last = LS_NO_DATE;
    for (size_t i = 0; lot != NULL && i < lot->house->flocks.n; i++)
        if (LS_GIVEN(lot->house->flocks.at[i].removed) && lot->house->flocks.at[i].removed.day > removed)
            removed = lot->house->flocks.at[i].removed.day;
    ls_date begun = farm->crew != NULL && LS_GIVEN(farm->crew->arrives) ? farm->crew->arrives.day : removed;
    if (begun != LS_NO_DATE) last = begun + (e->ticket.from_stack ? DAYS_OF_A_STACK : DAYS_OF_THE_JOB);
    if (e->ticket.from_stack && farm->stack != NULL && LS_GIVEN(farm->stack->kept_until))
        last = farm->stack->kept_until.day;
    bool early = e->when.day < removed;
    if (lot != NULL && (early || (last != LS_NO_DATE && e->when.day > last)))
        unusual(d, ls_arena_printf(a,
                                   early ? "%s is before the birds left %s (%s)"
                                         : "%s is long after the loads of %s should be out (%s)",
                                   ls_date_iso(a, e->when.day), lot->house->name.text,
                                   ls_date_iso(a, early ? removed : last)));
    for (size_t i = 0; farm->crew != NULL && i < farm->crew->hold_days.n; i++) {
        const ls_hold *hold = &farm->crew->hold_days.at[i];
        if (ls_hold_at(hold, e->when.day, e->when.minute))
            unusual(d, ls_hold_words(a, hold, ls_date_iso(a, e->when.day)));
    }
}

/* A field that takes no litter, or none that day or by that truck, or has not so many acres. */
static void look_at_drop(doubts *d, const ls_hauled_drop *drop) {
    ls_arena *a = d->r->arena;
    const ls_field *f = drop->field;
    const ls_truck *truck = ls_farm_truck_named(d->r->books.farm, d->e->words[LS_LOG_TRUCK]);
    if (truck != NULL && !ls_truck_spreads_on(truck, drop->buyer, f))
        unusual(d, ls_arena_printf(a, "%s does not spread on %s (%s)", truck->name.text, f->name.text,
                                   truck->only.is == LS_ONLY_ROAD ? "only: road in the farm file"
                                                                  : "not among its fields"));
    const char *tons = ls_log_tons_text(a, drop->tons);
    if (f->phosphorus != NULL && f->phosphorus->rating.is == LS_RATING_VERY_HIGH)
        unusual(d, ls_arena_printf(a, "%s takes no litter: its phosphorus is rated very high, %s tons", f->name.text,
                                   tons));
    if (!ls_field_allows(f, d->e->when.day))
        unusual(d, ls_arena_printf(a, "%s is closed on %s (open %s to %s), %s tons", f->name.text,
                                   ls_date_iso(a, d->e->when.day), ls_date_iso(a, f->allowed.from),
                                   ls_date_iso(a, f->allowed.to), tons));
    if (drop->acres > f->area.value * (1 + 1e-6))
        unusual(d, ls_arena_printf(a, "%s has %s, the load covered %s acres", f->name.text, f->area.text,
                                   ls_log_acres_text(a, drop->acres)));
}

static void look_at_fields(doubts *d) {
    const char *unknown = NULL;
    ls_hauled_drops drops =
        ls_hauled_places(d->r->arena, d->r->books.farm, d->e->words[LS_LOG_FIELD], d->e->tons, &unknown);
    if (!isnan(d->e->acres)) ls_hauled_cover(&drops, d->e->acres);
    for (size_t i = 0; i < drops.n; i++)
        if (drops.at[i].field != NULL) look_at_drop(d, &drops.at[i]);
}

int ls_haul_entry_confirm(ls_run *r, const ls_log *log, const ls_log_entry *rows, size_t n, ls_log_entry *e) {
    doubts d = {.r = r, .e = e, .log = log, .rows = rows, .rows_n = n, .before = e->words[LS_LOG_CONFIRMED], .now = ""};
    bool import = GIVEN(r, IMPORT);
    look_at_name(&d);
    look_at_truck(&d);
    look_at_ticket(&d);
    look_at_stack(&d);
    look_at_fields(&d);
    look_at_day(&d);
    e->words[LS_LOG_CONFIRMED] = d.now;
    if (!ls_log_fits(r->arena, d.now))
        return MISTAKE(r, "this is more than one entry can confirm: record its parts as loads of their own");
    if (!d.fresh || import || GIVEN(r, SURE)) return LS_DONE;
    return MISTAKE(r, "%s--sure records it all the same",
                   GIVEN(r, WHEN) || e->replaces > 0 ? "" : "without --when today counts; ");
}
