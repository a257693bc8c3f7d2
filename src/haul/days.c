/* The calendar of a cleanout: lot after lot, slats off, loads at their pace, slats back. */
#include "plan.h"

#include <math.h>

enum { MOST_DAYS = 3650 };

typedef struct {
    const ls_haul_planner *p;
    ls_date day;
    double left; /* of the working day */
    bool late;   /* no end in sight */
    ls_haul_works *works;
} clock;

static bool works_on(const ls_crew *crew, ls_date day) {
    if (crew->days_off >> ls_date_weekday(day) & 1u)
        return false;
    for (size_t i = 0; i < crew->hold_days.n; i++)
        if (crew->hold_days.at[i].day == day)
            return false;
    return true;
}

/* The first working day not before day. */
static void begin(clock *c, ls_date day) {
    const ls_crew *crew = c->p->farm->crew;
    ls_date last = crew->arrives.day + MOST_DAYS;
    while (day < last && !works_on(crew, day))
        day++;
    c->late = c->late || day >= last;
    c->day = day;
    c->left = c->p->day_length;
}

static void note_work(clock *c, size_t lot, ls_haul_task_kind kind) {
    if (c->works != NULL)
        *LS_PUSH(c->p->arena, c->works) = (ls_haul_work){c->day, lot, kind};
}

/* Slats may be left half moved over night. */
static void move_slats(clock *c, size_t lot, ls_haul_task_kind kind) {
    double time = c->p->slats_time[lot];
    while (time > 1e-9 && !c->late) {
        if (c->left < 1e-9)
            begin(c, c->day + 1);
        double now = fmin(time, c->left);
        note_work(c, lot, kind);
        c->left -= now;
        time -= now;
    }
}

/* A load is hauled within a day, unless it takes longer than a day is. */
static void haul(clock *c, ls_haul_trip *trip) {
    if (c->left < trip->pace - 1e-9 && c->left < c->p->day_length)
        begin(c, c->day + 1);
    note_work(c, trip->lot, LS_HAUL_LOAD);
    trip->day = c->day;
    double rest = trip->pace - c->left;
    c->left = fmax(0, c->left - trip->pace);
    while (rest > 1e-9 && !c->late) {
        begin(c, c->day + 1);
        c->left = fmax(0, c->p->day_length - rest);
        rest -= c->p->day_length;
    }
}

ls_date ls_haul_empty(const ls_haul_planner *p, size_t lot) {
    const ls_house *house = ls_haul_lot(p, lot)->house;
    ls_date day = ls_haul_first_day(p);
    for (size_t i = 0; i < house->flocks.n; i++)
        if (LS_GIVEN(house->flocks.at[i].removed) && house->flocks.at[i].removed.day > day)
            day = house->flocks.at[i].removed.day;
    return day;
}

static void note_day(ls_haul_range *range, ls_date day) {
    if (range->from == LS_NO_DATE || day < range->from)
        range->from = day;
    if (range->to == LS_NO_DATE || day > range->to)
        range->to = day;
}

static bool in_time(const clock *c) {
    if (c->late)
        ls_diag_add(c->p->farm->diag, LS_ERROR, c->p->farm->crew->arrives.at,
                    "look at the crew's hours, days off and trucks",
                    "the work would take more than %d days", MOST_DAYS);
    return !c->late;
}

bool ls_haul_days(ls_haul_planner *p, ls_haul_trip *trips, size_t n, ls_haul_range *days,
                  ls_haul_works *works) {
    clock c = {.p = p, .works = works};
    for (size_t i = 0; i < p->lots; i++)
        days[i] = (ls_haul_range){LS_NO_DATE, LS_NO_DATE};
    begin(&c, ls_haul_first_day(p));
    for (size_t k = 0; k < n && !c.late;) {
        size_t lot = trips[k].lot;
        if (ls_haul_empty(p, lot) > c.day)
            begin(&c, ls_haul_empty(p, lot));
        if (p->gone == NULL || p->gone->last[p->lot_of[lot]] == LS_NO_DATE)
            move_slats(&c, lot, LS_HAUL_SLATS_OFF);
        for (; k < n && trips[k].lot == lot && !c.late; k++) {
            haul(&c, &trips[k]);
            note_day(&days[lot], trips[k].day);
        }
        move_slats(&c, lot, LS_HAUL_SLATS_BACK);
    }
    return in_time(&c);
}
