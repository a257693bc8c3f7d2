/* The calendar of a cleanout: working days, the hours in which something is out, and moments as
 * working time. */
#include "days.h"

#include "plan.h"

static bool works_on(const ls_crew *crew, ls_date day) {
    for (size_t i = 0; i < crew->hold_days.n; i++)
        if (crew->hold_days.at[i].day == day && ls_hold_whole(&crew->hold_days.at[i])) return false;
    return !(crew->days_off >> ls_date_weekday(day) & 1u);
}

ls_date ls_haul_empty(const ls_haul_planner *p, size_t lot) {
    const ls_house *house = ls_haul_lot(p, lot)->house;
    ls_date day = ls_haul_first_day(p);
    for (size_t i = 0; i < house->flocks.n; i++)
        if (LS_GIVEN(house->flocks.at[i].removed) && house->flocks.at[i].removed.day > day)
            day = house->flocks.at[i].removed.day;
    return day;
}

ls_sim_time ls_haul_work_time(const ls_haul_planner *p, ls_date day, ls_sim_time second) {
    const ls_haul_clock *c = &p->clock;
    size_t k = 0;
    while (k < c->on.n && c->on.at[k] < day) k++;
    ls_sim_time into = k < c->on.n && c->on.at[k] == day ? second - c->dawn : 0;
    into = into < 0 ? 0 : into > c->day ? c->day : into;
    return (ls_sim_time)k * c->day + into;
}

ls_moment ls_haul_moment(const ls_haul_planner *p, ls_sim_time t) {
    ls_sim_time day = t / p->clock.day;
    return (ls_moment){p->clock.on.at[day], (long)(p->clock.dawn + t - day * p->clock.day)};
}

ls_moment ls_haul_moment_end(const ls_haul_planner *p, ls_sim_time t) {
    if (t == 0 || t % p->clock.day > 0) return ls_haul_moment(p, t);
    ls_moment m = ls_haul_moment(p, t - 1);
    m.second++;
    return m;
}

/* Out of working time only. */
static void put(ls_haul_planner *p, ls_sim_who who, ls_instant from, ls_instant until) {
    ls_sim_out out = {who, ls_haul_work_time(p, from.day, 60 * from.minute),
                      ls_haul_work_time(p, until.day, 60 * until.minute)};
    if (out.from < out.to) *LS_PUSH(p->arena, &p->clock.out) = out;
}

/* The log tells when a load was spread: its truck is back after the way from there. */
static ls_sim_time back_of(const ls_haul_planner *p, const ls_hauled *load, size_t kind) {
    const ls_buyer *to = load->n == 0 ? NULL : load->drops[load->n - 1].buyer;
    return load->second +
           (to == NULL ? 0 : p->clock.road[kind * p->buyers + (size_t)(to - p->farm->buyers.at)]);
}

static bool is_on_road(const ls_haul_planner *p, size_t kind, size_t truck) {
    for (size_t k = p->clock.out.n - p->clock.on_road; k < p->clock.out.n; k++)
        if (p->clock.out.at[k].who.kind == kind && p->clock.out.at[k].who.truck == truck)
            return true;
    return false;
}

/* Trucks with loads of that day that are not back when the plan begins; the log need not tell
 * which of its kind a truck is. */
static void list_on_road(ls_haul_planner *p, ls_date first, bool told) {
    for (size_t i = 0; i < p->farm->hauled.n; i++) {
        const ls_hauled *load = &p->farm->hauled.at[i];
        if (load->day != first || load->second < 0 || (load->truck_number > 0) != told ||
            (load->truck == NULL && p->kinds > 1))
            continue;
        size_t kind = load->truck == NULL ? 0 : (size_t)(load->truck - p->farm->trucks.at),
               trucks = (size_t)p->farm->trucks.at[kind].count.n,
               truck = told ? (size_t)load->truck_number - 1 : 0;
        while (!told && truck + 1 < trucks && is_on_road(p, kind, truck)) truck++;
        ls_sim_out out = {{LS_SIM_TRUCK, kind, truck},
                          ls_haul_work_time(p, first, p->from_second),
                          ls_haul_work_time(p, first, back_of(p, load, kind))};
        if (out.from < out.to) *LS_PUSH(p->arena, &p->clock.out) = out, p->clock.on_road++;
    }
}

static void list_out(ls_haul_planner *p, ls_date first) {
    static const ls_sim_what what[] = {[LS_OUT_LOADER] = LS_SIM_LOADER,
                                       [LS_OUT_HANDS] = LS_SIM_HANDS,
                                       [LS_OUT_TRUCK] = LS_SIM_TRUCK};
    const ls_crew *crew = p->farm->crew;
    ls_sim_who all = {.what = LS_SIM_ALL};
    put(p, all, (ls_instant){.day = first},
        (ls_instant){.day = first, .minute = p->from_second / 60});
    for (size_t i = 0; i < crew->hold_days.n; i++) {
        const ls_hold *h = &crew->hold_days.at[i];
        put(p, all, (ls_instant){.day = h->day, .minute = h->from},
            (ls_instant){.day = h->day, .minute = h->until});
    }
    for (size_t i = 0; i < crew->out.n; i++) {
        const ls_out *o = &crew->out.at[i];
        bool truck = o->is == LS_OUT_TRUCK;
        put(p, (ls_sim_who){what[o->is], truck ? o->truck : 0, truck ? (size_t)o->number - 1 : 0},
            o->from, o->until);
    }
    list_on_road(p, first, true);
    list_on_road(p, first, false);
}

void ls_haul_calendar(ls_haul_planner *p) {
    ls_date first = ls_haul_first_day(p);
    for (ls_date day = first; day < first + LS_HAUL_MOST_DAYS; day++)
        if (works_on(p->farm->crew, day)) *LS_PUSH(p->arena, &p->clock.on) = day;
    list_out(p, first);
}
