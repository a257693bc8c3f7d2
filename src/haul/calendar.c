/* The calendar of a cleanout: working days, the hours in which something is out, and moments as working time. */
#include "plan.h"

static bool works_on(const ls_crew *crew, ls_date day) {
    LS_EACH (const ls_hold, h, crew->hold_days)
        if (h->day == day && ls_hold_whole(h)) return false;
    return !(crew->days_off >> ls_date_weekday(day) & 1u);
}

ls_date ls_haul_empty(const ls_haul_planner *p, size_t lot) {
    const ls_house *house = ls_haul_lot(p, lot)->house;
    ls_date day = ls_haul_first_day(p);
    LS_EACH (const ls_flock, f, house->flocks)
        if (LS_GIVEN(f->removed) && f->removed.day > day) day = f->removed.day;
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

/* Out of working time only; seconds of the days. */
static void put(ls_haul_planner *p, ls_sim_who who, ls_date from, ls_sim_time from_second, ls_date until,
                ls_sim_time until_second) {
    ls_sim_out out = {who, ls_haul_work_time(p, from, from_second), ls_haul_work_time(p, until, until_second)};
    if (out.from < out.to) *LS_PUSH(p->arena, &p->clock.out) = out;
}

/* The log tells when a load was spread: its truck is back after the way from there. */
static ls_sim_time back_of(const ls_haul_planner *p, const ls_hauled *load, size_t kind) {
    const ls_buyer *to = load->n == 0 ? NULL : load->drops[load->n - 1].buyer;
    return load->second + (to == NULL ? 0 : p->clock.road[kind * p->buyers + (size_t)(to - p->farm->buyers.at)]);
}

static bool is_on_road(const ls_haul_planner *p, size_t kind, size_t truck) {
    LS_EACH (const ls_sim_out, o, p->clock.out)
        if (o >= p->clock.out.at + p->clock.out.n - p->clock.on_road && o->who.kind == kind && o->who.truck == truck)
            return true;
    return false;
}

/* Trucks with loads of that day that are not back when the plan begins; the log need not tell
 * which of its kind a truck is. */
static void list_on_road(ls_haul_planner *p, ls_date first, bool told) {
    LS_EACH (const ls_hauled, load, p->farm->hauled) {
        if (load->day != first || load->second < 0 || (load->truck_number > 0) != told ||
            (load->truck == NULL && p->kinds > 1))
            continue;
        size_t kind = load->truck == NULL ? 0 : (size_t)(load->truck - p->farm->trucks.at),
               trucks = (size_t)p->farm->trucks.at[kind].count.n, truck = told ? (size_t)load->truck_number - 1 : 0,
               n = p->clock.out.n;
        while (!told && truck + 1 < trucks && is_on_road(p, kind, truck)) truck++;
        put(p, (ls_sim_who){LS_SIM_TRUCK, kind, truck}, first, p->from_second, first, back_of(p, load, kind));
        p->clock.on_road += p->clock.out.n - n;
    }
}

static void list_out(ls_haul_planner *p, ls_date first) {
    static const ls_sim_what what[] = {
        [LS_OUT_LOADER] = LS_SIM_LOADER, [LS_OUT_HANDS] = LS_SIM_HANDS, [LS_OUT_TRUCK] = LS_SIM_TRUCK};
    ls_sim_who all = {.what = LS_SIM_ALL};
    put(p, all, first, 0, first, p->from_second / 60 * 60);
    LS_EACH (const ls_hold, h, p->farm->crew->hold_days) put(p, all, h->day, 60 * h->from, h->day, 60 * h->until);
    LS_EACH (const ls_out, o, p->farm->crew->out) {
        bool truck = o->is == LS_OUT_TRUCK;
        put(p, (ls_sim_who){what[o->is], truck ? o->truck : 0, truck ? (size_t)o->number - 1 : 0}, o->from.day,
            60 * o->from.minute, o->until.day, 60 * o->until.minute);
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
