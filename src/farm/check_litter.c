/* Checks among the keys of bedding, of litter taken out before and of earlier cleanouts. */
#include "reader.h"

static bool has_bale(const ls_farm_reader *reader, const ls_name *material) {
    const ls_row *row = ls_table_row(ls_reference_table(reader->reference, "bedding", ""), material->text);
    return ls_row_figure(row, "bale") != NULL;
}

void ls_farm_check_bedding(ls_farm_reader *reader, void *section, bool clean) {
    enum { LB_BALE = 40 }; /* a small square bale, to show what is wanted; common practice */
    const ls_bedding *b = section;
    if (clean && LS_GIVEN(b->bales) && !has_bale(reader, &b->material))
        LS_FARM_WRONG(reader, b->bales.at,
                      ls_arena_printf(reader->arena,
                                      "weigh one, and give the weight of all; if one has %d lb: "
                                      "\"weight: %s ton\"",
                                      LB_BALE, ls_number_text(reader->arena, (double)b->bales.n * LB_BALE / 2000, 2)),
                      "no weight of a bale of %s is known", b->material.text);
}

static bool is_share(const ls_quantity *q) { return ls_dimension_none(q->unit.dimension); }

/* A depth goes with an area. */
static void check_by_depth(ls_farm_reader *reader, const ls_already_out *o) {
    if (LS_GIVEN(o->depth) && !LS_GIVEN(o->area))
        LS_FARM_WRONG(reader, o->depth.at,
                      "add the area, for example \"area: 6000 ft2\" or \"area: 40 %\" of the floor",
                      "a depth taken out needs the area it was taken off");
    if (LS_GIVEN(o->area) && is_share(&o->area) && o->area.value > 1)
        LS_FARM_WRONG(reader, o->area.at, "give its share of the whole floor", "the area is more than the floor: %s%%",
                      ls_number_text(reader->arena, 100 * o->area.value, 5));
}

void ls_farm_check_already_out(ls_farm_reader *reader, void *section, bool clean) {
    const ls_already_out *o = section;
    if (clean) check_by_depth(reader, o);
}

bool ls_taken_is_cake(const ls_already_out *taken, int bird) {
    if (taken->what.is) return taken->what.is == LS_TAKEN_CAKE;
    return !ls_bird_is(bird, LS_LAYS);
}

void ls_farm_check_cleanout(ls_farm_reader *reader, void *section, bool clean) {
    const ls_cleanout *c = section;
    if (clean && !LS_GIVEN(c->bird_days) && !LS_GIVEN(c->feed) && !LS_GIVEN(c->flocks) && !LS_GIVEN(c->from))
        LS_FARM_WRONG(reader, c->at,
                      "add the flocks before it, for example \"flocks: 6\"; or of birds that "
                      "stayed the day they came: \"from: 2024-03-04\"; or \"feed: 300 ton\"; or "
                      "\"bird_days: 2280000\"",
                      "this last cleanout does not say what birds it is of");
    if (ls_day_known(c->from) && ls_day_known(c->date) && c->from.day >= c->date.day)
        LS_FARM_WRONG(reader, c->from.at, "check both dates", "these birds came after that cleanout");
    for (size_t i = 0; i < c->cake.n; i++) {
        const ls_day *day = &c->cake.at[i].date;
        if (LS_GIVEN(*day) && day->day != LS_NO_DATE && c->date.day != LS_NO_DATE && day->day > c->date.day)
            LS_FARM_WRONG(reader, day->at, "what was taken out since stands under already_out of the house",
                          "this was taken out after that cleanout, %s", ls_date_iso(reader->arena, c->date.day));
    }
}
