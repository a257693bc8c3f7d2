/* Does an entry of the haul log make sense on this farm? */
#include "haul_entry.h"

#include <string.h>

/* ---- the lot ---- */

static int check_lot(ls_run *r, const ls_log_entry *e, const ls_house **house) {
    ls_coded_lots lots = ls_books_lots(r->arena, r->books.farm);
    const ls_coded_lot *lot = ls_books_lot(&lots, e->ticket.code);
    *house = lot == NULL ? NULL : lot->house;
    if (lot != NULL)
        return LS_DONE;
    ls_text *codes = ls_text_new(r->arena);
    for (size_t i = 0; i < lots.n; i++)
        ls_text_addf(codes, "%s%s", i > 0 ? ", " : "", lots.at[i].code);
    return ls_run_say(r, LS_MISTAKE,
                      "ticket %s: this farm has no lot %s; its lots are %s. Is it a ticket of "
                      "another farm, or a file not named?",
                      e->ticket.text, e->ticket.code, codes->s);
}

/* ---- the field ---- */

static int check_field(ls_run *r, const ls_log_entry *e) {
    const char *field = e->words[LS_LOG_FIELD], *unknown = NULL;
    ls_hauled_drops drops = ls_hauled_places(r->arena, r->books.farm, field, e->tons, &unknown);
    for (size_t i = 0; e->ticket.from_stack && i < drops.n; i++)
        if (drops.at[i].field == NULL)
            return ls_run_say(r, LS_MISTAKE,
                              "ticket %s is of a load out of the stack: it cannot go to the stack; "
                              "name the field with --field",
                              e->ticket.text);
    if (unknown == NULL)
        return LS_DONE;
    LS_LIST(const char *) known = {0};
    for (size_t b = 0; b < r->books.farm->buyers.n; b++) {
        const ls_buyer *buyer = &r->books.farm->buyers.at[b];
        for (size_t f = 0; f < buyer->fields.n; f++)
            *LS_PUSH(r->arena, &known) =
                ls_arena_printf(r->arena, "%s/%s", buyer->name.text, buyer->fields.at[f].name.text);
    }
    if (known.n == 0)
        return ls_run_say(r, LS_MISTAKE,
                          "the field \"%s\" is not known: the files name no fields; name the file "
                          "that holds the buyers too",
                          unknown);
    const char *near = ls_text_nearest(unknown, known.at, known.n);
    if (near != NULL)
        return ls_run_say(r, LS_MISTAKE, "there is no field \"%s\"; did you mean \"%s\"?", unknown,
                          near);
    return ls_run_say(r, LS_MISTAKE,
                      "there is no field \"%s\"; write buyer and field as the farm file does, "
                      "\"%s\", or stack. A new buyer is added to the farm file first; two fields "
                      "are written \"%s (5 ton); %s (4 ton)\"",
                      unknown, known.at[0], known.at[0], known.at[known.n - 1]);
}

/* ---- what only --sure lets pass ---- */

/* The truck of that name, else the one that carries most; NULL: the farm names none. */
static const ls_truck *truck_of(const ls_farm *farm, const char *name) {
    const ls_truck *most = NULL;
    for (size_t i = 0; i < farm->trucks.n; i++) {
        const ls_truck *truck = &farm->trucks.at[i];
        if (strcmp(truck->name.text, name) == 0)
            return truck;
        if (most == NULL || ls_truck_payload(truck) > ls_truck_payload(most))
            most = truck;
    }
    return most;
}

/* Above the payload by weight. */
static int check_truck(ls_run *r, const ls_log_entry *e) {
    const ls_truck *truck = truck_of(r->books.farm, e->words[LS_LOG_TRUCK]);
    if (truck == NULL || e->tons <= ls_truck_payload(truck) * (1 + 1e-9))
        return LS_DONE;
    return ls_run_say(
        r, LS_MISTAKE,
        "%s ton is beyond the truck, whose payload is %s ton: check the number; --sure "
        "records it all the same",
        ls_log_tons_text(r->arena, e->tons), ls_log_tons_text(r->arena, ls_truck_payload(truck)));
}

/* A load a year after the birds left is a slip of the pen: the plan would go on from that day. */
enum { MOST_DAYS_AFTER = 366 };

static int check_day(ls_run *r, const ls_log_entry *e, const ls_house *house) {
    ls_date removed = LS_NO_DATE;
    for (size_t i = 0; i < house->flocks.n; i++)
        if (LS_GIVEN(house->flocks.at[i].removed) && house->flocks.at[i].removed.day > removed)
            removed = house->flocks.at[i].removed.day;
    bool late = removed != LS_NO_DATE && e->when.day > removed + MOST_DAYS_AFTER;
    if (e->when.day >= removed && !late)
        return LS_DONE;
    return ls_run_say(r, LS_MISTAKE,
                      "%s is %s the birds left %s (%s): check the day; --sure records it all the "
                      "same",
                      ls_when_text(r->arena, e->when), late ? "more than a year after" : "before",
                      house->name.text, ls_date_iso(r->arena, removed));
}

/* On a day on which the field may be spread. */
int ls_haul_entry_check_window(ls_run *r, const ls_log_entry *e) {
    const char *unknown = NULL;
    ls_hauled_drops drops =
        ls_hauled_places(r->arena, r->books.farm, e->words[LS_LOG_FIELD], e->tons, &unknown);
    for (size_t i = 0; i < drops.n && !ls_run_given(r, LS_OPTION_SURE); i++) {
        const ls_field *f = drops.at[i].field;
        if (f == NULL || ls_field_allows(f, e->when.day))
            continue;
        return ls_run_say(r, LS_MISTAKE,
                          "%s lies outside of the days on which %s may be spread, %s to %s: check "
                          "day and field; --sure records it all the same",
                          ls_when_text(r->arena, e->when), f->name.text,
                          ls_date_iso(r->arena, f->allowed.from),
                          ls_date_iso(r->arena, f->allowed.to));
    }
    return LS_DONE;
}

int ls_haul_entry_check(ls_run *r, const ls_log_entry *e) {
    const ls_house *house;
    const char *field = e->words[LS_LOG_FIELD];
    int code = check_lot(r, e, &house);
    if (code == LS_DONE && field[0] != '\0')
        code = check_field(r, e);
    if (ls_run_given(r, LS_OPTION_SURE))
        return code;
    if (code == LS_DONE)
        code = check_truck(r, e);
    if (code == LS_DONE)
        code = ls_haul_entry_check_window(r, e);
    return code == LS_DONE ? check_day(r, e, house) : code;
}

/* Above a full body of the densest litter there may be (the 90 % point). */
int ls_haul_entry_check_body(ls_run *r, const ls_log_entry *e) {
    const ls_truck *truck = truck_of(r->books.farm, e->words[LS_LOG_TRUCK]);
    const ls_lot *lot = ls_books_lot_of(r->books.estimate, e->ticket.code);
    if (ls_run_given(r, LS_OPTION_SURE) || truck == NULL || !LS_GIVEN(truck->body) || lot == NULL)
        return LS_DONE;
    ls_drawn density = ls_drawn_of(lot->loose_density);
    ls_draw(r->books.sheet, r->books.seed, LS_BLOCK, &density, 1);
    double most = truck->body.value * density.high;
    if (e->tons <= most * (1 + 1e-9))
        return LS_DONE;
    return ls_run_say(r, LS_MISTAKE,
                      "%s ton is more than a full body of this litter holds (%s of it weigh %s ton "
                      "at most): check the number; --sure records it all the same",
                      ls_log_tons_text(r->arena, e->tons), truck->body.text,
                      ls_log_tons_text(r->arena, most));
}
