/* How long things take: loading, the road, spreading, moving slats. Times are days; days and dates
 * are no figures of the worksheet. */
#include "plan.h"

#include <math.h>

static double practice(const ls_haul_planner *p, const char *row) {
    return ls_reference_need(p->reference, "practice", "", row, "value")->value;
}

/* A quantity of the farm, or else the figure of common practice, said aloud. */
static double given_or(ls_haul_planner *p, const ls_quantity *q, const char *row,
                       const char *what) {
    if (LS_GIVEN(*q) && q->value > 0)
        return q->value;
    const ls_figure *f = ls_reference_need(p->reference, "practice", "", row, "value");
    ls_haul_note(p, "%s is not given: %s %s is taken, %s%s%s.", what,
                 ls_number_text(p->arena, f->value / f->unit.factor, 3), f->unit.text,
                 ls_status_words(f->status), f->own == NULL ? "" : ", from the farm's own tables, ",
                 f->own == NULL ? "" : f->own);
    return f->value;
}

/* ---- loading ---- */

static double loose_density(const ls_haul_planner *p, size_t lot) {
    const char *key = ls_arena_printf(p->arena, "%s.loose_density", p->e->lots[lot].house->slug);
    return ls_line_value(p->w, ls_line_find(p->w, key));
}

/* Whole buckets; each goes half the house's length out and back. */
static double load_time(ls_haul_planner *p, size_t lot) {
    static const ls_quantity none;
    const ls_loader *loader = p->farm->crew->loader;
    if (loader == NULL)
        return given_or(p, &none, "loading time", "How long a truck takes to load");
    double cycle = loader->load_and_dump.value;
    const ls_quantity *length = &p->e->lots[lot].house->length;
    if (LS_GIVEN(*length))
        cycle += length->value / loader->travel.value;
    double bucket = loader->bucket.value * loader->fill.value * loose_density(p, lot);
    double buckets = ceil(p->payload[lot] * 2000 / bucket - 1e-9);
    return (buckets >= 1 ? buckets : 1) * cycle;
}

/* ---- slats ---- */

static double slats_time(ls_haul_planner *p, size_t lot) {
    const ls_house *house = p->e->lots[lot].house;
    const ls_slat_crew *slats = p->farm->crew->slats;
    if (!(ls_house_share(house, LS_SLATS) > 0))
        return 0;
    if (slats == NULL) {
        ls_haul_note(p, "The crew says nothing of moving slats: no time is counted for it.");
        return 0;
    }
    double sections = (double)(LS_GIVEN(house->sections) ? house->sections.n : slats->sections.n);
    double sides = house->sides.n > 0 ? (double)house->sides.n : 1;
    return sections / sides / slats->pace.value;
}

/* ---- road and field ---- */

/* One way; not given: nothing, said aloud. */
static double road_time(ls_haul_planner *p, const ls_buyer *b, double speed) {
    if (LS_GIVEN(b->distance))
        return 2 * b->distance.value / speed;
    ls_haul_note(p, "The distance to %s is not given: no time and no cost of the road is counted.",
                 b->name.text);
    return 0;
}

void ls_haul_times(ls_haul_planner *p) {
    const ls_truck *truck = &p->farm->trucks.at[0];
    p->day_length =
        given_or(p, &p->farm->crew->hours, "working day", "The length of the crew's day");
    double road = given_or(p, &truck->road, "road speed", "The trucks' speed on the road");
    double swath = given_or(p, &truck->swath, "swath", "The width the trucks spread");
    double speed =
        given_or(p, &truck->spreading, "spreading speed", "The trucks' speed when spreading");
    double acres_a_day = swath * speed * practice(p, "field efficiency") / ls_unit_of("ac").factor;
    for (size_t b = 0; b < p->buyers; b++)
        p->road_time[b] = road_time(p, &p->farm->buyers.at[b], road);
    for (size_t i = 0; i < p->lots; i++) {
        p->load_time[i] = load_time(p, i);
        p->slats_time[i] = slats_time(p, i);
        for (size_t f = 0; f < p->fields; f++) {
            double rate = p->rate[ls_haul_pair(p, i, f)];
            p->spread_time[ls_haul_pair(p, i, f)] =
                rate > 0 ? p->payload[i] / rate / acres_a_day : 0;
        }
    }
}

double ls_haul_pace(const ls_haul_planner *p, size_t lot, size_t field) {
    double trip = p->load_time[lot];
    if (field != LS_HAUL_TO_STACK)
        trip += p->road_time[p->buyer[field]] + p->spread_time[ls_haul_pair(p, lot, field)];
    return fmax(p->load_time[lot], trip / (double)p->farm->trucks.at[0].count.n);
}
