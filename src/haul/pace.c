/* How long things take: the road, spreading, moving slats, the day. */
#include "plan.h"

#include <math.h>

enum { DAY = 24 * 60 * 60 };

/* ---- slats ---- */

/* Sections of one side over the sections moved in an hour. */
static ls_line slats_line(ls_haul_planner *p, const ls_house *h, const ls_slat_crew *slats) {
    ls_worksheet *w = ls_part(p->w, NULL, "days-slats.%s", h->slug);
    bool own = LS_GIVEN(h->sections);
    ls_line sections = ls_leaf_count(own ? w : p->w, own ? "sections" : "crew.slat-sections",
                                     "slat sections in a house", "", own ? &h->sections : &slats->sections);
    ls_line sides = ls_leaf_exact(w, "sides", "sides of the house", "", h->sides.n > 0 ? (double)h->sides.n : 1,
                                  LS_BY_DEFINITION, NULL);
    ls_line each = ls_leaf(p->w, "crew.slat-time", "time to move one section", "min", 1 / slats->pace.value,
                           ls_spread_exact(), (ls_origin){LS_BY_FARM, slats->pace.at, NULL, slats->pace.text});
    ls_line side = ls_quotient(w, "side", "slat sections on one side", "", sections, sides);
    return LS_PRODUCT(w, "move", "moving the slats of a side off, or back", "h", side, each);
}

static ls_sim_time slats_time(ls_haul_planner *p, size_t lot) {
    const ls_house *house = ls_haul_lot(p, lot)->house;
    const ls_slat_crew *slats = p->farm->crew->slats;
    if (!(ls_house_share(house, LS_SLATS) > 0)) return 0;
    if (slats == NULL) {
        ls_haul_note(p, "The crew has no slat figures: no time is counted to move slats.");
        return 0;
    }
    return ls_haul_whole(ls_haul_seconds(p, slats_line(p, house, slats)));
}

/* ---- road and field ---- */

/* "days-road.speed", of the second kind of truck "days-road.truck-2.speed". */
static ls_worksheet *of_kind(const ls_haul_planner *p, size_t kind, const char *lead, const char *of) {
    return kind == 0 ? ls_part(p->w, of, "%s", lead) : ls_part(p->w, of, "%s.truck-%zu", lead, kind + 1);
}

/* One way; not given: nothing, said aloud. */
static ls_sim_time way(ls_haul_planner *p, size_t kind, size_t buyer, ls_line speed) {
    const ls_buyer *b = &p->farm->buyers.at[buyer];
    const char *name = b->name.text;
    if (!LS_GIVEN(b->distance)) {
        ls_haul_note(p, "The distance to %s is not given: no road time and no haul cost is counted.", name);
        return 0;
    }
    ls_line distance = p->trade[buyer].distance =
        ls_leaf_given(ls_haul_of_buyer(p, b), "distance", "distance to %s", "mi", &b->distance);
    ls_line line = ls_quotient(ls_part(of_kind(p, kind, "days-road", name), name, "%s", b->slug), "way",
                               "one way to %s", "min", distance, speed);
    return ls_haul_whole(ls_haul_seconds(p, line));
}

static double seconds_an_acre(ls_haul_planner *p, size_t kind) {
    ls_worksheet *w = of_kind(p, kind, "days-spreading", NULL);
    const ls_truck *truck = &p->farm->trucks.at[kind];
    ls_line swath = ls_haul_given_or(p, w, "swath", "width of a spreading pass", "ft", &truck->swath, "swath",
                                     "The width the trucks spread");
    ls_line speed = ls_haul_given_or(p, w, "speed", "speed when spreading", "mph", &truck->spreading, "spreading speed",
                                     "The trucks' speed when spreading");
    ls_line efficiency = ls_haul_given_or(p, w, "efficiency", "share of the time in the field spent spreading", "%",
                                          NULL, "field efficiency", NULL);
    ls_line pace = LS_PRODUCT(w, "pace", "acres spread in an hour", "ac/h", swath, speed, efficiency);
    return 3600 / ls_line_shown(w, pace);
}

/* ---- the day ---- */

/* In a default day that would pass midnight the crew begins earlier. */
static ls_sim_time dawn(ls_haul_planner *p) {
    const ls_clock *starts = &p->farm->crew->starts;
    if (LS_GIVEN(*starts)) return 60 * starts->minute;
    const ls_figure *f = ls_haul_practice(p, "start of the day");
    ls_sim_time usual = ls_haul_whole(f->value * DAY);
    usual = usual + p->clock.day > DAY ? DAY - p->clock.day : usual;
    ls_haul_note(p, "The start of the working day is not given: %s is used, %s.", ls_clock_words(p->arena, (long)usual),
                 ls_status_words(f->status));
    return usual;
}

void ls_haul_times(ls_haul_planner *p) {
    ls_haul_clock *c = &p->clock;
    if (p->farm->crew->loader != NULL) p->plan->loading_of = p->loading_of = LS_NEW(p->arena, ls_loading, p->e->n);
    c->road = LS_NEW(p->arena, ls_sim_time, p->kinds * p->buyers);
    c->acre = LS_NEW(p->arena, double, p->kinds);
    c->slats = LS_NEW(p->arena, ls_sim_time, p->lots);
    c->bucket = LS_NEW(p->arena, double, p->lots);
    c->cycle = LS_NEW(p->arena, double, p->lots);
    ls_line hours = ls_haul_given_or(p, p->w, "days-hours", "working time in a day", "h/day", &p->farm->crew->hours,
                                     "working day", "The length of the crew's day");
    c->day = ls_haul_whole(fmax(1, ls_line_value(p->w, hours) * DAY));
    c->dawn = dawn(p);
    ls_line *speed = LS_NEW(p->arena, ls_line, p->kinds);
    for (size_t k = 0; k < p->kinds; k++) {
        speed[k] = ls_haul_given_or(p, of_kind(p, k, "days-road", NULL), "speed", "speed on the road", "mph",
                                    &p->farm->trucks.at[k].road, "road speed", "The trucks' speed on the road");
        c->acre[k] = seconds_an_acre(p, k);
    }
    bool dumped = p->stack_tons > 0;
    for (size_t f = 0; f < p->fields; f++) dumped = dumped || p->field[f]->yard;
    c->dump = ls_haul_whole(ls_haul_seconds(
        p, ls_haul_given_or(p, p->w, "days-loading.dump", "time to empty a truck at a stack or yard", "min", NULL,
                            "dump time", dumped ? "How long a truck takes to empty at a stack or yard" : NULL)));
    for (size_t k = 0; k < p->kinds; k++)
        for (size_t b = 0; b < p->buyers; b++) c->road[k * p->buyers + b] = way(p, k, b, speed[k]);
    for (size_t i = 0; i < p->lots; i++) {
        ls_haul_loading(p, i);
        c->slats[i] = slats_time(p, i);
    }
}

/* ---- trips ---- */

/* To spread the tons, or to empty the truck at a yard. */
static ls_sim_time spread_time(const ls_haul_planner *p, size_t kind, size_t field, double rate, double tons) {
    if (p->field[field]->yard) return p->clock.dump;
    return rate > 0 ? ls_haul_whole(fmin(tons / rate * p->clock.acre[kind], 1e12)) : 0;
}

ls_sim_job ls_haul_trip_of(const ls_haul_planner *p, const ls_split *s, const ls_split_load *l) {
    ls_sim_job job = {.load = ls_haul_load_time(p, l->lot, l->tons), .kind = p->kind_of[l->lot]};
    if (l->n == 0) { /* to the stack */
        job.empty = p->clock.dump;
        return job;
    }
    job.out = job.back = p->clock.road[job.kind * p->buyers + l->buyer];
    LS_EACH_OF (const ls_split_drop, d, s->drops + l->first, l->n)
        job.empty += spread_time(p, job.kind, d->field, ls_haul_drop_rate(p, d), d->tons);
    return job;
}

ls_sim_job ls_haul_full_trip(const ls_haul_planner *p, size_t lot, size_t field) {
    ls_split_drop drop = {.lot = lot, .field = field, .tons = p->payload[lot]};
    ls_split_load load = {.lot = lot, .tons = p->payload[lot]};
    if (field != LS_HAUL_TO_STACK) load.buyer = p->buyer[field], load.n = 1;
    return ls_haul_trip_of(p, &(ls_split){.drops = &drop}, &load);
}
