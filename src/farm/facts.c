/* What follows from a few keys of a farm alone. */
#include "reader.h"

#include <stdlib.h>
#include <string.h>

bool ls_farm_is_quarantined(const ls_farm *farm) {
    return farm != NULL && farm->facts != NULL && farm->facts->quarantine.yes;
}

int ls_farm_year(const ls_farm *farm) {
    int last = 0;
    if (farm->crew != NULL && LS_GIVEN(farm->crew->arrives)) return ls_date_year(farm->crew->arrives.day);
    for (size_t i = 0; i < farm->houses.n; i++)
        for (size_t k = 0; k < farm->houses.at[i].flocks.n; k++) {
            const ls_day *removed = &farm->houses.at[i].flocks.at[k].removed;
            if (LS_GIVEN(*removed) && ls_date_year(removed->day) > last) last = ls_date_year(removed->day);
        }
    return last;
}

double ls_house_share(const ls_house *h, ls_zone z) {
    if (!h->floor) return z == LS_FLOOR ? 1 : 0;
    switch (z) {
    case LS_SLATS: return h->floor->slats.value;
    case LS_SCRATCH: return h->floor->scratch.value;
    case LS_FLOOR: return h->floor->floor.value;
    case LS_ZONES: break;
    }
    return 0;
}

size_t ls_house_strips(const ls_house *h, ls_zone z, ls_strip strips[2]) {
    double slats = ls_house_share(h, LS_SLATS) / 2, floor = slats + ls_house_share(h, LS_FLOOR) / 2;
    if (!(ls_house_share(h, z) > 0)) return 0;
    if (z == LS_SCRATCH) {
        strips[0] = (ls_strip){floor, 1 - floor};
        return 1;
    }
    double from = z == LS_SLATS ? 0 : slats, to = z == LS_SLATS ? slats : floor;
    strips[0] = (ls_strip){from, to};
    strips[1] = (ls_strip){1 - to, 1 - from};
    return 2;
}

double ls_truck_payload(const ls_truck *t) {
    double by_gross = t->gross.value - t->tare.value;
    if (!LS_GIVEN(t->gross) || !LS_GIVEN(t->tare)) return t->payload.value;
    return LS_GIVEN(t->payload) && t->payload.value < by_gross ? t->payload.value : by_gross;
}

bool ls_field_is_named(const char *name, const ls_buyer *buyer, const ls_field *field) {
    size_t n = buyer->name.text == NULL ? 0 : strlen(buyer->name.text);
    return ls_text_same(name, field->name.text) || (n > 0 && strncmp(name, buyer->name.text, n) == 0 &&
                                                    name[n] == '/' && ls_text_same(name + n + 1, field->name.text));
}

bool ls_truck_spreads_on(const ls_truck *truck, const ls_buyer *buyer, const ls_field *field) {
    bool may = field->yard || (truck->fields.n == 0 && truck->only.is != LS_ONLY_ROAD);
    for (size_t i = 0; i < truck->fields.n; i++)
        may = may || ls_field_is_named(truck->fields.at[i].name.text, buyer, field);
    return may;
}

/* "Small 2" of Small; 0: it is no such name. */
static long number_of(const ls_truck *truck, const char *own, const char *name) {
    size_t n = own == NULL || name == NULL ? 0 : strlen(own);
    if (n == 0 || strncmp(name, own, n) != 0 || name[n] != ' ') return 0;
    char *end;
    long number = strtol(name + n + 1, &end, 10);
    return number > 0 && number <= truck->count.n && *end == '\0' ? number : 0;
}

long ls_farm_truck_number(const ls_truck *truck, const char *name) {
    long number = number_of(truck, truck->name.text, name);
    return number > 0 ? number : number_of(truck, truck->formerly.text, name);
}

const ls_truck *ls_farm_truck_named(const ls_farm *f, const char *name) {
    const ls_truck *one = NULL;
    for (size_t i = 0; i < f->trucks.n; i++) {
        const ls_truck *truck = &f->trucks.at[i];
        if (ls_text_same(truck->name.text, name) || ls_text_same(truck->formerly.text, name)) return truck;
        one = ls_farm_truck_number(truck, name) > 0 ? truck : one;
    }
    return one;
}

const char *ls_farm_truck_called(ls_arena *a, const ls_truck *truck, long number) {
    const char *name = truck->name.text == NULL ? "truck" : truck->name.text;
    return truck->count.n == 1 ? name : ls_arena_printf(a, "%s %ld", name, number);
}

int ls_crop_year(const ls_field *f, ls_date day) {
    enum { A_YEAR = 366 };
    ls_date cut = ls_day_known(f->harvested) ? f->harvested.day : LS_NO_DATE;
    if (LS_GIVEN(f->for_crop)) return f->for_crop.n < 0 ? 0 : (int)f->for_crop.n;
    if (day == LS_NO_DATE && cut == LS_NO_DATE) return 0;
    if (cut == LS_NO_DATE || cut > day + A_YEAR) return ls_date_year(day);
    int after = ls_date_year(cut) + (day > cut);
    return day > cut && ls_date_year(day) > after ? ls_date_year(day) : after;
}

int ls_farm_crop_year(const ls_crew *crew, const ls_field *f) {
    return ls_crop_year(f, LS_GIVEN(f->open) && f->open.days.from != LS_NO_DATE ? f->open.days.from
                           : crew != NULL && LS_GIVEN(crew->arrives)            ? crew->arrives.day
                                                                                : LS_NO_DATE);
}
