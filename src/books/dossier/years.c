/* Totals year by year. */
#include "room.h"

/* The days between which loads of a farm went out: "2026-02-16 to 2026-02-18"; or in words. */
static const char *years_of(ls_arena *a, const ls_farm *farm, bool words) {
    ls_window days = ls_dossier_span(farm);
    if (days.from == LS_NO_DATE) return "nothing hauled yet";
    return words ? ls_arena_printf(a, "%s to %s", ls_date_words(a, days.from, 0), ls_date_words(a, days.to, 0))
                 : ls_arena_printf(a, "%s to %s", ls_date_iso(a, days.from), ls_date_iso(a, days.to));
}

static void add_year(ls_dossier *d, size_t file) {
    const ls_farm *farm = ls_dossier_farm(d, file);
    ls_worksheet *w = ls_part(d->sheet, NULL, "year-%zu", file);
    ls_dossier_gone gone = {0};
    ls_books_lines birds = {0}, acres = {0}, used = {0};
    LS_EACH (const ls_house, h, farm->houses)
        for (int bird = 1; bird < LS_BIRDS; bird++) *LS_PUSH(d->arena, &birds) = ls_dossier_housed(d, file, h, bird);
    LS_EACH (const ls_buyer, b, farm->buyers)
        LS_EACH (const ls_field, f, b->fields) {
            ls_line area = ls_dossier_area(d, file, b, f);
            *LS_PUSH(d->arena, &acres) = area;
            if (ls_dossier_parts_on(farm, f) > 0) *LS_PUSH(d->arena, &used) = area;
        }
    for (size_t i = 0; i < farm->hauled.n; i++) ls_dossier_add_load(d, file, i, &gone);
#define SUM(what, label, unit, lines) ls_sum(w, what, label, unit, lines.at, lines.n)
    *LS_PUSH(d->arena, &d->years) = (ls_dossier_year){years_of(d->arena, farm, false),
                                                      years_of(d->arena, farm, true),
                                                      ls_dossier_file(d, file),
                                                      farm,
                                                      SUM("birds", "birds", "bird", birds),
                                                      SUM("out", "out of the houses", "ton", gone.out),
                                                      SUM("moved", "moved to others", "ton", gone.moved),
                                                      SUM("own", "on own fields", "ton", gone.own),
                                                      SUM("acres", "acres in the plan", "ac", acres),
                                                      SUM("used", "acres used", "ac", used)};
#undef SUM
}

void ls_dossier_make_years(ls_dossier *d) {
    for (size_t i = 0; i <= d->books->earlier.n; i++) add_year(d, i);
}
