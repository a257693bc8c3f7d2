/* Does an entry of the haul log make sense on this farm? */
#include "haul_entry.h"

#include <math.h>
#include <string.h>

/* ---- the lot ---- */

static int check_lot(ls_run *r, const ls_log_entry *e, const ls_house **house) {
    ls_coded_lots lots = ls_books_lots(r->arena, r->books.farm);
    const ls_coded_lot *lot = ls_books_lot(&lots, e->ticket.code);
    *house = lot == NULL ? NULL : lot->house;
    if (lot != NULL || (e->replaces > 0 && !ls_run_given(r, LS_OPTION_TICKET)))
        return LS_DONE; /* an entry of a lot that is no longer in the files is corrected as others
                           are */
    ls_text *codes = ls_text_new(r->arena);
    for (size_t i = 0; i < lots.n; i++)
        ls_text_addf(codes, "%s%s", i > 0 ? ", " : "", lots.at[i].code);
    return ls_run_say(r, LS_MISTAKE,
                      "ticket %s: this farm has no lot %s; its lots are %s. Is it a ticket of "
                      "another farm, or a file not named?",
                      e->ticket.text, e->ticket.code, codes->s);
}

/* ---- the field ---- */

static int unknown_field(ls_run *r, const char *unknown) {
    LS_LIST(const char *) known = {0}, bare = {0}; /* "Buyer/Field", "Field" */
    for (size_t b = 0; b < r->books.farm->buyers.n; b++) {
        const ls_buyer *buyer = &r->books.farm->buyers.at[b];
        for (size_t f = 0; f < buyer->fields.n; f++) {
            *LS_PUSH(r->arena, &bare) = buyer->fields.at[f].name.text;
            *LS_PUSH(r->arena, &known) =
                ls_arena_printf(r->arena, "%s/%s", buyer->name.text, buyer->fields.at[f].name.text);
        }
    }
    if (known.n == 0)
        return ls_run_say(r, LS_MISTAKE,
                          "the field \"%s\" is not known: the files name no fields; name the file "
                          "that holds the buyers too",
                          unknown);
    const char *near = ls_text_nearest(unknown, known.at, known.n), *cut = strrchr(unknown, '/'),
               *field = ls_text_nearest(cut == NULL ? unknown : cut + 1, bare.at, bare.n);
    for (size_t i = 0; near == NULL && field != NULL; i++)
        near = field == bare.at[i] ? known.at[i] : NULL;
    if (near != NULL)
        return ls_run_say(r, LS_MISTAKE, "there is no field \"%s\"; did you mean \"%s\"?", unknown,
                          near);
    return ls_run_say(r, LS_MISTAKE,
                      "there is no field \"%s\"; write buyer and field as the farm file does, "
                      "\"%s\", or stack. A new buyer is added to the farm file first; two fields "
                      "are written \"%s (5 ton); %s (4 ton)\"",
                      unknown, known.at[0], known.at[0], known.at[known.n - 1]);
}

/* Parts that come to another weight than the load; two scale steps may be lost in rounding. */
static int check_parts(ls_run *r, const ls_log_entry *e, const ls_hauled_drops *drops) {
    ls_arena *a = r->arena;
    double step = ls_unit_of("ton").factor / 50, rest = e->tons - drops->told;
    if (drops->told > 0 && drops->left == 0 && fabs(rest) > step)
        return ls_run_say(
            r, LS_MISTAKE,
            "the parts come to %s tons and the load to %s: %s tons %s. A part without "
            "tons gets the rest",
            ls_log_tons_text(a, drops->told), ls_log_tons_text(a, e->tons),
            ls_log_tons_text(a, fabs(rest)), rest > 0 ? "are missing" : "are too many");
    if (drops->told > 0 && drops->left > 0 && rest <= step)
        return ls_run_say(
            r, LS_MISTAKE,
            "the parts with tons come to %s of the load's %s: nothing is left for the "
            "others",
            ls_log_tons_text(a, drops->told), ls_log_tons_text(a, e->tons));
    if (drops->told > 0 && drops->left > 1)
        return ls_run_say(r, LS_MISTAKE, "only one part may go without tons: it gets the rest");
    for (size_t i = 0; drops->told > 0 && drops->left == 1 && i < drops->n; i++)
        if (fabs(drops->at[i].tons - rest) < 1e-9)
            ls_run_say(r, LS_DONE, "%s gets the rest, %s tons",
                       drops->at[i].field == NULL ? "stack" : drops->at[i].field->name.text,
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
    if (parts > 0 && parts == fields && isnan(e->acres))
        e->acres = told;
    if (isnan(e->acres) || parts == 0)
        return LS_DONE;
    if (parts == fields ? fabs(told - e->acres) > step : told > e->acres - step)
        return ls_run_say(r, LS_MISTAKE,
                          "the parts cover %s acres and the load %s: they should agree",
                          ls_log_acres_text(r->arena, told), ls_log_acres_text(r->arena, e->acres));
    ls_hauled_cover(drops, e->acres);
    return LS_DONE;
}

/* Its names, tons and acres are written as the log does. */
static int check_field(ls_run *r, ls_log_entry *e) {
    const char *unknown = NULL;
    ls_hauled_drops drops =
        ls_hauled_places(r->arena, r->books.farm, e->words[LS_LOG_FIELD], e->tons, &unknown);
    for (size_t i = 0; e->ticket.from_stack && i < drops.n; i++)
        if (drops.at[i].field == NULL)
            return ls_run_say(r, LS_MISTAKE,
                              "ticket %s is of a load out of the stack: it cannot go to the stack; "
                              "name the field with --field",
                              e->ticket.text);
    if (unknown != NULL && e->replaces > 0 && !ls_run_given(r, LS_OPTION_FIELD))
        return LS_DONE;
    if (unknown != NULL)
        return unknown_field(r, unknown);
    int code = check_parts(r, e, &drops);
    if (code == LS_DONE)
        code = check_acres(r, e, &drops);
    if (code == LS_DONE && !(drops.n > 1 && drops.told <= 0))
        e->words[LS_LOG_FIELD] = ls_hauled_text(r->arena, drops.at, drops.n);
    return code;
}

/* ---- what only --sure lets pass ---- */

/* Something looks wrong: refused, unless it was confirmed (before: by the entry it replaces); the
 * entry says so. A list that is only shown goes on. */
static int unusual(ls_run *r, ls_log_entry *e, const char *before, const char *what,
                   const char *message) {
    bool now =
        !ls_run_given(r, LS_OPTION_WHEN) && e->replaces == 0 && !ls_run_given(r, LS_OPTION_IMPORT);
    if (!ls_run_given(r, LS_OPTION_SURE) && strstr(before, what) == NULL) {
        ls_run_say(r, LS_DONE, "%s: check it; %s--sure records it all the same", message,
                   now ? "without --when today counts; " : "");
        return ls_run_given(r, LS_OPTION_IMPORT) ? LS_DONE : LS_MISTAKE;
    }
    const char *said = e->words[LS_LOG_CONFIRMED];
    e->words[LS_LOG_CONFIRMED] =
        said[0] == '\0' ? what : ls_arena_printf(r->arena, "%s; %s", said, what);
    return LS_DONE;
}

/* The truck of that name, now or before, else the one that carries most; NULL: the farm names none.
 */
const ls_truck *ls_haul_entry_truck(const ls_run *r, const ls_log_entry *e) {
    const ls_truck *most = NULL;
    const char *name = e->words[LS_LOG_TRUCK];
    for (size_t i = 0; i < r->books.farm->trucks.n; i++) {
        const ls_truck *truck = &r->books.farm->trucks.at[i];
        if (strcmp(truck->name.text, name) == 0 || ls_text_same(truck->formerly.text, name))
            return truck;
        if (most == NULL || ls_truck_payload(truck) > ls_truck_payload(most))
            most = truck;
    }
    return most;
}

/* Above the payload by weight. */
static int check_truck(ls_run *r, ls_log_entry *e, const char *before) {
    const ls_truck *truck = ls_haul_entry_truck(r, e);
    if (truck == NULL || e->tons <= ls_truck_payload(truck) * (1 + 1e-9))
        return LS_DONE;
    return unusual(r, e, before, "above the truck's payload",
                   ls_arena_printf(r->arena,
                                   "%s tons is more than the truck may carry (payload %s tons)",
                                   ls_log_tons_text(r->arena, e->tons),
                                   ls_log_tons_text(r->arena, ls_truck_payload(truck))));
}

/* After the birds left, and neither long after the crew came nor after the stack has to be gone. */
static int check_day(ls_run *r, ls_log_entry *e, const ls_house *house, const char *before) {
    enum { DAYS_OF_THE_JOB = 60, DAYS_OF_A_STACK = 366 };
    const ls_farm *farm = r->books.farm;
    ls_date removed = LS_NO_DATE, last = LS_NO_DATE;
    if (house == NULL)
        return LS_DONE;
    for (size_t i = 0; i < house->flocks.n; i++)
        if (LS_GIVEN(house->flocks.at[i].removed) && house->flocks.at[i].removed.day > removed)
            removed = house->flocks.at[i].removed.day;
    ls_date begun =
        farm->crew != NULL && LS_GIVEN(farm->crew->arrives) ? farm->crew->arrives.day : removed;
    if (begun != LS_NO_DATE)
        last = begun + (e->ticket.from_stack ? DAYS_OF_A_STACK : DAYS_OF_THE_JOB);
    if (e->ticket.from_stack && farm->stack != NULL && LS_GIVEN(farm->stack->kept_until))
        last = farm->stack->kept_until.day;
    bool early = e->when.day < removed;
    if (!early && (last == LS_NO_DATE || e->when.day <= last))
        return LS_DONE;
    return unusual(r, e, before, early ? "before the birds left" : "long after the plan",
                   ls_arena_printf(r->arena,
                                   early ? "%s is before the birds left %s (%s)"
                                         : "%s is long after the loads of %s should be out (%s)",
                                   ls_when_text(r->arena, e->when), house->name.text,
                                   ls_date_iso(r->arena, early ? removed : last)));
}

/* A field that takes no litter on any day. */
static int check_rating(ls_run *r, ls_log_entry *e, const char *before, const ls_field *f) {
    if (f->phosphorus == NULL || f->phosphorus->rating.is != LS_RATING_VERY_HIGH)
        return LS_DONE;
    return unusual(r, e, before, ls_arena_printf(r->arena, "%s rated very high", f->name.text),
                   ls_arena_printf(r->arena,
                                   "%s takes no litter: its phosphorus is rated very high",
                                   f->name.text));
}

/* On a day on which the field may be spread, and no more acres than it has. */
static int check_spread(ls_run *r, ls_log_entry *e, const char *before) {
    const char *unknown = NULL;
    int code = LS_DONE;
    ls_hauled_drops drops =
        ls_hauled_places(r->arena, r->books.farm, e->words[LS_LOG_FIELD], e->tons, &unknown);
    if (!isnan(e->acres))
        ls_hauled_cover(&drops, e->acres);
    for (size_t i = 0; i < drops.n && code == LS_DONE; i++) {
        const ls_field *f = drops.at[i].field;
        code = f == NULL ? LS_DONE : check_rating(r, e, before, f);
        if (code == LS_DONE && f != NULL && !ls_field_allows(f, e->when.day))
            code = unusual(r, e, before, ls_arena_printf(r->arena, "%s closed", f->name.text),
                           ls_arena_printf(r->arena, "%s is closed on %s (open %s to %s)",
                                           f->name.text, ls_when_text(r->arena, e->when),
                                           ls_date_iso(r->arena, f->allowed.from),
                                           ls_date_iso(r->arena, f->allowed.to)));
        if (code == LS_DONE && f != NULL && drops.at[i].acres > f->area.value * (1 + 1e-6))
            code = unusual(r, e, before, ls_arena_printf(r->arena, "acres of %s", f->name.text),
                           ls_arena_printf(r->arena, "%s has %s, the load covered %s acres",
                                           f->name.text, f->area.text,
                                           ls_log_acres_text(r->arena, drops.at[i].acres)));
    }
    return code;
}

int ls_haul_entry_check(ls_run *r, ls_log_entry *e) {
    const ls_house *house;
    const char *before = e->words[LS_LOG_CONFIRMED];
    e->words[LS_LOG_CONFIRMED] = "";
    int code = check_lot(r, e, &house);
    if (code == LS_DONE && e->words[LS_LOG_FIELD][0] != '\0')
        code = check_field(r, e);
    if (code == LS_DONE)
        code = check_truck(r, e, before);
    if (code == LS_DONE)
        code = check_spread(r, e, before);
    return code == LS_DONE ? check_day(r, e, house, before) : code;
}
